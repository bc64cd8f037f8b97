//! What a change will do, with how sure that is.

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};
use statrs::distribution::{ContinuousCDF, Normal};

use crate::Error;
use crate::calibrate::{Fit, unknowns};
use crate::change::Change;
use crate::craft::{Conditions, Craft};
use crate::observe::{Observed, observe};
use crate::unknown::{COUNT, Unknowns};

/// How many normal numbers a draw has for errors of parts.
pub const SPARE: usize = 4;

/// One belief of a craft, and numbers for what is uncertain of the parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Draw {
    /// The unknowns.
    pub unknowns: Unknowns,
    /// Standard normal numbers.
    pub spare: [f64; SPARE],
}

/// Draws beliefs from what was learnt.
///
/// `z = z_0 + L xi`, `L L'` the spread; a belief that makes no sense is drawn anew
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `fit` | what was learnt, or nothing |  |
/// | `count` | how many | `1` |
/// | `returns` | beliefs, the same ones every time, each from a stream of its own |  |
///
/// Range: any.
/// Source: definition.
pub fn draws(fit: &Fit, count: usize) -> Vec<Draw> {
    (0..count).map(|index| draw(fit, index)).collect()
}

const TRIES: usize = 200;

fn draw(fit: &Fit, index: usize) -> Draw {
    let mut dice = Pcg64Mcg::seed_from_u64(index as u64);
    let normal = Normal::standard();
    let mut one = || {
        // The middle of one of 2^53 cells, so that neither 0 nor 1 comes.
        #[expect(clippy::cast_precision_loss, reason = "53 bits")]
        let share = ((dice.next_u64() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64;
        normal.inverse_cdf(share)
    };
    let spare = std::array::from_fn(|_| one());
    let mean: [f64; COUNT] = std::array::from_fn(|at| {
        let prior = &crate::unknown::PRIORS[at];
        (fit.best.0[at] - prior.mean) / prior.spread
    });
    let mut drawn = fit.best;
    for _ in 0..TRIES {
        let xi: [f64; COUNT] = std::array::from_fn(|_| one());
        let spreads: [f64; COUNT] = std::array::from_fn(|at| {
            let row = fit.factor[at].iter().zip(&xi);
            mean[at] + row.map(|(factor, xi)| factor * xi).sum::<f64>()
        });
        drawn = unknowns(&spreads);
        if drawn.sensible() {
            break;
        }
    }
    Draw {
        unknowns: drawn,
        spare,
    }
}

/// What is seen of a craft by one belief, with changes made to it.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `craft` | as fitted, on that day |  |
/// | `day` | as fitted, on that day |  |
/// | `belief` | the unknowns |  |
/// | `changes` | made one after another |  |
/// | `speeds` | speeds that starts are timed to | `m/s` |
/// | `returns` | what is seen |  |
///
/// Range: as [`observe`].
/// Source: definition.
///
/// # Errors
/// As [`observe`].
pub fn seen_by(
    (craft, day): (&Craft, &Conditions),
    belief: &Unknowns,
    changes: &[Change],
    speeds: &[f64],
) -> Result<Observed, Error> {
    let mut craft = craft.clone();
    craft.unknowns = *belief;
    for change in changes {
        change.apply(&mut craft);
    }
    observe(&craft, day, speeds)
}

/// Ends and middle of an interval that holds four times in five.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// One in ten is below.
    pub low: f64,
    /// As often above as below.
    pub middle: f64,
    /// One in ten is above.
    pub high: f64,
}

/// How far a change reaches, for what the model itself may be wrong by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// The quantity's own size: top speed, engine speed, time.
    pub size: f64,
    /// Change of the engine's speed at the top over that speed, of all parts of the change added up
    /// without sign; and [`GAP`] for every blade height of gap, which hardly moves the engine's speed.
    pub turns: f64,
}

/// How far a change of gap reaches, as a change of the engine's speed would: tuned alike.
pub const GAP: f64 = 6.0;

/// The model's error, as a share of what it says changes: `hydro`, common practice, no source.
pub const MODEL: f64 = 0.25;
/// Error of top speed, engine speed and time as a share of their size, for every share by which a
/// change moves the engine's speed: tuned alike.
pub const SHAPE: [f64; 3] = [0.11, 0.06, 0.9];
/// The same for a craft that nothing was learnt of.
pub const SHAPE_UNLEARNT: [f64; 3] = [0.11, 0.15, 0.9];
/// Standard normal number above which one in ten lies.
const TENTH: f64 = 1.281_551_565_544_600_4;

/// The band of a difference, the model's own error in it.
///
/// `m ± sqrt[(q − m)² + (1.28 · 0.25 m)² + (1.28 c X d)²]`, `q` the deciles of the draws and `m` their median
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `differences` | of each draw | unit of the quantity |
/// | `reach` | `X` and `d` |  |
/// | `shape` | `c`, one of [`SHAPE`] | `1` |
/// | `returns` | the band | unit of the quantity |
///
/// Range: at least ten draws.
/// Source: common practice, no source.
///
/// # Errors
/// Fewer draws.
pub fn band(differences: &[f64], reach: Reach, shape: f64) -> Result<Band, Error> {
    let Band { low, middle, high } = believed(differences)?;
    let model = TENTH * (MODEL * middle).hypot(shape * reach.size * reach.turns);
    Ok(Band {
        low: middle - (middle - low).hypot(model),
        middle,
        high: middle + (high - middle).hypot(model),
    })
}

/// The band of something by beliefs alone, nothing added.
///
/// Deciles and median by the straight line between the two values around them.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `values` | of each draw | unit of the quantity |
/// | `returns` | the band | unit of the quantity |
///
/// Range: at least ten draws.
/// Source: definition.
///
/// # Errors
/// Fewer draws.
pub fn believed(values: &[f64]) -> Result<Band, Error> {
    #[expect(clippy::cast_precision_loss, reason = "a few hundred draws")]
    crate::error::within("draws", values.len() as f64, 10.0, 1e6)?;
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let [low, middle, high] = [0.1, 0.5, 0.9].map(|share| quantile(&sorted, share));
    Ok(Band { low, middle, high })
}

/// By the straight line between the two values around it.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a few hundred draws")]
    let place = share * (sorted.len() - 1) as f64;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a place among a few hundred"
    )]
    let below = place.floor() as usize;
    let above = (below + 1).min(sorted.len() - 1);
    let rest = place - place.floor();
    (1.0 - rest) * sorted[below] + rest * sorted[above]
}
