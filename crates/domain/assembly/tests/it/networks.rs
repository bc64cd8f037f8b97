//! Earliest and latest starts of networks whose answers are known. Values said to be by `NetworkX`
//! are by its version 3.6.1.

use assembly::{Ask, Network, Progress, Rule, Situation};

use crate::{
    after, critical, earliest, finished_by, finished_within, length, not_before, nozzle, plan,
    slacks, start_within, windows,
};

/// The commuters of Dechter, Meiri and Pearl, in minutes: John leaves and arrives, Fred leaves and
/// arrives.
fn commuters(drive: &[Rule]) -> Vec<Rule> {
    let mut rules = vec![
        not_before(0, 10),
        finished_by(0, 20),
        after(2, 1, 10),
        start_within(2, 1, 20),
        after(2, 3, 40),
        start_within(2, 3, 50),
        not_before(3, 60),
        finished_by(3, 70),
    ];
    rules.extend_from_slice(drive);
    rules
}

#[test]
fn computed_commuters_windows() {
    let rules = commuters(&[after(0, 1, 30), start_within(0, 1, 40)]);
    let windows = windows(&plan(&[0; 4], &rules), None).unwrap();
    let spans: Vec<_> = windows.iter().map(|w| (w.earliest, w.latest)).collect();
    assert_eq!(
        spans,
        [
            (10, Some(20)),
            (40, Some(50)),
            (20, Some(30)),
            (60, Some(70))
        ]
    );
}

#[test]
fn computed_commuters_by_bus_contradict_themselves() {
    let rules = commuters(&[after(0, 1, 60)]);
    assert!(windows(&plan(&[0; 4], &rules), None).is_err());
}

/// A textbook network of seven activities, A to G in hours.
#[test]
fn published_seven_activities() {
    let rules = [(0, 1), (0, 2), (1, 3), (2, 5), (3, 4), (5, 4), (4, 6)];
    let rules = rules.map(|(first, then)| after(first, then, 0));
    let windows = critical(&plan(&[6, 2, 2, 3, 4, 2, 1], &rules));
    assert_eq!(length(&windows), 16);
    assert_eq!(earliest(&windows), [0, 6, 6, 8, 11, 8, 15]);
    assert_eq!(slacks(&windows), [0, 0, 1, 0, 0, 1, 0]);
}

/// Thirteen arrows of the solutions to Taylor, Introduction to Management Science, chapter 8.
#[test]
fn published_thirteen_arrows() {
    let arrows = [
        (1, 2, 8),
        (1, 3, 10),
        (1, 4, 9),
        (2, 5, 6),
        (2, 6, 4),
        (3, 5, 5),
        (4, 5, 0),
        (4, 7, 7),
        (5, 7, 12),
        (5, 8, 15),
        (6, 9, 18),
        (7, 8, 4),
        (8, 9, 7),
    ];
    let mut rules = Vec::new();
    for (first, (_, head, _)) in arrows.iter().enumerate() {
        for (then, (tail, _, _)) in arrows.iter().enumerate() {
            if head == tail {
                rules.push(after(first, then, 0));
            }
        }
    }
    let windows = critical(&plan(&arrows.map(|(_, _, duration)| duration), &rules));
    assert_eq!(length(&windows), 38);
    assert_eq!(slacks(&windows), [1, 0, 6, 1, 8, 0, 6, 11, 0, 1, 8, 0, 0]);
    assert_eq!((windows[10].earliest, windows[10].latest), (12, Some(20)));
}

/// The fourteen activities of Hillier and Lieberman at their mean durations, by `NetworkX`.
#[test]
fn computed_fourteen_activities() {
    let spans = [
        ("A", 2, ""),
        ("B", 4, "A"),
        ("C", 10, "B"),
        ("D", 6, "C"),
        ("E", 4, "C"),
        ("F", 5, "E"),
        ("G", 7, "D"),
        ("H", 9, "EG"),
        ("I", 7, "C"),
        ("J", 8, "FI"),
        ("K", 4, "J"),
        ("L", 5, "J"),
        ("M", 2, "H"),
        ("N", 6, "KL"),
    ];
    let place = |name: &str| spans.iter().position(|(other, ..)| *other == name).unwrap();
    let mut rules = Vec::new();
    for (name, _, before) in spans {
        for first in before.split("").filter(|first| !first.is_empty()) {
            rules.push(after(place(first), place(name), 0));
        }
    }
    let windows = critical(&plan(&spans.map(|(_, duration, _)| duration), &rules));
    assert_eq!(length(&windows), 44);
    let slack = |name| windows[place(name)].slack().unwrap();
    let slacks = ["D", "G", "H", "M", "I", "K"].map(slack);
    assert_eq!(slacks, [4, 4, 4, 4, 2, 1]);
    for name in ["A", "B", "C", "E", "F", "J", "L", "N"] {
        assert_eq!(slack(name), 0, "{name}");
    }
}

#[test]
fn computed_nozzle_windows() {
    let (durations, rules) = nozzle(10);
    let plan = plan(&durations, &rules);
    assert_eq!(length(&windows(&plan, None).unwrap()), 1535);
    let spans: Vec<_> = windows(&plan, Some(1577))
        .unwrap()
        .iter()
        .map(|window| (window.earliest, window.latest.unwrap()))
        .collect();
    assert_eq!(
        spans,
        [
            (0, 67),
            (0, 40),
            (0, 45),
            (20, 62),
            (0, 60),
            (30, 72),
            (35, 77),
            (43, 85),
            (55, 97),
            (1455, 1522),
            (1505, 1547)
        ]
    );
}

