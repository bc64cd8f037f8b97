//! The driveline: whether engine and pump are in line, and what brings them there.

mod doubts;

use clearance::align::sweep::Runout;
use clearance::{Estimated, Verdict};
use quantity::{Unit, format};
use workshop::entry::EntryId;
use workshop::inspect::align::{Alignment, Answer, Held, Limited, MountMove, Place, Read, answer};
use workshop::job::Job;

use crate::drawing::{self, Driveline, Foot, Lie};
use crate::page::{Card, FactRow, Refused, Section, Tone, forms, plain, row, soft, strong};
use crate::words as said;

/// Stands on the page once the driveline is read.
pub(super) const CAUTION: &str = "At the driveline: battery and safety lanyard off, shaft turned by \
    hand only, the engine on a hoist rated for it and no finger under a mount.";

/// The card with its picture, or the sheets.
pub(super) fn sections(job: &Job, refused: Option<&Refused>) -> Vec<Section> {
    let sheets = forms::align::all(job, refused);
    let Some(had) = &job.inspected.alignment else {
        return sheets.into_iter().map(Section::Form).collect();
    };
    let Some(answer) = answer(&had.value) else {
        return sheets.into_iter().map(Section::Form).collect();
    };
    let unit = job.unit();
    let mut sections = Vec::new();
    sections.extend(picture(&had.value, &answer, unit));
    let mut notes = next(&answer, unit);
    notes.extend(doubts::doubts(&had.value, &answer, unit));
    sections.push(Section::Card(Card {
        heading: "Driveline".to_owned(),
        tone: match answer.verdict {
            Verdict::In => Tone::Good,
            Verdict::Out => Tone::Stop,
            Verdict::Undecided => Tone::Open,
        },
        state: state(answer.verdict).to_owned(),
        rows: rows(job, &had.value, &answer),
        notes,
        forms: sheets,
    }));
    sections
}

/// How it stands in a word or two.
pub(crate) fn state(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::In => "in line",
        Verdict::Out => "not in line",
        Verdict::Undecided => "cannot say",
    }
}

/// One line of a record: what was told then, and what would be said now.
pub(crate) fn record(job: &Job) -> Option<(String, &EntryId)> {
    let had = job.inspected.alignment.as_ref()?;
    let unit = job.unit();
    let now = answer(&had.value).map(|answer| state(answer.verdict));
    let then = had.value.shown.map_or_else(
        || "not judged".to_owned(),
        |shown| {
            let at = shown.offset.map_or_else(String::new, |offset| {
                format!(", engine {}", place(offset, unit))
            });
            format!("told then: {}{at}", state(shown.verdict))
        },
    );
    let now = match (now, had.value.shown) {
        (Some(now), Some(shown)) if now == state(shown.verdict) => "now the same".to_owned(),
        (Some(now), _) => format!("now {now}"),
        (None, _) => "now nothing".to_owned(),
    };
    Some((format!("{}; {then}; {now}", way(&had.value)), &had.entry))
}

fn way(said: &Alignment) -> &'static str {
    match said.read {
        Read::Slides(_) => "by a bar that slides in",
        Read::Bar { .. } => "by gaps round a bar",
        Read::Dials(_) => "by dials on rim and face",
    }
}

/// A length in the person's unit, and in the other.
fn both(value: f64, unit: Unit) -> String {
    let other = said::other(unit);
    format!(
        "{} ({})",
        said::length(value, unit),
        said::length(value, other)
    )
}

/// It is more than nothing in the decimals shown.
fn shows(value: f64, unit: Unit) -> bool {
    said::bare(value.abs(), unit).contains(|digit| ('1'..='9').contains(&digit))
}

/// `0.250 mm low and 0.010 mm to port`; nothing where it shows as zero.
fn place([up, port]: [f64; 2], unit: Unit) -> String {
    let mut parts = Vec::new();
    if shows(up, unit) {
        let way = if up > 0.0 { "high" } else { "low" };
        parts.push(format!("{} {way}", said::length(up.abs(), unit)));
    }
    if shows(port, unit) {
        parts.push(format!(
            "{} to {}",
            said::length(port.abs(), unit),
            side(port)
        ));
    }
    if parts.is_empty() {
        return format!("{} off", said::length(0.0, unit));
    }
    parts.join(" and ")
}

fn side(port: f64) -> &'static str {
    if port > 0.0 { "port" } else { "starboard" }
}

/// `climbs 0.69 mm and goes 0.14 mm to port over 1 m forward (0.041°)`.
fn slope([rise, swing]: [f64; 2]) -> String {
    let over = |value: f64| format(value.abs(), Unit::Millimetre, 2);
    let climbs = if rise < 0.0 { "falls" } else { "climbs" };
    format!(
        "{climbs} {} and goes {} to {} over 1\u{a0}m forward ({})",
        over(rise),
        over(swing),
        side(swing),
        format(rise.hypot(swing), Unit::Degree, 3)
    )
}

