//! What the hull asks for, drawn up once so that it can be asked for often.

use crate::Error;
use crate::cubic::{cubic, sloped};
use crate::error::within;

/// Resistance against speed at one mass, and how it goes with the mass.
#[derive(Clone, Debug, PartialEq)]
pub struct Drag {
    /// Resistance and its slope at every speed, `N`, `N s/m`.
    nodes: Vec<[f64; 2]>,
    /// Exponent of the mass at every speed.
    exponents: Vec<f64>,
    /// The mass it was drawn up at, `kg`.
    pub mass: f64,
}

/// Either side of the mass, for the exponent.
const APART: f64 = 0.05;
/// The speeds it is drawn up to, `m/s`.
pub const FASTEST: f64 = 45.0;
/// Distance between speeds, `m/s`.
const STEP: f64 = 0.5;
const NODES: usize = 91;

impl Drag {
    /// Draws up a resistance.
    ///
    /// `R(V, m) = R(V, m_0) (m/m_0)^e(V)`, `e = ln[R(V, 1.05 m_0)/R(V, 0.95 m_0)] / ln(1.05/0.95)`, by cubics between speeds
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `mass` | `m_0` | `kg` |
    /// | `resistance` | of a mass in kg and a speed in m/s; 0 at rest | `N` |
    /// | `returns` | the drag, from 0 to 45 m/s |  |
    ///
    /// Range: masses within 30 % of `m_0`.
    /// Source: definition.
    ///
    /// # Errors
    /// What `resistance` refuses; a mass of nothing.
    pub fn new(
        mass: f64,
        resistance: impl Fn(f64, f64) -> Result<f64, Error>,
    ) -> Result<Self, Error> {
        within("mass", mass, 30.0, 5000.0)?;
        let speeds = (0..NODES).map(|at| STEP * f64::from(u8::try_from(at).unwrap_or(u8::MAX)));
        let mut values = Vec::with_capacity(NODES);
        let mut exponents = Vec::with_capacity(NODES);
        for speed in speeds {
            let at = |mass: f64| {
                if speed > 0.0 {
                    resistance(mass, speed)
                } else {
                    Ok(0.0)
                }
            };
            values.push(at(mass)?);
            let (light, heavy) = (at((1.0 - APART) * mass)?, at((1.0 + APART) * mass)?);
            let exponent = (heavy / light).ln() / ((1.0 + APART) / (1.0 - APART)).ln();
            exponents.push(if exponent.is_finite() { exponent } else { 1.0 });
        }
        Ok(Self {
            nodes: sloped(&values, STEP),
            exponents,
            mass,
        })
    }

    /// Resistance of a mass at a speed of 0 to [`FASTEST`], `N`.
    ///
    /// | here | meaning | unit |
    /// |---|---|---|
    /// | `mass` | of the craft | `kg` |
    /// | `speed` | of the craft | `m/s` |
    /// | `returns` | resistance | `N` |
    ///
    /// Range: as [`Drag::new`].
    /// Source: definition.
    pub fn at(&self, mass: f64, speed: f64) -> f64 {
        let place = speed / STEP;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a place in a table of ninety"
        )]
        let at = (place as usize).min(self.nodes.len() - 2);
        #[expect(clippy::cast_precision_loss, reason = "a place in a table of ninety")]
        let t = place - at as f64;
        let value = cubic([self.nodes[at], self.nodes[at + 1]], STEP, t);
        let exponent = (1.0 - t) * self.exponents[at] + t * self.exponents[at + 1];
        value * (exponent * (mass / self.mass).ln()).exp()
    }
}
