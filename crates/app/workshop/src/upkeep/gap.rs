//! Whether the gap, followed over the visits, stays within the manual's limit through a season.

use service::wear::Growth;

use super::due::Now;
use crate::inspect::wear::{Point, wear};

/// What the visits say of the season ahead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GapSays {
    /// Visits since ring or impeller was renewed.
    pub visits: usize,
    /// What is left to the limit, as read last, `m`.
    pub margin: f64,
    /// Chance that it stays within the limit to the end of a season from today.
    pub season: f64,
}

/// From three visits on that grew each time, with a limit and the hours of a season; none else. Growth that is lost in
/// what a leaf can tell is not growth, and the line through the visits says so under Teardown.
pub(super) fn gap(now: &Now<'_>) -> Option<GapSays> {
    let usage = now.job.upkeep.usage();
    let season = usage.season.as_ref()?.value;
    let wear = wear(now.job)?;
    let middle = |point: &Point| 0.5 * (point.low + point.high);
    let steps = wear.points.windows(2);
    let steps: Vec<(f64, f64)> = steps
        .map(|pair| {
            (
                pair[1].hours - pair[0].hours,
                middle(&pair[1]) - middle(&pair[0]),
            )
        })
        .collect();
    if steps.len() < 2 {
        return None;
    }
    let last = wear.points.last()?;
    let margin = wear.limit? - middle(last);
    let since = now
        .hours
        .map_or(0.0, |hours| (hours.today - last.hours).max(0.0));
    let growth = Growth::fit(&steps).ok()?;
    Some(GapSays {
        visits: wear.points.len(),
        margin,
        season: growth.stays(margin, since + season).ok()?,
    })
}
