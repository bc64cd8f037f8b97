//! The account: nothing the job names drops out of it, and no reason is taken that is none. All of
//! it is invented.

use std::collections::BTreeMap;

use proptest::prelude::*;
use proptest::sample::subsequence;
use workshop::assemble::Block;
use workshop::audit::{About, Audit, Lack, Line, Stand, State, audit};
use workshop::entry::{Body, Entry};
use workshop::fold::{Misfit, fold};
use workshop::plan::{Account, Excuse, Item, ItemKind, Opens, Plan, Ready, Tool, Work};

use crate::work::{Desk, T, at, before, begun, done, key, plan};

/// The plan with a plug, two clamps, a rag, and two wrenches that “close” holds.
fn plan_with_things() -> Plan {
    let item = |name: &str, kind, count, step: Option<&str>| Item {
        key: key(name),
        name: name.into(),
        kind,
        count,
        step: step.map(key),
    };
    let mut plan = plan();
    plan.items = vec![
        item("plug", ItemKind::Plug, 1, None),
        item("clamps", ItemKind::Clip, 2, Some("close")),
        item("rag", ItemKind::Temporary, 1, None),
        item("lamp", ItemKind::Other, 1, None),
    ];
    plan.tools = vec![Tool {
        key: key("wrench"),
        name: "wrench".into(),
        count: 2,
    }];
    plan.steps[2].tools = vec![key("wrench")];
    plan
}

fn told(item: &str, count: u16, missing: Option<(Ready, &str)>) -> Work {
    Work::ItemTold {
        item: key(item),
        account: account(count, missing),
    }
}

fn account(count: u16, missing: Option<(Ready, &str)>) -> Account {
    let missing = missing.map(|(ready, words)| Excuse {
        ready,
        words: words.into(),
    });
    Account { count, missing }
}

fn back(count: u16) -> Work {
    Work::ToolsCounted(BTreeMap::from([(key("wrench"), account(count, None))]))
}

fn look(desk: &Desk) -> Audit {
    audit(&desk.fold().0, at(T).timestamp())
}

fn line(desk: &Desk, name: &str) -> Line {
    let account = look(desk);
    let thing =
        |line: &&Line| line.name == name && matches!(line.about, About::Item(..) | About::Tool(..));
    account.lines.iter().find(thing).unwrap().clone()
}

#[test]
fn law_what_cannot_be_is_refused_with_the_way_out() {
    let desk = Desk::with(plan_with_things());
    let on_order = Some((Ready::OnOrder, ""));
    for (said, words) in [
        (
            told("clamps", 3, None),
            "3 of “clamps” are too many: the plan has 2. Count again, or say in the plan how many \
             there are.",
        ),
        (
            told("clamps", 2, on_order),
            "All 2 of “clamps” are accounted for, so nothing needs a reason. Leave the reason out, \
             or count again.",
        ),
        (
            told("anchor", 1, None),
            "The plan has nothing “anchor” to account for. Name one of its things, or add it to \
             the plan.",
        ),
        (
            back(3),
            "3 of “wrench” are too many: the plan has 2. Count again, or say in the plan how many \
             there are.",
        ),
    ] {
        assert_eq!(desk.refused(said, T), words);
    }
    let words = desk.refused(told("plug", 0, Some((Ready::OwnWords, " "))), T);
    assert!(
        words.contains("reason") || words.contains("empty"),
        "{words}"
    );
    let long = "x".repeat(201);
    let words = desk.refused(told("plug", 0, Some((Ready::Broken, &long))), T);
    assert!(words.contains("200"), "{words}");
    assert!(
        !desk
            .refused(Work::ToolsCounted(BTreeMap::new()), T)
            .is_empty()
    );
    let mut none = Desk::default();
    none.act(crate::journal::opened(), T).unwrap();
    let words = none.refused(told("plug", 1, None), T);
    assert_eq!(words, "Lay a plan first: there is none in this job.");
}

