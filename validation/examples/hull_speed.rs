//! How fast a hull finds its balance, beside the library of `python/propulsion.py`.
//!
//!     PUMPWRIGHT_PYTHON=ENV/bin/python cargo run --release -p validation --example hull_speed
//!
//! The same small hull at the same 200 speeds, the least of three rounds of each; the library in a process of its
//! own, which counts its balances alone and not its start.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a measuring tool for the shop floor of this project"
)]

use std::hint::black_box;
use std::process::Command;
use std::time::Instant;

use propulsion::hull::planing::{Bottom, Method, Roughness, State, planing};
use propulsion::hull::{Hull, resistance};
use propulsion::water::{Water, water};

const SPEEDS: u32 = 200;
/// Ours is so short that one pass over the speeds is little to measure.
const PASSES: u32 = 50;

fn main() {
    let of = Water {
        density: 999.1026,
        viscosity: 1.1386e-6,
        vapour_pressure: 1705.8,
    };
    let bottom = Bottom {
        beam: 1.0,
        deadrise: 22.0_f64.to_radians(),
        lcg: 1.05,
        vcg: 0.45,
        thrust_height: 0.1,
        thrust_forward: 0.0,
        thrust_angle: 0.0,
        roughness: Roughness::Allowance(0.0),
    };
    let at = |speed: f64| State {
        mass: 420.0,
        speed,
        water: of,
    };
    let mut mean = 0.0;
    let ours = least(|speed| {
        let found = planing(black_box(&bottom), &at(speed), &Method::WHOLE).unwrap();
        mean += found.resistance / f64::from(SPEEDS * PASSES * 3);
    });
    let hull = Hull::typical(2.7, 1.0, 22.0_f64.to_radians()).unwrap();
    let any = least(|speed| {
        let _ = black_box(resistance(black_box(&hull), 420.0, speed - 9.0, &of).unwrap());
    });
    let wet = least(|speed| {
        let _ = black_box(water(273.15 + speed, 0.01).unwrap());
    });
    let (theirs, their_mean) = library();
    let off = (mean / their_mean - 1.0).abs();
    assert!(
        off < 1e-6,
        "the same work: {mean} N here, {their_mean} N there"
    );
    println!(
        "a planing balance: {:.2} us here, {:.0} us there, {:.0} times as fast",
        1e6 * ours,
        1e6 * theirs,
        theirs / ours
    );
    println!("a resistance from 1 to 21 m/s: {:.2} us", 1e6 * any);
    println!("a water: {:.2} us", 1e6 * wet);
}

/// Seconds for one call, the least of three rounds.
fn least(mut work: impl FnMut(f64)) -> f64 {
    let round = || {
        let start = Instant::now();
        for _ in 0..PASSES {
            for i in 0..SPEEDS {
                work(black_box(
                    10.0 + 20.0 * f64::from(i) / f64::from(SPEEDS - 1),
                ));
            }
        }
        start.elapsed().as_secs_f64() / f64::from(SPEEDS * PASSES)
    };
    std::iter::repeat_with(round)
        .take(3)
        .fold(f64::INFINITY, f64::min)
}

/// Seconds of one balance and the mean resistance by the library, without a setting that slows its numpy.
fn library() -> (f64, f64) {
    let python =
        std::env::var("PUMPWRIGHT_PYTHON").expect("PUMPWRIGHT_PYTHON names the locked Python");
    let recipe = concat!(env!("CARGO_MANIFEST_DIR"), "/python/propulsion.py");
    let out = Command::new(python)
        .arg(recipe)
        .arg("time")
        .env_remove("OPENBLAS_CORETYPE")
        .env_remove("OPENBLAS_L2_SIZE")
        .output()
        .unwrap();
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    let out: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
    (
        out["seconds"].as_f64().unwrap(),
        out["mean_resistance_n"].as_f64().unwrap(),
    )
}
