//! Answers made by hand, so that the words can be looked at without the reckoning. All figures are invented.

use jiff::civil::{Date, date};
use quantity::Unit;
use workshop::entry::Key;
use workshop::upkeep::answer::{
    Answer, By, CostAt, Costs, Due, Flip, GapSays, Hours, InUse, Lacks, Lasts, Pace, PartSays,
    Recheck, Says, Versus, When,
};
use workshop::upkeep::recheck::Point;
use workshop::upkeep::{Mishap, PartKind};

fn h(hours: f64) -> f64 {
    quantity::parse(&hours.to_string(), Unit::Hour)
        .unwrap()
        .value
}

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

pub(super) fn nothing() -> Answer {
    Answer {
        today: super::TODAY,
        hours: None,
        due: Vec::new(),
        undated: Vec::new(),
        recheck: Recheck {
            left: Point::ALL.to_vec(),
            amiss: Vec::new(),
            well: Vec::new(),
            due: None,
            overdue: false,
            closed: None,
            left_off: 0,
        },
        parts: Vec::new(),
        versus: Vec::new(),
        gap: None,
        strikes: None,
    }
}

pub(super) fn closed(says: Answer) -> Answer {
    Answer {
        recheck: Recheck {
            closed: Some(super::TODAY),
            ..says.recheck
        },
        ..says
    }
}

/// Rings of two sorts, one fitted; what falls due by hours, months, manual and season.
pub(super) fn everything() -> Answer {
    Answer {
        hours: Some(Hours {
            read: h(88.0),
            on: date(2026, 5, 2),
            today: h(88.0),
            first: (h(28.0), date(2025, 9, 1)),
            rebuilt: (h(28.0), date(2025, 9, 1)),
            pace: Some((h(6.0) / 7.0, Pace::Stated)), // not a conversion: days of a week
        }),
        due: dues(),
        undated: vec!["Anodes".into()],
        recheck: Recheck {
            left: Vec::new(),
            well: Point::ALL.to_vec(),
            ..nothing().recheck
        },
        parts: vec![plastic(), metal()],
        gap: Some(GapSays {
            visits: 3,
            margin: 0.000_12,
            season: 0.83,
        }),
        versus: vec![Versus {
            cheaper: key("metal-ring"),
            dearer: key("plastic-ring"),
            chance: 0.88,
            kept: Some(0.71),
            settles: Some((key("plastic-ring"), 0.72, 0.97)),
            flips: vec![Flip::Failure(h(40.0) / h(1.0)), Flip::Keep(h(80.0))],
        }],
        strikes: None,
        ..nothing()
    }
}

fn by_hours(every: f64, at: f64, on: Date) -> When {
    When {
        by: By::Hours(h(every)),
        hours: Some(h(at)),
        on: Some(on),
    }
}

fn months(n: u8, on: Date) -> When {
    When {
        by: By::Months(n),
        hours: None,
        on: Some(on),
    }
}

fn due(task: &str, name: &str, first: When, then: Vec<When>) -> Due {
    Due {
        task: key(task),
        name: name.into(),
        first,
        then,
        overdue: false,
        last: None,
        says: Says::Practice,
        cycle: 0,
    }
}

fn dues() -> Vec<Due> {
    vec![
        Due {
            last: Some((date(2026, 5, 2), Some(h(88.0)))),
            cycle: 1,
            ..due(
                "gap",
                "Gap by leaf, blades and edges",
                months(12, date(2026, 6, 14)),
                vec![
                    by_hours(25.0, 125.0, date(2026, 6, 20)),
                    When {
                        by: By::Gap(h(130.0), h(160.0)),
                        hours: Some(h(130.0)),
                        on: Some(date(2026, 6, 28)),
                    },
                ],
            )
        },
        Due {
            says: Says::Stated("3-2".into()),
            ..due(
                "lubricant",
                "Lubricant of the housing",
                by_hours(40.0, 128.0, date(2026, 6, 24)),
                vec![
                    When {
                        by: By::LayUp(date(2026, 10, 15)),
                        hours: None,
                        on: Some(date(2026, 10, 15)),
                    },
                    months(12, date(2027, 5, 9)),
                ],
            )
        },
        Due {
            says: Says::Reckoned,
            ..due(
                "renew-plastic-ring",
                "Plastic ring",
                When {
                    by: By::Chance(key("plastic-3")),
                    hours: Some(h(90.0)),
                    on: Some(date(2026, 7, 1)),
                },
                vec![When {
                    by: By::Cost(key("plastic-3")),
                    hours: Some(h(98.0)),
                    on: Some(date(2026, 7, 9)),
                }],
            )
        },
        due(
            "launch",
            "Before the first launch",
            When {
                by: By::Launch(date(2027, 5, 1)),
                hours: None,
                on: Some(date(2027, 5, 1)),
            },
            Vec::new(),
        ),
    ]
}

