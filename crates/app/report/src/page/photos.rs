//! Photos in a strip under what they are of, and one photo large.

use workshop::assemble::words::capital;
use workshop::entry::JobId;
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::photos::{PhotoHash, PhotoState, Subject};

use super::forms::photos as forms;
use super::{
    Answer, Button, Form, FormName, Next, Page, Refused, Section, Target, Tone, Weight, frame,
    plain, row, soft, teardown,
};
use crate::words;

/// Photos side by side, and the form to take one more.
#[derive(Clone, Debug)]
pub struct Strip {
    /// The heading; empty where the strip belongs to the card before it.
    pub heading: String,
    /// The photos, in the order taken.
    pub shots: Vec<Shot>,
    /// To take one more; none where nothing is taken, as on paper.
    pub take: Option<Form>,
    /// What to say where there is none.
    pub none: &'static str,
}

/// One photo.
#[derive(Clone, Debug)]
pub struct Shot {
    /// Which picture.
    pub photo: PhotoHash,
    /// Its width and height in pixels.
    pub size: (u32, u32),
    /// Where it is shown large.
    pub target: Target,
    /// What stands under it.
    pub words: String,
    /// What it shows, for whoever does not see it.
    pub alt: String,
    /// Whether the picture is on this bench. Only the edge can know; until it says so, it is not.
    pub here: bool,
}

impl Shot {
    /// What stands in its place where the picture is not on this bench.
    pub fn absent(&self) -> String {
        format!("Photo {}: not on this bench.", self.photo.short())
    }
}

impl Page {
    /// Every photo on it.
    pub fn shots(&mut self) -> Vec<&mut Shot> {
        let mut shots = Vec::new();
        for section in &mut self.evidence {
            match section {
                Section::Photos(strip) => shots.extend(&mut strip.shots),
                Section::Photo(shot) => shots.push(shot),
                _ => {}
            }
        }
        shots
    }
}

/// What a page of photos is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// One photo, large, with its words.
pub fn page(view: &View<'_>, photo: &PhotoHash) -> Page {
    let here = Target::Photo(view.id.clone(), photo.clone());
    let state = view.job.photos.get(photo);
    let (answer, evidence, next) = match state {
        Some(state) => shown(view, photo, state),
        None => gone(view, photo),
    };
    Page {
        title: "Photo".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: Vec::new(),
        answer,
        evidence,
        next,
        cautions: Vec::new(),
    }
}

fn shown(view: &View<'_>, photo: &PhotoHash, state: &PhotoState) -> (Answer, Vec<Section>, Next) {
    let said = &state.photo.value;
    let subject = subject(view.job, &said.subject);
    let words = match said.words.as_str() {
        "" => "No words yet.".to_owned(),
        words => words.to_owned(),
    };
    let answer = Answer {
        tone: Tone::Plain,
        headline: capital(&subject),
        detail: vec![plain(words)],
        origin: "Words by you · place, time and camera are not kept with the picture".to_owned(),
    };
    let mut evidence = vec![Section::Photo(shot(view, photo, state))];
    let open: Vec<String> = frame::objections(view.objections).collect();
    if !said.subject.is_in(view.job) {
        evidence.push(Section::Notes {
            heading: "Open".to_owned(),
            notes: open,
        });
    }
    evidence.push(Section::Facts {
        heading: "The picture".to_owned(),
        rows: vec![
            row(
                "Name",
                vec![plain(photo.short()), soft(" …")],
                "SHA-256 of its bytes",
            ),
            row(
                "Size",
                vec![plain(format!("{} × {} pixels", said.width, said.height))],
                "as kept",
            ),
        ],
    });
    evidence.push(Section::Form(forms::caption(
        view.job,
        photo,
        said,
        view.refused,
    )));
    let away = Button {
        label: "Take it away".to_owned(),
        form: FormName::PutAway,
        values: vec![("photo", photo.to_string())],
        weight: Weight::Plain,
        key: None,
    };
    let next = Next::Ask {
        question: vec![plain("Say what it shows, or take it out of the record.")],
        buttons: std::iter::once(away).chain(frame::undo(view.job)).collect(),
        write: None,
    };
    (answer, evidence, next)
}

/// A photo that was taken away, or never was.
fn gone(view: &View<'_>, photo: &PhotoHash) -> (Answer, Vec<Section>, Next) {
    let answer = Answer {
        tone: Tone::Plain,
        headline: format!("Photo {} is not in this job.", photo.short()),
        detail: vec![plain("It was taken away, or belongs to another job.")],
        origin: String::new(),
    };
    let links = Section::Ways {
        heading: "Go on".to_owned(),
        links: vec![(
            Target::Record(view.id.clone()),
            "Measuring record".to_owned(),
            "with the photos of the whole job".to_owned(),
        )],
    };
    let next = Next::Ask {
        question: vec![plain("Undo brings back what was taken away last.")],
        buttons: frame::undo(view.job),
        write: None,
    };
    (answer, vec![links], next)
}

