//! The pictures: the ring with its blades, and the gap blade by blade.

use chart::{Category, Interval, IntervalChart, Strip, StripCell, StripRow};
use clearance::Estimate;
use quantity::Unit;
use workshop::gap::Judgement;
use workshop::job::{Measure, Posture, Pump, Spot, blade_name, clock_name};
use workshop::walk::Progress;

use super::evidence::cell_mark;
use super::{View, unit};
use crate::drawing::{self, Ring};
use crate::page::{CellMark, Section};

/// The ring in section, with the gap at each clock position.
pub(super) fn ring(
    view: &View<'_>,
    judgement: &Judgement,
    pump: &Pump,
    progress: &Progress,
) -> Section {
    let unit = unit(view);
    let at = view.at.or(progress.next.as_ref().map(|next| next.spot));
    let radial = |limit: f64| unit.from_si(limit);
    let limits = view.job.limits.as_ref().map(|fact| &fact.value);
    // Diametral figures have no place on one side of the ring.
    let drawn = limits.filter(|limits| limits.measure == Measure::Radial);
    let posture = view.job.leaves.as_ref().map(|fact| fact.value.posture);
    let picture = drawing::ring(&Ring {
        blades: pump.blades,
        positions: pump.positions,
        bore: unit.from_si(pump.bore.value),
        view: pump.view,
        rotation: pump.rotation,
        gaps: (0..pump.positions)
            .map(|p| gap_at(judgement, p, unit))
            .collect(),
        standing: (0..pump.positions).map(|p| mark_at(judgement, p)).collect(),
        limits: (
            drawn
                .and_then(|l| l.least.as_ref())
                .map(|l| radial(l.value)),
            drawn
                .and_then(|l| l.greatest.as_ref())
                .map(|l| radial(l.value)),
        ),
        unit: unit.symbol(),
        decimals: if unit == Unit::Thou { 1 } else { 2 },
        at: at.map(|spot| (spot.blade, spot.position)),
        across: posture == Some(Posture::BenchShaftUpright),
    });
    Section::Picture {
        heading: "The ring and the blades".to_owned(),
        svg: picture.svg,
        caption: format!(
            "{} Each number is the blade nearest to a limit there{}.",
            picture.caption,
            if limits.is_some() && drawn.is_none() {
                ", on one side; the manual’s figure counts both sides together"
            } else {
                ""
            }
        ),
    }
}

fn gap_at(judgement: &Judgement, position: u8, unit: Unit) -> Option<drawing::Gap> {
    let gap = judgement.gap.as_ref()?;
    let Estimate { median, low, high } = (*gap.positions.get(usize::from(position))?)?;
    Some(drawing::Gap {
        low: unit.from_si(low),
        middle: unit.from_si(median),
        high: unit.from_si(high),
    })
}

/// The worst of the blades at a position stands for it.
fn mark_at(judgement: &Judgement, position: u8) -> drawing::Mark {
    let here = judgement
        .readings
        .iter()
        .filter(|(spot, _)| spot.position == position);
    let marks: Vec<CellMark> = here.map(|(spot, _)| cell_mark(judgement, *spot)).collect();
    let read = judgement
        .gap
        .as_ref()
        .is_some_and(|gap| gap.spots.keys().any(|spot| spot.position == position));
    if marks.contains(&CellMark::Contradiction) {
        drawing::Mark::Contradiction
    } else if !read {
        drawing::Mark::Unread
    } else if marks.contains(&CellMark::Out) {
        drawing::Mark::Out
    } else if marks.contains(&CellMark::Near) {
        drawing::Mark::Near
    } else if marks.contains(&CellMark::In) {
        drawing::Mark::In
    } else {
        drawing::Mark::Read
    }
}

/// Every blade at every clock position, with its interval.
pub(super) fn spread(view: &View<'_>, judgement: &Judgement, pump: &Pump) -> Option<Section> {
    let gap = judgement.gap.as_ref()?;
    let unit = unit(view);
    let limits = view.job.limits.as_ref().map(|fact| &fact.value);
    let limits = limits.filter(|limits| limits.measure == Measure::Radial);
    let interval = |(spot, estimate): (&Spot, &Estimate)| Interval {
        label: blade_name(spot.blade),
        low: unit.from_si(estimate.low),
        median: unit.from_si(estimate.median),
        high: unit.from_si(estimate.high),
    };
    let category = |position: u8| Category {
        label: clock_name(position, pump.positions),
        intervals: gap
            .spots
            .iter()
            .filter(|(s, _)| s.position == position)
            .map(interval)
            .collect(),
    };
    let svg = chart::intervals(&IntervalChart {
        title: "Gap by clock position, blade by blade".to_owned(),
        axis: format!("gap, {}", unit.symbol()),
        decimals: if unit == Unit::Thou { 0 } else { 2 },
        least: limits
            .and_then(|l| l.least.as_ref())
            .map(|l| unit.from_si(l.value)),
        greatest: limits
            .and_then(|l| l.greatest.as_ref())
            .map(|l| unit.from_si(l.value)),
        categories: (0..pump.positions).map(category).collect(),
    });
    Some(Section::Picture {
        heading: "Blade by blade".to_owned(),
        svg,
        caption:
            "Each letter is a blade; its bar is the 90\u{a0}% interval. One blade off at every \
                  position speaks of the blade; all blades off at one position speak of the ring."
                .to_owned(),
    })
}

/// The ring laid flat, a row a blade: a column that stands out is a place of the ring, a row that
/// does is a blade.
pub(super) fn unrolled(view: &View<'_>, judgement: &Judgement, pump: &Pump) -> Option<Section> {
    let gap = judgement.gap.as_ref()?;
    let unit = unit(view);
    let cell = |spot: Spot| {
        let estimate = gap.spots.get(&spot)?;
        Some(StripCell {
            value: unit.from_si(estimate.median),
            // What is within needs no sign here: the numbers stand close.
            sign: match cell_mark(judgement, spot) {
                CellMark::In => "",
                mark => mark.sign(),
            },
        })
    };
    let row = |blade: u8| StripRow {
        label: blade_name(blade),
        cells: (0..pump.positions)
            .map(|position| cell(Spot { blade, position }))
            .collect(),
    };
    let svg = chart::strip(&Strip {
        title: "The ring laid flat, blade by blade".to_owned(),
        quantity: format!("gap, {}", unit.symbol()),
        decimals: if unit == Unit::Thou { 1 } else { 2 },
        columns: (0..pump.positions)
            .map(|position| clock_name(position, pump.positions))
            .collect(),
        rows: (0..pump.blades).map(row).collect(),
    });
    Some(Section::Picture {
        heading: "The ring laid flat".to_owned(),
        svg,
        caption: "From twelve o’clock round, a row a blade; the heavier the shade, the tighter. A column that \
                  stands out is a place on the ring; a row that stands out is a blade."
            .to_owned(),
    })
}
