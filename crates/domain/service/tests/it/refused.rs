use service::Error;
use service::cost::{Bill, Cost, Fade, flat, rate};
use service::known::KnownShape;
use service::life::Life;
use service::posterior::{Posterior, Prior};
use service::records::Record::{Between, Failed, Good};
use service::records::{at_least, fit, log_likelihood};

use crate::posterior::PRIOR;

#[test]
fn law_lives_that_are_none() {
    assert!(matches!(Life::new(0.0, 100.0), Err(Error::Outside { .. })));
    assert!(matches!(
        Life::new(f64::NAN, 100.0),
        Err(Error::Outside { .. })
    ));
    assert!(matches!(
        Life::new(2.0, 0.0),
        Err(Error::NotPositive { .. })
    ));
    assert!(matches!(
        Life::new(2.0, f64::INFINITY),
        Err(Error::NotPositive { .. })
    ));
    let life = Life::new(2.0, 100.0).unwrap();
    assert!(matches!(
        life.struck(-0.1, 0.5),
        Err(Error::Negative { .. })
    ));
    assert!(matches!(life.struck(0.1, 1.5), Err(Error::Outside { .. })));
    assert!(matches!(life.survival(-1.0), Err(Error::Negative { .. })));
    assert!(matches!(
        life.through(10.0, f64::NAN),
        Err(Error::Negative { .. })
    ));
    assert!(matches!(life.hazard(0.0), Err(Error::NotPositive { .. })));
    assert!(matches!(life.quantile(1.0), Err(Error::Outside { .. })));
}

#[test]
fn law_bills_that_cannot_be() {
    let bill = Bill {
        part: 45.0,
        consumables: 8.0,
        labour: 2.0,
        wage: 0.0,
        failure: 150.0,
        fade: None,
    };
    assert!(bill.cost().is_ok());
    for (wrong, negative) in [
        (Bill { part: 0.0, ..bill }, false),
        (
            Bill {
                consumables: -8.0,
                ..bill
            },
            true,
        ),
        (
            Bill {
                labour: -2.0,
                ..bill
            },
            true,
        ),
        (
            Bill {
                wage: f64::NAN,
                ..bill
            },
            true,
        ),
        (
            Bill {
                failure: -1.0,
                ..bill
            },
            true,
        ),
    ] {
        match wrong.cost() {
            Err(Error::Negative { .. }) => assert!(negative),
            Err(Error::NotPositive { .. }) => assert!(!negative),
            other => panic!("{other:?}"),
        }
    }
    let fade = Some(Fade {
        share: 1.5,
        after: 100.0,
        worth: 20.0,
    });
    assert!(matches!(
        Bill { fade, ..bill }.cost(),
        Err(Error::Outside { .. })
    ));
    assert!(matches!(Cost::new(5.0, 4.0), Err(Error::Outside { .. })));
    let life = Life::new(2.0, 100.0).unwrap();
    let cost = bill.cost().unwrap();
    assert!(matches!(
        rate(&life, &cost, 0.0),
        Err(Error::NotPositive { .. })
    ));
    assert!(matches!(
        flat(&life, &cost, 0.0),
        Err(Error::NotPositive { .. })
    ));
}

#[test]
fn law_records_that_tell_nothing() {
    assert_eq!(fit(&[]), Err(Error::NoRecord));
    assert_eq!(fit(&[Good(60.0), Good(80.0)]), Err(Error::NoneFailed));
    assert_eq!(fit(&[Failed(60.0)]), Err(Error::NoTop));
    assert_eq!(fit(&[Failed(60.0), Good(20.0)]), Err(Error::NoTop));
    let common = [Between(20.0, 60.0), Between(40.0, 80.0)];
    assert_eq!(fit(&common), Err(Error::NoTop));
    for wrong in [
        Failed(0.0),
        Good(0.0),
        Between(0.0, 0.0),
        Failed(f64::INFINITY),
    ] {
        assert!(matches!(
            log_likelihood(&[wrong], 2.0, 100.0),
            Err(Error::NotPositive { .. })
        ));
        assert!(matches!(
            Posterior::new(&PRIOR, &[wrong]),
            Err(Error::NotPositive { .. })
        ));
    }
    assert!(matches!(
        fit(&[Between(-1.0, 5.0)]),
        Err(Error::Negative { .. })
    ));
    let backwards = Error::Backwards {
        good: 60.0,
        worn: 60.0,
    };
    assert_eq!(fit(&[Between(60.0, 60.0)]), Err(backwards));
    assert_eq!(at_least(&[], 2.0, 0.9), Err(Error::NoRecord));
}

#[test]
fn law_priors_that_are_none() {
    for wrong in [
        Prior {
            shape: 0.0,
            ..PRIOR
        },
        Prior {
            shape_spread: 0.0,
            ..PRIOR
        },
        Prior {
            scale: -1.0,
            ..PRIOR
        },
        Prior {
            scale_spread: 9.0,
            ..PRIOR
        },
    ] {
        assert!(Posterior::new(&wrong, &[Failed(50.0)]).is_err());
    }
    let guess = KnownShape::guess(2.2, 3.0, 120.0).unwrap();
    assert!(matches!(
        guess.with(Between(1.0, 2.0)),
        Err(Error::Outside { .. })
    ));
}
