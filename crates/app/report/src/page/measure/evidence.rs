//! The evidence: the ring drawn, the gap blade by blade, the readings, what it all rests on.

use clearance::Bracket;
use quantity::Unit;
use workshop::draft::word;
use workshop::gap::{Judgement, Mark, Reading};
use workshop::job::{Job, LeafSet, Pump, Spot, Walk, blade_name, clock_name};
use workshop::walk::Progress;

use super::answer::asked;
use super::{View, change, pictures, unit};
use crate::page::{
    Cell, CellMark, FactRow, Grid, Run, Section, Target, forms, frame, plain, row, soft,
};
use crate::words;

pub(super) fn evidence(
    view: &View<'_>,
    judgement: &Judgement,
    progress: &Progress,
) -> Vec<Section> {
    let Some(pump) = view.job.pump.as_ref().map(|fact| &fact.value) else {
        return Vec::new();
    };
    let mut sections = Vec::new();
    sections.push(pictures::ring(view, judgement, pump, progress));
    sections.push(Section::Grid(grid(view, judgement, pump, progress)));
    sections.extend(open_items(view, Some(judgement)));
    sections.extend(super::why::sections(view, judgement));
    sections.extend(pictures::unrolled(view, judgement, pump));
    sections.extend(pictures::spread(view, judgement, pump));
    sections.extend(how_sure(view, judgement));
    sections.push(rests_on(view.job, judgement));
    sections.extend(super::driveline::sections(view.job, view.refused));
    if view.job.limits.is_none() {
        sections.insert(
            2,
            Section::Form(forms::limits(view.job, view.refused, true)),
        );
        let folded = change(view).into_iter();
        sections.extend(
            folded.filter(
                |s| !matches!(s, Section::Form(f) if f.name == crate::page::FormName::Limits),
            ),
        );
    } else {
        sections.extend(change(view));
    }
    sections
}

/// What was described so far, before there is anything to judge.
pub(super) fn described(view: &View<'_>) -> Vec<Section> {
    let mut sections: Vec<Section> = open_items(view, None).into_iter().collect();
    if view.job.pump.is_some() {
        sections.push(Section::Form(forms::pump(view.job, view.refused, false)));
    }
    sections.extend(super::driveline::sections(view.job, view.refused));
    sections
}

pub(super) fn cell_mark(judgement: &Judgement, spot: Spot) -> CellMark {
    if matches!(
        judgement.readings.get(&spot),
        Some(Reading::Contradiction(_))
    ) {
        return CellMark::Contradiction;
    }
    match judgement.marks.get(&spot) {
        None => CellMark::None,
        Some(Mark::In) => CellMark::In,
        Some(Mark::Near) => CellMark::Near,
        Some(Mark::Out) => CellMark::Out,
    }
}

pub(crate) fn grid(
    view: &View<'_>,
    judgement: &Judgement,
    pump: &Pump,
    progress: &Progress,
) -> Grid {
    let unit = unit(view);
    let asked = view.at.or(progress.next.as_ref().map(|next| next.spot));
    let cell = |spot: Spot| {
        let reading = judgement
            .readings
            .get(&spot)
            .copied()
            .unwrap_or(Reading::Unread);
        let mark = cell_mark(judgement, spot);
        let text = in_a_cell(reading, unit);
        let place = format!(
            "blade {} at {}",
            blade_name(spot.blade),
            clock_name(spot.position, pump.positions)
        );
        let words = match reading {
            Reading::Unread => format!("{place}: not read"),
            _ => format!("{place}: {text} {} {}", unit.symbol(), mark_word(mark)),
        };
        Cell {
            target: Target::Spot(view.id.clone(), spot),
            text,
            mark,
            next: asked == Some(spot),
            words: words.trim_end().to_owned(),
        }
    };
    let row = |position: u8| {
        let cells = (0..pump.blades).map(|blade| cell(Spot { blade, position }));
        (clock_name(position, pump.positions), cells.collect())
    };
    Grid {
        heading: "Readings".to_owned(),
        caption: format!(
            "Largest leaf that goes – smallest that won’t, {}.",
            unit.symbol()
        ),
        blades: (0..pump.blades).map(blade_name).collect(),
        rows: (0..pump.positions).map(row).collect(),
    }
}

fn mark_word(mark: CellMark) -> &'static str {
    match mark {
        CellMark::None => "",
        CellMark::In => "within limits",
        CellMark::Near => "too near a limit to call",
        CellMark::Out => "beyond a limit",
        CellMark::Contradiction => "contradictory",
    }
}

