use joint::pattern::{remaining, star};
use joint::scatter::{combined, half_width};
use joint::slip::{Figure, compare};
use joint::turn::{Clamp, approach, clamped_stiffness, elastic_preload, screw_stiffness};
use joint::{
    Applied, Bearing, Error, FrictionRange, Head, Interval, Screw, Seat, Thread, preload,
    preload_range, torque,
};
use quantity::Unit;

use crate::{both, hex};

type Refusals = Vec<(Result<(), Error>, &'static str)>;

fn of_threads() -> Refusals {
    let parse = |text: &str| text.parse::<Thread>().map(drop);
    let thread = |diameter, pitch| Thread { diameter, pitch }.geometry().map(drop);
    let odd = Thread {
        diameter: 7e-3,
        pitch: 1e-3,
    };
    vec![
        (
            parse("M7"),
            "\"M7\" names no thread known here; write it like M6 or M8x1",
        ),
        (
            parse("M8x2"),
            "\"M8x2\" names no thread known here; of this size there are M8, M8×1",
        ),
        (
            thread(0.0, 1e-3),
            "the nominal diameter is 0; it must be above zero",
        ),
        (thread(6e-3, f64::NAN), "the pitch is NaN"),
        (
            thread(6e-3, 5e-3),
            "a pitch of 0.005 m leaves no core; it must stay below 0.0048",
        ),
        (
            Bearing::of(&odd, Head::Hex).map(drop),
            "no head and hole are known for a screw of 0.007 m",
        ),
    ]
}

fn of_screws() -> Refusals {
    let screw = hex("M6");
    let sticky = Screw {
        prevailing: 1.5,
        ..screw
    };
    let odd = Screw {
        prevailing: -1.0,
        ..screw
    };
    let narrow = Screw {
        bearing: Bearing {
            outer: 6e-3,
            hole: 6.6e-3,
        },
        ..screw
    };
    let by = |screw| preload(&screw, 1.0, both(0.2)).map(drop);
    vec![
        (
            by(sticky),
            "a torque of 1 N m does not exceed the prevailing torque of 1.5 N m",
        ),
        (
            by(odd),
            "the prevailing torque is -1; it must be zero or more",
        ),
        (
            by(narrow),
            "the bearing face of the head is 0.006; it must lie from 0.0066 to inf",
        ),
        (
            torque(&screw, -1.0, both(0.2)).map(drop),
            "the preload is -1; it must be zero or more",
        ),
        (
            torque(&screw, 1.0, both(1.2)).map(drop),
            "the friction in the thread is 1.2; it must lie from 0 to 1",
        ),
        (
            preload(&screw, f64::INFINITY, both(0.2)).map(drop),
            "the torque is inf",
        ),
    ]
}

fn of_ranges() -> Refusals {
    let with = |low, high, error| {
        let friction = FrictionRange {
            thread: Interval { low, high },
            head: Interval::point(0.2),
        };
        let applied = Applied {
            torque: 10.0,
            error,
        };
        preload_range(&hex("M6"), applied, &friction).map(drop)
    };
    vec![
        (
            with(0.3, 0.2, 0.04),
            "the friction in the thread from 0.3 to 0.2 is not an interval",
        ),
        (
            with(-0.1, 0.2, 0.04),
            "the friction in the thread is -0.1; it must lie from 0 to 1",
        ),
        (
            with(0.1, f64::NAN, 0.04),
            "the friction in the thread from 0.1 to NaN",
        ),
        (
            with(0.1, 0.2, 1.5),
            "the error of the wrench is 1.5; it must lie from 0 to 1",
        ),
    ]
}

fn of_turns() -> Refusals {
    let screw = hex("M6");
    let clamp = Clamp::of(10e-3, Seat::MetalLip);
    let thin = Clamp { grip: 0.0, ..clamp };
    vec![
        (
            approach(1e-3, -1.0).map(drop),
            "the angle is -1; it must be zero or more",
        ),
        (
            approach(0.0, 1.0).map(drop),
            "the pitch is 0; it must be above zero",
        ),
        (screw_stiffness(&screw, &thin).map(drop), "the grip is 0"),
        (
            elastic_preload(&screw, &clamp, f64::NAN).map(drop),
            "the angle is NaN",
        ),
        (
            clamped_stiffness(&screw.bearing, 1e-3, 0.0).map(drop),
            "the modulus of the part is 0",
        ),
    ]
}

fn of_the_rest() -> Refusals {
    let metres = Figure {
        torque: 10.0,
        rounding: 0.5,
        unit: Unit::NewtonMetre,
    };
    let with = |other| compare(&metres, &other).map(drop);
    let inches = Figure {
        unit: Unit::Inch,
        ..metres
    };
    let none = Figure {
        torque: 0.0,
        ..metres
    };
    vec![
        (
            with(inches),
            "in measures no torque; give a unit such as N·m",
        ),
        (with(none), "the printed torque is 0; it must be above zero"),
        (star(0).map(drop), "there is no screw; give at least one"),
        (remaining(&[], &[1.0], 0.1).map(drop), "there is no screw"),
        (
            remaining(&[1, 1], &[1.0], 0.1).map(drop),
            "screw 1 stands wrongly in the order of 2 screws; name each of 1 to 2 once",
        ),
        (
            remaining(&[0, 1], &[1.0], 0.1).map(drop),
            "screw 0 stands wrongly",
        ),
        (
            remaining(&[1, 3], &[1.0], 0.1).map(drop),
            "screw 3 stands wrongly",
        ),
        (
            remaining(&[1, 2], &[-1.0], 0.1).map(drop),
            "the share of a pass is -1",
        ),
        (
            remaining(&[1, 2], &[1.0], 0.6).map(drop),
            "the loss of a neighbour is 0.6; it must lie from 0 to 0.5",
        ),
        (
            half_width(0.9).map(drop),
            "the tightening factor is 0.9; it must lie from 1 to",
        ),
        (
            combined(-0.1, 0.0).map(drop),
            "the scatter from the friction is -0.1",
        ),
    ]
}

#[test]
fn law_every_refusal_names_value_and_limit() {
    let all = [
        of_threads(),
        of_screws(),
        of_ranges(),
        of_turns(),
        of_the_rest(),
    ];
    for (result, words) in all.concat() {
        let said = result.expect_err(words).to_string();
        assert!(said.contains(words), "{said:?} does not say {words:?}");
    }
}
