//! Jet, pump, whole craft, breakdown and launch against scipy.

use propulsion::breakdown::{GRAVITY, left, suction_energy, suction_speed};
use propulsion::craft::{Conditions, Craft, Ills};
use propulsion::drag::Drag;
use propulsion::engine::Engine;
use propulsion::jet::{Duct, Layer, best_ratio, bore_area, jet_efficiency};
use propulsion::matching::{Held, full_throttle, part_throttle};
use propulsion::pump::{Blades, Losses, Pump, deviation, pitch};
use propulsion::surge::{Launch, surge};
use propulsion::unknown::{Unknown, Unknowns};
use propulsion::water::Water;
use quantity::Unit;
use serde_json::Value;
use trial::conditions::{Intake, Weather, iso_factor, sae_factor};

use crate::record::{all, close, near, number};

pub(crate) fn jets(case: &Value) {
    let given = &case["given"];
    let of = |what: &str| number(&given[what]);
    let losses = [of("nozzle_loss"), of("intake_loss")];
    let wake = [of("momentum"), of("energy")];
    let found: Vec<f64> = all(&given["speed_ratios"])
        .into_iter()
        .map(|mu| jet_efficiency(mu, losses, wake).unwrap())
        .collect();
    near(case, "efficiencies", &found);
}

pub(crate) fn optima(case: &Value) {
    let given = &case["given"];
    let losses = [number(&given["nozzle_loss"]), number(&given["intake_loss"])];
    let mu = best_ratio(losses[0], losses[1]).unwrap();
    close(case, "speed_ratio", mu);
    let most = jet_efficiency(mu, losses, [1.0, 1.0]).unwrap();
    close(case, "efficiency", most);
}

pub(crate) fn wakes(case: &Value) {
    let given = &case["given"];
    let of = |what: &str| number(&given[what]);
    let (run, speed, viscosity) = (of("run_m"), of("speed_m_s"), of("viscosity_m2_s"));
    if let Ok(plate) = Layer::flat_plate(run, speed, viscosity) {
        close(case, "layer_m", plate.thickness);
    } else {
        // A run longer than the plate's formula is told for.
        assert!(run * speed / viscosity > 1e8);
    }
    let layer = Layer {
        thickness: number(&case["expect"]["layer_m"]),
        power: of("power"),
    };
    let flow = number(&case["expect"]["flow_m3_s"]) / of("capture_m");
    let [momentum, energy] = layer.taken_in(flow, speed);
    close(case, "momentum", momentum);
    close(case, "energy", energy);
}

fn rad_s(rpm: f64) -> f64 {
    rpm / Unit::Rpm.from_si(1.0)
}

/// The craft of the recipe; nothing breaks down unless it is said where.
fn craft(given: &Value) -> Craft {
    let of = |what: &str| number(&given[what]);
    let mut unknowns = Unknowns::expected();
    for (unknown, value) in [
        (Unknown::Air, 0.0),
        (Unknown::Hump, 0.0),
        (Unknown::Hull, 1.0),
        (Unknown::Throat, 0.0),
        (Unknown::Froth, 0.0),
        (Unknown::Incidence, of("incidence")),
        (Unknown::Stator, of("stator")),
        (Unknown::Friction, of("friction")),
        (Unknown::Intake, of("intake_loss")),
        (Unknown::Wake, of("wake")),
        (
            Unknown::Breakdown,
            given["suction_limit"].as_f64().unwrap_or(1e4),
        ),
    ] {
        unknowns[unknown] = value;
    }
    let hull = of("hull_n_s2_m2");
    let leading = of("leading_deg").to_radians();
    Craft {
        pump: Pump {
            diameter: of("diameter_m"),
            hub: of("hub_ratio"),
            blades: Blades {
                leading,
                trailing: of("trailing_deg").to_radians(),
                solidity: of("solidity"),
            },
            gap: 0.0003,
            gap_known: 0.0003,
            leading_known: leading,
            ratio: 1.0,
        },
        nozzle: of("nozzle_m"),
        engine: Engine::parabola(
            of("torque_nm"),
            rad_s(of("peak_rpm")),
            of("fall"),
            rad_s(of("limit_rpm")),
        )
        .unwrap(),
        drag: Drag::new(420.0, |_, speed| Ok(hull * speed * speed)).unwrap(),
        mass: 420.0,
        ills: Ills {
            head: 1.0 - of("head_factor"),
            efficiency: 1.0 - of("efficiency_factor"),
            ..Ills::NONE
        },
        unknowns,
    }
}

