//! Which option to fit, how close the next one is, and what one more measurement would be worth.

use propulsion::predict::Draw;
use propulsion::unknown::{COUNT, Unknown};

use super::{OptionSays, real};
use crate::choose::Want;
use crate::entry::Key;

/// Which to fit.
#[derive(Clone, Debug, PartialEq)]
pub enum Advice {
    /// The craft is not described well enough.
    NoCraft,
    /// Its runs and the model do not agree.
    Unlearnt,
    /// There is nothing to choose from.
    NoOptions,
    /// No option can be held against what is fitted.
    NoneTold,
    /// What is wished for can't be told without a logged start.
    NoLaunch,
    /// This one.
    Fit {
        /// Which.
        option: Key,
        /// The chance that it is the best.
        chance: f64,
        /// The next one with its chance; none where that is what is fitted now.
        next: (Option<Key>, f64),
        /// What would settle it further.
        decides: Option<Decides>,
    },
    /// Leave what is fitted.
    Stay {
        /// The chance that it is the best.
        chance: f64,
        /// The option that comes next.
        next: Option<(Key, f64)>,
        /// What would settle it further.
        decides: Option<Decides>,
    },
    /// Nobody can tell these apart yet; none stands for what is fitted now.
    Close {
        /// The one ahead.
        first: (Option<Key>, f64),
        /// The one behind it.
        second: (Option<Key>, f64),
        /// What would settle it.
        decides: Option<Decides>,
    },
}

/// A measurement that would help to choose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Decides {
    /// Of what.
    pub of: Telling,
    /// What choosing after it gains on average, as a share of what the craft does now.
    pub worth: f64,
}

/// What a measurement tells of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Telling {
    /// How the flow leaves the blades, by the engine's speed at full throttle.
    Engine,
    /// The engine's torque, on a brake.
    Torque,
    /// Intake and hull, by steady readings at part throttle.
    PartThrottle,
    /// Breakdown and hump, by a logged start.
    Start,
    /// The mass, by a scale.
    Mass,
    /// The angles of the blades, by measuring them.
    Angles,
    /// What the gap is worth, by a run before and after.
    Gap,
}

/// Below this chance the first is not told apart from the second.
const AHEAD: f64 = 0.6;
/// An option that is out of the engine's range so often is none.
const OUT: f64 = 0.5;
/// Less than this share of speed or time is worth no trip.
const WORTH: f64 = 0.002;

