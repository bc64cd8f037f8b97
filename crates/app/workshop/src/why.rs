//! Why the gap is as it is, what would cure it, and which reading would tell more.

use std::collections::{BTreeMap, BTreeSet};
use std::f64::consts::TAU;

use clearance::causes::{
    self, Candidate, Cause, Cured, Drawn, Effect, Frame, LeafSet, Level, NextReading, ROUGHNESS,
    Ranking, Survey, Untold,
};
use clearance::{Band, Cell, Estimate, form};

use crate::gap::{Allowed, Inputs, REQUIRED, SEED};
use crate::job::{Job, Measure, Spot, blade_name};

/// Sets of causes whose members are shown, at most.
const SHOWN: usize = 6;
/// A cause less probable than this is not worth a line.
const LIGHT: f64 = 0.05;
/// The probability from which the best explanation is called told apart: in `docs/studies/clearance.md`
/// it then names a wrong cause for about one pump in fifty.
pub const TOLD: f64 = 0.6;
/// Spots read before anything is said of causes: a mean, a wave, and one to see it fail.
const FEWEST: usize = 4;

/// What the pattern of the readings says.
#[derive(Clone, Debug, PartialEq)]
pub struct Why {
    /// The causes worth naming, the most probable first; none when nothing stands out.
    pub causes: Vec<Explaining>,
    /// The probability of the best explanation, which is a set of causes.
    pub probability: f64,
    /// That explanation is told apart from all others, at [`TOLD`].
    pub told: bool,
    /// What mending that explanation would take and leave, part by part, and last all together.
    pub cures: Vec<Cure>,
    /// What these readings cannot tell.
    pub untold: Vec<Untold>,
    /// The mean gap against radial limits, where they are stated; by the first explanation.
    pub level: Option<Level>,
    /// The leaf and the spot that would teach most, where one would.
    pub next: Option<Telling>,
}

/// A cause.
#[derive(Clone, Debug, PartialEq)]
pub struct Explaining {
    /// What it is.
    pub cause: Cause,
    /// The probability that it is there, alone or with others.
    pub probability: f64,
    /// How much of it, by the most probable explanation that has it.
    pub effect: Effect,
    /// It belongs to the best explanation.
    pub first: bool,
}

/// What one remedy would leave.
#[derive(Clone, Debug, PartialEq)]
pub struct Cure {
    /// What is mended; none for all of it together.
    pub mend: Option<Mend>,
    /// What that takes, and the gap it leaves.
    pub cured: Cured,
}

/// What is put right at one go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mend {
    /// A reading felt again.
    Feel,
    /// Ring and shaft brought to one centre.
    Centre,
    /// The ring: seated anew, mended, or replaced.
    Ring,
    /// The impeller: seated anew, mended, or replaced.
    Impeller,
}

impl Mend {
    fn of(cause: Cause) -> Self {
        match cause {
            Cause::Stray(_) => Self::Feel,
            Cause::OffCentre => Self::Centre,
            Cause::Oval | Cause::Local(_) => Self::Ring,
            Cause::Blade(_) | Cause::Runout | Cause::Uneven => Self::Impeller,
        }
    }
}

/// The reading that would tell most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Telling {
    /// Where.
    pub spot: Spot,
    /// Thickness of the leaf, `m`.
    pub leaf: f64,
    /// Probability that it goes.
    pub goes: f64,
}

/// How far from round the ring is, by one blade carried round it: its length cancels, and so does
/// the centre it turns about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Round {
    /// The blade.
    pub blade: u8,
    /// At how many clock positions it was read.
    pub positions: usize,
    /// Radial distance of the two circles of one centre that hold all of them, `m`.
    pub zone: f64,
    /// Mean width of the 90 % intervals there: below it nothing can be said, `m`.
    pub grain: f64,
}

/// Clock positions below which nothing is said of the form: fewer cannot carry an oval.
const ROUND: usize = 5;

/// The form by the blade read at most positions; none where too few go round.
pub(crate) fn round(radius: f64, positions: u8, spots: &BTreeMap<Spot, Estimate>) -> Option<Round> {
    let read = |blade: u8| spots.iter().filter(move |(spot, _)| spot.blade == blade);
    let blades: BTreeSet<u8> = spots.keys().map(|spot| spot.blade).collect();
    let blade = blades
        .into_iter()
        .rev()
        .max_by_key(|blade| read(*blade).count())?;
    let point = |(spot, gap): (&Spot, &Estimate)| {
        let angle = TAU * f64::from(spot.position) / f64::from(positions);
        form::point(radius + gap.median, angle)
    };
    let points: Vec<form::Point> = read(blade).map(point).collect();
    if points.len() < ROUND {
        return None;
    }
    let widths = read(blade).map(|(_, gap)| gap.high - gap.low);
    let grain = widths.sum::<f64>() / f64::from(u32::try_from(points.len()).ok()?);
    Some(Round {
        blade,
        grain,
        positions: points.len(),
        zone: form::minimum_zone(&points).ok()?.width(),
    })
}

