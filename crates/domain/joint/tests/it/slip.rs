use joint::slip::{Comparison, Figure, Plausibility, Slip, Suspect, Which, compare, plausibility};
use joint::{Class, Condition};
use quantity::Unit;

use crate::{assert_near, hex};

/// A figure as printed, rounded to whole units.
fn whole(value: f64, unit: Unit) -> Figure {
    Figure {
        torque: value / unit.from_si(1.0),
        rounding: 0.5 / unit.from_si(1.0),
        unit,
    }
}

fn suspects(first: Figure, second: Figure) -> Vec<Suspect> {
    match compare(&first, &second).unwrap() {
        Comparison::Agree => Vec::new(),
        Comparison::Differ { suspects, .. } => suspects,
    }
}

const SECOND_IN_INCHES: Slip = Slip::Unit {
    meant: Unit::PoundForceInch,
    printed: Unit::PoundForceFoot,
};

#[test]
fn computed_scipy_converted_figures_agree() {
    // scipy 1.17.1 constants, N m as lbf ft and lbf in, then rounded as a manual would.
    for (newton_metres, feet, inches) in [
        (10.0, 7.376, 88.51),
        (21.0, 15.489, 185.87),
        (26.0, 19.177, 230.12),
        (40.0, 29.502, 354.03),
        (105.0, 77.444, 929.33),
    ] {
        let first = whole(newton_metres, Unit::NewtonMetre);
        for (value, unit) in [(feet, Unit::PoundForceFoot), (inches, Unit::PoundForceInch)] {
            let second = whole(f64::round(value), unit);
            assert_eq!(compare(&first, &second).unwrap(), Comparison::Agree);
            assert_eq!(compare(&second, &first).unwrap(), Comparison::Agree);
        }
    }
}

#[test]
fn computed_scipy_factors_of_slips() {
    // scipy 1.17.1 constants: 1.3558179483314004, 0.1129848290276167, 9.80665, 12.
    let factor = |meant, printed| Slip::Unit { meant, printed }.factor();
    let feet = 1.355_817_948_331_400_4;
    let inches = 0.112_984_829_027_616_7;
    for (meant, printed, expected) in [
        (Unit::NewtonMetre, Unit::PoundForceFoot, feet),
        (Unit::PoundForceFoot, Unit::NewtonMetre, 1.0 / feet),
        (Unit::NewtonMetre, Unit::PoundForceInch, inches),
        (Unit::PoundForceInch, Unit::NewtonMetre, 1.0 / inches),
        (Unit::NewtonMetre, Unit::KilogramForceMetre, 9.806_65),
        (Unit::PoundForceInch, Unit::PoundForceFoot, 12.0),
        (
            Unit::KilogramForceCentimetre,
            Unit::KilogramForceMetre,
            100.0,
        ),
    ] {
        // Two roundings of each unit: a few units in the last place.
        assert_near(factor(meant, printed) / expected, 1.0, 1e-14);
    }
}

#[test]
fn law_each_slip_is_told_by_its_name() {
    let metres = whole(26.0, Unit::NewtonMetre);
    for (second, slip) in [
        // 26 N m is 19 lbf ft, 230 lbf in, 2.65 kgf m.
        (
            whole(26.0, Unit::PoundForceFoot),
            Slip::Unit {
                meant: Unit::NewtonMetre,
                printed: Unit::PoundForceFoot,
            },
        ),
        (whole(230.0, Unit::PoundForceFoot), SECOND_IN_INCHES),
        (
            whole(19.0, Unit::PoundForceInch),
            Slip::Unit {
                meant: Unit::PoundForceFoot,
                printed: Unit::PoundForceInch,
            },
        ),
        (whole(192.0, Unit::PoundForceFoot), Slip::TenTimesTooLarge),
        (whole(23.0, Unit::PoundForceInch), Slip::TenTimesTooSmall),
    ] {
        let found = suspects(metres, second);
        let told = found
            .iter()
            .find(|suspect| suspect.figure == Which::Second && suspect.slip == slip);
        // The nearest whole number of the printed unit is within its rounding of 26 N m.
        assert_near(told.unwrap().torque, 26.0, 0.04 * 26.0);
    }
}