fn plastic() -> PartSays {
    PartSays {
        key: key("plastic-ring"),
        name: "Plastic ring".into(),
        kind: Some(PartKind::Ring),
        option: None,
        lacks: Vec::new(),
        lasts: Some(Lasts {
            gone: [h(57.0), h(104.0), h(163.0)],
            season: Some(0.86),
            guess: Some(0.93),
            records: 3,
            left_out: 1,
            struck: Some(0.34),
        }),
        costs: Some(costs(Some(70.0), [1.21, 1.45, 1.80], Some(100.0))),
        in_use: Some(InUse {
            piece: key("plastic-3"),
            age: h(60.0),
            fitted: h(28.0),
            season: Some(0.51),
            floor: Some(h(62.0)),
        }),
    }
}

fn metal() -> PartSays {
    PartSays {
        key: key("metal-ring"),
        name: "Metal ring".into(),
        lasts: Some(Lasts {
            gone: [h(148.0), h(300.0), h(610.0)],
            season: Some(0.97),
            guess: Some(0.97),
            records: 0,
            left_out: 0,
            struck: None,
        }),
        costs: Some(costs(None, [0.83, 1.12, 1.49], None)),
        in_use: None,
        ..plastic()
    }
}

fn costs(best: Option<f64>, rate: [f64; 3], to: Option<f64>) -> Costs {
    let curve = [20.0, 50.0, 70.0, 100.0, 200.0].map(|age| CostAt {
        age: h(age),
        rate: rate.map(|rate| rate * (1.0 + (age - 70.0).abs() / 400.0)),
    });
    Costs {
        curve: curve.into(),
        best: best.map(h),
        rate,
        to_failure: 1.58,
        flat: (h(50.0), to.map(h)),
        ends: (71.0, 221.0),
        kept: Some([390.0, 478.0, 577.0]),
        until: best.map(h),
        own_time: true,
        fade: best.is_some(),
    }
}

/// The same two months later, and the meter not read.
pub(super) fn overdue(mut says: Answer) -> Answer {
    says.due[0].overdue = true;
    says.due[0].first.on = Some(date(2026, 5, 4));
    says.due[1].overdue = true;
    says.due[1].first.hours = Some(h(85.0));
    says.due[1].first.on = Some(date(2026, 5, 6));
    says
}

/// The ring past its cheapest age, and nothing else overdue.
pub(super) fn past(mut says: Answer) -> Answer {
    let place = says.due.iter().position(|due| due.says == Says::Reckoned);
    let mut due = says.due.remove(place.unwrap());
    due.overdue = true;
    due.first = due.then.remove(0);
    due.first.hours = Some(h(80.0));
    due.first.on = Some(date(2026, 5, 1));
    says.due.insert(0, due);
    says
}

/// A strike and a loss of thrust, not looked into.
pub(super) fn struck(mut says: Answer) -> Answer {
    let due = says.due[0].clone();
    let at_once = |what, on| When {
        by: By::Mishap(what, on),
        hours: None,
        on: Some(on),
    };
    says.due[0].first = at_once(Mishap::Thrust, date(2026, 5, 4));
    let strike = Due {
        task: key("strike"),
        name: "After a strike".into(),
        first: at_once(Mishap::Strike, date(2026, 5, 3)),
        then: Vec::new(),
        overdue: true,
        last: None,
        ..due
    };
    says.due.insert(0, strike);
    says
}

/// A sort of part of which nothing is known but its name, and no meter.
pub(super) fn missing(says: Answer) -> Answer {
    let lacks = vec![Lacks::Price, Lacks::Life, Lacks::Failure, Lacks::Season];
    let part = PartSays {
        lasts: None,
        costs: None,
        in_use: None,
        lacks,
        ..plastic()
    };
    Answer {
        parts: vec![part],
        undated: vec!["Anodes".into(), "Hoses and clamps".into()],
        recheck: closed(everything()).recheck,
        ..says
    }
}
