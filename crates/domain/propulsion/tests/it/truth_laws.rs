//! What must hold of the invented craft before anything is judged by them.
//!
//! Of 400 craft of seed 1, least, 5 %, quarter, median, quarter, 95 %, most (the tests print those of fewer):
//!
//! | here | 0 % | 5 % | 25 % | 50 % | 75 % | 95 % | 100 % |
//! |------|-----|-----|------|------|------|------|-------|
//! | rated kW | 60 | 66 | 81 | 103 | 132 | 173 | 225 |
//! | mass kg | 315 | 365 | 396 | 427 | 466 | 516 | 594 |
//! | top m/s | 16.6 | 19.2 | 21.7 | 24.0 | 26.6 | 30.0 | 37.4 |
//! | engine at top over rated | 0.95 | 0.97 | 0.98 | 0.99 | 1.01 | 1.02 | 1.03 |
//! | engine at 1 s over rated | 0.89 | 0.94 | 0.98 | 1.00 | 1.03 | 1.05 | 1.06 |
//! | peak g | 0.31 | 0.38 | 0.46 | 0.52 | 0.58 | 0.68 | 0.79 |
//! | s to 30 | 2.1 | 2.6 | 3.0 | 3.5 | 4.1 | 5.3 | 8.0 |
//! | pump efficiency at top | 0.70 | 0.75 | 0.80 | 0.82 | 0.85 | 0.87 | 0.89 |
//! | both edges +1 degree, 1/min | -469 | -363 | -292 | -256 | -225 | -183 | -131 |
//! | both edges +1 degree, m/s | -0.61 | -0.42 | -0.18 | -0.07 | 0.03 | 0.19 | 0.48 |
//! | both edges -1 degree, 1/min | 59 | 94 | 176 | 223 | 263 | 337 | 418 |
//! | trailing edge +1 degree, 1/min | -429 | -321 | -262 | -227 | -197 | -161 | -109 |
//! | bore +1 mm, 1/min | 15 | 28 | 42 | 48 | 57 | 69 | 95 |
//! | bore +1 mm, m/s | -0.21 | -0.12 | -0.05 | -0.02 | 0.01 | 0.06 | 0.14 |
//! | gap to 0.15 mm, m/s | -0.05 | -0.01 | 0.01 | 0.03 | 0.07 | 0.14 | 0.33 |
//! | gap to 0.15 mm, s to 30 | -0.53 | -0.19 | -0.08 | -0.04 | -0.01 | 0.01 | 0.03 |
//!
//! 80 % peak between 0.31 and 0.60 g; 69 % reach 50. Thrown away: 240 of 640, of which 210 for an angle, a
//! bore or a power out of range, 3 for their speed, 15 for their match, 11 by their launch, 1 fragile.

use crate::truth::chance::Chance;
use crate::truth::craft::{GRAVITY, Rig, STEP};
use crate::truth::{
    Drawn, FIFTY, Outcome, RUN, Swap, THIRTY, Thrown, draw, passed, swapped, turns,
};

const SEED: u64 = 1;
/// Craft looked at where each costs a few runs.
const FEW: u64 = 60;

fn craft(count: u64) -> Vec<Drawn> {
    (0..count).map(|number| draw(SEED, number)).collect()
}

fn count(number: usize) -> f64 {
    f64::from(u32::try_from(number).expect("few"))
}

fn share(values: &[f64], (low, high): (f64, f64)) -> f64 {
    let inside = values.iter().filter(|v| (low..=high).contains(*v)).count();
    count(inside) / count(values.len())
}

fn mean_and_sd(values: &[f64]) -> (f64, f64) {
    let n = count(values.len());
    let mean = values.iter().sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    (mean, (squares / n).sqrt())
}

/// Least, 5 %, quarter, median, quarter, 95 %, most.
fn row(what: &str, values: &[f64]) -> String {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let last = sorted.len() - 1;
    let at = |percent: usize| sorted[(percent * last + 50) / 100];
    let cells = [0, 5, 25, 50, 75, 95, 100].map(|p| format!("{:.2}", at(p)));
    format!("| {what} | {} |", cells.join(" | "))
}

