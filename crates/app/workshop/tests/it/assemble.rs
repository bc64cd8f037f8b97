//! What the plan answers, and how strange orders fold. All of it is invented.

use quantity::Unit;
use workshop::act::Act;
use workshop::assemble::{Block, State, Wait, assess, words};
use workshop::draft::inspect::Sheet;
use workshop::entry::{Body, Entry};
use workshop::fold::{Misfit, fold};
use workshop::plan::{Opens, Status, Work};

use crate::inspect::{Fields, draft};
use crate::work::{Desk, T, after, at, before, begun, done, key, part, plan, step};

/// Ten minutes are open, six go into aligning and eight into closing.
#[test]
fn law_a_contradiction_is_the_answer_and_names_its_change() {
    let mut short = plan();
    short.steps.insert(2, step("align", "6 min"));
    short.rules[1] = after("align", "close", None);
    short.rules.push(after("spread", "align", None));
    let desk = Desk::with(short);
    let seen = desk.look(T);
    assert_eq!(seen.contradictions.len(), 1);
    assert_eq!(seen.contradictions[0].short, 240);
    // The windows of the rest are still there, and so is what to do.
    assert_eq!(seen.steps.len(), 6);
}

#[test]
fn law_a_running_clock_says_by_when() {
    let mut desk = Desk::ready();
    desk.say(begun("spread"), T);
    assert_eq!(desk.look(T).clocks, []);
    desk.say(done("spread"), "2026-11-24T14:07:00");
    let seen = desk.look("2026-11-24T14:08:00");
    assert_eq!(seen.clocks.len(), 1);
    let clock = seen.clocks[0];
    assert_eq!(clock.by, at("2026-11-24T14:17:00").timestamp());
    assert!(clock.ended);
    assert_eq!(seen.next(), Some(2), "what may not wait comes first");
    let late = desk.look("2026-11-24T14:20:00");
    assert!(late.steps[2].late);
    assert_eq!(late.broken.len(), 1);
}

#[test]
fn law_the_readiness_rises_step_by_step() {
    let mut desk = Desk::ready();
    assert_eq!(desk.look(T).reached(), None);
    desk.say(done("spread"), T);
    desk.say(done("close"), T);
    let six = Work::FastenersIn {
        step: key("close"),
        count: 6,
        temporary: 0,
    };
    desk.say(six, T);
    let curing = desk.look("2026-11-24T20:00:00");
    assert_eq!(
        curing.levels[0].blocks,
        [Block::Until(2, at("2026-11-25T14:02:00").timestamp())]
    );
    let next_day = "2026-11-25T15:00:00";
    assert_eq!(desk.look(next_day).reached(), Some(Opens::Float));
    desk.say(done("launch"), next_day);
    assert_eq!(desk.look(next_day).reached(), Some(Opens::FullThrottle));
    desk.say(done("recheck"), next_day);
    assert_eq!(desk.look(next_day).reached(), Some(Opens::Closed));
}

/// No rule ties the launch to what is left off or loose; the water waits all the same.
#[test]
fn law_the_water_waits_for_what_is_left_off_or_loose() {
    let mut free = plan();
    free.steps.insert(0, step("ride-plate", "30 min"));
    free.rules.retain(|rule| rule.ask.time().is_none());
    let mut desk = Desk::with(free);
    let off = Work::StepDeferred {
        step: key("ride-plate"),
        reason: "hull repair".into(),
        release: "resin hard".into(),
        until: None,
    };
    for said in [off, before("press"), before("spread"), before("close")] {
        desk.say(said, T);
    }
    let waits = |desk: &Desk| match &desk.look(T).steps[4].state {
        State::Waits(waits) => waits.clone(),
        state => panic!("{state:?}"),
    };
    let loose = |count| {
        Block::Loose(
            3,
            workshop::assemble::Loose {
                count,
                of: 6,
                temporary: 0,
            },
        )
    };
    assert_eq!(
        waits(&desk),
        [Block::Deferred(0), loose(0)].map(Wait::NotReady)
    );
    let refused = desk
        .act(Act::Record(Body::Work(begun("launch"))), T)
        .unwrap_err();
    assert!(
        refused.contains("the craft is not ready for it, “ride-plate” is left off"),
        "{refused}"
    );
    let six = Work::FastenersIn {
        step: key("close"),
        count: 6,
        temporary: 0,
    };
    desk.say(six, T);
    desk.say(done("ride-plate"), T);
    assert_eq!(desk.look(T).steps[4].state, State::Ready);
}

