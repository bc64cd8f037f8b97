//! When nobody knows how long the work takes.

use assembly::{
    Away, Chance, Network, Plan, Progress, Resource, Resources, Rule, Situation, Step, mean,
    variance,
};

use crate::schedule::demands;
use crate::{after, finished_within, plan};

/// The draws are whole seconds; an hour for each unit of a book's weeks leaves them fine enough.
const WEEK: i64 = 3600;

/// Fourteen activities of Hillier and Lieberman's reliable construction, in half weeks: least, likely,
/// most, and what comes before. The data are from memory; what follows from them by `NumPy` 2.4.
fn reliable() -> Plan {
    let rows: [(i64, i64, i64, &str); 14] = [
        (2, 4, 6, ""),
        (4, 7, 16, "A"),
        (12, 18, 36, "B"),
        (8, 11, 20, "C"),
        (2, 9, 10, "C"),
        (8, 8, 20, "E"),
        (10, 13, 22, "D"),
        (10, 16, 34, "EG"),
        (6, 15, 18, "C"),
        (6, 18, 18, "FI"),
        (8, 8, 8, "J"),
        (2, 11, 14, "J"),
        (2, 4, 6, "H"),
        (10, 11, 18, "KL"),
    ];
    let half = WEEK / 2;
    let step = |&(least, likely, most, _): &(i64, i64, i64, &str)| Step {
        least: half * least,
        likely: half * likely,
        most: half * most,
    };
    let rules = rows.iter().enumerate().flat_map(|(then, (.., before))| {
        let firsts = before.bytes().map(|name| usize::from(name - b'A'));
        firsts.map(move |first| after(first, then, 0))
    });
    Plan::new(rows.iter().map(step).collect(), rules.collect()).unwrap()
}

fn tries(plan: &Plan, resources: &Resources, tries: u32) -> Chance {
    let situation = Situation::fresh(plan);
    let network = Network::new(plan, &situation).unwrap();
    let schedule = network.schedule(resources).unwrap();
    network.tries(resources, &schedule, (tries, 1))
}

fn close(ours: f64, theirs: f64, within: f64) {
    assert!((ours - theirs).abs() <= within, "{ours} against {theirs}");
}

#[test]
fn computed_reliable_construction_by_its_critical_path() {
    let plan = reliable();
    let situation = Situation::fresh(&plan);
    let pert = Network::new(&plan, &situation).unwrap().pert().unwrap();
    let week = 3600.0;
    close(pert.mean / week, 44.0, 1e-12);
    close(pert.variance / week / week, 9.0, 1e-12);
    // A, B, C, E, F, J, L, N.
    assert_eq!(pert.path, [0, 1, 2, 4, 5, 9, 11, 13]);
    close(pert.by(47 * WEEK), 0.8413, 5e-5);
}

/// 400 000 draws of the beta law by `NumPy` gave a mean of 44.33 and 0.816 by week 47, known to 0.001.
#[test]
fn computed_reliable_construction_has_more_paths_than_one() {
    let plan = reliable();
    let found = tries(&plan, &Resources::none(&plan), 40_000);
    assert_eq!(found.missed, 0);
    // The standard deviation is 3 weeks, that of a mean of so many 0.015.
    close(found.mean() / 3600.0, 44.33, 0.05);
    // A share of 0.816 of so many is known to 0.002.
    close(found.by(47 * WEEK), 0.816, 0.007);
}

/// Three paths that don't know of one another: the product of what each would be alone.
#[test]
fn published_three_paths_are_over_when_the_last_is() {
    let alone = |mean: f64, variance: f64| assembly::Pert {
        mean,
        variance,
        path: Vec::new(),
    };
    let paths = [(20.5, 1.249), (21.5, 1.805), (19.5, 0.528)];
    let shares = paths.map(|(mean, variance)| alone(mean, variance).by(24));
    for (ours, theirs) in shares.iter().zip([0.9991, 0.9686, 1.0]) {
        close(*ours, theirs, 5e-5);
    }
    // Printed as the product of the rounded shares.
    close(shares.iter().product(), 0.9677, 1e-4);
}

