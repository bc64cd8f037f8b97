//! The Assemble page from before a plan to the end of it. All of it is invented.

use jiff::civil::{Time, Weekday};
use jiff::{Timestamp, ZonedDateTime};
use quantity::{Entered, Unit, parse};
use report::page::assemble::{View, page};
use workshop::act::{Act, Stamp};
use workshop::decide::decide;
use workshop::entry::{Body, Entry, EntryId, JobId, Key};
use workshop::fold::fold;
use workshop::plan::{Ask, Crew, Gate, Opens, Part, Plan, Rule, Shift, Stated, Status, Step, Work};

use crate::text::text;

/// A job whose acts happen one after another on one day.
struct Bench {
    entries: Vec<Entry>,
}

impl Bench {
    fn new() -> Self {
        let mut bench = Self {
            entries: Vec::new(),
        };
        bench.act(
            "08:00",
            Body::JobOpened {
                title: "Rescue sled 1".into(),
                note: String::new(),
                follows: None,
            },
        );
        bench
    }

    fn with_plan() -> Self {
        let mut bench = Self::new();
        bench.work("08:05", Work::PlanLaid(plan()));
        bench
    }

    fn work(&mut self, time: &str, work: Work) {
        self.act(time, Body::Work(work));
    }

    fn act(&mut self, time: &str, body: Body) {
        let stamp = Stamp {
            id: EntryId::new(&format!("e-{}", self.entries.len() + 1)).unwrap(),
            now: at(time),
            device: "tablet".into(),
            who: "A. Example".into(),
            seen: None,
        };
        for new in decide(&fold(&self.entries).0, Act::Record(body), stamp).unwrap() {
            self.entries.push(Entry {
                position: u64::try_from(self.entries.len()).unwrap() + 1,
                recorded_at: Timestamp::UNIX_EPOCH,
                new,
            });
        }
    }

    /// Begins a step and ends it.
    fn whole(&mut self, step: &str, [begun, done]: [&str; 2]) {
        let step = key(step);
        self.work(begun, Work::StepBegun { step: step.clone() });
        let witnessed = true;
        self.work(done, Work::StepDone { step, witnessed });
    }

    /// The page as it is at a time.
    fn page(&self, time: &str) -> String {
        self.asked(time, None)
    }

    /// The page for a person who has so many seconds.
    fn asked(&self, time: &str, have: Option<i64>) -> String {
        let (job, objections) = fold(&self.entries);
        text(&page(&View {
            id: &JobId::new("rescue-sled").unwrap(),
            job: &job,
            objections: &objections,
            now: &at(time),
            at: None,
            have,
            table: None,
            refused: None,
        }))
    }
}

/// `14:00`, or `26 14:00` for another day.
fn at(time: &str) -> ZonedDateTime {
    let (day, time) = time.split_once(' ').unwrap_or(("24", time));
    let text = format!("2026-11-{day}T{time}+01:00[Europe/Berlin]");
    text.parse().unwrap()
}

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn minutes(text: &str) -> Entered {
    parse(text, Unit::Minute).unwrap()
}

