//! The worked craft: a pump of 155 mm, an engine whose torque is a parabola, drag of 3.5 V².
//!
//! The same equations solved in another program, digits as printed there.

use std::f64::consts::PI;

use propulsion::budget::budget;
use propulsion::craft::{Conditions, Craft, Ills};
use propulsion::drag::Drag;
use propulsion::engine::Engine;
use propulsion::matching::{Held, full_throttle, part_throttle};
use propulsion::pump::{Blades, Pump, deviation, pitch};
use propulsion::run::run;
use propulsion::surge::{Launch, reached, surge};
use propulsion::unknown::{Unknown, Unknowns};

use crate::{assert_close, assert_near};

/// Revolutions a minute as rad/s.
pub(crate) fn rpm(n: f64) -> f64 {
    n * PI / 30.0 // not a conversion: the worked values are printed in revolutions a minute
}

/// The worked pump on the worked engine and hull, nothing breaking down.
pub(crate) fn craft() -> Craft {
    let mut unknowns = Unknowns::expected();
    unknowns[Unknown::Air] = 0.0;
    unknowns[Unknown::Hump] = 0.0;
    unknowns[Unknown::Hull] = 1.0;
    unknowns[Unknown::Throat] = 0.0;
    unknowns[Unknown::Froth] = 0.0;
    unknowns[Unknown::Breakdown] = 1e3;
    Craft {
        pump: Pump {
            diameter: 0.155,
            hub: 0.45,
            blades: Blades {
                leading: 15f64.to_radians(),
                trailing: 21f64.to_radians(),
                solidity: 1.3,
            },
            gap: 0.0003,
            gap_known: 0.0003,
            leading_known: 15f64.to_radians(),
            ratio: 1.0,
        },
        nozzle: 0.086,
        engine: Engine::parabola(200.0, rpm(6000.0), 1.2, rpm(8000.0)).unwrap(),
        drag: Drag::new(420.0, |_, speed| Ok(3.5 * speed * speed)).unwrap(),
        mass: 420.0,
        ills: Ills::NONE,
        unknowns,
    }
}

#[test]
fn computed_the_pump_of_the_worked_craft() {
    let craft = craft();
    let pump = &craft.pump;
    assert_close(pump.area(), 0.015_048, 1e-4);
    assert_close(pump.square_radius(), 0.003_611_26, 1e-5);
    assert_close(deviation(&pump.blades).to_degrees(), 1.368_21, 1e-5);
    assert_close(pitch(0.155, 15f64.to_radians()), 0.130_477, 1e-5);
    let rows = [
        (7500.0, 0.0, 0.21158, 676.605, 171_093.1, 7699.49),
        (7500.0, 10.0, 0.21453, 659.509, 169_033.9, 5879.55),
        (7500.0, 20.0, 0.22318, 608.474, 162_288.0, 4330.71),
        (7500.0, 28.0, 0.23387, 543.661, 152_509.7, 3192.02),
        (6000.0, 20.0, 0.18360, 365.076, 80_233.4, 2312.43),
    ];
    let mut losses_of = propulsion::pump::Losses {
        incidence: 0.3,
        stator: 0.3,
        friction: 0.05,
        deviation: 0.0,
    };
    losses_of.deviation = 0.0;
    for (n, speed, flow, head, power, thrust) in rows {
        let point = part_throttle(&craft, &Conditions::fresh(), speed, rpm(n)).unwrap();
        assert_close(point.flow, flow, 1e-4);
        assert_close(pump.head(&losses_of, point.shaft, point.flow), head, 1e-4);
        assert_close(point.power, power, 1e-4);
        assert_close(point.thrust, thrust, 1e-4);
    }
}

/// What a change does to top speed in km/h and to revolutions a minute.
fn difference(change: impl Fn(&mut Craft, &mut Conditions)) -> (f64, f64) {
    let base = run(&craft(), &Conditions::fresh()).unwrap().top;
    let (mut other, mut day) = (craft(), Conditions::fresh());
    change(&mut other, &mut day);
    let top = run(&other, &day).unwrap().top;
    (
        3.6 * (top.speed - base.speed), // not a conversion: the worked values are printed in km/h
        (top.engine - base.engine) / rpm(1.0),
    )
}

