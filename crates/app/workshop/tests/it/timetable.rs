//! When each step is worked with the hands, tools and hours there are. All of it is invented.

use jiff::civil::{Time, Weekday};
use workshop::assemble::timetable::{NoTimetable, Slowest, Timetable, proved, timetable};
use workshop::assemble::words;
use workshop::plan::{Crew, Opens, Plan, Shift, Status, Step, Tool, Work};

use crate::work::{Desk, after, at, begun, done, key, minutes, part, plan, step};

/// A Tuesday afternoon.
const T: &str = "2026-11-24T14:00:00";

fn table(desk: &Desk, now: &str, have: Option<i64>) -> Timetable {
    let job = desk.fold().0;
    timetable(&job, &at(now), have).unwrap().unwrap()
}

fn slot(table: &Timetable, place: usize) -> (String, String) {
    let slot = table.slots[place].unwrap();
    let zone = at(T).time_zone().clone();
    let words = |at: jiff::Timestamp| {
        let at = at.to_zoned_datetime(zone.clone());
        at.strftime("%a %H:%M").to_string()
    };
    (words(slot.from), words(slot.until))
}

/// Two steps that nothing orders, the one that comes first in front.
fn either(table: &Timetable, places: [usize; 2]) -> [(String, String); 2] {
    let mut places = places;
    places.sort_by_key(|place| table.slots[*place].map(|slot| slot.from));
    places.map(|place| slot(table, place))
}

fn of(from: &str, until: &str) -> (String, String) {
    (from.to_owned(), until.to_owned())
}

/// Two jobs of an hour that nothing orders, with one press.
fn two(press: u16, hands: u16) -> Plan {
    let pressed = |name: &str| Step {
        tools: vec![key("press")],
        opens: Opens::Float,
        hands,
        ..step(name, "1 h")
    };
    Plan {
        steps: vec![pressed("one"), pressed("two")],
        rules: Vec::new(),
        parts: Vec::new(),
        tools: vec![Tool {
            key: key("press"),
            name: "Press".into(),
            count: press,
        }],
        ..plan()
    }
}

fn crew(hands: u16, shifts: &[(Weekday, i8, i8)]) -> Work {
    let shift = |&(day, from, until): &(Weekday, i8, i8)| Shift {
        days: vec![day],
        from: Time::constant(from, 0, 0, 0),
        until: Time::constant(until, 0, 0, 0),
    };
    Work::CrewStated(Crew {
        hands,
        shifts: shifts.iter().map(shift).collect(),
    })
}

/// Two steps, the first before floating, the second before full throttle, and a cure of a day between.
#[test]
fn law_what_still_cures_may_not_float() {
    let bond = Step {
        opens: Opens::Float,
        ..step("bond", "1 h")
    };
    let pull = Step {
        opens: Opens::FullThrottle,
        ..step("pull", "10 min")
    };
    let plan = Plan {
        steps: vec![bond, pull],
        rules: vec![after("bond", "pull", Some("24 h"))],
        parts: Vec::new(),
        ..plan()
    };
    let mut desk = Desk::with(plan);
    let float = |desk: &Desk, now: &str| table(desk, now, None).ready[0].unwrap();
    let cured = at("2026-11-25T15:00:00").timestamp();
    assert_eq!(float(&desk, T), cured);
    // Done: it cures on, and the answer stays.
    desk.say(done("bond"), "2026-11-24T15:00:00");
    assert_eq!(float(&desk, "2026-11-24T16:00:00"), cured);
}

#[test]
fn law_one_person_does_one_thing_at_a_time() {
    let mut desk = Desk::with(two(2, 1));
    let alone = table(&desk, T, None);
    assert_eq!(
        either(&alone, [0, 1]),
        [of("Tue 14:00", "Tue 15:00"), of("Tue 15:00", "Tue 16:00")]
    );
    assert!(alone.best());
    let both = vec![0, 1];
    assert_eq!(
        alone.slowest,
        Slowest::Work {
            tool: None,
            steps: both
        }
    );
    desk.say(crew(2, &[]), T);
    let together = table(&desk, T, None);
    assert_eq!(slot(&together, 1), of("Tue 14:00", "Tue 15:00"));
    assert_eq!(together.ready[0], Some(together.finish));
}

