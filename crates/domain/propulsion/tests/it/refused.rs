//! What is refused, and with which words.

use propulsion::Error;
use propulsion::calibrate::{Evidence, Plateau, Start, Steady, calibrate, nothing_learnt};
use propulsion::craft::{Conditions, Craft};
use propulsion::drag::Drag;
use propulsion::engine::{Breathing, Engine};
use propulsion::predict::{believed, draws};
use propulsion::pump::Blades;
use propulsion::run::run;
use propulsion::surge::{Launch, surge};
use propulsion::unknown::Unknown;

use crate::worked::{craft, rpm};

fn outside(error: &Error) -> &'static str {
    match error {
        Error::Outside { what, .. } => what,
        other => panic!("{other:?}"),
    }
}

/// What the craft is refused for after a change.
fn refused(change: impl Fn(&mut Craft)) -> &'static str {
    let mut craft = craft();
    change(&mut craft);
    outside(&craft.check().unwrap_err())
}

#[test]
fn practice_what_is_no_craft() {
    let tip = "trailing edge angle at the tip";
    assert_eq!(refused(|craft| craft.pump.blades.trailing = 0.2), tip);
    assert_eq!(refused(|craft| craft.nozzle = 0.15), "nozzle bore");
    assert_eq!(refused(|craft| craft.mass = 0.0), "mass");
    assert_eq!(refused(|craft| craft.mass = f64::NAN), "mass");
    assert_eq!(
        refused(|craft| craft.pump.gap = 0.003),
        "gap over blade height"
    );
    assert_eq!(
        refused(|craft| craft.pump.hub = 0.9),
        "hub over tip diameter"
    );
    let none = Drag::new(0.0, |_, speed| Ok(speed)).unwrap_err();
    assert_eq!(outside(&none), "mass");
}

#[test]
fn practice_what_is_no_engine() {
    let one = Engine::curve(&[[600.0, 150.0]], 600.0).unwrap_err();
    assert_eq!(outside(&one), "points of the torque curve");
    let back = [[600.0, 150.0], [500.0, 160.0], [700.0, 140.0]];
    let back = Engine::curve(&back, 700.0).unwrap_err();
    assert_eq!(outside(&back), "next speed of the torque curve");
    let beyond = [[400.0, 150.0], [500.0, 160.0], [700.0, 140.0]];
    let beyond = Engine::curve(&beyond, 800.0).unwrap_err();
    assert_eq!(outside(&beyond), "speed of the limiter");
    let low = Engine::rated(80e3, 730.0, 700.0, Breathing::Free).unwrap_err();
    assert_eq!(outside(&low), "speed of the limiter");
}

#[test]
fn practice_what_is_no_angle() {
    let beyond = Blades::at_tip(0.3, 0.09, 0.0775).unwrap_err();
    assert_eq!(outside(&beyond), "radius of the blade angle");
    let flat = Blades::at_tip(0.01, 0.07, 0.0775).unwrap_err();
    assert_eq!(outside(&flat), "blade angle");
    // At half the radius of the tip a helix is twice as steep, by its tangent.
    let tip = Blades::at_tip(f64::atan(0.5), 0.03875, 0.0775).unwrap();
    assert!((tip.tan() - 0.25).abs() < 1e-12);
}

#[test]
fn practice_what_teaches_nothing() {
    let day = Conditions::fresh();
    let learn = |evidence: &Evidence| calibrate(&craft(), &day, evidence).unwrap_err();
    assert!(matches!(
        learn(&Evidence::default()),
        Error::NoBalance { .. }
    ));
    let empty = Evidence {
        starts: vec![Start::default()],
        ..Evidence::default()
    };
    assert_eq!(outside(&learn(&empty)), "readings of a start");
    let fast = Evidence {
        plateaus: vec![Plateau {
            speed: Some([28.0, 0.2]),
            engine: Some([rpm(9500.0), 5.0]),
        }],
        ..Evidence::default()
    };
    assert_eq!(outside(&learn(&fast)), "engine speed at full throttle");
    let full = Evidence {
        plateaus: fast
            .plateaus
            .iter()
            .map(|_| Plateau {
                speed: Some([28.0, 0.2]),
                engine: None,
            })
            .collect(),
        steadies: vec![Steady {
            speed: 12.0,
            engine: rpm(8200.0),
        }],
        ..Evidence::default()
    };
    assert_eq!(outside(&learn(&full)), "engine speed at part throttle");
}

#[test]
fn practice_what_never_gets_going() {
    let day = Conditions::fresh();
    let mut heavy = craft();
    heavy.unknowns[Unknown::Hull] = 400.0;
    assert!(matches!(run(&heavy, &day), Err(Error::NoBalance { .. })));
    let long = surge(&craft(), &day, Launch::AT_ONCE, 500.0).unwrap_err();
    assert_eq!(outside(&long), "time of the run");
    assert_eq!(outside(&believed(&[1.0]).unwrap_err()), "draws");
}

/// Draws repeat to the last bit, and each is the same however many there are.
#[test]
fn law_draws_repeat() {
    let few = draws(&nothing_learnt(), 3);
    assert_eq!(few[..], draws(&nothing_learnt(), 9)[..3]);
    assert!(few.iter().all(|draw| draw.unknowns.sensible()));
    assert_ne!(few[0], few[1]);
}
