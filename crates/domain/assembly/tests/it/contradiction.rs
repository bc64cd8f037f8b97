//! What can't be is explained by the rules that matter, with what would mend it.

use assembly::{Ask, Contradiction, Network, Part, Plan, Progress, Rule, Situation, Source, Step};

use crate::{
    after, finished_by, finished_within, length, not_before, nozzle, plan, start_within, windows,
};

fn sources(contradiction: &Contradiction) -> Vec<Source> {
    contradiction.parts.iter().map(|part| part.source).collect()
}

fn part(contradiction: &Contradiction, source: Source) -> Part {
    let found = contradiction
        .parts
        .iter()
        .find(|part| part.source == source);
    *found.unwrap()
}

/// Six minutes of aligning dowels between spreading and closing. `NetworkX` 3.6.1,
/// `find_negative_cycle`: from spread to close 11, back 7.
#[test]
fn computed_nozzle_with_alignment_is_four_minutes_short() {
    let (durations, mut rules) = nozzle(10);
    let mut steps: Vec<Step> = durations.into_iter().map(Step::lasting).collect();
    steps[6].least = 3;
    steps.push(Step::lasting(6));
    rules[5] = after(5, 11, 0);
    rules.push(after(11, 6, 0));
    let found = windows(&Plan::new(steps, rules).unwrap(), None).unwrap_err();
    assert_eq!(found.len(), 1);
    let found = &found[0];
    assert_eq!(found.short_by, 4);
    assert_eq!(
        sources(found),
        [
            Source::Rule(5),
            Source::Duration(11),
            Source::Rule(17),
            Source::Duration(6),
            Source::Rule(6),
        ]
    );
    let adds: Vec<i64> = found.parts.iter().map(|part| part.adds).collect();
    assert_eq!(adds, [0, 6, 0, 8, -10]);
    // The working time would have to be 14, but nobody may be asked to stretch it.
    let open = part(found, Source::Rule(6));
    assert_eq!((open.change, open.offered), (Some(14), false));
    let close = part(found, Source::Duration(6));
    assert_eq!((close.change, close.offered), (Some(4), true));
    // Two minutes would be below the least the dowels take; an order has no lag to shorten.
    for source in [Source::Duration(11), Source::Rule(5), Source::Rule(17)] {
        let part = part(found, source);
        assert_eq!((part.change, part.offered), (None, false));
    }
}

#[test]
fn law_a_limit_shorter_than_the_work_in_it_is_named() {
    let rules = [after(0, 1, 0), finished_within(0, 1, 10)];
    let found = windows(&plan(&[5, 12], &rules), None).unwrap_err();
    assert_eq!(found[0].short_by, 2);
    assert_eq!(
        sources(&found[0]),
        [Source::Rule(0), Source::Duration(1), Source::Rule(1)]
    );
}

#[test]
fn law_two_contradictions_are_both_told_hardest_first() {
    let rules = [
        after(0, 1, 0),
        finished_within(0, 1, 10),
        after(2, 3, 30),
        start_within(2, 3, 20),
        after(1, 2, 0),
    ];
    let found = windows(&plan(&[5, 12, 5, 5], &rules), None).unwrap_err();
    let short: Vec<i64> = found.iter().map(|found| found.short_by).collect();
    assert_eq!(short, [10, 2]);
    assert_eq!(sources(&found[0]), [Source::Rule(2), Source::Rule(3)]);
}

/// The ramp is booked in five hours; the cure alone takes a day. The hour of preparation before it
/// explains nothing, but the ramp must be booked an hour later for it.
#[test]
fn law_the_core_is_told_and_the_whole_is_mended() {
    let rules = [
        after(0, 1, 0),
        Rule::physics(Ask::After {
            first: 1,
            then: 2,
            lag: 1440,
        }),
        finished_by(2, 300),
    ];
    let found = windows(&plan(&[60, 5, 30], &rules), None).unwrap_err();
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].short_by, 5 + 1440 + 30 - 300);
    assert!(!sources(&found[0]).contains(&Source::Rule(0)));
    let ramp = part(&found[0], Source::Rule(2));
    assert_eq!(
        (ramp.change, ramp.offered),
        (Some(60 + 5 + 1440 + 30), true)
    );
    // No shorter cure that is a cure at all would do: the rest takes 95 minutes, the ramp 300.
    let cure = part(&found[0], Source::Rule(1));
    assert_eq!((cure.change, cure.offered), (Some(300 - 95), false));
}

