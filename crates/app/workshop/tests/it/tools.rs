//! The wrench, and how even a circle ends: what is told, and each refusal in its words.
//! All joints and wrenches are invented.

mod generic;
mod hole;

use quantity::Unit;
use workshop::act::Act;
use workshop::draft::tools::{DepthDraft, ToolDraft, WrenchDraft};
use workshop::draft::{FastenedDraft, JointDraft};
use workshop::entry::{Body, Key};
use workshop::fold::{Misfit, fold};
use workshop::tools::{Role, Tooling};
use workshop::torque::{Card, Stop, card};

use crate::journal::Journal;

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

/// Bearing cover: 4 × M6 into cast aluminium, 8 N·m with threadlocker.
fn joint() -> JointDraft {
    let words = str::to_owned;
    JointDraft {
        name: words("Bearing cover"),
        thread: words("M6"),
        head: words("hex"),
        count: words("4"),
        class: words("stainless-70"),
        hole: words("aluminium"),
        torque: words("8"),
        stated_for: words("threadlocker"),
        condition: words("threadlocker"),
        face: words("bare"),
        ..JointDraft::default()
    }
}

fn described(draft: &JointDraft) -> Body {
    Body::JointDescribed {
        key: key("cover"),
        joint: draft.read().unwrap(),
    }
}

fn wrench(name: &str, scale: &str, [least, most, step]: [&str; 3]) -> Body {
    let draft = WrenchDraft {
        name: name.into(),
        scale: scale.into(),
        least: least.into(),
        most: most.into(),
        step: step.into(),
    };
    Body::Tooled(Tooling::WrenchDescribed {
        key: Key::of_name(name).unwrap(),
        wrench: draft.read().unwrap(),
    })
}

fn chosen(wrench: &str, [lever, offset, angle]: [&str; 3]) -> Body {
    let draft = ToolDraft {
        wrench: wrench.into(),
        lever: lever.into(),
        offset: offset.into(),
        angle: angle.into(),
    };
    Body::Tooled(Tooling::ToolChosen {
        joint: key("cover"),
        tool: draft.read().unwrap(),
    })
}

fn hole([reach, threaded, lost, insert]: [&str; 4]) -> Body {
    let draft = DepthDraft {
        reach: reach.into(),
        threaded: threaded.into(),
        lost: lost.into(),
        insert: insert.into(),
    };
    Body::Tooled(Tooling::HoleMeasured {
        joint: key("cover"),
        hole: draft.read().unwrap(),
    })
}

fn role(role: Role) -> Body {
    Body::Tooled(Tooling::RoleSaid {
        joint: key("cover"),
        role,
    })
}

fn torqued() -> Body {
    let four = || "4".to_owned();
    let draft = FastenedDraft {
        in_place: four(),
        torqued: four(),
        marked: "0".into(),
        ..FastenedDraft::default()
    };
    Body::JointFastened {
        key: key("cover"),
        fastened: draft.read().unwrap(),
    }
}

const BARE: [&str; 3] = ["", "", ""];

/// The joint with three wrenches: a small one in inch pounds, a long one, one set at the factory.
fn bench(draft: &JointDraft) -> Journal {
    let mut journal = Journal::described();
    journal.record(described(draft));
    journal.record(wrench("small", "lbf·in", ["20", "200", "1"]));
    journal.record(wrench("long", "N·m", ["10", "100", "0.5"]));
    journal.record(wrench("fixed", "N·m", ["8", "8", ""]));
    journal
}

fn told(journal: &Journal) -> Card {
    let job = journal.job();
    card(&job, &job.joints[&key("cover")]).unwrap()
}

fn refused(journal: &mut Journal, body: Body) -> (String, Option<&'static str>) {
    let refusal = journal.try_act(Act::Record(body)).unwrap_err();
    (refusal.to_string(), refusal.field())
}

fn near(value: f64, expected: f64, within: f64) {
    assert!((value - expected).abs() <= within, "{value} {expected}");
}