/// A count of another plan stays in the journal, and is an open item.
#[test]
fn law_what_a_later_plan_does_not_have_is_objected_to() {
    let mut desk = Desk::with(plan_with_things());
    desk.say(told("clamps", 2, None), T);
    desk.say(told("rag", 1, None), T);
    let mut less = plan_with_things();
    less.items[1].count = 1;
    less.items.remove(2);
    desk.say(Work::PlanLaid(less), T);
    let (_, objections) = desk.fold();
    let why: Vec<Misfit> = objections.iter().map(|objection| objection.why).collect();
    assert_eq!(why, [Misfit::TooManyItems, Misfit::NoSuchItem]);
    let short = Stand::Open(Lack::Short { count: 2, of: 1 });
    assert_eq!(line(&desk, "clamps").stand, short);
}

#[test]
fn law_a_ready_made_reason_is_taken_and_its_text_stays_open() {
    let mut desk = Desk::with(plan_with_things());
    desk.say(told("plug", 0, Some((Ready::NotOnCraft, ""))), T);
    let owed = line(&desk, "plug");
    assert_eq!(
        (owed.state(), owed.holds),
        (State::Open, Some(Opens::Closed))
    );
    desk.say(
        told("plug", 0, Some((Ready::NotOnCraft, "glassed over"))),
        T,
    );
    let written = line(&desk, "plug");
    assert_eq!((written.state(), written.holds), (State::ByReason, None));
    let off = |words: &str| Work::StepDeferred {
        step: key("spread"),
        reason: Excuse {
            ready: Ready::OnOrder,
            words: words.into(),
        },
        release: "the part is here".into(),
        until: None,
    };
    let step = |desk: &Desk| {
        let steps = look(desk).lines.into_iter();
        let mut steps = steps.filter(|line| line.about == About::Step(key("spread")));
        steps.next().unwrap()
    };
    desk.say(off(""), T);
    assert_eq!(step(&desk).state(), State::Open);
    desk.say(off("due Friday"), T);
    assert_eq!(step(&desk).state(), State::ByReason);
    // A reason excuses; it does not do the work.
    assert_eq!(step(&desk).holds, Some(Opens::Float));
}

/// Without a step, what keeps the water out or must not be left in the pump holds up floating.
#[test]
fn practice_a_thing_holds_up_the_readiness_it_is_missed_at() {
    let mut desk = Desk::with(plan_with_things());
    let holds = |desk: &Desk, name: &str| line(desk, name).holds;
    for name in ["plug", "clamps", "rag", "wrench"] {
        assert_eq!(holds(&desk, name), Some(Opens::Float), "{name}");
    }
    assert_eq!(holds(&desk, "lamp"), Some(Opens::Closed));
    let levels = |desk: &Desk| desk.look(T).levels;
    let blocks = [
        Block::Item(0),
        Block::Item(1),
        Block::Item(2),
        Block::Tool(0),
    ];
    for block in &blocks {
        assert!(levels(&desk)[0].blocks.contains(block), "{block:?}");
    }
    assert!(!levels(&desk)[0].blocks.contains(&Block::Item(3)));
    assert!(levels(&desk)[2].blocks.contains(&Block::Item(3)));
    for (ready, held) in [
        (Ready::OnOrder, Some(Opens::Float)),
        (Ready::Broken, Some(Opens::Float)),
        (Ready::WaitsForStep, Some(Opens::Float)),
        (Ready::Trial, Some(Opens::Closed)),
        (Ready::NotOnCraft, None),
        (Ready::OwnWords, None),
    ] {
        desk.say(told("plug", 0, Some((ready, "so it is"))), T);
        assert_eq!(holds(&desk, "plug"), held, "{ready:?}");
    }
}

