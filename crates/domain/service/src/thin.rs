//! Fewer lives that stand for many, where every one of them costs something to reckon.

use crate::Error;
use crate::error::within;
use crate::posterior::{Point, Posterior};

/// Weight beside the heaviest, as a logarithm, of the lives that the meshes are drawn round.
const EDGE: f64 = -12.0;

/// Weight, ln β and ln η of a point; or sums of them, the latter weighted.
#[derive(Clone, Copy, Default)]
struct Logs {
    weight: f64,
    shape: f64,
    scale: f64,
}

impl Posterior {
    /// The same by fewer lives, for pictures and comparisons.
    ///
    /// Points that fall into one mesh, of as many along ln β as along ln η, become one of their weight at their
    /// weighted middle; what lies beyond the outermost meshes, e^−12 of the heaviest, falls into those. All are then
    /// spread out by what the meshes took from the standard deviations.
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | `most` | points at most; meshes that nothing fell into are none | `1` |
    ///
    /// Range: 100 to 26 000 points. Means and standard deviations of ln β and of ln η stay as they are.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::Outside`].
    pub fn thinned(&self, most: u32) -> Result<Self, Error> {
        within("points at most", f64::from(most), 100.0, 26_000.0)?;
        let side = most.isqrt();
        let heaviest = self.points.iter().map(|one| one.weight);
        let least = heaviest.fold(0.0, f64::max) * EDGE.exp();
        let none = (f64::INFINITY, f64::NEG_INFINITY);
        let (mut shapes, mut scales) = (none, none);
        let each = self.points.iter().map(|one| Logs {
            weight: one.weight,
            shape: one.shape.ln(),
            scale: one.scale.ln(),
        });
        let logs: Vec<Logs> = each.collect();
        for one in logs.iter().filter(|one| one.weight >= least) {
            shapes = (one.shape.min(shapes.0), one.shape.max(shapes.1));
            scales = (one.scale.min(scales.0), one.scale.max(scales.1));
        }
        let rows = place(f64::INFINITY, (0.0, 1.0), side) + 1;
        let mut all = vec![Logs::default(); rows * rows];
        for one in &logs {
            let mesh = place(one.shape, shapes, side) * rows + place(one.scale, scales, side);
            let mesh = &mut all[mesh];
            mesh.weight += one.weight;
            mesh.shape += one.weight * one.shape;
            mesh.scale += one.weight * one.scale;
        }
        let filled = all.iter().filter(|mesh| mesh.weight > 0.0);
        let thin: Vec<Logs> = filled
            .map(|mesh| Logs {
                weight: mesh.weight,
                shape: mesh.shape / mesh.weight,
                scale: mesh.scale / mesh.weight,
            })
            .collect();
        let shape = spread_out(&logs, &thin, |one| one.shape);
        let scale = spread_out(&logs, &thin, |one| one.scale);
        let mut points = Vec::new();
        for one in &thin {
            let (shape, scale) = (shape(one).exp(), scale(one).exp());
            points.push(Point {
                weight: one.weight,
                shape,
                scale,
                life: self.points[0].life.worn_as(shape, scale)?,
            });
        }
        Ok(Self { points })
    }
}

/// Draws values away from their mean until their standard deviation is what it was.
fn spread_out(
    before: &[Logs],
    after: &[Logs],
    value: impl Fn(&Logs) -> f64,
) -> impl Fn(&Logs) -> f64 {
    let sum = |all: &[Logs], what: &dyn Fn(&Logs) -> f64| -> f64 {
        all.iter().map(|one| one.weight * what(one)).sum()
    };
    let middle = sum(before, &value) / sum(before, &|_| 1.0);
    let square = |one: &Logs| (value(one) - middle) * (value(one) - middle);
    let factor = (sum(before, &square) / sum(after, &square)).sqrt();
    move |one| middle + factor * (value(one) - middle)
}

/// The mesh a value falls into, the outermost for what lies beyond.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "cut to the meshes there are before"
)]
fn place(value: f64, (low, high): (f64, f64), side: u32) -> usize {
    let share = (value - low) / (high - low) * f64::from(side);
    share.clamp(0.0, f64::from(side - 1)) as usize
}
