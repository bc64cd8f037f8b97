//! Steps done again, estimates, and what a step is left off for. All of it is invented.

use workshop::draft::bench::CrewDraft;
use workshop::plan::Work;

use crate::work::{Desk, begun, done, key, minutes, plan};

const T: &str = "2026-11-24T14:02:00";

fn again(step: &str) -> Work {
    Work::StepAgain {
        step: key(step),
        reason: "skinned, wiped off".into(),
    }
}

/// The way out of a working time that has run out: wipe, and do the steps again from the last back.
#[test]
fn practice_a_skinned_joint_is_wiped_and_spread_again() {
    let mut desk = Desk::ready();
    assert_eq!(
        desk.refused(again("spread"), T),
        "“spread” was never begun, so it cannot be done again. Begin it."
    );
    desk.say(begun("spread"), T);
    desk.say(done("spread"), "2026-11-24T14:10:00");
    desk.say(begun("close"), "2026-11-24T14:12:00");
    assert!(
        desk.refused(again("spread"), T)
            .contains("“close”, which rests on it, has begun")
    );
    desk.say(again("close"), "2026-11-24T14:30:00");
    desk.say(again("spread"), "2026-11-24T14:31:00");
    let spread = desk.fold().0.bench.of(&key("spread"));
    assert_eq!(spread.again.unwrap().value, "skinned, wiped off");
    assert_eq!((spread.begun, spread.done), (None, None));
    let assembly = desk.look("2026-11-24T14:31:00");
    assert!(assembly.clocks.is_empty() && assembly.broken.is_empty());
    desk.say(begun("spread"), "2026-11-24T14:35:00");
    assert_eq!(desk.fold().0.bench.of(&key("spread")).again, None);
}

/// What a person says of the time a step will take counts from then on, for its clock too.
#[test]
fn law_an_estimate_replaces_the_time_of_the_plan() {
    let mut desk = Desk::ready();
    let slow = |takes: &str, most: Option<&str>| Work::StepEstimated {
        step: key("close"),
        takes: minutes(takes),
        most: most.map(minutes),
    };
    assert!(
        desk.refused(slow("12 min", Some("8 min")), T)
            .contains("8 min")
    );
    desk.say(slow("9 min", Some("14 min")), T);
    assert_eq!(
        desk.refused(begun("spread"), T),
        "“spread” may not begin yet: what must follow in time does not fit: 4\u{a0}min short."
    );
    desk.say(slow("9 min", None), T);
    desk.say(begun("spread"), T);
}

/// Two steps left off that wait for each other would never be done.
#[test]
fn law_steps_left_off_do_not_wait_for_each_other() {
    let mut desk = Desk::with(plan());
    let off = |step: &str, until: &str| Work::StepDeferred {
        step: key(step),
        reason: "no light".into(),
        release: "see the other".into(),
        until: Some(key(until)),
    };
    assert!(
        desk.refused(off("spread", "spread"), T)
            .contains("neither would ever be done")
    );
    // Launch comes after spread by two rules.
    let words = desk.refused(off("spread", "launch"), T);
    assert!(
        words.starts_with("“spread” cannot be left off until “launch” is done"),
        "{words}"
    );
    desk.say(off("launch", "press"), T);
    let words = desk.refused(off("press", "launch"), T);
    assert!(words.contains("“launch” waits for “press”"), "{words}");
    assert!(
        desk.refused(off("press", "nowhere"), T)
            .contains("no step “nowhere”")
    );
}

/// Hours are read as they are written on a shop door, and written back the same.
#[test]
fn law_hours_come_back_as_written() {
    let read = |hours: &str| {
        let hands = "2".to_owned();
        let hours = hours.to_owned();
        CrewDraft { hands, hours }.read()
    };
    for (typed, written) in [
        ("", ""),
        (
            "mon-fri 18:00-21:00; sat 9-17",
            "mon-fri 18:00-21:00; sat 09:00-17:00",
        ),
        (
            "Monday, Wed, thursday 18:30–0:00",
            "mon, wed-thu 18:30-00:00",
        ),
        ("Sun 22:00-24:00", "sun 22:00-00:00"),
        ("fri 22:00-02:00", "fri 22:00-02:00"),
    ] {
        let crew = read(typed).unwrap();
        assert_eq!(CrewDraft::of(&crew).hours, written);
        assert_eq!(read(written).unwrap(), crew);
    }
    for wrong in [
        "18:00-21:00",
        "mon",
        "mon 18",
        "fri-mon 9-17",
        "mon mon 9-17",
        "mon 25:00-26:00",
        "m 9-17",
    ] {
        let words = read(wrong).unwrap_err().to_string();
        assert!(
            words.starts_with(&format!("“{wrong}” are no hours.")),
            "{words}"
        );
    }
}
