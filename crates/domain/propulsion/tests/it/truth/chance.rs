//! Numbers drawn at random, the same ones every time.

use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng;
use std::f64::consts::TAU;

/// One stream of the generator.
pub(crate) struct Chance(Pcg64);

impl Chance {
    /// Streams of one seed never meet; where each begins is scattered, since neighbours that begin alike
    /// stay alike for a while.
    pub(crate) fn new(seed: u64, stream: u64) -> Self {
        let begin = scattered(seed ^ scattered(stream));
        let state = u128::from(begin) << 64 | u128::from(scattered(begin));
        Self(Pcg64::new(state, u128::from(stream)))
    }

    /// Between nought and one, neither included.
    #[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
    fn share(&mut self) -> f64 {
        ((self.0.next_u64() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    /// Alike anywhere between the two.
    pub(crate) fn within(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Of the normal law (Box and Muller).
    pub(crate) fn normal(&mut self, mean: f64, sd: f64) -> f64 {
        let (u, v) = (self.share(), self.share());
        mean + sd * (-2.0 * u.ln()).sqrt() * (TAU * v).cos()
    }

    /// A factor about a median, normal in its logarithm.
    pub(crate) fn about(&mut self, median: f64, spread: f64) -> f64 {
        median * self.normal(0.0, spread).exp()
    }

    /// True with this chance.
    pub(crate) fn happens(&mut self, chance: f64) -> bool {
        self.share() < chance
    }
}

/// Steele, Lea and Flood's mixer of 64 bits (from memory).
fn scattered(seed: u64) -> u64 {
    let z = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// Noise that forgets over `1 / (1 - keep)` samples, and keeps its spread.
pub(crate) struct Wander {
    keep: f64,
    sd: f64,
    now: f64,
}

impl Wander {
    /// The noise of a mean over many samples is that of `samples` times fewer free ones.
    pub(crate) fn new(chance: &mut Chance, sd: f64, samples: f64) -> Self {
        let now = chance.normal(0.0, sd);
        let keep = (samples - 1.0) / (samples + 1.0);
        Self { keep, sd, now }
    }

    pub(crate) fn next(&mut self, chance: &mut Chance) -> f64 {
        let now = self.now;
        let fresh = self.sd * (1.0 - self.keep * self.keep).sqrt();
        self.now = self.keep * now + chance.normal(0.0, fresh);
        now
    }
}

/// Where a function that changes sign between two points is nought (Illinois).
pub(crate) fn root(ends: (f64, f64), function: impl Fn(f64) -> f64) -> Option<f64> {
    let (mut a, mut b) = ends;
    let (mut at_a, mut at_b) = (function(a), function(b));
    if at_a.is_nan() || at_b.is_nan() || at_a * at_b > 0.0 {
        return None;
    }
    for _ in 0..80 {
        if (b - a).abs() <= 1e-11 * b.abs() || at_b == 0.0 {
            break;
        }
        let x = b - at_b * (b - a) / (at_b - at_a);
        let at_x = function(x);
        if at_x * at_b < 0.0 {
            (a, at_a) = (b, at_b);
        } else {
            at_a *= 0.5;
        }
        (b, at_b) = (x, at_x);
    }
    Some(b)
}