#[test]
fn regress_a_craft_repeats_to_the_last_bit() {
    let craft = draw(7, 3);
    let again = draw(7, 3);
    let (log, outcome) = (craft.log(), craft.outcome(Swap::Steeper));
    assert_eq!(log, again.log());
    assert_eq!(outcome, again.outcome(Swap::Steeper));
    assert_ne!(outcome, draw(8, 3).outcome(Swap::Steeper));
    assert_ne!(outcome, draw(7, 4).outcome(Swap::Steeper));
    // Mathematical libraries differ in the last places from machine to machine.
    let kept = [
        (craft.told.leading, 0.282_740_162_388),
        (craft.told.rated_power, 120_500.0),
        (craft.told.mass, 399.836_069_553),
        (log[100].speed, 23.567_869_584_6),
        (log[100].engine, 745.791_284_562),
        (outcome.top_speed, 23.442_020_422_1),
        (outcome.top_engine, 727.253_082_389),
        (outcome.to_30_mph.unwrap(), 3.191_676_253_74),
    ];
    for (i, (now, then)) in kept.into_iter().enumerate() {
        assert!((now / then - 1.0).abs() < 1e-9, "{i}: {now}, was {then}");
    }
}

/// Craft of neighbouring numbers are drawn independently: their streams agree in nothing.
#[test]
fn law_neighbouring_streams_are_independent() {
    let draws = |stream: u64| {
        let chance = &mut Chance::new(SEED, stream);
        [(); 40].map(|()| chance.normal(0.0, 1.0))
    };
    let streams: Vec<[f64; 40]> = (0..4000_u64).map(|number| draws(number << 20)).collect();
    for place in 0..40 {
        let values: Vec<f64> = streams.iter().map(|stream| stream[place]).collect();
        let (mean, sd) = mean_and_sd(&values);
        // Four times the spread of the mean, of the sd and of the correlation of 4000 independent draws.
        assert!(
            mean.abs() < 0.064 && (sd - 1.0).abs() < 0.045,
            "{place}: {mean} {sd}"
        );
        for apart in [1, 2, 16] {
            let pairs = values.iter().zip(&values[apart..]);
            let along = pairs.map(|(a, b)| a * b).sum::<f64>() / 4000.0;
            assert!(along.abs() < 0.064, "{place}, {apart} apart: {along}");
        }
    }
}

/// Power in is useful power and losses, each of them positive, at rest and under way, whatever was swapped.
#[test]
fn law_power_is_accounted_for() {
    for drawn in craft(FEW) {
        for swap in [Swap::None, Swap::Steeper, Swap::Flatter] {
            let craft = swapped(&drawn.craft, swap);
            for speed in [0.0, 5.0, 12.0, 18.0] {
                accounted(&craft.rig(), speed);
            }
        }
    }
}

fn accounted(rig: &Rig<'_>, speed: f64) {
    let craft = rig.craft;
    let shaft = rig.settled(speed).expect("engine and pump agree");
    let point = rig.point(shaft, speed, None);
    let (jet, captured, losses) = (point.stream, point.captured, point.work.losses);
    let towed = craft.aft * jet - captured.momentum * speed;
    let energy = jet * jet / 2.0 - captured.energy * speed * speed / 2.0;
    let items = [
        towed * speed,
        energy - towed * speed,
        craft.nozzle_loss * jet * jet / 2.0,
        captured.loss,
        point.frothed,
        losses.shock,
        losses.profile,
        losses.leak,
        losses.stator,
        losses.swirl,
        losses.cavity,
    ];
    assert!(items.iter().all(|item| *item >= 0.0), "{speed}: {items:?}");
    let lifted = GRAVITY * craft.height;
    let spent = point.mass_flow * (items.iter().sum::<f64>() + lifted) + point.disc * shaft;
    let given = point.torque * shaft;
    assert!(
        (spent / given - 1.0).abs() < 1e-6,
        "{speed}: {spent} of {given}"
    );
    let engine = craft.delivered(shaft, point.torque);
    assert!(
        (engine / point.torque - 1.0).abs() < 1e-6,
        "{speed}: {engine}"
    );
}

/// Common practice, no source: an engine is rated about where it is strongest, its limiter counted in, and the
/// waves of its curve are small.
#[test]
fn practice_engines_are_rated_near_their_peak() {
    let short = |drawn: &Drawn| {
        let engine = &drawn.craft.engine;
        let power = |percent: u32| {
            let speed = f64::from(percent) / 100.0 * engine.rated;
            engine.torque(speed) * speed
        };
        let most = (60..=107).map(power).fold(0.0, f64::max);
        for percent in 35..100 {
            let step = engine.torque(f64::from(percent + 1) / 100.0 * engine.rated)
                / engine.torque(f64::from(percent) / 100.0 * engine.rated);
            assert!((0.96..1.04).contains(&step), "{percent}: {step}");
        }
        power(100) / most
    };
    let shares: Vec<f64> = craft(FEW).iter().map(short).collect();
    println!("{}", row("rated over greatest power", &shares));
    assert!(share(&shares, (0.95, 1.0)) > 0.9, "{shares:?}");
}

