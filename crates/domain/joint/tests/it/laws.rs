use joint::pattern::{remaining, star};
use joint::{
    Applied, Class, Friction, FrictionRange, Interval, Screw, Stated, Thread, ceiling, convert,
    loosening, parts, preload, preload_range, torque, torque_factor, utilisation,
};
use proptest::prelude::*;

use crate::hex;

fn screw() -> impl Strategy<Value = Screw> {
    (0..Thread::all().count(), 0.0..2.0_f64).prop_map(|(at, prevailing)| {
        let thread = Thread::all().nth(at).unwrap();
        Screw {
            prevailing,
            ..hex(&thread.to_string())
        }
    })
}

fn friction() -> impl Strategy<Value = Friction> {
    (0.02..0.5_f64, 0.02..0.5_f64).prop_map(|(thread, head)| Friction { thread, head })
}

fn range() -> impl Strategy<Value = FrictionRange> {
    let interval = || {
        (0.02..0.4_f64, 0.0..0.3_f64).prop_map(|(low, width)| Interval {
            low,
            high: low + width,
        })
    };
    (interval(), interval()).prop_map(|(thread, head)| FrictionRange { thread, head })
}

/// A pair somewhere inside.
fn inside(range: &FrictionRange, thread: f64, head: f64) -> Friction {
    let at = |interval: Interval, part: f64| interval.low + part * (interval.high - interval.low);
    Friction {
        thread: at(range.thread, thread),
        head: at(range.head, head),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_torque_and_preload_are_inverse(screw in screw(), friction in friction(), force in 0.0..1e5_f64) {
        let there = torque(&screw, force, friction).unwrap();
        let back = preload(&screw, there, friction).unwrap();
        // The prevailing torque is taken off again: some 1e-13 of a newton metre over a lever of
        // half a millimetre.
        prop_assert!((back - force).abs() <= 1e-9 * (1.0 + force), "{force} {back}");
    }

    #[test]
    fn law_preload_rises_with_torque(screw in screw(), friction in friction(), net in 0.1..100.0_f64, more in 1e-3..10.0_f64) {
        let at = |net| preload(&screw, screw.prevailing + net, friction).unwrap();
        prop_assert!(at(net) < at(net + more));
    }

    #[test]
    fn law_preload_falls_with_friction(screw in screw(), friction in friction(), more in 1e-3..0.3_f64) {
        let at = |friction| preload(&screw, 20.0, friction).unwrap();
        let thread = Friction { thread: friction.thread + more, ..friction };
        let head = Friction { head: friction.head + more, ..friction };
        prop_assert!(at(friction) > at(thread));
        prop_assert!(at(friction) > at(head));
    }

    #[test]
    fn law_without_friction_all_torque_stretches(screw in screw(), force in 1.0..1e5_f64) {
        let none = Friction { thread: 0.0, head: 0.0 };
        let turn = force * screw.thread.pitch / std::f64::consts::TAU;
        let free = Screw { prevailing: 0.0, ..screw };
        // Rounding of a tangent and its inverse.
        prop_assert!((torque(&free, force, none).unwrap() / turn - 1.0).abs() < 1e-12);
        prop_assert!((loosening(&free, force, none).unwrap() / turn + 1.0).abs() < 1e-12);
    }

    #[test]
    fn law_parts_add_up(screw in screw(), friction in friction(), force in 1.0..1e5_f64) {
        let parts = parts(&screw, force, friction).unwrap();
        let sum = parts.pitch + parts.thread + parts.head + parts.prevailing;
        let whole = torque(&screw, force, friction).unwrap();
        prop_assert!((sum / whole - 1.0).abs() < 1e-12);
        prop_assert!(loosening(&screw, force, friction).unwrap() < whole);
    }

    #[test]
    fn law_geometry_scales(screw in screw(), by in 0.1..10.0_f64) {
        let small = screw.thread.geometry().unwrap();
        let thread = Thread { diameter: by * screw.thread.diameter, pitch: by * screw.thread.pitch };
        let large = thread.geometry().unwrap();
        for (ratio, power) in [
            (large.pitch_diameter / small.pitch_diameter, 1),
            (large.core_diameter / small.core_diameter, 1),
            (large.hole_diameter / small.hole_diameter, 1),
            (large.stress_area / small.stress_area, 2),
            (large.core_area / small.core_area, 2),
            (large.lead / small.lead, 0),
        ] {
            prop_assert!((ratio / by.powi(power) - 1.0).abs() < 1e-12);
        }
        prop_assert!(small.core_diameter < small.hole_diameter);
        prop_assert!(small.hole_diameter < small.pitch_diameter);
        prop_assert!(small.core_area < small.stress_area);
    }

    #[test]
    fn law_factor_has_no_size(screw in screw(), friction in friction(), by in 0.1..10.0_f64) {
        let mut large = screw;
        large.thread.diameter *= by;
        large.thread.pitch *= by;
        large.bearing.outer *= by;
        large.bearing.hole *= by;
        let ratio = torque_factor(&large, friction).unwrap() / torque_factor(&screw, friction).unwrap();
        prop_assert!((ratio - 1.0).abs() < 1e-12);
    }

    #[test]
    fn law_a_range_holds_every_pair_in_it(
        screw in screw(), range in range(), net in 1.0..50.0_f64, error in 0.0..0.2_f64,
        parts in (0.0..=1.0_f64, 0.0..=1.0_f64, 0.0..=1.0_f64),
    ) {
        let torque = (net + screw.prevailing) / (1.0 - error);
        let applied = Applied { torque, error };
        let forces = preload_range(&screw, applied, &range).unwrap();
        let shares = utilisation(&screw, Class::Stainless70, applied, &range).unwrap();
        let friction = inside(&range, parts.0, parts.1);
        let given = torque * (1.0 - error + 2.0 * error * parts.2);
        let force = preload(&screw, given, friction).unwrap();
        let spare = 1e-9 * force;
        prop_assert!(forces.low - spare <= force && force <= forces.high + spare);
        let point = FrictionRange {
            thread: Interval::point(friction.thread),
            head: Interval::point(friction.head),
        };
        let exact = Applied { torque: given, error: 0.0 };
        let share = utilisation(&screw, Class::Stainless70, exact, &point).unwrap();
        // The search for the least stops a few parts in 1e9 from where it lies.
        prop_assert!(shares.low * (1.0 - 1e-12) <= share.low, "{shares:?} {share:?}");
        prop_assert!(share.high <= shares.high * (1.0 + 1e-12), "{shares:?} {share:?}");
    }

    #[test]
    fn law_the_lowest_ceiling_is_safe_and_no_lower(screw in screw(), range in range()) {
        prop_assume!(screw.thread.diameter > 5e-3);
        let stated = Stated { torque: 20.0, friction: range };
        let torque = convert(&screw, Class::Stainless70, &stated, &range).unwrap().ceiling;
        let applied = Applied { torque, error: 0.0 };
        let share = utilisation(&screw, Class::Stainless70, applied, &range).unwrap();
        prop_assert!((share.high - 0.9).abs() < 1e-9, "{share:?}");
    }

    #[test]
    fn law_the_least_use_is_the_least(screw in screw(), head in 0.3..0.7_f64) {
        let range = FrictionRange { thread: Interval { low: 0.02, high: 0.7 }, head: Interval::point(head) };
        let applied = Applied { torque: 20.0, error: 0.0 };
        let of = |range: &FrictionRange| utilisation(&screw, Class::Steel10_9, applied, range).unwrap();
        let tried = (0..=680).map(|i| 0.02 + 1e-3 * f64::from(i)).map(|thread| {
            of(&FrictionRange { thread: Interval::point(thread), ..range }).low
        });
        let least = tried.fold(f64::INFINITY, f64::min);
        // Nothing on the grid is lower, and the grid's own least is half a step off at most, where a minimum is flat.
        prop_assert!(of(&range).low <= least * (1.0 + 1e-9) && of(&range).low > least * (1.0 - 1e-4), "{} {least}", of(&range).low);
    }

    #[test]
    fn law_friction_takes_from_the_ceiling(screw in screw(), friction in friction(), more in 1e-3..0.3_f64) {
        let rough = Friction { thread: friction.thread + more, ..friction };
        let smooth = ceiling(&screw, Class::Steel8_8, friction).unwrap();
        let rough = ceiling(&screw, Class::Steel8_8, rough).unwrap();
        prop_assert!(rough.preload < smooth.preload);
    }

    #[test]
    fn law_star_names_every_screw_once(count in 1_usize..=200) {
        let mut order = star(count).unwrap();
        order.sort_unstable();
        prop_assert!(order.into_iter().eq(1..=count));
    }

    #[test]
    fn law_star_never_goes_to_a_neighbour(count in 5_usize..=200) {
        for pair in star(count).unwrap().windows(2) {
            let apart = pair[0].abs_diff(pair[1]);
            prop_assert!(apart != 1 && apart != count - 1, "{pair:?} of {count}");
        }
    }

    #[test]
    fn law_repeating_never_loses(count in 1_usize..=20, loss in 0.0..0.4_f64) {
        let loads = remaining(&star(count).unwrap(), &[1.0; 4], loss).unwrap();
        let least = |loads: &Vec<f64>| loads.iter().copied().fold(f64::INFINITY, f64::min);
        for pair in loads.windows(2) {
            prop_assert!(least(&pair[0]) <= least(&pair[1]) + 1e-12);
        }
        prop_assert!(loads.iter().flatten().all(|load| (0.0..=1.0).contains(load)));
    }

    #[test]
    fn law_any_text_is_a_thread_or_refused(text in "[mM]?[0-9.,x×eE+ -]{0,12}") {
        if let Ok(thread) = text.parse::<Thread>() {
            prop_assert!(Thread::all().any(|known| known == thread));
        }
    }
}