fn values(pair: [Estimated; 2]) -> [f64; 2] {
    pair.map(|found| found.value)
}

/// Twice the larger standard uncertainty of both planes.
fn twice(pair: [Estimated; 2]) -> f64 {
    2.0 * pair[0].uncertainty.max(pair[1].uncertainty)
}

fn rows(job: &Job, said: &Alignment, answer: &Answer) -> Vec<FactRow> {
    let unit = job.unit();
    let mut rows = Vec::new();
    if let Read::Slides(free) = &said.read {
        let angles = ["0°", "90°", "180°", "270°"];
        let binds: Vec<String> = angles
            .iter()
            .zip(free)
            .filter(|(_, free)| !**free)
            .map(|(angle, _)| (*angle).to_owned())
            .collect();
        let words = if binds.is_empty() {
            "slides in freely at all four places of the shaft".to_owned()
        } else {
            format!(
                "binds with the shaft at {}",
                said::list(&binds, binds.len())
            )
        };
        rows.push(row("The bar", vec![plain(words)], "tried by you"));
    }
    if let Some(offset) = answer.offset {
        let u = said::length(twice(offset), unit);
        let other = said::other(unit);
        rows.push(row(
            "Engine at the coupling",
            vec![
                strong(place(values(offset), unit)),
                soft(format!(" ({}), ± {u}", place(values(offset), other))),
            ],
            format!(
                "{}, computed; ± is twice the standard uncertainty",
                way(said)
            ),
        ));
    }
    if let Some(found) = answer.slope {
        let u = format(twice(found), Unit::Degree, 3);
        rows.push(row(
            "Its shaft",
            vec![strong(slope(values(found))), soft(format!(" ± {u}"))],
            "computed",
        ));
    }
    rows.extend(answer.held.iter().map(|held| allowed(said, held, unit)));
    rows.extend(answer.runouts.iter().map(|found| turns(found, unit)));
    rows.extend(
        (1..)
            .zip(&answer.moves)
            .map(|(n, told)| mount(n, said, told, unit)),
    );
    rows.extend(left(answer, unit));
    rows.extend(as_found(job, unit));
    if said.step.is_some() {
        rows.push(row(
            "A reading comes back within",
            vec![plain(said::length(answer.repeat, unit))],
            match said.repeat {
                Some(_) => "stated by you",
                None => "assumed, one step, no source; state yours on the sheet",
            },
        ));
    }
    rows
}

fn allowed(said: &Alignment, held: &Held, unit: Unit) -> FactRow {
    let (name, limit) = match held.what {
        Limited::Offset => ("Offset allowed", said::length(held.limit, unit)),
        Limited::Angle => ("Angle allowed", format(held.limit, Unit::Degree, 3)),
    };
    let within = held.within.map_or_else(
        || " (cannot be held against it)".to_owned(),
        |within| format!(" ({} within)", said::percent(within)),
    );
    let total = match held.what {
        Limited::Offset if said.total => "; half of its total reading",
        _ => "",
    };
    row(
        name,
        vec![plain(limit), soft(within)],
        format!("{}{total}", said::manual(&said.page)),
    )
}

fn of(place: Place) -> &'static str {
    match place {
        Place::Aft => "round the bar, aft",
        Place::Forward => "round the bar, forward",
        Place::Rim => "on the rim",
        Place::Face => "on the face",
    }
}

fn turns((place, runout): &(Place, Runout), unit: Unit) -> FactRow {
    let total = runout.total;
    row(
        format!("Turns with the shaft, {}", of(*place)),
        vec![
            plain(both(total.value, unit)),
            soft(format!(
                " ± {}",
                said::length(2.0 * total.uncertainty, unit)
            )),
        ],
        "total reading, parted from what stays by turning the shaft; no misalignment",
    )
}

/// `0.361 mm in`, `0.2 mm out`.
fn shim(value: f64, unit: Unit) -> String {
    let way = if value < 0.0 { "out" } else { "in" };
    format!("{} {way}", both(value.abs(), unit))
}

