//! What is refused, with the value and the limit.

use diagnosis::Error;
use diagnosis::fault::{FAULTS, Fault, PRIOR};
use diagnosis::signature::{Seen, Signature};
use diagnosis::weigh::{Evidence, Table, weigh, weights};

const GAP: (Fault, f64) = (Fault::Clearance, 0.6);

fn signature(of: (Fault, f64), effects: &[f64]) -> Signature {
    Signature::new(of, &[effects.to_vec()], &vec![1.0; effects.len()]).unwrap()
}

fn table() -> Table {
    Table {
        signatures: vec![
            signature((Fault::Nothing, 0.0), &[0.0, 0.0]),
            signature(GAP, &[1.0, 2.0]),
        ],
    }
}

fn read(changes: &[f64]) -> Evidence {
    let seen = changes.iter().map(|change| {
        Some(Seen {
            change: *change,
            uncertainty: 0.1,
        })
    });
    Evidence {
        seen: seen.collect(),
        ..Evidence::default()
    }
}

fn outside<T: std::fmt::Debug>(result: Result<T, Error>, name: &str) {
    match result {
        Err(Error::Outside { what, .. }) => assert_eq!(what, name),
        other => panic!("{name}: {other:?}"),
    }
}

#[test]
fn law_signatures_that_cannot_be_are_refused() {
    outside(
        Signature::new((Fault::Air, 1.1), &[vec![0.0]], &[1.0]),
        "severity",
    );
    outside(
        Signature::new((Fault::Air, -0.1), &[vec![0.0]], &[1.0]),
        "severity",
    );
    outside(Signature::new(GAP, &[], &[1.0]), "beliefs");
    for off in [-1.0, f64::NAN, f64::INFINITY] {
        outside(
            Signature::new(GAP, &[vec![0.0]], &[off]),
            "deviation of the model",
        );
    }
    for effect in [f64::NAN, f64::NEG_INFINITY] {
        outside(Signature::new(GAP, &[vec![effect]], &[1.0]), "effect");
    }
    let lengths = Signature::new(GAP, &[vec![0.0, 1.0], vec![0.0]], &[1.0, 1.0]);
    let error = Error::Lengths {
        what: "quantities of a belief",
        count: 1,
        wanted: 2,
    };
    assert_eq!(lengths, Err(error));
}

#[test]
fn law_readings_that_cannot_be_are_refused() {
    let error = Error::Lengths {
        what: "quantities seen",
        count: 1,
        wanted: 2,
    };
    assert_eq!(weigh(&PRIOR, &table(), &read(&[1.0])), Err(error));
    for change in [f64::NAN, f64::INFINITY] {
        outside(weigh(&PRIOR, &table(), &read(&[change, 0.0])), "change");
    }
    for uncertainty in [-0.1, f64::NAN] {
        let mut evidence = read(&[1.0, 1.0]);
        evidence.seen[1] = Some(Seen {
            change: 0.0,
            uncertainty,
        });
        outside(weigh(&PRIOR, &table(), &evidence), "uncertainty");
    }
}

#[test]
fn law_priors_that_cannot_be_are_refused() {
    for share in [-0.1, f64::NAN, f64::INFINITY] {
        let mut prior = PRIOR;
        prior[3] = share;
        outside(weigh(&prior, &table(), &read(&[1.0, 1.0])), "prior");
    }
    let none = weigh(&[0.0; FAULTS], &table(), &read(&[1.0, 1.0]));
    assert_eq!(none, Err(Error::Degenerate));
    // The only fault held possible has no signature: what was seen cannot have come about.
    let mut gate = [0.0; FAULTS];
    gate[Fault::Gate as usize] = 1.0;
    let alone = weigh(&gate, &table(), &read(&[1.0, 1.0]));
    assert_eq!(alone, Err(Error::Degenerate));
}

#[test]
fn law_no_spread_is_refused() {
    let exact = |of| Signature::new(of, &[vec![0.0]], &[0.0]).unwrap();
    let table = Table {
        signatures: vec![exact((Fault::Nothing, 0.0)), exact(GAP)],
    };
    let mut evidence = read(&[0.0]);
    evidence.seen[0] = Some(Seen {
        change: 0.0,
        uncertainty: 0.0,
    });
    assert_eq!(weigh(&PRIOR, &table, &evidence), Err(Error::Degenerate));
    let pair = (Fault::Clearance, Fault::Nothing);
    assert_eq!(weights(&table, &evidence, pair), Err(Error::Degenerate));
    // A measurement's own uncertainty is spread enough.
    assert!(weigh(&PRIOR, &table, &read(&[0.0])).is_ok());
}

#[test]
fn law_a_table_needs_nothing_wrong_once() {
    for (count, nothing) in [(0, 0), (2, 2)] {
        let mut signatures = vec![signature(GAP, &[1.0])];
        signatures.extend((0..nothing).map(|_| signature((Fault::Nothing, 0.0), &[0.0])));
        let error = Error::Lengths {
            what: "signatures of nothing wrong",
            count,
            wanted: 1,
        };
        let found = weigh(&PRIOR, &Table { signatures }, &read(&[1.0]));
        assert_eq!(found, Err(error));
    }
}

/// A fault that has no signature is not what was seen, and has no size.
#[test]
fn law_a_fault_without_signature_has_no_size() {
    let found = weigh(&PRIOR, &table(), &read(&[1.0, 1.0])).unwrap();
    for cause in found.causes {
        let known = cause.fault == Fault::Clearance;
        assert_eq!(cause.severity.is_some(), known, "{cause:?}");
        let possible = known || matches!(cause.fault, Fault::Nothing | Fault::Unlisted);
        assert_eq!(cause.chance > 0.0, possible, "{cause:?}");
    }
}

/// One listed fault cannot make a pair.
#[test]
fn law_no_pair_of_what_cannot_be() {
    let far = weigh(&PRIOR, &table(), &read(&[40.0, -40.0])).unwrap();
    assert!(far.fit < 0.01 && far.pairs.is_empty(), "{far:?}");
}