#[test]
fn law_one_step_is_its_own_beta_law() {
    for (least, likely, most) in [(0, 10, 100), (0, 50, 100), (20, 100, 100), (0, 0, 60)] {
        let step = Step {
            least: least * 1000,
            likely: likely * 1000,
            most: most * 1000,
        };
        let plan = Plan::new(vec![step], Vec::new()).unwrap();
        let found = tries(&plan, &Resources::none(&plan), 40_000);
        // The standard deviation is at most 21 thousand, that of the mean of so many 105.
        close(found.mean(), mean(step), 420.0);
        let first = found.finishes[0];
        let last = found.finishes[found.finishes.len() - 1];
        assert!(step.least <= first && last <= step.most);
        // Nearly all lies within three of the classical deviations, which is the sixth of the span.
        let wide = 3.0 * variance(step).sqrt();
        let far = found.finishes.iter().filter(|&&f| {
            let off = f64::from(i32::try_from(f).unwrap()) - found.mean();
            off.abs() > wide
        });
        assert!(far.count() < 40_000 / 50);
    }
}

#[test]
fn law_sure_durations_are_always_over_at_the_same_time() {
    let plan = plan(&[10, 20, 30], &[after(0, 1, 5)]);
    let hands = Resources::new(&plan, vec![Resource::of(1)], &demands(0, 0..3)).unwrap();
    let found = tries(&plan, &hands, 10);
    assert_eq!(found.finishes, [60; 10]);
    assert_eq!((found.by(59), found.by(60)), (0.0, 1.0));
    assert_eq!((found.time(0.5), found.time(1.0)), (Some(60), Some(60)));
}

/// One pair of hands does one after the other, and goes home in between.
#[test]
fn law_hands_are_passed_on_and_go_home() {
    let step = Step {
        least: 10,
        likely: 20,
        most: 30,
    };
    let plan = Plan::new(vec![step; 2], Vec::new()).unwrap();
    let shift = Resource {
        capacity: 1,
        away: vec![Away {
            from: 45,
            until: 1000,
            units: 1,
        }],
    };
    let hands = Resources::new(&plan, vec![shift], &demands(0, 0..2)).unwrap();
    let found = tries(&plan, &hands, 1000);
    // Over before the shift is, or on the next day.
    assert!(
        found
            .finishes
            .iter()
            .all(|f| (20..=45).contains(f) || (1010..=1030).contains(f))
    );
    let evening = found.by(45);
    assert!(0.6 < evening && evening < 0.95, "{evening}");
}

#[test]
fn law_a_missed_window_is_no_finish() {
    let close = Step {
        least: 5,
        likely: 8,
        most: 20,
    };
    let rules: Vec<Rule> = vec![after(0, 1, 0), finished_within(0, 1, 10)];
    let plan = Plan::new(vec![Step::lasting(5), close], rules).unwrap();
    let found = tries(&plan, &Resources::none(&plan), 1000);
    assert!(found.missed > 100 && found.finishes.len() > 100);
    assert!(found.finishes.iter().all(|finish| *finish <= 15));
    assert!(found.by(1000) <= found.by(15));
    assert_eq!(found.time(1.0), None);
}

#[test]
fn law_what_runs_takes_what_it_has_taken() {
    let step = Step {
        least: 10,
        likely: 20,
        most: 30,
    };
    let plan = Plan::new(vec![step], Vec::new()).unwrap();
    let situation = Situation {
        now: 25,
        progress: vec![Progress::Running { began: 0 }],
        ..Situation::fresh(&plan)
    };
    let network = Network::new(&plan, &situation).unwrap();
    let none = Resources::none(&plan);
    let schedule = network.schedule(&none).unwrap();
    let found = network.tries(&none, &schedule, (200, 5));
    assert!(
        found
            .finishes
            .iter()
            .all(|finish| (25..=30).contains(finish))
    );
}

#[test]
fn law_more_tries_begin_with_the_fewer() {
    let plan = reliable();
    let none = Resources::none(&plan);
    let (few, many) = (tries(&plan, &none, 50), tries(&plan, &none, 60));
    let mut rest = many.finishes;
    for finish in few.finishes {
        let place = rest.iter().position(|other| *other == finish).unwrap();
        rest.remove(place);
    }
    assert_eq!(rest.len(), 10);
}
