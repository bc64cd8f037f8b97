//! The evidence: how the causes stand, what was seen, what each piece carries, what would turn it.

use chart::{Rank, RankChart, ranks};
use diagnosis::signature::Observable;
use diagnosis::weigh::{Cause, Item};
use workshop::diagnose::answer::{Against, Answer as Says, Compared};
use workshop::job::Job;

use super::check::words;
use super::{View, say, sign};
use crate::page::{FactRow, Section, plain, row, soft, strong};
use crate::words::upper;

/// Causes below this chance are added up.
const SHOWN: f64 = 0.01;
/// How bad a cause would be is told from this chance on.
const SIZED: f64 = 0.1;
const SIZES: &str = "Slight, marked, bad: how large it would have to be to show what was seen.";
/// A piece that carries no more than this, either way, tells nothing between two causes.
const TELLING: f64 = 1.1;
/// Ways to another answer that are told.
const TURNS: usize = 3;

/// A weight that tells something.
pub(super) fn tells(weight: f64) -> bool {
    weight.abs() > TELLING.ln()
}

/// Every cause with its chance, in a picture.
pub(super) fn causes(view: &View<'_>) -> Section {
    let causes = &view.says.weighed.causes;
    let shown = causes.iter().filter(|cause| cause.chance >= SHOWN);
    let rest: Vec<&Cause> = causes.iter().filter(|cause| cause.chance < SHOWN).collect();
    let rows = shown.enumerate().map(|(place, cause)| Rank {
        label: upper(say::fault(cause.fault)),
        note: size(cause).to_owned(),
        share: cause.chance,
        text: say::hundredths(cause.chance),
        first: place == 0,
    });
    let rows: Vec<Rank> = rows.collect();
    let sized = rows.iter().any(|row| !row.note.is_empty());
    let together: f64 = rest.iter().map(|cause| cause.chance).sum();
    let others = match rest.len() {
        0 => String::new(),
        1 => format!("One other, {} in 100.", say::hundredths(together)),
        many => format!(
            "{many} others, {} in 100 together.",
            say::hundredths(together)
        ),
    };
    Section::Picture {
        heading: "How likely each cause is, in 100".to_owned(),
        svg: ranks(&RankChart {
            title: "How likely each cause is, in 100".to_owned(),
            half: "50".to_owned(),
            rows,
        }),
        caption: [others.as_str(), if sized { SIZES } else { "" }]
            .join(" ")
            .trim()
            .to_owned(),
    }
}

/// How bad it would be, where that is known and likely enough to be of use.
fn size(cause: &Cause) -> &'static str {
    let severity = cause.severity.filter(|_| cause.chance >= SIZED);
    severity.map_or("", say::severity)
}

/// What was seen against what should have been.
pub(super) fn compared(view: &View<'_>) -> Option<Section> {
    let mut rows: Vec<FactRow> = view
        .says
        .compared
        .iter()
        .map(|one| on_the_water(view, one))
        .collect();
    if let Some((gap, should_be)) = &view.says.gap {
        let (name, unit) = say::quantity(Observable::Gap, view.job);
        rows.push(row(
            name,
            vec![
                strong(say::value(Observable::Gap, gap.value, unit)),
                soft(format!(
                    ", should be {}; {}",
                    say::value(Observable::Gap, *should_be, unit),
                    say::difference(Observable::Gap, gap.value - should_be, unit)
                )),
            ],
            "as taken under Measure",
        ));
    }
    (!rows.is_empty()).then(|| Section::Facts {
        heading: "What was seen against what should have been".to_owned(),
        rows,
    })
}

fn on_the_water(view: &View<'_>, one: &Compared) -> FactRow {
    let of = one.seen.observable;
    let (name, unit) = say::quantity(of, view.job);
    let another = matches!(view.says.against, Against::Run(_));
    let held = if one.limited {
        "the limiter holds it there, so it tells little"
    } else if another && one.before.is_none() {
        "not measured on the other run: by the model alone"
    } else {
        ""
    };
    row(
        name,
        vec![
            strong(say::value(of, one.seen.value, unit)),
            plain(format!(
                ", {}",
                say::difference(of, one.seen.value - one.expected, unit)
            )),
            soft(format!(
                "; should be {} ± {}",
                say::bare(of, one.expected, unit),
                say::value(of, one.spread, unit)
            )),
        ],
        held,
    )
}

/// A piece of evidence in words.
pub(super) fn piece(job: &Job, says: &Says, item: Item) -> String {
    match item {
        Item::Seen(at) => match says.compared.get(at) {
            Some(one) => {
                let of = one.seen.observable;
                let (_, unit) = say::quantity(of, job);
                let by = say::difference(of, one.seen.value - one.expected, unit);
                format!("{} {by}", say::phrase(of, job))
            }
            None => "the gap as it was measured".to_owned(),
        },
        Item::Answer(symptom) => {
            let answers = says.known.answers.iter();
            let yes = answers
                .rev()
                .find(|one| one.symptom == symptom)
                .is_some_and(|one| one.yes);
            sign::told(symptom, yes).to_owned()
        }
        Item::Check(check) => {
            let found = says.known.found.iter();
            let something = found
                .rev()
                .find(|one| one.check == check)
                .is_some_and(|one| one.something);
            let what = if something { "something" } else { "nothing" };
            format!("{what} found {}", words(check).at)
        }
    }
}

/// What each piece carries for the first cause against the second.
pub(super) fn carried(view: &View<'_>) -> Option<Section> {
    let [(first, _), (second, _)] = view.says.leaders();
    let (first, second) = (say::fault(first), say::fault(second));
    let (telling, silent): (Vec<_>, Vec<_>) = (view.says.carried.iter())
        .map(|one| (piece(view.job, view.says, one.item), one.weight))
        .partition(|(_, weight)| tells(*weight));
    let mut rows: Vec<FactRow> = telling
        .into_iter()
        .map(|(words, weight)| {
            let side = if weight > 0.0 { first } else { second };
            let told = vec![plain(format!("for {side}, ")), strong(say::times(weight))];
            row(upper(&words), told, "")
        })
        .collect();
    if !silent.is_empty() {
        let names: Vec<String> = silent.into_iter().map(|(words, _)| words).collect();
        rows.push(row(
            "Tells nothing between these two",
            vec![soft(names.join("; "))],
            "",
        ));
    }
    (!rows.is_empty()).then(|| Section::Facts {
        heading: format!("What speaks for {first} against {second}"),
        rows,
    })
}

/// What would put another cause first.
pub(super) fn turns(view: &View<'_>) -> Option<Section> {
    let turns = view.says.turns.iter().take(TURNS);
    let notes: Vec<String> = turns
        .map(|turn| {
            let what = if turn.something {
                "something"
            } else {
                "nothing"
            };
            format!(
                "If {what} is found {} ({}), most likely it is {}, {}.",
                words(turn.check).at,
                say::whole(turn.chance),
                say::fault(turn.then.0),
                say::whole(turn.then.1)
            )
        })
        .collect();
    (!notes.is_empty()).then(|| Section::Notes {
        heading: "What would change it".to_owned(),
        notes,
    })
}
