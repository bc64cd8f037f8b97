//! From the inputs to the verdict.

use std::collections::BTreeMap;

use clearance::{Cell, Conformity, Error, Estimate, Limits, Posterior, Verdict};

use crate::gap::{
    Across, Allowed, Doubt, Gap, Inputs, Judgement, Mark, REQUIRED, Reading, SEED, Side, Standing,
};
use crate::job::{Measure, Spot};
use crate::sourced::{Origin, Sourced};
use crate::why::{round, whether, why};

/// What the readings come to against the limits: all that the standing rests on.
struct Weighed {
    readings: BTreeMap<Spot, Reading>,
    /// The spots whose leaves say something, with what they say.
    felt: Vec<(Spot, Cell)>,
    posterior: Result<Posterior, Error>,
    conformity: Option<Conformity>,
    marks: BTreeMap<Spot, Mark>,
    standing: Standing,
}

/// Answers the Measure stage. Takes some tens of milliseconds; the edge remembers it by digest.
pub fn judge(inputs: &Inputs) -> Judgement {
    let Weighed {
        readings,
        felt,
        posterior,
        conformity,
        marks,
        standing,
    } = weigh(inputs);
    let spots: Vec<Spot> = felt.iter().map(|(spot, _)| *spot).collect();
    let gap = posterior
        .ok()
        .map(|posterior| gap(inputs, &posterior, &spots));
    let wide = matches!(standing, Standing::Out(Side::Wide));
    let deciding = gap
        .as_ref()
        .map(|gap| if wide { gap.widest } else { gap.tightest });
    let cell = felt.iter().find(|(spot, _)| Some(*spot) == deciding);
    let round = gap
        .as_ref()
        .and_then(|gap| round(inputs.radius, inputs.positions, &gap.spots));
    Judgement {
        standing,
        beyond: goes_beyond(inputs, &readings),
        budget: cell
            .and_then(|(spot, cell)| Some((*spot, clearance::budget(cell, &inputs.model).ok()?))),
        gap,
        conformity,
        readings,
        marks,
        why: why(inputs, &felt),
        round,
        leaves: whether(inputs, &felt),
        model: inputs.model,
        digest: inputs.digest(),
        evidence: inputs.evidence.clone(),
    }
}

/// How the readings stand to the limits, and nothing of their causes.
pub(crate) fn stands(inputs: &Inputs) -> Standing {
    weigh(inputs).standing
}

fn weigh(inputs: &Inputs) -> Weighed {
    let readings = inputs
        .spots
        .iter()
        .map(|(spot, tries)| (*spot, read(tries)))
        .collect();
    let felt = felt(inputs);
    let cells: Vec<Cell> = felt.iter().map(|(_, cell)| *cell).collect();
    let spots: Vec<Spot> = felt.iter().map(|(spot, _)| *spot).collect();
    let posterior = clearance::posterior(&cells, &inputs.model, SEED);

    let limits = inputs
        .limits
        .as_ref()
        .map(|allowed| limits(inputs, allowed, &spots));
    let conformity = match (&posterior, &limits) {
        (Ok(posterior), Some(limits)) => clearance::conformity(posterior, limits).ok(),
        _ => None,
    };
    let marks = match (&posterior, &limits) {
        (Ok(posterior), Some(limits)) => marks(posterior, limits, &spots),
        _ => BTreeMap::new(),
    };
    let standing = standing(inputs, &readings, &posterior, (conformity.as_ref(), &marks));
    Weighed {
        readings,
        felt,
        posterior,
        conformity,
        marks,
        standing,
    }
}

fn read(tries: &[clearance::Try]) -> Reading {
    let bracket = match clearance::bracket(tries) {
        _ if tries.is_empty() => return Reading::Unread,
        Err(contradiction) => return Reading::Contradiction(contradiction),
        Ok(bracket) => bracket,
    };
    match (bracket.goes, bracket.wont) {
        (Some(goes), None) if crate::walk::drags(tries, goes) => Reading::Drags(goes),
        _ => Reading::Bracket(bracket),
    }
}

/// The spots whose leaves say something, with what they say. A contradiction says nothing.
fn felt(inputs: &Inputs) -> Vec<(Spot, Cell)> {
    let tried = inputs.spots.iter().filter(|(_, tries)| !tries.is_empty());
    let cell = |tries: &[clearance::Try]| clearance::cell(tries, &inputs.model.feel).ok();
    tried
        .filter_map(|(spot, tries)| Some((*spot, cell(tries)?)))
        .collect()
}