#[test]
fn law_one_press_makes_two_people_wait() {
    let mut desk = Desk::with(two(1, 1));
    desk.say(crew(2, &[]), T);
    let table = table(&desk, T, None);
    assert_eq!(
        either(&table, [0, 1]),
        [of("Tue 14:00", "Tue 15:00"), of("Tue 15:00", "Tue 16:00")]
    );
    assert!(matches!(table.slowest, Slowest::Work { tool: Some(0), .. }));
}

#[test]
fn law_too_few_hands_are_told_and_not_waited_for() {
    let mut desk = Desk::with(two(1, 2));
    desk.say(crew(1, &[]), T);
    let job = desk.fold().0;
    let none = timetable(&job, &at(T), None).unwrap();
    let Err(NoTimetable::Impossible(found)) = none else {
        panic!("{none:?}");
    };
    let words = words::shortage(&two(1, 2), &found, &at(T));
    assert_eq!(
        words,
        "“one” takes 2 pairs of hands · the pairs of hands there are; any one of these mends it: 2 \
         pairs of hands"
    );
}

/// A cure runs through the night; hands come back on the next evening they are there.
#[test]
fn law_steps_fall_into_shifts_and_cures_run_through() {
    let mut desk = Desk::ready();
    desk.say(
        crew(1, &[(Weekday::Tuesday, 18, 21), (Weekday::Friday, 23, 2)]),
        T,
    );
    let table = table(&desk, T, None);
    // Spread 5 min, close 8 min, a day of cure, launch 30 min, recheck 20 min.
    assert_eq!(slot(&table, 1), of("Tue 18:00", "Tue 18:05"));
    assert_eq!(slot(&table, 2), of("Tue 18:05", "Tue 18:13"));
    assert_eq!(slot(&table, 3), of("Fri 23:00", "Fri 23:30"));
    assert_eq!(slot(&table, 4), of("Fri 23:30", "Fri 23:50"));
    assert_eq!(table.away.len(), 2);
    assert!(table.best());
    assert_eq!(table.slowest, Slowest::Hours);
}

/// The clock is set forward on Sunday 29 March 2026: the hour from 2 to 3 does not exist.
#[test]
fn law_hours_follow_the_clock_on_the_wall() {
    let mut desk = Desk::with(two(1, 1));
    desk.say(crew(1, &[(Weekday::Sunday, 1, 4)]), T);
    let now = "2027-03-27T12:00:00";
    let table = table(&desk, now, None);
    // Three hours on the wall are two.
    assert_eq!(
        either(&table, [0, 1]),
        [of("Sun 01:00", "Sun 03:00"), of("Sun 03:00", "Sun 04:00")]
    );
}

/// “I have two hours this evening”: what fits, what must not be begun, and what cures meanwhile.
#[test]
fn practice_two_hours_this_evening() {
    let mut plan = two(1, 1);
    plan.steps.insert(0, step("paint", "20 min"));
    plan.steps.push(step("mount", "30 min"));
    plan.rules.push(after("paint", "mount", Some("12 h")));
    let mut desk = Desk::with(plan);
    let evening = "2026-11-24T19:00:00";
    let have = |desk: &Desk| table(desk, evening, Some(7200));
    let two_hours = have(&desk);
    // The paint dries over night, so it comes first; only one of the hours fits behind it.
    assert_eq!(slot(&two_hours, 0), of("Tue 19:00", "Tue 19:20"));
    let hours = either(&two_hours, [1, 2]);
    assert_eq!(hours[0], of("Tue 19:20", "Tue 20:20"));
    assert_eq!(hours[1].0, "Wed 19:00");
    // With hours stated, the rest waits for them.
    desk.say(crew(1, &[(Weekday::Saturday, 9, 17)]), T);
    assert_eq!(either(&have(&desk), [1, 2])[1].0, "Sat 09:00");
}

#[test]
fn law_a_missing_part_leaves_the_rest_planned() {
    let mut desk = Desk::with(plan());
    let start = table(&desk, T, None);
    // Nobody has said where ring and bolts are.
    assert!(start.slots.iter().all(Option::is_none));
    assert_eq!(start.ready, [None; 3]);
    desk.say(part("ring", Status::AtHand), T);
    desk.say(part("bolts", Status::AtHand), T);
    let table = table(&desk, T, None);
    assert!(table.untimed.is_empty() && table.slots.iter().all(Option::is_some));
}

