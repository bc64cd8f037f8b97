//! What must hold whatever the craft.

use proptest::prelude::*;
use propulsion::budget::budget;
use propulsion::change::Change;
use propulsion::craft::{Conditions, Craft};
use propulsion::engine::Engine;
use propulsion::matching::{Held, full_throttle, part_throttle};
use propulsion::pump::{Blades, Losses};
use propulsion::run::run;
use propulsion::unknown::Unknown;

use crate::worked::{craft, rpm};
use crate::{assert_close, assert_near};

const LOSSES: Losses = Losses {
    incidence: 0.3,
    stator: 0.3,
    friction: 0.05,
    deviation: 0.01,
};

fn blades(leading: f64, more: f64) -> Blades {
    Blades {
        leading: leading.to_radians(),
        trailing: (leading + more).to_radians(),
        solidity: 1.3,
    }
}

/// A craft of drawn blades and unknowns.
fn drawn() -> impl Strategy<Value = Craft> {
    let shape = (11.0..17.0, 2.0..7.0, 0.078..0.092);
    (shape, 0.05..0.35, 0.0..0.12, 5.0..12.0).prop_map(
        |((leading, more, nozzle), intake, wake, breaks)| {
            let mut craft = craft();
            craft.pump.leading_known = f64::to_radians(leading);
            craft.pump.blades = blades(leading, more);
            craft.nozzle = nozzle;
            craft.unknowns[Unknown::Intake] = intake;
            craft.unknowns[Unknown::Wake] = wake;
            craft.unknowns[Unknown::Throat] = 0.2;
            craft.unknowns[Unknown::Breakdown] = breaks;
            craft
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    /// Q ~ n D³, gH ~ n² D², P ~ rho n³ D⁵ (ISO 9906's speed scaling is the same law).
    #[test]
    fn law_pumps_of_one_shape_scale(leading in 10.0..18.0, more in 1.0..7.0, up in 0.6..1.6_f64, wide in 0.7..1.5_f64, flow in 0.1..0.25) {
        let mut pump = craft().pump;
        pump.blades = blades(leading, more);
        let (n, q) = (rpm(7000.0), flow);
        let mut other = pump;
        other.diameter *= wide;
        let scaled = q * up * f64::powi(wide, 3);
        assert_close(other.head(&LOSSES, up * n, scaled), pump.head(&LOSSES, n, q) * (up * wide).powi(2), 1e-9);
        assert_close(other.work(&LOSSES, up * n, scaled), pump.work(&LOSSES, n, q) * (up * wide).powi(2), 1e-9);
    }

    #[test]
    fn law_every_loss_by_its_own_formula_and_all_add_up(craft in drawn(), speed in 0.0..27.0) {
        let day = Conditions::fresh();
        let point = full_throttle(&craft, &day, speed).unwrap();
        let budget = budget(&craft, &day, &point);
        assert_close(budget.shaft, point.power, 1e-9);
        assert_close(budget.together(), point.power, 1e-7);
        for loss in [budget.mechanical, budget.incidence, budget.swirl, budget.friction, budget.breakdown, budget.nozzle, budget.intake, budget.useful] {
            prop_assert!(loss >= 0.0, "{budget:?}");
        }
    }

    /// At one speed of the craft steeper blades hold the engine down, flatter let it go.
    #[test]
    fn law_pitch_holds_the_engine_down(craft in drawn(), speed in 0.0..27.0, steeper in 0.1..2.0) {
        let day = Conditions::fresh();
        let mut other = craft.clone();
        other.pump.blades.trailing += f64::to_radians(steeper);
        let (a, b) = (full_throttle(&craft, &day, speed).unwrap(), full_throttle(&other, &day, speed).unwrap());
        prop_assert!(b.engine <= a.engine + 1e-6, "{a:?} {b:?}");
    }

    #[test]
    fn law_a_change_to_what_is_there_changes_nothing(craft in drawn()) {
        let day = Conditions::fresh();
        let same = [
            Change::Impeller { blades: craft.pump.blades, hub: craft.pump.hub },
            Change::Gap(craft.pump.gap),
            Change::Nozzle(craft.nozzle),
            Change::Ballast(0.0),
            Change::Limiter(craft.engine.limiter),
            Change::Torque(0.0),
            Change::Slip(0.0),
            Change::Air(0.0),
            Change::Jet(0.0),
            Change::Hull(0.0),
            Change::Blades { head: 0.0, efficiency: 0.0 },
            Change::Intake { taken_in: 0.0, throat: 0.0 },
        ];
        for change in same {
            prop_assert_eq!(&change.on(&craft), &craft);
        }
        let faults = [Change::Torque(0.1), Change::Jet(0.05), Change::Hull(0.1), Change::Intake { taken_in: 0.1, throat: 0.0 }, Change::Blades { head: 0.03, efficiency: 0.1 }];
        let top = run(&craft, &day).unwrap().top;
        // Held by the limiter, an engine has torque to spare.
        prop_assume!(top.held == Held::Pump);
        let top = top.speed;
        for fault in faults {
            prop_assert!(run(&fault.on(&craft), &day).unwrap().top.speed < top, "{fault:?}");
        }
    }

    /// The warm start changes how quickly a balance is found, not which.
    #[test]
    fn law_a_run_passes_the_balances_found_from_nothing(craft in drawn()) {
        let day = Conditions::fresh();
        let run = run(&craft, &day).unwrap();
        for point in run.points.iter().chain([&run.top]) {
            let alone = full_throttle(&craft, &day, point.speed).unwrap();
            assert_close(point.engine, alone.engine, 1e-7);
            assert_close(point.thrust, alone.thrust, 1e-6);
        }
        prop_assert!((run.top.thrust - craft.resistance(&day, run.top.speed)).abs() < 1e-8 * run.top.thrust);
    }
}

/// A jet as fast as the craft pushes nothing, but only where the water is taken in at the craft's speed.
#[test]
fn law_no_thrust_at_the_speed_of_the_jet() {
    let mut craft = craft();
    let day = Conditions::fresh();
    for (wake, expected) in [(0.0, true), (0.05, false)] {
        craft.unknowns[Unknown::Wake] = wake;
        // The speed at which a slowly turning pump is only driven through.
        let mut speed = 10.0;
        let engine = rpm(2500.0);
        for _ in 0..200 {
            let point = part_throttle(&craft, &day, speed, engine).unwrap();
            let jet = point.flow / propulsion::jet::bore_area(craft.nozzle);
            speed += 0.5 * (jet - speed);
        }
        let point = part_throttle(&craft, &day, speed, engine).unwrap();
        let per = point.thrust / (day.water.density * point.flow * speed);
        assert_eq!(per.abs() < 1e-6, expected, "{wake} {per}");
        assert_near(per, wake, 1e-6);
    }
}

/// `dn/n = (dtau/tau)/(2 − s)`: the local law of engine and pump, for 5 % of torque.
#[test]
fn computed_the_local_law_of_the_engines_speed() {
    let day = Conditions::fresh();
    let base = run(&craft(), &day).unwrap().top;
    let engine = craft().engine;
    let step = 1.0;
    let slope = (engine.torque(base.engine + step) / engine.torque(base.engine - step)).ln()
        / ((base.engine + step) / (base.engine - step)).ln();
    assert_near(slope, -0.7435, 1e-4);
    let law = 0.05 / (2.0 - slope) * base.engine / rpm(1.0);
    assert_near(law, 134.98, 0.02);
    let mut strong = craft();
    strong.unknowns[Unknown::Engine] = 1.05;
    let more = run(&strong, &day).unwrap().top.engine - base.engine;
    assert_close(more / rpm(1.0), law, 0.05);
}

#[test]
fn computed_an_engine_by_its_points_is_the_cubic_without_overshoot() {
    // scipy.interpolate.PchipInterpolator 1.17.1 of these points.
    let points = [
        [300.0, 120.0],
        [450.0, 170.0],
        [600.0, 190.0],
        [700.0, 180.0],
        [800.0, 150.0],
    ];
    let engine = Engine::curve(&points, 800.0).unwrap();
    for point in points {
        assert_near(engine.torque(point[0]), point[1], 1e-9);
    }
    let mut last = engine.torque(600.0);
    for at in 1..=200 {
        let torque = engine.torque(600.0 + f64::from(at));
        assert!(torque < last && torque <= 190.0);
        last = torque;
    }
}