/// A cure over midnight and over the change to summer time is a day of hours, not of dates.
#[test]
fn law_midnight_and_daylight_saving_change_nothing() {
    for (spread, over) in [
        (
            "2026-03-28T20:00:00+01:00[Europe/Berlin]",
            "2026-03-29T21:00:00+02:00[Europe/Berlin]",
        ),
        (
            "2026-10-24T20:00:00+02:00[Europe/Berlin]",
            "2026-10-25T19:00:00+01:00[Europe/Berlin]",
        ),
        (
            "2026-11-24T23:59:00+01:00[Europe/Berlin]",
            "2026-11-25T23:59:00+01:00[Europe/Berlin]",
        ),
    ] {
        let mut desk = Desk::with(plan());
        // Both at once, so that the lag alone counts.
        desk.force(done("spread"), spread);
        desk.force(done("close"), spread);
        let seen = desk.look(spread);
        let State::Waits(waits) = &seen.steps[3].state else {
            panic!("{spread}")
        };
        let until = at(over).timestamp();
        assert!(
            matches!(waits[0], Wait::Until { at, .. } if at == until),
            "{waits:?}"
        );
    }
}

#[test]
fn law_a_clock_set_back_does_not_undo_what_happened() {
    let mut desk = Desk::ready();
    desk.say(done("spread"), T);
    let seen = desk.look("2026-11-24T13:30:00");
    assert_eq!(seen.behind, 32 * 60);
    assert_eq!(seen.now, at(T).timestamp());
    assert!(matches!(seen.steps[1].state, State::Done { .. }));
    // What is done now is told by the clock as it stands, and objected to if it cannot be.
    desk.force(begun("close"), T);
    desk.force(done("close"), "2026-11-24T13:31:00");
    let (_, objections) = desk.fold();
    assert_eq!(objections[0].why, Misfit::EndsFirst);
    assert!(matches!(desk.look(T).steps[2].state, State::Done { .. }));
}

#[test]
fn law_strange_orders_fold_with_an_objection() {
    let mut desk = Desk::ready();
    desk.force(begun("spread"), T);
    for (work, why) in [
        (begun("spread"), Misfit::BegunTwice),
        (begun("gone"), Misfit::NoSuchStep),
        (part("gone", Status::Missing), Misfit::NoSuchPart),
        (
            Work::StepDeferred {
                step: key("spread"),
                reason: "late".into(),
                release: "soon".into(),
                until: None,
            },
            Misfit::DeferredTooLate,
        ),
        (before("press"), Misfit::DoneTwice),
        (
            Work::FastenersIn {
                step: key("close"),
                count: 60,
                temporary: 0,
            },
            Misfit::TooManyFasteners,
        ),
    ] {
        desk.force(work, T);
        let (_, objections) = desk.fold();
        assert!(objections.iter().any(|open| open.why == why), "{why:?}");
    }
}

/// Any subset of a journal folds, and has an answer or no plan.
#[test]
fn law_every_subset_folds_and_is_answered() {
    let mut desk = Desk::ready();
    desk.say(begun("spread"), T);
    desk.say(done("spread"), T);
    desk.act(Act::Undo, T).unwrap();
    desk.act(Act::Redo, T).unwrap();
    desk.say(begun("close"), T);
    let all = desk.0.len();
    for subset in 0..1_u32 << all {
        let kept = |place: &usize| subset >> place & 1 == 1;
        let entries: Vec<Entry> = (0..all)
            .filter(kept)
            .map(|place| desk.0[place].clone())
            .collect();
        let (job, _) = fold(&entries);
        let seen = assess(&job, at(T).timestamp());
        assert_eq!(seen.is_some(), job.bench.plan().is_some());
    }
}

