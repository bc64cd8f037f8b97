//! What surrounds the gap: sizes, the ring and its water, shims, the second reading.

use clearance::Verdict;
use quantity::{Unit, format, number};
use workshop::draft::inspect::words;
use workshop::inspect::reread::{CLOCKS, Change, changes};
use workshop::inspect::size::{self, Shims};
use workshop::inspect::{Reread, Sizes};
use workshop::job::Job;
use workshop::reading;

use super::wear;
use crate::page::forms::inspect as sheets;
use crate::page::forms::label;
use crate::page::{Card, FactRow, Refused, Section, Tone, plain, row, soft, strong};
use crate::words as said;

/// Cards for what was measured, sheets for what was not.
pub(super) fn sections(job: &Job, refused: Option<&Refused>) -> Vec<Section> {
    let had = &job.inspected;
    let mut sections = Vec::new();
    sections.extend(wear::sections(job, refused));
    if let Some(told) = &had.reread {
        sections.push(Section::Card(reread(job, &told.value, refused)));
    }
    if let Some(told) = &had.sizes {
        sections.push(Section::Card(sizes(job, &told.value, refused)));
    }
    sections.extend(ring(job, refused).map(Section::Card));
    sections.extend(shims(job, refused).map(Section::Card));
    let blank = [
        (had.reread.is_none(), sheets::reread(job, refused)),
        (had.sizes.is_none(), sheets::sizes(job, refused)),
        (had.ring.is_none(), sheets::ring(job, refused)),
        (had.cone.is_none(), sheets::cone(job, refused)),
    ];
    let blank = blank.into_iter().filter(|(blank, _)| *blank);
    sections.extend(blank.map(|(_, form)| Section::Form(form)));
    sections
}

fn sizes(job: &Job, sizes: &Sizes, refused: Option<&Refused>) -> Card {
    let unit = job.unit();
    let mm = |value: f64| format(value, Unit::Millimetre, 3);
    let across = ["12–6", "1:30–7:30", "3–9", "4:30–10:30"];
    let bores = across.iter().zip(&sizes.bores);
    let mut rows: Vec<FactRow> = bores
        .filter_map(|(across, bore)| Some((across, bore.as_ref()?)))
        .map(|(across, bore)| {
            row(
                format!("Bore {across}"),
                vec![plain(bore.worded())],
                "measured by you",
            )
        })
        .collect();
    if let Some((diameter, method)) = &sizes.impeller {
        let method = label(&sheets::METHODS, &words::METHODS, *method);
        rows.push(row("Impeller", vec![plain(diameter.worded())], method));
    }
    if let Some(found) = size::diameters(sizes) {
        if found.count > 1 {
            rows.push(row(
                "Greatest less least bore",
                vec![strong(mm(found.oval))],
                "computed; two points see an oval bore and no three lobes",
            ));
        }
        if let Some(gap) = found.gap {
            rows.push(row(
                "Mean gap by the diameters",
                vec![strong(said::length(gap, unit)), soft(by_leaves(job, unit))],
                "half of the mean bore less the impeller",
            ));
        }
    }
    Card {
        heading: "Bore and impeller".to_owned(),
        tone: Tone::Plain,
        state: "measured".to_owned(),
        rows,
        notes: Vec::new(),
        forms: vec![sheets::sizes(job, refused)],
    }
}

/// What the leaves said of the mean gap, where a result is taken.
fn by_leaves(job: &Job, unit: Unit) -> String {
    let taken = job.accepted.as_ref().map(|fact| fact.value.mean);
    taken.map_or_else(String::new, |mean| {
        format!(
            "; by the leaves {}",
            said::interval(mean.low, mean.high, unit)
        )
    })
}

/// Shown where it matters; the sheet alone where it does not.
fn ring(job: &Job, refused: Option<&Refused>) -> Option<Card> {
    let told = job.inspected.ring.as_ref()?;
    let ring = &told.value;
    let unit = job.unit();
    let form = sheets::ring(job, refused);
    let mut rows = vec![row(
        "The ring is",
        vec![plain(label(
            &sheets::RING_SEATS,
            &words::RING_SEATS,
            ring.seat,
        ))],
        "described by you",
    )];
    let mut notes = Vec::new();
    let mut tone = Tone::Plain;
    if let Some(found) = size::in_water(job) {
        let polymer = ring.polymer.map_or_else(
            || "of a plastic not known: every one considered".to_owned(),
            |polymer| format!("of {}", label(&sheets::POLYMERS, &words::POLYMERS, polymer)),
        );
        rows.push(row(
            "The gap in the water you ride in changes by",
            vec![strong(signed(found.change.low, found.change.high, unit))],
            format!(
                "computed for a ring {polymer}; housing of aluminium assumed; properties are ranges"
            ),
        ));
        if let Some(least) = found.least {
            rows.push(row(
                "The least gap is then",
                vec![strong(said::interval(least.low, least.high, unit))],
                "the least gap taken, and that change",
            ));
            if least.low <= 0.0 {
                tone = Tone::Open;
                notes.push(
                    "At the worst the blades touch. Find out which plastic it is, or soak the ring \
                     and measure once more."
                        .to_owned(),
                );
            }
        }
    }
    Some(Card {
        heading: "The ring, and the water you ride in".to_owned(),
        tone,
        state: String::new(),
        rows,
        notes,
        forms: vec![form],
    })
}

/// `-3.1 to +0.4 thou`
fn signed(low: f64, high: f64, unit: Unit) -> String {
    let sign = |value: f64| if value > 0.0 { "+" } else { "" };
    format!(
        "{}{} to {}{}",
        sign(low),
        said::bare(low, unit),
        sign(high),
        said::length(high, unit)
    )
}