// 1 N·m = 8.850745791327185 lbf·in, Python 3.11.7 with scipy.constants: 8 N·m is 70.8, the nearest mark 71.
#[test]
fn computed_the_wrench_is_set_on_its_own_scale() {
    let mut journal = bench(&joint());
    let before = told(&journal);
    assert!(before.setting.is_none());
    assert_eq!(before.able, ["small", "fixed"]);
    journal.record(chosen("small", BARE));
    let told = told(&journal);
    let set = told.setting.unwrap();
    assert_eq!(set.read(set.mark), "71\u{a0}lbf·in");
    assert_eq!((set.scale, set.gain), (Unit::PoundForceInch, None));
    // 4 % of a wrench above 10 N·m, and half a mark of 70.8.
    near(set.applied.error, 0.04 + 0.5 / 70.806, 1e-6);
    // 8 on a scale of lbf·in is 0.904 N·m.
    near(set.crossed.unwrap(), 8.0 * 0.112_984_829, 1e-6);
    // A fifth of 200 lbf·in is 40, so the first pass of 35 is not measured.
    let measured: Vec<bool> = set.passes.iter().map(|pass| pass.measured).collect();
    assert_eq!(measured, [false, true, true]);
    assert_eq!(set.read(set.passes[0].mark), "35\u{a0}lbf·in");
    // The error of the wrench chosen is what the preload is reckoned with.
    assert_eq!(told.wrench.to_bits(), set.applied.error.to_bits());
    let (was, is) = (before.expected.unwrap(), told.expected.unwrap());
    assert!(is.preload.low > was.preload.low && is.preload.high < was.preload.high);
}

// Tw = T L / (L + A cos a), Python 3.11.7: the cases of a lever in balance, to the third place.
#[test]
fn computed_the_adapter_changes_what_is_set() {
    for (torque, lever, offset, angle, set) in [
        ("80", "400", "50", "0", 71.111),
        ("80", "400", "50", "30", 72.186),
        ("80", "400", "50", "60", 75.294),
        ("80", "400", "50", "90", 80.0),
        ("40", "350", "40", "0", 35.897),
        ("100", "450", "40", "180", 109.756),
    ] {
        let draft = JointDraft {
            thread: "M12".into(),
            torque: torque.into(),
            hole: "steel".into(),
            ..joint()
        };
        let mut journal = Journal::described();
        journal.record(described(&draft));
        journal.record(wrench("fine", "N·m", ["20", "150", "0.001"]));
        journal.record(chosen("fine", [lever, offset, angle]));
        let setting = told(&journal).setting.unwrap();
        near(setting.mark, set, 1e-3);
        assert_eq!(setting.crossed, None);
        let through = setting.mark * setting.gain.unwrap();
        near(through, torque.parse().unwrap(), 2e-3);
    }
}

#[test]
fn practice_a_wrench_outside_its_range_is_refused_with_one_that_will_do() {
    let mut journal = bench(&joint());
    assert_eq!(
        refused(&mut journal, chosen("long", BARE)),
        (
            "The wrench “long” is good for 20.0 to 100.0\u{a0}N·m, and it would have to be set to \
             8.0\u{a0}N·m. Below a fifth of its greatest torque a wrench is not used. Take “small” or \
             “fixed”."
                .to_owned(),
            Some("wrench")
        )
    );
    // Through an adapter it is the setting that counts.
    let words = refused(&mut journal, chosen("fixed", ["200", "50", "0"])).0;
    assert!(
        words.contains("would have to be set to 6.4\u{a0}N·m"),
        "{words}"
    );
    assert!(words.ends_with("Take “small”."), "{words}");
    journal.record(chosen("fixed", BARE));
    // The figure is mended afterwards: the choice stays, and the joint stops.
    let more = JointDraft {
        thread: "M12".into(),
        torque: "60".into(),
        ..joint()
    };
    journal.record(described(&more));
    let Some(Stop::Wrench(outside)) = told(&journal).stop else {
        panic!("{:?}", told(&journal).stop);
    };
    assert_eq!(outside.others, ["“long”"]);
    let words = refused(&mut journal, torqued()).0;
    assert!(
        words.starts_with("Do not torque yet. The wrench “fixed” is good for 8.0 to 8.0\u{a0}N·m"),
        "{words}"
    );
}

#[test]
fn practice_what_a_wrench_cannot_be_is_refused() {
    let mut journal = bench(&joint());
    let odd = |scale, figures| wrench("odd", scale, figures);
    for (body, field, words) in [
        (
            odd("lbf·in", ["2 N·m", "200", "1"]),
            "least",
            "“2 N·m” is in N·m, and the scale of this wrench is in lbf·in.",
        ),
        (
            odd("N·m", ["25", "5", "1"]),
            "least",
            "“25” must be smaller than “5”.",
        ),
        (
            odd("N·m", ["5", "25", "10"]),
            "step",
            "Marks 10\u{a0}N·m apart on a scale up to 25\u{a0}N·m",
        ),
        (
            odd("N·m", ["5", "25000", "1"]),
            "most",
            "“25000” was read as 25000\u{a0}N·m, which is outside",
        ),
        (chosen("none", BARE), "wrench", "There is no wrench “none”"),
        (
            chosen("small", ["200", "250", "180"]),
            "offset",
            "Turned back by 250\u{a0}mm the screw lies under the hand",
        ),
        (
            chosen("small", ["200", "50", "190"]),
            "angle",
            "“190” was read as 190°, which is outside 0 to 180",
        ),
    ] {
        let (said, at) = refused(&mut journal, body);
        assert!(said.starts_with(words), "{said}");
        assert_eq!(at, Some(field), "{said}");
    }
    let half = ToolDraft {
        wrench: "small".into(),
        lever: "200".into(),
        ..ToolDraft::default()
    };
    let refusal = half.read().unwrap_err();
    assert_eq!(refusal.field(), Some("offset"));
    assert!(refusal.to_string().contains("An adapter takes three"));
    let turned = JointDraft {
        torque: String::new(),
        stated_for: String::new(),
        turn: "1/8".into(),
        seat: "plastic".into(),
        grip: "3".into(),
        ..joint()
    };
    let words = refused(&mut bench(&turned), chosen("small", BARE)).0;
    assert!(words.contains("by a turn after contact"), "{words}");
}

