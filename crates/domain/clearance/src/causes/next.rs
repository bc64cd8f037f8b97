//! What to read next.

use std::f64::consts::{PI, TAU};

use super::law::Outlook;
use super::survey::row;
use super::{Candidate, Frame, Ranking, Reading, Spot, Survey};
use crate::{Cell, Error, Try, ln_cell_probability, ln_normal_cdf, real};

/// Candidates whose fate is foreseen, the most probable first.
const FORESEEN: usize = 12;
/// Positions of the quick round.
const ROUND: usize = 8;

/// A leaf to try at a spot, and what it is worth.
///
/// | here | meaning | unit |
/// |------|---------|------|
/// | `spot` | where | |
/// | `leaf` | its thickness | `m` |
/// | `goes` | probability that it goes | `1` |
/// | `gain` | expected fall of the entropy of the causes | `1` |
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NextReading {
    /// Where.
    pub spot: Spot,
    /// Thickness of the leaf.
    pub leaf: f64,
    /// Probability that it goes.
    pub goes: f64,
    /// Expected fall of the entropy of the causes.
    pub gain: f64,
}

/// For every spot the leaf that would teach most about the causes, the best spot first.
///
/// `gain = H(w) - p H(w | goes) - (1 - p) H(w | won't)`, `H(w) = -sum w ln w`
///
/// A spot read before is foreseen within its cell, so only leaves between its two come up. Spots
/// where no leaf would teach anything are left out. Only stations read are foreseen.
///
/// # Errors
/// [`Error::Empty`] without leaves; [`Error::Thickness`].
pub fn next_readings(
    survey: &Survey,
    ranking: &Ranking,
    leaves: &[f64],
) -> Result<Vec<NextReading>, Error> {
    if leaves.is_empty() {
        return Err(Error::Empty { what: "leaf" });
    }
    for &leaf in leaves {
        Try::new(leaf, crate::Answer::Goes)?;
    }
    let frame = survey.frame();
    let candidates = &ranking.candidates[..ranking.candidates.len().min(FORESEEN)];
    let total: f64 = candidates.iter().map(|c| c.weight).sum();
    let weights: Vec<f64> = candidates.iter().map(|c| c.weight / total).collect();
    let goes = survey.model().feel.goes;
    let standard = |z: f64| (z - ranking.middle) / ranking.unit;
    let read = |station| survey.readings().iter().any(|r| r.spot.station == station);
    let mut best = Vec::new();
    for spot in frame.spots().filter(|spot| read(spot.station)) {
        let known = survey.readings().iter().position(|r| r.spot == spot);
        let cell = known.map(|i| survey.readings()[i].cell);
        let outlooks: Vec<Outlook> = candidates
            .iter()
            .map(|c| outlook(frame, c, spot, known))
            .collect();
        let open = cell.map(|c| Cell {
            low: standard(c.low),
            high: standard(c.high),
        });
        let tried = leaves
            .iter()
            .filter(|&&leaf| cell.is_none_or(|c| c.low < leaf + goes && leaf + goes < c.high));
        let worth = tried.map(|&leaf| {
            let at = standard(leaf + goes);
            let chances: Vec<f64> = outlooks.iter().map(|o| o.above(at, open)).collect();
            let (goes, gain) = gain(&weights, &chances);
            NextReading {
                spot,
                leaf,
                goes,
                gain,
            }
        });
        best.extend(worth.max_by(|a, b| a.gain.total_cmp(&b.gain)));
    }
    best.retain(|reading| reading.gain > 1e-9);
    best.sort_by(|a, b| b.gain.total_cmp(&a.gain));
    Ok(best)
}

fn outlook(frame: &Frame, candidate: &Candidate, spot: Spot, known: Option<usize>) -> Outlook {
    let row = row(frame, &candidate.causes, spot);
    candidate
        .law
        .before(&nalgebra::DVector::from_vec(row), known)
}