/// `13–14`, `13 –`, `– 10`, `14 > 13`
fn in_a_cell(reading: Reading, unit: Unit) -> String {
    let leaf = |value: f64| words::short(value, unit);
    match reading {
        Reading::Bracket(Bracket {
            goes: Some(goes),
            wont: Some(wont),
        }) => {
            format!("{}–{}", leaf(goes), leaf(wont))
        }
        Reading::Bracket(Bracket {
            goes: Some(goes),
            wont: None,
        }) => format!("≥ {}", leaf(goes)),
        Reading::Bracket(Bracket {
            goes: None,
            wont: Some(wont),
        }) => format!("< {}", leaf(wont)),
        Reading::Unread
        | Reading::Bracket(Bracket {
            goes: None,
            wont: None,
        }) => String::new(),
        Reading::Drags(leaf_thickness) => format!("{} drags", leaf(leaf_thickness)),
        Reading::Contradiction(c) => format!("{} > {}", leaf(c.goes), leaf(c.wont)),
    }
}

/// Where the uncertainty of the spot that decides comes from.
fn how_sure(view: &View<'_>, judgement: &Judgement) -> Option<Section> {
    let (spot, budget) = judgement.budget.as_ref()?;
    let unit = unit(view);
    let row = |name: &str, value: f64, origin: &str| {
        row(
            name.to_owned(),
            if value > 0.0 {
                let beside = words::uncertainty(value, words::other(unit));
                vec![
                    plain(words::uncertainty(value, unit)),
                    soft(format!(" ({beside})")),
                ]
            } else {
                vec![plain("none")]
            },
            origin.to_owned(),
        )
    };
    let leaves = view.job.leaves.as_ref().map(|fact| &fact.value);
    let own = |given: Option<bool>| match given {
        Some(true) => "as you stated",
        _ => "assumed; state your own under The leaves",
    };
    let place = format!("{} at {}", blade_name(spot.blade), view.job.clock(*spot));
    Some(Section::Facts {
        heading: format!("How sure, at blade {place}"),
        rows: vec![
            row(
                "Step between the leaves",
                budget.step,
                "the leaves tried there, and how they felt",
            ),
            row(
                "Thickness of the leaves",
                budget.leaf,
                own(leaves.map(|l| l.tolerance.is_some())),
            ),
            row(
                "Feel of the hand",
                budget.feel,
                own(leaves.map(|l| l.feel.is_some())),
            ),
            row(
                "Flat leaf in a round ring",
                budget.chord,
                "how the leaf is led in, its width, the bore",
            ),
            row(
                "Together, one standard uncertainty",
                budget.combined.uncertainty,
                "root of the sum of squares, JCGM 100",
            ),
        ],
    })
}

/// Pump, leaves, limits and order, each with its origin.
pub(crate) fn rests_on(job: &Job, judgement: &Judgement) -> Section {
    let mut rows = Vec::new();
    if let Some(pump) = job.pump.as_ref().map(|fact| &fact.value) {
        rows.push(fact("Pump", pump_words(pump), "described by you"));
    }
    if let Some(leaves) = job.leaves.as_ref().map(|fact| &fact.value) {
        rows.extend(leaf_rows(leaves, judgement));
    }
    rows.push(match job.limits.as_ref().map(|fact| &fact.value) {
        Some(limits) => {
            let page = if limits.page.is_empty() {
                "page not said".to_owned()
            } else {
                format!("p. {}", limits.page)
            };
            fact(
                "Allowed",
                asked(limits),
                &format!("the craft’s manual, {page}"),
            )
        }
        None => fact(
            "Allowed",
            "not stated".to_owned(),
            "without it nothing is called in or out",
        ),
    });
    rows.push(match job.walk() {
        Walk::LeafByLeaf => fact(
            "Order",
            "one leaf round all spots, then the next".to_owned(),
            "default",
        ),
        Walk::RoundFirst => fact(
            "Order",
            "blade A round the clock, then every blade at its tightest place, then the rest"
                .to_owned(),
            "chosen by you",
        ),
        Walk::TwoLeaves { go, no_go } => fact(
            "Order",
            format!(
                "two leaves: {} must go, {} must not",
                go.worded(),
                no_go.worded()
            ),
            "chosen by you",
        ),
    });
    let spread = words::length(judgement.model.spread, job.unit());
    rows.push(fact(
        "Spots differ by about",
        format!("{spread} or less, until readings say otherwise"),
        "assumed",
    ));
    rows.push(fact(
        "Called in or out at",
        "95\u{a0}%".to_owned(),
        "ISO 14253-1 default; gap drawn from the readings as JCGM 101",
    ));
    Section::Facts {
        heading: "What this rests on".to_owned(),
        rows,
    }
}

