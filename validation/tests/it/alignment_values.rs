//! Alignment against shafts in space and against numpy.

use clearance::Estimated;
use clearance::align::coupling::{Carrier, rim_and_face};
use clearance::align::limits::inside;
use clearance::align::mounts::{Mount, moves, rest};
use clearance::align::stacks::stacks;
use clearance::align::sweep::{Instrument, Sweep, Swept, Turn, swept};
use serde_json::Value;

use crate::record::{Parts, all, close, compare, compare_live, near, number, recorded};

const PARTS: Parts<'_> = &[
    ("dials", dials),
    ("turns", turns),
    ("planes", planes),
    ("shares", shares),
    ("limits", limits),
];
const CASES: usize = 13;
/// An instrument whose reading has a standard uncertainty of one.
const UNIT: Instrument = Instrument {
    step: 3.464_101_615_137_754_4,
    repeat: 0.0,
};

#[test]
fn computed_geometry_recorded() {
    compare(&recorded("alignment"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_geometry_live() {
    // One recipe on two machines: its searches stop within 1e-9 of their unknown.
    compare_live("alignment", PARTS, CASES, 1e-6);
}

fn sweep(readings: &Value) -> Sweep {
    let [top, starboard, bottom, port] = all(readings).try_into().unwrap();
    Sweep {
        top,
        starboard,
        bottom,
        port,
    }
}

fn read(readings: &Value) -> Swept {
    let turn = Turn {
        turned: 0.0,
        sweep: sweep(readings),
    };
    swept(&[turn], UNIT).unwrap()
}

fn mounts(given: &Value) -> Vec<Mount> {
    let rows = given["mounts_m"].as_array().unwrap();
    let mount = |row| match all(row)[..] {
        [forward, port] => Mount { forward, port },
        _ => panic!("a mount has two places"),
    };
    rows.iter().map(mount).collect()
}

fn dials(case: &Value) {
    let given = &case["given"];
    let across = number(&given["across_m"]);
    let (rim, face) = (read(&given["rim_m"]), read(&given["face_m"]));
    let axis = rim_and_face(&rim, &face, across, Carrier::Pump).unwrap();
    near(
        case,
        "offset_m",
        &[axis.up.offset.value, axis.port.offset.value],
    );
    near(
        case,
        "slope_rad",
        &[axis.up.slope.value, axis.port.slope.value],
    );
    let told = moves(&axis, &mounts(given)).unwrap();
    let up: Vec<f64> = told.iter().map(|m| m.up.value).collect();
    let port: Vec<f64> = told.iter().map(|m| m.port.value).collect();
    near(case, "up_m", &up);
    near(case, "port_m", &port);
}

fn turns(case: &Value) {
    let given = &case["given"];
    let places = all(&given["turned_rad"]);
    let readings = given["reading_m"].as_array().unwrap();
    let turn = |(turned, readings): (&f64, &Value)| Turn {
        turned: *turned,
        sweep: sweep(readings),
    };
    let turns: Vec<Turn> = places.iter().zip(readings).map(turn).collect();
    let found = swept(&turns, UNIT).unwrap();
    let runout = found.runout.unwrap();
    close(case, "up_m", found.up.value);
    close(case, "port_m", found.port.value);
    close(case, "runout_m", runout.total.value);
    close(case, "runout_rad", runout.angle);
    close(case, "spread", found.up.uncertainty);
}

fn planes(case: &Value) {
    let given = &case["given"];
    let left = rest(&mounts(given), &all(&given["high_m"])).unwrap();
    close(case, "offset_m", left.offset);
    close(case, "slope_rad", left.slope);
}

fn shares(case: &Value) {
    let given = &case["given"];
    let found = stacks(&all(&given["wanted_m"]), &all(&given["shims_m"])).unwrap();
    let thick: Vec<f64> = found.iter().map(|stack| stack.thickness).collect();
    near(case, "thickness_m", &thick);
}

fn limits(case: &Value) {
    let given = &case["given"];
    let (off, u) = (all(&given["off_m"]), all(&given["uncertainty_m"]));
    let of = |plane: usize| Estimated {
        value: off[plane],
        uncertainty: u[plane],
    };
    let found = inside(of(0), of(1), number(&given["limit_m"])).unwrap();
    close(case, "probability", found);
}