/// What has happened counts, not what was planned: spreading took longer, and the rest moves.
#[test]
fn regress_actual_times_move_the_rest() {
    let mut desk = Desk::ready();
    desk.say(begun("spread"), "2026-11-24T14:00:00");
    let running = table(&desk, "2026-11-24T14:01:00", None);
    assert_eq!(slot(&running, 1), of("Tue 14:00", "Tue 14:05"));
    desk.say(done("spread"), "2026-11-24T14:06:30");
    let table = table(&desk, "2026-11-24T14:07:00", None);
    // A clock runs, so the minute is not rounded.
    assert_eq!(slot(&table, 2), of("Tue 14:07", "Tue 14:15"));
}

/// The proof is at least as good as the quick answer and says so.
#[test]
fn law_the_proof_is_never_worse() {
    let mut desk = Desk::ready();
    desk.say(
        crew(1, &[(Weekday::Tuesday, 14, 15), (Weekday::Thursday, 8, 9)]),
        T,
    );
    let quick = table(&desk, T, None);
    let job = desk.fold().0;
    let proof = proved(&job, &at(T), None, |_| true).unwrap().unwrap();
    assert!(proof.best() && proof.finish <= quick.finish && proof.bound >= quick.bound);
    let _ = minutes("1");
}

/// Nobody spreads sealant five minutes before going home; who stays on anyway is there.
#[test]
fn practice_a_clock_is_not_started_before_going_home() {
    let mut desk = Desk::ready();
    desk.say(crew(1, &[(Weekday::Tuesday, 18, 21)]), T);
    let late = "2026-11-24T20:50:00";
    let words = desk.refused(begun("spread"), late);
    let told = "“spread” may not begin yet: what must follow in time cannot be done with the hands, \
                tools and hours there are: ";
    assert!(words.starts_with(told), "{words}");
    assert!(words.contains("staying 3\u{a0}min longer"), "{words}");
    desk.say(begun("spread"), "2026-11-24T22:00:00");
}

/// The press is one; what needs it twice at once is told by its name, and not by the hands.
#[test]
fn practice_the_tool_is_named_that_is_not_there_twice() {
    let mut plan = two(1, 1);
    plan.rules.push(workshop::plan::Rule {
        ask: workshop::plan::Ask::Together {
            first: key("one"),
            then: key("two"),
        },
        why: "both warm".into(),
        physics: true,
    });
    let mut desk = Desk::with(plan.clone());
    desk.say(crew(2, &[]), T);
    let job = desk.fold().0;
    let none = timetable(&job, &at(T), None).unwrap();
    let Err(NoTimetable::Impossible(found)) = none else {
        panic!("{none:?}");
    };
    let words = words::shortage(&plan, &found, &at(T));
    assert!(words.contains("how many of “Press” there are"), "{words}");
    assert!(words.contains("2 of “Press”"), "{words}");
    assert!(!words.contains("pairs of hands"), "{words}");
}

/// Until somebody says who works, as many hands are assumed as one step asks for.
#[test]
fn law_as_many_hands_are_assumed_as_one_step_asks_for() {
    let desk = Desk::with(two(1, 2));
    assert_eq!(desk.fold().0.bench.crew().hands, 2);
    assert!(table(&desk, T, None).best());
    assert_eq!(Desk::with(two(1, 0)).fold().0.bench.crew().hands, 1);
}

/// Durations between least and most are tried: later than the plan, and some working times run out.
#[test]
fn law_longer_steps_are_tried() {
    let desk = Desk::ready();
    assert_eq!(table(&desk, T, None).tried, None);
    let mut slow = plan();
    slow.steps[2].most = Some(minutes("20 min"));
    let mut desk = Desk::with(slow);
    desk.say(part("ring", Status::AtHand), T);
    desk.say(part("bolts", Status::AtHand), T);
    let table = table(&desk, T, None);
    let tried = table.tried.unwrap();
    // Close may take 8 to 20 minutes and must be done within 10: most tries are too late.
    assert!(tried.missed > 0, "{tried:?}");
    let over = tried.over.map(|over| over > table.finish);
    assert!(over.is_none_or(|later| later), "{tried:?}");
}
