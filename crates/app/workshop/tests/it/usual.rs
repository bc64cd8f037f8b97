//! The usual plan, for every craft the questions can describe.

use jiff::Timestamp;

use workshop::assemble::assess;
use workshop::entry::{EntryId, Key};
use workshop::job::{Fact, Job};
use workshop::plan::{Ask, ItemKind, Opens, Plan, Step};
use workshop::usual::{Bearing, Counts, Craft, Driveline, Has, Ring, Shoe, lay, usual};

/// Every answer to the four choices, with each of these sets beside it.
fn crafts(sets: &[Vec<Has>]) -> Vec<Craft> {
    let mut crafts = Vec::new();
    for ring in [Ring::Pressed, Ring::Bonded, Ring::Stays] {
        for driveline in [Driveline::GaugeBar, Driveline::Dial, Driveline::Bolted] {
            for shoe in [Shoe::Bonded, Shoe::Stays] {
                for bearing in [Bearing::Greased, Bearing::OilFilled] {
                    crafts.extend(sets.iter().map(|has| Craft {
                        ring,
                        driveline,
                        shoe,
                        bearing,
                        has: has.clone(),
                        counts: Counts::default(),
                    }));
                }
            }
        }
    }
    crafts
}

/// Every set of what a craft may have.
fn every_set() -> Vec<Vec<Has>> {
    let sets = 0..1_u32 << Has::ALL.len();
    let set = |set: u32| {
        let has = Has::ALL.into_iter().enumerate();
        let has = has.filter(|(bit, _)| set >> bit & 1 == 1);
        has.map(|(_, has)| has).collect()
    };
    sets.map(set).collect()
}

/// Nothing, everything, and all but one of it.
fn telling_crafts() -> Vec<Craft> {
    let mut sets = every_set();
    sets.retain(|set| set.is_empty() || set.len() + 1 >= Has::ALL.len());
    crafts(&sets)
}

fn with_plan(plan: Plan) -> Job {
    let mut job = Job::default();
    job.bench.plan = Some(Fact {
        entry: EntryId::new("laid").unwrap(),
        position: 1,
        value: plan,
    });
    job
}

fn step<'a>(plan: &'a Plan, key: &str) -> Option<&'a Step> {
    Some(&plan.steps[plan.place(&Key::new(key).unwrap())?])
}

/// Whether a rule chain leads from one step to another.
fn leads(plan: &Plan, first: &str, then: &str) -> bool {
    let (first, then) = (Key::new(first).unwrap(), Key::new(then).unwrap());
    let mut reached = vec![&first];
    let mut at = 0;
    while at < reached.len() {
        for rule in &plan.rules {
            if let Ask::After { first, then, .. } = &rule.ask
                && first == reached[at]
                && !reached.contains(&then)
            {
                reached.push(then);
            }
        }
        at += 1;
    }
    reached.contains(&&then)
}

/// `usual` refuses what `decide` would; here it refuses nothing, every plan is whole, and it fits.
fn whole(craft: &Craft) {
    let plan = usual(craft).unwrap_or_else(|why| panic!("{craft:?}: {why}"));
    assert!((70..=130).contains(&plan.steps.len()), "{craft:?}");
    for part in &plan.parts {
        let needed = plan.steps.iter().any(|step| step.needs.contains(&part.key));
        assert!(needed, "{}: {craft:?}", part.name);
    }
    for tool in &plan.tools {
        let held = plan.steps.iter().any(|step| step.tools.contains(&tool.key));
        assert!(held, "{}: {craft:?}", tool.name);
    }
    for item in &plan.items {
        let step = item.step.as_ref().unwrap();
        assert!(plan.place(step).is_some(), "{}: {craft:?}", item.name);
    }
    let kinds: Vec<ItemKind> = plan.items.iter().map(|item| item.kind).collect();
    assert!(ItemKind::ALL.iter().all(|kind| kinds.contains(kind)));
    let now: Timestamp = "2026-05-09T08:00:00Z".parse().unwrap();
    let found = assess(&with_plan(plan), now).unwrap();
    assert_eq!(found.contradictions, [], "{craft:?}");
    assert!(found.broken.is_empty() && found.reached().is_none());
}

#[test]
fn law_every_plan_is_whole_and_fits() {
    telling_crafts().iter().for_each(whole);
}

