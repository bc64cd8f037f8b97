//! The Measure page: is the gap in tolerance, how sure, and what to try next.

mod answer;
pub(crate) mod driveline;
mod evidence;
mod next;
mod pictures;
mod why;

pub(crate) use evidence::{pump_words, rests_on};

use quantity::Unit;
use workshop::entry::JobId;
use workshop::fold::Objection;
use workshop::gap::Judgement;
use workshop::job::{Job, Spot};
use workshop::refusal::Need;
use workshop::walk::{Progress, progress};

use super::{Answer, Page, Refused, Section, Target, Tone, forms, frame, plain};

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// The answer, or what must be described first.
    pub judgement: Result<&'a Judgement, Need>,
    /// The spot the person pointed at.
    pub at: Option<Spot>,
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
}

/// Safety beside the step that can hurt.
pub const CAUTION: &str = "Before a hand goes near the impeller: engine stopped, safety lanyard and \
    battery off. Blade edges cut. The craft’s manual and local rules come first.";

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let progress = progress(view.job);
    let (answer, evidence) = match view.judgement {
        Ok(judgement) => (
            answer::answer(view, judgement),
            evidence::evidence(view, judgement, &progress),
        ),
        Err(need) => (begin(need), evidence::described(view)),
    };
    Page {
        title: "Measure".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        here: Some(Target::Measure(view.id.clone())),
        clocks: Vec::new(),
        stages: frame::stages(view.id, view.job, &Target::Measure(view.id.clone())),
        answer,
        evidence,
        next: next::next(view, &progress),
        cautions: std::iter::once(CAUTION)
            .chain(
                view.job
                    .inspected
                    .alignment
                    .as_ref()
                    .map(|_| driveline::CAUTION),
            )
            .collect(),
    }
}

/// Answer and evidence for paper: nothing is asked there, and nothing filled in.
pub(crate) fn printed(view: &View<'_>, judgement: &Judgement) -> (Answer, Vec<Section>) {
    let asking_nothing = Progress {
        next: None,
        ..progress(view.job)
    };
    let mut evidence = evidence::evidence(view, judgement, &asking_nothing);
    evidence.retain(|section| {
        !matches!(
            section,
            Section::Form(_) | Section::Links { .. } | Section::Ways { .. }
        )
    });
    for section in &mut evidence {
        if let Section::Card(card) = section {
            card.forms.clear();
        }
    }
    (answer::answer(view, judgement), evidence)
}

/// Before anything can be measured.
pub(crate) fn begin(need: Need) -> Answer {
    let (headline, detail) = match need {
        Need::Leaves => (
            "Now the leaves.",
            "Which there are, how wide they are and how they are led in decide what a reading can \
             say.",
        ),
        _ => (
            "First the pump.",
            "Blades, clock positions and bore: then each reading has its place on the ring.",
        ),
    };
    Answer {
        tone: Tone::Plain,
        headline: headline.to_owned(),
        detail: vec![plain(detail)],
        origin: String::new(),
    }
}

/// The unit of the page.
fn unit(view: &View<'_>) -> Unit {
    view.job.unit()
}

/// The forms of what was described, folded away.
fn change(view: &View<'_>) -> Vec<Section> {
    vec![
        Section::Form(forms::pump(view.job, view.refused, false)),
        Section::Form(forms::leaves(view.job, view.refused, false)),
        Section::Form(forms::limits(view.job, view.refused, false)),
        Section::Form(forms::walk(view.job, view.refused)),
        Section::Ways {
            heading: "On paper".to_owned(),
            links: vec![(
                Target::Blank(view.id.clone()),
                "A blank card for pencil".to_owned(),
                "the grid to print".to_owned(),
            )],
        },
    ]
}
