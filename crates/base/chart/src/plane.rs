//! Points on the page, and how they are written.

use std::fmt::Write as _;

/// A number as it stands in a picture: this many decimals, no negative zero.
///
/// None for a number that is not finite, so that none is ever drawn; `maud` then leaves the attribute
/// out when it is written `x=[px(x)]`.
pub fn num(value: f64, decimals: u32) -> Option<String> {
    if !value.is_finite() {
        return None;
    }
    let text = format!("{value:.*}", decimals as usize);
    let zero = text.bytes().all(|b| matches!(b, b'-' | b'0' | b'.'));
    Some(match text.strip_prefix('-') {
        Some(bare) if zero => bare.to_owned(),
        _ => text,
    })
}

/// A length or place on the page, to a hundredth of a pixel.
pub fn px(value: f64) -> Option<String> {
    num(value, 2)
}

/// A place on the page, `x` to the right and `y` down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// The field of a chart, inside its margins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Frame {
    /// The middle of the column `index` when the width is shared among `count`.
    pub fn column(&self, index: usize, count: usize) -> f64 {
        self.left + (real(index) + 0.5) * self.column_width(count)
    }

    /// The width of one of `count` columns.
    pub fn column_width(&self, count: usize) -> f64 {
        (self.right - self.left) / real(count.max(1))
    }
}

/// A count as a number to draw with.
#[expect(
    clippy::cast_precision_loss,
    reason = "things on a page are counted in dozens, far below where f64 stops being exact"
)]
pub(crate) fn real(count: usize) -> f64 {
    count as f64
}

/// A clock face: angles run with the clock from twelve, in `rad`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Polar {
    /// Where the hands are fixed.
    pub centre: Point,
}

impl Polar {
    /// The point at this radius and angle.
    pub fn at(&self, radius: f64, angle: f64) -> Point {
        Point {
            x: self.centre.x + radius * angle.sin(),
            y: self.centre.y - radius * angle.cos(),
        }
    }
}

/// The `d` of an SVG path. A point that is not finite is left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Path {
    d: String,
    open: bool,
}

impl Path {
    /// An empty path.
    pub fn new() -> Self {
        Self::default()
    }

    /// Lifts the pen: the next point begins a new stroke.
    #[must_use]
    pub fn lift(mut self) -> Self {
        self.open = false;
        self
    }

    /// Draws to the point, or begins there.
    #[must_use]
    pub fn to(mut self, point: Point) -> Self {
        if let (Some(x), Some(y)) = (px(point.x), px(point.y)) {
            let pen = if self.open { 'L' } else { 'M' };
            // Writing to a String cannot fail.
            let _ = write!(self.d, "{pen}{x} {y}");
            self.open = true;
        }
        self
    }

    /// Draws through all the points, in order.
    #[must_use]
    pub fn through(self, points: impl IntoIterator<Item = Point>) -> Self {
        points.into_iter().fold(self, Path::to)
    }

    /// Draws back to where the stroke began.
    #[must_use]
    pub fn close(mut self) -> Self {
        if self.open {
            self.d.push('Z');
            self.open = false;
        }
        self
    }

    /// What stands in the attribute `d`.
    pub fn d(&self) -> &str {
        &self.d
    }
}
