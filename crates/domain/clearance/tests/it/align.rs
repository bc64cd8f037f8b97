//! Alignment: what handbooks print, and laws.

use std::f64::consts::{FRAC_PI_2, PI};

use clearance::align::coupling::{Axis, Carrier, Line, Station, rim_and_face, two_stations};
use clearance::align::limits::inside;
use clearance::align::mounts::{Mount, moves, rest};
use clearance::align::stacks::stacks;
use clearance::align::sweep::{Instrument, Sweep, Swept, Total, Turn, closure, swept};
use clearance::{Error, Estimated};
use proptest::prelude::*;

use crate::assert_near;

const IN: f64 = 0.0254;
const DIAL: Instrument = Instrument {
    step: 1e-5,
    repeat: 5e-6,
};

fn round(top: f64, starboard: f64, bottom: f64, port: f64) -> Sweep {
    Sweep {
        top,
        starboard,
        bottom,
        port,
    }
}

fn read(sweep: Sweep) -> Swept {
    let turned = 0.0;
    swept(&[Turn { turned, sweep }], DIAL).unwrap()
}

/// Readings of an axis off by so much, with a dial that stands at `zero`.
fn dialled(up: f64, port: f64, zero: f64) -> Sweep {
    round(zero + up, zero - port, zero - up, zero + port)
}

#[test]
fn published_shim_of_a_face_reading() {
    // Face circle 5 in, feet 30 in apart, 0.012 in: 0.072 in between front and rear.
    let face = read(round(0.0, -0.006 * IN, -0.012 * IN, -0.006 * IN));
    let axis = rim_and_face(
        &read(dialled(0.0, 0.0, 0.0)),
        &face,
        5.0 * IN,
        Carrier::Pump,
    )
    .unwrap();
    let feet = [4.0, 34.0].map(|inch| Mount {
        forward: inch * IN,
        port: 0.0,
    });
    let found = moves(&axis, &feet).unwrap();
    assert_near(found[0].up.value - found[1].up.value, 0.072 * IN, 1e-12);
}

#[test]
fn published_sign_and_half_of_a_rim_reading() {
    // Zero at the top, plus at the bottom: the shaft the button rests on is low, by half the reading.
    let plus = read(round(0.0, 0.002 * IN, 0.004 * IN, 0.002 * IN));
    let still = read(dialled(0.0, 0.0, 0.0));
    let axis = |carrier| rim_and_face(&plus, &still, 0.1, carrier).unwrap();
    assert_near(axis(Carrier::Pump).up.offset.value, -0.002 * IN, 1e-15);
    // Read from the engine's shaft the pump is low, so the engine is high.
    assert_near(axis(Carrier::Engine).up.offset.value, 0.002 * IN, 1e-15);
}

#[test]
fn published_feet_of_rim_and_face() {
    // Dials on the machine that is moved, zero at the top: shim = bf x / D - br / 2.
    let (br, bf, across) = (0.014 * IN, -0.009 * IN, 4.0 * IN);
    let bottom = |value: f64| read(round(0.0, 0.5 * value, value, 0.5 * value));
    let axis = rim_and_face(&bottom(br), &bottom(bf), across, Carrier::Engine).unwrap();
    let feet = [6.0 * IN, 21.0 * IN].map(|forward| Mount { forward, port: 0.0 });
    for (found, foot) in moves(&axis, &feet).unwrap().iter().zip(&feet) {
        assert_near(found.up.value, bf * foot.forward / across - 0.5 * br, 1e-15);
    }
}

#[test]
fn published_openings_that_change_sides_are_runout() {
    // Both turned half round, the larger opening is on the other side: the shafts are in line.
    let turn = |turned, opening| Turn {
        turned,
        sweep: dialled(opening, 0.0, 0.0),
    };
    let found = swept(&[turn(0.0, 4e-5), turn(PI, -4e-5)], DIAL).unwrap();
    assert_near(found.up.value, 0.0, 1e-18);
    let runout = found.runout.unwrap();
    assert_near(runout.total.value, 8e-5, 1e-18);
    assert_near(runout.angle, 0.0, 1e-12);
}

#[test]
fn practice_opposite_readings_close() {
    let good = closure(&round(0.0, -0.2e-3, -0.5e-3, -0.31e-3), DIAL).unwrap();
    assert_near(good.error, 1e-5, 1e-15);
    // Four readings, half a step of 0.01 mm and 0.005 mm each.
    assert_near(good.explained, 4e-5, 1e-18);
    assert!(good.holds());
    let slipped = closure(&round(0.0, -0.2e-3, -0.5e-3, -0.4e-3), DIAL).unwrap();
    assert!(!slipped.holds());
}