#[test]
#[ignore = "9216 plans take a minute: cargo xtask check runs it"]
fn law_every_plan_of_every_craft_is_whole_and_fits() {
    let crafts = crafts(&every_set());
    assert_eq!(crafts.len(), 3 * 3 * 2 * 2 * 256);
    std::thread::scope(|scope| {
        for some in crafts.chunks(crafts.len() / 2) {
            scope.spawn(|| some.iter().for_each(whole));
        }
    });
}

/// Nothing but the first step waits for nothing, and nothing but the last is waited for by nothing.
#[test]
fn law_no_step_hangs_loose() {
    for craft in telling_crafts().iter().step_by(7) {
        let plan = usual(craft).unwrap();
        let after = |rule: &workshop::plan::Rule| match &rule.ask {
            Ask::After { first, then, .. } => Some((first.clone(), then.clone())),
            _ => None,
        };
        let pairs: Vec<(Key, Key)> = plan.rules.iter().filter_map(after).collect();
        let loose = |at: fn(&(Key, Key)) -> &Key| {
            let told = |step: &&Step| !pairs.iter().any(|pair| *at(pair) == step.key);
            let found = plan.steps.iter().filter(told);
            found.map(|step| step.key.to_string()).collect::<Vec<_>>()
        };
        assert_eq!(loose(|(_, then)| then), ["as-found"], "{craft:?}");
        assert_eq!(loose(|(first, _)| first), ["record"], "{craft:?}");
        // In the order of the list, nothing stands before what it waits for.
        for (first, then) in &pairs {
            let jumps = plan.place(first) > plan.place(then);
            assert!(!jumps || leads(&plan, first.as_str(), then.as_str()));
        }
    }
}

/// A working time is worth nothing if the hands need longer at their slowest.
#[test]
fn law_every_working_time_is_longer_than_the_hands_at_their_slowest() {
    for craft in telling_crafts().iter().step_by(7) {
        let plan = usual(craft).unwrap();
        for rule in &plan.rules {
            if let Ask::FinishedWithin { then, most, .. } = &rule.ask {
                let step = step(&plan, then.as_str()).unwrap();
                let slow = step.most.as_ref().unwrap_or(&step.takes);
                assert!(slow.value < most.value, "{}", step.name);
            }
            if rule.ask.time().is_some() {
                assert!(rule.physics && rule.why.contains("assumed, from no manual"));
                assert!(rule.why.contains("data sheet"), "{}", rule.why);
            }
        }
    }
}

/// What must never be done before another, whatever the craft.
#[test]
fn practice_the_order_that_keeps_a_pump_alive() {
    let always = [
        ("as-found", "pump-out"),
        ("labels", "pump-out"),
        ("gap", "spread"),
        ("leak-first", "spread"),
        ("degrease", "spread"),
        ("torque", "gap-bench"),
        ("leak-again", "pump-in"),
        ("shaft-back", "pump-in"),
        ("intake-fair", "pump-in"),
        ("pump-torque", "gap-again"),
        ("gap-again", "grate"),
        ("light-proof", "grate"),
        ("locks", "plugs"),
        ("hose-run", "plugs"),
        ("bailer-one", "plugs"),
        ("anode", "plugs"),
        ("plugs", "float"),
        ("float", "half-throttle"),
        ("half-throttle", "first-hour"),
        ("first-hour", "recheck-bolts"),
    ];
    let some = [
        ("ring-set", "gap"),
        ("ring-lock", "gap"),
        ("shoe-set", "bar"),
        ("shoe-set", "pump-in"),
        ("bar-again", "shaft-back"),
        ("rim-and-face-again", "shaft-back"),
        ("solid-coupling", "shaft-back"),
        ("oil-in", "pump-in"),
        ("gate-clear", "plugs"),
        ("relearn", "hose-run"),
        ("coolant-holds", "hose-run"),
        ("nozzle-paint", "nozzle-on"),
        ("hull-fill", "pump-in"),
    ];
    for craft in telling_crafts().iter().step_by(5) {
        let plan = usual(craft).unwrap();
        for (first, then) in always {
            assert!(
                leads(&plan, first, then),
                "{first} before {then}: {craft:?}"
            );
        }
        for (first, then) in some {
            let there = step(&plan, first).is_some() && step(&plan, then).is_some();
            assert!(
                !there || leads(&plan, first, then),
                "{first} before {then}: {craft:?}"
            );
        }
    }
}

