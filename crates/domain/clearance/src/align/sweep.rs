//! Four readings round the clock, with the shaft in one place or in several.

use std::f64::consts::SQRT_2;

use nalgebra::Complex;

use crate::error::{finite, not_negative, positive};
use crate::{Error, Estimated, rectangular};

/// Readings round a coupling or a bar, seen looking forward.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `top` | at 12 o'clock | `m` |
/// | `starboard` | at 3 o'clock | `m` |
/// | `bottom` | at 6 o'clock | `m` |
/// | `port` | at 9 o'clock | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sweep {
    /// At 12 o'clock.
    pub top: f64,
    /// At 3 o'clock.
    pub starboard: f64,
    /// At 6 o'clock.
    pub bottom: f64,
    /// At 9 o'clock.
    pub port: f64,
}

impl Sweep {
    fn finite(self) -> Result<Self, Error> {
        for reading in [self.top, self.starboard, self.bottom, self.port] {
            finite("a reading round the clock", reading)?;
        }
        Ok(self)
    }
}

/// What one reading may be off, both as half widths.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `step` | smallest step that is read | `m` |
/// | `repeat` | a reading comes back within so much, either way | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instrument {
    /// Smallest step that is read; half of it is lost in reading.
    pub step: f64,
    /// A reading comes back within so much, either way.
    pub repeat: f64,
}

impl Instrument {
    /// The most one reading is off.
    ///
    /// `h = step / 2 + repeat`
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | h: half width of the error of one reading | `m` |
    ///
    /// Range: a step above zero, a repeat of zero or more.
    /// Source: definition.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Negative`].
    pub fn most(self) -> Result<f64, Error> {
        let step = positive("the step of the instrument", self.step)?;
        Ok(0.5 * step + not_negative("what a reading repeats within", self.repeat)?)
    }

    /// Standard uncertainty of one reading.
    ///
    /// `u^2 = (step / 2)^2 / 3 + repeat^2 / 3`
    ///
    /// | here | meaning | unit |
    /// |------|---------|------|
    /// | returns | u | `m` |
    ///
    /// Range: a step above zero, a repeat of zero or more.
    /// Source: `jcgm-100`, 4.3.7 and equation 10.
    ///
    /// # Errors
    /// [`Error::NotPositive`], [`Error::Negative`].
    pub fn uncertainty(self) -> Result<f64, Error> {
        self.most()?;
        Ok(rectangular(0.5 * self.step).hypot(rectangular(self.repeat)))
    }
}

/// Whether four readings belong together.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `error` | top and bottom less both sides | `m` |
/// | `explained` | the most the instrument explains | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closure {
    /// Top and bottom less both sides.
    pub error: f64,
    /// The most the instrument explains.
    pub explained: f64,
}

impl Closure {
    /// The instrument explains the error.
    pub fn holds(&self) -> bool {
        self.error.abs() <= self.explained * (1.0 + 1e-9)
    }
}

/// The sum rule: on round parts top and bottom add up to the two sides.
///
/// `c = (R12 + R6) - (R3 + R9)`, explained up to `4 h`
///
/// Whatever offset, slope and runout there are, they go round the clock once and leave the sum alone;
/// so does a bracket that sags, which is why its sag is asked for and cannot be seen here. What breaks
/// the rule is a dial that moved, a slip in reading, a shaft that floated, a rim that is not round.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `sweep` | R | readings | |
/// | `instrument` | h | most one reading is off | |
///
/// Range: finite readings.
/// Source: definition.
///
/// # Errors
/// [`Error::Outside`], [`Error::NotPositive`], [`Error::Negative`].
pub fn closure(sweep: &Sweep, instrument: Instrument) -> Result<Closure, Error> {
    let sweep = sweep.finite()?;
    Ok(Closure {
        error: (sweep.top + sweep.bottom) - (sweep.starboard + sweep.port),
        explained: 4.0 * instrument.most()?,
    })
}

