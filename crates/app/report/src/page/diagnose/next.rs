//! The next check: how it is done once nobody can be hurt by it, why this one, and its answers.

use diagnosis::check::{Check, Reach};
use diagnosis::next::{Offer, entropy};
use workshop::diagnose::answer::{Against, TELLS};
use workshop::diagnose::cannot_start;
use workshop::draft::diagnose::CHECKS;
use workshop::draft::word;

use super::answer::waits;
use super::check::words;
use super::{View, say};
use crate::page::forms::diagnose as forms;
use crate::page::{
    Button, FactRow, FormName, Next, Section, Step, Target, Weight, frame, plain, row, strong,
};
use crate::words::{count, upper};

/// What makes a craft safe to reach into.
const SAFE: &str = "First make sure it can’t start: engine stopped, lanyard out, battery off, craft \
                    chocked.";

/// The check that comes next, alone.
pub(super) fn step(view: &View<'_>) -> Option<Step> {
    let offer = view.says.offers.first()?;
    let words = words(offer.check);
    if waits(view.job, offer.check) {
        return Some(Step {
            heading: SAFE.to_owned(),
            state: String::new(),
            notes: Vec::new(),
            rows: vec![row(
                "Then",
                vec![plain(format!(
                    "{}: how, and what its answers are, is told as soon as somebody says that it can’t \
                     start.",
                    upper(words.name)
                ))],
                takes(offer.check),
            )],
            links: Vec::new(),
            buttons: Vec::new(),
            forms: Vec::new(),
        });
    }
    let minds = match offer.check.reach() {
        Reach::Engine => Some(
            "Nobody is near intake, jet or shaft while the engine is cranked or under current.",
        ),
        Reach::Under | Reach::Inside => {
            Some("Said: it can’t start. Whoever puts lanyard or battery back says so first.")
        }
        Reach::Beside => None,
    };
    Some(Step {
        heading: words.does.to_owned(),
        state: takes(offer.check),
        notes: minds.map(str::to_owned).into_iter().collect(),
        rows: vec![
            row("How", vec![plain(words.how)], ""),
            row(
                "With",
                vec![plain(words.tools)],
                "common practice, no source",
            ),
            row("Counts as something found", vec![plain(words.counts)], ""),
            row("Why this one", vec![plain(why(view, offer))], ""),
            outcome(offer, true),
            outcome(offer, false),
        ],
        links: links(view, offer.check),
        buttons: again(view).into_iter().collect(),
        forms: vec![forms::checked(
            (view.job, Some(offer.check)),
            view.refused,
            false,
        )],
    })
}

/// `1 minute`
pub(super) fn minutes(check: Check) -> String {
    let told = count(usize::from(check.minutes()), "minute", "minutes");
    told.replace(' ', "\u{a0}")
}

fn takes(check: Check) -> String {
    format!("about {}", minutes(check))
}

/// How much of what is open a check settles on average: a share.
pub(super) fn settles(view: &View<'_>, offer: &Offer) -> f64 {
    let open = entropy(&view.says.weighed.chances);
    if open > 0.0 {
        offer.gain.bits / open
    } else {
        0.0
    }
}

fn why(view: &View<'_>, offer: &Offer) -> String {
    let settled = say::hundredths(settles(view, offer));
    if offer.check.free() {
        format!(
            "It takes a minute, so it comes first whatever it may tell; on average it settles {settled} \
             in 100 of what is open."
        )
    } else {
        format!(
            "For the time it takes it tells more than any other: in {} it settles, on average, \
             {settled} in 100 of what is open.",
            minutes(offer.check)
        )
    }
}

fn outcome(offer: &Offer, something: bool) -> FactRow {
    let (fault, chance) = offer.leader(something);
    let (name, share) = if something {
        ("If something is found", offer.gain.something)
    } else {
        ("If not", 1.0 - offer.gain.something)
    };
    let chance = say::whole(chance);
    row(
        name,
        vec![
            plain("most likely "),
            strong(say::fault(fault)),
            plain(format!(", {chance}")),
        ],
        format!("that comes in {}", say::whole(share)),
    )
}

/// Where readings of a check are taken.
fn links(view: &View<'_>, check: Check) -> Vec<(Target, String)> {
    let (target, words) = match check {
        Check::Leaves => (Target::Measure(view.id.clone()), "Readings: Measure"),
        Check::Dials | Check::Turn | Check::Blades => {
            (Target::Teardown(view.id.clone()), "Readings: Teardown")
        }
        Check::Nozzle => (Target::Choose(view.id.clone()), "The bore: Choose"),
        _ => return Vec::new(),
    };
    vec![(target, words.to_owned())]
}

