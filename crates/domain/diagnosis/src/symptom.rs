//! What a person hears, feels and sees, and how often each cause shows it.
//!
//! Chances are from memory and common practice, no source: signs are fairly sure, sizes are not. None is
//! below 0.02 or above 0.98, so that no single answer settles anything.

use crate::fault::{ByFault, FAULTS, PRIOR};

/// A question that is answered yes, no, or not at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Symptom {
    /// It roars or rattles from the pump when pulling away.
    Roar,
    /// The engine races when the throttle opens, then it hooks up.
    Flare,
    /// The jet is milky when pulling away.
    Milky,
    /// It is worse in chop or turns.
    Chop,
    /// It shakes, more with engine speed.
    Vibration,
    /// The pump housing growls or whines, at low speed too.
    Growl,
    /// The cooling water's outlet is weak or spits.
    Telltale,
    /// The engine runs hot.
    Hot,
    /// It smells of hot rubber, or the coupling is hot.
    Smell,
    /// The engine misfires, smokes or shows a fault lamp.
    Misfire,
    /// The engine stops rising at one number, as if held.
    Held,
    /// It sits low and is long to plane.
    Low,
    /// It steers to one side, or spray goes up.
    Pull,
    /// It came all at once, on a ride.
    Sudden,
    /// It is better after reversing or stopping.
    Clears,
    /// It was there from the first run after the pump was open.
    Refit,
}

/// What several symptoms tell of; they are not independent within it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kin {
    /// Water that boils or is mixed with air.
    Froth,
    /// Something turns out of true.
    Shake,
    /// Cooling.
    Heat,
    /// The engine itself.
    Engine,
    /// How it came.
    Story,
    /// None.
    Alone,
}

/// Chance of a yes, by fault but for the unlisted one.
type Row = [f64; FAULTS - 1];

impl Symptom {
    /// All, in the order they are asked.
    pub const ALL: [Self; 16] = [
        Self::Refit,
        Self::Sudden,
        Self::Flare,
        Self::Roar,
        Self::Milky,
        Self::Vibration,
        Self::Growl,
        Self::Telltale,
        Self::Hot,
        Self::Held,
        Self::Misfire,
        Self::Smell,
        Self::Low,
        Self::Pull,
        Self::Chop,
        Self::Clears,
    ];

    fn kin(self) -> Kin {
        match self {
            Self::Roar | Self::Flare | Self::Milky | Self::Chop => Kin::Froth,
            Self::Vibration | Self::Growl => Kin::Shake,
            Self::Telltale | Self::Hot => Kin::Heat,
            Self::Misfire | Self::Held => Kin::Engine,
            Self::Sudden | Self::Clears => Kin::Story,
            Self::Smell | Self::Low | Self::Pull | Self::Refit => Kin::Alone,
        }
    }

    /// Whoever sees this stops, whatever else is likely.
    pub fn danger(self) -> bool {
        self == Self::Hot
    }

    /// How often it is seen with each fault.
    ///
    /// With what is not on the list it is seen as often as over all that is.
    pub fn chances(self) -> ByFault {
        with_unlisted(&self.row())
    }