/// A total indicator reading: what the dial swings from one side to the opposite one.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `value` | reading on one side less that on the opposite | `m` |
/// | `uncertainty` | standard uncertainty of it | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Total {
    /// Reading on one side less that on the opposite.
    pub value: f64,
    /// Standard uncertainty of it.
    pub uncertainty: f64,
}

impl Total {
    /// The offset behind a swing round a rim: half of it.
    ///
    /// `o = T / 2`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | returns | o | offset of one axis from the other | `m` |
    ///
    /// Range: any.
    /// Source: definition; `coupling-sheet`, parallel alignment.
    pub fn offset(self) -> Estimated {
        Estimated {
            value: 0.5 * self.value,
            uncertainty: 0.5 * self.uncertainty,
        }
    }

    /// The slope behind a swing on a face: all of it over the circle the plunger runs on.
    ///
    /// `s = T / D`
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `diameter` | D | of the circle the plunger runs on | `m` |
    /// | returns | s | slope of one axis to the other | `rad` |
    ///
    /// Range: `D > 0`; small angles.
    /// Source: definition; `coupling-sheet`, angular alignment.
    ///
    /// # Errors
    /// [`Error::NotPositive`].
    pub fn slope(self, diameter: f64) -> Result<Estimated, Error> {
        let across = positive("the diameter the face is read on", diameter)?;
        Ok(Estimated {
            value: self.value / across,
            uncertainty: self.uncertainty / across,
        })
    }
}

/// Readings with the shaft turned to one place.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `turned` | of the shaft that is not read from, clockwise looking forward | `rad` |
/// | `sweep` | readings | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// How far the shaft is turned, clockwise looking forward.
    pub turned: f64,
    /// Readings.
    pub sweep: Sweep,
}

/// What turns with the shaft: a bent bar, an eccentric or tilted coupling.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `total` | swing it would make by itself | |
/// | `angle` | where it reads most with the shaft unturned, clockwise from the top | `rad` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Runout {
    /// The swing it would make by itself, never below zero.
    pub total: Total,
    /// Where it reads most with the shaft unturned, clockwise from the top.
    pub angle: f64,
}

/// What readings round the clock say.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `up` | top less bottom, that stays | |
/// | `port` | port less starboard, that stays | |
/// | `runout` | what turns with the shaft, where it was turned | |
/// | `misfit` | the most a total departs from both | `m` |
/// | `explained` | the most of it the instrument explains | `m` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swept {
    /// Top less bottom, of what stays.
    pub up: Total,
    /// Port less starboard, of what stays.
    pub port: Total,
    /// What turns with the shaft; none where it stood in one place only.
    pub runout: Option<Runout>,
    /// The most a total departs from what stays and turns.
    pub misfit: f64,
    /// The most of it the instrument explains.
    pub explained: f64,
}

impl Swept {
    /// The instrument explains the misfit.
    pub fn holds(&self) -> bool {
        self.misfit <= self.explained * (1.0 + 1e-9)
    }

    /// The same with the sag of the dial's bracket taken out.
    ///
    /// `T_up = T_up' + S`
    ///
    /// A bar that droops by g lets the dial read `g cos t` too much round the clock: set to zero at 12 on
    /// a straight pipe it shows `S = -2 g` at 6.
    ///
    /// | here | symbol | meaning | unit |
    /// |------|--------|---------|------|
    /// | `sag` | S | shown at 6 on a straight pipe, zero at 12 | |
    ///
    /// Range: finite.
    /// Source: definition.
    #[must_use]
    pub fn without_sag(self, sag: Total) -> Self {
        Self {
            up: Total {
                value: self.up.value + sag.value,
                uncertainty: self.up.uncertainty.hypot(sag.uncertainty),
            },
            ..self
        }
    }
}

