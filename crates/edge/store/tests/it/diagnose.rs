//! What is said of what is wrong, as it is stored. All data are invented.

use std::collections::BTreeMap;

use ::store::body::{Encoded, decode, encode};
use workshop::diagnose::{Diagnosing, Told, evidence};
use workshop::draft::diagnose::{CHECKS, FAULTS, FOUND, SYMPTOMS};
use workshop::entry::{Body, Key};
use workshop::job::Job;

use crate::comes_back;

fn suspect(key: &str) -> Diagnosing {
    let outing = Some(Key::new(key).unwrap());
    Diagnosing::Suspect { outing }
}

fn symptoms(told: &[(&str, bool)]) -> Diagnosing {
    let all = told.iter().map(|(word, seen)| {
        let known = SYMPTOMS.iter().find(|(known, _)| known == word).unwrap();
        (known.1, *seen)
    });
    Diagnosing::Symptoms(all.collect())
}

fn checked(word: &str, found: Option<bool>, note: &str) -> Diagnosing {
    let known = CHECKS.iter().find(|(known, _)| *known == word).unwrap();
    Diagnosing::Checked {
        check: known.1,
        found,
        note: note.to_owned(),
    }
}

/// Everything that can be said but that a cause is taken, in an order that makes sense.
pub(crate) fn every_kind() -> Vec<Diagnosing> {
    vec![
        suspect("before"),
        symptoms(&[("roar", true), ("since-refit", false), ("milky-jet", true)]),
        checked("soap", Some(true), "Bubbles, lower left\nof the “shoe”"),
        checked("intake", Some(false), ""),
        checked("mark", Some(true), "shifted 2 mm"),
        checked("mark", None, ""),
        Diagnosing::MadeSafe(true),
        Diagnosing::MadeSafe(false),
    ]
}

/// An answer as it could be told now; the chance is invented, the evidence is the job's.
pub(crate) fn taken(job: &Job) -> Diagnosing {
    Diagnosing::Taken(Box::new(Told {
        fault: FAULTS[2].1,
        chance: 0.1 + 0.2,
        evidence: evidence(job),
        words: "Most likely: air is drawn in.".to_owned(),
        program: "a test".to_owned(),
    }))
}

fn round(said: Diagnosing) -> String {
    comes_back(&Body::Diagnosed(said))
}

#[test]
fn law_what_is_said_of_what_is_wrong_comes_back() {
    for said in every_kind() {
        round(said);
    }
    for chance in [0.0, f64::MIN_POSITIVE, 0.1 + 0.2, 1.0] {
        let mut told = taken(&Job::default());
        if let Diagnosing::Taken(told) = &mut told {
            told.chance = chance;
        }
        round(told);
    }
    // What goes back to the latest outing, and nothing seen.
    assert_eq!(
        round(Diagnosing::Suspect { outing: None }),
        r#"{"outing":null}"#
    );
    assert_eq!(
        round(Diagnosing::Symptoms(BTreeMap::new())),
        r#"{"symptoms":[]}"#
    );
    assert_eq!(
        round(checked("mark", None, "")),
        r#"{"check":"mark","found":null,"note":""}"#
    );
}

#[test]
fn law_every_word_of_what_is_wrong_comes_back() {
    for (word, symptom) in SYMPTOMS {
        for seen in [true, false] {
            let json = round(Diagnosing::Symptoms(BTreeMap::from([(symptom, seen)])));
            let stored = format!(r#"{{"symptoms":[{{"symptom":"{word}","seen":{seen}}}]}}"#);
            assert_eq!(json, stored);
        }
    }
    for (word, check) in CHECKS {
        for (found, something) in FOUND {
            let json = round(Diagnosing::Checked {
                check,
                found: Some(something),
                note: "seen".to_owned(),
            });
            let stored = format!(r#"{{"check":"{word}","found":"{found}","note":"seen"}}"#);
            assert_eq!(json, stored);
        }
    }
    for (word, fault) in FAULTS {
        let mut told = taken(&Job::default());
        if let Diagnosing::Taken(told) = &mut told {
            told.fault = fault;
        }
        let json = round(told);
        assert!(json.contains(&format!(r#""fault":"{word}""#)), "{json}");
    }
}

#[test]
fn law_a_word_of_what_is_wrong_that_is_none_is_refused() {
    let of = |said: Diagnosing| encode(&Body::Diagnosed(said)).unwrap();
    let mut kinds: Vec<Encoded> = every_kind().into_iter().map(of).collect();
    kinds.push(of(taken(&Job::default())));
    for (n, from, to, why) in [
        (0, "\"before\"", "\"Be fore\"", "no id"),
        (0, "\"before\"", "3", "expected a string"),
        (1, "\"roar\"", "\"Roar\"", "“Roar” is no word of this list"),
        (
            1,
            "\"roar\"",
            "\"milky-jet\"",
            "“milky-jet” is told of twice",
        ),
        (1, "\"seen\":true", "\"seen\":\"yes\"", "expected a boolean"),
        (1, "\"seen\":true", "\"seen\":null", "expected a boolean"),
        (
            2,
            "\"soap\"",
            "\"soapy\"",
            "“soapy” is no word of this list",
        ),
        (
            2,
            "\"something\"",
            "\"bubbles\"",
            "“bubbles” is no word of this list",
        ),
        (2, "\"something\"", "true", "expected a string"),
        (6, "true", "\"yes\"", "expected a boolean"),
        (8, "\"air\"", "\"roar\"", "“roar” is no word of this list"),
        (8, "0.30000000000000004", "null", "expected f64"),
        (8, "\"chance\"", "\"share\"", "unknown field"),
    ] {
        let Encoded { kind, json, .. } = &kinds[n];
        assert!(json.contains(from), "{json}: {from}");
        let broken = json.replacen(from, to, 1);
        let said = decode(kind, 1, &broken).unwrap_err().to_string();
        assert!(said.contains(why), "{broken}: {said}");
    }
}