fn day(given: &Value) -> Conditions {
    let fresh = Conditions::fresh();
    Conditions {
        water: Water {
            density: number(&given["density_kg_m3"]),
            vapour_pressure: number(&given["vapour_pa"]),
            ..fresh.water
        },
        pressure: number(&given["air_pa"]),
        ..fresh
    }
}

/// `g NPSH` of the recipe's craft.
fn energy(given: &Value, speed: f64) -> f64 {
    let of = |what: &str| number(&given[what]);
    let over_boiling = (of("air_pa") - of("vapour_pa")) / of("density_kg_m3");
    let ram = (1.0 - of("intake_loss")) * ((1.0 - of("wake")) * speed).powi(2);
    suction_energy(over_boiling, ram, 0.0)
}

pub(crate) fn pumps(case: &Value) {
    let given = &case["given"];
    let (craft, day) = (craft(given), day(given));
    let speed = number(&given["speed_m_s"]);
    let shaft = rad_s(number(&given["shaft_rpm"]));
    let point = part_throttle(&craft, &day, speed, shaft).unwrap();
    let losses = Losses {
        incidence: number(&given["incidence"]),
        stator: number(&given["stator"]),
        friction: number(&given["friction"]),
        deviation: 0.0,
    };
    let head = craft.pump.head(&losses, shaft, point.flow);
    close(case, "flow_m3_s", point.flow);
    close(case, "head_j_kg", head);
    close(case, "power_w", point.power);
    close(case, "thrust_n", point.thrust);
    let efficiency = day.water.density * point.flow * head / point.power;
    close(case, "efficiency", efficiency);
    let suction = suction_speed(shaft, point.flow, energy(given, speed));
    close(case, "suction_speed", suction);
    let blades = &craft.pump.blades;
    close(case, "area_m2", craft.pump.area());
    close(case, "deviation_deg", deviation(blades).to_degrees());
    let diameter = craft.pump.diameter;
    close(case, "leading_pitch_m", pitch(diameter, blades.leading));
    let leaves = blades.trailing - deviation(blades);
    close(case, "trailing_pitch_m", pitch(diameter, leaves));
}

pub(crate) fn crafts(case: &Value) {
    let given = &case["given"];
    let (craft, day) = (craft(given), day(given));
    if number(&given["nozzle_loss"]).to_bits() != 0.02_f64.to_bits() {
        // A craft of ours has one loss of the nozzle for all, so its duct is held where theirs runs.
        return duct(case, &craft, &day);
    }
    // Where thrust and resistance meet, by halving.
    let (mut low, mut high) = (10.0, 44.0);
    while high - low > 1e-12 * high {
        let speed = f64::midpoint(low, high);
        let point = full_throttle(&craft, &day, speed).unwrap();
        if point.thrust > craft.resistance(&day, speed) {
            low = speed;
        } else {
            high = speed;
        }
    }
    let point = full_throttle(&craft, &day, low).unwrap();
    close(case, "speed_m_s", low);
    let shaft = rad_s(number(&case["expect"]["shaft_rpm"]));
    assert!((point.shaft / shaft - 1.0).abs() < 1e-7, "{}", case["name"]);
    close(case, "flow_m3_s", point.flow);
    close(case, "power_w", point.power);
    close(case, "thrust_n", point.thrust);
    let suction = suction_speed(point.shaft, point.flow, energy(given, low));
    close(case, "suction_speed", suction);
}

