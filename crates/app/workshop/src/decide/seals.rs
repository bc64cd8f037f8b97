//! Whether something may be said of compounds, seals and metals.

use jiff::ZonedDateTime;
use joint::compound::{Compound, Cure};
use joint::meets::{self, Rule, Severity};

use super::joints::joint_of;
use super::{LONGEST_TEXT, Range, each, filled, in_order, text, within};
use crate::draft::inspect::seal_words::COMPOUNDS;
use crate::draft::word;
use crate::entry::Key;
use crate::job::Job;
use crate::joints::{Face, Joint};
use crate::refusal::{Obstacle, Refusal, Seal as Why, Slip};
use crate::seals::{Around, OnThread, Own, OwnCure, Seal, Sealing, Stuff, face, open, thread};

/// Widths on a face, and the diameter of a passage.
const WIDTH: Range = Range {
    least: 0.000_5,
    greatest: 0.1,
};
const GAP: Range = Range {
    least: 0.000_001,
    greatest: 0.002,
};
const LINE: Range = Range {
    least: 0.01,
    greatest: 20.0,
};
/// From 10 degrees of frost to 50 °C, as far as the vapour in the air is reckoned.
const AIR: Range = Range {
    least: 263.15,
    greatest: 323.15,
};
/// From ten seconds to a week.
const OPEN_TIME: Range = Range {
    least: 10.0,
    greatest: 604_800.0,
};
/// From a minute to three months.
const FULL: Range = Range {
    least: 60.0,
    greatest: 7_776_000.0,
};
/// What cures in a day.
const DEPTH: Range = Range {
    least: 0.000_1,
    greatest: 0.02,
};
/// The most months of a shelf life.
pub(crate) const MOST_MONTHS: u8 = 120;

/// What is said now: it may also not clash with what is known, or be too old.
pub(super) fn check(job: &Job, said: &Sealing, now: &ZonedDateTime) -> Result<(), Refusal> {
    sane(job, said, now)?;
    match said {
        Sealing::Compound { compound, .. } => match compound.stale(now.date()) {
            Some(age) => why(Why::Stale { age }),
            None => Ok(()),
        },
        Sealing::Thread { joint, thread } => {
            let class = material(job, &thread.with)?;
            let seal = job.seals().seals.get(joint);
            let on_face = seal.and_then(|fact| Some(job.material(&fact.value.with)?.class));
            meet(job, known(job, joint)?, (Some(class), on_face), class)
        }
        Sealing::Seal { joint, seal } => {
            let class = material(job, &seal.with)?;
            let described = known(job, joint)?;
            let on_thread = thread::of(job, joint, described).map(|on| on.material.class);
            meet(job, described, (on_thread, Some(class)), class)
        }
        Sealing::Bench(_) | Sealing::Contact { .. } => Ok(()),
    }
}

/// What a file tells: only what cannot be so is refused; the rest is open on the joint's card.
pub(super) fn sane(job: &Job, said: &Sealing, now: &ZonedDateTime) -> Result<(), Refusal> {
    match said {
        Sealing::Bench(around) => check_around(around),
        Sealing::Compound { key, compound } => check_compound(key, compound, now),
        Sealing::Thread { joint, thread } => check_thread(job, joint, thread),
        Sealing::Seal { joint, seal } => check_seal(job, joint, seal),
        Sealing::Contact { joint, .. } => known(job, joint).map(drop),
    }
}

fn why<T>(why: Why) -> Result<T, Refusal> {
    Err(Refusal::Inspected(Slip::Seal(why)))
}

fn known<'a>(job: &'a Job, key: &Key) -> Result<&'a Joint, Refusal> {
    Ok(&joint_of(job, key)?.joint.value)
}

/// The class of a compound that is known.
fn material(job: &Job, stuff: &Stuff) -> Result<Compound, Refusal> {
    match job.material(stuff) {
        Some(material) => Ok(material.class),
        None => why(Why::NoSuchCompound {
            key: match stuff {
                Stuff::Own(key) => key.to_string(),
                Stuff::Class(class) => class.to_string(),
            },
        }),
    }
}

