//! Whether something may be said of a water test.

use jiff::{Timestamp, ZonedDateTime};
use quantity::{Entered, Kind};

use super::{LONGEST_NOTE, LONGEST_TEXT, Range, each, filled, text, within};
use crate::assemble::{assess, words};
use crate::draft::water::clock;
use crate::entry::Key;
use crate::job::Job;
use crate::plan::Opens;
use crate::refusal::{Refusal, Splash};
use crate::water::{
    Columns, Figure, LogState, Logged, Outing, OutingState, Side, Trialling, What, Window, evidence,
};

/// The most samples a job keeps of one log.
pub const MOST_SAMPLES: usize = 60_000;
/// The most runs of one log, and the most figures of one outing.
pub const MOST_RUNS: usize = 64;
/// The most kinds of rejected things told of one log.
const MOST_REJECTED: usize = 64;
/// How many reasons against floating are told in a breath.
const TOLD: usize = 3;
/// The digits of a digest.
const DIGITS: usize = 64;

const WIND: Range = Range {
    least: 0.0,
    greatest: 40.0,
};
const WAVES: Range = Range {
    least: 0.0,
    greatest: 3.0,
};
const AIR: Range = Range {
    least: 243.15,
    greatest: 328.15,
};
const WATER: Range = Range {
    least: 271.15,
    greatest: 313.15,
};
/// At the place: a lake at 4500 m has 58 kPa.
const PRESSURE: Range = Range {
    least: 50_000.0,
    greatest: 110_000.0,
};
const SPEED: Range = Range {
    least: 1.0,
    greatest: 60.0,
};
/// 500 to 12 000 rpm, in `rad/s`.
const ENGINE: Range = Range {
    least: 52.359,
    greatest: 1256.65,
};
const START: Range = Range {
    least: 0.3,
    greatest: 120.0,
};

/// Refuses what cannot be so, and powered runs of a craft that may not float.
pub(super) fn check(job: &Job, said: &Trialling, now: &ZonedDateTime) -> Result<(), Refusal> {
    match said {
        Trialling::Outing { key, outing } => {
            let there = job.trials.outings.get(key);
            let side = there.map(|state| state.outing.value.side);
            if outing.side == Side::After && side != Some(Side::After) {
                may_float(job, now)?;
            }
        }
        Trialling::Log { digest, .. } => {
            if let Some(there) = job.trials.logs.get(digest) {
                let outing = job.trials.outings.get(&there.outing);
                return Err(Refusal::Water(Splash::HereAlready {
                    name: there.log.value.name.clone(),
                    outing: outing.map_or_else(
                        || there.outing.to_string(),
                        |state| state.outing.value.name.clone(),
                    ),
                }));
            }
        }
        _ => {}
    }
    sane(job, said)
}

/// What a file tells may also be of runs that were made all the same.
pub(super) fn sane(job: &Job, said: &Trialling) -> Result<(), Refusal> {
    match said {
        Trialling::Outing { outing, .. } => described(outing),
        Trialling::Log {
            outing,
            digest,
            log,
        } => {
            outing_of(job, outing)?;
            digest_of(digest)?;
            logged(log)
        }
        Trialling::LogPutAway { digest } => log_of(job, digest).map(drop),
        Trialling::Runs { digest, windows } => {
            let log = log_of(job, digest)?;
            windows
                .as_ref()
                .map_or(Ok(()), |windows| runs(&log.log.value, windows))
        }
        Trialling::Figures { outing, figures } => {
            outing_of(job, outing)?;
            at_most("figures", figures.len())?;
            figures.iter().try_for_each(figure)
        }
        Trialling::Taken(shown) => {
            text("words", &shown.words, LONGEST_NOTE)?;
            if shown.evidence == evidence(job) {
                Ok(())
            } else {
                Err(Refusal::ShownIsStale)
            }
        }
    }
}

/// Nothing the plan and the account name holds the craft ashore. Without a plan nobody knows.
pub fn may_float(job: &Job, now: &ZonedDateTime) -> Result<(), Refusal> {
    let Some(all) = assess(job, now.timestamp()) else {
        return Ok(());
    };
    let Some(plan) = job.bench.plan() else {
        return Ok(());
    };
    let blocks = &all.levels[Opens::Float as usize].blocks;
    if blocks.is_empty() {
        return Ok(());
    }
    let told = blocks.iter().take(TOLD);
    Err(Refusal::Water(Splash::MayNotFloat {
        blocks: told.map(|block| words::blocks(plan, block, now)).collect(),
        more: blocks.len().saturating_sub(TOLD),
    }))
}

fn described(outing: &Outing) -> Result<(), Refusal> {
    filled("name", &outing.name)?;
    text("name", &outing.name, LONGEST_TEXT)?;
    text("note", &outing.note, LONGEST_NOTE)?;
    if outing.unit.kind() != Kind::Speed {
        return Err(Refusal::Water(Splash::NotASpeed { field: "unit" }));
    }
    if outing.humidity.is_some_and(|percent| percent > 100) {
        return Err(Refusal::NotACount {
            field: "humidity",
            text: outing.humidity.unwrap_or_default().to_string(),
            allowed: "a whole number of percent from 0 to 100",
        });
    }
    each([
        ("wind", outing.wind.as_ref(), &WIND),
        ("waves", outing.waves.as_ref(), &WAVES),
        ("air_temperature", outing.air_temperature.as_ref(), &AIR),
        (
            "water_temperature",
            outing.water_temperature.as_ref(),
            &WATER,
        ),
        ("pressure", outing.pressure.as_ref(), &PRESSURE),
    ])
}