fn limits(inputs: &Inputs, allowed: &Allowed, spots: &[Spot]) -> Limits {
    let least = allowed.least.filter(|_| !allowed.rub_in);
    let greatest = allowed.greatest;
    match allowed.measure {
        Measure::Radial => Limits::Radial { least, greatest },
        Measure::Diametral => Limits::Diametral {
            least,
            greatest,
            opposite: opposite(inputs.positions, spots),
        },
    }
}

/// The pairs of spots where one blade stands on opposite sides of the ring.
fn opposite(positions: u8, spots: &[Spot]) -> Vec<(usize, usize)> {
    let half = positions / 2;
    let across = |spot: &Spot| Spot {
        blade: spot.blade,
        position: spot.position + half,
    };
    let pairs = spots
        .iter()
        .enumerate()
        .filter(|(_, spot)| spot.position < half);
    pairs
        .filter_map(|(i, spot)| Some((i, spots.iter().position(|s| *s == across(spot))?)))
        .collect()
}

fn standing(
    inputs: &Inputs,
    readings: &BTreeMap<Spot, Reading>,
    posterior: &Result<Posterior, Error>,
    (conformity, marks): (Option<&Conformity>, &BTreeMap<Spot, Mark>),
) -> Standing {
    let unread = readings.values().filter(|r| **r == Reading::Unread).count();
    let contradictory = readings
        .values()
        .filter(|r| matches!(r, Reading::Contradiction(_)))
        .count();
    let verdict = conformity.map(|c| clearance::verdict(c.within, REQUIRED));
    // One spot beyond a limit settles it, whatever the others may say. That one of many may well be
    // beyond, and none can be named, does not.
    let named = marks.values().any(|mark| *mark == Mark::Out);
    if let (Some(Verdict::Out), Some(conformity), true) = (verdict, conformity, named) {
        return Standing::Out(side(conformity));
    }
    if posterior.is_err() && goes_beyond(inputs, readings).is_some() {
        return Standing::Out(Side::Wide);
    }
    let allowed = inputs.limits.as_ref();
    let one_sided = |reading: &&Reading| allowed.is_some_and(|limits| one_sided(reading, limits));
    let one_sided = readings.values().filter(one_sided).count();
    let doubt = match posterior {
        _ if unread == readings.len() => Doubt::NoReadings,
        _ if contradictory > 0 => Doubt::Contradiction(contradictory),
        _ if unread > 0 => Doubt::Unread(unread),
        Err(_) => Doubt::NoUpperEnd,
        Ok(_) if allowed.is_none() => Doubt::NoLimits,
        Ok(_) if allowed.is_some_and(|a| a.rub_in && a.greatest.is_none()) => Doubt::NothingAsked,
        Ok(_) if one_sided > 0 => Doubt::OneSided(one_sided),
        Ok(_) if verdict == Some(Verdict::In) => return Standing::In,
        Ok(_) => Doubt::TooClose,
    };
    Standing::Undecided(doubt)
}

/// A spot where a leaf goes that is thicker than the greatest radial limit: out by itself, even
/// while no leaf anywhere gives the gap an upper end.
fn goes_beyond(inputs: &Inputs, readings: &BTreeMap<Spot, Reading>) -> Option<(Spot, f64)> {
    let allowed = inputs.limits.as_ref()?;
    let greatest = allowed
        .greatest
        .filter(|_| allowed.measure == Measure::Radial)?;
    let feel = &inputs.model.feel;
    // Two standard deviations of the hand and the whole tolerance of the leaf on the safe side.
    let sure = feel.goes - 2.0 * feel.scatter - inputs.model.leaf_tolerance;
    let goes = readings.iter().filter_map(|(spot, reading)| match reading {
        Reading::Bracket(bracket) => Some((*spot, bracket.goes?)),
        Reading::Drags(_) | Reading::Unread | Reading::Contradiction(_) => None,
    });
    goes.filter(|(_, leaf)| leaf + sure > greatest)
        .max_by(|a, b| a.1.total_cmp(&b.1))
}

/// Whether a limit asks for the leaf that is missing here.
fn one_sided(reading: &Reading, allowed: &Allowed) -> bool {
    let Reading::Bracket(bracket) = reading else {
        return false;
    };
    let low = allowed.least.is_some() && !allowed.rub_in && bracket.goes.is_none();
    let high = allowed.greatest.is_some() && bracket.wont.is_none();
    low || high
}

