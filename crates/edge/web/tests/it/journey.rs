//! A person measures a pump with ordinary forms, no script.

use crate::bench::Bench;

const SPOTS: [&str; 8] = ["A 12", "A 3", "A 6", "A 9", "B 12", "B 3", "B 6", "B 9"];

#[test]
fn readings_become_a_verdict_and_undo_takes_it_back() {
    let bench = Bench::start();
    let job = bench.ready();
    let measure = format!("{job}/measure");
    assert!(bench.get(&measure).body.contains("No leaf tried yet."));

    for (at, spot) in SPOTS.iter().enumerate() {
        let id = format!("read-{at}");
        let reply = bench.post(
            &format!("{job}/act/reading"),
            &[("id", id.as_str()), ("spot", spot), ("reading", "13-14")],
        );
        assert_eq!(reply.status, 303, "{}", reply.body);
    }
    let page = bench.get(&measure).body;
    assert!(page.contains("In tolerance all round."));
    assert!(page.contains("Take this result?"));

    assert_eq!(
        bench
            .post(&format!("{job}/act/undo"), &[("id", "undo-1")])
            .status,
        303
    );
    let page = bench.get(&measure).body;
    assert!(page.contains("Not decided yet: 1 spot still to read."));

    assert_eq!(
        bench
            .post(&format!("{job}/act/redo"), &[("id", "redo-1")])
            .status,
        303
    );
    assert!(bench.get(&measure).body.contains("In tolerance all round."));
}

#[test]
fn a_leaf_walk_asks_one_leaf_round_and_then_the_next() {
    let bench = Bench::start();
    let job = bench.ready();
    let mut asked = Vec::new();
    for at in 0..9 {
        let page = bench.get(&format!("{job}/measure")).body;
        let question = page.split("<b>Next: </b>").nth(1).unwrap();
        let (question, _) = question.split_once("</p>").unwrap();
        asked.push(question.replace("<strong>", "").replace("</strong>", ""));
        let value = |name: &str| {
            let form = page.split("act/try").nth(1).unwrap();
            let value = form
                .split(&format!("name=\"{name}\" value=\""))
                .nth(1)
                .unwrap();
            value.split('"').next().unwrap().to_owned()
        };
        let id = format!("try-{at}");
        let (spot, leaf, unit) = (value("spot"), value("leaf"), value("unit"));
        let fields = [
            ("id", id.as_str()),
            ("spot", spot.as_str()),
            ("leaf", leaf.as_str()),
            ("unit", unit.as_str()),
            ("answer", "goes free"),
        ];
        assert_eq!(bench.post(&format!("{job}/act/try"), &fields).status, 303);
    }
    assert_eq!(asked[0], "Blade A at 12. Does the 12\u{a0}thou leaf go?");
    assert_eq!(asked[1], "Blade A at 3. Does the 12\u{a0}thou leaf go?");
    assert_eq!(asked[7], "Blade B at 9. Does the 12\u{a0}thou leaf go?");
    assert_eq!(asked[8], "Blade A at 12. Does the 13\u{a0}thou leaf go?");
}

#[test]
fn a_taken_result_is_on_the_record_and_says_when_it_no_longer_holds() {
    let bench = Bench::start();
    let job = bench.ready();
    for (at, spot) in SPOTS.iter().enumerate() {
        let id = format!("read-{at}");
        let fields = [("id", id.as_str()), ("spot", spot), ("reading", "13-14")];
        bench.post(&format!("{job}/act/reading"), &fields);
    }
    let page = bench.get(&format!("{job}/measure")).body;
    let evidence = page.split("name=\"evidence\" value=\"").nth(1).unwrap();
    let evidence = evidence.split('"').next().unwrap();

    let stale = bench.post(
        &format!("{job}/act/accept"),
        &[("id", "take-0"), ("evidence", "0000")],
    );
    assert_eq!(stale.status, 422);
    let taken = bench.post(
        &format!("{job}/act/accept"),
        &[("id", "take-1"), ("evidence", evidence)],
    );
    assert_eq!(taken.status, 303, "{}", taken.body);
    let record = bench.get(&format!("{job}/record")).body;
    assert!(record.contains("Told then"));
    assert!(record.contains("the same"));

    let fields = [("id", "read-9"), ("spot", "A 12"), ("reading", "15-16")];
    bench.post(&format!("{job}/act/reading"), &fields);
    let record = bench.get(&format!("{job}/record")).body;
    assert!(record.contains("readings or limits that have changed since"));
}