/// Seven strips and steps of 20 ms are enough for what a swap changes.
#[test]
fn law_finer_strips_and_steps_change_little() {
    for drawn in craft(10) {
        let top = |swap: Swap, strips: u32| {
            let craft = swapped(&drawn.craft, swap);
            craft.rig().finer(strips, STEP).top(20.0).unwrap()
        };
        let change = |strips: u32| {
            let (base, steeper) = (top(Swap::None, strips), top(Swap::TrailingOnly, strips));
            (base.0, steeper.1 - base.1)
        };
        let (coarse, fine) = (change(7), change(35));
        assert!(
            (coarse.0 / fine.0 - 1.0).abs() < 0.01,
            "{coarse:?} {fine:?}"
        );
        assert!(
            (coarse.1 / fine.1 - 1.0).abs() < 0.03,
            "{coarse:?} {fine:?}"
        );
        let time = |swap: Swap, (step, steps): (f64, u32)| {
            let craft = swapped(&drawn.craft, swap);
            let states = craft.rig().finer(7, step).run(steps, |_| false);
            passed(&states, THIRTY, |state| state.time).unwrap()
        };
        let times = |step: (f64, u32)| {
            let base = time(Swap::None, step);
            (base, time(Swap::TrailingOnly, step) - base)
        };
        let (coarse, fine) = (times((STEP, RUN)), times((STEP / 8.0, 8 * RUN)));
        // A step of 20 ms is late by as much; the change is what is judged.
        assert!((coarse.0 - fine.0).abs() < STEP, "{coarse:?} {fine:?}");
        assert!((coarse.1 - fine.1).abs() < 0.005, "{coarse:?} {fine:?}");
    }
}

/// Under a heavier sky nothing boils, and the launch is stronger.
#[test]
fn law_breakdown_goes_with_the_pressure() {
    for drawn in craft(20) {
        let mut heavy = drawn.craft.clone();
        heavy.water.air = 1e6;
        let shaft = 0.9 * drawn.told.rated_speed;
        let here = drawn.rig().point(shaft, 0.0, None);
        let there = heavy.rig().point(shaft, 0.0, None);
        assert!(there.work.grown < 1e-9, "{:?}", there.work);
        assert!(here.work.grown <= 0.0 || here.thrust < there.thrust);
    }
}

/// The errors of what is typed have the spread that is said, and no bias.
#[test]
fn law_what_is_told_is_near_the_truth() {
    let craft = craft(200);
    let errors = |error: &dyn Fn(&Drawn) -> f64| craft.iter().map(error).collect::<Vec<f64>>();
    let columns = [
        errors(&|c| (c.told.leading - c.craft.pump.leading) / c.told.angle_sd),
        errors(&|c| (c.told.trailing - c.craft.pump.trailing) / c.told.angle_sd),
        errors(&|c| (c.told.nozzle - c.craft.nozzle) / c.told.nozzle_sd),
        errors(&|c| (c.told.gap - c.craft.pump.gap) / c.told.gap_sd),
        errors(&|c| (c.told.mass - c.craft.hull.mass) / c.told.mass_sd),
        errors(&|c| (c.told.hub - c.craft.pump.hub) / 0.005),
        errors(&|c| {
            let true_power = c.craft.engine.torque * c.craft.engine.rated;
            (true_power / c.told.rated_power - 1.0) / 0.06
        }),
    ];
    for (i, column) in columns.iter().enumerate() {
        let (mean, sd) = mean_and_sd(column);
        assert!(
            mean.abs() < 0.25 && (0.85..1.15).contains(&sd),
            "{i}: {mean} {sd}"
        );
    }
    for Drawn { told, craft, .. } in &craft {
        assert!(told.trailing > told.leading);
        assert_eq!(told.diameter.to_bits(), craft.pump.diameter.to_bits());
        assert!([3, 4].contains(&told.blades));
        assert!(
            told.solidity
                .is_none_or(|s| (s - craft.pump.solidity).abs() < 0.2)
        );
        assert!((told.limiter - craft.engine.limiter).abs() <= turns(25.1));
        let hull = [
            (told.length, craft.hull.length),
            (told.beam, craft.hull.beam),
        ];
        assert!(
            hull.iter()
                .all(|(told, true_one)| told.to_bits() == true_one.to_bits())
        );
        assert!((18.0..=25.0).contains(&told.deadrise.to_degrees()));
        let water = told.water;
        assert!((281.0..=300.2).contains(&water.temperature));
        assert!(
            [0.0, 0.035]
                .map(f64::to_bits)
                .contains(&water.salinity.to_bits())
        );
        // Fresh at 27 degrees Celsius, sea at 8.
        assert!((996.0..=1028.0).contains(&water.density));
        assert!((0.84e-6..=1.46e-6).contains(&water.viscosity));
        assert!((1040.0..=3600.0).contains(&water.vapour_pressure));
        assert!((97e3..=104e3).contains(&water.air_pressure));
    }
    let charged = craft.iter().filter(|c| c.told.charged).count();
    assert!((60..=140).contains(&charged), "{charged}");
}