fn shims(job: &Job, refused: Option<&Refused>) -> Option<Card> {
    let cone = &job.inspected.cone.as_ref()?.value;
    let unit = job.unit();
    let mm = |value: f64| format(value, Unit::Millimetre, 2);
    let (tone, state, note) = match size::shims(job)? {
        Shims::Stack(stack) => {
            let shims: Vec<String> = (stack.shims.iter())
                .map(|shim| cone.shims[*shim].worded())
                .collect();
            let put = if shims.is_empty() {
                "Put in no shim".to_owned()
            } else {
                format!("Put in {}", said::list(&shims, shims.len()))
            };
            let note = format!(
                "{put}: together {}, for a mean gap of {}. Then read the gap once more.",
                mm(stack.thickness),
                said::interval(stack.gap.low, stack.gap.high, unit)
            );
            (Tone::Plain, "a stack is found", note)
        }
        Shims::Missing { high, .. } if high <= 0.0 => {
            let note = "Even without a shim the gap lies outside the limits: shims cannot bring it \
                        back.";
            (Tone::Stop, "no stack does it", note.to_owned())
        }
        Shims::Missing { low, high } => {
            let note = format!(
                "No stack of these brings the gap within the limits: one of {} to {} is missing.",
                number(low.max(0.0), Unit::Millimetre, 2),
                mm(high)
            );
            (Tone::Open, "a shim is missing", note)
        }
        Shims::Unknown => {
            let note = "Take a result on the Measure page, with both radial limits of the manual \
                        stated: then a stack is named here.";
            (Tone::Plain, "waits for the gap", note.to_owned())
        }
    };
    Some(Card {
        heading: "Shims of the conical ring".to_owned(),
        tone,
        state: state.to_owned(),
        rows: vec![row(
            "Half angle",
            vec![plain(cone.half_angle.worded())],
            "stated by you; shims true within 0.005 mm assumed, no source",
        )],
        notes: vec![note],
        forms: vec![sheets::cone(job, refused)],
    })
}

fn reread(job: &Job, again: &Reread, refused: Option<&Refused>) -> Card {
    let unit = job.unit();
    let (tone, state) = reread_state(again);
    let mut rows: Vec<FactRow> = CLOCKS
        .iter()
        .zip(&again.clocks)
        .zip(changes(job, again))
        .map(|((clock, tries), change)| {
            let text = match tries.as_slice() {
                [] => "not read".to_owned(),
                tries => reading::write(tries, unit),
            };
            let change = match change {
                Change::Same => "as at first, within a leaf step",
                Change::Tighter => "tighter than at first",
                Change::Wider => "wider than at first",
                Change::NoFirst => "no first reading here",
                Change::Unread => "says nothing",
            };
            row(
                format!("Blade A at {clock}"),
                vec![plain(text), soft(format!(" – {change}"))],
                "read by you",
            )
        })
        .collect();
    let turns = match again.rubs.as_str() {
        "" => "free all round".to_owned(),
        at => format!("rubs {at}"),
    };
    rows.push(row("Turned by hand", vec![plain(turns)], "felt by you"));
    let moved = changes(job, again);
    let moved = moved
        .iter()
        .any(|change| matches!(change, Change::Tighter | Change::Wider));
    let mut notes = Vec::new();
    if tone != Tone::Good {
        notes.push(
            "Loosen the joint, look for a step, dirt or sealant between the faces, torque it in \
             order, and read once more. (Common practice, no source.)"
                .to_owned(),
        );
    } else if moved {
        notes.push(
            "Within the limits, but bolting up moved the gap: a face does not lie flat.".to_owned(),
        );
    }
    Card {
        heading: "The gap after the last torque".to_owned(),
        tone,
        state: state.to_owned(),
        rows,
        notes,
        forms: vec![sheets::reread(job, refused)],
    }
}

fn reread_state(again: &Reread) -> (Tone, &'static str) {
    match (again.shown, again.rubs.is_empty()) {
        (Some(Verdict::In), _) => (Tone::Good, "within limits, turns free"),
        (Some(Verdict::Out), false) => (Tone::Stop, "it rubs"),
        (Some(Verdict::Out), true) => (Tone::Stop, "out of limits"),
        _ => (Tone::Open, "not decided"),
    }
}

/// Sizes, shims, the second reading and the wear as lines of a record: what, how it stands.
pub(crate) fn rows(job: &Job) -> Vec<(String, String, &workshop::entry::EntryId)> {
    let had = &job.inspected;
    let line = |card: &Card| {
        let values = card.rows.iter();
        let values = values.map(|row| format!("{}: {}", row.name, crate::page::flat(&row.value)));
        let values = values.collect::<Vec<_>>().join("; ");
        let notes = card.notes.iter().map(|note| format!(" {note}"));
        format!("{values}.{}", notes.collect::<String>())
    };
    let mut rows = Vec::new();
    if let Some(told) = &had.reread {
        let card = reread(job, &told.value, None);
        let said = format!("{}; {}", card.state, line(&card));
        rows.push((card.heading, said, &told.entry));
    }
    if let Some(told) = &had.sizes {
        let card = sizes(job, &told.value, None);
        rows.push((card.heading.clone(), line(&card), &told.entry));
    }
    if let (Some(told), Some(card)) = (&had.ring, ring(job, None)) {
        rows.push((card.heading.clone(), line(&card), &told.entry));
    }
    if let (Some(told), Some(card)) = (&had.cone, shims(job, None)) {
        rows.push((card.heading.clone(), line(&card), &told.entry));
    }
    if let (Some(wear), Some((_, last))) = (
        workshop::inspect::wear::wear(job),
        had.visits_in_order().last(),
    ) {
        let card = wear::card(job, &wear, None);
        rows.push((card.heading.clone(), line(&card), &last.entry));
    }
    rows
}
