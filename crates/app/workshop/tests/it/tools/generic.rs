//! A figure where no manual is at hand, and where there must be none.

use workshop::draft::JointDraft;
use workshop::tools::Role;
use workshop::torque::{Generic, SHARE, Why};

use super::{BARE, bench, chosen, joint, key, near, refused, role, told, torqued};

/// No manual at hand; held over 9 mm, greased.
fn unstated() -> JointDraft {
    JointDraft {
        torque: String::new(),
        stated_for: String::new(),
        engagement: "9".into(),
        condition: "grease".into(),
        ..joint()
    }
}

#[test]
fn practice_no_generic_figure_where_none_may_be() {
    let why = |draft: &JointDraft, said: Option<Role>| {
        let mut journal = bench(draft);
        if let Some(said) = said {
            journal.record(role(said));
        }
        let card = told(&journal);
        assert_eq!((card.torque, card.expected), (None, None));
        let words = refused(&mut journal, torqued()).0;
        assert!(words.starts_with("There is no figure to torque to."));
        match card.generic {
            Some(Generic::Withheld(why)) => why,
            other => panic!("{other:?}"),
        }
    };
    let with = |change: fn(&mut JointDraft)| {
        let mut draft = unstated();
        change(&mut draft);
        draft
    };
    let ordinary = Some(Role::Ordinary);
    assert_eq!(why(&unstated(), None), Why::NotSaid);
    assert_eq!(why(&unstated(), Some(Role::Impeller)), Why::Impeller);
    assert_eq!(why(&unstated(), Some(Role::Stator)), Why::Stator);
    let named = with(|draft| draft.name = "Housing to STATOR".into());
    assert_eq!(why(&named, ordinary), Why::Named);
    let unknown = with(|draft| draft.condition = "unknown".into());
    assert_eq!(why(&unknown, ordinary), Why::Condition);
    let gasket = with(|draft| draft.face = "gasket".into());
    assert_eq!(why(&gasket, ordinary), Why::Gasket);
    let unmeasured = with(|draft| draft.engagement = String::new());
    assert_eq!(why(&unmeasured, ordinary), Why::NotMeasured);
    let fine = with(|draft| draft.thread = "M8x1".into());
    assert_eq!(why(&fine, ordinary), Why::NoLimits);
    for hole in ["brass-insert", "laminate-insert", "plastic"] {
        let draft = JointDraft {
            hole: hole.into(),
            ..unstated()
        };
        assert_eq!(why(&draft, ordinary), Why::Holder);
    }
}

#[test]
fn law_a_generic_figure_stays_below_what_screw_and_hole_bear() {
    for thread in ["M5", "M6", "M8", "M10"] {
        for class in [
            "stainless-50",
            "stainless-70",
            "stainless-80",
            "8.8",
            "10.9",
        ] {
            for condition in ["dry", "grease", "anti-seize", "threadlocker", "ptfe-paste"] {
                let mut offered = Vec::new();
                for held in ["4", "6", "12"] {
                    let draft = JointDraft {
                        thread: thread.into(),
                        class: class.into(),
                        condition: condition.into(),
                        engagement: held.into(),
                        ..unstated()
                    };
                    let mut journal = bench(&draft);
                    journal.record(role(Role::Ordinary));
                    let card = told(&journal);
                    let Some(Generic::Offered { torque, by_hole }) = card.generic else {
                        panic!("{:?}", card.generic);
                    };
                    let used = card.expected.unwrap().used.high;
                    let margin = card.strip.unwrap().margin.unwrap().low;
                    let told = (thread, class, condition, held, torque, used, margin);
                    assert!(used <= SHARE && margin >= 1.25, "{told:?}");
                    // One of the two is what holds it down, but for the rounding to two digits.
                    let tight = if by_hole { margin / 1.25 } else { SHARE / used };
                    assert!(tight < 1.15, "{told:?}");
                    offered.push(torque);
                }
                assert!(
                    offered.is_sorted(),
                    "{thread} {class} {condition} {offered:?}"
                );
            }
        }
    }
}

#[test]
fn practice_an_ordinary_joint_may_be_torqued_to_the_generic_figure() {
    let mut journal = bench(&unstated());
    journal.record(role(Role::Ordinary));
    let card = told(&journal);
    journal.record(torqued());
    let job = journal.job();
    let fastened = job.joints[&key("cover")].fastened.as_ref().unwrap();
    let shown = fastened.value.shown.unwrap();
    assert_eq!(shown.torque, card.torque);
    near(shown.preload_high, card.expected.unwrap().preload.high, 0.0);
    // A wrench is held against it as against any figure.
    let words = refused(&mut journal, chosen("long", BARE)).0;
    assert!(words.contains("is good for 20.0 to 100.0"), "{words}");
    journal.record(chosen("small", BARE));
    assert!(told(&journal).setting.unwrap().crossed.is_some());
}
