//! How often the weighing of causes is right on made-up days of a made-up craft, against many draws by numpy.
//!
//! Day by day a fault by its prior, a severity between 0.2 and 1 (effects in between by straight lines), and
//! noise as wide as the weighing takes it. Data from the model itself flatter: this tells that chances are what
//! they say where the model holds, no more.

use diagnosis::fault::{ByFault, Fault, SEVERITIES};
use diagnosis::score::{brier, reliability, surprise};
use diagnosis::signature::{Seen, Signature};
use diagnosis::weigh::{Evidence, Table, weigh};
use rand_pcg::Pcg64Mcg;
use rand_pcg::rand_core::{Rng, SeedableRng};
use serde_json::Value;

use crate::diagnosis_values::{by_fault, fault};
use crate::record::{all, number, recorded};

const DAYS: u32 = 4000;
/// The first number tried.
const SEED: u64 = 1;

/// Draws that are the same every time.
struct Dice(Pcg64Mcg);

impl Dice {
    fn uniform(&mut self) -> f64 {
        (f64::from(self.0.next_u32()) + 0.5) / (f64::from(u32::MAX) + 1.0)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }

    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.uniform().ln()).sqrt();
        radius * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

/// What is recorded of the craft.
struct Recorded {
    prior: ByFault,
    /// Effects by severity, 0.2 to 1 in steps of 0.1, of every fault that has some.
    effects: Vec<(Fault, Vec<Vec<f64>>)>,
    table: Table,
    /// Standard deviations by fault.
    off: Vec<(Fault, Vec<f64>)>,
}

fn craft(document: &Value) -> Recorded {
    let given = &document["posteriors"][0]["given"];
    let rows = given["table"].as_array().unwrap();
    let off = rows.iter().map(|row| {
        let name = row["fault"].as_str().unwrap();
        (fault(name), all(&row["off"]))
    });
    let off: Vec<(Fault, Vec<f64>)> = off.collect();
    let off_of = |fault: Fault| off.iter().find(|one| one.0 == fault).unwrap().1.clone();
    let nothing = vec![vec![0.0; 5]; 9];
    let mut effects = vec![(Fault::Nothing, nothing)];
    for case in &document["crafts"].as_array().unwrap()[1..] {
        assert_eq!(all(&case["given"]["severities"]).len(), 9);
        let rows = case["expect"]["seen"].as_array().unwrap();
        let name = case["name"].as_str().unwrap();
        effects.push((fault(name), rows.iter().map(all).collect()));
    }
    let mut signatures = Vec::new();
    for (fault, rows) in &effects {
        let sizes: &[f64] = if *fault == Fault::Nothing {
            &[0.0]
        } else {
            &SEVERITIES
        };
        for (size, row) in sizes.iter().zip(rows.iter().step_by(2)) {
            let one = Signature::new((*fault, *size), std::slice::from_ref(row), &off_of(*fault));
            signatures.push(one.unwrap());
        }
    }
    Recorded {
        prior: by_fault(&given["prior"]),
        effects,
        table: Table { signatures },
        off,
    }
}

impl Recorded {
    /// A fault, and what is seen of it.
    fn day(&self, dice: &mut Dice, noise: f64, factors: [f64; 2]) -> (Fault, Vec<Option<Seen>>) {
        let mut left = dice.uniform();
        let chosen = self.effects.iter().find(|(fault, _)| {
            left -= self.prior[*fault as usize];
            left < 0.0
        });
        let (fault, rows) = chosen.or(self.effects.last()).unwrap();
        let severity = dice.between(0.2, 1.0);
        // Which of the eight steps it lies in.
        let at = (1..8).filter(|at| severity >= 0.2 + 0.1 * f64::from(*at));
        let at = at.count();
        let low = 0.2 + 0.1 * f64::from(u32::try_from(at).unwrap());
        let part = (severity - low) / 0.1;
        let off = &self.off.iter().find(|one| one.0 == *fault).unwrap().1;
        let seen = (0..5).map(|quantity| {
            let effect = (1.0 - part) * rows[at][quantity] + part * rows[at + 1][quantity];
            let effect = effect * dice.between(factors[0], factors[1]);
            Some(Seen {
                change: effect + noise * off[quantity] * dice.normal(),
                uncertainty: 0.0,
            })
        });
        (*fault, seen.collect())
    }
}

