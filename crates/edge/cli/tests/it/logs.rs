//! The two logs that come with the program: invented, drawn by a seed, the same on every machine.

use std::f64::consts::TAU;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng as _;

/// A craft on one day.
struct Day {
    seed: u64,
    /// Top speed through the water, mph.
    top: f64,
    /// Time constant of a start, s.
    pull: f64,
    rpm: f64,
    /// Current along the way out, mph: at first, and what it gains in a minute.
    current: (f64, f64),
}

const BEFORE: Day = Day {
    seed: 1,
    top: 48.4,
    pull: 3.4,
    rpm: 7740.0,
    current: (0.9, 0.02),
};
const AFTER: Day = Day {
    seed: 2,
    top: 51.7,
    pull: 2.9,
    rpm: 7610.0,
    current: (-0.5, 0.05),
};

/// What the craft does, one after the other: seconds, which way, how.
#[derive(Clone, Copy)]
enum Do {
    Lie,
    Stroll,
    Full,
    Start,
    Turn,
}

const DAY: [(f64, f64, Do); 15] = [
    (20.0, 0.0, Do::Lie),
    (15.0, 0.0, Do::Stroll),
    (26.0, 0.0, Do::Full),
    (20.0, 180.0, Do::Turn),
    (26.0, 180.0, Do::Full),
    (20.0, 0.0, Do::Turn),
    (26.0, 0.0, Do::Full),
    (20.0, 180.0, Do::Turn),
    (26.0, 180.0, Do::Full),
    (14.0, 180.0, Do::Lie),
    (9.0, 180.0, Do::Start),
    (14.0, 0.0, Do::Lie),
    (9.0, 0.0, Do::Start),
    (14.0, 180.0, Do::Lie),
    (9.0, 180.0, Do::Start),
];

/// Course of the first run, degrees.
const OUT: f64 = 78.0;
const RATE: f64 = 5.0;
const IDLE: f64 = 1650.0;

struct Noise(Pcg64, f64);

impl Noise {
    fn uniform(&mut self) -> f64 {
        f64::from(self.0.next_u32()) / f64::from(u32::MAX)
    }

    /// Of standard deviation one, each like the one before: receivers smooth.
    fn next(&mut self) -> f64 {
        let (a, b) = (self.uniform().max(1e-9), self.uniform());
        let normal = (-2.0 * a.ln()).sqrt() * (TAU * b).cos();
        self.1 = 0.8 * self.1 + 0.6 * normal;
        self.1
    }
}

/// The log of a day.
fn drawn(day: &Day) -> String {
    let mut noise = Noise(Pcg64::new(u128::from(day.seed), 7), 0.0);
    let mut text = String::from(
        "# Invented: no such craft was ever run. Drawn by a seed, to try the program with.\n\
         time s,speed mph,course deg,engine rpm\n",
    );
    let (mut now, mut water, mut rpm) = (0.0, 0.0, IDLE);
    for (lasts, way, what) in DAY {
        let end = now + lasts;
        let begun = now;
        while now < end - 0.5 / RATE {
            let (aim, pull, turns) = match what {
                Do::Lie => (0.0, 2.2, IDLE),
                Do::Stroll | Do::Turn => (12.0, 2.0, 3900.0),
                Do::Full | Do::Start => (day.top, day.pull, day.rpm),
            };
            water += (aim - water) / pull / RATE;
            rpm += (turns - rpm) / 0.4 / RATE;
            let current = day.current.0 + day.current.1 * now / 60.0;
            let along = if way > 90.0 { -current } else { current };
            let turn = match what {
                Do::Turn => 180.0 * (1.0 - (now - begun) / lasts),
                _ => 0.0,
            };
            // A craft that lies still drifts, and is shown as still by most receivers.
            let ground = if water < 1.0 { 0.0 } else { water + along };
            let speed = (ground + 0.09 * noise.next()).max(0.0);
            let course = (OUT + way + turn + 0.7 * noise.next()).rem_euclid(360.0);
            let shown = (rpm + 12.0 * noise.next()) / 10.0;
            let _ = writeln!(
                text,
                "{now:.1},{speed:.1},{course:.0},{:.0}",
                shown.round() * 10.0
            );
            now += 1.0 / RATE;
        }
    }
    text
}

fn example(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("example")
        .join(name)
}

#[test]
fn regress_the_invented_logs_are_the_drawn_ones() {
    for (name, day) in [("before.csv", BEFORE), ("after.csv", AFTER)] {
        let drawn = drawn(&day);
        if std::env::var_os("PUMPWRIGHT_WRITE_EXAMPLES").is_some() {
            std::fs::write(example(name), &drawn).unwrap();
        }
        let kept = std::fs::read_to_string(example(name)).unwrap();
        assert!(drawn == kept, "{name} is not what this draws");
    }
}
