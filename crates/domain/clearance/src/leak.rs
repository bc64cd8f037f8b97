//! The leak test of a closed housing, by pressure or by vacuum.
//!
//! Trapped air follows its temperature: a housing pumped to 70 kPa above the air around and then 5 K
//! cooler has lost 2.9 kPa without any leak. So the fall is corrected by the ideal gas law, and what
//! the gauge and the thermometer may be off decides how small a leak can be told.
//!
//! Compressed air stores energy that water does not. Never beyond the pressure the craft's manual
//! names, never against plugs, covers or lip seals it does not name, and stand aside of all of them.

use crate::error::{finite, not_negative, positive, within};
use crate::{Band, Contribution, Error, Estimated, Verdict, combine, verdict};

/// What gauge and thermometer show at one moment.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `gauge` | above the air around; below zero for a vacuum | `Pa` |
/// | `temperature` | of the air inside, or of the housing when both have settled | `K` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    /// Above the air around.
    pub gauge: f64,
    /// Of the air inside.
    pub temperature: f64,
}

/// What is known of the air around.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `pressure` | absolute, at the place and not reduced to sea level | `Pa` |
/// | `uncertainty` | standard uncertainty of it | `Pa` |
/// | `drift` | standard uncertainty of its change during the hold | `Pa` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Absolute, at the place.
    pub pressure: f64,
    /// Standard uncertainty of it.
    pub uncertainty: f64,
    /// Standard uncertainty of its change during the hold.
    pub drift: f64,
}

/// Standard uncertainties of one reading, apart from the next.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `gauge` | of the gauge | `Pa` |
/// | `thermometer` | of the thermometer | `K` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instruments {
    /// Of the gauge.
    pub gauge: f64,
    /// Of the thermometer.
    pub thermometer: f64,
}

/// One test: pumped up or down, shut off, left alone.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `start` | shown when settled after shutting off | |
/// | `end` | shown at the end | |
/// | `hold` | time between | `s` |
/// | `air` | around | |
/// | `instruments` | what they may be off | |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Test {
    /// Shown when settled after shutting off.
    pub start: Shown,
    /// Shown at the end.
    pub end: Shown,
    /// Time between.
    pub hold: f64,
    /// Around.
    pub air: Air,
    /// What they may be off.
    pub instruments: Instruments,
}

/// What leaked during the hold.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `tight` | what the gauge would show at the end without a leak | `Pa` |
/// | `loss` | pressure or vacuum lost by leaking | `Pa` |
/// | `uncertainty` | standard uncertainty of the loss | `Pa` |
/// | `rate` | loss over the hold | unit of the pressure over that of the time |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loss {
    /// What the gauge would show at the end without a leak.
    pub tight: f64,
    /// Pressure or vacuum lost by leaking.
    pub loss: f64,
    /// Standard uncertainty of the loss.
    pub uncertainty: f64,
    /// Loss over the hold.
    pub rate: f64,
}

/// Gauge reading of a tight housing after a change of temperature.
///
/// `g2 = (g1 + a) T2 / T1 - a`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `start` | g1, T1 | shown at the start | |
/// | `temperature` | T2 | at the end | `K` |
/// | `atmosphere` | a | pressure of the air around, absolute | `Pa` |
/// | returns | g2 | shown at the end | `Pa` |
///
/// Range: `g1 + a > 0`, temperatures and atmosphere above zero; dry air in a stiff housing.
/// Source: definition, of the ideal gas.
///
/// # Errors
/// [`Error::NotPositive`].
pub fn tight(start: Shown, temperature: f64, atmosphere: f64) -> Result<f64, Error> {
    let atmosphere = positive("the pressure of the air around", atmosphere)?;
    let inside = positive(
        "the absolute pressure at the start",
        start.gauge + atmosphere,
    )?;
    let from = positive("the temperature at the start", start.temperature)?;
    let to = positive("the temperature at the end", temperature)?;
    Ok(inside * to / from - atmosphere)
}