/// Shares of days, and means over them.
#[derive(Debug)]
struct Figures {
    top_1: f64,
    top_3: f64,
    brier: f64,
    log: f64,
    calibration: f64,
}

fn ranked(craft: &Recorded, case: &Value) -> Figures {
    let mut dice = Dice(Pcg64Mcg::seed_from_u64(SEED));
    let noise = number(&case["given"]["noise"]);
    let factors = all(&case["given"]["factors"]);
    let [mut top_1, mut top_3, mut briers, mut logs] = [0.0; 4];
    let mut told = Vec::new();
    for _ in 0..DAYS {
        let (truth, seen) = craft.day(&mut dice, noise, [factors[0], factors[1]]);
        let evidence = Evidence {
            seen,
            ..Evidence::default()
        };
        let found = weigh(&craft.prior, &craft.table, &evidence).unwrap();
        let place = (found.causes.iter()).position(|cause| cause.fault == truth);
        let place = place.unwrap();
        top_1 += f64::from(u8::from(place == 0));
        top_3 += f64::from(u8::from(place < 3));
        briers += brier(&found.chances, truth as usize);
        logs += surprise(&found.chances, truth as usize);
        told.push((found.causes[0].chance, place == 0));
    }
    let days = f64::from(DAYS);
    Figures {
        top_1: top_1 / days,
        top_3: top_3 / days,
        brier: briers / days,
        log: logs / days,
        calibration: reliability(&told, 400).0,
    }
}

fn of(document: &Value, name: &str) -> Value {
    let cases = document["rankers"].as_array().unwrap();
    cases
        .iter()
        .find(|case| case["name"] == name)
        .unwrap()
        .clone()
}

/// Ours, held to 0.02 of shares and Brier and 0.04 nats of what numpy drew: two to three times the scatter of so many
/// days.
fn figures(name: &str) -> Figures {
    let document = recorded("diagnosis");
    let case = of(&document, name);
    let ours = ranked(&craft(&document), &case);
    let expect = &case["expect"];
    for (what, ours, within) in [
        ("top_1", ours.top_1, 0.02),
        ("top_3", ours.top_3, 0.02),
        ("brier", ours.brier, 0.02),
        ("log", ours.log, 0.04),
        ("calibration", ours.calibration, 0.02),
    ] {
        let off = (ours - number(&expect[what])).abs();
        assert!(off <= within, "{name}, {what}: {ours}");
    }
    ours
}

#[test]
fn computed_ranker_where_the_model_holds() {
    let found = figures("noise as assumed");
    assert!((found.top_1 - 0.72).abs() <= 0.02, "{found:?}");
    assert!((found.top_3 - 0.93).abs() <= 0.02, "{found:?}");
    assert!((found.log - 0.80).abs() <= 0.04, "{found:?}");
    assert!(found.calibration <= 0.05, "{found:?}");
}

/// Less sure than it could be, and right more often for that.
#[test]
fn computed_ranker_where_noise_is_half() {
    let found = figures("noise half of what is assumed");
    assert!(found.top_1 > 0.8 && found.calibration > 0.05, "{found:?}");
}

#[test]
fn computed_ranker_where_effects_are_wrong() {
    let (right, wrong) = (
        figures("noise as assumed"),
        figures("effects wrong by 0.6 to 1.5"),
    );
    assert!(wrong.top_1 >= right.top_1 - 0.05, "{wrong:?}");
    assert!(wrong.top_3 >= right.top_3 - 0.05, "{wrong:?}");
    assert!(wrong.brier <= right.brier + 0.05, "{wrong:?}");
    // The log score falls off by 0.054 nats in numpy's draws, which it is held to above; 0.9 is still well told.
    assert!(wrong.log <= 0.9, "{wrong:?}");
    assert!(wrong.calibration <= 0.05, "{wrong:?}");
}
