//! Parts, consumables and tools: what they grow from, and where they are.

use workshop::act::Act;
use workshop::draft::inspect::Sheet;
use workshop::entry::Body;
use workshop::plan::{Stated, Status, Work};
use workshop::supplies::{Group, Supply, Whereabouts, supplies};

use crate::inspect::{Fields, draft, keep, say, with};
use crate::journal::Journal;
use crate::work::{Desk, T, key, plan};

const SNAPPED: Fields = &[("area", "bolts"), ("flaw", "snapped"), ("todo", "repair")];

fn list(journal: &Journal) -> Vec<Supply> {
    supplies(&journal.job())
}

fn of<'a>(list: &'a [Supply], key: &str) -> Option<&'a Supply> {
    list.iter().find(|supply| supply.key.as_str() == key)
}

#[test]
fn practice_the_list_grows_from_what_is_found() {
    for (area, flaw, todo, grown) in [
        (
            "seal",
            "torn-lip",
            "scrap",
            &["shaft-seal", "lip-grease", "seal-driver"][..],
        ),
        (
            "bolts",
            "snapped",
            "repair",
            &[
                "bolt",
                "thread-insert",
                "left-hand-drills",
                "extractor",
                "insert-kit",
            ],
        ),
        (
            "hull",
            "spun-insert",
            "repair",
            &["hull-insert", "insert-adhesive"],
        ),
        ("ring", "scored", "scrap", &["wear-ring", "ring-press"]),
        ("shoe", "debonded", "repair", &["shoe-adhesive"]),
        ("lines", "split", "scrap", &["hose", "hose-clamps"]),
        ("controls", "torn-boot", "scrap", &["boot"]),
        (
            "driveline",
            "worn-splines",
            "scrap",
            &["driveline-part", "spline-grease"],
        ),
        ("mounts", "perished", "scrap", &["mount", "shims"]),
        ("anode", "spent", "scrap", &["anode"]),
        (
            "bearing",
            "corroded",
            "scrap",
            &["bearing", "bearing-puller"],
        ),
    ] {
        let mut journal = Journal::described();
        let fields: Fields = &[("area", area), ("flaw", flaw), ("todo", todo)];
        keep(&mut journal, Sheet::Finding, "f", fields);
        let there = list(&journal);
        for grown in grown {
            let supply = of(&there, grown).unwrap_or_else(|| panic!("{area} {flaw}: {grown}"));
            assert!(supply.why[0].practice);
            assert!(supply.why[0].words.starts_with(&area.replace('-', " ")));
        }
        // Sent out it is somebody else's, and closed it needs nothing.
        let out = with(fields, &[("todo", "send-out")]);
        keep(&mut journal.clone(), Sheet::Finding, "f", &out);
        keep(&mut journal, Sheet::Settled, "f", &[("how", "replaced")]);
        assert_eq!(list(&journal), []);
    }
}

#[test]
fn law_one_thing_is_on_the_list_once_with_every_reason() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::Finding, "one", SNAPPED);
    keep(
        &mut journal,
        Sheet::Finding,
        "two",
        &with(SNAPPED, &[("which", "upper left")]),
    );
    let there = list(&journal);
    let bolts: Vec<&Supply> = there.iter().filter(|s| s.key.as_str() == "bolt").collect();
    assert_eq!(bolts.len(), 1);
    assert_eq!(bolts[0].why.len(), 2);
    let groups: Vec<Group> = there.iter().map(|supply| supply.group).collect();
    assert!(groups.is_sorted(), "{groups:?}");
}