/// What a craft has not is not in its plan, and what it has is.
#[test]
fn law_the_answers_choose_the_steps() {
    let plain = Craft {
        has: Vec::new(),
        ..Craft::default()
    };
    let there = |craft: &Craft, key: &str| step(&usual(craft).unwrap(), key).is_some();
    for (has, key) in [
        (Has::Reverse, "gate-clear"),
        (Has::Trim, "trim"),
        (Has::SecondBailer, "bailer-two"),
        (Has::ConicalRing, "ring-shims"),
        (Has::CoolingPlate, "coolant-in"),
        (Has::ByWire, "relearn"),
        (Has::PaintedNozzle, "nozzle-paint"),
        (Has::HullRepair, "hull-fill"),
    ] {
        let with = Craft {
            has: vec![has],
            ..plain.clone()
        };
        assert!(!there(&plain, key) && there(&with, key), "{key}");
    }
    for (ring, key) in [
        (Ring::Pressed, "ring-in"),
        (Ring::Bonded, "ring-set"),
        (Ring::Stays, "ring-stays"),
    ] {
        let craft = Craft {
            ring,
            ..plain.clone()
        };
        let steps = ["ring-in", "ring-set", "ring-stays"];
        let found = steps.map(|step| there(&craft, step));
        assert_eq!(found, steps.map(|step| step == key));
    }
    let solid = Craft {
        driveline: Driveline::Bolted,
        ..plain.clone()
    };
    assert!(there(&solid, "solid-coupling") && !there(&solid, "shims"));
    let bonded = Craft {
        shoe: Shoe::Bonded,
        bearing: Bearing::OilFilled,
        ..plain.clone()
    };
    assert!(there(&bonded, "shoe-set") && there(&bonded, "oil-in"));
    assert!(!there(&bonded, "shoe-stays") && !there(&bonded, "grease-in"));
}

#[test]
fn law_only_counted_bolts_are_counted() {
    let plan = usual(&Craft::default()).unwrap();
    assert!(plan.steps.iter().all(|step| step.fasteners.is_none()));
    let craft = Craft {
        counts: Counts {
            housing: Some(6),
            plate: Some(8),
            ..Counts::default()
        },
        ..Craft::default()
    };
    let plan = usual(&craft).unwrap();
    let counted = plan.steps.iter().filter_map(|step| step.fasteners);
    assert_eq!(counted.collect::<Vec<_>>(), [6, 8]);
}

/// The readiness each step holds up, and the gates.
#[test]
fn law_the_water_comes_after_everything_ashore() {
    let plan = usual(&Craft::default()).unwrap();
    for step in &plan.steps {
        let opens = match step.group.as_str() {
            "On the water" => Opens::FullThrottle,
            "After the first hour" => Opens::Closed,
            _ => Opens::Float,
        };
        assert_eq!(step.opens, opens, "{}", step.name);
    }
    let gates = plan.steps.iter().filter(|step| step.gate.is_some());
    let gates: Vec<&str> = gates.map(|step| step.key.as_str()).collect();
    assert_eq!(
        gates,
        [
            "spread",
            "shaft-back",
            "pump-bead",
            "grate",
            "half-throttle"
        ]
    );
    let solid = Craft {
        driveline: Driveline::Bolted,
        ..Craft::default()
    };
    let solid = usual(&solid).unwrap();
    assert_eq!(step(&solid, "shaft-back").unwrap().gate, None);
}

#[test]
fn law_a_plan_that_is_there_stays() {
    let craft = Craft::default();
    let job = Job::default();
    let plan = lay(&job, "tap-1", &craft).unwrap();
    let job = with_plan(Plan {
        name: "Spring".into(),
        ..plan.clone()
    });
    let why = lay(&job, "tap-2", &craft).unwrap_err().to_string();
    assert_eq!(
        why,
        "This job has a plan already, “Spring”, and it stays. Change it on its Plan page, undo \
         what laid it, or begin another job."
    );
    // The same tap, sent twice.
    assert_eq!(lay(&job, "laid", &craft).unwrap(), plan);
}
