//! The as-found record: what is seen before anything turns, and where it is needed again.

use std::fmt;

use quantity::{Entered, Unit, format};

use super::Area;
use crate::entry::Key;
use crate::job::{Fact, Job};

/// What a record is of, in the order it is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sort {
    /// The tip gap, roughly.
    Gap,
    /// Witness marks across a flange.
    Witness,
    /// Shims by stud.
    Shims,
    /// Which hose goes where.
    Hose,
    /// Threads showing at a cable's end.
    Cable,
    /// Where a ring's mark or split stands.
    Ring,
    /// Something else, in own words.
    Other,
}

impl Sort {
    /// Those that are asked for.
    pub const ASKED: [Self; 6] = [
        Self::Gap,
        Self::Witness,
        Self::Shims,
        Self::Hose,
        Self::Cable,
        Self::Ring,
    ];
}

/// One thing as it was found.
#[derive(Clone, Debug, PartialEq)]
pub struct AsFound {
    /// Of what.
    pub sort: Sort,
    /// Where, or which: a flange, a cable, the label of a hose; may be empty for a gap and a ring.
    pub at: String,
    /// What was seen.
    pub seen: Seen,
    /// More, in own words; asked for where it is something else.
    pub words: String,
}

/// What was seen.
#[derive(Clone, Debug, PartialEq)]
pub enum Seen {
    /// This craft has none.
    NoSuch,
    /// It was apart before anyone looked.
    Apart,
    /// The least and the greatest gap, equal where one was noted.
    Gap(Entered, Entered),
    /// The marks are in line.
    InLine,
    /// They have moved against each other, by so much where that was measured.
    Moved(Option<Entered>),
    /// The shims of each stud.
    Shims(Vec<Stack>),
    /// A hose.
    Hose {
        /// Where it begins.
        from: String,
        /// Where it ends.
        to: String,
        /// Which clamp, and how it sits; may be empty.
        clamp: String,
    },
    /// Threads showing beyond the nut.
    Cable(u8),
    /// Where the ring's mark or split stands.
    Ring(Clock),
    /// As its words say.
    Words,
}

/// The shims of one stud.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// The stud, as the person names it.
    pub stud: String,
    /// Its shims, thinnest first; none where it has none.
    pub shims: Vec<Entered>,
}

impl Stack {
    /// Thickness of all together, `m`.
    pub fn total(&self) -> f64 {
        // The empty sum of floats is -0.
        self.shims.iter().fold(0.0, |sum, shim| sum + shim.value)
    }
}

/// A place on the clock face, read as the pump's clock is, in minutes after 12.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clock(u16);

impl Clock {
    /// Reads `12`, `4:30`, `4.30` or `4 o'clock`.
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim().to_lowercase();
        let text = text
            .trim_end_matches("o'clock")
            .trim_end_matches("o’clock")
            .trim();
        let (hour, minute) = text.split_once([':', '.']).unwrap_or((text, "0"));
        let (hour, minute): (u16, u16) = (hour.parse().ok()?, minute.parse().ok()?);
        ((1..=12).contains(&hour) && minute < 60).then_some(Self(hour % 12 * 60 + minute))
    }
}

impl fmt::Display for Clock {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hour = match self.0 / 60 {
            0 => 12,
            hour => hour,
        };
        match self.0 % 60 {
            0 => write!(f, "{hour}"),
            minute => write!(f, "{hour}:{minute:02}"),
        }
    }
}

impl AsFound {
    /// Something was there and was looked at.
    pub fn is_seen(&self) -> bool {
        !matches!(self.seen, Seen::NoSuch | Seen::Apart)
    }
}

impl fmt::Display for AsFound {
    /// `7 threads showing`, `stud A 0.70 mm (0.5 mm + 0.2 mm)`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.seen {
            Seen::NoSuch => f.write_str("none on this craft"),
            Seen::Apart => f.write_str("was apart before anyone looked"),
            Seen::Gap(least, greatest) if least == greatest => f.write_str(&least.worded()),
            Seen::Gap(least, greatest) => {
                write!(f, "{} to {}", least.worded(), greatest.worded())
            }
            Seen::InLine => f.write_str("marks in line"),
            Seen::Moved(None) => f.write_str("marks have moved against each other"),
            Seen::Moved(Some(far)) => {
                write!(f, "marks {} away from each other", far.worded())
            }
            Seen::Shims(stacks) => {
                let stacks: Vec<String> = stacks.iter().map(stack).collect();
                f.write_str(&stacks.join("; "))
            }
            Seen::Hose { from, to, clamp } => {
                write!(f, "from {from} to {to}")?;
                match clamp.as_str() {
                    "" => Ok(()),
                    clamp => write!(f, ", clamp: {clamp}"),
                }
            }
            Seen::Cable(1) => f.write_str("1 thread showing"),
            Seen::Cable(threads) => write!(f, "{threads} threads showing"),
            Seen::Ring(clock) => write!(f, "mark or split at {clock} o’clock"),
            Seen::Words => Ok(()),
        }?;
        match (&self.seen, self.words.as_str()) {
            (_, "") => Ok(()),
            (Seen::Words, words) => f.write_str(words),
            (_, words) => write!(f, " ({words})"),
        }
    }
}

