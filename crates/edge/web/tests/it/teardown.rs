//! The parts looked over by forms, without script. All of it is invented.

use crate::bench::Bench;

const NEW: (&str, &str) = ("finding", "");

#[test]
fn a_finding_is_noted_refused_for_the_file_and_dealt_with() {
    let bench = Bench::start();
    let job = bench.ready();
    let page = bench.get(&format!("{job}/teardown")).body;
    assert!(page.contains("Nothing is taken apart yet, and 0 of 6 things as found are on record."));
    let crack = [
        NEW,
        ("area", "blades"),
        ("which", "b"),
        ("flaw", "root-crack"),
        ("place", "<hub>"),
        ("todo", "dress"),
    ];
    let refused = bench.send((&job, "teardown"), ("finding", "f-1"), &crack);
    assert_eq!(refused.status, 422);
    assert!(
        refused
            .body
            .contains("this is no work for a file. Send it out")
    );
    assert!(
        refused.body.contains("value=\"&lt;hub&gt;\""),
        "what was typed stays"
    );

    let mut sent = crack;
    sent[5] = ("todo", "send-out");
    let page = bench.kept((&job, "teardown"), ("finding", "f-2"), &sent);
    assert!(page.contains("One thing is not fit to go back: blade B (crack at the root)."));
    assert!(page.contains("Look at <strong>the stator vanes</strong>"));
    let page = bench.kept(
        (&job, "teardown"),
        ("finding", "f-3"),
        &[NEW, ("area", "vanes"), ("flaw", "nothing"), ("todo", "fit")],
    );
    assert!(page.contains("Looked over, nothing found"));

    let key = ("finding", "blades-b-root-crack");
    let refused = bench.send(
        (&job, "teardown"),
        ("settle", "s-1"),
        &[key, ("how", "accepted")],
    );
    assert_eq!(refused.status, 422);
    assert!(
        refused
            .body
            .contains("This is empty and must be filled in.")
    );
    let page = bench.kept(
        (&job, "teardown"),
        ("settle", "s-2"),
        &[key, ("how", "replaced"), ("reason", "another impeller")],
    );
    assert!(page.contains("Everything inspected may go back."));
    let page = bench.kept((&job, "teardown"), ("undo", "u-1"), &[]);
    assert!(page.contains("One thing is not fit to go back"));
}

#[test]
fn rotor_and_leak_test_are_kept_and_printed() {
    let bench = Bench::start();
    let job = bench.ready();
    bench.kept(
        (&job, "teardown"),
        ("rotor", "r-1"),
        &[
            ("float_aft", "0,05"),
            ("float_forward", "-0.10"),
            ("float_limit", "0.3"),
            ("page", "5-9"),
            ("spin", "gritty"),
            ("track", "groove"),
        ],
    );
    let leak = [
        ("push", "pressure"),
        ("start", "10 psi"),
        ("end", "40"),
        ("hold", "10"),
        ("step", "1"),
        ("allowed", "5"),
        ("page", "5-11"),
    ];
    let page = bench.kept((&job, "teardown"), ("leak", "l-1"), &leak);
    assert!(
        page.contains("Two things are not fit to go back: a gritty bearing; the housing leaks.")
    );
    assert!(
        page.contains("over 99\u{a0}% within"),
        "end float keeps its limit"
    );
    let sheet = bench.get(&format!("{job}/sheet")).body;
    for words in ["told then: it leaks", "a gritty bearing"] {
        assert!(sheet.contains(words), "{words}");
    }
    let record = bench.get(&format!("{job}/record")).body;
    assert!(record.contains("leak test by pressure: it leaks"));
}

#[test]
fn what_surrounds_the_gap_is_kept_and_printed() {
    let bench = Bench::start();
    let job = bench.ready();
    let reread = [
        ("clock_12", "13-14"),
        ("clock_3", "13-14"),
        ("clock_6", "13-14"),
        ("clock_9", "13-14"),
        ("turns", "free"),
    ];
    let page = bench.kept((&job, "teardown"), ("reread", "g-1"), &reread);
    assert!(page.contains("within limits, turns free"));
    let visits = [("12", "12-13"), ("60", "13-14"), ("120", "14-15")];
    for (n, (hours, gap)) in visits.into_iter().enumerate() {
        let id = format!("v-{n}");
        let visit = [
            ("visit", ""),
            ("hours", hours),
            ("gap", gap),
            ("figure", "mean"),
        ];
        bench.kept((&job, "teardown"), ("visit", &id), &visit);
    }
    let sizes = [
        ("bore_12", "140.1"),
        ("bore_3", "140.2"),
        ("impeller", "139.5"),
        ("method", "two-tips"),
    ];
    bench.kept((&job, "teardown"), ("sizes", "d-1"), &sizes);
    let ring = [
        ("seat", "plastic-bonded"),
        ("polymer", "nylon"),
        ("wall", "6"),
        ("soaked", "dry"),
        ("turning", "stainless"),
        ("bench", "20"),
        ("water", "45 °F"),
    ];
    bench.kept((&job, "teardown"), ("ring", "n-1"), &ring);
    let cone = [
        ("half_angle", "8"),
        ("fitted", "0"),
        ("shims", "0.1 0.3"),
        ("stack", "opens"),
    ];
    let page = bench.kept((&job, "teardown"), ("cone", "c-1"), &cone);
    for words in [
        "If nothing but ordinary wear comes: the mean gap meets",
        "Mean gap by the diameters",
        "The gap in the water you ride in changes by",
        "Take a result on the Measure page, with both radial limits",
        "The line at",
    ] {
        assert!(page.contains(words), "{words}");
    }
    let sheet = bench.get(&format!("{job}/sheet")).body;
    for words in [
        "Wear over the visits",
        "Bore 12–6",
        "within limits, turns free",
    ] {
        assert!(sheet.contains(words), "{words}");
    }
}

