//! The plan and its steps: what is refused, what folds, what is answered. All of it is invented.

use jiff::{Timestamp, ZonedDateTime};
use quantity::{Entered, Unit, parse};
use workshop::act::{Act, Stamp};
use workshop::assemble::{Assembly, Block, State, assess};
use workshop::decide::decide;
use workshop::entry::{Body, Entry, EntryId, Key, NewEntry};
use workshop::fold::{Objection, fold};
use workshop::job::Job;
use workshop::plan::{Ask, Gate, Opens, Part, Plan, Rule, Stated, Status, Step, Work};

use crate::journal::{opened, stamp};

pub(crate) fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

pub(crate) fn minutes(text: &str) -> Entered {
    parse(text, Unit::Minute).unwrap()
}

pub(crate) fn at(text: &str) -> ZonedDateTime {
    let zone = if text.contains('[') {
        String::new()
    } else {
        "+01:00[Europe/Berlin]".to_owned()
    };
    format!("{text}{zone}").parse().unwrap()
}

pub(crate) fn step(name: &str, takes: &str) -> Step {
    Step {
        key: key(name),
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

fn rule(ask: Ask, why: &str, physics: bool) -> Rule {
    Rule {
        ask,
        why: why.into(),
        physics,
    }
}

pub(crate) fn after(first: &str, then: &str, lag: Option<&str>) -> Rule {
    let ask = Ask::After {
        first: key(first),
        then: key(then),
        lag: lag.map(minutes),
    };
    rule(ask, if lag.is_some() { "cure" } else { "" }, lag.is_some())
}

fn within(first: &str, then: &str, most: &str) -> Rule {
    let ask = Ask::FinishedWithin {
        first: key(first),
        then: key(then),
        most: minutes(most),
    };
    rule(ask, "working time, p. 2", true)
}

/// Degrease, spread, close within 10 minutes, cure a day, launch; the ring comes first.
pub(crate) fn plan() -> Plan {
    Plan {
        name: "Spring".into(),
        steps: vec![
            Step {
                needs: vec![key("ring")],
                ..step("press", "20 min")
            },
            step("spread", "5 min"),
            Step {
                needs: vec![key("bolts")],
                fasteners: Some(6),
                ..step("close", "8 min")
            },
            Step {
                opens: Opens::FullThrottle,
                ..step("launch", "30 min")
            },
            Step {
                opens: Opens::Closed,
                ..step("recheck", "20 min")
            },
        ],
        rules: vec![
            after("press", "spread", None),
            after("spread", "close", None),
            within("spread", "close", "10 min"),
            after("close", "launch", Some("24 h")),
            after("launch", "recheck", None),
        ],
        parts: ["ring", "bolts"]
            .map(|name| Part {
                key: key(name),
                name: name.into(),
            })
            .to_vec(),
        tools: Vec::new(),
        items: Vec::new(),
    }
}

pub(crate) fn begun(step: &str) -> Work {
    Work::StepBegun { step: key(step) }
}

pub(crate) fn done(step: &str) -> Work {
    Work::StepDone {
        step: key(step),
        witnessed: true,
    }
}

pub(crate) fn before(step: &str) -> Work {
    Work::StepDone {
        step: key(step),
        witnessed: false,
    }
}

pub(crate) fn part(name: &str, status: Status) -> Work {
    let expected = None;
    Work::PartStated {
        part: key(name),
        stated: Stated { status, expected },
    }
}

#[derive(Default)]
pub(crate) struct Desk(pub(crate) Vec<Entry>);

impl Desk {
    pub(crate) fn with(plan: Plan) -> Self {
        let mut desk = Self::default();
        desk.act(opened(), "2026-11-24T14:00:00").unwrap();
        desk.say(Work::PlanLaid(plan), "2026-11-24T14:00:00");
        desk
    }

    /// With the ring pressed before and the bolts here.
    pub(crate) fn ready() -> Self {
        let mut desk = Self::with(plan());
        desk.say(part("bolts", Status::AtHand), "2026-11-24T14:00:00");
        desk.say(before("press"), "2026-11-24T14:00:00");
        desk
    }

    pub(crate) fn fold(&self) -> (Job, Vec<Objection>) {
        fold(&self.0)
    }

    pub(crate) fn act(&mut self, act: Act, time: &str) -> Result<(), String> {
        let stamp = Stamp {
            now: at(time),
            ..stamp(&format!("e-{}", self.0.len()))
        };
        let new = decide(&self.fold().0, act, stamp).map_err(|refusal| refusal.to_string())?;
        for entry in new {
            self.push(entry);
        }
        Ok(())
    }

    fn push(&mut self, new: NewEntry) {
        self.0.push(Entry {
            position: u64::try_from(self.0.len()).unwrap() + 1,
            recorded_at: Timestamp::UNIX_EPOCH,
            new,
        });
    }

    pub(crate) fn say(&mut self, work: Work, time: &str) {
        self.act(Act::Record(Body::Work(work)), time).unwrap();
    }

    pub(crate) fn refused(&self, work: Work, time: &str) -> String {
        let mut desk = Self(self.0.clone());
        let said = desk.act(Act::Record(Body::Work(work)), time);
        said.unwrap_err()
    }

    /// As another device could have, whatever is said here.
    pub(crate) fn force(&mut self, work: Work, time: &str) {
        let id = EntryId::new(&format!("e-{}", self.0.len())).unwrap();
        self.push(NewEntry {
            id,
            seen: 0,
            happened_at: at(time),
            device: String::new(),
            who: String::new(),
            program: "a test".into(),
            body: Body::Work(work),
        });
    }

    pub(crate) fn look(&self, time: &str) -> Assembly {
        assess(&self.fold().0, at(time).timestamp()).unwrap()
    }
}

pub(crate) const T: &str = "2026-11-24T14:02:00";

#[test]
fn law_unknown_names_are_refused() {
    let desk = Desk::with(plan());
    assert_eq!(
        desk.refused(begun("polish"), T),
        "The plan has no step “polish”. Name one of its steps, or add it to the plan."
    );
    assert_eq!(
        desk.refused(part("nozzle", Status::Missing), T),
        "The plan has no part “nozzle”. Name one of its parts, or add it to the plan."
    );
    let mut bare = Desk::default();
    bare.act(opened(), T).unwrap();
    assert_eq!(
        bare.refused(begun("press"), T),
        "Lay a plan first: there is none in this job."
    );
}

#[test]
fn law_a_step_waits_for_parts_and_steps_by_name() {
    let desk = Desk::with(plan());
    assert_eq!(
        desk.refused(begun("press"), T),
        "“press” may not begin yet: “ring” is not at hand."
    );
    assert_eq!(
        desk.refused(begun("spread"), T),
        "“spread” may not begin yet: “press” is not done."
    );
}

#[test]
fn law_a_lag_says_until_when() {
    let mut desk = Desk::ready();
    desk.say(done("spread"), T);
    desk.say(done("close"), "2026-11-24T14:10:00");
    assert_eq!(
        desk.refused(begun("launch"), "2026-11-24T15:00:00"),
        "“launch” may not begin yet: cure until Wed 25 Nov 14:10."
    );
    assert_eq!(
        desk.refused(begun("launch"), "2026-11-25T14:09:59"),
        "“launch” may not begin yet: cure until 14:10."
    );
    assert_eq!(
        desk.refused(begun("launch"), "2026-11-25T14:10:00"),
        "“launch” may not begin yet: the craft is not ready for it, “close” has 0 of 6 fasteners in."
    );
    let six = Work::FastenersIn {
        step: key("close"),
        count: 6,
        temporary: 0,
    };
    desk.say(six, "2026-11-25T14:10:00");
    desk.say(begun("launch"), "2026-11-25T14:10:00");
}

#[test]
fn law_a_clock_is_not_started_while_something_is_missing() {
    let mut desk = Desk::with(plan());
    desk.say(before("press"), T);
    assert_eq!(
        desk.refused(begun("spread"), T),
        "“spread” may not begin yet: “bolts” is not at hand, and “close” may not wait for it."
    );
    desk.say(part("bolts", Status::AtHand), T);
    desk.say(begun("spread"), T);
}

#[test]
fn law_a_clock_is_not_started_when_the_chain_does_not_fit() {
    let mut tight = plan();
    tight.steps[2].most = Some(minutes("12 min"));
    let mut desk = Desk::with(tight);
    desk.say(part("bolts", Status::AtHand), T);
    desk.say(before("press"), T);
    assert_eq!(
        desk.refused(begun("spread"), T),
        "“spread” may not begin yet: what must follow in time does not fit: 2\u{a0}min short."
    );
}

#[test]
fn law_a_gate_says_what_opens_it_and_a_reason_goes_through() {
    let mut gated = plan();
    gated.steps[1].gate = Some(Gate::GapIn);
    let mut desk = Desk::with(gated);
    desk.say(part("bolts", Status::AtHand), T);
    desk.say(before("press"), T);
    assert_eq!(
        desk.refused(begun("spread"), T),
        "“spread” may not begin yet: its gate is closed: the gap must be measured, found in \
         tolerance, and taken on the Measure page, or a reason given to go ahead, which is kept \
         and printed."
    );
    let go = |step: &str, reason: &str| Work::GateOverridden {
        step: key(step),
        reason: reason.into(),
    };
    assert_eq!(
        desk.refused(go("spread", " "), T),
        "This is empty and must be filled in."
    );
    assert_eq!(
        desk.refused(go("close", "why not"), T),
        "“close” stands before no closed gate. Begin it without a reason."
    );
    desk.say(go("spread", "measured on Monday"), T);
    desk.say(begun("spread"), T);
    let (job, objections) = desk.fold();
    assert_eq!(objections, []);
    let kept = job.bench.of(&key("spread")).overridden.unwrap();
    assert_eq!(kept.value, "measured on Monday");
}

#[test]
fn law_a_step_ends_after_it_began_and_only_once() {
    let mut desk = Desk::ready();
    desk.say(begun("spread"), T);
    assert_eq!(
        desk.refused(begun("spread"), T),
        "“spread” has begun. Say that it is done, or undo its beginning."
    );
    assert_eq!(
        desk.refused(done("spread"), "2026-11-24T13:50:00"),
        "“spread” began at 14:02 and cannot be done at 13:50. Check the clock of this device."
    );
    desk.say(done("spread"), T);
    assert_eq!(
        desk.refused(done("spread"), T),
        "“spread” is done already. To do it again, begin it again."
    );
    desk.say(begun("close"), T);
    assert_eq!(
        desk.refused(begun("spread"), T),
        "“spread” cannot begin again: “close”, which rests on it, has begun. Undo that first, \
         or say that it must be done again too."
    );
}

#[test]
fn law_a_step_left_off_has_a_reason_and_a_release() {
    let desk = Desk::ready();
    let off = |reason: &str, release: &str| Work::StepDeferred {
        step: key("recheck"),
        reason: reason.into(),
        release: release.into(),
        until: None,
    };
    for work in [off("", "spring"), off("ice", "")] {
        assert_eq!(
            desk.refused(work, T),
            "This is empty and must be filled in."
        );
    }
    let mut desk = desk;
    desk.say(off("ice", "spring"), T);
    let seen = desk.look(T);
    assert_eq!(seen.steps[4].state, State::Deferred);
    assert!(seen.levels[2].blocks.contains(&Block::Deferred(4)));
}

#[test]
fn law_fasteners_are_counted_within_what_there_is() {
    let mut desk = Desk::ready();
    let count = |step: &str, count, temporary| Work::FastenersIn {
        step: key(step),
        count,
        temporary,
    };
    for (work, sentence) in [
        (
            count("close", 7, 0),
            "7 are too many: there are 6. Count again.",
        ),
        (
            count("close", 4, 1),
            "“close” takes the right fasteners only. Count without those that stand in.",
        ),
        (
            count("press", 1, 0),
            "“press” has no fasteners to count. State in the plan how many there are.",
        ),
    ] {
        assert_eq!(desk.refused(work, T), sentence);
    }
    desk.say(done("spread"), T);
    desk.say(done("close"), T);
    desk.say(count("close", 4, 0), T);
    let loose = desk.look(T).steps[2].loose.unwrap();
    assert_eq!((loose.count, loose.of), (4, 6));
    desk.say(count("close", 6, 0), T);
    assert_eq!(desk.look(T).steps[2].loose, None);
}

#[test]
fn law_a_plan_makes_sense_or_is_refused() {
    let desk = Desk::with(plan());
    let mut ring = plan();
    ring.rules.push(after("recheck", "press", None));
    assert_eq!(
        desk.refused(Work::PlanLaid(ring), T),
        "These steps wait for one another in a ring: spread → close → launch → recheck → press → \
         spread. Take one of the rules out."
    );
    let mut negative = plan();
    negative.steps[0].takes = minutes("-5 min");
    assert_eq!(
        desk.refused(Work::PlanLaid(negative), T),
        "“-5 min” is outside 0 to 527040\u{a0}min. Check the unit and the decimal point."
    );
    let mut twice = plan();
    twice.steps[1].key = key("press");
    assert_eq!(
        desk.refused(Work::PlanLaid(twice), T),
        "“press” is in the plan twice. Rename one."
    );
}
