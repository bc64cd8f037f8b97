//! The hole as a depth gauge finds it.

use workshop::draft::JointDraft;
use workshop::torque::{By, Card};

use super::{bench, described, hole, joint, near, refused, told};

// F = C3 tau An: M6 held over 9 mm in a casting of 143 MPa strips at 14.07 kN at least, over 6 mm at 9.38.
// Python 3.11.7, from the 6g and 6H limits.
#[test]
fn computed_a_measured_hole_says_when_it_strips() {
    for (figures, length, strips) in [
        (["10.5", "13", "1.5", ""], 9e-3, 14.07e3),
        (["6", "13", "0", ""], 6e-3, 9.38e3),
    ] {
        let mut journal = bench(&JointDraft {
            engagement: "8".into(),
            ..joint()
        });
        assert_eq!(told(&journal).held.unwrap().by, By::Typed);
        journal.record(hole(figures));
        let told = told(&journal);
        let held = told.held.unwrap();
        near(held.length, length, 1e-12);
        let strip = told.strip.unwrap();
        near(strip.at.unwrap().low, strips, 10.0);
        let margin = strip.margin.unwrap().low;
        near(margin, strips / told.expected.unwrap().preload.high, 2e-3);
    }
}

#[test]
fn law_an_insert_holds_more_than_the_bare_hole_and_counts_as_it_sits() {
    let mut journal = bench(&joint());
    journal.record(hole(["12", "14", "1", ""]));
    let bare = told(&journal);
    journal.record(hole(["12", "14", "1", "9"]));
    let insert = told(&journal);
    // 9 mm as it is sold sit three quarters of a turn shorter.
    near(insert.held.unwrap().length, 8.25e-3, 1e-12);
    assert!(insert.strip.unwrap().needed.high < bare.strip.unwrap().needed.high);
    let per_length = |card: &Card| card.strip.unwrap().at.unwrap().low / card.held.unwrap().length;
    assert!(per_length(&insert) > per_length(&bare));
    // A long insert holds no more than the screw goes in.
    journal.record(hole(["12", "14", "1", "14"]));
    near(told(&journal).held.unwrap().length, 11e-3, 1e-12);
}

#[test]
fn practice_what_a_hole_cannot_be_is_refused() {
    let mut journal = bench(&joint());
    for (figures, field, words) in [
        (
            ["14", "13", "1", ""],
            "reach",
            "The screw goes in 14\u{a0}mm and the thread only 13\u{a0}mm: it would jam and clamp \
             nothing. Take a shorter screw",
        ),
        (
            ["6", "13", "6 mm", ""],
            "lost",
            "6 mm lost at the mouth of 6\u{a0}mm that the screw goes in: nothing holds it.",
        ),
        (["12 in", "13 in", "0", ""], "reach", "“12 in” is outside"),
        (
            ["10", "13", "-1", ""],
            "lost",
            "“-1” was read as -1\u{a0}mm, which is outside",
        ),
    ] {
        let (said, at) = refused(&mut journal, hole(figures));
        assert!(said.starts_with(words), "{said}");
        assert_eq!(at, Some(field), "{said}");
    }
    journal.record(hole(["12", "13", "1", ""]));
    let longer = JointDraft {
        engagement: "14".into(),
        ..joint()
    };
    let (said, at) = refused(&mut journal, described(&longer));
    assert!(said.starts_with("Held over 14\u{a0}mm where the hole was measured 13\u{a0}mm deep"));
    assert_eq!(at, Some("engagement"));
    let steel = JointDraft {
        hole: "steel".into(),
        ..joint()
    };
    let (said, at) = refused(&mut bench(&steel), hole(["12", "14", "1", "9"]));
    assert!(said.starts_with("A wire insert is reckoned with in cast aluminium only."));
    assert_eq!(at, Some("insert"));
}