#[test]
fn sending_twice_records_once_and_an_id_is_not_taken_for_other_content() {
    let bench = Bench::start();
    let job = bench.ready();
    let reading = format!("{job}/act/reading");
    let first = [("id", "same-id"), ("spot", "A 12"), ("reading", "13-14")];
    assert_eq!(bench.post(&reading, &first).status, 303);
    assert_eq!(bench.post(&reading, &first).status, 303);
    let page = bench.get(&format!("{job}/measure")).body;
    assert!(
        page.contains("data-position=\"5\""),
        "open, pump, leaves, limits, one reading"
    );

    let other = [("id", "same-id"), ("spot", "A 12"), ("reading", "14-15")];
    let refused = bench.post(&reading, &other);
    assert_eq!(refused.status, 422, "{}", refused.body);
    assert!(refused.body.contains("same-id"));
    assert!(
        refused.body.contains("value=\"14-15\""),
        "what was typed is still there"
    );
    let page = bench.get(&format!("{job}/measure")).body;
    assert!(page.contains("data-position=\"5\"") && page.contains("13–14"));
}

#[test]
fn opening_twice_with_one_form_opens_one_job() {
    let bench = Bench::start();
    let fields = [
        ("id", "open-7"),
        ("title", "Jet boat: ring worn"),
        ("note", ""),
    ];
    let (first, second) = (
        bench.post("/act/open", &fields),
        bench.post("/act/open", &fields),
    );
    assert_eq!((first.status, second.status), (303, 303), "{}", second.body);
    assert_eq!(first.headers["location"], second.headers["location"]);
    assert!(bench.get("/").body.contains("1 job on the bench."));
}

/// A joint of four screws, the manual's figure in both units. Invented.
const JOINT: [(&str, &str); 12] = [
    ("joint", ""),
    ("name", "Housing to stator"),
    ("thread", "M8"),
    ("count", "4"),
    ("head", "hex"),
    ("class", "stainless-70"),
    ("hole", "aluminium"),
    ("torque", "22"),
    ("second", "16"),
    ("stated_for", "threadlocker"),
    ("condition", "threadlocker"),
    ("face", "bare"),
];

