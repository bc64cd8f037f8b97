//! What other craft show: shares, units, and the signs the trade knows.

use diagnosis::fault::{FAULTS, Fault, PRIOR};
use diagnosis::others::{Known, others};
use diagnosis::signature::{Observable, Seen, Signature, days};
use diagnosis::weigh::{Evidence, Table, weigh};

use crate::near;

const FIVE: [Observable; 5] = [
    Observable::TopSpeed,
    Observable::TopEngine,
    Observable::Start(13.4112),
    Observable::LaunchEngine,
    Observable::Passing(13.4112),
];

fn sizes(times: f64) -> Vec<(Observable, f64)> {
    let sizes = [25.0, 800.0, 0.9, 780.0, 790.0].map(|size| times * size);
    FIVE.into_iter().zip(sizes).collect()
}

/// Laws of a fault.
const LAWS: usize = 12;

fn none(_: Fault, _: f64) -> f64 {
    0.0
}

/// What all craft show, of whatever sort.
fn all(quantities: &[(Observable, f64)]) -> Vec<Signature> {
    others(quantities, &Known::default(), none).unwrap()
}

/// The same of craft that need so long to 30 and 50 mph, the engine off the line at that share of its speed at the top
/// and the limiter at that.
fn of_sort([thirty, fifty, launch, limiter]: [f64; 4]) -> Result<Vec<Signature>, diagnosis::Error> {
    let well = [
        (Observable::TopEngine, 800.0),
        (Observable::Start(13.4112), thirty.ln()),
        (Observable::Start(22.352), fifty.ln()),
        (Observable::LaunchEngine, 800.0 * launch),
    ];
    let known = Known {
        well: &well,
        limiter: Some(800.0 * limiter),
    };
    others(&sizes(1.0), &known, none)
}

/// Mean change of a quantity over all laws of a fault.
fn mean(all: &[Signature], fault: Fault, quantity: usize) -> f64 {
    let own = all.iter().filter(|one| one.fault == fault);
    own.map(|one| one.share * one.effect(quantity)).sum()
}

#[test]
fn law_every_fault_is_known_and_its_shares_add_up() {
    let all = all(&sizes(1.0));
    for fault in Fault::ALL.into_iter().filter(|fault| fault.has_severity()) {
        let own: Vec<&Signature> = all.iter().filter(|one| one.fault == fault).collect();
        assert_eq!(own.len(), LAWS, "{fault:?}");
        // As many digits as the file has.
        near(own.iter().map(|one| one.share).sum(), 1.0, 5e-4);
        assert!(own.iter().all(|one| (0.2..=1.0).contains(&one.severity)));
    }
    assert_eq!(all.len(), LAWS * (FAULTS - 2));
}

/// Which way a quantity goes with a fault, as the trade has it. Common practice, no source.
#[test]
fn practice_quantities_go_as_the_trade_knows() {
    let [speed, engine, time, launch, passing] = [0, 1, 2, 3, 4];
    let (up, down) = (1.0, -1.0);
    let known = [
        (Fault::Clearance, speed, down),
        (Fault::Clearance, engine, up),
        (Fault::Clearance, time, up),
        (Fault::Air, time, up),
        (Fault::Air, launch, up),
        (Fault::Grate, speed, down),
        (Fault::Grate, time, up),
        (Fault::Blade, speed, down),
        (Fault::Blade, time, up),
        (Fault::NozzleWide, engine, up),
        (Fault::NozzleNarrow, engine, down),
        (Fault::Engine, speed, down),
        (Fault::Engine, engine, down),
        (Fault::Engine, launch, down),
        (Fault::Engine, passing, down),
        (Fault::Limp, engine, down),
        (Fault::Dirty, speed, down),
        (Fault::Heavy, speed, down),
        (Fault::Heavy, time, up),
        (Fault::Slip, speed, down),
        (Fault::Slip, engine, up),
        (Fault::Slip, passing, up),
        (Fault::Ring, speed, down),
        (Fault::Gate, speed, down),
    ];
    let all = all(&sizes(1.0));
    for (fault, quantity, way) in known {
        assert!(
            way * mean(&all, fault, quantity) > 0.0,
            "{fault:?} {quantity}"
        );
    }
    // Dirt and weight leave the engine off the line alone: within ten turns a minute.
    for fault in [Fault::Dirty, Fault::Heavy] {
        near(mean(&all, fault, launch), 0.0, 1.0);
    }
}

#[test]
fn law_a_craft_twice_as_fast_changes_twice_as_much() {
    let (one, two) = (all(&sizes(1.0)), all(&sizes(2.0)));
    for (one, two) in one.iter().zip(&two) {
        for (at, of) in FIVE.into_iter().enumerate() {
            // Times are told by their logarithm.
            let times = if matches!(of, Observable::Start(_)) {
                1.0
            } else {
                2.0
            };
            near(two.effect(at), times * one.effect(at), 1e-9);
        }
    }
}

