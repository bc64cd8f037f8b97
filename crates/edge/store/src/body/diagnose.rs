//! What is said of what is wrong.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use workshop::diagnose::{self, Diagnosing};
use workshop::draft::diagnose::{CHECKS, FAULTS, FOUND, SYMPTOMS};
use workshop::draft::word;
use workshop::entry::{Body, Key};

use super::{Encoded, Fault, key, may, of, read, whole, write};

/// Writes what was said, each kind in its own shape.
pub(super) fn encode(said: &Diagnosing) -> Result<Encoded, Fault> {
    match said {
        Diagnosing::Suspect { outing } => {
            let outing = outing.as_ref().map(Key::to_string);
            write("outing-suspected", &Suspected { outing })
        }
        Diagnosing::Symptoms(all) => {
            let told = all.iter().map(|(symptom, seen)| Told {
                symptom: word(&SYMPTOMS, *symptom).to_owned(),
                seen: *seen,
            });
            let symptoms = told.collect();
            write("symptoms-told", &Symptoms { symptoms })
        }
        Diagnosing::Checked { check, found, note } => {
            let done = Done {
                check: word(&CHECKS, *check).to_owned(),
                found: found.map(|found| word(&FOUND, found).to_owned()),
                note: note.clone(),
            };
            write("check-done", &done)
        }
        Diagnosing::MadeSafe(still) => write("craft-stilled", &Stilled { still: *still }),
        Diagnosing::Taken(told) => write("cause-taken", &Taken::from(&**told)),
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    Some(match (kind, version) {
        ("outing-suspected", 1) => of_json::<Suspected>(json),
        ("symptoms-told", 1) => of_json::<Symptoms>(json),
        ("check-done", 1) => of_json::<Done>(json),
        ("craft-stilled", 1) => of_json::<Stilled>(json),
        ("cause-taken", 1) => of_json::<Taken>(json),
        _ => return None,
    })
}

fn of_json<T>(json: &str) -> Result<Body, Fault>
where
    T: serde::de::DeserializeOwned,
    Diagnosing: TryFrom<T>,
    <Diagnosing as TryFrom<T>>::Error: ToString,
{
    let said = Diagnosing::try_from(read::<T>(json)?);
    whole(said.map(Body::Diagnosed).map_err(|why| why.to_string()))
}

/// None goes back to the latest outing.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Suspected {
    outing: Option<String>,
}

impl TryFrom<Suspected> for Diagnosing {
    type Error = String;

    fn try_from(stored: Suspected) -> Result<Self, String> {
        let outing = stored.outing.map(|outing| key(&outing)).transpose()?;
        Ok(Self::Suspect { outing })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Symptoms {
    symptoms: Vec<Told>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Told {
    symptom: String,
    seen: bool,
}

impl TryFrom<Symptoms> for Diagnosing {
    type Error = String;

    fn try_from(stored: Symptoms) -> Result<Self, String> {
        let mut all = BTreeMap::new();
        for told in stored.symptoms {
            let symptom = of(&SYMPTOMS, &told.symptom)?;
            if all.insert(symptom, told.seen).is_some() {
                return Err(format!("“{}” is told of twice", told.symptom));
            }
        }
        Ok(Self::Symptoms(all))
    }
}

/// Nothing in `found` takes the check back.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Done {
    check: String,
    found: Option<String>,
    note: String,
}

impl TryFrom<Done> for Diagnosing {
    type Error = String;

    fn try_from(stored: Done) -> Result<Self, String> {
        Ok(Self::Checked {
            check: of(&CHECKS, &stored.check)?,
            found: may(&FOUND, stored.found.as_ref())?,
            note: stored.note,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Stilled {
    still: bool,
}

impl From<Stilled> for Diagnosing {
    fn from(stored: Stilled) -> Self {
        Self::MadeSafe(stored.still)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Taken {
    fault: String,
    chance: f64,
    evidence: String,
    words: String,
    program: String,
}

impl From<&diagnose::Told> for Taken {
    fn from(told: &diagnose::Told) -> Self {
        Self {
            fault: word(&FAULTS, told.fault).to_owned(),
            chance: told.chance,
            evidence: told.evidence.clone(),
            words: told.words.clone(),
            program: told.program.clone(),
        }
    }
}

impl TryFrom<Taken> for Diagnosing {
    type Error = String;

    fn try_from(stored: Taken) -> Result<Self, String> {
        Ok(Self::Taken(Box::new(diagnose::Told {
            fault: of(&FAULTS, &stored.fault)?,
            chance: stored.chance,
            evidence: stored.evidence,
            words: stored.words,
            program: stored.program,
        })))
    }
}
