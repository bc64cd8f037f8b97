//! What goes on threads and faces: its drawing, its words, and its cautions on page and sheet.
//! All data are invented.

use jiff::ZonedDateTime;
use report::drawing::{Bead, bead};
use report::page::torque::seal::cautions_at;
use report::page::{Page, Section, sheet, torque};
use workshop::act::{Act, Stamp};
use workshop::decide::decide;
use workshop::draft::inspect::Sheet;
use workshop::draft::{InspectionDraft, JointDraft};
use workshop::entry::{Body, Entry, EntryId, JobId, Key};
use workshop::fold::fold;
use workshop::refusal::Need;

use crate::text::text;

fn now() -> ZonedDateTime {
    "2026-05-09T14:00:00+02:00[Europe/Berlin]".parse().unwrap()
}

/// A job of these acts.
fn job(bodies: Vec<Body>) -> Vec<Entry> {
    let opened = Body::JobOpened {
        title: "Invented".to_owned(),
        note: String::new(),
        follows: None,
    };
    let mut entries: Vec<Entry> = Vec::new();
    for (n, body) in [opened].into_iter().chain(bodies).enumerate() {
        let stamp = Stamp {
            id: EntryId::new(&format!("e-{n}")).unwrap(),
            now: now(),
            device: "tablet".to_owned(),
            who: String::new(),
            seen: None,
        };
        for new in decide(&fold(&entries).0, Act::Record(body), stamp).unwrap() {
            entries.push(Entry {
                position: u64::try_from(n).unwrap() + 1,
                recorded_at: now().timestamp(),
                new,
            });
        }
    }
    entries
}

fn joint(condition: &str) -> Body {
    let words = str::to_owned;
    let draft = JointDraft {
        name: words("Pump to hull"),
        thread: words("M8"),
        head: words("hex"),
        count: words("6"),
        class: words("stainless-70"),
        hole: words("plastic"),
        condition: words(condition),
        face: words("sealant"),
        ..JointDraft::default()
    };
    let joint = draft.read().unwrap();
    Body::JointDescribed { key: key(), joint }
}

fn key() -> Key {
    Key::new("hull").unwrap()
}

fn said(sheet: Sheet, fields: &[(&str, &str)]) -> Body {
    let draft = InspectionDraft::new(sheet, "hull".to_owned(), |field| {
        let found = fields.iter().find(|(name, _)| *name == field);
        found.map_or_else(String::new, |(_, text)| (*text).to_owned())
    });
    Body::Inspected(draft.read(quantity::Unit::Millimetre).unwrap())
}

fn sealed(with: &str) -> Body {
    let widths = [("sealed", "4"), ("room", "10"), ("edges", "both")];
    said(
        Sheet::Seal,
        &[&[("with", with)], widths.as_slice()].concat(),
    )
}

fn torque_page(entries: &[Entry]) -> Page {
    let (job, objections) = fold(entries);
    torque::page(&torque::View {
        id: &JobId::new("invented").unwrap(),
        job: &job,
        objections: &objections,
        now: &now(),
        refused: None,
    })
}

fn build_sheet(entries: &[Entry]) -> Page {
    let (job, objections) = fold(entries);
    sheet::page(&sheet::View {
        id: &JobId::new("invented").unwrap(),
        job: &job,
        objections: &objections,
        judgement: Err(Need::Pump),
        entries,
        now: &now(),
    })
}