/// A log is the run it was taken of, late and with the noise that is said.
#[test]
fn law_the_log_has_the_noise_that_is_said() {
    let (mut of_speed, mut of_engine, mut along) = (Vec::new(), Vec::new(), Vec::new());
    for drawn in craft(FEW) {
        let log = drawn.log();
        assert_eq!(log.len(), 221);
        assert!(
            log.windows(2)
                .all(|w| (w[1].time - w[0].time - 0.1).abs() < 1e-9)
        );
        assert!(log[0].speed < 0.7 && log[0].engine < 0.3 * drawn.told.rated_speed);
        let outcome = drawn.outcome(Swap::None);
        let last = log[220];
        assert!(
            (last.speed / outcome.top_speed - 1.0).abs() < 0.08,
            "{last:?} {outcome:?}"
        );
        // By then the craft no longer gains what would show beside the noise.
        let settled = &log[180..];
        let (_, sd) = mean_and_sd(&settled.iter().map(|r| r.engine).collect::<Vec<_>>());
        of_engine.push(sd / turns(1.0));
        let speeds: Vec<f64> = settled.iter().map(|r| r.speed).collect();
        let (mean, sd) = mean_and_sd(&speeds);
        of_speed.push(sd);
        let product: f64 = speeds
            .windows(2)
            .map(|w| (w[0] - mean) * (w[1] - mean))
            .sum();
        along.push(product / 40.0 / (sd * sd));
    }
    // Means of 41 readings of which five count as one; a finite window takes some of the spread away.
    let (speed, engine) = (mean_and_sd(&of_speed).0, mean_and_sd(&of_engine).0);
    assert!((0.095..0.14).contains(&speed), "{speed}");
    assert!((22.0..35.0).contains(&engine), "{engine}");
    let along = mean_and_sd(&along).0;
    assert!((0.5..0.7).contains(&along), "{along}");
}

/// Common practice, no source: a degree is 100 to 350 revolutions a minute, a millimetre of bore 20 to 120.
#[test]
fn practice_swaps_are_of_the_size_they_are_known_by() {
    let outcomes: Vec<[Outcome; 7]> = craft(FEW)
        .iter()
        .map(|drawn| Swap::ALL.map(|swap| drawn.outcome(swap)))
        .collect();
    let expected = [
        (Swap::Steeper, (-350.0, -100.0), 0.85),
        (Swap::Flatter, (100.0, 350.0), 0.85),
        (Swap::TrailingOnly, (-350.0, -100.0), 0.9),
        (Swap::NozzleWider, (20.0, 120.0), 0.9),
        (Swap::NozzleNarrower, (-120.0, -20.0), 0.9),
        (Swap::GapRenewed, (-150.0, 10.0), 0.9),
    ];
    for (swap, range, bulk) in expected {
        let at = Swap::ALL.iter().position(|s| *s == swap).unwrap();
        let turned = |o: &[Outcome; 7]| (o[at].top_engine - o[0].top_engine) / turns(1.0);
        let faster = |o: &[Outcome; 7]| o[at].top_speed - o[0].top_speed;
        let changes: Vec<f64> = outcomes.iter().map(turned).collect();
        println!("{}", row(&format!("{swap:?} 1/min"), &changes));
        let speeds: Vec<f64> = outcomes.iter().map(faster).collect();
        println!("{}", row(&format!("{swap:?} m/s"), &speeds));
        assert!(share(&changes, range) >= bulk, "{swap:?}: {changes:?}");
        let sooner = |o: &[Outcome; 7]| Some(o[at].to_30_mph? - o[0].to_30_mph?);
        let times: Vec<f64> = outcomes.iter().filter_map(sooner).collect();
        println!("{}", row(&format!("{swap:?} s to 30"), &times));
        assert_eq!(
            times.len(),
            outcomes.len(),
            "{swap:?} leaves a craft below 30"
        );
    }
}