#[test]
fn law_where_a_thing_is_was_said_last() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::Finding, "bolt", SNAPPED);
    assert_eq!(of(&list(&journal), "extractor").unwrap().whereabouts, None);
    let order: Fields = &[("status", "on-order"), ("expected", "2026-05-09")];
    keep(&mut journal, Sheet::Supply, "extractor", order);
    let there = list(&journal);
    let extractor = of(&there, "extractor").unwrap();
    assert_eq!(extractor.whereabouts, Some(Whereabouts::OnOrder));
    assert_eq!(extractor.expected.unwrap().to_string(), "2026-05-09");
    assert!(!extractor.settled());
    let not: Fields = &[
        ("status", "not-needed"),
        ("reason", "it came out with pliers"),
    ];
    keep(&mut journal, Sheet::Supply, "extractor", not);
    assert!(of(&list(&journal), "extractor").unwrap().settled());
    keep(
        &mut journal,
        Sheet::Supply,
        "extractor",
        &[("status", "at-hand")],
    );
    assert_eq!(
        of(&list(&journal), "extractor").unwrap().whereabouts,
        Some(Whereabouts::AtHand)
    );
    journal.act(Act::Undo);
    assert_eq!(
        of(&list(&journal), "extractor").unwrap().whereabouts,
        Some(Whereabouts::NotNeeded)
    );
}

#[test]
fn law_what_is_added_by_hand_keeps_its_name() {
    let mut journal = Journal::described();
    let pin: Fields = &[
        ("name", "Pin for the gate"),
        ("group", "part"),
        ("status", "missing"),
    ];
    keep(&mut journal, Sheet::Supply, "pin", pin);
    keep(&mut journal, Sheet::Supply, "pin", &[("status", "at-hand")]);
    let there = list(&journal);
    assert_eq!(
        (there[0].name.as_str(), there[0].settled()),
        ("Pin for the gate", true)
    );
}

#[test]
fn law_a_refusal_about_the_list_names_the_way_out() {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::Finding, "bolt", SNAPPED);
    for (key, fields, field, words) in [
        (
            "spoon",
            &[("status", "missing")][..],
            "supply",
            "“spoon” is not on the list.",
        ),
        ("extractor", &[("reason", "x")], "status", "This is empty"),
        (
            "extractor",
            &[("status", "not-needed")],
            "reason",
            "This is empty",
        ),
        (
            "extractor",
            &[("status", "missing"), ("expected", "2026-05-09")],
            "expected",
            "A day is expected of what is on order only.",
        ),
        (
            "pin",
            &[("name", "Pin"), ("status", "missing")],
            "group",
            "This is empty",
        ),
    ] {
        let why = say(&mut journal.clone(), Sheet::Supply, key, fields).unwrap_err();
        assert_eq!(why.field(), Some(field), "{why}");
        assert!(why.to_string().starts_with(words), "{why}");
    }
    let day: Fields = &[("status", "on-order"), ("expected", "soon")];
    assert!(say(&mut journal, Sheet::Supply, "extractor", day).is_err());
}

/// A part of the plan and a thing of the list with one name are one thing, whoever spoke last.
#[test]
fn law_a_part_of_the_plan_is_the_same_thing_on_the_list() {
    let mut desk = Desk::with(plan());
    let stated = |status| Work::PartStated {
        part: key("bolts"),
        stated: Stated {
            status,
            expected: None,
        },
    };
    let said = |fields: Fields| {
        let said = draft(Sheet::Supply, "bolts", fields).read(quantity::Unit::Thou);
        Act::Record(Body::Inspected(said.unwrap()))
    };
    let here = |desk: &Desk| desk.fold().0.bench.at_hand(&key("bolts"));
    desk.say(stated(Status::Missing), T);
    assert!(!here(&desk));
    desk.act(said(&[("status", "at-hand")]), T).unwrap();
    assert!(here(&desk));
    let there = supplies(&desk.fold().0);
    assert_eq!(
        of(&there, "bolts").unwrap().whereabouts,
        Some(Whereabouts::AtHand)
    );
    desk.say(stated(Status::OnOrder), T);
    let there = supplies(&desk.fold().0);
    assert_eq!(
        of(&there, "bolts").unwrap().whereabouts,
        Some(Whereabouts::OnOrder)
    );
    let not = desk.act(said(&[("status", "not-needed"), ("reason", "x")]), T);
    assert!(not.unwrap_err().contains("A step of the plan needs it."));
}
