//! The usual plan by one form. All of it is invented.

use crate::bench::{Bench, Reply};

const ANSWERS: [(&str, &str); 6] = [
    ("ring", "bonded"),
    ("driveline", "dial"),
    ("shoe", "stays"),
    ("bearing", "oil"),
    ("has", "trim"),
    ("has", "by-wire"),
];

fn lay(bench: &Bench, job: &str, id: &str, more: &[(&str, &str)]) -> Reply {
    let back = format!("{job}/assemble");
    let own = [("id", id), ("back", back.as_str())];
    bench.post(
        &format!("{job}/act/usual"),
        &[&own[..], &ANSWERS[..], more].concat(),
    )
}

#[test]
fn law_the_usual_plan_is_laid_from_answers_and_says_that_it_is_from_no_manual() {
    let bench = Bench::start();
    let job = bench.ready();
    for page in ["assemble", "plan"] {
        let seen = bench.get(&format!("{job}/{page}")).body;
        assert!(seen.contains("Lay the usual plan"), "{page}: {seen}");
        assert!(seen.contains("from no manual"), "{page}");
    }
    let laid = lay(&bench, &job, "lay-1", &[("housing", "6")]);
    assert_eq!(laid.status, 303, "{}", laid.body);
    let seen = bench.get(&format!("{job}/assemble")).body;
    assert!(seen.contains("Record it as found"), "{seen}");
    assert!(seen.contains("Usual rebuild, from no manual: assumed."));
    assert!(seen.contains("Set the ring and hold it") && seen.contains("Sensors relearned"));
    assert!(!seen.contains("Press the new ring in") && !seen.contains("Gauge bar"));

    let seen = bench.get(&format!("{job}/plan")).body;
    assert!(seen.contains("The plan fits:"), "{seen}");
    for heading in ["Wet systems", "0 of 8 done", "To account for"] {
        assert!(seen.contains(heading), "{heading}: {seen}");
    }
    let seen = bench.get(&format!("{job}/plan?step=spread")).body;
    assert!(seen.contains("working time: assumed, from no manual"));
    assert!(seen.contains("wipe off, degrease and spread anew"));
}

#[test]
fn law_a_plan_that_is_there_is_not_overwritten() {
    let bench = Bench::start();
    let job = bench.ready();
    assert_eq!(lay(&bench, &job, "lay-1", &[]).status, 303);
    // The same tap sent again is the same plan; another is refused.
    assert_eq!(lay(&bench, &job, "lay-1", &[]).status, 303);
    let again = lay(&bench, &job, "lay-2", &[]);
    assert_eq!(again.status, 422);
    let why = "This job has a plan already, “Usual rebuild, from no manual”, and it stays.";
    assert!(again.body.contains(why), "{}", again.body);
    let undo = [("id", "undo-1"), ("back", job.as_str())];
    assert_eq!(bench.post(&format!("{job}/act/undo"), &undo).status, 303);
    assert_eq!(lay(&bench, &job, "lay-3", &[]).status, 303);
}

#[test]
fn law_answers_that_cannot_be_are_refused_and_kept() {
    let bench = Bench::start();
    let job = bench.ready();
    let refused = lay(&bench, &job, "lay-1", &[("plate", "0"), ("grate", "4")]);
    assert_eq!(refused.status, 422);
    for words in [
        "1 to 99, or nothing where they are not counted",
        "value=\"0\"",
        "value=\"4\"",
        "value=\"bonded\" selected",
        "value=\"by-wire\" checked",
    ] {
        assert!(refused.body.contains(words), "{words}: {}", refused.body);
    }
}

/// What is not in the form would be lost when a step is said anew.
#[test]
fn regress_a_step_said_anew_keeps_how_it_is_done() {
    let bench = Bench::start();
    let job = bench.ready();
    assert_eq!(lay(&bench, &job, "lay-1", &[]).status, 303);
    let seen = bench.get(&format!("{job}/plan?step=pump-in")).body;
    for field in ["group", "how", "hands", "tools", "needs"] {
        assert!(seen.contains(&format!("name=\"{field}\"")), "{field}");
    }
    assert!(seen.contains("never drawn in by the bolts"), "{seen}");
}

#[test]
fn law_several_parts_are_said_to_be_here_at_once() {
    let bench = Bench::start();
    let job = bench.ready();
    assert_eq!(lay(&bench, &job, "lay-1", &[]).status, 303);
    let page = bench.get(&format!("{job}/assemble")).body;
    let untold = |page: &str| page.matches("nobody has said where it is").count();
    let before = untold(&page);
    assert!(before > 10, "{before}");
    // The keys as the form offers them.
    let offered = page.split("name=\"parts\" value=\"").skip(1);
    let keys: Vec<&str> = offered.filter_map(|rest| rest.split('"').next()).collect();
    assert_eq!(keys.len(), before);
    let at = (job.as_str(), "assemble");
    let ticked = [("parts", keys[0]), ("parts", keys[1]), ("parts", keys[4])];
    let page = bench.kept(at, ("parts", "here-1"), &ticked);
    assert_eq!(untold(&page), before - 3);
    // Sent again it says nothing new; each is one act, and can be undone by itself.
    let page = bench.kept(at, ("parts", "here-1"), &ticked);
    assert_eq!(untold(&page), before - 3);
    let page = bench.kept(at, ("undo", "back-1"), &[]);
    assert_eq!(untold(&page), before - 2);
    // Nothing ticked, and a part that there is none of.
    let none = bench.send(at, ("parts", "here-2"), &[]);
    assert_eq!(none.status, 422);
    assert!(
        none.body.contains("This is empty and must be filled in."),
        "{}",
        none.body
    );
    let wrong = bench.send(at, ("parts", "here-3"), &[("parts", "no-such-part")]);
    assert_eq!(wrong.status, 422);
}