#[test]
fn law_a_quantity_between_two_goes_between_them() {
    let between = [
        (Observable::Start(13.4112), 0.9),
        (Observable::Start(18.0), 0.9),
        (Observable::Start(22.352), 0.9),
        (Observable::Passing(8.9408), 780.0),
        (Observable::Passing(11.0), 780.0),
        (Observable::Passing(13.4112), 780.0),
        (Observable::Passing(3.0), 780.0),
        (Observable::LaunchEngine, 780.0),
    ];
    for one in all(&between) {
        for [low, at, high] in [[0, 1, 2], [3, 4, 5]] {
            let [low, at, high] = [low, at, high].map(|at| one.effect(at));
            assert!((low.min(high)..=low.max(high)).contains(&at), "{one:?}");
        }
        near(one.effect(6), one.effect(7), 1e-9);
    }
}

#[test]
fn law_the_gap_goes_with_the_size() {
    let quantities = [(Observable::Gap, 0.3e-3)];
    let opens = |fault: Fault, severity: f64| match fault {
        Fault::Clearance => 0.5e-3 * severity,
        _ => 0.0,
    };
    for one in others(&quantities, &Known::default(), opens).unwrap() {
        near(one.effect(0), opens(one.fault, one.severity), 1e-15);
    }
}

#[test]
fn law_a_signature_split_in_two_says_the_same() {
    let nothing = Signature::new((Fault::Nothing, 0.0), &[vec![0.0; 5]], &[1.0; 5]).unwrap();
    let blur = days(&sizes(1.0), &[0.0; 5]);
    let all: Vec<Signature> = all(&sizes(1.0))
        .into_iter()
        .map(|one| one.blurred(&blur).unwrap())
        .collect();
    let with = |more: Vec<Signature>| Table {
        signatures: std::iter::once(nothing.clone()).chain(more).collect(),
    };
    let halves = all.iter().flat_map(|one| {
        let mut half = one.clone();
        half.share *= 0.5;
        [half.clone(), half]
    });
    let seen = [-0.6, 8.0, 0.05, 6.0, 5.0].map(|change| {
        Some(Seen {
            change,
            uncertainty: 0.1,
        })
    });
    let evidence = Evidence {
        seen: seen.into(),
        ..Evidence::default()
    };
    let whole = weigh(&PRIOR, &with(all.clone()), &evidence).unwrap();
    let split = weigh(&PRIOR, &with(halves.collect()), &evidence).unwrap();
    for (one, other) in whole.chances.iter().zip(split.chances) {
        near(*one, other, 1e-12);
    }
}

/// A stronger engine turns faster and is faster: what two days differ by goes together so.
#[test]
fn law_what_two_days_differ_by_goes_together() {
    let more = days(&sizes(1.0), &[0.0, 3.0, 0.0, 0.0, 0.0]);
    assert!((&more - more.transpose()).amax() < 1e-15);
    assert!(more[(0, 1)] > 0.0 && more[(0, 2)] < 0.0);
    assert!(more.clone().symmetric_eigenvalues().min() > -1e-12);
    let less = days(&sizes(1.0), &[0.0; 5]);
    near(more[(1, 1)] - less[(1, 1)], 9.0, 1e-9);
}

/// The sort of craft moves what a fault shows, but not where none of those looked at was like it.
#[test]
fn law_what_a_craft_of_no_known_sort_shows_is_what_all_show() {
    let all = all(&sizes(1.0));
    let faster = Known {
        well: &sizes(1.0)[..1],
        limiter: Some(840.0),
    };
    assert_eq!(others(&sizes(1.0), &faster, none).unwrap(), all);
    // A tug, and a reading gone wrong.
    for unlike in [[20.0, 90.0, 1.0, 1.05], [3.0, 6.0, 0.4, 1.05]] {
        assert_eq!(of_sort(unlike).unwrap(), all);
    }
    let known = of_sort([3.0, 6.0, 0.99, 1.05]).unwrap();
    assert_ne!(known, all);
    for fault in Fault::ALL.into_iter().filter(|fault| fault.has_severity()) {
        let own = known.iter().filter(|one| one.fault == fault);
        near(own.map(|one| one.share).sum(), 1.0, 1e-12);
    }
    assert!(of_sort([f64::NAN, 6.0, 0.99, 1.05]).is_err());
}

/// An engine that its limiter holds when all is well turns hardly faster when it slips. Common practice, no source.
#[test]
fn practice_the_limiter_hides_what_slips() {
    let [held, free] = [1.005, 1.06].map(|limiter| {
        let known = of_sort([3.0, 6.0, 1.0, limiter]).unwrap();
        mean(&known, Fault::Slip, 1)
    });
    assert!(held < 0.5 * free, "{held} {free}");
}
