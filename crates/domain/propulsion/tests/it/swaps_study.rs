//! Are changes foretold, and do the bands hold? Invented craft of other physics, each learnt from one log.

use propulsion::calibrate::{Fit, calibrate, nothing_learnt};
use propulsion::change::Change;
use propulsion::craft::{Conditions, Craft};
use propulsion::observe::Observed;
use propulsion::predict::{Band, GAP, Reach, SHAPE, SHAPE_UNLEARNT, band, draws, seen_by};
use propulsion::run::run;

use crate::described::{described, seen};
use crate::truth::{Swap, THIRTY, draw};

/// What is tuned is tuned on the first seed; the second is reported.
const TUNED: u64 = 1;
const REPORTED: u64 = 2;
/// Craft whose outcomes are compared with the table in every test run.
const AGAIN: u64 = 4;
/// Beliefs asked for each prediction.
const DRAWS: usize = 120;

const SWAPS: [Swap; 6] = [
    Swap::Steeper,
    Swap::Flatter,
    Swap::TrailingOnly,
    Swap::NozzleWider,
    Swap::NozzleNarrower,
    Swap::GapRenewed,
];
const QUANTITIES: [&str; 3] = ["top speed, m/s", "engine, rpm", "rest to 30 mph, s"];

fn change(swap: Swap, craft: &Craft) -> Change {
    let turned = |leading: f64, trailing: f64| {
        let mut blades = craft.pump.blades;
        blades.leading += leading.to_radians();
        blades.trailing += trailing.to_radians();
        Change::Impeller {
            blades,
            hub: craft.pump.hub,
        }
    };
    match swap {
        Swap::None => Change::Ballast(0.0),
        Swap::Steeper => turned(1.0, 1.0),
        Swap::Flatter => turned(-1.0, -1.0),
        Swap::TrailingOnly => turned(0.0, 1.0),
        Swap::NozzleWider => Change::Nozzle(craft.nozzle + 1e-3),
        Swap::NozzleNarrower => Change::Nozzle(craft.nozzle - 1e-3),
        Swap::GapRenewed => Change::Gap(0.15e-3),
    }
}

/// The three quantities; a time that is not reached is none.
fn quantities(seen: &Observed) -> [Option<f64>; 3] {
    let rpm = 30.0 / std::f64::consts::PI; // not a conversion: the table is told in revolutions a minute
    [
        Some(seen.top_speed),
        Some(seen.top_engine * rpm),
        seen.times[0],
    ]
}

/// Bands of every quantity for a change, by beliefs.
fn foretold(fit: &Fit, (craft, day): (&Craft, &Conditions), change: Change) -> [Option<Band>; 3] {
    let seen: Vec<[[Option<f64>; 3]; 2]> = draws(fit, DRAWS)
        .iter()
        .filter_map(|draw| {
            let now = seen_by((craft, day), &draw.unknowns, &[], &[THIRTY]).ok()?;
            let with = seen_by((craft, day), &draw.unknowns, &[change], &[THIRTY]).ok()?;
            Some([quantities(&now), quantities(&with)])
        })
        .collect();
    let shape = if fit.rounds > 0 {
        SHAPE
    } else {
        SHAPE_UNLEARNT
    };
    let mut best = craft.clone();
    best.unknowns = fit.best;
    let top = |craft: &Craft| Some(run(craft, day).ok()?.top.engine);
    let turns = match (top(&best), top(&change.on(&best))) {
        (Some(now), Some(with)) => (with / now - 1.0).abs(),
        _ => 0.0,
    };
    let turns = match change {
        Change::Gap(gap) => turns + GAP * (gap - craft.pump.gap).abs() / craft.pump.height(),
        _ => turns,
    };
    std::array::from_fn(|at| {
        let pairs = seen
            .iter()
            .filter_map(|[now, with]| Some((now[at]?, with[at]?)));
        let pairs: Vec<(f64, f64)> = pairs.collect();
        let differences: Vec<f64> = pairs.iter().map(|(now, with)| with - now).collect();
        let count = f64::from(u32::try_from(pairs.len().max(1)).unwrap());
        let size = pairs.iter().map(|(now, _)| now).sum::<f64>() / count;
        band(&differences, Reach { size, turns }, shape[at]).ok()
    })
}

/// One change of one craft: the truth, the band learnt, the band not learnt.
struct Foretold {
    truth: f64,
    learnt: Band,
    unlearnt: Band,
}

#[derive(Default)]
struct Tally {
    craft: u64,
    poor: u64,
    told: [[Vec<Foretold>; 3]; 6],
}