/// Parts what stays from what turns with the shaft, by least squares through the once-round parts.
///
/// `z_k = (R12 - R6) + i (R3 - R9)`, `z_k = z_0 + E exp(i f_k)`:
/// `z_0 = (n sum z - W sum conj(w) z) / (n^2 - |W|^2)`, `E = (n sum conj(w) z - conj(W) sum z) / (n^2 - |W|^2)`,
/// `w_k = exp(i f_k)`, `W = sum w`; `u^2 = 2 u_R^2 n / (n^2 - |W|^2)`
///
/// A dial set to zero anew for every place of the shaft changes nothing, since only differences count.
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `turns` | f, R | readings, one place of the shaft each | |
/// | `instrument` | `u_R` | of one reading | |
///
/// Range: one place of the shaft, or several that differ.
/// Source: definition, of least squares; `jcgm-100`, equation 10.
///
/// # Errors
/// [`Error::Empty`], [`Error::Twice`], [`Error::Outside`], [`Error::NotPositive`], [`Error::Negative`].
pub fn swept(turns: &[Turn], instrument: Instrument) -> Result<Swept, Error> {
    let each = instrument.uncertainty()? * SQRT_2;
    let most = instrument.most()?;
    for (at, turn) in turns.iter().enumerate() {
        turn.sweep.finite()?;
        finite("the turn of the shaft", turn.turned)?;
        // Two places nearer than half a degree tell nothing apart.
        let near = |other: &Turn| (turn.turned - other.turned).cos() > 0.999_96;
        if turns[..at].iter().any(near) {
            return Err(Error::Twice {
                what: "turn of the shaft",
                at,
            });
        }
    }
    let totals: Vec<Complex<f64>> = turns
        .iter()
        .map(|Turn { sweep, .. }| {
            Complex::new(sweep.top - sweep.bottom, sweep.starboard - sweep.port)
        })
        .collect();
    let total = |value, uncertainty| Total { value, uncertainty };
    let of = |stays: Complex<f64>, uncertainty, runout| Swept {
        up: total(stays.re, uncertainty),
        port: total(-stays.im, uncertainty),
        runout,
        misfit: 0.0,
        explained: 2.0 * most,
    };
    match totals.as_slice() {
        [] => Err(Error::Empty {
            what: "reading round the clock",
        }),
        [only] => Ok(of(*only, each, None)),
        _ => {
            let fit = Fit::of(turns, &totals);
            let uncertainty = each * fit.spread.sqrt();
            let found = of(
                fit.stays,
                uncertainty,
                Some(Runout {
                    total: total(fit.turns.re.hypot(fit.turns.im), uncertainty),
                    angle: fit.turns.im.atan2(fit.turns.re),
                }),
            );
            // A total is off by no more than 2 h each way, both ways by root 2 of that.
            Ok(Swept {
                misfit: fit.misfit,
                explained: 2.0 * SQRT_2 * most * fit.worst,
                ..found
            })
        }
    }
}

/// A fit in the plane of the clock: up, and to starboard.
struct Fit {
    stays: Complex<f64>,
    turns: Complex<f64>,
    /// Square of the uncertainty of each over that of a total.
    spread: f64,
    misfit: f64,
    /// The most a residual is, over the error of a total.
    worst: f64,
}

impl Fit {
    fn of(turns: &[Turn], totals: &[Complex<f64>]) -> Self {
        let n = crate::real(turns.len());
        let w: Vec<Complex<f64>> = turns
            .iter()
            .map(|turn| Complex::new(turn.turned.cos(), turn.turned.sin()))
            .collect();
        let (all, z): (Complex<f64>, Complex<f64>) = (w.iter().sum(), totals.iter().sum());
        let back: Complex<f64> = w.iter().zip(totals).map(|(w, z)| w.conj() * z).sum();
        let length = all.re.hypot(all.im);
        let over = 1.0 / (n * n - length * length);
        let stays = (z * n - all * back) * over;
        let turning = (back * n - all.conj() * z) * over;
        let misfit = w.iter().zip(totals).map(|(w, z)| {
            let off = z - (stays + turning * w);
            off.re.hypot(off.im)
        });
        Self {
            stays,
            turns: turning,
            spread: n * over,
            misfit: misfit.fold(0.0, f64::max),
            worst: 1.0 + 2.0 * n / (n - length),
        }
    }
}