#[test]
fn computed_the_worked_craft_and_what_changes_do() {
    let top = run(&craft(), &Conditions::fresh()).unwrap().top;
    assert_near(top.speed, 28.95222, 1e-4);
    assert_near(top.engine / rpm(1.0), 7406.54, 0.02);
    assert_close(top.power, 144_892.7, 1e-5);
    assert_close(top.thrust, 2933.81, 1e-5);
    assert_eq!(top.held, Held::Pump);
    let turn = |leading: f64, trailing: f64| {
        move |craft: &mut Craft, _: &mut Conditions| {
            craft.pump.blades.leading += leading.to_radians();
            craft.pump.blades.trailing += trailing.to_radians();
        }
    };
    let nozzle = |more: f64| move |craft: &mut Craft, _: &mut Conditions| craft.nozzle += more;
    let scaled = |of: Unknown, by: f64| {
        move |craft: &mut Craft, _: &mut Conditions| craft.unknowns[of] *= by
    };
    let set =
        |of: Unknown, to: f64| move |craft: &mut Craft, _: &mut Conditions| craft.unknowns[of] = to;
    let rows = [
        (difference(turn(0.0, 1.0)), (-0.178, -188.3)),
        (difference(turn(0.0, -1.0)), (0.012, 194.2)),
        (difference(turn(1.0, 0.0)), (-0.213, -60.8)),
        (difference(turn(1.0, 1.0)), (-0.372, -245.5)),
        (difference(turn(-1.0, -1.0)), (0.092, 255.7)),
        (difference(nozzle(0.001)), (-0.015, 48.6)),
        (difference(nozzle(-0.001)), (-0.005, -47.6)),
        (difference(nozzle(0.003)), (-0.108, 148.2)),
        (
            difference(|craft, _| craft.pump.diameter += 0.001),
            (-0.126, -110.7),
        ),
        (
            difference(|_, day| day.water.density = 1026.021),
            (-0.100, -65.2),
        ),
        (difference(scaled(Unknown::Engine, 1.05)), (1.838, 130.6)),
        (difference(scaled(Unknown::Engine, 0.95)), (-1.965, -139.6)),
        (difference(set(Unknown::Intake, 0.30)), (-2.432, -62.6)),
        (difference(set(Unknown::Intake, 0.10)), (2.647, 70.3)),
        (difference(set(Unknown::Wake, 0.10)), (1.869, -26.7)),
        (difference(scaled(Unknown::Hull, 1.1)), (-3.278, -23.6)),
        (
            difference(|craft, _| {
                craft.ills.head = 0.03;
                craft.ills.efficiency = 0.02;
            }),
            (-0.667, 0.3),
        ),
        (
            difference(|craft, _| {
                craft.ills.head = 0.06;
                craft.ills.efficiency = 0.04;
            }),
            (-1.344, 1.9),
        ),
    ];
    for ((speed, engine), (theirs, turns)) in rows {
        println!("{speed:.3} {theirs} | {engine:.1} {turns}");
        assert_near(speed, theirs, 0.01);
        assert_near(engine, turns, 0.3);
    }
}

#[test]
fn computed_the_worked_craft_breaks_down_off_the_line() {
    let mut craft = craft();
    craft.unknowns[Unknown::Breakdown] = 9.0;
    let rows = [
        (0.0, 8000.0, 3505.0),
        (5.0, 8000.0, 3377.0),
        (10.0, 8000.0, 4151.0),
        (20.0, 7225.0, 3890.0),
        (28.0, 7383.0, 3031.0),
    ];
    for (speed, n, thrust) in rows {
        let point = full_throttle(&craft, &Conditions::fresh(), speed).unwrap();
        println!("{speed} {} {}", point.engine / rpm(1.0), point.thrust);
        assert_near(point.engine / rpm(1.0), n, 0.5);
        assert_near(point.thrust, thrust, 0.5);
    }
}

#[test]
fn computed_the_worked_craft_from_rest() {
    let run = run(&craft(), &Conditions::fresh()).unwrap();
    let rows = [
        (1.0, 12.44179, 7111.97),
        (2.0, 20.00334, 7212.89),
        (3.0, 24.26926, 7294.71),
        (5.0, 27.73593, 7375.25),
    ];
    for (time, speed, n) in rows {
        let [ours, engine] = run.state_at(time);
        println!("{time} {ours} {speed} {}", engine / rpm(1.0));
        assert_near(run.time_to(speed).unwrap(), time, 2e-4);
        assert_near(ours, speed, 2e-3);
        assert_near(engine / rpm(1.0), n, 0.2);
    }
}

#[test]
fn computed_the_worked_craft_step_by_step() {
    let moments = surge(&craft(), &Conditions::fresh(), Launch::AT_ONCE, 10.0).unwrap();
    let rows = [
        (1.0, 12.44179, 7111.97, 6.6960),
        (2.0, 20.00334, 7212.89, 23.2573),
        (3.0, 24.26926, 7294.71, 45.6074),
        (5.0, 27.73593, 7375.25, 98.3493),
        (10.0, 28.91350, 7405.52, 241.3974),
    ];
    for (time, speed, n, distance) in rows {
        let moment = moments
            .iter()
            .find(|moment| (moment.time - time).abs() < 1e-6);
        let moment = moment.unwrap();
        println!("{moment:?} {speed} {n} {distance}");
        assert_near(moment.speed, speed, 2e-3);
        assert_near(moment.engine / rpm(1.0), n, 0.1);
        assert_near(moment.distance, distance, 2e-2);
    }
}

#[test]
fn law_the_quick_run_takes_the_time_of_the_steps() {
    let mut craft = craft();
    for breaks in [1e3, 9.0, 7.0] {
        craft.unknowns[Unknown::Breakdown] = breaks;
        let run = run(&craft, &Conditions::fresh()).unwrap();
        for speed in [5.0, 13.4112, 22.352, 26.0] {
            let moment = reached(&craft, &Conditions::fresh(), Launch::AT_ONCE, speed);
            let moment = moment.unwrap().unwrap();
            assert_near(run.time_to(speed).unwrap(), moment.time, 2e-3);
        }
    }
}

#[test]
fn law_what_turns_costs_time_and_the_losses_add_up() {
    let mut craft = craft();
    craft.unknowns[Unknown::Breakdown] = 9.0;
    let launch = Launch {
        inertia: 0.05,
        idle: rpm(1500.0),
        opens: 0.3,
    };
    let day = Conditions::fresh();
    let slow = reached(&craft, &day, launch, 13.4112).unwrap().unwrap();
    let quick = reached(&craft, &day, Launch::AT_ONCE, 13.4112)
        .unwrap()
        .unwrap();
    assert!(
        slow.time > quick.time + 0.1 && slow.time < quick.time + 1.0,
        "{slow:?} {quick:?}"
    );
    let run = run(&craft, &day).unwrap();
    for point in run.points.iter().chain([&run.top]) {
        let budget = budget(&craft, &day, point);
        assert_close(budget.shaft, point.power, 1e-9);
        assert_close(budget.together(), point.power, 1e-8);
    }
}
