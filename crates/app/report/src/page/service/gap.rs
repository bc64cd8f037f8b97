//! The gap through the season ahead, in words.

use super::{View, say};
use crate::page::{Section, row, strong};
use crate::words::{count, length};

pub(super) fn facts(view: &View<'_>) -> Option<Section> {
    let gap = view.says.gap.as_ref()?;
    let season = view.job.upkeep.usage().season?;
    let visits = count(gap.visits, "visit", "visits");
    Some(Section::Facts {
        heading: "The gap through the season".to_owned(),
        rows: vec![row(
            format!("A season of {}", say::hours(season.value)),
            vec![strong(format!(
                "within the manual’s limit to its end in {}",
                say::cases(gap.season)
            ))],
            format!(
                "as it grew over {visits}; {} are left to the limit",
                length(gap.margin, view.job.unit())
            ),
        )],
    })
}