#[test]
fn practice_what_can_hurt_stands_on_the_joints_card_and_on_the_sheet() {
    let hazards = [
        (joint("dry"), sealed("polyurethane"), "isocyanates"),
        (joint("dry"), sealed("epoxy"), "sensitises the skin"),
        (joint("dry"), sealed("acetoxy-silicone"), "acetic acid"),
        (joint("dry"), sealed("neutral-silicone"), "harms eyes"),
        (
            joint("dry"),
            sealed("neutral-silicone"),
            "no flame or heater",
        ),
        (
            joint("threadlocker"),
            said(Sheet::Thread, &[("with", "threadlocker-high")]),
            "with heat only",
        ),
    ];
    for (joint, with, words_of_it) in hazards {
        let entries = job(vec![joint, with]);
        let told = cautions_at(&fold(&entries).0, &key());
        let caution = told.iter().find(|told| told.contains(words_of_it));
        let caution = caution.unwrap_or_else(|| panic!("no caution says “{words_of_it}”"));
        let card = torque_page(&entries)
            .evidence
            .into_iter()
            .find_map(|section| {
                let Section::Card(card) = section else {
                    return None;
                };
                Some(card.notes.join("\n"))
            });
        assert!(
            card.unwrap().contains(*caution),
            "not on the card: {caution}"
        );
        assert!(
            build_sheet(&entries).cautions.contains(caution),
            "not on the sheet: {caution}"
        );
    }
    let nothing = job(vec![joint("dry")]);
    assert_eq!(build_sheet(&nothing).cautions.len(), 1);
}

#[test]
fn practice_before_anything_is_said_the_card_says_what_it_assumes() {
    let mut steel = joint("threadlocker");
    if let Body::JointDescribed { joint, .. } = &mut steel {
        joint.hole = workshop::joints::Hole::Aluminium;
    }
    let said = text(&torque_page(&job(vec![steel])));
    for assumed in [
        "medium-strength threadlocker: a few drops",
        "taken from the joint’s condition",
        "at 23 °C and 50\u{a0}% humidity, both assumed",
        "salt water, assumed; screws of A2 assumed",
        "coats not stated count as scratched",
    ] {
        let said = said.replace("23\u{a0}°C", "23 °C");
        assert!(said.contains(assumed), "“{assumed}” is not in:\n{said}");
    }
}

#[test]
fn practice_the_sheet_keeps_compounds_and_what_is_open() {
    let entries = job(vec![joint("dry"), sealed("polyurethane"), joint("grease")]);
    let said = text(&build_sheet(&entries));
    for part in [
        "Pump to hull: These must not meet: grease and polyurethane",
        "Pump to hull: No bead both seals and stays clear",
        r#""Pump to hull", "grease, assumed", "bead of 0.71\u{a0}mm of polyurethane", "no two metals""#,
    ] {
        assert!(said.contains(part), "“{part}” is not in:\n{said}");
    }
}

fn drawn() -> Bead {
    Bead {
        name: "Pump to hull".to_owned(),
        laid: 0.000_7,
        sealed: 0.004,
        room: 0.010,
        gap: (0.000_05, 0.000_08),
        film: (0.004_8, 0.007_7),
        ridge: 0.0,
        passage: Some(0.006),
    }
}

#[test]
fn regress_a_bead_that_stays_clear() {
    insta::assert_snapshot!(bead(&drawn()).svg.into_string());
}

#[test]
fn law_a_bead_is_drawn_to_the_scale_of_its_room() {
    // 10 mm are 240 units, so 0.7 mm are 16.8, and the radius half of that.
    assert!(bead(&drawn()).svg.into_string().contains("r=\"8.40\""));
    let wide = Bead {
        room: 0.020,
        ..drawn()
    };
    assert!(bead(&wide).svg.into_string().contains("r=\"4.20\""));
}

#[test]
fn practice_what_comes_out_is_drawn_and_said() {
    let out = Bead {
        film: (0.004_8, 0.015),
        ridge: 0.000_3,
        passage: None,
        ..drawn()
    };
    let clear = bead(&drawn());
    let out = bead(&out);
    assert!(
        out.caption
            .contains("a ridge of 0.30\u{a0}mm comes out on each side")
    );
    assert!(!clear.caption.contains("ridge"));
    let paths = |drawing: &report::drawing::Drawing| {
        drawing
            .svg
            .clone()
            .into_string()
            .matches("<path class=\"tint-ink")
            .count()
    };
    assert_eq!((paths(&clear), paths(&out)), (0, 2));
}