/// Learns a craft and foretells every swap. Words tell what came of it.
fn judged(seed: u64, number: u64, tally: &mut Tally) -> String {
    let drawn = draw(seed, number);
    let (craft, day) = described(&drawn.told);
    tally.craft += 1;
    let fit = match calibrate(&craft, &day, &seen(&drawn)) {
        Ok(fit) => fit,
        Err(error) => {
            tally.poor += 1;
            return format!("{error:?}");
        }
    };
    if fit.poor().is_some() {
        tally.poor += 1;
        return "?".to_owned();
    }
    let base = drawn.outcome(Swap::None);
    let rpm = 30.0 / std::f64::consts::PI; // not a conversion: as above
    let mut words = String::new();
    for (place, swap) in SWAPS.into_iter().enumerate() {
        let true_one = drawn.outcome(swap);
        let truths = [
            Some(true_one.top_speed - base.top_speed),
            Some((true_one.top_engine - base.top_engine) * rpm),
            true_one
                .to_30_mph
                .zip(base.to_30_mph)
                .map(|(with, now)| with - now),
        ];
        let change = change(swap, &craft);
        let learnt = foretold(&fit, (&craft, &day), change);
        let unlearnt = foretold(&nothing_learnt(), (&craft, &day), change);
        for (at, truth) in truths.into_iter().enumerate() {
            if let (Some(truth), Some(learnt), Some(unlearnt)) = (truth, learnt[at], unlearnt[at]) {
                words.push(if (learnt.low..=learnt.high).contains(&truth) {
                    '+'
                } else {
                    '-'
                });
                tally.told[place][at].push(Foretold {
                    truth,
                    learnt,
                    unlearnt,
                });
            }
        }
    }
    words
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    if values.is_empty() {
        f64::NAN
    } else {
        values[values.len() / 2]
    }
}

/// Interval score at 80 % (Gneiting and Raftery 2007): width, and ten times what is missed by.
fn score(band: &Band, truth: f64) -> f64 {
    band.high - band.low + 10.0 * ((band.low - truth).max(0.0) + (truth - band.high).max(0.0))
}

fn row((craft, swap): (&str, &str), quantity: &str, told: &[&Foretold], first: &str) -> String {
    let count = f64::from(u32::try_from(told.len().max(1)).unwrap());
    let held = |band: &Band, truth: f64| (band.low..=band.high).contains(&truth);
    let share = |pick: fn(&Foretold) -> &Band| {
        100.0
            * told
                .iter()
                .filter(|one| held(pick(one), one.truth))
                .map(|_| 1.0)
                .sum::<f64>()
            / count
    };
    let width = |pick: fn(&Foretold) -> &Band| {
        median(
            told.iter()
                .map(|one| pick(one).high - pick(one).low)
                .collect(),
        )
    };
    let scored = |pick: fn(&Foretold) -> &Band| {
        told.iter()
            .map(|one| score(pick(one), one.truth))
            .sum::<f64>()
            / count
    };
    let off = median(
        told.iter()
            .map(|one| (one.learnt.middle - one.truth).abs())
            .collect(),
    );
    let size = median(told.iter().map(|one| one.truth.abs()).collect());
    format!(
        "| {craft} | {swap} | {quantity} | {} | {size:.3} | {off:.3} | {:.0} | {:.3} | {:.3} | {:.0} | {:.3} | {:.3} | {first} |",
        told.len(),
        share(|one| &one.learnt),
        width(|one| &one.learnt),
        scored(|one| &one.learnt),
        share(|one| &one.unlearnt),
        width(|one| &one.unlearnt),
        scored(|one| &one.unlearnt),
    )
}

const HEAD: &str = "| craft | swap | of | told | size | off | held % | width | score | held % unlearnt | width unlearnt | score unlearnt | first |\n\
                    |---|---|---|---|---|---|---|---|---|---|---|---|---|";

/// What comes of the first craft, `/` between two.
fn first(seed: u64, tally: &mut Tally) -> String {
    let words: Vec<String> = (0..AGAIN)
        .map(|number| judged(seed, number, tally))
        .collect();
    words.join("/")
}

#[test]
#[ignore = "a study: cargo xtask study swaps"]
fn swaps_study() {
    let craft: u64 = option_env!("PUMPWRIGHT_CRAFT").map_or(200, |text| text.parse().unwrap());
    println!("{HEAD}");
    for (name, seed) in [("tuned on", TUNED), ("reported", REPORTED)] {
        let mut tally = Tally::default();
        let first = first(seed, &mut tally);
        for number in AGAIN..craft {
            judged(seed, number, &mut tally);
        }
        for (at, quantity) in QUANTITIES.iter().enumerate() {
            for (place, swap) in SWAPS.iter().enumerate() {
                let told: Vec<&Foretold> = tally.told[place][at].iter().collect();
                println!("{}", row((name, &format!("{swap:?}")), quantity, &told, ""));
            }
            let all: Vec<&Foretold> = tally.told.iter().flat_map(|swap| &swap[at]).collect();
            let fitted = format!(
                "all; of {} craft {} fitted too poorly to tell",
                tally.craft, tally.poor
            );
            println!("{}", row((name, &fitted), quantity, &all, &first));
        }
    }
}

#[test]
fn regress_study_of_the_first_craft() {
    let recorded = include_str!("../../../../../docs/studies/swaps.md");
    let row = recorded
        .lines()
        .find(|line| line.starts_with("| reported | all;"));
    let words = row
        .unwrap()
        .trim_end_matches(" |")
        .rsplit(' ')
        .next()
        .unwrap();
    assert_eq!(first(REPORTED, &mut Tally::default()), words);
}