/// Refuses the first pair that must not meet in which what is said now has a part.
fn meet(
    job: &Job,
    joint: &Joint,
    (on_thread, on_face): (Option<Compound>, Option<Compound>),
    now: Compound,
) -> Result<(), Refusal> {
    let spoils = |rule: &Rule| {
        rule.severity == Severity::Never && rule.pair.contains(&meets::Thing::Compound(now))
    };
    let things = open::things(job, joint, on_thread, on_face);
    match meets::clashes(&things).into_iter().find(spoils) {
        Some(rule) => why(Why::Clash { rule }),
        None => Ok(()),
    }
}

fn check_around(around: &Around) -> Result<(), Refusal> {
    each([("temperature", around.temperature.as_ref(), &AIR)])?;
    match around.humidity {
        Some(percent) if !(1..=100).contains(&percent) => Err(Refusal::NotACount {
            field: "humidity",
            text: percent.to_string(),
            allowed: "a whole number of per cent from 1 to 100",
        }),
        _ => Ok(()),
    }
}

fn check_compound(key: &Key, own: &Own, now: &ZonedDateTime) -> Result<(), Refusal> {
    filled("name", &own.name)?;
    text("name", &own.name, LONGEST_TEXT)?;
    if COMPOUNDS.iter().any(|(word, _)| *word == key.as_str()) {
        return why(Why::ClassName {
            key: key.to_string(),
        });
    }
    each([
        ("working", own.working.as_ref(), &OPEN_TIME),
        ("skin", own.skin.as_ref(), &OPEN_TIME),
    ])?;
    match (&own.cure, own.class.sheet().cure) {
        (OwnCure::Depth(depth), Cure::Moisture(_)) => within("cure_depth", depth, &DEPTH)?,
        (OwnCure::Depth(_), _) => {
            return why(Why::OtherCure {
                field: "cure_depth",
                class: own.class,
            });
        }
        (OwnCure::Time(full), Cure::Airless { .. } | Cure::Reaction(_)) => {
            within("cure_time", full, &FULL)?;
        }
        (OwnCure::Time(_), _) => {
            return why(Why::OtherCure {
                field: "cure_time",
                class: own.class,
            });
        }
        (OwnCure::AsItsClass, _) => {}
    }
    if own
        .shelf
        .is_some_and(|months| !(1..=MOST_MONTHS).contains(&months))
    {
        return Err(Refusal::NotACount {
            field: "shelf",
            text: own.shelf.unwrap_or(0).to_string(),
            allowed: "a whole number of months from 1 to 120",
        });
    }
    match own.made {
        Some(made) if made > now.date() => Err(Refusal::Work(Obstacle::Future {
            at: made.to_string(),
        })),
        _ => Ok(()),
    }
}

fn check_thread(job: &Job, key: &Key, on: &OnThread) -> Result<(), Refusal> {
    let joint = known(job, key)?;
    let class = material(job, &on.with)?;
    match class.condition() {
        None => why(Why::NotForThreads { class }),
        Some(condition) if condition != joint.condition => why(Why::OtherOnThread {
            class,
            condition: word(&crate::draft::CONDITIONS, joint.condition),
        }),
        Some(_) if on.primed && !matches!(class.sheet().cure, Cure::Airless { .. }) => {
            why(Why::NoActivator { class })
        }
        Some(_) => Ok(()),
    }
}

fn check_seal(job: &Job, key: &Key, seal: &Seal) -> Result<(), Refusal> {
    let joint = known(job, key)?;
    let class = material(job, &seal.with)?;
    if !face::FACES.contains(&class) {
        return why(Why::NotForFaces { class });
    }
    if matches!(joint.face, Face::Bare | Face::ORing) {
        return why(Why::NoSealantThere);
    }
    within("sealed", &seal.sealed, &WIDTH)?;
    within("room", &seal.room, &WIDTH)?;
    if seal.sealed.value > seal.room.value {
        in_order("room", &seal.sealed, &seal.room)?;
    }
    if let Some((low, high)) = &seal.gap {
        within("gap_low", low, &GAP)?;
        within("gap_high", high, &GAP)?;
        if low.value > high.value {
            in_order("gap_low", low, high)?;
        }
    }
    each([
        ("line", seal.line.as_ref(), &LINE),
        ("passage", seal.passage.as_ref(), &WIDTH),
    ])
}