#[test]
fn law_sag_passes_the_sum_rule_and_reads_low() {
    // A bar that droops 0.04 mm, swung round a pipe that is straight.
    let droop = |t: f64| 0.04e-3 * t.cos();
    let [top, starboard, bottom, port] = [0.0, 0.5 * PI, PI, 1.5 * PI].map(droop);
    let sweep = round(top, starboard, bottom, port);
    assert_near(closure(&sweep, DIAL).unwrap().error, 0.0, 1e-18);
    let sag = Total {
        value: bottom - top,
        uncertainty: 1e-6,
    };
    assert_near(sag.value, -0.08e-3, 1e-18);
    let clean = read(sweep).without_sag(sag);
    assert_near(clean.up.value, 0.0, 1e-18);
    assert_near(
        clean.up.uncertainty,
        read(sweep).up.uncertainty.hypot(1e-6),
        1e-18,
    );
}

#[test]
fn law_more_turns_make_surer() {
    let at = |turned| Turn {
        turned,
        sweep: dialled(1e-4, -5e-5, 2e-5),
    };
    let quarters = [0.0, 0.5 * PI, PI, 1.5 * PI].map(at);
    let one = swept(&quarters[..1], DIAL).unwrap();
    let reversed = swept(&[at(0.0), at(PI)], DIAL).unwrap();
    let all = swept(&quarters, DIAL).unwrap();
    let u = DIAL.uncertainty().unwrap();
    assert_near(one.up.uncertainty, u * 2.0_f64.sqrt(), 1e-18);
    assert_near(reversed.up.uncertainty, u, 1e-18);
    assert_near(all.up.uncertainty, u / 2.0_f64.sqrt(), 1e-18);
    for found in [one, reversed, all] {
        assert!(found.holds());
        assert_near(found.up.value, 2e-4, 1e-17);
        assert_near(found.port.value, -1e-4, 1e-17);
    }
    // One place that does not belong to the others is told.
    let mut slipped = quarters;
    slipped[2].sweep.top += 3e-4;
    assert!(!swept(&slipped, DIAL).unwrap().holds());
}

#[test]
fn law_shims_that_are_there_are_found() {
    let found = stacks(
        &[0.4e-3, 0.0, 1.1e-3],
        &[0.1e-3, 0.3e-3, 1.0e-3, 0.1e-3, 0.5e-3],
    )
    .unwrap();
    for (stack, wanted) in found.iter().zip([0.4e-3, 0.0, 1.1e-3]) {
        assert_near(stack.thickness, wanted, 1e-15);
        assert_near(stack.off, 0.0, 1e-15);
    }
    // No shim twice.
    let mut used: Vec<usize> = found.iter().flat_map(|stack| stack.shims.clone()).collect();
    used.sort_unstable();
    assert_eq!(used, [0, 1, 2, 3]);
    // Nothing goes under a mount that has to come down.
    assert_eq!(stacks(&[-0.2e-3], &[0.1e-3]).unwrap()[0].shims, [0; 0]);
}

#[test]
fn law_a_limit_met_or_missed_by_far() {
    let found = |value: f64| Estimated {
        value,
        uncertainty: 3e-6,
    };
    let at = |up, port| inside(found(up), found(port), 1e-4).unwrap();
    assert_near(at(0.0, 0.0), 1.0, 1e-12);
    assert_near(at(3e-4, 0.0), 0.0, 1e-12);
    assert_near(at(0.0, 3e-4), 0.0, 1e-12);
    // Within each plane's limit, and not within both together.
    assert!(at(0.8e-4, 0.8e-4) < 0.01);
    // Only just: the edge curves away, so a little less than half.
    assert!((0.45..0.5).contains(&at(1e-4, 0.0)));
}

