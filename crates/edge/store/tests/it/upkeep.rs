//! What is said about service, as it is stored. All data are invented.

use ::store::body::decode;
use workshop::draft::upkeep::{
    CARRIED, DoneDraft, EDGES, ENDINGS, MISHAPS, MeterDraft, MishapDraft, POINTS, PieceDraft,
    RuleDraft, SORTS, SortDraft, TRUSTS, UsageDraft, WELL,
};
use workshop::entry::{Body, Key};
use workshop::job::Job;
use workshop::upkeep::recheck::Point;
use workshop::upkeep::{Servicing, Told, evidence};

use crate::comes_back;

fn words(text: &str) -> String {
    text.to_owned()
}

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn usage() -> UsageDraft {
    UsageDraft {
        currency: words("EUR"),
        water: words("sand"),
        silt: words("2"),
        sand: words("3,5"),
        week: words("6"),
        season: words("50 h"),
        from: words("05-01"),
        until: words("02-29"),
        keep: words("300"),
        wage: words("0"),
        failure: words("150"),
        worth: words("12.50"),
        between: words("80"),
        floor: words("75"),
    }
}

fn sort(kind: &str, trust: &str) -> SortDraft {
    SortDraft {
        name: words("Plastic ring, “soft”"),
        kind: words(kind),
        option: String::new(),
        price: words("45"),
        supplies: words("8"),
        labour: words("90 min"),
        tenth: words("43"),
        half: words("102"),
        trust: words(trust),
        ruin: words("15"),
        lost: words("10"),
        lost_at: words("80"),
        note: words("first line\nsecond"),
    }
}

fn piece(end: &str, water: &str) -> PieceDraft {
    let ended = if end.is_empty() { "" } else { "95" };
    PieceDraft {
        part: words("plastic"),
        water: words(water),
        fitted: words("12"),
        good: words("80"),
        end: words(end),
        ended: words(ended),
        note: words("n"),
        ..PieceDraft::default()
    }
}

fn of_sort(key: Key, draft: &SortDraft) -> Servicing {
    let part = Some(Box::new(draft.read().unwrap()));
    Servicing::Part { key, part }
}

fn of_piece(key: Key, draft: &PieceDraft) -> Servicing {
    let piece = Some(Box::new(draft.read().unwrap()));
    Servicing::Piece { key, piece }
}

fn rule(edge: &str) -> Servicing {
    let rule = RuleDraft {
        name: words("Jet pump bearing"),
        hours: words("100"),
        months: words("24"),
        after: vec![words("strike"), words("hot")],
        edge: words(edge),
        page: words("5-14"),
    };
    Servicing::Rule {
        task: key("bearing"),
        rule: Some(Box::new(rule.read().unwrap())),
    }
}

fn mishap(what: &str) -> Servicing {
    let what = MishapDraft {
        what: words(what),
        on: words("2026-05-03"),
        hours: words("90"),
        note: words("a log"),
    };
    Servicing::Happened(what.read().unwrap())
}

fn meter(on: &str, hours: &str) -> Servicing {
    let read = MeterDraft {
        on: words(on),
        hours: words(hours),
    };
    Servicing::Meter(read.read().unwrap())
}

fn done(on: &str) -> Servicing {
    let done = DoneDraft {
        task: words("gap"),
        on: words(on),
        hours: words("90"),
        note: words("13 thou all round"),
    };
    Servicing::Done(done.read().unwrap())
}

fn rechecked(point: Point, well: Option<bool>) -> Servicing {
    let note = words("dry");
    Servicing::Rechecked { point, well, note }
}

/// Everything that can be said but that a job is closed, in an order that makes sense.
pub(crate) fn every_kind() -> Vec<Servicing> {
    let mut all = vec![
        Servicing::Usage(Box::new(usage().read().unwrap())),
        of_sort(key("plastic"), &sort("ring", "fair")),
        of_sort(key("gone"), &sort("ring", "fair")),
        Servicing::Part {
            key: key("gone"),
            part: None,
        },
        of_piece(key("first"), &piece("worn", "silt")),
        of_piece(key("second"), &piece("", "")),
        Servicing::Piece {
            key: key("second"),
            piece: None,
        },
        meter("2026-05-01", "88"),
        mishap("strike"),
        rule("lay-up"),
        Servicing::Rule {
            task: key("bearing"),
            rule: None,
        },
        done("2026-05-04"),
        rechecked(Point::Bilge, Some(false)),
        rechecked(Point::Bilge, None),
    ];
    all.extend(Point::ALL.map(|point| rechecked(point, Some(true))));
    all
}

/// A job closed on what was looked at.
pub(crate) fn closed(job: &Job) -> Servicing {
    Servicing::Closed(Box::new(Told {
        evidence: evidence(job),
        words: words("All nine points as they should be."),
        program: words("a test"),
    }))
}

fn round(said: Servicing) -> String {
    comes_back(&Body::Serviced(said))
}

#[test]
fn law_what_is_said_about_service_comes_back() {
    for said in every_kind() {
        round(said);
    }
    round(closed(&Job::default()));
    round(Servicing::Usage(Box::default()));
    assert_eq!(
        round(meter("", "88")),
        r#"{"on":null,"hours":{"text":"88","bare":"h","unit":"h","duration_s":316800.0}}"#
    );
    assert_eq!(
        round(rechecked(Point::Cone, None)),
        r#"{"point":"cone","found":null,"note":"dry"}"#
    );
}

#[test]
fn law_every_word_about_service_comes_back() {
    for (kind, _) in SORTS {
        round(of_sort(key("a"), &sort(kind, "")));
    }
    for (trust, _) in TRUSTS {
        round(of_sort(key("a"), &sort("", trust)));
    }
    for (end, _) in ENDINGS {
        round(of_piece(key("a"), &piece(end, "")));
    }
    for (water, _) in CARRIED {
        round(of_piece(key("a"), &piece("", water)));
    }
    for (what, _) in MISHAPS {
        round(mishap(what));
    }
    for (edge, _) in EDGES {
        round(rule(edge));
    }
    for (_, point) in POINTS {
        for (_, well) in WELL {
            round(rechecked(point, Some(well)));
        }
    }
}

#[test]
fn law_a_word_that_is_none_is_told() {
    for (kind, json) in [
        (
            "meter-read",
            r#"{"on":"yesterday","hours":{"text":"1 s","bare":"h","unit":"s","duration_s":1.0}}"#,
        ),
        (
            "point-rechecked",
            r#"{"point":"keel","found":null,"note":""}"#,
        ),
        ("piece-described", r#"{"piece":"a b","said":null}"#),
        ("sort-described", r#"{"sort":"a","said":null,"more":1}"#),
    ] {
        assert!(decode(kind, 1, json).is_err(), "{json}");
    }
}
