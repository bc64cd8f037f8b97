//! The two axes of a field, with their ticks and titles.

use maud::{Markup, html};

use crate::{Frame, Path, Point, Scale, num, px};

/// Ticks aimed at on either axis.
pub(crate) const TICKS: u32 = 5;

/// A line across at each tick up, numbers at both axes, their titles, and the line the field stands on.
pub(crate) fn axes(
    frame: Frame,
    (along, along_title): (&Scale, &str),
    (up, up_title): (&Scale, &str),
) -> Markup {
    let Frame {
        left,
        right,
        bottom,
        ..
    } = frame;
    let across = |y: f64| {
        let end = |x| Point { x, y };
        Path::new().to(end(left)).to(end(right))
    };
    let decimals = (along.decimals(TICKS), up.decimals(TICKS));
    html! {
        text class="label start strong text-ink" x="6" y="16" { (up_title) }
        text class="label end strong text-ink" x=[px(right)] y=[px(bottom + 36.0)] { (along_title) }
        @for tick in up.ticks(TICKS) {
            path class="stroke-line hair" d=(across(up.place(tick)).d()) {}
            @if let Some(number) = num(tick, decimals.1) {
                text class="label end text-soft" x=[px(left - 7.0)] y=[px(up.place(tick) + 4.5)] { (number) }
            }
        }
        @for tick in along.ticks(TICKS) {
            @if let Some(number) = num(tick, decimals.0) {
                text class="label middle text-soft" x=[px(along.place(tick))] y=[px(bottom + 17.0)] { (number) }
            }
        }
        path class="stroke-ink fine" d=(across(bottom).d()) {}
    }
}
