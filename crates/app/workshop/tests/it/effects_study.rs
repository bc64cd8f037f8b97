//! What do faults change of invented craft of other physics? Their laws are what `diagnosis::others` reads.

use std::fmt::Write;

use diagnosis::fault::Fault;
use rayon::prelude::*;

use crate::faults_study::{TUNED, wrong};
use crate::truth::draw;
use crate::truth::outing::Outing;

/// Sizes of each fault, from 0.2 to 1.
const SIZES: u8 = 11;
/// Those the table tells of.
const TOLD: [u8; 3] = [0, 5, 10];

const HEAD: &str = "| fault | size | top speed | engine there | to 30 mph | to 50 mph | engine at 3 m/s | passing 20 mph | passing 30 mph | passing 40 mph |\n\
                    |---|---|---|---|---|---|---|---|---|---|";

/// In the order of the table.
fn quantities(outing: &Outing) -> [Option<f64>; 8] {
    let [at_20, at_30, at_40] = outing.passing_engine;
    [
        outing.top_speed,
        outing.top_engine,
        outing.to_30_mph,
        outing.to_50_mph,
        outing.launch_engine,
        at_20,
        at_30,
        at_40,
    ]
}

/// A fault of one size, and the logarithms of the limiter's speed, of each quantity when all is well, and of what the
/// fault leaves of it.
struct Shown {
    fault: Fault,
    step: u8,
    limiter: f64,
    well: [Option<f64>; 8],
    left: [Option<f64>; 8],
}

fn severity(step: u8) -> f64 {
    0.2 + 0.8 * f64::from(step) / f64::from(SIZES - 1)
}

/// Every fault of one craft, where it still planes.
fn shown(number: u64) -> Vec<Shown> {
    let drawn = draw(TUNED, number);
    let well = quantities(&drawn.trial(&[], 0));
    let one = |fault: Fault, step: u8| {
        let ill = quantities(&drawn.trial(&[(wrong(fault)?, severity(step))], 0));
        (well[0].is_some() && ill[0].is_some()).then(|| Shown {
            fault,
            step,
            limiter: drawn.told.limiter.ln(),
            well: well.map(|well| well.map(f64::ln)),
            left: std::array::from_fn(|at| Some((ill[at]? / well[at]?).ln())),
        })
    };
    let all = Fault::ALL.into_iter();
    let all = all.flat_map(|fault| (0..SIZES).map(move |step| (fault, step)));
    all.filter_map(|(fault, step)| one(fault, step)).collect()
}

/// One line each, as `validation/python/effects.py` reads them.
fn rows(all: &[Shown]) -> String {
    let mut text = String::new();
    for one in all {
        let size = severity(one.step);
        write!(text, "{:?} {size:.2} {:.5}", one.fault, one.limiter).unwrap();
        for number in one.well.iter().chain(&one.left) {
            match number {
                Some(number) => write!(text, " {number:.5}").unwrap(),
                None => text.push_str(" -"),
            }
        }
        text.push('\n');
    }
    text
}

/// What a fault of one size changes of a quantity, per cent: the middle, and what two craft in three lie between.
fn cell(all: &[&Shown], at: usize) -> String {
    let changes = all.iter().filter_map(|one| one.left[at]);
    let mut changes: Vec<f64> = changes.map(|left| 100.0 * left.exp_m1()).collect();
    changes.sort_by(f64::total_cmp);
    let place = |share: usize| changes.get(share * changes.len() / 6);
    match [1, 3, 5].map(place) {
        [Some(low), Some(middle), Some(high)] => format!("{middle:.1} ({low:.1} to {high:.1})"),
        _ => String::new(),
    }
}

#[test]
#[ignore = "a study: cargo xtask study effects"]
#[expect(
    clippy::disallowed_methods,
    reason = "a study hands on what its laws are made from"
)]
fn effects_study() {
    let craft: u64 = option_env!("PUMPWRIGHT_CRAFT").map_or(1200, |text| text.parse().unwrap());
    let all = (0..craft).into_par_iter().map(shown).collect::<Vec<_>>();
    let all: Vec<Shown> = all.into_iter().flatten().collect();
    if let Some(path) = option_env!("PUMPWRIGHT_ROWS") {
        std::fs::write(path, rows(&all)).unwrap();
    }
    println!("{HEAD}");
    for fault in Fault::ALL.into_iter().filter(|fault| fault.has_severity()) {
        for step in TOLD {
            let own = all
                .iter()
                .filter(|one| one.fault == fault && one.step == step);
            let own: Vec<&Shown> = own.collect();
            let cells: Vec<String> = (0..8).map(|at| cell(&own, at)).collect();
            println!(
                "| {fault:?} | {:.1} | {} |",
                severity(step),
                cells.join(" | ")
            );
        }
    }
}
