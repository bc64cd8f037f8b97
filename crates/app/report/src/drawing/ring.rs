//! The wear ring in section, seen along the shaft.

use maud::html;

use super::{Drawing, Ring};

/// Draws the ring.
pub fn ring(ring: &Ring) -> Drawing {
    Drawing {
        svg: html! { svg class="drawing" viewBox="0 0 340 344" role="img" aria-label="Wear ring" {} },
        caption: format!("Gaps in {}.", ring.unit),
    }
}
