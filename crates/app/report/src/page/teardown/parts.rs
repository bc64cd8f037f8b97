//! The rotor and the leak test, each as a card, and all that was found as lines of a record.

use clearance::Verdict;
use clearance::rotor::Judged;
use quantity::{Unit, format};
use workshop::assemble::words::capital;
use workshop::draft::inspect::words;
use workshop::inspect::rotor::Check;
use workshop::inspect::{LeakTest, Rotor, Track, leak, rotor};
use workshop::job::Job;

use super::finding::accept;
use super::{finding, say};
use crate::page::forms::inspect as sheets;
use crate::page::forms::label;
use crate::page::measure::driveline;
use crate::page::{Card, FactRow, Refused, Section, Tone, plain, row, soft, strong};
use crate::words as said;

/// The rotor: its card, or its sheet.
pub(super) fn rotor(job: &Job, refused: Option<&Refused>) -> Section {
    let form = sheets::rotor(job, refused, false);
    let Some(told) = &job.inspected.rotor else {
        return Section::Form(form);
    };
    let rotor = &told.value;
    let answer = rotor::answer(rotor);
    let out = answer
        .checks
        .iter()
        .any(|check| verdict(check) == Some(Verdict::Out));
    let undecided = answer
        .checks
        .iter()
        .any(|check| verdict(check) == Some(Verdict::Undecided));
    let (tone, state) = match (answer.faults.is_empty() && !out, undecided) {
        (false, _) => (Tone::Stop, "not fit to go back"),
        (true, true) => (Tone::Open, "not decided"),
        (true, false) => (Tone::Good, "may go back"),
    };
    let mut notes: Vec<String> = (answer.faults.iter())
        .map(|fault| {
            format!(
                "{}: not fit to go back. (Common practice, no source.)",
                capital(say::fault(*fault))
            )
        })
        .collect();
    if matches!(rotor.track, Some(Track::Felt | Track::Groove(_))) {
        notes.push(
            "A new lip leaks in an old groove: repair the track, or set the seal to run beside it. \
             (Common practice, no source.)"
                .to_owned(),
        );
    }
    if undecided {
        notes.push(
            "The limit lies within what the dial may be off: repeat with a better dial, or state \
             how true this one is."
                .to_owned(),
        );
    }
    let accepted = finding::accepted(job, "rotor-out");
    Section::Card(Card {
        heading: "The rotor".to_owned(),
        tone,
        state: state.to_owned(),
        rows: rotor_rows(rotor, &answer),
        notes: notes.into_iter().chain(accepted).collect(),
        forms: accept(job, "rotor-out", refused).chain([form]).collect(),
    })
}

fn verdict(check: &Check) -> Option<Verdict> {
    match check.judged {
        Judged::Held { verdict, .. } => Some(verdict),
        Judged::Record => None,
    }
}

fn rotor_rows(rotor: &Rotor, answer: &rotor::Answer) -> Vec<FactRow> {
    let mm = |value: f64| format(value, Unit::Millimetre, 3);
    let mut rows = Vec::new();
    if let Some(spin) = rotor.spin {
        let spin = label(&sheets::SPINS, &words::SPINS, spin);
        rows.push(row("Spun by hand", vec![plain(spin)], "felt by you"));
    }
    if let Some(step) = rotor.spline_step {
        let step = if step { "a step is felt" } else { "no step" };
        rows.push(row("Splines", vec![plain(step)], "felt by you"));
    }
    if let Some(track) = &rotor.track {
        let track = match track {
            Track::Smooth => "no groove".to_owned(),
            Track::Felt => "a groove is felt".to_owned(),
            Track::Groove(depth) => format!("a groove, {} deep", depth.worded()),
        };
        rows.push(row("Seal’s track", vec![plain(track)], "looked at by you"));
    }
    for check in &answer.checks {
        let held = match (check.judged, &check.limit) {
            (Judged::Held { within, verdict }, Some(limit)) => format!(
                "{}; the manual allows {} ({} within)",
                match verdict {
                    Verdict::In => "in",
                    Verdict::Out => "out",
                    Verdict::Undecided => "undecided",
                },
                limit.worded(),
                said::percent(within)
            ),
            _ => "recorded, to compare next time".to_owned(),
        };
        let origin = match check.limit {
            Some(_) => format!("dial; {}", said::manual(&rotor.page)),
            None => "dial; no limit of the manual stated".to_owned(),
        };
        rows.push(row(
            capital(say::travel(check.travel)),
            vec![
                strong(mm(check.found.value)),
                soft(format!(" ± {}", mm(2.0 * check.found.uncertainty))),
                plain(format!(", {held}")),
            ],
            origin,
        ));
    }
    if let Some(at) = answer.at_impeller {
        rows.push(row(
            "Off its axis at the impeller",
            vec![plain(format!(
                "{} to {}",
                quantity::number(at.low, Unit::Millimetre, 3),
                mm(at.high)
            ))],
            "computed from both stations; where the high spots lie was not noted",
        ));
    }
    if !answer.checks.is_empty() {
        rows.push(row(
            "The dial is true within",
            vec![plain(mm(answer.dial))],
            if answer.assumed {
                "assumed, no source; state yours on the sheet. ± is twice the standard uncertainty"
            } else {
                "stated by you; ± is twice the standard uncertainty"
            },
        ));
    }
    rows
}

