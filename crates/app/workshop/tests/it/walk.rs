//! Which leaf comes next, and where.

use clearance::Answer;
use workshop::entry::Body;
use workshop::job::{Spot, Walk};
use workshop::walk::{Progress, progress};

use crate::journal::{Journal, limits, spot, thou, tried};

/// The spot and the leaf asked for.
fn next(journal: &Journal) -> (Spot, String) {
    let question = progress(&journal.job()).next.unwrap();
    (question.spot, question.leaf.text)
}

fn asked(blade: u8, position: u8, leaf: &str) -> (Spot, String) {
    (spot(blade, position), leaf.into())
}

/// Answers whatever is asked as a gap of so many thou would, until nothing is asked.
fn measure(journal: &mut Journal, gap: impl Fn(Spot) -> f64) -> Vec<(Spot, f64)> {
    let mut tried = Vec::new();
    while let Some(question) = progress(&journal.job()).next {
        let leaf = question.leaf.value / 25.4e-6;
        let answer = if leaf < gap(question.spot) {
            Answer::Goes
        } else {
            Answer::WontGo
        };
        tried.push((question.spot, leaf));
        journal.record(Body::LeavesTried {
            spot: question.spot,
            tries: vec![workshop::job::Tried {
                leaf: question.leaf,
                answer,
            }],
            afresh: false,
        });
        assert!(tried.len() <= 12 * 6, "no leaf is asked twice at a spot");
    }
    tried
}

#[test]
fn law_nothing_is_asked_before_pump_and_leaves_are_described() {
    assert_eq!(progress(&Journal::default().job()), Progress::default());
}

#[test]
fn law_the_first_leaf_is_the_one_nearest_to_the_limit() {
    let mut journal = Journal::described();
    assert_eq!(next(&journal), asked(0, 0, "13"), "the middle of the set");
    journal.record(Body::LimitsStated(limits()));
    assert_eq!(next(&journal), asked(0, 0, "10"));
    journal.record(Body::LimitsStated(workshop::job::Limits {
        least: Some(thou("28")),
        greatest: None,
        measure: workshop::job::Measure::Diametral,
        ..limits()
    }));
    assert_eq!(next(&journal), asked(0, 0, "14"), "half of a diametral 28");
}

#[test]
fn law_one_leaf_goes_round_all_spots_before_the_next_is_taken() {
    let mut journal = Journal::described();
    let tried = measure(&mut journal, |_| 14.5);
    assert_eq!(tried.len(), 36, "13, 14 and 15 at twelve spots");
    let changes = tried
        .windows(2)
        .filter(|pair| (pair[0].1 - pair[1].1).abs() > 0.5);
    assert_eq!(changes.count(), 2, "each leaf is taken in hand once");
    let round: Vec<Spot> = tried[..12].iter().map(|(spot, _)| *spot).collect();
    assert_eq!(round, journal.job().spots());
    let done = progress(&journal.job());
    assert_eq!((done.done, done.all, done.next), (12, 12, None));
}

#[test]
fn law_every_gap_in_the_set_ends_bracketed_by_neighbours() {
    let mut journal = Journal::described();
    let gap = |spot: Spot| 10.5 + f64::from((spot.blade * 4 + spot.position) % 5);
    measure(&mut journal, gap);
    let job = journal.job();
    for spot in job.spots() {
        let bracket = clearance::bracket(&job.tries_at(spot)).unwrap();
        let (goes, wont) = (bracket.goes.unwrap(), bracket.wont.unwrap());
        assert!(goes < gap(spot) * 25.4e-6 && gap(spot) * 25.4e-6 < wont);
        // Neighbouring leaves are one thou apart; half of another allows for rounding.
        assert!(wont - goes < 1.5 * 25.4e-6, "{spot:?}");
    }
}