fn outing_of<'a>(job: &'a Job, key: &Key) -> Result<&'a OutingState, Refusal> {
    job.trials.outings.get(key).ok_or_else(|| {
        Refusal::Water(Splash::NoSuchOuting {
            key: key.to_string(),
        })
    })
}

fn log_of<'a>(job: &'a Job, digest: &Key) -> Result<&'a LogState, Refusal> {
    job.trials.logs.get(digest).ok_or_else(|| {
        Refusal::Water(Splash::NoSuchLog {
            short: digest.as_str().chars().take(8).collect(),
        })
    })
}

fn digest_of(digest: &Key) -> Result<(), Refusal> {
    let digit = |b: u8| b.is_ascii_digit() || (b'a'..=b'f').contains(&b);
    if digest.as_str().len() == DIGITS && digest.as_str().bytes().all(digit) {
        return Ok(());
    }
    Err(Refusal::Water(Splash::BadDigest {
        text: digest.to_string(),
    }))
}

fn logged(log: &Logged) -> Result<(), Refusal> {
    filled("name", &log.name)?;
    text("name", &log.name, LONGEST_TEXT)?;
    text("speed_from", &log.speed_from, LONGEST_TEXT)?;
    text(
        "layout",
        log.layout.as_deref().unwrap_or_default(),
        LONGEST_NOTE,
    )?;
    if log.rejected.len() > MOST_REJECTED {
        return Err(Refusal::Water(Splash::TooMany {
            what: "kinds of rejected lines",
            most: MOST_REJECTED,
        }));
    }
    for rejected in &log.rejected {
        text("why", &rejected.why, LONGEST_TEXT)?;
        text("text", &rejected.text, LONGEST_TEXT)?;
    }
    if let Some(words) = unsayable(log) {
        let words = words.to_owned();
        return Err(Refusal::Water(Splash::Log { words }));
    }
    let samples: usize = log.stretches.iter().map(|some| some.time_ms.len()).sum();
    if samples > MOST_SAMPLES {
        return Err(Refusal::Water(Splash::TooLong {
            samples,
            most: MOST_SAMPLES,
        }));
    }
    for (place, columns) in log.stretches.iter().enumerate() {
        if let Some(what) = wrong(columns) {
            let stretch = place + 1;
            return Err(Refusal::Water(Splash::BadColumns { stretch, what }));
        }
    }
    Ok(())
}

/// What no job file could say after it.
fn unsayable(log: &Logged) -> Option<&'static str> {
    let zero = log.zero_ms.map(Timestamp::from_millisecond);
    if zero.is_some_and(|zero| zero.is_err()) {
        return Some(
            "The log begins at a time that no calendar has. Set the receiver’s clock, or take the \
             date out of the file.",
        );
    }
    if log.unit_ratio.is_some_and(|ratio| !ratio.is_finite()) {
        return Some(
            "The speed of the receiver over the speed by positions is no number. Read the file again.",
        );
    }
    None
}

/// What is wrong with the columns of a stretch.
fn wrong(columns: &Columns) -> Option<&'static str> {
    let Columns {
        time_ms,
        speed_mm_s,
        course_cdeg,
        engine_rpm,
    } = columns;
    let fits = |len: usize| len == 0 || len == time_ms.len();
    if time_ms.is_empty() {
        Some("it is empty")
    } else if speed_mm_s.len() != time_ms.len()
        || !fits(course_cdeg.len())
        || !fits(engine_rpm.len())
    {
        Some("its columns are not of one length")
    } else if time_ms.windows(2).any(|pair| pair[0] >= pair[1]) {
        Some("its time does not rise")
    } else if course_cdeg.iter().flatten().any(|course| *course >= 36_000) {
        Some("a course is 360 degrees or more")
    } else {
        None
    }
}

fn at_most(what: &'static str, count: usize) -> Result<(), Refusal> {
    if count > MOST_RUNS {
        let most = MOST_RUNS;
        return Err(Refusal::Water(Splash::TooMany { what, most }));
    }
    Ok(())
}

fn runs(log: &Logged, windows: &[Window]) -> Result<(), Refusal> {
    at_most("runs", windows.len())?;
    for window in windows {
        let inside = |columns: &Columns| {
            let first = columns
                .time_ms
                .first()
                .is_some_and(|at| *at <= window.from_ms);
            let last = columns
                .time_ms
                .last()
                .is_some_and(|at| *at >= window.until_ms);
            first && last
        };
        let (from, until) = (clock(window.from_ms), clock(window.until_ms));
        if window.from_ms >= window.until_ms {
            return Err(Refusal::Water(Splash::Backwards { from, until }));
        }
        if !log.stretches.iter().any(inside) {
            return Err(Refusal::Water(Splash::OutsideTheLog { from, until }));
        }
    }
    let mut sorted = windows.to_vec();
    sorted.sort_unstable();
    match sorted
        .windows(2)
        .find(|pair| pair[0].until_ms > pair[1].from_ms)
    {
        Some(pair) => Err(Refusal::Water(Splash::Overlap {
            at: clock(pair[1].from_ms),
        })),
        None => Ok(()),
    }
}

fn figure(figure: &Figure) -> Result<(), Refusal> {
    let of = |entered: &Entered, kind: Kind, field: &'static str| {
        if entered.unit.kind() == kind {
            Ok(())
        } else {
            Err(Refusal::Water(Splash::NotASpeed { field }))
        }
    };
    match &figure.what {
        What::TopSpeed(_) => {
            of(&figure.value, Kind::Speed, "value")?;
            within("value", &figure.value, &SPEED)
        }
        What::EngineSpeed => within("value", &figure.value, &ENGINE),
        What::Start { to } => {
            of(to, Kind::Speed, "to")?;
            within("to", to, &SPEED)?;
            within("value", &figure.value, &START)
        }
    }
}