#[test]
fn a_joint_is_described_counted_torqued_and_marked() {
    let bench = Bench::start();
    let job = bench.ready();
    let torque = format!("{job}/torque");
    let back = ("back", torque.as_str());
    assert!(bench.get(&torque).body.contains("No joint described yet."));

    let slip: Vec<_> = JOINT
        .into_iter()
        .map(|(key, value)| {
            if key == "second" {
                (key, "160")
            } else {
                (key, value)
            }
        })
        .chain([("id", "joint-1"), back])
        .collect();
    let described = bench.post(&format!("{job}/act/joint"), &slip);
    assert_eq!(described.status, 303, "{}", described.body);
    assert_eq!(described.headers["location"], torque);
    let page = bench.get(&torque).body;
    assert!(page.contains("Do not torque Housing to stator yet."));
    assert!(page.contains("do not agree; one slip would explain it"));

    let mended: Vec<_> = JOINT
        .into_iter()
        .map(|(key, value)| {
            if key == "joint" {
                (key, "housing-to-stator")
            } else {
                (key, value)
            }
        })
        .chain([("id", "joint-2"), back])
        .collect();
    assert_eq!(bench.post(&format!("{job}/act/joint"), &mended).status, 303);
    let page = bench.get(&torque).body;
    assert!(page.contains("0 of 1 joint torqued and marked."));
    assert!(page.contains("in the order 1, 3, 2, 4"));

    let count = |id: &str, counts: [&str; 3]| {
        let [in_place, torqued, marked] = counts;
        let fields = [
            ("id", id),
            ("joint", "housing-to-stator"),
            ("in", in_place),
            ("torqued", torqued),
            ("marked", marked),
            back,
        ];
        bench.post(&format!("{job}/act/fasten"), &fields)
    };
    let refused = count("count-0", ["4", "5", "0"]);
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("5 is too many: 4 are in."));
    assert_eq!(count("count-1", ["4", "0", "0"]).status, 303);
    let page = bench.get(&torque).body;
    assert!(page.contains("Pass 1 of 3 at 11.0\u{a0}N·m: now number 1"));
    assert_eq!(count("count-2", ["4", "4", "0"]).status, 303);
    assert!(bench.get(&torque).body.contains("are all 4 marked?"));
    assert_eq!(count("count-3", ["4", "4", "4"]).status, 303);
    let page = bench.get(&torque).body;
    assert!(page.contains("Every joint is torqued and marked."));
    assert!(page.contains("1 of 1 joints done"));
    let undone = bench.post(&format!("{job}/act/undo"), &[("id", "undo-9"), back]);
    assert_eq!(
        undone.headers["location"], torque,
        "undo leads back to where it was pressed"
    );
    assert!(bench.get(&torque).body.contains("are all 4 marked?"));
}

#[test]
fn a_joint_goes_round_pass_by_pass() {
    let bench = Bench::start();
    let job = bench.ready();
    let torque = format!("{job}/torque");
    let back = ("back", torque.as_str());
    let described: Vec<_> = JOINT.into_iter().chain([("id", "joint-1"), back]).collect();
    assert_eq!(
        bench.post(&format!("{job}/act/joint"), &described).status,
        303
    );
    let all_in = [
        ("id", "in"),
        ("joint", "housing-to-stator"),
        ("in", "4"),
        ("torqued", "0"),
        ("marked", "0"),
        back,
    ];
    assert_eq!(
        bench.post(&format!("{job}/act/fasten"), &all_in).status,
        303
    );
    let going = |id: &str, pass: &str, gone: &str| {
        let counts = [("in", "4"), ("torqued", "0"), ("marked", "0")];
        let way = [
            ("id", id),
            ("joint", "housing-to-stator"),
            ("pass", pass),
            ("gone", gone),
            back,
        ];
        let fields = [&counts[..], &way[..]].concat();
        bench.post(&format!("{job}/act/fasten"), &fields)
    };
    assert_eq!(going("pass-1", "1", "4").status, 303);
    let page = bench.get(&torque).body;
    assert!(page.contains("Pass 2 of 3 at 22.0\u{a0}N·m: now number 1"));
    assert_eq!(going("pass-2", "2", "1").status, 303);
    let page = bench.get(&torque).body;
    assert!(page.contains("now number 2, that is screw 3 clockwise from the top"));
    assert!(
        page.contains("1 through pass 2 of 3."),
        "in the drawing too"
    );
    let refused = going("pass-3", "3", "1");
    assert!(refused.body.contains("2 passes come before the last"));
}

#[test]
fn a_spot_read_twice_says_whether_it_holds() {
    let bench = Bench::start();
    let job = bench.ready();
    let read = |id: &str, spot: &str, reading: &str| {
        let fields = [("id", id), ("spot", spot), ("reading", reading)];
        assert_eq!(
            bench.post(&format!("{job}/act/reading"), &fields).status,
            303
        );
    };
    read("one", "A 12", "13-14");
    read("two", "A 12", "13-14");
    let measure = format!("{job}/measure");
    assert!(
        bench
            .get(&measure)
            .body
            .contains("1 spot read twice, and alike.")
    );
    read("three", "A 12", "15-16");
    let page = bench.get(&measure).body;
    assert!(
        page.contains("read 13–14 before and reads 15–16 now, thou"),
        "{page}"
    );
}