impl Outlook {
    /// Probability that the indicated gap lies above a value, within a cell if one is known.
    fn above(self, at: f64, cell: Option<Cell>) -> f64 {
        let s = self.variance.sqrt();
        let standard = |z: f64| (z - self.mean) / s;
        cell.map_or_else(
            || ln_normal_cdf(-standard(at)).exp(),
            |Cell { low, high }| {
                let whole = ln_cell_probability(standard(low), standard(high));
                (ln_cell_probability(standard(at), standard(high)) - whole).exp()
            },
        )
    }
}

/// Probability that the leaf goes, and what the answer is expected to teach.
fn gain(weights: &[f64], chances: &[f64]) -> (f64, f64) {
    let entropy = |p: f64| if p > 0.0 { -p * p.ln() } else { 0.0 };
    let goes: f64 = weights.iter().zip(chances).map(|(w, p)| w * p).sum();
    // The answer tells of the causes what the causes tell of the answer.
    let blurred = entropy(goes) + entropy(1.0 - goes);
    let sharp: f64 = weights
        .iter()
        .zip(chances)
        .map(|(w, p)| w * (entropy(*p) + entropy(1.0 - p)))
        .sum();
    (goes, blurred - sharp)
}

/// The quick plan: what of it is still to be read. Later lists stay empty until earlier ones are done.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// One blade round eight clock positions: what the ring does.
    pub round: Vec<Spot>,
    /// Every other blade at the tightest of them: what the blades do.
    pub blades: Vec<Spot>,
    /// The tightest and the widest again after a whole turn: whether the readings hold.
    pub again: Vec<Spot>,
}

/// The quick plan of a station: one blade round the clock, every blade at the tightest, two again.
///
/// The whole table is worth its time only when this leaves the cause undecided.
///
/// # Errors
/// [`Error::NoSuchPlace`] for the station, or for a reading off the frame.
pub fn quick_plan(frame: &Frame, station: usize, readings: &[Reading]) -> Result<Plan, Error> {
    let spot = |blade, position| Spot {
        station,
        blade,
        position,
    };
    frame.check(spot(0, 0))?;
    for reading in readings {
        frame.check(reading.spot)?;
    }
    let here = || readings.iter().filter(|r| r.spot.station == station);
    let unread = |spots: Vec<Spot>| -> Vec<Spot> {
        let read = |spot: &Spot| here().any(|r| r.spot == *spot);
        spots.into_iter().filter(|spot| !read(spot)).collect()
    };
    let blade = here().next().map_or(0, |r| r.spot.blade);
    let round: Vec<Spot> = round(frame).into_iter().map(|p| spot(blade, p)).collect();
    let mut plan = Plan {
        round: unread(round.clone()),
        ..Plan::default()
    };
    if !plan.round.is_empty() {
        return Ok(plan);
    }
    let mut felt: Vec<&Reading> = here().filter(|r| round.contains(&r.spot)).collect();
    felt.sort_by(|a, b| a.cell.low.total_cmp(&b.cell.low));
    let (tight, wide) = (felt[0].spot, felt[felt.len() - 1].spot);
    let blades = (0..frame.blades()).map(|b| spot(b, tight.position));
    plan.blades = unread(blades.collect());
    if plan.blades.is_empty() {
        plan.again = vec![tight, wide];
        plan.again.dedup();
    }
    Ok(plan)
}

/// The positions nearest to eight even ones, each once.
fn round(frame: &Frame) -> Vec<usize> {
    if frame.positions() <= ROUND {
        return (0..frame.positions()).collect();
    }
    let mut positions: Vec<usize> = Vec::new();
    for eighth in 0..ROUND {
        let wanted = TAU * real(eighth) / real(ROUND);
        let off = |position: usize| {
            let turn = (frame.angle(position) - wanted).rem_euclid(TAU);
            PI - (turn - PI).abs()
        };
        let free = (0..frame.positions()).filter(|p| !positions.contains(p));
        positions.extend(free.min_by(|&p, &q| off(p).total_cmp(&off(q))));
    }
    positions
}