/// Puts the options in order, gives each its chance, and says which to fit.
pub(super) fn advise(
    options: &mut [OptionSays],
    beliefs: &[Draw],
    want: Want,
    launches: bool,
) -> Advice {
    if options.is_empty() {
        return Advice::NoOptions;
    }
    chances(options, beliefs.len());
    let key = |option: &OptionSays| match &option.does {
        Ok(does) => (out(option), -mean(&does.scores)),
        Err(_) => (true, f64::INFINITY),
    };
    options.sort_by(|a, b| {
        let (a, b) = (key(a), key(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    if want == Want::Pull && !launches {
        return Advice::NoLaunch;
    }
    let told: Vec<&OptionSays> = options.iter().filter(|one| one.does.is_ok()).collect();
    if told.is_empty() {
        return Advice::NoneTold;
    }
    let chance = |option: &&OptionSays| option.does.as_ref().map_or(0.0, |does| does.best);
    let mut ranked: Vec<(Option<Key>, f64)> = told
        .iter()
        .filter(|option| !out(option))
        .map(|option| (Some(option.key.clone()), chance(option)))
        .collect();
    let theirs: f64 = ranked.iter().map(|(_, chance)| chance).sum();
    ranked.push((None, (1.0 - theirs).max(0.0)));
    ranked.sort_by(|a, b| b.1.total_cmp(&a.1));
    let decides = decides(&told, beliefs);
    let second = ranked.get(1).cloned();
    match (ranked[0].clone(), second) {
        ((first, chance), Some(second)) if chance < AHEAD => Advice::Close {
            first: (first, chance),
            second,
            decides,
        },
        ((Some(option), chance), second) => Advice::Fit {
            option,
            chance,
            next: second.unwrap_or((None, 0.0)),
            decides,
        },
        ((None, chance), second) => Advice::Stay {
            chance,
            next: second.and_then(|(key, chance)| Some((key?, chance))),
            decides,
        },
    }
}

/// Whether an option over-revs or lugs the engine more often than not.
pub(super) fn out(option: &OptionSays) -> bool {
    option.does.as_ref().is_ok_and(|does| {
        let often = |chance: Option<f64>| chance.is_some_and(|chance| chance > OUT);
        often(does.over) || often(does.lugs)
    })
}

fn mean(scores: &[f64]) -> f64 {
    scores.iter().sum::<f64>() / real(scores.len().max(1))
}

/// How often each is the best of those that may be fitted.
fn chances(options: &mut [OptionSays], beliefs: usize) {
    let mut wins = vec![0_usize; options.len()];
    for belief in 0..beliefs {
        let allowed = options
            .iter()
            .enumerate()
            .filter(|(_, option)| !out(option));
        let scored = allowed.filter_map(|(at, option)| {
            let score = option.does.as_ref().ok()?.scores[belief];
            (score > 0.0).then_some((at, score))
        });
        if let Some((best, _)) = scored.max_by(|a, b| a.1.total_cmp(&b.1)) {
            wins[best] += 1;
        }
    }
    for (option, wins) in options.iter_mut().zip(wins) {
        if let Ok(does) = &mut option.does {
            does.best = real(wins) / real(beliefs.max(1));
        }
    }
}

/// What knowing one thing would be worth before choosing: the mean of the best by what it tells, less
/// the best without it. Each option's gain goes straight with what is told (partial value of
/// information by regression).
fn decides(told: &[&OptionSays], beliefs: &[Draw]) -> Option<Decides> {
    let mut scores: Vec<&[f64]> = told
        .iter()
        .filter(|option| !out(option))
        .filter_map(|option| Some(option.does.as_ref().ok()?.scores.as_slice()))
        .collect();
    let nothing = vec![0.0; beliefs.len()];
    scores.push(&nothing);
    let without = scores.iter().map(|one| mean(one)).fold(f64::MIN, f64::max);
    let values = |place: usize| -> Vec<f64> {
        let of = |draw: &Draw| match place {
            place if place < COUNT => draw.unknowns.0[place],
            place => draw.spare[place - COUNT],
        };
        beliefs.iter().map(of).collect()
    };
    let worth = |place: usize| {
        let told = values(place);
        let lines: Vec<[f64; 2]> = scores.iter().map(|score| line(&told, score)).collect();
        let best = told.iter().map(|x| {
            let at = lines.iter().map(|[base, slope]| base + slope * x);
            at.fold(f64::MIN, f64::max)
        });
        best.sum::<f64>() / real(beliefs.len()) - without
    };
    let all = (0..COUNT + 2).map(|place| (place, worth(place)));
    let (place, worth) = all.max_by(|a, b| a.1.total_cmp(&b.1))?;
    let of = Unknown::ALL
        .get(place)
        .map_or(Telling::Angles, |of| match of {
            Unknown::Deviation => Telling::Engine,
            Unknown::Engine | Unknown::Rise | Unknown::Efficiency => Telling::Torque,
            Unknown::Incidence
            | Unknown::Stator
            | Unknown::Friction
            | Unknown::Intake
            | Unknown::Wake
            | Unknown::Hull
            | Unknown::Air => Telling::PartThrottle,
            Unknown::Throat
            | Unknown::Hump
            | Unknown::Breakdown
            | Unknown::Bite
            | Unknown::Froth => Telling::Start,
            Unknown::Mass => Telling::Mass,
            Unknown::GapHead | Unknown::GapEfficiency => Telling::Gap,
        });
    (worth > WORTH).then_some(Decides { of, worth })
}

/// The straight line through points: its value at nought, and its slope.
fn line(x: &[f64], y: &[f64]) -> [f64; 2] {
    let (mx, my) = (mean(x), mean(y));
    let pairs = x.iter().zip(y);
    let (sxy, sxx) = pairs.fold((0.0, 0.0), |(sxy, sxx), (x, y)| {
        (sxy + (x - mx) * (y - my), sxx + (x - mx) * (x - mx))
    });
    let slope = if sxx > 0.0 { sxy / sxx } else { 0.0 };
    [my - slope * mx, slope]
}