#[test]
fn law_a_finish_too_soon_is_the_first_to_give() {
    let (durations, rules) = nozzle(10);
    let plan = plan(&durations, &rules);
    let found = windows(&plan, Some(1500)).unwrap_err();
    assert_eq!(found.len(), 1);
    let finish = part(&found[0], Source::Finish);
    assert_eq!((finish.change, finish.offered), (Some(1535), true));
    assert_eq!(length(&windows(&plan, Some(1535)).unwrap()), 1535);
}

#[test]
fn law_a_delivery_after_the_deadline() {
    let rules = [not_before(0, 100), finished_by(0, 90)];
    let found = windows(&plan(&[10], &rules), None).unwrap_err();
    assert_eq!(found[0].short_by, 20);
    assert_eq!(part(&found[0], Source::Rule(0)).change, Some(80));
    assert_eq!(part(&found[0], Source::Rule(1)).change, Some(110));
}

#[test]
fn law_what_happened_is_told_but_never_offered() {
    // Spread at 0, done at 5, skin time 10, and closing, due to start by 15, waits for a delivery.
    let rules = [start_within(0, 1, 10), not_before(1, 40)];
    let plan = plan(&[5, 8], &rules);
    let situation = Situation {
        now: 6,
        progress: vec![Progress::Done { began: 0, ended: 5 }, Progress::NotStarted],
        ..Situation::fresh(&plan)
    };
    let found = Network::new(&plan, &situation).unwrap().windows();
    let found = &found.unwrap_err()[0];
    assert_eq!(found.short_by, 25);
    assert_eq!(part(found, Source::Happened(0)).change, None);
    let delivery = part(found, Source::Rule(1));
    assert_eq!((delivery.change, delivery.offered), (Some(15), true));
}

/// Sixteen minutes into a step planned with ten to thirty, it can't be cut to twelve any more.
#[test]
fn law_time_that_has_passed_can_not_be_saved() {
    let steps = vec![Step {
        least: 10,
        likely: 30,
        most: 30,
    }];
    let plan = Plan::new(steps, Vec::new()).unwrap();
    let told = |finish| {
        let situation = Situation {
            now: 16,
            finish: Some(finish),
            progress: vec![Progress::Running { began: 0 }],
            ..Situation::fresh(&plan)
        };
        let found = Network::new(&plan, &situation).unwrap().windows();
        part(&found.unwrap_err()[0], Source::Duration(0)).change
    };
    assert_eq!(told(16), Some(16));
    assert_eq!(told(15), None);
    assert_eq!(told(12), None);
}

/// Of several ways to miss a finish, the one that misses most is told.
#[test]
fn law_the_way_that_misses_most_is_told() {
    let found = windows(&plan(&[10, 30, 20], &[]), Some(5)).unwrap_err();
    assert_eq!(found[0].short_by, 25);
    assert_eq!(
        sources(&found[0]),
        [Source::Now, Source::Duration(1), Source::Finish]
    );
}

/// Contact must come soon after a step that can't start late: it would have to be slower.
#[test]
fn law_a_step_may_be_too_short() {
    let told = |most| {
        let step = Step {
            least: 10,
            likely: 10,
            most,
        };
        let soon = Ask::StartWithinStart {
            first: 2,
            then: 0,
            most: 5,
        };
        let rules = vec![
            start_within(0, 1, 10),
            not_before(1, 100),
            Rule::negotiable(soon),
            finished_by(2, 1),
        ];
        let steps = vec![step, Step::lasting(5), Step::lasting(1)];
        let found = windows(&Plan::new(steps, rules).unwrap(), None).unwrap_err();
        let duration = part(&found[0], Source::Duration(0));
        (duration.adds, duration.change)
    };
    // The other step is over by 1, so this one starts by 5 and must last until 90.
    assert_eq!(told(85), (-10, Some(85)));
    assert_eq!(told(84), (-10, None));
}
