//! The Choose page: what an impeller, a ring or a nozzle will do to this craft.

mod answer;
mod costs;
mod craft;
mod next;
mod option;
mod pictures;
pub(crate) mod say;
mod tried;

use quantity::Unit;
use workshop::choose::answer::{Advice, Answer as Says, OptionSays};
use workshop::entry::JobId;
use workshop::fold::Objection;
use workshop::job::Job;
use workshop::upkeep::answer::PartSays;

pub use tried::{Slider, Stand, Try, tried};

use super::{Page, Refused, Section, Target, frame, water};

/// What the page is drawn from.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// The job's id.
    pub id: &'a JobId,
    /// The job.
    pub job: &'a Job,
    /// What no longer fits in its journal.
    pub objections: &'a [Objection],
    /// What the options do.
    pub says: &'a Says,
    /// A form that was refused.
    pub refused: Option<&'a Refused>,
    /// Where the sliders stand.
    pub stand: &'a Stand,
    /// What parts cost and how long they last, as Service has it.
    pub parts: &'a [PartSays],
}

/// Safety beside what can hurt.
pub const CAUTIONS: [&str; 3] = [
    "The craft’s manual, and the maker of the part, say what may be fitted. An engine that turns \
     faster than its maker allows can fail at once; one that is held too low can fail slowly.",
    "What is told here is a reckoning. The first full-throttle run with another part is a test: \
     watch the engine speed, and ease off at the manual’s limit.",
    "Never pull on a rope at full throttle: the craft is tied at part throttle only, nobody in line \
     with rope or jet, the hull deep enough to cool the engine.",
];

/// The unit speeds are shown in.
pub fn unit(job: &Job) -> Unit {
    let wish = job.choices.wish.as_ref();
    let to = wish.and_then(|fact| fact.value.to.as_ref());
    match (to, job.trials.is_empty()) {
        (Some(to), true) => to.unit,
        _ => water::unit(&job.trials),
    }
}

/// The page.
pub fn page(view: &View<'_>) -> Page {
    let here = Target::Choose(view.id.clone());
    Page {
        title: "Choose".to_owned(),
        heading: Some(frame::heading(view.id, view.job)),
        stages: frame::stages(view.id, view.job, &here),
        here: Some(here),
        clocks: Vec::new(),
        answer: answer::answer(view),
        evidence: evidence(view),
        next: next::next(view),
        cautions: CAUTIONS.to_vec(),
    }
}

/// Where choosing stands, for the list of stages.
pub(crate) fn stage(job: &Job) -> String {
    let choices = &job.choices;
    match (&choices.craft, choices.options.len()) {
        _ if choices.taken.is_some() => "option taken".to_owned(),
        (None, _) => "craft not described".to_owned(),
        (Some(_), 0) => "no option yet".to_owned(),
        (Some(_), 1) => "1 option".to_owned(),
        (Some(_), many) => format!("{many} options"),
    }
}

/// The answer in a sentence, as it is put on record.
pub fn headline(job: &Job, says: &Says) -> String {
    answer::told(job, says).1
}

/// What an option is called.
pub(crate) fn name<'a>(job: &'a Job, option: &'a OptionSays) -> &'a str {
    let state = job.choices.options.get(&option.key);
    state.map_or(option.key.as_str(), |state| {
        state.fitting.value.name.as_str()
    })
}

fn evidence(view: &View<'_>) -> Vec<Section> {
    let mut evidence = pictures::differences(view);
    let cards = view.says.options.iter().enumerate();
    evidence.extend(cards.map(|(place, says)| Section::Card(option::card(view, place, says))));
    evidence.extend(costs::section(view));
    evidence.extend(pictures::thrust(view));
    evidence.extend(tried::section(view));
    evidence.extend(next::forms(view));
    evidence.extend(craft::sections(view));
    evidence.extend(not_told(view));
    let notes: Vec<String> = frame::objections(view.objections).collect();
    if !notes.is_empty() {
        evidence.push(Section::Notes {
            heading: "What no longer fits".to_owned(),
            notes,
        });
    }
    evidence
}

/// What the reckoning keeps silent about, said aloud.
fn not_told(view: &View<'_>) -> Option<Section> {
    if matches!(view.says.advice, Advice::NoCraft) {
        return None;
    }
    let mut notes = vec![
        "Grate, ride plate, sponsons and the trim of the nozzle are not in the reckoning: what \
         changing them does is not told."
            .to_owned(),
        "Bands hold four times in five, as far as invented craft of other physics can show; the \
         study that says so is part of the program’s papers."
            .to_owned(),
    ];
    if !view.says.launches {
        notes.push(
            "How it launches, whether it flares up and hooks, and times from rest are not told \
             without a start that was logged with the engine’s speed: only that shows where the \
             suction breaks down."
                .to_owned(),
        );
    }
    Some(Section::Notes {
        heading: "What is not told".to_owned(),
        notes,
    })
}
