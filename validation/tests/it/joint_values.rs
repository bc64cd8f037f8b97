//! Screwed joints against scipy.

use joint::pattern::{remaining, ring};
use joint::slip::Slip;
use joint::strip::{Hole, Limits, needed};
use joint::tool::Adapter;
use joint::turn::clamped_stiffness;
use joint::{
    Applied, Class, Friction, FrictionRange, Head, Interval, Screw, Thread, ceiling, torque,
    utilisation,
};
use quantity::Unit;
use serde_json::Value;

use crate::record::{Parts, all, assert_close, compare, compare_live, number, recorded};

const PARTS: Parts<'_> = &[
    ("torques", torques),
    ("ceilings", ceilings),
    ("utilisations", utilisations),
    ("cones", cones),
    ("units", units),
    ("shears", shears),
    ("adapters", adapters),
    ("circles", circles),
];
const CASES: usize = 26;

#[test]
fn computed_scipy_recorded() {
    compare(&recorded("joint"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_scipy_live() {
    // One recipe on two machines: its searches stop within 1e-9 of their unknown.
    compare_live("joint", PARTS, CASES, 1e-9);
}

/// The screw a case names, with its prevailing torque.
fn screw(case: &Value, prevailing: f64) -> Screw {
    let thread = case["name"].as_str().unwrap().parse().unwrap();
    Screw {
        prevailing,
        ..Screw::new(thread, Head::Hex).unwrap()
    }
}

fn frictions(given: &Value) -> impl Iterator<Item = Friction> {
    let pairs = all(&given["thread"]).into_iter().zip(all(&given["head"]));
    pairs.map(|(thread, head)| Friction { thread, head })
}

fn close(case: &Value, ours: f64, theirs: f64) {
    let name = case["name"].as_str().unwrap();
    assert_close(ours, theirs, number(&case["within"]["relative"]), name);
}

fn torques(case: &Value) {
    let preload = number(&case["given"]["preload_n"]);
    let theirs = all(&case["expect"]["torque_nm"]);
    assert_eq!(theirs.len(), 4);
    for (friction, theirs) in frictions(&case["given"]).zip(theirs) {
        let ours = torque(&screw(case, 0.0), preload, friction).unwrap();
        close(case, ours, theirs);
    }
}

fn ceilings(case: &Value) {
    let preloads = all(&case["expect"]["preload_n"]);
    let torques = all(&case["expect"]["torque_nm"]);
    let prevailing = all(&case["given"]["prevailing_nm"]);
    assert_eq!(preloads.len(), 3);
    for (i, friction) in frictions(&case["given"]).enumerate() {
        let ours = ceiling(&screw(case, prevailing[i]), Class::Stainless70, friction).unwrap();
        close(case, ours.preload, preloads[i]);
        close(case, ours.torque, torques[i]);
    }
}

fn utilisations(case: &Value) {
    let given = &case["given"];
    let interval = |key: &str| {
        let ends = all(&given[key]);
        Interval {
            low: ends[0],
            high: ends[1],
        }
    };
    let friction = FrictionRange {
        thread: interval("thread"),
        head: interval("head"),
    };
    let applied = Applied {
        torque: number(&given["torque_nm"]),
        error: number(&given["error"]),
    };
    let screw = screw(case, number(&given["prevailing_nm"]));
    let ours = utilisation(&screw, Class::Stainless70, applied, &friction).unwrap();
    close(case, ours.low, number(&case["expect"]["least"]));
    close(case, ours.high, number(&case["expect"]["most"]));
}

fn cones(case: &Value) {
    let bearing = screw(case, 0.0).bearing;
    let thicknesses = all(&case["given"]["thickness_m"]);
    let moduli = all(&case["given"]["modulus_pa"]);
    let theirs = all(&case["expect"]["stiffness_n_per_m"]);
    assert_eq!(theirs.len(), 4);
    for (i, theirs) in theirs.into_iter().enumerate() {
        let ours = clamped_stiffness(&bearing, thicknesses[i], moduli[i]).unwrap();
        close(case, ours, theirs);
    }
}

fn units(case: &Value) {
    let ours = [
        (Unit::NewtonMetre, Unit::PoundForceFoot),
        (Unit::PoundForceInch, Unit::PoundForceFoot),
        (Unit::NewtonMetre, Unit::KilogramForceMetre),
        (Unit::PoundForceInch, Unit::NewtonMetre),
    ];
    let theirs = all(&case["expect"]["factor"]);
    assert_eq!(theirs.len(), ours.len());
    for ((meant, printed), theirs) in ours.into_iter().zip(theirs) {
        close(case, Slip::Unit { meant, printed }.factor(), theirs);
    }
}

fn shears(case: &Value) {
    let thread: Thread = case["name"].as_str().unwrap().parse().unwrap();
    let engagement = number(&case["given"]["engagement_m"]);
    let limits = Limits::of(&thread).unwrap();
    let hole = limits.hole_area(thread.pitch, engagement).unwrap();
    let screw = limits.screw_area(thread.pitch, engagement).unwrap();
    close(case, hole, number(&case["expect"]["hole_m2"]));
    close(case, screw, number(&case["expect"]["screw_m2"]));
    let shear = all(&case["given"]["shear_pa"]);
    let hole = Hole::Tapped(Interval {
        low: shear[0],
        high: shear[1],
    });
    let classes = [Class::Stainless50, Class::Stainless70, Class::Stainless80];
    let (least, most) = (&case["expect"]["least_m"], &case["expect"]["most_m"]);
    for (class, (least, most)) in classes
        .into_iter()
        .zip(all(least).into_iter().zip(all(most)))
    {
        let ours = needed(&thread, class, hole).unwrap();
        close(case, ours.low, least);
        close(case, ours.high, most);
    }
}

fn adapters(case: &Value) {
    let given = |key: &str| all(&case["given"][key]);
    let (lever, offset) = (given("lever_m"), given("offset_m"));
    let (degrees, torque) = (given("degrees"), given("torque_nm"));
    let theirs = all(&case["expect"]["setting_nm"]);
    assert_eq!(theirs.len(), 4);
    for (i, theirs) in theirs.into_iter().enumerate() {
        let adapter = Adapter {
            lever: lever[i],
            offset: offset[i],
            angle: degrees[i].to_radians(),
        };
        close(case, adapter.setting(torque[i]).unwrap(), theirs);
    }
}

fn circles(case: &Value) {
    let given = &case["given"];
    let order = ring(usize::try_from(given["count"].as_u64().unwrap()).unwrap()).unwrap();
    let ours = remaining(&order, &all(&given["passes"]), number(&given["loss"])).unwrap();
    let theirs = case["expect"]["preloads"].as_array().unwrap();
    assert_eq!(ours.len(), theirs.len());
    for (ours, theirs) in ours.iter().flatten().zip(theirs.iter().flat_map(all)) {
        close(case, *ours, theirs);
    }
}
