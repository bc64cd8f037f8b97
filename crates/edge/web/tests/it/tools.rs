//! Wrenches, holes and a figure without a manual, by forms without script. All of it is invented.

use crate::bench::Bench;

const BRACKET: [(&str, &str); 8] = [
    ("name", "Cable bracket"),
    ("thread", "M6"),
    ("count", "2"),
    ("head", "hex"),
    ("class", "stainless-70"),
    ("hole", "aluminium"),
    ("condition", "grease"),
    ("face", "bare"),
];
const WRENCH: [(&str, &str); 6] = [
    ("key", ""),
    ("name", "Small & <old>"),
    ("scale", "lbf·in"),
    ("least", "20"),
    ("most", "200"),
    ("step", "1"),
];

#[test]
fn an_ordinary_joint_gets_a_figure_once_its_hole_is_measured() {
    let bench = Bench::start();
    let job = bench.ready();
    let page = bench.kept((&job, "torque"), ("joint", "j-1"), &BRACKET);
    assert!(page.contains("nothing is assumed in its place"));
    assert!(page.contains("Say what sort of joint it is"));
    assert!(!page.contains("Choose the wrench"), "there is none yet");
    let bracket = ("joint", "cable-bracket");
    let page = bench.kept(
        (&job, "torque"),
        ("role", "r-1"),
        &[bracket, ("role", "ordinary")],
    );
    assert!(page.contains("before the hole is measured"));

    let deep = [
        bracket,
        ("reach", "14"),
        ("threaded", "13"),
        ("lost", "1"),
        ("insert", ""),
    ];
    let refused = bench.send((&job, "torque"), ("hole", "h-1"), &deep);
    assert_eq!(refused.status, 422);
    assert!(
        refused
            .body
            .contains("the thread only 13\u{a0}mm: it would jam")
    );
    assert!(
        refused.body.contains("value=\"14\""),
        "what was typed stays"
    );
    let mut fits = deep;
    fits[1] = ("reach", "10");
    let page = bench.kept((&job, "torque"), ("hole", "h-2"), &fits);
    assert!(page.contains("assumed, no manual: 75"));
    assert!(page.contains("4.9\u{a0}N·m, assumed"));
    let sheet = bench.get(&format!("{job}/sheet")).body;
    assert!(
        sheet.contains("4.9\u{a0}N·m, assumed, no manual"),
        "{sheet}"
    );
}

#[test]
fn a_wrench_is_set_in_its_own_unit_or_refused_with_another() {
    let bench = Bench::start();
    let job = bench.ready();
    let torque = [("torque", "4.9"), ("stated_for", "grease")];
    bench.kept(
        (&job, "torque"),
        ("joint", "j-1"),
        &[&BRACKET[..], &torque].concat(),
    );
    let bracket = ("joint", "cable-bracket");
    let page = bench.kept((&job, "torque"), ("wrench", "w-1"), &WRENCH);
    assert!(page.contains("Small &amp; &lt;old&gt;"));
    assert!(page.contains("would do"));
    let crossed = [
        WRENCH[0],
        WRENCH[1],
        WRENCH[2],
        ("least", "2 N·m"),
        WRENCH[4],
        WRENCH[5],
    ];
    let refused = bench.send((&job, "torque"), ("wrench", "w-2"), &crossed);
    assert_eq!(refused.status, 422);
    assert!(
        refused
            .body
            .contains("the scale of this wrench is in lbf·in")
    );

    let long = [
        ("key", ""),
        ("name", "Long"),
        ("scale", "N·m"),
        ("least", "20"),
        ("most", "200"),
        ("step", "1"),
    ];
    bench.kept((&job, "torque"), ("wrench", "w-3"), &long);
    let choice = |key| {
        [
            bracket,
            ("wrench", key),
            ("lever", ""),
            ("offset", ""),
            ("angle", ""),
        ]
    };
    let refused = bench.send((&job, "torque"), ("tool", "t-1"), &choice("long"));
    assert_eq!(refused.status, 422);
    assert!(
        refused.body.contains("Take “Small &amp; &lt;old&gt;”."),
        "{}",
        refused.body
    );
    let page = bench.kept((&job, "torque"), ("tool", "t-2"), &choice("small-old"));
    assert!(page.contains("43\u{a0}lbf·in"));
    assert!(page.contains("Mind the unit"));
    let record = bench.get(&format!("{job}/record")).body;
    assert!(record.contains("cable-bracket: wrench chosen, small-old"));
    let sheet = bench.get(&format!("{job}/sheet")).body;
    assert!(sheet.contains("set to 43\u{a0}lbf·in"));
}

/// The impeller never gets one, and nobody may say of a joint that is not there.
#[test]
fn the_impeller_stays_open() {
    let bench = Bench::start();
    let job = bench.ready();
    let steel: Vec<(&str, &str)> = BRACKET
        .iter()
        .map(|(name, value)| (*name, if *name == "hole" { "steel" } else { *value }))
        .collect();
    bench.kept((&job, "torque"), ("joint", "j-1"), &steel);
    let bracket = ("joint", "cable-bracket");
    let page = bench.kept(
        (&job, "torque"),
        ("role", "r-1"),
        &[bracket, ("role", "impeller")],
    );
    assert!(page.contains("For the impeller there is no figure but that of the craft’s manual."));
    let nowhere = [("joint", "nowhere"), ("role", "ordinary")];
    let refused = bench.send((&job, "torque"), ("role", "r-2"), &nowhere);
    assert_eq!(refused.status, 422);
    let record = bench.get(&format!("{job}/record")).body;
    assert!(!record.contains("nowhere"));
}
