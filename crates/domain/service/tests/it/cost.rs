use service::cost::{Bill, Cost, best, flat, rate, run_to_failure};
use service::life::Life;

use crate::{close, near};

/// `barlow-hunter-1960` worked in the documentation of the reliability package, early edition: 493.05, 0.0035;
/// more digits by scipy.optimize.brentq.
#[test]
fn published_optimal_replacement_time() {
    let life = Life::new(2.5, 1000.0).unwrap();
    let cost = Cost::new(1.0, 5.0).unwrap();
    let best = best(&life, &cost);
    near(best.at.unwrap(), 493.05, 0.005);
    near(best.rate, 0.0035, 5e-5);
    near(best.at.unwrap(), 493.046_96, 5e-6);
    near(best.rate, 0.003_462_043, 5e-10);
    near(run_to_failure(&life, &cost), 0.005_635_302, 5e-10);
}

/// By scipy.optimize.brentq: `T*/η`, `C* η / c_p` and the saving, for `c_f / c_p` over shapes.
#[test]
fn computed_optimum_over_shapes_and_costs() {
    let shapes = [1.5, 2.0, 2.5, 3.0, 4.0];
    let table = [
        (
            2.0,
            [
                (2.17464, 2.21200, 0.9984),
                (1.09080, 2.18159, 0.9667),
                (0.88360, 2.07647, 0.9212),
                (0.81034, 1.96996, 0.8796),
                (0.76611, 1.79862, 0.8151),
            ],
        ),
        (
            3.0,
            [
                (1.15708, 3.22703, 0.9711),
                (0.73791, 2.95166, 0.8719),
                (0.65686, 2.66180, 0.7872),
                (0.63655, 2.43116, 0.7237),
                (0.64159, 2.11287, 0.6384),
            ],
        ),
        (
            5.0,
            [
                (0.67549, 4.93130, 0.8903),
                (0.51066, 4.08524, 0.7241),
                (0.49305, 3.46204, 0.6143),
                (0.50261, 3.03140, 0.5414),
                (0.53840, 2.49712, 0.4527),
            ],
        ),
        (
            10.0,
            [
                (0.37814, 8.30162, 0.7494),
                (0.33645, 6.05612, 0.5367),
                (0.35457, 4.75055, 0.4215),
                (0.38246, 3.94935, 0.3527),
                (0.43910, 3.04779, 0.2763),
            ],
        ),
    ];
    for (ratio, row) in table {
        for (shape, (at, least, saving)) in shapes.into_iter().zip(row) {
            let life = Life::new(shape, 1.0).unwrap();
            let best = best(&life, &Cost::new(1.0, ratio).unwrap());
            near(best.at.unwrap(), at, 5.1e-6);
            near(best.rate, least, 5.1e-6);
            near(best.rate / best.to_failure, saving, 5.1e-5);
        }
    }
}

fn bill(part: f64, labour: f64, wage: f64) -> Cost {
    let bill = Bill {
        part,
        consumables: 8.0,
        labour,
        wage,
        failure: 150.0,
        fade: None,
    };
    bill.cost().unwrap()
}

/// By scipy.optimize.brentq; prices and lives made up for the check.
#[test]
fn computed_choice_of_two_rings() {
    let plastic = Life::new(2.2, 120.0).unwrap();
    let metal = Life::new(3.0, 400.0).unwrap();
    for (life, part, labour, wage, at, least, to_failure, survival) in [
        (plastic, 45.0, 2.0, 0.0, 70.306, 1.44780, 1.91014, 0.7346),
        (plastic, 45.0, 2.0, 20.0, 92.263, 2.00609, 2.28652, 0.5707),
        (plastic, 45.0, 2.0, 110.0, 162.099, 3.94505, 3.98024, 0.1440),
        (metal, 260.0, 2.5, 0.0, 399.691, 1.12326, 1.17024, 0.3687),
        (metal, 260.0, 2.5, 20.0, 425.990, 1.27594, 1.31022, 0.2988),
        (metal, 260.0, 2.5, 110.0, 524.177, 1.93192, 1.94013, 0.1054),
    ] {
        let best = best(&life, &bill(part, labour, wage));
        near(best.at.unwrap(), at, 5.1e-4);
        near(best.rate, least, 5.1e-6);
        near(best.to_failure, to_failure, 5.1e-6);
        near(best.survival, survival, 5.1e-5);
    }
}

/// By scipy.integrate.quad and scipy.optimize.brentq.
#[test]
fn computed_strikes_move_the_cost_and_hardly_the_age() {
    let life = Life::new(2.2, 120.0).unwrap();
    let life = life.struck(1.0 / 80.0, 0.15).unwrap();
    let best = best(&life, &bill(45.0, 2.0, 0.0));
    near(best.at.unwrap(), 71.795, 5.1e-4);
    near(best.rate, 1.765_908, 5.1e-7);
}

/// By scipy.optimize.brentq.
#[test]
fn computed_flat_region() {
    let life = Life::new(2.2, 120.0).unwrap();
    let cost = bill(45.0, 2.0, 0.0);
    let (low, high) = flat(&life, &cost, 0.05).unwrap();
    near(low, 51.389, 5.1e-4);
    near(high.unwrap(), 98.338, 5.1e-4);
    let (low, high) = flat(&life, &cost, 0.02).unwrap();
    near(low, 57.565, 5.1e-4);
    near(high.unwrap(), 86.581, 5.1e-4);
}

/// Chance failures are never replaced early, nor where a failure costs nothing on top.
#[test]
fn law_never_early_without_wear_or_without_a_penalty() {
    for (shape, failed) in [(1.0, 5.0), (0.8, 5.0), (3.0, 1.0)] {
        let life = Life::new(shape, 100.0).unwrap();
        let cost = Cost::new(1.0, failed).unwrap();
        let best = best(&life, &cost);
        assert_eq!(best.at, None);
        close(best.rate, run_to_failure(&life, &cost), 1e-15);
        assert_eq!(flat(&life, &cost, 0.05).unwrap().1, None);
    }
}

/// Where nothing fails within reach, a cost that grows with age is least at `sqrt(2 c_p / g)`: the square root law
/// of lots, `C = c_p / T + g T / 2`.
#[test]
fn law_fading_alone_gives_the_square_root() {
    let bill = Bill {
        part: 90.0,
        consumables: 0.0,
        labour: 0.0,
        wage: 0.0,
        failure: 0.0,
        fade: Some(service::cost::Fade {
            share: 0.1,
            after: 100.0,
            worth: 20.0,
        }),
    };
    let cost = bill.cost().unwrap();
    let life = Life::new(50.0, 1000.0).unwrap();
    let best = best(&life, &cost);
    let growth: f64 = 0.02;
    close(best.at.unwrap(), (2.0 * 90.0 / growth).sqrt(), 1e-9);
    close(best.rate, (2.0 * 90.0 * growth).sqrt(), 1e-12);
    close(
        rate(&life, &cost, 50.0).unwrap(),
        90.0 / 50.0 + growth * 25.0,
        1e-12,
    );
}