#[test]
fn law_a_gap_beyond_the_set_ends_at_its_last_leaf() {
    for (gap, goes, wont) in [(20.0, Some("15"), None), (5.0, None, Some("10"))] {
        let mut journal = Journal::described();
        measure(&mut journal, |_| gap);
        let bracket = clearance::bracket(&journal.job().tries_at(spot(2, 3))).unwrap();
        assert_eq!(bracket.goes, goes.map(|leaf| thou(leaf).value));
        assert_eq!(bracket.wont, wont.map(|leaf| thou(leaf).value));
    }
}

#[test]
fn law_two_leaves_ask_two_leaves_only() {
    let mut journal = Journal::described();
    journal.record(Body::WalkChosen(Walk::TwoLeaves {
        go: thou("12"),
        no_go: thou("16"),
    }));
    let mut tight = journal.clone();
    assert_eq!(measure(&mut journal, |_| 13.0).len(), 24);
    // Where the one that must go won't, the other need not be tried.
    assert_eq!(measure(&mut tight, |_| 11.0).len(), 12);
}

/// Blade B is short and the ring is swollen at 9: the round finds the place, the blades the blade.
#[test]
fn law_the_round_goes_first_then_every_blade_at_the_tightest() {
    let mut journal = Journal::described();
    journal.record(Body::WalkChosen(Walk::RoundFirst));
    let gap = |spot: Spot| {
        let swollen = if spot.position == 3 { 2.0 } else { 0.0 };
        13.5 + f64::from(u8::from(spot.blade == 1)) - swollen
    };
    let tried = measure(&mut journal, gap);
    let first = |of: &dyn Fn(Spot) -> bool| tried.iter().position(|(spot, _)| of(*spot)).unwrap();
    let last = |of: &dyn Fn(Spot) -> bool| tried.iter().rposition(|(spot, _)| of(*spot)).unwrap();
    let round = |spot: Spot| spot.blade == 0;
    let at_tightest = |spot: Spot| spot.blade > 0 && spot.position == 3;
    let rest = |spot: Spot| spot.blade > 0 && spot.position != 3;
    assert!(last(&round) < first(&at_tightest));
    assert!(last(&at_tightest) < first(&rest));
    let done = progress(&journal.job());
    assert_eq!(
        (done.done, done.all, done.next),
        (12, 12, None),
        "all of it in the end"
    );
}

#[test]
fn law_a_leaf_that_drags_closes_its_spot() {
    let mut journal = Journal::described();
    journal.record(tried(0, 0, &[("13", Answer::Drags)]));
    assert_eq!(progress(&journal.job()).done, 1);
    assert_eq!(next(&journal), asked(0, 1, "13"));
    journal.record(tried(0, 0, &[("13", Answer::GoesFree)]));
    assert_eq!(progress(&journal.job()).done, 0, "the latest answer counts");
}

#[test]
fn law_a_contradiction_is_asked_again_first() {
    let mut journal = Journal::described();
    journal.record(tried(0, 0, &[("12", Answer::WontGo)]));
    journal.record(tried(1, 2, &[("14", Answer::Goes), ("13", Answer::WontGo)]));
    journal.record(tried(2, 0, &[("13", Answer::Goes)]));
    let question = progress(&journal.job()).next.unwrap();
    assert_eq!((question.spot, question.again), (spot(1, 2), true));
    assert_eq!(question.leaf.text, "14", "the bolder claim");
    journal.record(tried(1, 2, &[("14", Answer::WontGo)]));
    assert!(!progress(&journal.job()).next.unwrap().again);
}

#[test]
fn law_the_walk_goes_on_behind_the_last_spot() {
    let mut journal = Journal::described();
    journal.record(tried(1, 2, &[("13", Answer::Goes)]));
    assert_eq!(next(&journal), asked(1, 3, "13"));
    journal.record(tried(2, 3, &[("13", Answer::Goes)]));
    assert_eq!(next(&journal), asked(0, 0, "13"), "and round to the start");
    journal.act(workshop::act::Act::Undo);
    assert_eq!(next(&journal), asked(1, 3, "13"));
}