fn mount(n: usize, said: &Alignment, told: &MountMove, unit: Unit) -> FactRow {
    let mut value = vec![
        strong(shim(told.up.value, unit)),
        soft(format!(
            " ± {}",
            said::length(2.0 * told.up.uncertainty, unit)
        )),
        plain(format!(
            "; {} to {}",
            said::length(told.port.value.abs(), unit),
            side(told.port.value)
        )),
    ];
    let target = told.now + told.up.value;
    if target < 0.0 {
        value.push(plain(format!(
            ". Only {} is under it, so it cannot come down so far: look for what else stands too \
             high, or ask who knows the craft",
            said::length(told.now, unit)
        )));
    }
    if let Some(stack) = &told.stack {
        let used: Vec<String> = stack
            .shims
            .iter()
            .filter_map(|shim| said.shims.get(*shim))
            .map(|shim| said::short(shim.value, shim.unit) + "\u{a0}" + shim.unit.symbol())
            .collect();
        let used = if used.is_empty() {
            "nothing".to_owned()
        } else {
            used.join(" + ")
        };
        let off = if shows(stack.off, unit) {
            let way = if stack.off > 0.0 {
                "too thick"
            } else {
                "too thin"
            };
            format!("{} {way}", said::length(stack.off.abs(), unit))
        } else {
            "as wanted".to_owned()
        };
        value.push(plain(format!(
            ". Under it then {}: {used}, {off}",
            said::length(stack.thickness, unit)
        )));
    }
    row(
        format!("{n}. {}", told.name),
        value,
        format!(
            "computed; {} under it when it was read",
            said::length(told.now, unit)
        ),
    )
}

fn left(answer: &Answer, unit: Unit) -> Option<FactRow> {
    let left = answer.left.as_ref()?;
    let verdicts = left.held.iter().map(|held| held.verdict);
    let held = match verdicts.max_by_key(|verdict| match verdict {
        Verdict::In => 0,
        Verdict::Undecided => 1,
        Verdict::Out => 2,
    }) {
        None => "no limit of the manual stated",
        Some(Verdict::In) => "within the manual’s limits",
        Some(Verdict::Undecided) => {
            "too near the manual’s limits to call: get thinner shims, or more"
        }
        Some(Verdict::Out) => "still beyond the manual’s limits: get thinner shims, or more",
    };
    Some(row(
        "What then remains",
        vec![plain(format!(
            "{} at the coupling, {} over 1\u{a0}m; {held}",
            place([left.rest.offset, 0.0], unit),
            format(left.rest.slope.abs(), Unit::Millimetre, 2),
        ))],
        "computed, every mount moved sideways as told; read again to know",
    ))
}

/// What it was before anything was moved.
fn as_found(job: &Job, unit: Unit) -> Option<FactRow> {
    let (found, now) = (
        job.inspected.alignment_found.as_ref()?,
        job.inspected.alignment.as_ref()?,
    );
    let shown = found
        .value
        .shown
        .as_ref()
        .filter(|_| found.position != now.position)?;
    let offset = shown.offset.map_or_else(String::new, |offset| {
        format!(", engine {}", place(offset, unit))
    });
    Some(row(
        "As found",
        vec![plain(format!("{}{offset}", state(shown.verdict)))],
        format!("told then, {}", way(&found.value)),
    ))
}

/// What to do, one sentence for all mounts that move alike.
fn next(answer: &Answer, unit: Unit) -> Vec<String> {
    if answer.verdict == Verdict::In {
        return vec![
            "Nothing to move. Mounts tight to the manual’s torque, then read once more.".to_owned(),
        ];
    }
    if answer.moves.is_empty() {
        return Vec::new();
    }
    let mut groups: Vec<(Vec<String>, &MountMove)> = Vec::new();
    for told in &answer.moves {
        match groups.iter_mut().find(|(_, first)| first.up == told.up) {
            Some((names, _)) => names.push(told.name.clone()),
            None => groups.push((vec![told.name.clone()], told)),
        }
    }
    let step = |(names, told): &(Vec<String>, &MountMove)| {
        format!(
            "{}: {}, and {} to {}",
            said::list(names, names.len()),
            shim(told.up.value, unit),
            both(told.port.value.abs(), unit),
            side(told.port.value)
        )
    };
    let steps: Vec<String> = groups.iter().map(step).collect();
    vec![format!(
        "Next: {}. Then the mounts tight, and read again.",
        steps.join("; ")
    )]
}

/// Side and top view, where there is an angle to draw.
fn picture(said: &Alignment, answer: &Answer, unit: Unit) -> Option<Section> {
    let ([up, port], [rise, swing]) = (values(answer.offset?), values(answer.slope?));
    let lie = |offset, slope| Lie { offset, slope };
    let feet = (1..).zip(said.mounts.iter());
    let drawing = drawing::driveline(&Driveline {
        side: lie(up, rise),
        top: lie(port, swing),
        feet: feet
            .map(|(number, mount)| Foot {
                number,
                forward: mount.forward.value,
                up: answer.moves.get(number - 1).map(|told| told.up.value),
                port: answer.moves.get(number - 1).map(|told| told.port.value),
            })
            .collect(),
        unit,
    });
    Some(Section::Picture {
        heading: "The driveline, from the side and from above".to_owned(),
        svg: drawing.svg,
        caption: drawing.caption,
    })
}