/// The leak test: its card, or its sheet.
pub(super) fn leak(job: &Job, refused: Option<&Refused>) -> Option<Section> {
    let form = sheets::leak(job, refused, false);
    let Some(told) = &job.inspected.leak else {
        return Some(Section::Form(form));
    };
    let test = &told.value;
    let answer = leak::answer(test)?;
    let verdict = answer.judged.verdict;
    Some(Section::Card(Card {
        heading: "Leak test".to_owned(),
        tone: match verdict {
            Verdict::In => Tone::Good,
            Verdict::Out => Tone::Stop,
            Verdict::Undecided => Tone::Open,
        },
        state: say::leak(verdict).to_owned(),
        rows: leak_rows(test, &answer),
        notes: (leak_notes(test, &answer).into_iter())
            .chain(finding::accepted(job, "leak-out"))
            .collect(),
        forms: accept(job, "leak-out", refused).chain([form]).collect(),
    }))
}

fn pressure(value: f64) -> String {
    format(value, Unit::Kilopascal, 2)
}

fn leak_rows(test: &LeakTest, answer: &leak::Answer) -> Vec<FactRow> {
    let by = label(&sheets::PUSHES, &words::PUSHES, test.push);
    let warmth = test.temperatures.as_ref().map_or_else(
        || "temperatures not noted".to_owned(),
        |(from, to)| format!("{} to {}", from.worded(), to.worded()),
    );
    let mut rows = vec![
        row(
            "Held",
            vec![plain(format!(
                "{} to {} in {}, {warmth}",
                test.start.worded(),
                test.end.worded(),
                test.hold.worded()
            ))],
            format!("read by you; {by}"),
        ),
        row(
            "Lost, the temperature allowed for",
            vec![
                strong(pressure(answer.loss.loss)),
                soft(format!(" ± {}", pressure(2.0 * answer.loss.uncertainty))),
            ],
            "ideal gas; ± is twice the standard uncertainty; the standard atmosphere and what gauge \
             and thermometer may be off are assumed, no source",
        ),
    ];
    if let Some(allowed) = &test.allowed {
        rows.push(row(
            "Allowed",
            vec![
                plain(allowed.worded()),
                soft(format!(" ({} within)", said::percent(answer.judged.within))),
            ],
            said::manual(&test.page),
        ));
    }
    rows
}

/// What would decide it, and what to mind.
fn leak_notes(test: &LeakTest, answer: &leak::Answer) -> Vec<String> {
    let mut notes = Vec::new();
    let tells = pressure(2.0 * answer.loss.uncertainty);
    match (answer.judged.verdict, &test.allowed) {
        _ if answer.judged.backwards => notes.push(
            "More was found at the end than any tight housing keeps: a temperature or the gauge was \
             misread. Test once more."
                .to_owned(),
        ),
        (Verdict::Undecided, Some(allowed)) => notes.push(format!(
            "What was lost and the {} allowed lie closer together than the {tells} this test can \
             tell. {} would decide it.",
            allowed.worded(),
            if answer.noted {
                "A longer hold with the fall allowed for it, or a finer gauge,"
            } else {
                "The temperatures at both ends, or a finer gauge,"
            }
        )),
        (Verdict::Undecided, None) => notes.push(format!(
            "No fall is shown; one below {tells} would not show in this test. The fall that the \
             manual allows would decide it."
        )),
        (Verdict::Out, None) => notes.push(
            "A fall is shown, and the manual’s allowed fall is not stated. Find the leak with soapy \
             water."
                .to_owned(),
        ),
        (Verdict::Out, Some(_)) => {
            notes.push("Find the leak with soapy water, mend it, and test once more.".to_owned());
        }
        (Verdict::In, _) => {}
    }
    if !test.turned {
        notes.push(
            "The shaft was not turned: a lip may hold at rest and leak when turned. (Common \
             practice, no source.)"
                .to_owned(),
        );
    }
    notes
}

/// Findings, rotor and leak test as lines of a record: what, how it stands.
pub(crate) fn rows(job: &Job) -> Vec<(String, String, &workshop::entry::EntryId)> {
    let mut rows = finding::rows(job);
    if let Some(told) = &job.inspected.rotor {
        let answer = rotor::answer(&told.value);
        let said = rotor_rows(&told.value, &answer).into_iter();
        let said = said.map(|row| format!("{}: {}", row.name, crate::page::flat(&row.value)));
        let said: Vec<String> = said.collect();
        rows.push(("The rotor".to_owned(), said.join("; "), &told.entry));
    }
    if let Some(told) = &job.inspected.leak {
        let test = &told.value;
        let then = test.shown.map_or_else(
            || "not judged".to_owned(),
            |shown| {
                format!(
                    "told then: {}, {} lost ± {}",
                    say::leak(shown.verdict),
                    pressure(shown.loss),
                    pressure(2.0 * shown.uncertainty)
                )
            },
        );
        let now = leak::answer(test).map(|answer| say::leak(answer.judged.verdict));
        let now = match (now, test.shown) {
            (Some(now), Some(shown)) if now == say::leak(shown.verdict) => {
                "now the same".to_owned()
            }
            (Some(now), _) => format!("now {now}"),
            (None, _) => "now nothing".to_owned(),
        };
        let held = format!(
            "{} to {} in {}, shaft {}",
            test.start.worded(),
            test.end.worded(),
            test.hold.worded(),
            if test.turned { "turned" } else { "not turned" }
        );
        let stands = format!("{held}; {then}; {now}");
        rows.push(("Leak test".to_owned(), stands, &told.entry));
    }
    if let Some((stands, entry)) = driveline::record(job) {
        rows.push(("Driveline".to_owned(), stands, entry));
    }
    rows
}