fn stack(stack: &Stack) -> String {
    let each: Vec<String> = stack.shims.iter().map(Entered::worded).collect();
    match each.as_slice() {
        [] => format!("stud {}: none", stack.stud),
        [one] => format!("stud {}: {one}", stack.stud),
        each => format!(
            "stud {}: {} ({})",
            stack.stud,
            total(stack.total()),
            each.join(" + ")
        ),
    }
}

/// A stack's thickness in words.
pub fn total(thickness: f64) -> String {
    format(thickness, Unit::Millimetre, 2)
}

/// How the record stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Record {
    /// What is on record, in the order asked.
    pub had: Vec<Sort>,
    /// What is not.
    pub missing: Vec<Sort>,
    /// Something has been taken apart.
    pub opened: bool,
}

/// Draws it from the job.
pub fn record(job: &Job) -> Record {
    let noted = |sort: &Sort| {
        let mut all = job.inspected.found.values();
        all.any(|fact| fact.value.sort == *sort)
    };
    let (had, missing) = Sort::ASKED.into_iter().partition(noted);
    Record {
        had,
        missing,
        opened: opened(job),
    }
}

/// Whether anything was taken apart: a step other than the record itself was begun or done, or
/// something was looked at that only shows when the pump is open.
pub fn opened(job: &Job) -> bool {
    let had = &job.inspected;
    let steps = job.bench.progress.iter().any(|(key, progress)| {
        !key.as_str().contains("as-found") && (progress.begun.is_some() || progress.done.is_some())
    });
    let inside = |area: Area| !area.outside();
    let inside = had.findings.values().any(|s| inside(s.finding.value.area));
    steps || inside || had.rotor.is_some() || had.leak.is_some() || had.sizes.is_some()
}

/// Everything that was found, by what it is of; “none on this craft” falls to what was seen since.
pub fn all(job: &Job) -> Vec<(&Key, &Fact<AsFound>)> {
    let found = &job.inspected.found;
    let seen = |sort: Sort| {
        let mut all = found.values();
        all.any(|fact| fact.value.sort == sort && fact.value.is_seen())
    };
    let counts = |fact: &Fact<AsFound>| fact.value.is_seen() || !seen(fact.value.sort);
    let mut all: Vec<_> = found.iter().filter(|(_, fact)| counts(fact)).collect();
    all.sort_by_key(|(_, fact)| fact.value.sort);
    all
}

/// What was seen of a sort that belongs to `name`: of that name, or all of it where none is.
pub fn of<'a>(job: &'a Job, sort: Sort, name: &str) -> Vec<&'a Fact<AsFound>> {
    let seen: Vec<_> = (all(job).into_iter())
        .filter(|(_, fact)| fact.value.sort == sort && fact.value.is_seen())
        .collect();
    let name = Key::of_name(name).ok();
    let named = seen
        .iter()
        .filter(|(key, fact)| {
            name.as_ref().is_some_and(|name| {
                *key == name || Key::of_name(&fact.value.at).as_ref() == Ok(name)
            })
        })
        .map(|(_, fact)| *fact)
        .collect::<Vec<_>>();
    if named.is_empty() {
        seen.into_iter().map(|(_, fact)| fact).collect()
    } else {
        named
    }
}

/// What is needed again at a step or a joint of this name, by its words. Common practice, no source.
pub fn beside<'a>(job: &'a Job, name: &str) -> Vec<&'a Fact<AsFound>> {
    let name_words = name.to_lowercase();
    let mut words = name_words.split(|c: char| !c.is_alphanumeric());
    let sort = words.find_map(|word| match word {
        "ring" => Some(Sort::Ring),
        "cable" | "cables" | "steering" => Some(Sort::Cable),
        "hose" | "hoses" => Some(Sort::Hose),
        "mount" | "mounts" | "shim" | "shims" | "driveline" | "coupling" => Some(Sort::Shims),
        _ => None,
    });
    sort.map_or_else(Vec::new, |sort| of(job, sort, name))
}