#[test]
fn law_the_nearest_suspect_stands_first() {
    // 26 kgf m beside 26 N m: the unit explains it exactly, ten times would leave 2 %.
    let found = suspects(
        whole(26.0, Unit::NewtonMetre),
        whole(26.0, Unit::KilogramForceMetre),
    );
    let second: Vec<Slip> = found
        .iter()
        .filter(|suspect| suspect.figure == Which::Second)
        .map(|suspect| suspect.slip)
        .collect();
    let unit = Slip::Unit {
        meant: Unit::NewtonMetre,
        printed: Unit::KilogramForceMetre,
    };
    assert_eq!(second, [unit, Slip::TenTimesTooLarge]);
}

#[test]
fn law_rounding_slips_with_its_figure() {
    // 88 lbf ft, had it been lbf in, is 9.94 N m to 0.06 and not to 0.68: 9.6 N m is too far off.
    let first = Figure {
        torque: 9.6,
        rounding: 0.0,
        unit: Unit::NewtonMetre,
    };
    let found = suspects(first, whole(88.0, Unit::PoundForceFoot));
    assert!(
        found.iter().all(|suspect| suspect.slip != SECOND_IN_INCHES),
        "{found:?}"
    );
}

#[test]
fn law_a_disagreement_without_a_name_has_no_suspect() {
    let (first, second) = (
        whole(100.0, Unit::NewtonMetre),
        whole(130.0, Unit::PoundForceFoot),
    );
    let compared = compare(&first, &second).unwrap();
    let Comparison::Differ { ratio, suspects } = compared else {
        panic!("{compared:?}");
    };
    assert_near(ratio, 1.3 * 1.355_818, 1e-6);
    assert_eq!(suspects, []);
}

#[test]
fn law_rounding_and_two_per_cent_are_forgiven() {
    let fine = |torque| Figure {
        torque,
        rounding: 0.0,
        unit: Unit::NewtonMetre,
    };
    assert_eq!(
        compare(&fine(100.0), &fine(98.1)).unwrap(),
        Comparison::Agree
    );
    assert_ne!(
        compare(&fine(100.0), &fine(97.9)).unwrap(),
        Comparison::Agree
    );
    let coarse = Figure {
        rounding: 5.0,
        ..fine(100.0)
    };
    assert_eq!(compare(&coarse, &fine(95.1)).unwrap(), Comparison::Agree);
    assert_ne!(compare(&coarse, &fine(94.0)).unwrap(), Comparison::Agree);
}

#[test]
fn practice_a_single_figure_against_the_ceiling() {
    let screw = hex("M6");
    let friction = Condition::Dry.friction();
    let judge = |value, unit| {
        plausibility(&whole(value, unit), &screw, Class::Stainless70, &friction).unwrap()
    };
    // M6 A2-70 bears 9.95 N m at 0.20, and more the rougher it is.
    assert_eq!(judge(9.0, Unit::NewtonMetre), Plausibility::Within);
    let rough = judge(11.0, Unit::NewtonMetre);
    let Plausibility::OnlyIfRough { limit } = rough else {
        panic!("{rough:?}");
    };
    assert_near(limit, 9.95, 5.1e-3);
    // 88 beside N m was meant in lbf in: 9.94 N m.
    let above = judge(88.0, Unit::NewtonMetre);
    let Plausibility::Above { limit, slips } = above else {
        panic!("{above:?}");
    };
    assert!(limit > 11.0 && limit < 14.0, "{limit}");
    let inches = Slip::Unit {
        meant: Unit::PoundForceInch,
        printed: Unit::NewtonMetre,
    };
    let told = slips.iter().find(|(slip, _)| *slip == inches).unwrap();
    assert_near(told.1, 9.94, 5.1e-3);
    assert!(slips.iter().all(|(_, torque)| *torque <= limit));
    // A tenth of 14 N m would be nothing worth tightening.
    let Plausibility::Above { slips, .. } = judge(14.0, Unit::NewtonMetre) else {
        panic!("14 N m is above the ceiling");
    };
    assert_eq!(slips, []);
}
