//! A craft learnt from its own runs.

use propulsion::calibrate::{
    Evidence, Plateau, Pull, Reading, Start, Steady, calibrate, nothing_learnt,
};
use propulsion::change::Change;
use propulsion::craft::{Conditions, Craft};
use propulsion::drag::Drag;
use propulsion::matching::part_throttle;
use propulsion::predict::{Reach, SHAPE, band, draws, seen_by};
use propulsion::run::run;
use propulsion::unknown::{Unknown, Unknowns};

use crate::worked::{craft, rpm};

/// The worked pump on a hull that the method's drag is 1.6 times too small for.
fn learnable() -> Craft {
    let mut craft = craft();
    craft.unknowns = Unknowns::expected();
    craft.drag = Drag::new(420.0, |mass, speed| {
        Ok(2.0 * speed * speed * (mass / 420.0))
    })
    .unwrap();
    craft
}

fn truth() -> Craft {
    let mut craft = learnable();
    craft.unknowns[Unknown::Engine] = 0.95;
    craft.unknowns[Unknown::Deviation] = 0.02;
    craft.unknowns[Unknown::Hull] = 1.9;
    craft.unknowns[Unknown::Breakdown] = 7.0;
    craft.unknowns[Unknown::Intake] = 0.25;
    craft
}

fn logged(craft: &Craft) -> Evidence {
    let run = run(craft, &Conditions::fresh()).unwrap();
    let reading = |at: u32| {
        let time = 0.1 * f64::from(at);
        let [speed, engine] = run.state_at(time);
        let wobble = (f64::from(at) * 1.7).sin();
        Reading {
            time,
            speed: speed + 0.05 * wobble,
            engine: Some(engine + 2.0 * wobble),
        }
    };
    Evidence {
        starts: vec![Start {
            readings: (0..200).map(reading).collect(),
        }],
        plateaus: vec![Plateau {
            speed: Some([run.top.speed, 0.1]),
            engine: Some([run.top.engine, 2.0]),
        }],
        ..Evidence::default()
    }
}

#[test]
fn law_a_craft_is_learnt_from_its_own_run() {
    let fit = calibrate(&learnable(), &Conditions::fresh(), &logged(&truth())).unwrap();
    println!(
        "{:?}\n{:?}\n{:?} {}",
        fit.best, fit.learnt, fit.left, fit.rounds
    );
    assert_eq!(fit.poor(), None);
    assert!(fit.has_learnt(Unknown::Breakdown) && fit.has_learnt(Unknown::Hull));
    assert!(!fit.has_learnt(Unknown::GapHead));
    let day = Conditions::fresh();
    let steeper = |craft: &Craft| {
        let mut blades = craft.pump.blades;
        blades.trailing += 1f64.to_radians();
        blades.leading += 1f64.to_radians();
        Change::Impeller {
            blades,
            hub: craft.pump.hub,
        }
    };
    let told = learnable();
    let change = steeper(&told);
    let before = run(&truth(), &day).unwrap().top.engine;
    let after = run(&change.on(&truth()), &day).unwrap().top.engine;
    let mut widths = Vec::new();
    for fit in [&fit, &nothing_learnt()] {
        let differences: Vec<f64> = draws(fit, 200)
            .iter()
            .filter_map(|draw| {
                let base = seen_by((&told, &day), &draw.unknowns, &[], &[]).ok()?;
                let other = seen_by((&told, &day), &draw.unknowns, &[change], &[]).ok()?;
                Some((other.top_engine - base.top_engine) / rpm(1.0))
            })
            .collect();
        let reach = Reach {
            size: 7400.0,
            turns: 0.0,
        };
        let band = band(&differences, reach, SHAPE[1]).unwrap();
        println!(
            "{} {band:?} {}",
            differences.len(),
            (after - before) / rpm(1.0)
        );
        assert!(band.low < (after - before) / rpm(1.0) && (after - before) / rpm(1.0) < band.high);
        widths.push(band.high - band.low);
    }
    assert!(widths[0] < widths[1]);
}

/// Without a logged start, steady readings tell blades and hull apart; with one, a pull tells how much air is
/// drawn in at rest.
#[test]
fn law_part_throttle_tells_what_a_run_leaves_open() {
    let day = Conditions::fresh();
    let truth = truth();
    let held = |speed: f64| {
        // The engine speed at which this craft holds that speed.
        let (mut low, mut high) = (rpm(2500.0), rpm(7900.0));
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            let point = part_throttle(&truth, &day, speed, middle).unwrap();
            if point.thrust < truth.resistance(&day, speed) {
                low = middle;
            } else {
                high = middle;
            }
        }
        Steady { speed, engine: low }
    };
    let pulled = part_throttle(&truth, &day, 0.0, rpm(4000.0)).unwrap();
    let steadies: Vec<Steady> = [12.0, 16.0, 20.0].map(held).into();
    let pulls = vec![Pull {
        engine: rpm(4000.0),
        force: pulled.thrust,
    }];
    let logged = logged(&truth);
    let plateau = Evidence {
        starts: Vec::new(),
        ..logged.clone()
    };
    let ratio = |evidence: &Evidence, of: Unknown| {
        let fit = calibrate(&learnable(), &day, evidence).unwrap();
        assert_eq!(fit.poor(), None);
        fit.learnt[of as usize]
    };
    let with = Evidence {
        steadies,
        ..plateau.clone()
    };
    assert!(ratio(&with, Unknown::Deviation) < 0.6 * ratio(&plateau, Unknown::Deviation));
    assert!(ratio(&with, Unknown::Hull) < 0.8 * ratio(&plateau, Unknown::Hull));
    let with = Evidence {
        pulls,
        ..logged.clone()
    };
    assert!(ratio(&with, Unknown::Froth) < 0.5 * ratio(&logged, Unknown::Froth));
}