fn again(view: &View<'_>) -> Option<Button> {
    cannot_start(view.job).then(|| Button {
        label: "It may start again".to_owned(),
        form: FormName::Safe,
        values: vec![("safe", "no".to_owned())],
        weight: Weight::Quiet,
        key: None,
    })
}

/// From this chance on mending comes before looking further. Chosen, no source.
const SURE: f64 = 0.9;

/// The question with its answers: made safe, what the check showed, or whether that is the cause.
pub(super) fn next(view: &View<'_>) -> Next {
    let taken = taken(view);
    let take = take(view).filter(|_| !taken);
    let sure = take
        .as_ref()
        .is_some_and(|take| take.weight == Weight::Main);
    let (asks, answers) = match view.says.offers.first() {
        _ if taken => (
            "It is on record as the cause. Mend it, and prove it under Water test.".to_owned(),
            Vec::new(),
        ),
        None => (
            "Every check is done. A run after the repair shows whether it was that.".to_owned(),
            Vec::new(),
        ),
        Some(offer) if waits(view.job, offer.check) => (SAFE.to_owned(), vec![safe(Weight::Main)]),
        Some(offer) => (
            format!("{} What did it show?", words(offer.check).does),
            outcomes(offer.check),
        ),
    };
    let question = match &asks {
        asks if sure && !answers.is_empty() => format!("Is it that? If not: {}", lower(asks)),
        asks => asks.clone(),
    };
    let answers = answers.into_iter().map(|button| Button {
        weight: if sure { Weight::Plain } else { button.weight },
        ..button
    });
    Next::Ask {
        question: vec![plain(question)],
        buttons: take
            .into_iter()
            .chain(answers)
            .chain(frame::undo(view.job))
            .collect(),
        write: None,
    }
}

fn lower(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

fn outcomes(check: Check) -> Vec<Button> {
    let answer = |label: &str, found: &str, key| Button {
        label: label.to_owned(),
        form: FormName::Checked,
        values: vec![
            ("check", word(&CHECKS, check).to_owned()),
            ("found", found.to_owned()),
        ],
        weight: Weight::Plain,
        key: Some(key),
    };
    vec![
        answer("Nothing found", "nothing", 'n'),
        answer("Something found", "something", 's'),
    ]
}

/// Says that it can't start.
pub(crate) fn safe(weight: Weight) -> Button {
    Button {
        label: "It can’t start".to_owned(),
        form: FormName::Safe,
        values: vec![("safe", "yes".to_owned())],
        weight,
        key: Some('c'),
    }
}

/// The likeliest cause is on record, on these grounds.
fn taken(view: &View<'_>) -> bool {
    let [(first, _), _] = view.says.leaders();
    let taken = view.job.diagnosis.taken.as_ref();
    taken.is_some_and(|had| had.value.fault == first && had.value.evidence == view.says.evidence)
}

/// Takes the likeliest cause, where one is likely; the first answer where it is all but sure. While it runs
/// hot the first answer is another.
fn take(view: &View<'_>) -> Option<Button> {
    let [(first, chance), _] = view.says.leaders();
    let sure = chance >= SURE && view.says.dangers.is_empty();
    (chance >= TELLS && first.has_severity()).then(|| Button {
        label: "Take this as the cause".to_owned(),
        form: FormName::TakeCause,
        values: vec![("evidence", view.says.evidence.clone())],
        weight: if sure { Weight::Main } else { Weight::Quiet },
        key: Some('t'),
    })
}

/// Where what is missing is said.
pub(super) fn elsewhere(view: &View<'_>) -> Option<Section> {
    let (target, name, more) = match &view.says.against {
        Against::Run(_) => return None,
        Against::NotRun => (
            Target::Water(view.id.clone()),
            "Water test",
            "a run with speed and engine speed tells more than any sign",
        ),
        Against::NoCraft(_) => (
            Target::Choose(view.id.clone()),
            "Choose",
            "describe the craft, and what it did is held against what it should do",
        ),
        Against::Description => (
            Target::Water(view.id.clone()),
            "Water test",
            "a run from when it was well would narrow this",
        ),
        Against::Unreckoned => (
            Target::Choose(view.id.clone()),
            "Choose",
            "look over power, angles, nozzle and mass of the craft; the engine’s speed is read off under \
             Water test",
        ),
    };
    Some(Section::Links {
        heading: "What would tell more".to_owned(),
        links: vec![(target, name.to_owned(), more.to_owned())],
    })
}
