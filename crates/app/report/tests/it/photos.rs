//! Photos on the pages: in a strip under what they are of, large, and on paper. All of it is invented.

use jiff::{Timestamp, ZonedDateTime};
use report::page::photos::{View, page};
use report::page::{FormName, teardown};
use report::page::{Page, Refused, Section, torque};
use workshop::act::{Act, Stamp};
use workshop::decide::decide;
use workshop::draft::InspectionDraft;
use workshop::draft::inspect::Sheet;
use workshop::entry::{Body, Entry, EntryId, JobId, Key};
use workshop::fold::fold;
use workshop::job::Job;
use workshop::photos::{Photo, PhotoHash, Photography, Subject};

use crate::text::text;

fn hash(digit: &str) -> PhotoHash {
    PhotoHash::new(&digit.repeat(64)).unwrap()
}

fn now() -> ZonedDateTime {
    "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap()
}

fn id() -> JobId {
    JobId::new("a").unwrap()
}

/// A job with a finding, a photo of it, one of the whole job, and one of a thing on the list.
fn job() -> Job {
    let nick = [
        ("area", "blades"),
        ("which", "A"),
        ("flaw", "nick-leading"),
        ("todo", "dress"),
    ];
    let nick = InspectionDraft::new(Sheet::Finding, "nick".to_owned(), |field| {
        let found = nick.iter().find(|(name, _)| *name == field);
        found.map_or_else(String::new, |(_, text)| (*text).to_owned())
    });
    let taken = |digit: &str, subject: Subject, words: &str| {
        Body::Photographed(Photography::Taken {
            photo: hash(digit),
            said: Photo {
                width: 2560,
                height: 1920,
                subject,
                words: words.to_owned(),
            },
        })
    };
    let key = |text: &str| Key::new(text).unwrap();
    let mut entries: Vec<Entry> = Vec::new();
    for body in [
        Body::JobOpened {
            title: "Rescue sled 1".to_owned(),
            note: String::new(),
            follows: None,
        },
        Body::Inspected(nick.read(quantity::Unit::Thou).unwrap()),
        taken(
            "a",
            Subject::Finding(key("nick")),
            "Blade A, <3 mm from the tip>",
        ),
        taken("b", Subject::Job, ""),
        taken("c", Subject::Job, "The hose"),
    ] {
        let stamp = Stamp {
            id: EntryId::new(&format!("e-{}", entries.len() + 1)).unwrap(),
            now: now(),
            device: "tablet".into(),
            who: String::new(),
            seen: None,
        };
        for new in decide(&fold(&entries).0, Act::Record(body), stamp).unwrap() {
            entries.push(Entry {
                position: u64::try_from(entries.len()).unwrap() + 1,
                recorded_at: Timestamp::UNIX_EPOCH,
                new,
            });
        }
    }
    fold(&entries).0
}

fn photo(job: &Job, digit: &str) -> Page {
    let view = View {
        id: &id(),
        job,
        objections: &[],
        refused: None,
    };
    page(&view, &hash(digit))
}

fn strips(page: &Page) -> Vec<&report::page::photos::Strip> {
    let strips = page.evidence.iter().filter_map(|section| match section {
        Section::Photos(strip) => Some(strip),
        _ => None,
    });
    strips.collect()
}

fn teardown(job: &Job, refused: Option<&Refused>) -> Page {
    teardown::page(&torque::View {
        id: &id(),
        job,
        objections: &[],
        now: &now(),
        refused,
    })
}

#[test]
fn regress_a_photo_large_and_one_that_is_gone() {
    let job = job();
    insta::assert_snapshot!("photo_large", text(&photo(&job, "a")));
    insta::assert_snapshot!("photo_gone", text(&photo(&job, "d")));
}

#[test]
fn law_a_photo_stands_under_what_it_is_of() {
    let job = job();
    let page = teardown(&job, None);
    let strips = strips(&page);
    assert_eq!(strips.len(), 1);
    assert_eq!(strips[0].shots.len(), 1);
    let shot = &strips[0].shots[0];
    assert_eq!(shot.photo, hash("a"));
    assert_eq!(
        shot.alt,
        "Photo of blade A (nick in the leading edge): Blade A, <3 mm from the tip>"
    );
    // Nobody has said that the picture is here.
    assert!(!shot.here);
    assert_eq!(shot.absent(), "Photo aaaaaaaa: not on this bench.");
    // Every strip is behind a card or has a heading of its own.
    for pair in page.evidence.windows(2) {
        if let Section::Photos(strip) = &pair[1] {
            assert!(!strip.heading.is_empty() || matches!(pair[0], Section::Card(_)));
        }
    }
}

#[test]
fn law_a_refused_photo_is_told_at_its_own_card_with_its_words() {
    let refused = |subject: &str| Refused {
        form: FormName::Photo,
        typed: vec![
            ("subject".to_owned(), subject.to_owned()),
            ("words".to_owned(), "typed".to_owned()),
        ],
        field: Some("photo"),
        why: "no photo".to_owned(),
    };
    let job = job();
    for (subject, told) in [("finding nick", true), ("job", false)] {
        let refused = refused(subject);
        let page = teardown(&job, Some(&refused));
        let form = strips(&page)[0].take.as_ref().unwrap();
        let words = form
            .fields
            .iter()
            .find(|field| field.key == "words")
            .unwrap();
        let photo = form
            .fields
            .iter()
            .find(|field| field.key == "photo")
            .unwrap();
        assert_eq!(words.value == "typed", told, "{subject}");
        assert_eq!(photo.refusal.is_some(), told, "{subject}");
        assert_eq!(form.open, told, "{subject}");
    }
}
