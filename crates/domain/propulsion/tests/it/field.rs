//! Craft of the field: what is published of their acceleration.

use propulsion::Error;
use propulsion::breakdown::GRAVITY;
use propulsion::calibrate::{Evidence, Plateau, calibrate, nothing_learnt};
use propulsion::craft::{Conditions, Craft, Ills};
use propulsion::drag::Drag;
use propulsion::engine::{Breathing, Engine};
use propulsion::hull::{Hull, resistance};
use propulsion::predict::{believed, draws, seen_by};
use propulsion::pump::{Blades, Pump};
use propulsion::unknown::Unknowns;

use crate::worked::rpm;

/// A typical craft: power in kW, top speed in mph, mass with rider.
fn typical(kilowatts: f64, mass: f64, [leading, trailing, nozzle]: [f64; 3]) -> Craft {
    let hull = Hull::typical(2.7, 1.0, 22f64.to_radians()).unwrap();
    let water = Conditions::fresh().water;
    Craft {
        pump: Pump {
            diameter: 0.155,
            hub: 0.45,
            blades: Blades {
                leading: f64::to_radians(leading),
                trailing: f64::to_radians(trailing),
                solidity: 1.3,
            },
            gap: 0.0003,
            gap_known: 0.0003,
            leading_known: f64::to_radians(leading),
            ratio: 1.0,
        },
        nozzle,
        engine: Engine::rated(1e3 * kilowatts, rpm(7000.0), rpm(7300.0), Breathing::Free).unwrap(),
        drag: Drag::new(mass, |mass, speed| {
            Ok(resistance(&hull, mass, speed, &water)?.force)
        })
        .unwrap(),
        mass,
        ills: Ills::NONE,
        unknowns: Unknowns::expected(),
    }
}

/// Good, Paulo, Unger, Varga, Ellis, SAE 2005-01-1176: five craft, top speeds 43.4 to 55.3 mph, peak
/// accelerations averaged 0.31 to 0.55 g (by the abstract).
#[test]
fn published_acceleration_of_craft_learnt_at_the_top_only() {
    let day = Conditions::fresh();
    for (kilowatts, mass, shape, mph) in [
        (60.0, 400.0, [11.0, 15.0, 0.083], 43.4),
        (80.0, 400.0, [12.5, 17.0, 0.084], 49.0),
        (96.0, 410.0, [13.5, 18.5, 0.085], 52.0),
        (110.0, 440.0, [14.0, 20.0, 0.086], 55.3),
    ] {
        let craft = typical(kilowatts, mass, shape);
        let evidence = Evidence {
            plateaus: vec![Plateau {
                speed: Some([0.44704 * mph, 0.3]), // not a conversion: the speeds are published in mph
                engine: Some([rpm(6950.0), 5.0]),
            }],
            ..Evidence::default()
        };
        let fit = calibrate(&craft, &day, &evidence).unwrap();
        let peaks: Vec<f64> = draws(&fit, 400)
            .iter()
            .filter_map(|draw| seen_by((&craft, &day), &draw.unknowns, &[], &[]).ok())
            .map(|seen| seen.peak_acceleration / GRAVITY)
            .collect();
        let peak = believed(&peaks).unwrap();
        assert_eq!(fit.poor(), None);
        assert!(
            (0.31..=0.55).contains(&peak.middle),
            "{kilowatts} kW: {peak:?}"
        );
    }
}

/// Not every belief gets a craft over its hump, but in every one engine and pump find their balance.
#[test]
fn regress_no_belief_is_lost_to_the_search_for_its_balance() {
    let day = Conditions::fresh();
    let craft = typical(96.0, 410.0, [13.5, 18.5, 0.085]);
    let mut tops = 0;
    for draw in draws(&nothing_learnt(), 2000) {
        match seen_by((&craft, &day), &draw.unknowns, &[], &[]) {
            Ok(_) => tops += 1,
            Err(error) => assert!(
                matches!(
                    error,
                    Error::NoBalance {
                        what: "thrust and drag",
                        ..
                    }
                ),
                "{error:?}"
            ),
        }
    }
    assert!(tops > 800, "{tops}");
}