/// Peaks of 0.31 to 0.55 g on average, 0.45 g and more from rest to 30 miles an hour: Good et al. 2005,
/// whose craft top out at 19 to 25 m/s. Ours go to 34.
#[test]
fn practice_the_craft_are_such_as_are_ridden() {
    let craft = craft(150);
    let thrown: Vec<Thrown> = craft.iter().flat_map(|c| c.thrown.clone()).collect();
    for why in [
        Thrown::Unlikely,
        Thrown::Speed,
        Thrown::Match,
        Thrown::Stuck,
        Thrown::Launch,
        Thrown::Fragile,
    ] {
        println!("{why:?} {}", thrown.iter().filter(|t| **t == why).count());
    }
    let lost = count(thrown.len()) / count(thrown.len() + craft.len());
    assert!(lost < 0.4, "{lost} thrown away");
    let unlikely = thrown.iter().filter(|t| **t == Thrown::Unlikely).count();
    assert!(
        thrown.len() - unlikely < craft.len() / 7,
        "beyond the ranges: {thrown:?}"
    );

    let outcomes: Vec<Outcome> = craft.iter().map(|c| c.outcome(Swap::None)).collect();
    let column = |what: &str, of: &dyn Fn(&Drawn, &Outcome) -> f64| {
        let values: Vec<f64> = craft.iter().zip(&outcomes).map(|(c, o)| of(c, o)).collect();
        println!("{}", row(what, &values));
        values
    };
    column("rated kW", &|c, _| c.told.rated_power / 1e3);
    column("rated 1/min", &|c, _| c.told.rated_speed / turns(1.0));
    column("mass kg", &|c, _| c.told.mass);
    column("leading deg", &|c, _| c.told.leading.to_degrees());
    column("trailing deg", &|c, _| c.told.trailing.to_degrees());
    let top = column("top m/s", &|_, o| o.top_speed);
    assert!(share(&top, (16.0, 38.0)) >= 1.0);
    assert!(share(&top, (18.0, 32.0)) > 0.9);
    let engine = column("top over rated", &|c, o| o.top_engine / c.told.rated_speed);
    assert!(share(&engine, (0.94, 1.04)) >= 1.0);
    let launch = column("at launch over rated", &|c, o| {
        o.engine_at_launch / c.told.rated_speed
    });
    assert!(share(&launch, (0.85, 1.08)) > 0.98);
    let peak = column("peak g", &|_, o| o.peak_acceleration / GRAVITY);
    assert!(
        share(&peak, (0.31, 0.60)) > 0.7,
        "{}",
        share(&peak, (0.31, 0.60))
    );
    println!("peaks of 0.31 to 0.60 g: {:.2}", share(&peak, (0.31, 0.60)));
    column("s to 30", &|_, o| o.to_30_mph.unwrap());
    let fifty = outcomes.iter().filter(|o| o.to_50_mph.is_some()).count();
    println!("reach 50: {:.2}", count(fifty) / count(outcomes.len()));
    for outcome in &outcomes {
        assert!(outcome.to_50_mph.is_none() || outcome.top_speed > FIFTY);
        assert!(outcome.to_30_mph < outcome.to_50_mph.or(Some(f64::INFINITY)));
    }
    let pump = column("pump", &|c, o| {
        let point = c.rig().point(o.top_engine, o.top_speed, None);
        point.work.head() * point.mass_flow / point.torque / o.top_engine
    });
    assert!(share(&pump, (0.65, 0.9)) > 0.98);
    let overall = column("thrust times speed over shaft", &|c, o| {
        let point = c.rig().point(o.top_engine, o.top_speed, None);
        point.thrust * o.top_speed / point.torque / o.top_engine
    });
    assert!(share(&overall, (0.48, 0.66)) > 0.9);
    assert!(share(&overall, (0.40, 0.72)) >= 1.0);
}
