//! A plan and something of every kind said about it. All of it is invented.

use std::collections::BTreeMap;

use jiff::civil::{Time, Weekday};
use quantity::{Entered, Unit, parse};
use workshop::act::Act;
use workshop::entry::{Body, Key};
use workshop::plan::{
    Account, Ask, Crew, Excuse, Gate, Item, ItemKind, Opens, Part, Plan, Ready, Rule, Shift,
    Stated, Status, Step, Tool, Work,
};

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn minutes(text: &str) -> Entered {
    parse(text, Unit::Minute).unwrap()
}

fn step(name: &str, takes: &str) -> Step {
    Step {
        key: Key::of_name(name).unwrap(),
        name: name.into(),
        takes: minutes(takes),
        most: None,
        needs: Vec::new(),
        group: String::new(),
        how: String::new(),
        hands: 1,
        tools: Vec::new(),
        gate: None,
        opens: Opens::Float,
        fasteners: None,
        temporary: false,
        caution: String::new(),
        irreversible: false,
    }
}

fn asks() -> Vec<Ask> {
    let (first, then) = (key("spread"), key("close"));
    let most = minutes("10 min");
    let time = "2026-11-25T08:00:00+01:00[Europe/Berlin]".parse().unwrap();
    vec![
        Ask::After {
            first: key("press-ring"),
            then: key("spread"),
            lag: None,
        },
        Ask::After {
            first: key("close"),
            then: key("trial"),
            lag: Some(minutes("24 h")),
        },
        Ask::FinishedWithin {
            first: first.clone(),
            then: then.clone(),
            most: most.clone(),
        },
        Ask::StartWithin {
            first: first.clone(),
            then: then.clone(),
            most: most.clone(),
        },
        Ask::StartWithinStart { first, then, most },
        Ask::Together {
            first: key("trial"),
            then: key("plate"),
        },
        Ask::NotBefore {
            step: key("trial"),
            time,
        },
        Ask::FinishedBy {
            step: key("trial"),
            time: "2026-11-29T18:00:00+01:00[Europe/Berlin]".parse().unwrap(),
        },
    ]
}

fn plan() -> Plan {
    let asks = asks();
    let rule = |(place, ask)| Rule {
        ask,
        why: "invented data sheet".into(),
        physics: place > 0,
    };
    Plan {
        name: "Spring rebuild".into(),
        steps: vec![
            Step {
                needs: vec![key("wear-ring")],
                group: "Ring".into(),
                how: "Chamfer first; flush with the housing.".into(),
                hands: 2,
                tools: vec![key("press")],
                ..step("Press ring", "20")
            },
            Step {
                gate: Some(Gate::GapIn),
                caution: "Solvent: open a window.".into(),
                irreversible: true,
                ..step("Spread", "5 min")
            },
            Step {
                most: Some(minutes("0,25 h")),
                fasteners: Some(6),
                temporary: true,
                ..step("Close", "8 min")
            },
            Step {
                opens: Opens::FullThrottle,
                ..step("Trial", "1 d")
            },
            Step {
                opens: Opens::Closed,
                ..step("Plate", "600 s")
            },
        ],
        rules: asks.into_iter().enumerate().map(rule).collect(),
        parts: vec![Part {
            key: key("wear-ring"),
            name: "Wear ring".into(),
        }],
        tools: vec![Tool {
            key: key("press"),
            name: "Hydraulic press".into(),
            count: 1,
        }],
        items: ItemKind::ALL.map(item).to_vec(),
    }
}

fn item(kind: ItemKind) -> Item {
    let name = format!("{kind:?}");
    Item {
        key: key(&name.to_lowercase()),
        step: (kind == ItemKind::Plug).then(|| key("close")),
        count: if kind == ItemKind::Hose { 3 } else { 1 },
        name,
        kind,
    }
}

fn stated(status: Status, expected: Option<&str>) -> Work {
    Work::PartStated {
        part: key("wear-ring"),
        stated: Stated {
            status,
            expected: expected.map(|day| day.parse().unwrap()),
        },
    }
}

/// Something of every kind, in an order that is accepted.
pub(crate) fn every_kind() -> Vec<Act> {
    let step = |step: &str| key(step);
    let work = [
        Work::PlanLaid(plan()),
        stated(Status::OnOrder, Some("2026-11-27")),
        stated(Status::AtHand, None),
        Work::StepDone {
            step: step("press-ring"),
            witnessed: false,
        },
        Work::StepAgain {
            step: step("press-ring"),
            reason: "went in crooked".into(),
        },
        Work::StepDone {
            step: step("press-ring"),
            witnessed: false,
        },
        Work::StepDeferred {
            step: step("plate"),
            reason: "the hull still cures".into(),
            release: "when the resin is hard".into(),
            until: Some(key("close")),
        },
        Work::StepEstimated {
            step: key("trial"),
            takes: minutes("12"),
            most: Some(minutes("20 min")),
        },
        Work::CrewStated(Crew {
            hands: 2,
            shifts: vec![Shift {
                days: vec![Weekday::Monday, Weekday::Saturday],
                from: Time::constant(18, 30, 0, 0),
                until: Time::constant(0, 0, 0, 0),
            }],
        }),
        Work::GateOverridden {
            step: step("spread"),
            reason: "measured with the old ring".into(),
        },
        Work::StepBegun {
            step: step("spread"),
        },
        Work::FastenersIn {
            step: step("close"),
            count: 4,
            temporary: 1,
        },
        Work::ItemTold {
            item: key("hose"),
            account: Account {
                count: 0,
                missing: Some(Excuse {
                    ready: Ready::OnOrder,
                    words: "due on Friday".into(),
                }),
            },
        },
        Work::ToolsCounted(BTreeMap::from([(key("press"), Account::default())])),
    ];
    work.into_iter()
        .map(|work| Act::Record(Body::Work(work)))
        .collect()
}