    #[rustfmt::skip]
    fn row(self) -> Row {
        match self {
            //                 none  gap  air  grate blade wide narr engine limp dirty heavy slip ring bearing line hose gate
            Self::Roar =>      [0.05, 0.45, 0.55, 0.50, 0.35, 0.10, 0.05, 0.03, 0.03, 0.05, 0.05, 0.05, 0.55, 0.15, 0.10, 0.05, 0.10],
            Self::Flare =>     [0.05, 0.25, 0.75, 0.35, 0.20, 0.15, 0.04, 0.03, 0.03, 0.05, 0.05, 0.35, 0.35, 0.04, 0.04, 0.04, 0.05],
            Self::Milky =>     [0.05, 0.15, 0.65, 0.20, 0.10, 0.08, 0.05, 0.04, 0.04, 0.05, 0.05, 0.05, 0.15, 0.04, 0.04, 0.05, 0.15],
            Self::Chop =>      [0.08, 0.15, 0.55, 0.10, 0.10, 0.08, 0.08, 0.08, 0.08, 0.15, 0.15, 0.08, 0.15, 0.08, 0.08, 0.08, 0.10],
            Self::Vibration => [0.05, 0.10, 0.10, 0.35, 0.70, 0.05, 0.05, 0.15, 0.05, 0.08, 0.05, 0.15, 0.45, 0.45, 0.70, 0.04, 0.15],
            Self::Growl =>     [0.04, 0.10, 0.05, 0.08, 0.15, 0.04, 0.04, 0.05, 0.04, 0.04, 0.04, 0.10, 0.30, 0.80, 0.35, 0.04, 0.06],
            Self::Telltale =>  [0.04, 0.12, 0.25, 0.55, 0.06, 0.08, 0.04, 0.06, 0.15, 0.04, 0.05, 0.04, 0.15, 0.05, 0.04, 0.75, 0.05],
            Self::Hot =>       [0.03, 0.06, 0.10, 0.35, 0.05, 0.04, 0.05, 0.15, 0.35, 0.05, 0.08, 0.05, 0.10, 0.05, 0.04, 0.70, 0.04],
            Self::Smell =>     [0.02, 0.03, 0.03, 0.05, 0.05, 0.03, 0.03, 0.08, 0.04, 0.03, 0.03, 0.55, 0.10, 0.20, 0.15, 0.08, 0.03],
            Self::Misfire =>   [0.03, 0.03, 0.04, 0.04, 0.03, 0.03, 0.03, 0.55, 0.50, 0.03, 0.03, 0.05, 0.03, 0.04, 0.04, 0.15, 0.03],
            Self::Held =>      [0.06, 0.05, 0.10, 0.05, 0.04, 0.12, 0.04, 0.15, 0.85, 0.05, 0.05, 0.10, 0.06, 0.04, 0.04, 0.15, 0.05],
            Self::Low =>       [0.05, 0.10, 0.20, 0.20, 0.10, 0.05, 0.12, 0.20, 0.15, 0.15, 0.70, 0.15, 0.15, 0.06, 0.06, 0.06, 0.15],
            Self::Pull =>      [0.04, 0.04, 0.08, 0.08, 0.05, 0.04, 0.04, 0.03, 0.03, 0.15, 0.12, 0.03, 0.06, 0.04, 0.05, 0.03, 0.65],
            Self::Sudden =>    [0.05, 0.10, 0.20, 0.75, 0.50, 0.05, 0.05, 0.30, 0.55, 0.08, 0.10, 0.30, 0.45, 0.20, 0.15, 0.20, 0.25],
            Self::Clears =>    [0.05, 0.05, 0.10, 0.60, 0.05, 0.04, 0.04, 0.08, 0.25, 0.03, 0.04, 0.08, 0.05, 0.04, 0.04, 0.08, 0.05],
            Self::Refit =>     [0.20, 0.25, 0.55, 0.10, 0.15, 0.70, 0.70, 0.20, 0.45, 0.10, 0.15, 0.30, 0.35, 0.20, 0.60, 0.80, 0.55],
        }
    }
}

/// A row with what is not on the list, which shows a thing as often as all that is listed.
pub(crate) fn with_unlisted(row: &Row) -> ByFault {
    let listed: f64 = PRIOR[..row.len()].iter().sum();
    let over_all = row.iter().zip(&PRIOR).map(|(chance, prior)| chance * prior);
    let over_all = over_all.sum::<f64>() / listed;
    std::array::from_fn(|at| row.get(at).copied().unwrap_or(over_all))
}

/// An answered symptom with what each fault makes of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answered {
    /// The question.
    pub symptom: Symptom,
    /// The answer.
    pub yes: bool,
}

/// What answers say of each fault: their log likelihoods.
///
/// `sum_g w_g sum_i ln p(a_i | f)`, `w_g = max_i r_i / sum_i r_i`, `r_i` the range of `ln p(a_i | f)` over the faults
///
/// Related answers weigh together no more than the strongest of them could alone: a roar and a flare are
/// one thing heard twice.
///
/// | here | meaning | unit |
/// |---|---|---|
/// | `answers` | each question once; the later counts |  |
/// | `returns` | log likelihood of each fault | `1` |
///
/// Range: any.
/// Source: common practice, no source.
pub fn likelihoods(answers: &[Answered]) -> ByFault {
    let told: Vec<(Kin, ByFault)> = answers
        .iter()
        .enumerate()
        .filter(|(at, one)| {
            let later = &answers[at + 1..];
            later.iter().all(|other| other.symptom != one.symptom)
        })
        .map(|(_, one)| (one.symptom.kin(), log(&one.symptom.chances(), one.yes)))
        .collect();
    let mut together = [0.0; FAULTS];
    for (kin, logs) in &told {
        let related = told
            .iter()
            .filter(|(other, _)| other == kin && *kin != Kin::Alone);
        let ranges: Vec<f64> = related.map(|(_, logs)| range(logs)).collect();
        let all: f64 = ranges.iter().sum();
        let share = if all > 0.0 {
            ranges.iter().copied().fold(0.0, f64::max) / all
        } else {
            1.0
        };
        for (sum, one) in together.iter_mut().zip(logs) {
            *sum += share * one;
        }
    }
    together
}

/// `ln p` of a yes, or `ln (1 − p)` of a no.
pub(crate) fn log(chances: &ByFault, yes: bool) -> ByFault {
    chances.map(|chance| {
        if yes {
            chance.ln()
        } else {
            (1.0 - chance).ln()
        }
    })
}

fn range(logs: &ByFault) -> f64 {
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let least = logs.iter().copied().fold(f64::INFINITY, f64::min);
    most - least
}
