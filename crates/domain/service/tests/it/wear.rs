use service::Error;
use service::wear::Growth;

use crate::{close, near};

/// By scipy.special.gammainc and scipy.optimize; hours and millimetres, made up.
#[test]
fn computed_time_to_a_limit() {
    let growth = Growth::new(0.04, 40.0).unwrap();
    for (time, stays) in [
        (100.0, 0.957_620),
        (150.0, 0.808_764),
        (200.0, 0.547_039),
        (250.0, 0.283_376),
        (300.0, 0.111_924),
    ] {
        near(growth.stays(0.20, time).unwrap(), stays, 5.1e-7);
    }
    near(growth.until(0.20, 0.5).unwrap(), 208.271, 5.1e-4);
    near(growth.until(0.20, 0.1).unwrap(), 125.124, 5.1e-4);
    near(growth.stays(0.08, 50.0).unwrap(), 0.828_799, 5.1e-7);
    near(growth.until(0.08, 0.1).unwrap(), 38.683, 5.1e-4);
}

/// By scipy.optimize; made up.
#[test]
fn computed_growth_that_was_seen() {
    let seen = [
        (25.0, 0.020),
        (25.0, 0.035),
        (30.0, 0.025),
        (20.0, 0.010),
        (40.0, 0.050),
    ];
    let growth = Growth::fit(&seen).unwrap();
    close(growth.shape, 0.336_247, 2e-6);
    close(growth.rate, 336.247, 2e-6);
    near(growth.log_likelihood(&seen).unwrap(), 16.903_26, 5.1e-6);
}

#[test]
fn law_growth_that_is_none_is_refused() {
    assert_eq!(Growth::fit(&[]), Err(Error::NoRecord));
    let shrunk = [(25.0, 0.02), (25.0, -0.01)];
    assert!(matches!(
        Growth::fit(&shrunk),
        Err(Error::NotPositive { .. })
    ));
    assert_eq!(
        Growth::fit(&[(25.0, 0.02), (50.0, 0.04)]),
        Err(Error::NoTop)
    );
    let growth = Growth::new(0.04, 40.0).unwrap();
    assert!(matches!(
        growth.stays(0.0, 1.0),
        Err(Error::NotPositive { .. })
    ));
    assert!(matches!(growth.until(0.2, 0.0), Err(Error::Outside { .. })));
}
