//! Service, by forms without script. All of it is invented.

use crate::bench::Bench;

/// The evidence that the button sends along.
fn evidence(page: &str) -> String {
    let form = page.split("act/close-job").nth(1).unwrap();
    let value = form.split("name=\"evidence\" value=\"").nth(1).unwrap();
    value.split('"').next().unwrap().to_owned()
}

const POINTS: [&str; 9] = [
    "cone",
    "marks",
    "plate",
    "grate",
    "gap",
    "shaft",
    "lubricant",
    "hoses",
    "bilge",
];

#[test]
fn nine_points_are_looked_at_and_the_job_is_closed_as_it_was_shown() {
    let bench = Bench::start();
    let job = bench.ready();
    let at = (job.as_str(), "service");
    let page = bench.get(&format!("{job}/service")).body;
    assert!(page.contains("9 points, none looked at yet"), "{page}");
    assert!(page.contains("battery off before a hand is in the pump"));
    for (point, found) in [("moon", "well"), ("cone", "perhaps"), ("", "well")] {
        let typed = [
            ("point", point),
            ("found", found),
            ("note", "as typed"),
            ("from", "list"),
        ];
        let refused = bench.send(at, ("recheck", "r-0"), &typed);
        assert_eq!(refused.status, 422, "{point} {found}");
    }
    for (place, point) in POINTS.into_iter().enumerate() {
        let id = format!("r-{point}");
        let found = if point == "hoses" { "amiss" } else { "well" };
        let typed = [("point", point), ("found", found), ("note", "a note <b>")];
        let page = bench.kept(at, ("recheck", &id), &typed);
        if place < 7 {
            let left = format!("{} of 9 points left", 8 - place);
            assert!(page.contains(&left), "{left}: {page}");
        }
        assert!(!page.contains("close-job"), "{point}");
        assert!(
            page.contains("a note &lt;b&gt;"),
            "what is typed is no page"
        );
    }
    let page = bench.get(&format!("{job}/service")).body;
    assert!(page.contains("amiss at hose ends"), "{page}");
    // What is amiss keeps it open, whatever is sent.
    let early = bench.send(at, ("close-job", "c-0"), &[("evidence", "any")]);
    assert_eq!(early.status, 422);
    let page = bench.kept(
        at,
        ("recheck", "r-again"),
        &[("point", "hoses"), ("found", "well")],
    );
    let shown = evidence(&page);
    let page = bench.kept(
        at,
        ("recheck", "r-list"),
        &[
            ("from", "list"),
            ("point", "bilge"),
            ("found", "back"),
            ("note", "gone"),
        ],
    );
    assert!(page.contains("1 of 9 points left"), "{page}");
    let page = bench.kept(
        at,
        ("recheck", "r-bilge-2"),
        &[("point", "bilge"), ("found", "well")],
    );
    let old = bench.send(at, ("close-job", "c-1"), &[("evidence", &shown)]);
    assert_eq!(old.status, 422, "what was shown has changed");
    let page = bench.kept(at, ("close-job", "c-2"), &[("evidence", &evidence(&page))]);
    assert!(!page.contains("close-job"), "{page}");
    assert!(page.contains("job closed on"), "{page}");
    let sheet = bench.get(&format!("{job}/sheet")).body;
    assert!(sheet.contains("All nine points of the recheck were as they should be."));
    let record = bench.get(&format!("{job}/record")).body;
    assert!(
        record.contains("recheck, Bilge: not looked at after all"),
        "{record}"
    );
}

#[test]
fn use_is_told_and_stays_as_typed() {
    let bench = Bench::start();
    let job = bench.ready();
    let at = (job.as_str(), "service");
    let usage = [
        ("currency", "EUR"),
        ("week", "6"),
        ("season", "50"),
        ("from", "05-01"),
        ("until", "10-15"),
        ("water", "silt"),
        ("silt", "1.5"),
        ("failure", "150"),
        ("wage", "0"),
    ];
    let page = bench.kept(at, ("usage", "u-1"), &usage);
    assert!(page.contains("name=\"until\" value=\"10-15\""), "{page}");
    assert!(page.contains("Change how the craft is used"));
    // Typed wrong, all of it stays as typed.
    let half = [
        ("usage", ""),
        ("week", "six"),
        ("season", "50"),
        ("currency", "EUR"),
    ];
    let refused = bench.send(at, ("usage", "u-2"), &half);
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("name=\"week\" value=\"six\""));
    assert!(!refused.body.contains("name=\"until\" value=\"10-15\""));
}

