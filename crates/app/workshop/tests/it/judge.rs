//! From readings to the verdict.

use clearance::Answer;
use workshop::entry::Body;
use workshop::gap::{Doubt, Inputs, Judgement, Mark, Standing};
use workshop::job::{Limits, Measure};
use workshop::judge::judge;

use crate::journal::{Journal, limits, thou, tried};

/// Every spot reads 13-14.
fn judged(limits: Limits) -> Judgement {
    let mut journal = Journal::described();
    journal.record(Body::LimitsStated(limits));
    for blade in 0..3 {
        for position in 0..4 {
            journal.record(tried(
                blade,
                position,
                &[("13", Answer::Goes), ("14", Answer::WontGo)],
            ));
        }
    }
    judge(&Inputs::of(&journal.job()).unwrap())
}

#[test]
fn law_out_is_said_only_where_a_spot_is_out_by_itself() {
    let mut calls = Vec::new();
    for tenths in 128..145 {
        let judgement = judged(Limits {
            least: None,
            greatest: Some(thou(&format!("{}.{}", tenths / 10, tenths % 10))),
            ..limits()
        });
        let named = judgement.marks.values().any(|mark| *mark == Mark::Out);
        if let Standing::Out(_) = judgement.standing {
            assert!(named, "{tenths}");
        }
        calls.push(judgement.standing);
    }
    assert!(matches!(calls.first(), Some(Standing::Out(_))), "{calls:?}");
    assert!(calls.contains(&Standing::Undecided(Doubt::TooClose)));
}

#[test]
fn law_rub_in_leaves_nothing_of_a_least_figure_to_judge() {
    let judgement = judged(Limits {
        greatest: None,
        rub_in: true,
        ..limits()
    });
    assert_eq!(judgement.standing, Standing::Undecided(Doubt::NothingAsked));
}

#[test]
fn law_a_diametral_figure_is_held_against_two_gaps_together() {
    let gap = |measure| {
        judged(Limits {
            measure,
            ..limits()
        })
        .gap
        .unwrap()
    };
    assert_eq!(gap(Measure::Radial).across, None);
    let gap = gap(Measure::Diametral);
    let across = gap.across.unwrap();
    // Two gaps about alike: the sum is twice one of them to a tenth.
    let one = gap.mean.value;
    for (_, sum) in [across.least, across.greatest] {
        assert!((sum.median / (2.0 * one) - 1.0).abs() < 0.1, "{sum:?}");
    }
}