fn leaf_rows(leaves: &LeafSet, judgement: &Judgement) -> Vec<FactRow> {
    let unit = leaves.unit;
    let lead = forms::LEADS
        .iter()
        .find(|(key, _)| *key == word(&workshop::draft::LEADS, leaves.lead));
    let posture = forms::POSTURES
        .iter()
        .find(|(key, _)| *key == word(&workshop::draft::POSTURES, leaves.posture));
    let chord = if judgement.model.chord > 0.0 {
        format!(
            "reads low by up to {}",
            words::length(judgement.model.chord, unit)
        )
    } else {
        "no chord error".to_owned()
    };
    let given = |given: bool| {
        if given {
            "as you stated"
        } else {
            "assumed; common practice, no source"
        }
    };
    vec![
        fact(
            "Leaves",
            format!(
                "{}, {} wide",
                words::count(leaves.thicknesses.len(), "leaf", "leaves"),
                leaves.width.worded()
            ),
            "described by you",
        ),
        fact(
            "Led in",
            lead.map_or("", |(_, words)| words).to_owned(),
            &chord,
        ),
        fact(
            "Position",
            posture.map_or("", |(_, words)| words).to_owned(),
            "play in the bearing shows in the gap",
        ),
        fact(
            "Leaves true within",
            words::length(judgement.model.leaf_tolerance, unit),
            given(leaves.tolerance.is_some()),
        ),
        fact(
            "A leaf just goes in a gap larger by",
            words::length(judgement.model.feel.goes, unit),
            given(leaves.feel.is_some()),
        ),
    ]
}

fn fact(name: &str, value: String, origin: &str) -> FactRow {
    row(name.to_owned(), vec![Run::Plain(value)], origin.to_owned())
}

/// `4 blades, 8 clock positions, bore 155 mm, looking forward, turning clockwise`
pub(crate) fn pump_words(pump: &Pump) -> String {
    let view = word(&workshop::draft::VIEWS, pump.view).replace('-', " ");
    let rotation = word(&workshop::draft::ROTATIONS, pump.rotation);
    format!(
        "{} blades, {} clock positions, bore {}, {view}, turning {rotation}",
        pump.blades,
        pump.positions,
        pump.bore.worded()
    )
}

/// What is missing or does not fit, each named with its place.
fn open_items(view: &View<'_>, judgement: Option<&Judgement>) -> Option<Section> {
    let mut notes = judgement.map_or_else(Vec::new, |judgement| open_readings(view, judgement));
    notes.extend(frame::objections(view.objections));
    let heading = "Open".to_owned();
    (!notes.is_empty()).then_some(Section::Notes { heading, notes })
}

/// Spots without a reading, with half of one, or with one that contradicts itself.
fn open_readings(view: &View<'_>, judgement: &Judgement) -> Vec<String> {
    let unit = unit(view);
    let name = |spot: &Spot| format!("{} {}", blade_name(spot.blade), view.job.clock(*spot));
    let named = |wanted: &dyn Fn(&Reading) -> bool| {
        let spots = judgement
            .readings
            .iter()
            .filter(|(_, reading)| wanted(reading));
        spots.map(|(spot, _)| name(spot)).collect::<Vec<String>>()
    };
    let mut notes = Vec::new();
    for (spot, reading) in &judgement.readings {
        if let Reading::Contradiction(c) = reading {
            notes.push(format!(
                "Contradictory at {}: {} goes, {} won’t, {}. Wipe leaf and ring and try both again.",
                name(spot),
                words::short(c.goes, unit),
                words::short(c.wont, unit),
                unit.symbol()
            ));
        }
    }
    let unread = named(&|reading| *reading == Reading::Unread);
    if !unread.is_empty() && unread.len() < judgement.readings.len() {
        notes.push(format!("Not read: {}.", words::list(&unread, 8)));
    }
    let no_upper = named(&|r| {
        matches!(
            r,
            Reading::Bracket(Bracket {
                goes: Some(_),
                wont: None
            })
        )
    });
    if !no_upper.is_empty() {
        notes.push(format!(
            "Every leaf tried goes at {}: a thicker one is missing.",
            words::list(&no_upper, 8)
        ));
    }
    let no_lower = named(&|r| {
        matches!(
            r,
            Reading::Bracket(Bracket {
                goes: None,
                wont: Some(_)
            })
        )
    });
    if !no_lower.is_empty() {
        notes.push(format!(
            "No leaf tried goes at {}: a thinner one is missing.",
            words::list(&no_lower, 8)
        ));
    }
    notes
}