/// One thing at a time, while nothing is taken apart; then the parts are asked for.
#[test]
fn the_as_found_record_is_asked_for_before_anything_turns() {
    let bench = Bench::start();
    let job = bench.ready();
    let here = (job.as_str(), "teardown");
    let new = ("found", "");
    let page = bench.get(&format!("{job}/teardown")).body;
    assert!(page.contains("Roll the hull only to the side its manual allows"));
    assert!(
        page.contains("Before anything turns: <strong>the gap</strong>"),
        "{page}"
    );
    let gap = [new, ("sort", "gap"), ("gap", "18-<13")];
    let refused = bench.send(here, ("as-found", "a-0"), &gap);
    assert_eq!(refused.status, 422);
    assert!(
        refused.body.contains("value=\"18-&lt;13\""),
        "what was typed stays"
    );
    let page = bench.kept(
        here,
        ("as-found", "a-1"),
        &[new, ("sort", "gap"), ("gap", "13-18")],
    );
    assert!(page.contains("and 1 of 6 things as found are on record."));
    assert!(page.contains("All in line"), "{page}");
    let marks = [
        new,
        ("sort", "witness-marks"),
        ("at", "all flanges"),
        ("marks", "in-line"),
    ];
    bench.kept(here, ("as-found", "a-2"), &marks);
    let shims = [
        new,
        ("sort", "shims"),
        ("at", "mounts"),
        ("shims", "A: 0.2, 0.5; B: none"),
    ];
    let page = bench.kept(here, ("as-found", "a-3"), &shims);
    assert!(page.contains("<strong>0.70\u{a0}mm</strong>"), "{page}");
    bench.kept(
        here,
        ("as-found", "a-4"),
        &[new, ("sort", "hose"), ("state", "none")],
    );
    let cable = [
        new,
        ("sort", "cable"),
        ("at", "Steering cable"),
        ("threads", "7"),
    ];
    bench.kept(here, ("as-found", "a-5"), &cable);
    let page = bench.kept(
        here,
        ("as-found", "a-6"),
        &[new, ("sort", "ring"), ("clock", "4:30")],
    );
    assert!(page.contains("The as-found record is complete: it may be taken apart."));
    assert!(page.contains("Look at <strong>the blades</strong>"));
}

/// Where it is needed again, and what differs.
#[test]
fn what_was_found_stands_on_its_card_and_on_the_sheet() {
    let bench = Bench::start();
    let job = bench.ready();
    let cable = [
        ("found", ""),
        ("sort", "cable"),
        ("at", "Steering cable"),
        ("threads", "7"),
    ];
    bench.kept((&job, "teardown"), ("as-found", "a-5"), &cable);
    let fit = [
        ("fit", ""),
        ("kind", "cable"),
        ("name", "Steering cable"),
        ("threads", "5"),
    ];
    let page = bench.kept((&job, "torque"), ("fit", "f-1"), &fit);
    assert!(page.contains("As found, Steering cable: 7 threads showing."));
    assert!(
        page.contains("As found 7 threads showed, and 5 are said here."),
        "{page}"
    );
    let sheet = bench.get(&format!("{job}/sheet")).body;
    assert!(sheet.contains("As found: Cable: Steering cable"), "{sheet}");
    assert!(sheet.contains("Roll the hull only"));
}

#[test]
fn the_list_grows_and_says_where_things_are() {
    let bench = Bench::start();
    let job = bench.ready();
    let here = (job.as_str(), "teardown");
    let snapped = [
        NEW,
        ("area", "bolts"),
        ("which", "upper left"),
        ("flaw", "snapped"),
        ("todo", "repair"),
    ];
    let page = bench.kept(here, ("finding", "f-1"), &snapped);
    assert!(page.contains("stops the craft from floating"));
    assert!(page.contains("Screw extractor"));
    assert!(page.contains("goggles on. A drill or an extractor breaks"));
    let order = [
        ("supply", "extractor"),
        ("status", "on-order"),
        ("expected", "2026-05-09"),
    ];
    let page = bench.kept(here, ("supply", "s-1"), &order);
    assert!(page.contains("on order, expected"));
    let refused = bench.send(here, ("supply", "s-2"), &[("status", "missing")]);
    assert_eq!(refused.status, 422);
    let pin = [
        ("name", "Pin <for> the gate"),
        ("group", "part"),
        ("status", "missing"),
    ];
    let page = bench.kept(here, ("new-supply", "s-3"), &pin);
    assert!(page.contains("Pin &lt;for&gt; the gate"));
    // It may matter less, with a reason.
    let milder = [
        ("finding", "bolts-upper-left-snapped"),
        ("area", "bolts"),
        ("which", "upper left"),
        ("flaw", "snapped"),
        ("severity", "watch"),
        ("todo", "repair"),
    ];
    let refused = bench.send(here, ("finding", "f-2"), &milder);
    assert_eq!(refused.status, 422);
    assert!(
        refused
            .body
            .contains("It usually stops the craft from floating.")
    );
}
