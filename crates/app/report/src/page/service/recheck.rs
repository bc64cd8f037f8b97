//! The recheck after the first hour, point by point.

use workshop::upkeep::answer::Answer as Says;
use workshop::upkeep::recheck::Point;

use super::{View, say};
use crate::page::forms::service as forms;
use crate::page::{Card, FactRow, Section, Tone, plain, row, soft, strong};

/// Nothing of it is open.
pub(super) fn done(says: &Says) -> bool {
    says.recheck.left.is_empty() && says.recheck.amiss.is_empty()
}

/// The point that is asked about: those nobody looked at first, then those that were amiss.
pub(super) fn asked(says: &Says) -> Option<Point> {
    let recheck = &says.recheck;
    recheck.left.first().or(recheck.amiss.first()).copied()
}

/// Every point with what was found.
pub(super) fn list(view: &View<'_>) -> Section {
    let recheck = &view.says.recheck;
    let closed = recheck.closed.filter(|_| done(view.says));
    let (tone, state) = match closed {
        Some(on) => (
            Tone::Good,
            format!("job closed on {}", say::day(on, view.says.today)),
        ),
        None if !recheck.amiss.is_empty() => (Tone::Stop, "amiss".to_owned()),
        None => (
            Tone::Open,
            format!(
                "{} of {} as it should be",
                recheck.well.len(),
                Point::ALL.len()
            ),
        ),
    };
    let any = !view.job.upkeep.recheck.is_empty();
    Section::Card(Card {
        heading: "Recheck after the first hour".to_owned(),
        tone,
        state,
        rows: Point::ALL.map(|point| line(view, point)).into(),
        notes: Vec::new(),
        forms: any
            .then(|| forms::point((view.job, None), view.refused))
            .into_iter()
            .collect(),
    })
}

fn line(view: &View<'_>, point: Point) -> FactRow {
    let Some(told) = view.job.upkeep.recheck.get(&point) else {
        return row(point.name(), vec![soft("not looked at yet")], "");
    };
    let (well, note) = &told.what.value;
    let note = match note.as_str() {
        "" => String::new(),
        note => format!(": {note}"),
    };
    let value = if *well {
        vec![strong("as it should be"), plain(note)]
    } else {
        vec![strong("amiss"), plain(format!("{note}. {}", point.amiss()))]
    };
    row(point.name(), value, say::day(told.on, view.says.today))
}
