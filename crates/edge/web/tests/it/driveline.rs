//! The driveline by forms, without script. All of it is invented.

use crate::bench::Bench;

const MOUNTS: &str = "front: 160, 0, 1.2\nrear: 520, 0, 0.8";

#[test]
fn a_driveline_is_refused_read_found_out_and_put_in_line() {
    let bench = Bench::start();
    let job = bench.ready();
    let page = bench.get(&format!("{job}/measure")).body;
    assert!(page.contains("Driveline: dials on rim and face"), "{page}");
    let dials = |rim, face| {
        [
            ("way", "dials"),
            ("carrier", "pump"),
            ("rim_0", rim),
            ("face_0", face),
            ("across", "72"),
            ("sag", "0"),
            ("step", "0.01"),
            ("repeat", "0.005"),
            ("offset_limit", "0.1"),
            ("limit_of", "offset"),
            ("angle_limit", "0.1"),
            ("page", "9-4"),
            ("mounts", MOUNTS),
            ("shims", "2 x 0.1; 2 x 0.4; 2 x 1"),
        ]
    };
    let here = (&job as &str, "measure");
    let missing = dials("0, 0.24, <0.50>", "0, 0.02, 0.05, 0.03");
    let refused = bench.send(here, ("align-dials", "a-0"), &missing);
    assert_eq!(refused.status, 422);
    assert!(
        refused.body.contains("&lt;0.50&gt;"),
        "what was typed stays"
    );
    let missing = dials("0, 0.24, 0.50", "0, 0.02, 0.05, 0.03");
    let refused = bench.send(here, ("align-dials", "a-1"), &missing);
    assert_eq!(refused.status, 422);
    assert!(refused.body.contains("3 readings, and it takes four"));
    assert!(refused.body.contains("value=\"0, 0.24, 0.50\""));
    assert!(refused.body.contains(MOUNTS), "every line stays");

    let off = dials("0, 0.24, 0.50, 0.26", "0, 0.02, 0.05, 0.03");
    let page = bench.kept(here, ("align-dials", "a-2"), &off);
    assert!(page.contains("not in line"), "{page}");
    // 0.25 mm low, and the slope of 0.05 over 72 mm over 160 mm: 0.361 mm.
    assert!(
        page.contains("front: 14.2\u{a0}thou (0.361\u{a0}mm) in"),
        "{page}"
    );
    assert!(page.contains("no finger under a mount"));

    let page = bench.kept(
        here,
        ("align-dials", "a-3"),
        &dials("0, 0.01, 0.02, 0.01", "0, 0, 0, 0"),
    );
    assert!(page.contains("Nothing to move."), "{page}");
    assert!(page.contains("As found"));
    let sheet = bench.get(&format!("{job}/sheet")).body;
    assert!(sheet.contains("told then: in line"), "{sheet}");
    assert!(sheet.contains("now the same"));

    let slides = [
        ("way", "slides"),
        ("free_0", "yes"),
        ("free_90", "yes"),
        ("free_180", "yes"),
        ("free_270", "yes"),
        ("page", ""),
    ];
    let page = bench.kept(here, ("align-slides", "a-4"), &slides);
    assert!(page.contains("cannot say"));
    assert!(page.contains("common practice for in line, no source"));
}