#[test]
fn computed_nozzle_with_short_cures() {
    let (durations, mut rules) = nozzle(10);
    for rule in &mut rules {
        if let Ask::After { lag, .. } = &mut rule.ask {
            *lag = (*lag).min(60);
        }
    }
    assert_eq!(
        length(&windows(&plan(&durations, &rules), None).unwrap()),
        155
    );
}

/// The tool may go back at minute 34: hands would be short, times are not.
#[test]
fn computed_nozzle_tool_back_at_34() {
    let (durations, mut rules) = nozzle(10);
    for rule in &mut rules {
        if let Ask::FinishedBy { time, .. } = &mut rule.ask {
            *time = 34;
        }
    }
    assert_eq!(
        length(&windows(&plan(&durations, &rules), None).unwrap()),
        1535
    );
}

#[test]
fn computed_nozzle_replanned_after_a_long_check() {
    let (durations, rules) = nozzle(25);
    assert_eq!(
        length(&windows(&plan(&durations, &rules), None).unwrap()),
        1550
    );
    // The same told as it happened, a quarter of an hour into a check planned with ten minutes.
    let (durations, rules) = nozzle(10);
    let plan = plan(&durations, &rules);
    let mut progress = vec![Progress::NotStarted; 11];
    progress[1] = Progress::Done {
        began: 0,
        ended: 20,
    };
    progress[2] = Progress::Done {
        began: 0,
        ended: 15,
    };
    progress[3] = Progress::Done {
        began: 20,
        ended: 45,
    };
    let later = Situation {
        now: 45,
        progress,
        ..Situation::fresh(&plan)
    };
    let windows = Network::new(&plan, &later).unwrap().windows().unwrap();
    // Degreasing is still to do, twelve minutes from now: that and not the check holds the joint up.
    assert_eq!(length(&windows), 1550 + 12);
}

/// Activities of which only the starts are tied: `(from, to, least)`.
fn starts(points: usize, ties: &[(usize, usize, i64)]) -> Vec<i64> {
    let rules: Vec<Rule> = ties
        .iter()
        .map(|&(from, to, least)| {
            if least < 0 {
                start_within(to, from, -least)
            } else {
                after(from, to, least)
            }
        })
        .collect();
    earliest(&windows(&plan(&vec![0; points], &rules), None).unwrap())
}

/// UBO10 psp2 of the project scheduling benchmarks, by `NetworkX`.
#[test]
fn computed_ubo10_psp2() {
    let ties = [
        (0, 4, 0),
        (0, 3, 0),
        (0, 1, 0),
        (0, 2, 0),
        (1, 5, 9),
        (2, 5, -3),
        (2, 6, 8),
        (3, 7, 24),
        (4, 9, 22),
        (5, 8, 4),
        (6, 10, 3),
        (7, 10, -2),
        (7, 11, 8),
        (7, 3, -26),
        (8, 11, 10),
        (9, 11, 9),
        (9, 4, -25),
        (10, 11, 5),
    ];
    assert_eq!(starts(12, &ties), [0, 0, 0, 0, 0, 9, 8, 24, 13, 22, 22, 32]);
}

/// UBO10 psp1: feasible in time, finished at the earliest at 18.
#[test]
fn computed_ubo10_psp1() {
    let durations = [0, 1, 9, 6, 6, 9, 10, 5, 7, 7, 5, 0];
    let ties = [
        (0, 3, 0),
        (0, 2, 0),
        (0, 1, 0),
        (0, 8, 0),
        (1, 10, 2),
        (2, 4, 5),
        (2, 11, 9),
        (2, 7, 0),
        (3, 9, 3),
        (4, 11, 6),
        (4, 5, 4),
        (5, 11, 9),
        (5, 6, -5),
        (6, 5, -4),
        (6, 7, -4),
        (6, 11, 10),
        (7, 8, -4),
        (7, 11, 5),
        (8, 11, 7),
        (8, 7, -2),
        (9, 11, 7),
        (10, 11, 5),
        (10, 1, -3),
    ];
    let ends = starts(12, &ties)
        .into_iter()
        .zip(durations)
        .map(|(start, lasts)| start + lasts);
    assert_eq!(ends.max(), Some(18));
}

/// `sm_j10` PSP1: the bound of time alone is 26.
#[test]
fn computed_sm_j10_psp1() {
    let ties = [
        (0, 4, 0),
        (0, 2, 0),
        (0, 1, 0),
        (0, 3, 0),
        (1, 9, 9),
        (1, 7, 1),
        (1, 8, 8),
        (1, 10, 2),
        (2, 8, 24),
        (3, 10, 4),
        (3, 7, 8),
        (4, 10, 0),
        (4, 9, 0),
        (4, 5, 7),
        (5, 6, 0),
        (6, 11, 5),
        (7, 11, 10),
        (8, 1, -22),
        (8, 2, -34),
        (8, 11, 2),
        (9, 11, 6),
        (10, 11, 1),
    ];
    assert_eq!(starts(12, &ties)[11], 26);
}

/// Two joints with one working time each, the second spread at most 12 after the first.
#[test]
fn computed_two_joints_fit_in_time() {
    let rules = [
        after(0, 1, 0),
        finished_within(0, 1, 10),
        after(2, 3, 0),
        finished_within(2, 3, 10),
        Rule::negotiable(Ask::StartWithinStart {
            first: 0,
            then: 2,
            most: 12,
        }),
    ];
    assert_eq!(
        length(&windows(&plan(&[5, 8, 5, 8], &rules), None).unwrap()),
        13
    );
}
