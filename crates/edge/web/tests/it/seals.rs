//! What goes on threads and faces by forms, without script. All of it is invented.

use crate::bench::Bench;

const JOINT: [(&str, &str); 8] = [
    ("joint", ""),
    ("name", "Pump to hull"),
    ("thread", "M8"),
    ("head", "hex"),
    ("count", "6"),
    ("class", "stainless-70"),
    ("hole", "aluminium"),
    ("face", "sealant"),
];

/// A job with one joint in aluminium, threadlocker on its thread.
fn described(bench: &Bench) -> String {
    let job = bench.ready();
    let joint = [JOINT.as_slice(), &[("condition", "threadlocker")]].concat();
    let page = bench.kept((&job, "torque"), ("joint", "j-1"), &joint);
    assert!(page.contains("both assumed"), "the air is assumed");
    assert!(page.contains("salt water, assumed"));
    job
}

/// A bead of so much to seal.
fn bead(with: &'static str) -> [(&'static str, &'static str); 7] {
    [
        ("joint", "pump-to-hull"),
        ("with", with),
        ("sealed", "4"),
        ("room", "10"),
        ("gap_low", "0.05"),
        ("gap_high", "0.08"),
        ("edges", "both"),
    ]
}

#[test]
fn a_compound_of_ones_own_is_laid_and_what_may_not_meet_is_refused() {
    let bench = Bench::start();
    let job = described(&bench);
    let own = [
        ("compound", ""),
        ("name", "Grey <second> shelf"),
        ("class", "hybrid-polymer"),
        ("working", "12"),
    ];
    let page = bench.kept((&job, "torque"), ("compound", "c-1"), &own);
    assert!(page.contains("Grey &lt;second&gt; shelf"));
    let refused = bench.send((&job, "torque"), ("seal", "s-1"), &bead("acetoxy-silicone"));
    assert_eq!(refused.status, 422);
    let why = "bare aluminium, and they must not: the metal is eaten";
    assert!(refused.body.contains(why), "{}", refused.body);
    assert!(
        refused.body.contains("value=\"0.08\""),
        "what was typed stays"
    );
    let page = bench.kept(
        (&job, "torque"),
        ("seal", "s-2"),
        &bead("grey-second-shelf"),
    );
    assert!(page.contains("The bead across its face"));
    assert!(
        page.contains("within 12\u{a0}min"),
        "its own working time counts"
    );
    let record = bench.get(&format!("{job}/record")).body;
    assert!(record.contains("pump-to-hull: bead of grey-second-shelf"));
}

#[test]
fn air_thread_and_metals_are_kept_shown_and_printed() {
    let bench = Bench::start();
    let job = described(&bench);
    let air = [
        ("water", "fresh"),
        ("temperature", "64 °F"),
        ("humidity", "60 %"),
    ];
    let page = bench.kept((&job, "torque"), ("around", "a-1"), &air);
    assert!(page.contains("18\u{a0}°C and 60\u{a0}% humidity"));
    assert!(page.contains("In fresh water."));
    let thread = [
        ("joint", "pump-to-hull"),
        ("with", "threadlocker-high"),
        ("primed", "yes"),
    ];
    let page = bench.kept((&job, "torque"), ("on-thread", "t-1"), &thread);
    assert!(page.contains("It comes off with heat only"));
    let metals = [
        ("joint", "pump-to-hull"),
        ("screw", "a4"),
        ("sealed", "taken"),
    ];
    let page = bench.kept((&job, "torque"), ("contact", "m-1"), &metals);
    assert!(page.contains("nothing while water or current is kept out"));
    let sheet = bench.get(&format!("{job}/sheet")).body;
    for words in [
        "Compounds and metals",
        "It comes off with heat only",
        "doors open, no flame",
    ] {
        assert!(sheet.contains(words), "{words}");
    }
    let record = bench.get(&format!("{job}/record")).body;
    assert!(record.contains("water and air of the bench stated"));
    let page = bench.kept((&job, "torque"), ("undo", "u-1"), &[]);
    assert!(!page.contains("nothing while water or current is kept out"));
}

#[test]
fn a_refusal_stands_at_the_joint_it_is_about() {
    let bench = Bench::start();
    let job = bench.ready();
    for (n, name) in ["Lid", "Pump to hull"].into_iter().enumerate() {
        let joint = [JOINT.as_slice(), &[("condition", "grease")]].concat();
        let joint: Vec<_> = joint
            .into_iter()
            .map(|(key, text)| {
                if key == "name" {
                    (key, name)
                } else {
                    (key, text)
                }
            })
            .collect();
        bench.kept((&job, "torque"), ("joint", &format!("j-{n}")), &joint);
    }
    let wrong = [
        ("joint", "lid"),
        ("with", "threadlocker-low"),
        ("primed", "no"),
    ];
    let refused = bench.send((&job, "torque"), ("on-thread", "t-1"), &wrong);
    assert_eq!(refused.status, 422);
    let why = "its torque is reckoned so; low-strength threadlocker is something else";
    assert_eq!(refused.body.matches(why).count(), 1, "{}", refused.body);
}