/// The causes behind the cells felt; none while too little is read to say anything.
pub(crate) fn why(inputs: &Inputs, felt: &[(Spot, Cell)]) -> Option<Why> {
    let blades = inputs.spots.iter().map(|(spot, _)| spot.blade).max()?;
    let frame = Frame::even(usize::from(blades) + 1, usize::from(inputs.positions), 1).ok()?;
    if felt.len() < FEWEST {
        return None;
    }
    let readings = felt.iter().map(|(spot, cell)| causes::Reading {
        spot: here(*spot),
        cell: *cell,
    });
    let survey = Survey::new(frame, readings.collect(), inputs.model, &ROUGHNESS).ok()?;
    let ranking = causes::rank(&survey);
    let first = ranking.candidates.first()?;
    let next = causes::next_readings(&survey, &ranking, &inputs.leaves).ok();
    let band = inputs.limits.as_ref().and_then(radial);
    let drawn = ranking.draw(&survey, first, SEED);
    let level = band.and_then(|band| causes::level(&drawn, &band).ok());
    Some(Why {
        causes: explaining(&survey, &ranking, &drawn),
        probability: first.weight,
        cures: cures(&drawn, first),
        told: ranking.told(TOLD).is_some(),
        untold: causes::untold(&survey),
        level,
        next: next.and_then(|next| next.into_iter().next()).map(telling),
    })
}

/// The causes of the best explanations, each once, with how much of it there is.
fn explaining(survey: &Survey, ranking: &Ranking, first: &Drawn<'_>) -> Vec<Explaining> {
    let mut shown: Vec<Explaining> = Vec::new();
    for (place, candidate) in ranking.candidates.iter().take(SHOWN).enumerate() {
        let causes = candidate.causes.iter().enumerate();
        let new: Vec<(usize, Cause, f64)> = causes
            .filter(|(_, cause)| !shown.iter().any(|one| one.cause == **cause))
            .map(|(at, cause)| (at, *cause, ranking.probability(*cause)))
            .filter(|(_, _, probability)| *probability >= LIGHT)
            .collect();
        // How much of each is drawn: only for a candidate that has something to tell.
        if new.is_empty() {
            continue;
        }
        let effects = match place {
            0 => first.effects(),
            _ => ranking.draw(survey, candidate, SEED).effects(),
        };
        shown.extend(new.into_iter().map(|(at, cause, probability)| Explaining {
            cause,
            probability,
            effect: effects[at].clone(),
            first: place == 0,
        }));
    }
    shown.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    shown
}

/// Each part of the best explanation mended by itself, and all of them together where there are
/// several.
fn cures(drawn: &Drawn<'_>, first: &Candidate) -> Vec<Cure> {
    let mends = first.causes.iter().map(|cause| Mend::of(*cause));
    let mends: Vec<Mend> = mends.collect::<BTreeSet<_>>().into_iter().collect();
    let all = (mends.len() > 1).then_some(None);
    let wanted: Vec<Option<Mend>> = mends.into_iter().map(Some).chain(all).collect();
    let places = |mend: &Option<Mend>| {
        let causes = first.causes.iter().enumerate();
        let which = causes.filter(|(_, cause)| mend.is_none_or(|mend| Mend::of(**cause) == mend));
        which.map(|(place, _)| place).collect()
    };
    let sets: Vec<Vec<usize>> = wanted.iter().map(places).collect();
    let cured = causes::cure(drawn, &sets).unwrap_or_default();
    let both = wanted.into_iter().zip(cured);
    both.map(|(mend, cured)| Cure { mend, cured }).collect()
}

/// Whether these leaves can decide these limits: asked before the round begins, and settled by it.
pub(crate) fn whether(inputs: &Inputs, felt: &[(Spot, Cell)]) -> Option<LeafSet> {
    if felt.len() >= FEWEST {
        return None;
    }
    let band = inputs.limits.as_ref().and_then(radial)?;
    causes::leaf_set_can_decide(&band, &inputs.leaves, &inputs.model, REQUIRED).ok()
}

fn radial(allowed: &Allowed) -> Option<Band> {
    (allowed.measure == Measure::Radial).then(|| Band {
        least: allowed.least.filter(|_| !allowed.rub_in),
        greatest: allowed.greatest,
    })
}

fn here(spot: Spot) -> causes::Spot {
    causes::Spot {
        station: 0,
        blade: usize::from(spot.blade),
        position: usize::from(spot.position),
    }
}

/// The letter of the blade a cause names.
pub fn blade_of(blade: usize) -> String {
    blade_name(small(blade))
}

/// The clock reading of the position a cause names.
pub fn clock_of(job: &Job, position: usize) -> String {
    let position = small(position);
    job.clock(Spot { blade: 0, position })
}

/// A place as the job counts it: it has no more than 255 of anything.
fn small(place: usize) -> u8 {
    u8::try_from(place).unwrap_or(u8::MAX)
}

fn telling(next: NextReading) -> Telling {
    Telling {
        spot: Spot {
            blade: small(next.spot.blade),
            position: small(next.spot.position),
        },
        leaf: next.leaf,
        goes: next.goes,
    }
}