/// What was counted before the work on it, or with it, began anew is counted again.
#[test]
fn law_a_count_from_before_the_work_does_not_hold() {
    let mut desk = Desk::ready();
    desk.say(Work::PlanLaid(plan_with_things()), T);
    desk.say(back(2), T);
    desk.say(told("clamps", 2, None), T);
    assert_eq!(line(&desk, "wrench").state(), State::Accounted);
    desk.say(begun("spread"), T);
    desk.say(done("spread"), T);
    assert_eq!(line(&desk, "wrench").state(), State::Accounted);
    desk.say(begun("close"), T);
    for name in ["wrench", "clamps"] {
        assert_eq!(line(&desk, name).stand, Stand::Open(Lack::Since), "{name}");
    }
    desk.say(done("close"), T);
    desk.say(back(2), T);
    assert_eq!(line(&desk, "wrench").state(), State::Accounted);
    desk.act(workshop::act::Act::Undo, T).unwrap();
    assert_eq!(line(&desk, "wrench").stand, Stand::Open(Lack::Since));
}

/// A journal of much that can be said, some of it in error.
fn journal() -> Vec<Entry> {
    let mut desk = Desk::with(plan_with_things());
    for work in [
        before("press"),
        told("plug", 1, None),
        told("clamps", 1, Some((Ready::Broken, ""))),
        told("clamps", 9, None),
        told("rag", 0, Some((Ready::OwnWords, "holds the hose up"))),
        told("anchor", 1, None),
        back(2),
        begun("spread"),
        done("spread"),
        Work::FastenersIn {
            step: key("close"),
            count: 4,
            temporary: 0,
        },
        begun("close"),
        done("close"),
        Work::StepDeferred {
            step: key("launch"),
            reason: Excuse {
                ready: Ready::Trial,
                words: String::new(),
            },
            release: "the trial is over".into(),
            until: None,
        },
        back(1),
    ] {
        desk.force(work, T);
    }
    desk.0
}

proptest! {
    /// Whatever part of a journal is there: every step, fastener, wait, thing and tool of its plan
    /// is one line, the three ways to count add up to all of them, and the verdict is no opinion.
    #[test]
    fn law_the_account_is_the_whole_plan_whatever_was_said(
        entries in subsequence(journal(), 0..=journal().len()),
    ) {
        let (job, _) = fold(&entries);
        let account = audit(&job, at(T).timestamp());
        let all = [State::Accounted, State::ByReason, State::Open];
        let sum: usize = all.into_iter().map(|state| account.count(state)).sum();
        prop_assert_eq!(sum, account.lines.len());
        let many = |is: fn(&About) -> bool| {
            account.lines.iter().filter(|line| is(&line.about)).count()
        };
        let (mut steps, mut counted, mut items, mut tools) = (0, 0, 0, 0);
        if let Some(plan) = job.bench.plan() {
            steps = plan.steps.len();
            counted = plan.steps.iter().filter(|step| step.fasteners.is_some()).count();
            (items, tools) = (plan.items.len(), plan.tools.len());
        }
        prop_assert_eq!(many(|about| matches!(about, About::Step(_))), steps);
        prop_assert_eq!(many(|about| matches!(about, About::Fasteners(_))), counted);
        prop_assert_eq!(many(|about| matches!(about, About::Item(..))), items);
        prop_assert_eq!(many(|about| matches!(about, About::Tool(..))), tools);
        for (at, line) in account.lines.iter().enumerate() {
            prop_assert!(!account.lines[..at].iter().any(|other| other.about == line.about));
            // What is open always holds something up, so closing cannot pass it by.
            prop_assert!(line.state() != State::Open || line.holds.is_some());
            prop_assert!(line.state() != State::Accounted || line.holds.is_none());
        }
        prop_assert_eq!(account.whole(), account.open().is_empty());
        prop_assert!(!account.closed() || account.whole());
        // What was told is in the account as it was told last.
        for (key, told) in &job.bench.items {
            let line = account.lines.iter().find(|line| {
                matches!(&line.about, About::Item(_, item, _) if item == key)
            });
            if let Some(line) = line {
                let whole = Some(told.value.count) == line.of;
                prop_assert!(whole || line.stand != Stand::Whole);
            }
        }
        let told = entries.iter().any(|entry| matches!(entry.new.body, Body::Work(_)));
        prop_assert!(told || account.lines.is_empty());
    }
}
