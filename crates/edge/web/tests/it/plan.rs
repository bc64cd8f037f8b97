//! A plan by taps, without script. All of it is invented.

use quantity::{Unit, parse};
use workshop::entry::Key;
use workshop::plan::{Ask, Opens, Plan, Rule, Step};

use crate::bench::Bench;

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn step(name: &str) -> Step {
    Step {
        key: Key::of_name(name).unwrap(),
        name: name.into(),
        takes: parse("5", Unit::Minute).unwrap(),
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

fn plan() -> Plan {
    let rule = |ask| Rule {
        ask,
        why: "invented sheet".into(),
        physics: true,
    };
    let (first, then) = (key("spread"), key("close"));
    Plan {
        name: "Spring".into(),
        steps: vec![
            Step {
                caution: "Goggles <on>.".into(),
                ..step("Spread")
            },
            Step {
                fasteners: Some(6),
                ..step("Close")
            },
        ],
        rules: vec![
            rule(Ask::After {
                first: first.clone(),
                then: then.clone(),
                lag: None,
            }),
            rule(Ask::FinishedWithin {
                first,
                then,
                most: parse("10", Unit::Minute).unwrap(),
            }),
        ],
        parts: Vec::new(),
        tools: Vec::new(),
        items: Vec::new(),
    }
}

#[test]
fn a_plan_is_worked_off_by_taps_and_its_clock_is_on_every_page() {
    let bench = Bench::start();
    let job = bench.ready();
    let page = format!("{job}/assemble");
    assert!(bench.get(&page).body.contains("No plan yet."));
    bench.lay(job.rsplit('/').next().unwrap(), plan());

    let seen = bench.get(&page).body;
    assert!(seen.contains("May not float yet: 0 of 2 steps are done."));
    assert!(seen.contains("Caution: Goggles &lt;on&gt;."), "{seen}");
    let mut count = 0;
    let mut tap = |form: &str, more: &[(&str, &str)]| {
        count += 1;
        let id = format!("tap-{count}");
        let fields = [&[("id", id.as_str()), ("back", page.as_str())], more].concat();
        bench.post(&format!("{job}/act/{form}"), &fields)
    };
    let early = tap("begin", &[("step", "close")]);
    assert_eq!(early.status, 422);
    assert!(
        early.body.contains("“Spread” is not done"),
        "{}",
        early.body
    );

    let begun = tap("begin", &[("step", "spread")]);
    assert_eq!(begun.status, 303, "{}", begun.body);
    assert_eq!(begun.headers["location"], page);
    assert!(bench.get(&page).body.contains("Is it done?"));
    assert_eq!(tap("done", &[("step", "spread")]).status, 303);
    for page in ["assemble", "measure", "torque", "record", "sheet"] {
        let seen = bench.get(&format!("{job}/{page}")).body;
        assert!(seen.contains("Spread: “Close” done by "), "{page}: {seen}");
        assert!(seen.contains("data-left"), "{page}");
    }

    let counted = tap("fasteners", &[("step", "close"), ("count", "4")]);
    assert_eq!(counted.status, 303, "{}", counted.body);
    let many = tap("fasteners", &[("step", "close"), ("count", "9")]);
    assert_eq!(many.status, 422);
    assert!(
        many.body
            .contains("9 are too many: there are 6. Count again.")
    );
    assert!(many.body.contains("value=\"9\""), "what was typed is kept");
    assert_eq!(tap("done", &[("step", "close")]).status, 303);
    let seen = bench.get(&page).body;
    assert!(seen.contains("4 of 6 fasteners in"), "{seen}");
    assert!(!seen.contains("data-left"), "no clock runs any more");
    assert_eq!(tap("undo", &[]).status, 303);
    assert!(bench.get(&page).body.contains("1 of 2 steps is done."));
}

#[test]
fn a_step_pointed_at_is_the_one_asked_about() {
    let bench = Bench::start();
    let job = bench.ready();
    bench.lay(job.rsplit('/').next().unwrap(), plan());
    let seen = bench.get(&format!("{job}/assemble?step=close")).body;
    assert!(seen.contains("Done before, not witnessed"));
    assert!(seen.contains("Leave it off"));
    let stranger = bench.get(&format!("{job}/assemble?step=%3Cb%3E"));
    assert_eq!(stranger.status, 200);
}
