//! What a person notices of what is wrong, or believes to.
//!
//! Chances: from memory of the trade, no source.

use super::Drawn;
use super::faults::Wrong;

/// Something to hear, see, smell or remember.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sign {
    /// Roars or rattles from the pump when pulling away.
    Roar,
    /// Engine races when the throttle opens, then hooks up.
    Flare,
    /// Jet milky when pulling away.
    Milky,
    /// Worse in chop or turns.
    Chop,
    /// Shakes, more with engine speed.
    Vibration,
    /// Pump housing growls or whines, at low speed too.
    Growl,
    /// Cooling outlet weak or spits.
    WeakTelltale,
    /// Temperature up or alarm.
    Hot,
    /// Hot rubber or heat at the coupling.
    Smell,
    /// Misfires, smokes or shows a fault lamp.
    Misfire,
    /// Engine stops rising at one number, as if held.
    Flat,
    /// Sits low, long to plane.
    Low,
    /// Steers to one side, spray goes up.
    Pull,
    /// Came all at once on a ride.
    Sudden,
    /// Better after reversing or stopping.
    Clears,
    /// Was there from the first run after the pump was open.
    SinceRefit,
}

impl Sign {
    pub(crate) const ALL: [Self; 16] = [
        Self::Roar,
        Self::Flare,
        Self::Milky,
        Self::Chop,
        Self::Vibration,
        Self::Growl,
        Self::WeakTelltale,
        Self::Hot,
        Self::Smell,
        Self::Misfire,
        Self::Flat,
        Self::Low,
        Self::Pull,
        Self::Sudden,
        Self::Clears,
        Self::SinceRefit,
    ];
}

/// Of a severity of one, in hundredths, in the order of the signs.
fn at_worst(wrong: Wrong) -> [u8; 16] {
    match wrong {
        Wrong::Clearance => [70, 55, 45, 40, 10, 8, 0, 0, 0, 0, 0, 45, 0, 4, 0, 12],
        Wrong::Air => [75, 78, 75, 70, 12, 5, 10, 5, 0, 0, 0, 45, 3, 15, 8, 45],
        Wrong::Grate => [75, 65, 40, 35, 35, 5, 25, 15, 0, 0, 3, 55, 8, 80, 75, 3],
        Wrong::Blade => [60, 45, 40, 30, 75, 15, 0, 0, 0, 0, 0, 35, 0, 65, 0, 8],
        Wrong::NozzleWide => [15, 15, 5, 8, 2, 0, 0, 0, 0, 0, 8, 15, 2, 4, 0, 65],
        Wrong::NozzleNarrow => [12, 5, 5, 5, 2, 0, 2, 0, 0, 0, 3, 10, 3, 3, 0, 65],
        Wrong::Engine => [0, 0, 0, 2, 25, 2, 0, 12, 3, 75, 15, 45, 0, 35, 5, 10],
        Wrong::Limp => [0, 0, 0, 0, 5, 0, 8, 35, 0, 60, 92, 55, 0, 80, 30, 8],
        Wrong::DirtyHull => [3, 0, 5, 12, 8, 0, 0, 5, 0, 0, 0, 15, 35, 15, 0, 3],
        Wrong::Heavy => [8, 5, 5, 5, 0, 0, 0, 3, 0, 0, 0, 85, 12, 5, 0, 5],
        Wrong::Slip => [10, 65, 0, 10, 25, 10, 0, 5, 65, 0, 0, 45, 0, 25, 5, 20],
        Wrong::Ring => [75, 55, 45, 45, 45, 40, 0, 0, 3, 0, 0, 40, 0, 60, 3, 30],
        Wrong::Bearing => [10, 0, 2, 3, 60, 88, 0, 8, 15, 0, 0, 3, 0, 12, 0, 15],
        Wrong::Misaligned => [8, 0, 0, 3, 85, 25, 0, 0, 12, 0, 0, 3, 0, 10, 0, 65],
        Wrong::Hoses => [0, 0, 0, 0, 0, 0, 80, 75, 3, 8, 35, 5, 0, 8, 8, 75],
        Wrong::Gate => [12, 3, 10, 8, 15, 3, 0, 0, 0, 0, 0, 35, 70, 35, 10, 45],
    }
}

/// Of a sound craft, in hundredths: water, waves and nerves do as much.
const FALSELY: [u8; 16] = [6, 5, 8, 9, 9, 6, 4, 3, 4, 4, 3, 7, 6, 4, 4, 5];

/// Power of the severity by which a sign grows; how a thing came says little of how bad it is.
const GROWTH: [f64; 16] = [
    0.6, 0.6, 0.6, 0.7, 0.6, 0.6, 0.5, 1.3, 1.0, 0.7, 0.3, 1.0, 0.7, 0.15, 0.2, 0.0,
];

/// Signs of one group come together: breakdown, shaking, heat, the rest each alone.
const GROUP: [usize; 16] = [0, 0, 0, 0, 1, 1, 2, 2, 3, 4, 5, 6, 7, 8, 9, 8];

/// What is drawn for signs of a craft, of a person, of what is seen.
const ODDS: u64 = 20;
const SEEN: u64 = 41;

impl Drawn {
    /// What a person answers; nothing where nobody looked, about a third of the time.
    pub(crate) fn signs(&self, wrong: &[(Wrong, f64)], seed: u64) -> Vec<(Sign, Option<bool>)> {
        let mut chance = self.beside(SEEN, seed);
        let careless = chance.within(0.2, 0.5);
        // Some hear the grass grow, some nothing at all.
        let dull = chance.about(1.0, 0.3);
        let common: [f64; 10] = [(); 10].map(|()| chance.within(0.0, 1.0));
        let signs = Sign::ALL.into_iter().enumerate();
        signs
            .map(|(i, sign)| {
                let own = chance.within(0.0, 1.0);
                let shared = chance.happens(0.55);
                let looked = !chance.happens(careless);
                let falls = match sign {
                    // What was there from the first run did not come all at once.
                    Sign::SinceRefit => 1.0 - common[GROUP[i]],
                    _ if shared || sign == Sign::Sudden => common[GROUP[i]],
                    _ => own,
                };
                let shown = falls < self.likely(i, wrong, dull);
                (sign, looked.then_some(shown))
            })
            .collect()
    }

    /// Each cause for itself, beside what is imagined.
    fn likely(&self, i: usize, wrong: &[(Wrong, f64)], dull: f64) -> f64 {
        let hidden = wrong.iter().map(|&(wrong, severity)| {
            let mut chance = self.beside(ODDS + wrong.number(), 0);
            let own = [(); 16].map(|()| chance.about(1.0, 0.3))[i];
            let worst = f64::from(at_worst(wrong)[i]) / 100.0;
            1.0 - worst.powf(own * dull) * severity.powf(GROWTH[i])
        });
        1.0 - (1.0 - f64::from(FALSELY[i]) / 100.0) * hidden.product::<f64>()
    }
}