// Each neighbour loses 15 % of a gain. Python 3.11.7, four screws: 30, 70, 100 and 100 % leave 0.9881 of
// the preload at least, a single pass 0.7; six screws 0.9822. A star of 4 or 8 crosses, so a single screw's
// tilt is the worst.
#[test]
fn computed_how_even_a_circle_ends() {
    for (count, lacks) in [
        ("4", 1.0 - 0.9881),
        ("6", 1.0 - 0.9822),
        ("8", 1.0 - 0.9881),
    ] {
        let draft = JointDraft {
            count: count.into(),
            face: "gasket".into(),
            ..joint()
        };
        let even = told(&bench(&draft)).even.unwrap();
        near(*even.lacks.last().unwrap(), lacks, 1e-4);
        near(even.once, 0.3, 1e-9);
        assert_eq!(even.worth, Some(4));
        assert!(even.lacks.is_sorted_by(|a, b| a > b));
        assert!(even.star < even.round);
    }
    let one = JointDraft {
        count: "1".into(),
        ..joint()
    };
    assert_eq!(told(&bench(&one)).even, None);
}

// vdi-2230 of 1986: 1.6 to 2.0, which is 23 to 33 %; with 5 % of the wrench hardly more.
#[test]
fn published_the_wrench_is_little_beside_the_friction() {
    let mut journal = bench(&joint());
    journal.record(chosen("small", BARE));
    let scatter = told(&journal).scatter.unwrap();
    near(scatter.low, 0.231, 0.006);
    near(scatter.high, 0.333, 0.004);
}

#[test]
fn law_what_is_said_of_tools_folds_in_any_part() {
    let mut journal = bench(&joint());
    journal.record(role(Role::Stator));
    journal.record(hole(["12", "14", "1", "9"]));
    journal.record(chosen("small", ["200", "40", "45"]));
    journal.record(torqued());
    let all = journal.entries;
    for mask in 0..1_u32 << all.len() {
        let here = |(n, _): &(usize, _)| mask >> n & 1 == 1;
        let some: Vec<_> = all.iter().cloned().enumerate().filter(here).collect();
        let some: Vec<_> = some.into_iter().map(|(_, entry)| entry).collect();
        let (job, objections) = fold(&some);
        for state in job.joints.values() {
            assert!(card(&job, state).is_some());
        }
        let kept = |misfit| objections.iter().any(|objection| objection.why == misfit);
        let said = |of: fn(&Tooling) -> bool| {
            some.iter()
                .any(|entry| matches!(&entry.new.body, Body::Tooled(said) if of(said)))
        };
        let of_joint = said(|said| !matches!(said, Tooling::WrenchDescribed { .. }));
        assert_eq!(
            kept(Misfit::NothingToFit),
            of_joint && job.joints.is_empty()
        );
    }
}

/// A wrench named anew keeps its place; the scale may be written as people write it.
#[test]
fn practice_a_wrench_is_described_anew() {
    let mut journal = bench(&joint());
    journal.record(wrench("small", "in-lb", ["30", "150", "0.5"]));
    let job = journal.job();
    let wrenches = job.wrenches_in_order();
    let names: Vec<&str> = wrenches.iter().map(|(key, _)| key.as_str()).collect();
    assert_eq!(names, ["small", "long", "fixed"]);
    assert_eq!(wrenches[0].1.scale, Unit::PoundForceInch);
    let none = WrenchDraft {
        scale: "furlong".into(),
        ..WrenchDraft::default()
    };
    let refusal = none.read().unwrap_err();
    assert_eq!(refusal.field(), Some("scale"));
    assert!(refusal.to_string().contains("N·m, lbf·ft, lbf·in"));
}