/// What leaked during a test.
///
/// `loss = (g1 + a) T2 / T1 - a - g2` under pressure, its opposite under vacuum
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `test` | g, T, a | readings and air around | |
///
/// Range: as [`tight`], a gauge that does not start at zero, `hold > 0`, uncertainties zero or more
/// and not all zero.
/// Source: `jcgm-100`, equation 10, on the ideal gas law.
///
/// # Errors
/// [`Error::NotPositive`], [`Error::Negative`].
pub fn loss(test: &Test) -> Result<Loss, Error> {
    let Test {
        start,
        end,
        air,
        instruments,
        ..
    } = *test;
    let hold = positive("the time of the hold", test.hold)?;
    let expected = tight(start, end.temperature, air.pressure)?;
    positive("the absolute pressure at the end", end.gauge + air.pressure)?;
    positive(
        "what the gauge shows at the start, either way",
        start.gauge.abs(),
    )?;
    let inside = start.gauge + air.pressure;
    let ratio = end.temperature / start.temperature;
    let line = |sensitivity: f64, uncertainty| Contribution {
        sensitivity,
        uncertainty,
        freedom: f64::INFINITY,
    };
    let combined = combine(&[
        line(ratio, instruments.gauge),
        line(1.0, instruments.gauge),
        line(inside * ratio / start.temperature, instruments.thermometer),
        line(inside / start.temperature, instruments.thermometer),
        line(ratio - 1.0, air.uncertainty),
        line(1.0, air.drift),
    ])?;
    let loss = (expected - end.gauge) * start.gauge.signum();
    Ok(Loss {
        tight: expected,
        loss,
        uncertainty: combined.uncertainty,
        rate: loss / hold,
    })
}

/// Air that leaks, as a flow of air at the pressure around.
///
/// `q = V loss / (a t)`
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `loss` | loss / t | what leaked | |
/// | `volume` | V | of the housing and of the hose | `m^3` |
/// | `atmosphere` | a | pressure of the air around, absolute | `Pa` |
/// | returns | q | out of the housing under pressure, into it under vacuum | `m^3/s` |
///
/// Range: volume and atmosphere above zero.
/// Source: definition, of the ideal gas.
///
/// # Errors
/// [`Error::NotPositive`].
pub fn flow(loss: &Loss, volume: f64, atmosphere: f64) -> Result<f64, Error> {
    let atmosphere = positive("the pressure of the air around", atmosphere)?;
    Ok(positive("the volume of the housing", volume)? * loss.rate / atmosphere)
}

/// What a test shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// Probability that no more was lost than allowed, in `1`.
    pub within: f64,
    /// In: it holds. Out: it leaks. Undecided: cannot say.
    pub verdict: Verdict,
    /// More air was found than any tight housing has: a temperature or the gauge was misread.
    pub backwards: bool,
}

/// Whether a housing lost no more than the craft's manual allows in a hold of this length.
///
/// `p = Phi((allowed - loss) / u)`; nothing is said when the loss is shown to be below zero
///
/// | here | symbol | meaning | unit |
/// |------|--------|---------|------|
/// | `loss` | loss, u | what leaked | `Pa` |
/// | `allowed` | | most that may be lost | `Pa` |
/// | `required` | | probability asked for either claim, usually 0.95 | `1` |
///
/// Range: `allowed >= 0`, `0.5 < required < 1`.
/// Source: `jcgm-106`, clause 7; `iso-14253-1` for the verdict.
///
/// # Errors
/// [`Error::Negative`], [`Error::Outside`], [`Error::NotPositive`].
pub fn judge(loss: &Loss, allowed: f64, required: f64) -> Result<Judged, Error> {
    let up_to = |greatest| Band {
        least: None,
        greatest: Some(greatest),
    };
    let required = within("the required probability", required, 0.5, 1.0)?;
    // The rule holds in any unit, here in pascals.
    let lost = Estimated {
        value: finite("the loss", loss.loss)?,
        uncertainty: loss.uncertainty,
    };
    let allowed = not_negative("the loss allowed", allowed)?;
    let keeps = lost.probability_within(&up_to(allowed))?;
    let backwards = lost.probability_within(&up_to(0.0))? >= required;
    Ok(Judged {
        within: keeps,
        verdict: if backwards {
            Verdict::Undecided
        } else {
            verdict(keeps, required)
        },
        backwards,
    })
}