/// What the page calls ready is accepted, and what it calls waiting is refused.
#[test]
fn law_ready_is_what_may_begin() {
    let mut desk = Desk::ready();
    for next in [begun("spread"), done("spread"), done("close")] {
        desk.say(next, T);
        for time in [T, "2026-11-24T14:09:00", "2026-11-26T09:00:00"] {
            let seen = desk.look(time);
            for (standing, step) in seen.steps.iter().zip(plan().steps) {
                let mut desk = Desk(desk.0.clone());
                let begin = Act::Record(Body::Work(Work::StepBegun { step: step.key }));
                let taken = desk.act(begin, time).is_ok();
                match standing.state {
                    State::Ready => assert!(taken, "{}", step.name),
                    State::Waits(_) => assert!(!taken, "{}", step.name),
                    _ => {}
                }
            }
        }
    }
}

#[test]
fn law_what_a_file_tells_may_not_be_to_come() {
    let mut desk = Desk::ready();
    let told = |time: &str| Act::Recount(Body::Work(done("launch")), Some(at(time)));
    assert_eq!(
        desk.act(told("2026-11-24T15:00:00"), T).unwrap_err(),
        "2026-11-24 15:00 is still to come, so nothing can have happened then. Check the clock, \
         or mend the time."
    );
    desk.act(told("2026-11-20T15:00:00"), T).unwrap();
    assert_eq!(desk.look(T).done(), 2);
}

#[test]
fn practice_spans_in_words() {
    for (seconds, said) in [
        (45, "45\u{a0}s"),
        (600, "10\u{a0}min"),
        (5400, "1\u{a0}h 30\u{a0}min"),
        (86_400, "24\u{a0}h"),
    ] {
        assert_eq!(words::span(seconds), said);
    }
}

/// A finding holds up the readiness that its severity names, and all after it.
#[test]
fn law_an_open_finding_holds_up_what_its_severity_says() {
    let blocked = |severity: &str| {
        let mut desk = Desk::ready();
        for said in ["spread", "close", "launch", "recheck"] {
            desk.say(before(said), T);
        }
        let six = Work::FastenersIn {
            step: key("close"),
            count: 6,
            temporary: 0,
        };
        desk.say(six, T);
        let next_day = "2026-11-25T15:00:00";
        assert_eq!(desk.look(next_day).reached(), Some(Opens::Closed));
        let fields: Fields = &[
            ("area", "lines"),
            ("which", "bailer hose"),
            ("flaw", "split"),
            ("severity", severity),
            ("severity_why", "invented"),
            ("todo", "scrap"),
        ];
        let noted = draft(Sheet::Finding, "hose", fields).read(Unit::Thou);
        desk.act(Act::Record(Body::Inspected(noted.unwrap())), next_day)
            .unwrap();
        let reached = desk.look(next_day).reached();
        let named = desk.look(next_day).levels.iter().find_map(|level| {
            let block = level.blocks.first()?;
            Some(words::blocks(&plan(), block, &at(next_day)))
        });
        assert_eq!(
            named.as_deref(),
            Some("the finding “lines bailer hose, split” is open")
        );
        let mended = draft(Sheet::Settled, "hose", &[("how", "replaced")]).read(Unit::Thou);
        desk.act(Act::Record(Body::Inspected(mended.unwrap())), next_day)
            .unwrap();
        assert_eq!(desk.look(next_day).reached(), Some(Opens::Closed));
        reached
    };
    assert_eq!(blocked("stops-floating"), None);
    assert_eq!(blocked("before-full-throttle"), Some(Opens::Float));
    assert_eq!(blocked("watch"), Some(Opens::FullThrottle));
}
