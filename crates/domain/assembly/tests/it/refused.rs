//! What makes no sense by itself is refused.

use assembly::{Ask, Error, Network, Plan, Progress, Rule, Situation, Step};

use crate::{after, plan, start_within};

fn refusal(steps: &[Step], rules: &[Rule]) -> Error {
    Plan::new(steps.to_vec(), rules.to_vec()).unwrap_err()
}

#[test]
fn law_durations_rise_from_zero() {
    let good = Step {
        least: 1,
        likely: 2,
        most: 3,
    };
    for given in [
        Step { least: -1, ..good },
        Step { least: 3, ..good },
        Step { most: 1, ..good },
        Step {
            most: i64::MAX,
            ..good
        },
    ] {
        assert_eq!(
            refusal(&[good, given], &[]),
            Error::Duration {
                step: 1,
                given,
                limit: 1 << 40
            }
        );
    }
}

#[test]
fn law_lags_are_not_negative() {
    let steps = [Step::lasting(1); 2];
    for (rule, value) in [(after(0, 1, -1), -1), (start_within(0, 1, -5), -5)] {
        assert_eq!(
            refusal(&steps, &[after(0, 1, 0), rule]),
            Error::Lag {
                rule: 1,
                value,
                limit: 1 << 40
            }
        );
    }
    let far = Rule::negotiable(Ask::FinishedBy {
        step: 0,
        time: i64::MIN,
    });
    assert_eq!(
        refusal(&steps, &[far]),
        Error::Time {
            value: i64::MIN,
            limit: 1 << 40
        }
    );
}

#[test]
fn law_rules_name_two_steps_of_the_plan() {
    let steps = [Step::lasting(1); 2];
    assert_eq!(
        refusal(&steps, &[after(0, 2, 0)]),
        Error::NoSuchStep { step: 2, steps: 2 }
    );
    assert_eq!(
        refusal(&steps, &[after(1, 1, 0)]),
        Error::SameStep { rule: 0, step: 1 }
    );
}

#[test]
fn law_a_ring_of_orders_is_refused_with_its_steps() {
    let rules = [
        after(0, 1, 0),
        after(1, 2, 0),
        after(2, 3, 0),
        after(3, 1, 0),
        after(3, 4, 0),
    ];
    let Error::Ring {
        steps,
        rules: named,
    } = refusal(&[Step::lasting(0); 5], &rules)
    else {
        unreachable!("another refusal");
    };
    assert_eq!(steps.len(), 3);
    for (place, rule) in named.iter().enumerate() {
        let [first, then] = [steps[place], steps[(place + 1) % 3]];
        assert_eq!(rules[*rule], after(first, then, 0));
    }
}

#[test]
fn law_what_cannot_have_happened_is_refused() {
    let plan = plan(&[5], &[]);
    let refusal = |progress: &[Progress]| {
        let situation = Situation {
            now: 10,
            progress: progress.to_vec(),
            ..Situation::fresh(&plan)
        };
        Network::new(&plan, &situation).unwrap_err()
    };
    assert_eq!(refusal(&[]), Error::Count { given: 0, steps: 1 });
    let fresh = Situation::fresh(&plan);
    let gate = Situation {
        closed: vec![1],
        ..fresh.clone()
    };
    assert_eq!(
        Network::new(&plan, &gate).unwrap_err(),
        Error::NoSuchStep { step: 1, steps: 1 }
    );
    for far in [
        Situation {
            now: i64::MIN,
            ..fresh.clone()
        },
        Situation {
            finish: Some(i64::MIN),
            ..fresh.clone()
        },
        Situation {
            progress: vec![Progress::Running { began: i64::MIN }],
            ..fresh
        },
    ] {
        assert_eq!(
            Network::new(&plan, &far).unwrap_err(),
            Error::Time {
                value: i64::MIN,
                limit: 1 << 40
            }
        );
    }
    assert_eq!(
        refusal(&[Progress::Running { began: 11 }]),
        Error::NotYet {
            step: 0,
            time: 11,
            now: 10
        }
    );
    assert_eq!(
        refusal(&[Progress::Done { began: 3, ended: 2 }]),
        Error::EndsFirst {
            step: 0,
            began: 3,
            ended: 2
        }
    );
}

#[test]
fn law_every_refusal_says_what_to_do() {
    let steps = [Step::lasting(1); 2];
    let text = refusal(&steps, &[after(0, 1, -60)]).to_string();
    assert_eq!(
        text,
        "the lag of rule 0 is -60 s; it must lie from 0 s to 1099511627776 s"
    );
    let text = refusal(&steps, &[after(0, 1, 0), after(1, 0, 0)]).to_string();
    assert!(text.ends_with("take one of these rules out"), "{text}");
}
