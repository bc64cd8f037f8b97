//! The jobs of one pump.

use workshop::entry::JobId;
use workshop::kin::{Kin, kin};

fn id(name: &str) -> JobId {
    JobId::new(name).unwrap()
}

/// Jobs with the one each follows, written `b<a`.
fn jobs(said: &str) -> Vec<(JobId, Option<JobId>)> {
    let job = |said: &str| match said.split_once('<') {
        Some((job, before)) => (id(job), Some(id(before))),
        None => (id(said), None),
    };
    said.split(' ').map(job).collect()
}

fn told(job: &str, bench: &str) -> (String, String) {
    let Kin { earlier, later } = kin(&id(job), &jobs(bench));
    let words = |all: Vec<JobId>| {
        let all: Vec<String> = all.iter().map(ToString::to_string).collect();
        all.join(" ")
    };
    (words(earlier), words(later))
}

#[test]
fn law_earlier_and_later_the_nearest_first() {
    let bench = "d<c b<a other a c<b";
    assert_eq!(told("b", bench), ("a".into(), "c d".into()));
    assert_eq!(told("a", bench), (String::new(), "b c d".into()));
    assert_eq!(told("d", bench), ("c b a".into(), String::new()));
    assert_eq!(told("other", bench), (String::new(), String::new()));
}

#[test]
fn law_a_job_that_is_not_here_ends_the_walk() {
    assert_eq!(told("c", "c<b"), ("b".into(), String::new()));
    assert_eq!(told("nowhere", "c<b"), (String::new(), String::new()));
    // Two jobs of the same earlier one that is gone.
    assert_eq!(told("gone", "c<gone b<gone"), (String::new(), "c b".into()));
}

#[test]
fn law_a_pump_rebuilt_from_one_job_twice_has_two_later_ones() {
    let bench = "a b<a c<a d<b e<c";
    assert_eq!(told("a", bench), (String::new(), "b c d e".into()));
    // Cousins are no jobs before or after this one.
    assert_eq!(told("d", bench), ("b a".into(), String::new()));
}

#[test]
fn law_a_ring_is_walked_once() {
    assert_eq!(told("a", "a<c b<a c<b"), ("c b".into(), String::new()));
    assert_eq!(told("a", "a<a"), (String::new(), String::new()));
}
