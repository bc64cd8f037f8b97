//! Logs of craft that never were, with noise that repeats.

use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};
use trial::{Log, Sample};

/// Normal noise with a seed.
pub(crate) struct Noise(Pcg64Mcg);

impl Noise {
    pub(crate) fn new(seed: u64) -> Self {
        Self(Pcg64Mcg::seed_from_u64(seed))
    }

    /// Between nought and one, neither included.
    #[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
    pub(crate) fn share(&mut self) -> f64 {
        ((self.0.next_u64() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    /// Of the normal law about nought (Box and Muller).
    pub(crate) fn normal(&mut self) -> f64 {
        let (u, v) = (self.share(), self.share());
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
    }
}

/// One leg of a trip: how long, from which speed to which, on which course in degrees.
#[derive(Clone, Copy)]
pub(crate) struct Part {
    pub(crate) lasts: f64,
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) course: (f64, f64),
}

pub(crate) fn steady(lasts: f64, speed: f64, course: f64) -> Part {
    Part {
        lasts,
        from: speed,
        to: speed,
        course: (course, course),
    }
}

pub(crate) fn change(lasts: f64, from: f64, to: f64, course: f64) -> Part {
    Part {
        lasts,
        from,
        to,
        course: (course, course),
    }
}

/// Speed and course of a trip at a time.
fn at(parts: &[Part], mut time: f64) -> (f64, f64) {
    let mut last = (0.0, 0.0);
    for part in parts {
        let share = (time / part.lasts).min(1.0);
        last = (
            part.from + share * (part.to - part.from),
            part.course.0 + share * (part.course.1 - part.course.0),
        );
        if time <= part.lasts {
            break;
        }
        time -= part.lasts;
    }
    last
}

/// Samples of a trip, `step` apart, with noise on the speed.
pub(crate) fn samples(parts: &[Part], step: f64, noise: f64, seed: u64) -> Vec<Sample> {
    let mut drawn = Noise::new(seed);
    let lasts: f64 = parts.iter().map(|p| p.lasts).sum();
    let mut out = Vec::new();
    let mut i = 0_u32;
    while f64::from(i) * step <= lasts {
        let time = f64::from(i) * step;
        let (speed, course) = at(parts, time);
        out.push(Sample {
            time,
            speed: (speed + noise * drawn.normal()).max(0.0),
            course: Some(course.to_radians()),
            engine: None,
        });
        i += 1;
    }
    out
}

pub(crate) fn log(samples: Vec<Sample>) -> Log {
    Log {
        zero: None,
        stretches: vec![samples],
    }
}

/// There and back: two runs of 27.3 and 26.1 m/s with launches, turns and a rest.
pub(crate) fn there_and_back() -> Vec<Part> {
    vec![
        steady(6.0, 0.0, 40.0),
        change(5.0, 0.0, 27.3, 40.0),
        steady(25.0, 27.3, 40.0),
        change(4.0, 27.3, 8.0, 40.0),
        Part {
            lasts: 10.0,
            from: 8.0,
            to: 8.0,
            course: (40.0, 220.0),
        },
        change(5.0, 8.0, 26.1, 220.0),
        steady(22.0, 26.1, 220.0),
        change(6.0, 26.1, 0.0, 220.0),
        steady(6.0, 0.0, 220.0),
    ]
}
