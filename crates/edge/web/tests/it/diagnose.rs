//! What is wrong, by forms without script. All of it is invented.

use crate::bench::Bench;

#[test]
fn signs_and_checks_are_told_and_a_cause_is_taken_as_it_was_shown() {
    let bench = Bench::start();
    let job = bench.ready();
    let page = bench.get(&format!("{job}/wrong")).body;
    assert!(page.contains("Can’t tell yet"), "{page}");
    assert!(page.contains("name=\"milky-jet\" value=\"\" checked"));

    let signs = [
        ("growl", "yes"),
        ("vibration", "yes"),
        ("misfire", "no"),
        ("hot", ""),
    ];
    let page = bench.kept((&job, "wrong"), ("symptoms", "s-1"), &signs);
    assert!(page.contains("name=\"growl\" value=\"yes\" checked"));
    assert!(page.contains("name=\"misfire\" value=\"no\" checked"));
    assert!(page.contains("name=\"hot\" value=\"\" checked"));
    assert!(
        !page.contains("value=\"turn\""),
        "nobody said that it can’t start"
    );

    // Only what is one of the words is a check, and an outcome.
    let list = ("from", "list");
    for (check, found) in [("moon", "nothing"), ("hoses", "perhaps"), ("", "nothing")] {
        let typed = [
            list,
            ("check", check),
            ("found", found),
            ("note", "as typed"),
        ];
        let refused = bench.send((&job, "wrong"), ("checked", "c-1"), &typed);
        assert_eq!(refused.status, 422, "{check} {found}");
        assert!(
            refused.body.contains("value=\"as typed\""),
            "what was typed stays"
        );
    }
    let refused = bench.send((&job, "wrong"), ("suspect", "o-1"), &[("outing", "never")]);
    assert_eq!(refused.status, 422);

    let page = bench.kept((&job, "wrong"), ("safe", "f-1"), &[("safe", "yes")]);
    assert!(page.contains("value=\"turn\""));
    let turned = [
        ("check", "turn"),
        ("found", "something"),
        ("note", "grinds"),
    ];
    let page = bench.kept((&job, "wrong"), ("checked", "c-2"), &turned);
    assert!(page.contains("Most likely a bearing fails"));
    assert!(page.contains("something found</strong>: grinds"), "{page}");

    // What was shown when it was pressed, or nothing.
    let shown = page.split("act/take-cause").nth(1).unwrap();
    let shown = shown.split("name=\"evidence\" value=\"").nth(1).unwrap();
    let shown = shown.split('"').next().unwrap().to_owned();
    let old = bench.send(
        (&job, "wrong"),
        ("take-cause", "t-1"),
        &[("evidence", "other")],
    );
    assert_eq!(old.status, 422);
    let page = bench.kept(
        (&job, "wrong"),
        ("take-cause", "t-2"),
        &[("evidence", &shown)],
    );
    assert!(page.contains("On record as the cause: a failing bearing"));

    // Taken back, it counts no more, and the cause stands on other grounds.
    let back = [list, ("check", "turn"), ("found", "back"), ("note", "")];
    let page = bench.kept((&job, "wrong"), ("checked", "c-3"), &back);
    assert!(!page.contains("grinds"));
    assert!(page.contains("takes a cause on other grounds than there are now"));

    // It is looked up anew by what it rests on: the craft may start again, and nothing is told of its pump.
    let page = bench.kept((&job, "wrong"), ("safe", "f-2"), &[("safe", "no")]);
    assert!(!page.contains("value=\"turn\""));
    assert!(page.contains("First make sure it can’t start"));
}