fn step(key: &str, name: &str, takes: &str) -> Step {
    Step {
        key: Key::new(key).unwrap(),
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

fn steps() -> Vec<Step> {
    vec![
        Step {
            needs: vec![key("ring")],
            caution: "The ring is cold. Gloves on.".into(),
            ..step("press", "Press the ring in", "20")
        },
        Step {
            gate: Some(Gate::GapIn),
            caution: "Skin and eyes: gloves and goggles.".into(),
            irreversible: true,
            ..step("spread", "Spread the sealant", "5")
        },
        Step {
            most: Some(minutes("10")),
            fasteners: Some(6),
            temporary: true,
            ..step("close", "Close the joint", "8")
        },
        step("paint", "Paint the nozzle", "15"),
        Step {
            opens: Opens::FullThrottle,
            ..step("launch", "Water test", "30")
        },
        Step {
            opens: Opens::Closed,
            ..step("recheck", "Recheck after the first hour", "20")
        },
    ]
}

fn plan() -> Plan {
    let after = |first: &str, then: &str, lag: Option<&str>| Rule {
        ask: Ask::After {
            first: key(first),
            then: key(then),
            lag: lag.map(minutes),
        },
        why: lag
            .map_or("", |_| "sealant cured, invented sheet p. 2")
            .into(),
        physics: lag.is_some(),
    };
    let within = Rule {
        ask: Ask::FinishedWithin {
            first: key("spread"),
            then: key("close"),
            most: minutes("15"),
        },
        why: "working time, invented sheet p. 1".into(),
        physics: true,
    };
    Plan {
        name: "Spring".into(),
        steps: steps(),
        rules: vec![
            after("press", "spread", None),
            after("spread", "close", None),
            within,
            after("close", "launch", Some("24 h")),
            after("paint", "launch", None),
            after("launch", "recheck", None),
        ],
        parts: vec![Part {
            key: key("ring"),
            name: "Wear ring".into(),
        }],
        tools: Vec::new(),
        items: Vec::new(),
    }
}

fn ring(status: Status, expected: Option<&str>) -> Work {
    Work::PartStated {
        part: key("ring"),
        stated: Stated {
            status,
            expected: expected.map(|day| day.parse().unwrap()),
        },
    }
}

fn fasteners(count: u16, temporary: u16) -> Work {
    Work::FastenersIn {
        step: key("close"),
        count,
        temporary,
    }
}

/// The sealant is on and its working time runs; the gate was passed with a reason, the paint is left
/// off, and a screw only stands in.
fn in_the_middle() -> Bench {
    let mut bench = Bench::with_plan();
    bench.work("08:10", ring(Status::AtHand, None));
    bench.whole("press", ["08:20", "08:45"]);
    bench.work(
        "08:50",
        Work::StepDeferred {
            step: key("paint"),
            reason: "too damp to spray".into(),
            release: "a dry day".into(),
            until: None,
        },
    );
    bench.work(
        "09:00",
        Work::GateOverridden {
            step: key("spread"),
            reason: "measured by hand".into(),
        },
    );
    bench.whole("spread", ["09:05", "09:10"]);
    bench.work("09:12", Work::StepBegun { step: key("close") });
    bench.work("09:14", fasteners(5, 1));
    bench
}

fn all_done() -> Bench {
    let mut bench = in_the_middle();
    bench.work("09:16", fasteners(6, 0));
    let witnessed = true;
    let step = key("close");
    bench.work("09:20", Work::StepDone { step, witnessed });
    bench.whole("paint", ["10:00", "10:20"]);
    bench.whole("launch", ["25 10:00", "25 10:40"]);
    bench.whole("recheck", ["25 14:00", "25 14:30"]);
    bench
}

#[test]
fn regress_assemble_before_a_plan() {
    insta::assert_snapshot!(Bench::new().page("08:01"));
}

#[test]
fn regress_assemble_fresh() {
    let mut bench = Bench::with_plan();
    bench.work("08:06", ring(Status::OnOrder, Some("2026-11-26")));
    insta::assert_snapshot!(bench.page("08:10"));
}

#[test]
fn regress_assemble_in_the_middle() {
    insta::assert_snapshot!(in_the_middle().page("09:15"));
}

#[test]
fn regress_assemble_too_late() {
    insta::assert_snapshot!(in_the_middle().page("09:40"));
}

#[test]
fn regress_assemble_all_done() {
    insta::assert_snapshot!(all_done().page("25 15:00"));
}

fn evenings() -> Work {
    Work::CrewStated(Crew {
        hands: 1,
        shifts: vec![Shift {
            days: vec![Weekday::Tuesday, Weekday::Wednesday],
            from: Time::constant(18, 0, 0, 0),
            until: Time::constant(21, 0, 0, 0),
        }],
    })
}

/// Two hours on a Tuesday evening: what fits, what goes on by itself, what is better not begun.
#[test]
fn regress_assemble_two_hours_this_evening() {
    let mut bench = Bench::with_plan();
    bench.work("08:06", ring(Status::AtHand, None));
    bench.work("08:07", evenings());
    insta::assert_snapshot!(bench.asked("19:00", Some(7200)));
}

/// The sealant skinned: the page offers the way out, and with it the clock is gone.
#[test]
fn practice_a_joint_too_late_is_done_again() {
    let mut bench = in_the_middle();
    let offered = "It must be done again";
    assert!(bench.page("09:40").contains(offered));
    let again = |step: &str| Work::StepAgain {
        step: key(step),
        reason: "skinned, wiped off".into(),
    };
    bench.work("09:41", again("close"));
    bench.work("09:42", again("spread"));
    let page = bench.page("09:43");
    assert!(
        page.contains("To be done again: skinned, wiped off"),
        "{page}"
    );
    assert!(!page.contains("late ·"), "{page}");
}

/// A step left off until another ends may go on when that one is done, and the page says so.
#[test]
fn practice_what_was_left_off_may_go_on() {
    let mut bench = Bench::with_plan();
    bench.work("08:10", ring(Status::AtHand, None));
    bench.work(
        "08:11",
        Work::StepDeferred {
            step: key("paint"),
            reason: "no room".into(),
            release: "the press is free".into(),
            until: Some(key("press")),
        },
    );
    let free = "“Press the ring in” is done: it may go on now.";
    assert!(!bench.page("08:15").contains(free));
    bench.whole("press", ["08:20", "08:45"]);
    assert!(bench.page("08:50").contains(free));
}

/// With one pair of hands where two are needed the page says so first, and what would mend it.
#[test]
fn practice_too_few_hands_are_the_answer() {
    let mut heavy = plan();
    heavy.steps[0].hands = 2;
    let mut bench = Bench::new();
    bench.work("08:05", Work::PlanLaid(heavy));
    bench.work("08:10", ring(Status::AtHand, None));
    let alone = Crew {
        hands: 1,
        shifts: Vec::new(),
    };
    bench.work("08:11", Work::CrewStated(alone));
    let page = bench.page("08:15");
    let headline = "Stop: The plan cannot be done with the hands, tools and hours there are.";
    assert!(page.contains(headline), "{page}");
    assert!(
        page.contains("any one of these mends it: 2 pairs of hands"),
        "{page}"
    );
}