/// The photos of one thing, under its card, with the form to take one more.
pub(crate) fn strip(
    (id, job): (&JobId, &Job),
    subject: &Subject,
    refused: Option<&Refused>,
) -> Section {
    let view = View {
        id,
        job,
        objections: &[],
        refused,
    };
    let photos = job.photos.of(subject).into_iter();
    Section::Photos(Strip {
        heading: String::new(),
        shots: photos
            .map(|(photo, state)| shot(&view, photo, state))
            .collect(),
        take: Some(forms::take(subject, refused, false)),
        none: "",
    })
}

/// The photos of the whole job, and those that no card shows.
pub(crate) fn of_job((id, job): (&JobId, &Job), refused: Option<&Refused>) -> Section {
    let view = View {
        id,
        job,
        objections: &[],
        refused,
    };
    let mut photos = job.photos.in_order();
    photos.retain(|(_, state)| !has_card(job, &state.photo.value.subject));
    Section::Photos(Strip {
        heading: "Photos of the whole job".to_owned(),
        shots: (photos.into_iter())
            .map(|(photo, state)| shot(&view, photo, state))
            .collect(),
        take: Some(forms::take(&Subject::Job, refused, true)),
        none: "No photo yet.",
    })
}

/// Whether another page shows the photos of this under its card. The list of things does not: their
/// photos stand with those of the whole job.
fn has_card(job: &Job, subject: &Subject) -> bool {
    let carded = !matches!(subject, Subject::Job | Subject::Item(_));
    carded && subject.is_in(job)
}

/// Every photo, for paper.
pub(crate) fn all(id: &JobId, job: &Job) -> Option<Section> {
    let view = View {
        id,
        job,
        objections: &[],
        refused: None,
    };
    let shots = job.photos.in_order().into_iter().map(|(photo, state)| {
        let shot = shot(&view, photo, state);
        let of = capital(&subject(job, &state.photo.value.subject));
        let words = match shot.words.as_str() {
            "" => format!("{of} ({})", photo.short()),
            words => format!("{of}: {words} ({})", photo.short()),
        };
        Shot { words, ..shot }
    });
    let shots: Vec<Shot> = shots.collect();
    (!shots.is_empty()).then(|| {
        Section::Photos(Strip {
            heading: format!(
                "Photos: {}",
                words::count(shots.len(), "picture", "pictures")
            ),
            shots,
            take: None,
            none: "",
        })
    })
}

fn shot(view: &View<'_>, photo: &PhotoHash, state: &PhotoState) -> Shot {
    let said = &state.photo.value;
    let of = subject(view.job, &said.subject);
    Shot {
        photo: photo.clone(),
        size: (said.width, said.height),
        target: Target::Photo(view.id.clone(), photo.clone()),
        words: said.words.clone(),
        alt: match said.words.as_str() {
            "" => format!("Photo of {of}, without words"),
            words => format!("Photo of {of}: {words}"),
        },
        here: false,
    }
}

/// A subject as a person calls it.
pub(crate) fn subject(job: &Job, subject: &Subject) -> String {
    let named = match subject {
        Subject::Job => Some("the whole job".to_owned()),
        Subject::Finding(key) => {
            (job.inspected.findings.contains_key(key)).then(|| teardown::finding_words(job, key))
        }
        Subject::Step(key) => {
            let plan = job.bench.plan();
            let step = plan.and_then(|plan| plan.steps.get(plan.place(key)?));
            step.map(|step| step.name.clone())
        }
        Subject::Joint(key) => (job.joints.get(key)).map(|state| state.joint.value.name.clone()),
        Subject::Fit(key) => (job.fits.get(key)).map(|state| state.fit.value.name.clone()),
        Subject::AsFound(key) => Some(format!("as found: {key}")),
        Subject::Item(key) => Some(format!("on the list: {key}")),
    };
    named.unwrap_or_else(|| format!("what is no longer here: {subject}"))
}

/// Every subject a photo of this job may be of: as it is written, and as a person calls it.
pub(crate) fn subjects(job: &Job, now: &Subject) -> Vec<(String, String)> {
    let steps = job.bench.plan().map_or(&[][..], |plan| &plan.steps);
    let findings = job.inspected.findings_in_order().into_iter();
    let mut all = vec![Subject::Job];
    all.extend(findings.map(|(key, _)| Subject::Finding(key.clone())));
    all.extend(steps.iter().map(|step| Subject::Step(step.key.clone())));
    let joints = job.joints_in_order().into_iter();
    all.extend(joints.map(|(key, _)| Subject::Joint(key.clone())));
    let fits = job.fits_in_order().into_iter();
    all.extend(fits.map(|(key, _)| Subject::Fit(key.clone())));
    if now.is_in(job) && !all.contains(now) {
        all.push(now.clone());
    }
    let kind = |subject: &Subject| match subject {
        Subject::Finding(_) => "finding: ",
        Subject::Step(_) => "step: ",
        Subject::Joint(_) | Subject::Fit(_) => "joint: ",
        Subject::Job | Subject::AsFound(_) | Subject::Item(_) => "",
    };
    let words = |of: &Subject| format!("{}{}", kind(of), subject(job, of));
    all.iter().map(|of| (of.to_string(), words(of))).collect()
}