#[test]
fn sorts_of_part_and_pieces_are_told() {
    let bench = Bench::start();
    let job = bench.ready();
    let at = (job.as_str(), "service");
    let ring = [
        ("name", "Plastic ring"),
        ("kind", "ring"),
        ("tenth", "60"),
        ("half", "110"),
        ("price", "62"),
        ("labour", "3"),
    ];
    let page = bench.kept(at, ("sort", "s-1"), &ring);
    assert!(page.contains("Plastic ring"), "{page}");
    assert!(page.contains("name=\"sort\" value=\"plastic-ring\""));
    // The same name once more is another sort; the key sent along is the same one.
    let page = bench.kept(at, ("sort", "s-2"), &ring);
    assert!(page.contains("name=\"sort\" value=\"plastic-ring-2\""));
    let page = bench.kept(at, ("sort-off", "s-3"), &[("sort", "plastic-ring-2")]);
    assert!(!page.contains("plastic-ring-2"));
    let alone = [
        ("sort", ""),
        ("name", "Metal ring"),
        ("tenth", "100"),
        ("half", ""),
    ];
    let refused = bench.send(at, ("sort", "s-4"), &alone);
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("stands alone"), "{}", refused.body);

    let piece = [
        ("part", "plastic-ring"),
        ("fitted", "28"),
        ("end", ""),
        ("ended", ""),
    ];
    let page = bench.kept(at, ("piece", "p-1"), &piece);
    assert!(page.contains("Fitted at 28\u{a0}h"), "{page}");
    let ended = [
        ("part", "plastic-ring"),
        ("piece", "plastic-ring"),
        ("fitted", "28"),
        ("end", "worn"),
        ("ended", "20"),
    ];
    let refused = bench.send(at, ("piece", "p-2"), &ended);
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("is not after"), "{}", refused.body);
}

#[test]
fn the_meter_rules_tasks_and_mishaps_are_told() {
    let bench = Bench::start();
    let job = bench.ready();
    let at = (job.as_str(), "service");
    let meter = [("hours", "88"), ("on", "2026-05-02")];
    bench.kept(at, ("meter", "m-1"), &meter);
    let back = bench.send(
        at,
        ("meter", "m-2"),
        &[("meter", ""), ("hours", "80"), ("on", "2026-05-03")],
    );
    assert_eq!(back.status, 422);
    assert!(back.body.contains("never runs backwards"));

    let own = [
        ("from", "list"),
        ("task", ""),
        ("name", "Trim tabs"),
        ("months", "6"),
    ];
    let page = bench.kept(at, ("task-rule", "t-1"), &own);
    assert!(
        page.contains("Change when it falls due: Trim tabs"),
        "{page}"
    );
    let nameless = [
        ("from", "list"),
        ("task", ""),
        ("name", ""),
        ("months", "6"),
    ];
    assert_eq!(bench.send(at, ("task-rule", "t-2"), &nameless).status, 422);
    let stated = [
        ("from", "list"),
        ("task", "lubricant"),
        ("hours", "40"),
        ("page", "3-2"),
    ];
    let page = bench.kept(at, ("task-rule", "t-3"), &stated);
    assert!(page.contains("Back to general practice"));
    let changed = [("rule", "lubricant"), ("hours", "45"), ("page", "3-2")];
    let page = bench.kept(at, ("task-rule", "t-4"), &changed);
    assert!(page.contains("name=\"hours\" value=\"45\""), "{page}");
    let done = [
        ("from", "list"),
        ("task", "trim-tabs"),
        ("on", ""),
        ("note", "dry"),
    ];
    bench.kept(at, ("task-done", "d-1"), &done);
    let page = bench.kept(at, ("task-rule-off", "t-5"), &[("task", "lubricant")]);
    assert!(!page.contains("Back to general practice"));

    let mishap = [("what", "strike"), ("on", "2026-05-03"), ("note", "a log")];
    bench.kept(at, ("mishap", "h-1"), &mishap);
    let tomorrow = bench.send(
        at,
        ("mishap", "h-2"),
        &[("what", "strike"), ("on", "2199-01-01")],
    );
    assert_eq!(tomorrow.status, 422);
    let record = bench.get(&format!("{job}/record")).body;
    for told in [
        "due, as stated: Trim tabs",
        "a hard strike",
        "done: ",
        "hour meter: 88",
    ] {
        assert!(record.contains(told), "{told}: {record}");
    }
}

#[test]
fn what_falls_due_is_a_calendar_file() {
    let bench = Bench::start();
    let job = bench.ready();
    let at = (job.as_str(), "service");
    assert_eq!(bench.get(&format!("{job}/service.ics")).status, 404);
    assert!(!bench.get(&format!("{job}/service")).body.contains(".ics"));
    bench.kept(
        at,
        ("meter", "m-1"),
        &[("hours", "40"), ("on", "2026-05-02")],
    );
    let done = [
        ("from", "list"),
        ("task", "anode"),
        ("on", "2026-05-02"),
        ("note", ""),
    ];
    let page = bench.kept(at, ("task-done", "d-1"), &done);
    assert!(page.contains(".ics"), "{page}");
    let file = bench.get(&format!("{job}/service.ics"));
    assert_eq!(file.status, 200);
    assert_eq!(file.headers["content-type"], "text/calendar; charset=utf-8");
    let id = job.rsplit('/').next().unwrap();
    for line in [
        "BEGIN:VCALENDAR".to_owned(),
        format!("UID:{id}-anode-1@pumpwright.invalid"),
        "SUMMARY:Anodes: Rescue sled 1".to_owned(),
    ] {
        assert!(
            file.body.contains(&format!("{line}\r\n")),
            "{line}: {}",
            file.body
        );
    }
}
