use service::life::Life;

use crate::{close, near};

/// Lives made up for the check; hours.
fn plastic() -> Life {
    Life::new(2.2, 120.0).unwrap()
}

fn metal() -> Life {
    Life::new(3.0, 400.0).unwrap()
}

/// By scipy.special and scipy.integrate.
#[test]
fn computed_chances_new_and_run() {
    near(plastic().survival(50.0).unwrap(), 0.86440, 5e-6);
    near(plastic().through(60.0, 50.0).unwrap(), 0.54436, 5e-6);
    near(metal().survival(50.0).unwrap(), 0.99805, 5e-6);
    near(metal().through(200.0, 50.0).unwrap(), 0.88768, 5e-6);
    let (rate, chance) = (1.0 / 80.0, 0.15);
    let struck = plastic().struck(rate, chance).unwrap();
    near(struck.survival(50.0).unwrap(), 0.78704, 5e-6);
    let metal = metal().struck(rate, chance).unwrap();
    near(metal.survival(50.0).unwrap(), 0.90873, 5e-6);
}

/// By scipy.integrate.quad.
#[test]
fn computed_ends_of_struck_parts() {
    let struck = plastic().struck(1.0 / 80.0, 0.15).unwrap();
    for (age, good, by_strike, worn) in [
        (50.0, 0.787_041, 0.085_679, 0.127_281),
        (100.0, 0.424_400, 0.142_662, 0.432_938),
        (200.0, 0.031_696, 0.175_503, 0.792_801),
    ] {
        let ends = struck.ends(age).unwrap();
        near(ends.good, good, 6e-7);
        near(ends.struck, by_strike, 6e-7);
        near(ends.worn, worn, 6e-7);
    }
}

/// At shape two the mean is `η sqrt(pi) / 2`, and a quantile undoes survival.
#[test]
fn law_mean_and_quantile_without_strikes() {
    let life = Life::new(2.0, 100.0).unwrap();
    close(life.mean(), 50.0 * std::f64::consts::PI.sqrt(), 1e-13);
    let tenth = life.quantile(0.1).unwrap();
    close(tenth, 100.0 * (-(0.9_f64).ln()).sqrt(), 1e-13);
    close(life.survival(tenth).unwrap(), 0.9, 1e-13);
}