fn side(conformity: &Conformity) -> Side {
    let (tight, wide) = (conformity.too_tight, conformity.too_wide);
    match (tight >= REQUIRED, wide >= REQUIRED) {
        (true, true) => Side::Both,
        _ if tight > wide => Side::Tight,
        _ => Side::Wide,
    }
}

fn gap(inputs: &Inputs, posterior: &Posterior, spots: &[Spot]) -> Gap {
    let computed = |estimate: Estimate| Sourced {
        value: estimate.median,
        interval: Some((estimate.low, estimate.high)),
        origin: Origin::Computed {
            formula: "posterior of the interval likelihood",
            inputs: spots.len(),
        },
    };
    let medians: BTreeMap<Spot, Estimate> = spots
        .iter()
        .enumerate()
        .map(|(i, spot)| (*spot, posterior.spot(i)))
        .collect();
    let by_median =
        |a: &(&Spot, &Estimate), b: &(&Spot, &Estimate)| a.1.median.total_cmp(&b.1.median);
    let on = |position: u8| {
        let here = spots
            .iter()
            .enumerate()
            .filter(|(_, s)| s.position == position);
        let here: Vec<usize> = here.map(|(index, _)| index).collect();
        (!here.is_empty()).then(|| {
            nearest(
                inputs,
                posterior.least_of(&here),
                posterior.greatest_of(&here),
            )
        })
    };
    let pairs = diametral_pairs(inputs, spots);
    let across: Vec<(Spot, Estimate)> = pairs
        .iter()
        .map(|(one, opposite)| (spots[*one], posterior.sum_of(*one, *opposite)))
        .collect();
    let by_sum = |a: &&(Spot, Estimate), b: &&(Spot, Estimate)| a.1.median.total_cmp(&b.1.median);
    Gap {
        across: across
            .iter()
            .min_by(by_sum)
            .zip(across.iter().max_by(by_sum))
            .map(|(least, greatest)| Across {
                least: *least,
                greatest: *greatest,
            }),
        least: computed(posterior.least()),
        mean: computed(posterior.mean()),
        greatest: computed(posterior.greatest()),
        tightest: medians
            .iter()
            .min_by(by_median)
            .map_or(spots[0], |(spot, _)| *spot),
        widest: medians
            .iter()
            .max_by(by_median)
            .map_or(spots[0], |(spot, _)| *spot),
        spots: medians,
        positions: (0..inputs.positions).map(on).collect(),
    }
}

/// The pairs that count together; none where the limits are radial or not stated.
fn diametral_pairs(inputs: &Inputs, spots: &[Spot]) -> Vec<(usize, usize)> {
    match &inputs.limits {
        Some(allowed) if allowed.measure == Measure::Diametral => opposite(inputs.positions, spots),
        _ => Vec::new(),
    }
}

/// Of the tightest and the widest blade the one with less room to its limit.
fn nearest(inputs: &Inputs, tightest: Estimate, widest: Estimate) -> Estimate {
    let Some(allowed) = &inputs.limits else {
        return tightest;
    };
    let sides = match allowed.measure {
        Measure::Radial => 1.0,
        Measure::Diametral => 2.0,
    };
    let below = allowed
        .least
        .filter(|_| !allowed.rub_in)
        .map_or(f64::INFINITY, |least| tightest.median - least / sides);
    let above = allowed
        .greatest
        .map_or(f64::INFINITY, |most| most / sides - widest.median);
    if above < below { widest } else { tightest }
}

fn marks(posterior: &Posterior, limits: &Limits, spots: &[Spot]) -> BTreeMap<Spot, Mark> {
    let mut marks = BTreeMap::new();
    match limits {
        Limits::Radial { least, greatest } => {
            for (index, spot) in spots.iter().enumerate() {
                marks.insert(*spot, mark(posterior.spot(index), *least, *greatest));
            }
        }
        Limits::Diametral {
            least,
            greatest,
            opposite,
        } => {
            for (a, b) in opposite {
                let both = mark(posterior.sum_of(*a, *b), *least, *greatest);
                marks.insert(spots[*a], both);
                marks.insert(spots[*b], both);
            }
        }
    }
    marks
}

fn mark(estimate: Estimate, least: Option<f64>, greatest: Option<f64>) -> Mark {
    let least = least.unwrap_or(0.0);
    let greatest = greatest.unwrap_or(f64::INFINITY);
    if estimate.high < least || estimate.low > greatest {
        Mark::Out
    } else if estimate.low >= least && estimate.high <= greatest {
        Mark::In
    } else {
        Mark::Near
    }
}