/// Head and thrust of a duct at the flow and speed that came out.
fn duct(case: &Value, craft: &Craft, day: &Conditions) {
    let (given, expect) = (&case["given"], &case["expect"]);
    let flow = number(&expect["flow_m3_s"]);
    let speed = number(&expect["speed_m_s"]);
    let duct = Duct {
        jet: bore_area(craft.nozzle),
        throat: craft.pump.area(),
        nozzle: number(&given["nozzle_loss"]),
        intake: number(&given["intake_loss"]),
        suction: 0.0,
        wake: number(&given["wake"]),
    };
    close(
        case,
        "thrust_n",
        duct.thrust(day.water.density, flow, speed),
    );
    let hydraulic = day.water.density * flow * duct.head(flow, speed);
    close(case, "efficiency", hydraulic / number(&expect["power_w"]));
}

pub(crate) fn weather(case: &Value) {
    let given = &case["given"];
    let dry = Weather {
        pressure: number(&given["dry_pa"]),
        temperature: number(&given["temperature_k"]),
        humidity: 0.0,
    };
    close(case, "j1349", sae_factor(&dry, Intake::Own).unwrap().factor);
    close(
        case,
        "iso1585",
        iso_factor(&dry, Intake::Own).unwrap().factor,
    );
}

pub(crate) fn suctions(case: &Value) {
    let given = &case["given"];
    let found: Vec<f64> = all(&given["speeds_m_s"])
        .into_iter()
        .map(|speed| energy(given, speed) / GRAVITY)
        .collect();
    near(case, "npsh_m", &found);
}

pub(crate) fn breakdowns(case: &Value) {
    let given = &case["given"];
    let (craft, day) = (craft(given), day(given));
    let speed = number(&given["speed_m_s"]);
    let point = full_throttle(&craft, &day, speed).unwrap();
    let shaft = number(&case["expect"]["shaft_rpm"]);
    close(case, "shaft_rpm", Unit::Rpm.from_si(point.shaft));
    assert_eq!(point.held == Held::Limiter, shaft > 7999.0);
    close(case, "thrust_n", point.thrust);
    close(case, "flow_m3_s", point.flow);
    close(case, "power_w", point.power);
    close(case, "breakdown", point.head_left);
    let limit = number(&given["suction_limit"]);
    close(case, "suction_speed", point.suction * limit);
    close(case, "breakdown", left(point.suction)[0]);
}

pub(crate) fn launches(case: &Value) {
    let given = &case["given"];
    let mut craft = craft(given);
    if given["suction_limit"].is_null() {
        // The recipe's engine without breakdown has no limiter either; it never comes near it.
        assert!(
            all(&case["expect"]["shaft_rpm"])
                .iter()
                .all(|n| *n < 7900.0)
        );
    } else {
        craft.pump.leading_known = craft.pump.blades.leading;
    }
    let day = day(given);
    let mass = number(&given["mass_kg"]);
    assert!(
        (craft.inertia() / mass - 1.0).abs() < 1e-12,
        "the mass sped up"
    );
    let moments = surge(&craft, &day, Launch::AT_ONCE, 10.0).unwrap();
    let found: Vec<_> = all(&given["times_s"])
        .into_iter()
        .map(|time| {
            moments
                .iter()
                .find(|moment| (moment.time - time).abs() < 1e-6)
                .unwrap()
        })
        .collect();
    let each = |pick: &dyn Fn(&propulsion::surge::Moment) -> f64| {
        found.iter().map(|moment| pick(moment)).collect::<Vec<_>>()
    };
    near(case, "speeds_m_s", &each(&|m| m.speed));
    near(case, "ways_m", &each(&|m| m.distance));
    let turns = each(&|m| Unit::Rpm.from_si(m.engine));
    near(case, "shaft_rpm", &turns);
    let first = full_throttle(&craft, &day, 0.0).unwrap();
    close(case, "first_thrust_n", first.thrust);
}
