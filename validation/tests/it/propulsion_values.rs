//! Water and hulls against iapws, gsw, openplaning and scipy.

use propulsion::hull::planing::{
    Air, Balance, Bottom, DryChines, Flaps, Line, Method, Planing, Roughness, State, Wetted,
    planing as run,
};
use propulsion::hull::preplaning::{Form, preplaning as before};
use propulsion::water::{Water, water};
use serde_json::Value;

use crate::jet_values;
use crate::record::{Parts, assert_close, close, compare, compare_live, number, recorded};

const PARTS: Parts<'_> = &[
    ("fresh", fresh),
    ("salt", salt),
    ("planing", planing),
    ("paper", paper),
    ("preplaning", preplaning),
    ("jets", jet_values::jets),
    ("optima", jet_values::optima),
    ("wakes", jet_values::wakes),
    ("pumps", jet_values::pumps),
    ("crafts", jet_values::crafts),
    ("suctions", jet_values::suctions),
    ("breakdowns", jet_values::breakdowns),
    ("weather", jet_values::weather),
    ("launches", jet_values::launches),
];
const CASES: usize = 174;

/// Standard gravity, as in the recipe.
const GRAVITY: f64 = 9.806_65;

#[test]
fn computed_propulsion_recorded() {
    compare(&recorded("propulsion"), PARTS, CASES);
}

#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn computed_propulsion_live() {
    // One recipe on two machines: searches that stop within 1e-9 of their unknown.
    compare_live("propulsion", PARTS, CASES, 1e-6);
}

fn fresh(case: &Value) {
    let ours = water(number(&case["given"]["temperature_k"]), 0.0).unwrap();
    close(case, "density_kg_m3", ours.density);
    close(case, "viscosity_m2_s", ours.viscosity);
    close(case, "vapour_pressure_pa", ours.vapour_pressure);
}

fn salt(case: &Value) {
    let given = &case["given"];
    let salinity = number(&given["salinity"]);
    let ours = water(number(&given["temperature_k"]), salinity).unwrap();
    close(case, "vapour_pressure_pa", ours.vapour_pressure);
    // The density is held closer than the case asks.
    let theirs = number(&case["expect"]["density_kg_m3"]);
    assert_close(ours.density, theirs, 1e-4, "density of salt water");
}

/// A number of what was given, or what it is when it is not.
fn or(given: &Value, what: &str, absent: f64) -> f64 {
    given[what].as_f64().unwrap_or(absent)
}

fn state(given: &Value) -> State {
    State {
        mass: number(&given["weight"]) / GRAVITY,
        speed: number(&given["speed"]),
        water: Water {
            density: number(&given["rho"]),
            viscosity: number(&given["nu"]),
            vapour_pressure: 0.0,
        },
    }
}

/// A hull in the words of the other library.
fn hull(given: &Value) -> Bottom {
    let of = |what: &str| number(&given[what]);
    let height = of("ahr");
    Bottom {
        beam: of("beam"),
        deadrise: of("beta").to_radians(),
        lcg: of("lcg"),
        vcg: of("vcg"),
        thrust_height: of("vT"),
        thrust_forward: of("lT"),
        thrust_angle: of("epsilon").to_radians(),
        roughness: match given["roughness_penalty_type"].as_u64() {
            Some(2) => Roughness::Townsin1984(height),
            _ => Roughness::Mosaad1986(height),
        },
    }
}

/// The reading of the method the other library has.
fn theirs(given: &Value) -> Method {
    let air = given["b_air"].as_f64().map(|width| Air {
        forward: number(&given["l_air"]),
        height: number(&given["h_air"]),
        width: width * number(&given["C_shape"]),
        drag: number(&given["C_D"]),
        density: number(&given["rho_air"]),
    });
    let flaps = given["Lf"].as_f64().map(|chord| Flaps {
        chord,
        span: number(&given["sigma"]),
        angle: number(&given["delta"]).to_radians(),
    });
    let wetted = match given["wetted_lengths_type"].as_u64() {
        Some(1) => Wetted::Faltinsen2005,
        Some(2) => Wetted::Savitsky1964,
        _ => Wetted::Savitsky1976,
    };
    Method {
        wetted,
        balance: Balance::Whole { air, flaps },
        ..Method::WHOLE
    }
}

fn planing(case: &Value) {
    let given = &case["given"];
    let ours = run(&hull(given), &state(given), &theirs(given)).unwrap();
    close(case, "trim_deg", ours.trim.to_degrees());
    close(case, "length_ratio", ours.length_ratio);
    close(case, "keel_m", ours.keel);
    close(case, "chine_m", ours.chine);
    close(case, "area_m2", ours.area);
    close(case, "friction_coefficient", ours.friction_coefficient);
    close(case, "pressure_drag_n", ours.pressure_drag);
    close(case, "friction_drag_n", ours.friction_drag);
    close(case, "air_drag_n", ours.air_drag);
    close(case, "resistance_n", ours.resistance);
}

fn paper(case: &Value) {
    let given = &case["given"];
    let angle = number(&given["epsilon"]).to_radians();
    let (lcg, vcg) = (number(&given["lcg"]), number(&given["vcg"]));
    let bottom = Bottom {
        beam: number(&given["beam"]),
        deadrise: number(&given["beta"]).to_radians(),
        lcg,
        vcg,
        // Below the centre of gravity across the thrust.
        thrust_height: vcg - number(&given["below"]) / angle.cos(),
        thrust_forward: lcg,
        thrust_angle: angle,
        roughness: Roughness::Allowance(or(given, "allowance", 0.0)),
    };
    let kind = if given["general"].as_bool().unwrap() {
        Method::GENERAL
    } else {
        Method::SIMPLE
    };
    let line = match given["line"].as_str().unwrap() {
        "ittc" => Line::Ittc1957,
        _ => Line::Schoenherr,
    };
    let method = Method { line, ..kind };
    assert_eq!(method.dry, DryChines::AsWet);
    let ours: Planing = run(&bottom, &state(given), &method).unwrap();
    close(case, "trim_deg", ours.trim.to_degrees());
    close(case, "length_ratio", ours.length_ratio);
    close(case, "friction_coefficient", ours.friction_coefficient);
    close(case, "resistance_n", ours.resistance);
}

fn preplaning(case: &Value) {
    let given = &case["given"];
    let of = |what: &str| number(&given[what]);
    let form = Form {
        length: of("length_m"),
        beam: of("beam_m"),
        entrance: of("entrance_deg").to_radians(),
        transom: of("transom"),
        beam_draft: of("beam_draft"),
        roughness: Roughness::Allowance(0.0),
    };
    let state = State {
        mass: of("mass_kg"),
        speed: of("speed_m_s"),
        water: Water {
            density: of("density_kg_m3"),
            viscosity: of("viscosity_m2_s"),
            vapour_pressure: 0.0,
        },
    };
    let ours = before(&form, &state).unwrap();
    close(case, "reference", ours.reference);
    close(case, "ratio", ours.ratio);
    close(case, "resistance_n", ours.resistance);
}