type Refusals = Vec<(Result<(), Error>, &'static str)>;

#[test]
fn practice_refused() {
    let turn = Turn {
        turned: 0.0,
        sweep: dialled(0.0, 0.0, 0.0),
    };
    let still = read(turn.sweep);
    let station = |forward| Station {
        forward,
        swept: still,
    };
    let axis = two_stations(&station(0.0), &station(0.1)).unwrap();
    let mount = |forward| Mount { forward, port: 0.1 };
    let none = Instrument {
        step: 0.0,
        repeat: 0.0,
    };
    let blind = Sweep {
        top: f64::NAN,
        ..turn.sweep
    };
    let cases: Refusals = vec![
        (swept(&[], DIAL).map(drop), "no reading round the clock"),
        (
            swept(&[turn, turn], DIAL).map(drop),
            "turn of the shaft in place 1",
        ),
        (
            swept(&[turn], none).map(drop),
            "the step of the instrument is 0",
        ),
        (
            closure(&blind, DIAL).map(drop),
            "a reading round the clock is NaN",
        ),
        (
            rim_and_face(&still, &still, 0.0, Carrier::Pump).map(drop),
            "the diameter the face is read on is 0",
        ),
        (
            two_stations(&station(0.1), &station(0.1)).map(drop),
            "the distance between the stations is 0",
        ),
        (
            moves(&axis, &[mount(0.1)]).map(drop),
            "too few mounts: 1; it takes at least 2",
        ),
        (
            moves(&axis, &[mount(0.1), mount(0.1)]).map(drop),
            "the distance between the mounts along the axis is 0",
        ),
        (
            rest(&[mount(0.1), mount(0.3)], &[0.0]).map(drop),
            "mount 1 (counted from zero) was named, but there are 1",
        ),
        (stacks(&[], &[1e-4]).map(drop), "there is no mount"),
        (stacks(&[0.0], &[1e-4; 13]).map(drop), "shims is 13"),
        (stacks(&[0.0], &[0.0]).map(drop), "a shim is 0"),
        (
            inside(still.up.offset(), still.port.offset(), 0.0).map(drop),
            "the limit is 0",
        ),
    ];
    for (result, words) in cases {
        let said = result.unwrap_err().to_string();
        assert!(said.contains(words), "{said} does not say {words}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_what_was_put_in_comes_out(
        (up, port) in (-1e-3..1e-3_f64, -1e-3..1e-3_f64),
        (rise, swing) in (-5e-3..5e-3_f64, -5e-3..5e-3_f64),
        (zero, across) in (-1e-3..1e-3_f64, 0.03..0.2_f64),
    ) {
        let rim = read(dialled(up, port, zero));
        let half = 0.5 * across;
        let face = read(dialled(rise * half, swing * half, -zero));
        let axis = rim_and_face(&rim, &face, across, Carrier::Pump).unwrap();
        prop_assert!((axis.up.offset.value - up).abs() < 1e-15);
        prop_assert!((axis.port.offset.value - port).abs() < 1e-15);
        prop_assert!((axis.up.slope.value - rise).abs() < 1e-13);
        prop_assert!((axis.port.slope.value - swing).abs() < 1e-13);
        // Moved as told, nothing is left at the coupling or at any mount.
        let mounts = [(0.1, 0.15), (0.1, -0.15), (0.4, 0.0)].map(|(forward, port)| Mount { forward, port });
        let told = moves(&axis, &mounts).unwrap();
        let high: Vec<f64> = told.iter().map(|m| m.up.value).collect();
        let left = rest(&mounts, &high).unwrap();
        prop_assert!((left.offset + up).abs() < 1e-12 && (left.slope + rise).abs() < 1e-11);
        prop_assert!(left.roll.abs() < 1e-11);
    }

    #[test]
    fn law_nothing_off_moves_nothing(zero in -1e-3..1e-3_f64, forward in 0.05..0.5_f64) {
        let still = read(dialled(0.0, 0.0, zero));
        let axis = rim_and_face(&still, &still, 0.08, Carrier::Pump).unwrap();
        let mounts = [forward, forward + 0.2].map(|forward| Mount { forward, port: 0.0 });
        for found in moves(&axis, &mounts).unwrap() {
            prop_assert!(found.up.value.abs() < 1e-15 && found.port.value.abs() < 1e-15);
            prop_assert!(found.up.uncertainty > 0.0);
        }
    }

    #[test]
    fn law_a_clock_named_from_the_other_end_only_swaps_sides(
        (up, port) in (-1e-3..1e-3_f64, -1e-3..1e-3_f64),
    ) {
        let sweep = dialled(up, port, 0.0);
        let seen_aft = Sweep { starboard: sweep.port, port: sweep.starboard, ..sweep };
        let (ours, other) = (read(sweep), read(seen_aft));
        prop_assert!((ours.up.value - other.up.value).abs() < 1e-18);
        prop_assert!((ours.port.value + other.port.value).abs() < 1e-18);
        // A clock turned by a quarter turns what it says: 3 named 12, 6 named 3, and so on.
        let turned = read(round(sweep.starboard, sweep.bottom, sweep.port, sweep.top));
        prop_assert!((turned.up.value + ours.port.value).abs() < 1e-18);
        prop_assert!((turned.port.value - ours.up.value).abs() < 1e-18);
    }

    #[test]
    fn law_units_scale(up in -1e-3..1e-3_f64, port in -1e-3..1e-3_f64, by in 0.1..10.0_f64) {
        let small = read(dialled(up, port, 0.0));
        let dial = Instrument { step: DIAL.step * by, repeat: DIAL.repeat * by };
        let turn = Turn { turned: 0.0, sweep: dialled(up * by, port * by, 0.0) };
        let large = swept(&[turn], dial).unwrap();
        prop_assert!((large.up.value - by * small.up.value).abs() < 1e-15);
        prop_assert!((large.up.uncertainty - by * small.up.uncertainty).abs() < 1e-15);
        // A slope has no unit: face and circle in another unit, the same slope.
        let slope = small.up.slope(0.08).unwrap().value;
        prop_assert!((large.up.slope(0.08 * by).unwrap().value - slope).abs() < 1e-13);
    }

    #[test]
    fn law_what_turns_is_parted_from_what_stays(
        (up, port) in (-1e-3..1e-3_f64, -1e-3..1e-3_f64),
        (much, angle) in (0.0..1e-3_f64, -3.1..3.1_f64),
        (turns, zero) in (2..5_usize, -1e-3..1e-3_f64),
    ) {
        let readings: Vec<Turn> = [0.0, 1.0, 2.0, 3.0][..turns].iter().map(|quarter| {
            let turned = quarter * FRAC_PI_2;
            // Dial set to zero anew each time.
            let zero = zero * (1.0 + turned);
            Turn { turned, sweep: dialled(
                up + much * (turned + angle).cos(),
                port - much * (turned + angle).sin(),
                zero,
            ) }
        }).collect();
        let found = swept(&readings, DIAL).unwrap();
        prop_assert!((found.up.value - 2.0 * up).abs() < 1e-14);
        prop_assert!((found.port.value - 2.0 * port).abs() < 1e-14);
        let runout = found.runout.unwrap();
        prop_assert!((runout.total.value - 2.0 * much).abs() < 1e-14);
        prop_assert!(much < 1e-6 || (runout.angle - angle).abs() < 1e-8);
        prop_assert!(found.holds());
    }

    #[test]
    fn law_shims_are_alike_on_both_sides(high in -1e-3..1e-3_f64, slope in -5e-3..5e-3_f64, u in 1e-6..1e-5_f64) {
        let line = |offset, slope| Line {
            offset: Estimated { value: offset, uncertainty: u },
            slope: Estimated { value: slope, uncertainty: 10.0 * u },
            together: 0.0,
        };
        let axis = Axis { up: line(high, slope), port: line(0.0, 0.0) };
        let mounts = [(0.1, 0.2), (0.1, -0.2), (0.4, 0.15), (0.4, -0.15)]
            .map(|(forward, port)| Mount { forward, port });
        let told = moves(&axis, &mounts).unwrap();
        prop_assert_eq!(told[0], told[1]);
        prop_assert_eq!(told[2], told[3]);
        // Surest at the coupling, less sure the farther off.
        prop_assert!(told[0].up.uncertainty < told[2].up.uncertainty);
    }

    #[test]
    fn law_two_stations_are_a_line(a in -1e-3..1e-3_f64, b in -1e-3..1e-3_f64, from in -0.1..0.05_f64) {
        let station = |forward, up: f64| Station { forward, swept: read(dialled(up, -up, 2e-3)) };
        let axis = two_stations(&station(from, a), &station(from + 0.12, b)).unwrap();
        prop_assert!((axis.up.at(from).value - a).abs() < 1e-14);
        prop_assert!((axis.port.at(from + 0.12).value + b).abs() < 1e-14);
        // At a station it is as sure as the station itself.
        let own = read(dialled(0.0, 0.0, 0.0)).up.offset().uncertainty;
        prop_assert!((axis.up.at(from).uncertainty - own).abs() < 1e-12);
        // Told in either order.
        let back = two_stations(&station(from + 0.12, b), &station(from, a)).unwrap();
        prop_assert!((axis.up.offset.value - back.up.offset.value).abs() < 1e-14);
        prop_assert!((axis.up.together - back.up.together).abs() < 1e-18);
    }
}
