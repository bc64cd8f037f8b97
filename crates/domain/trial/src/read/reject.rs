//! What was set aside while reading, why, and where it first happened.

use std::fmt;

/// Characters shown of a text that was set aside.
const SHOWN: usize = 80;

/// Why a line or a fix was set aside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Why {
    /// The sum at the end of a sentence is not that of its characters.
    Checksum,
    /// A sentence without a sum.
    NoChecksum,
    /// More characters than a line of a log has.
    LongLine,
    /// Not a line of this kind of log.
    NotUnderstood,
    /// A field that should be a number is none, or one beyond its range.
    BadNumber,
    /// A time that cannot be read.
    BadTime,
    /// A fix without a time.
    NoTime,
    /// A fix with neither speed nor place, or without a speed in a log that has speeds.
    NoSpeed,
    /// The receiver said that it had no fix.
    NoFix,
    /// At latitude and longitude zero, where receivers put what they do not know.
    NullPlace,
    /// A latitude or longitude beyond its range.
    BadPlace,
    /// Fewer than five satellites, or a dilution of precision above five.
    PoorFix,
    /// A second fix of the same instant; the last one counts.
    Duplicate,
    /// A speed that no craft reaches from the one before: more than 15 m/s² away.
    Outlier,
    /// An engine speed of another engine or shaft than the first.
    OtherEngine,
    /// The file ends, or breaks, in the middle of something.
    CutOff,
    /// Further kinds of sources than are told apart.
    TooManySources,
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Checksum => "checksum does not match",
            Self::NoChecksum => "no checksum",
            Self::LongLine => "line too long for a log",
            Self::NotUnderstood => "not a line of this kind of log",
            Self::BadNumber => "a number cannot be read, or is out of range",
            Self::BadTime => "the time cannot be read",
            Self::NoTime => "no time",
            Self::NoSpeed => "no speed",
            Self::NoFix => "the receiver had no fix",
            Self::NullPlace => "at latitude 0 and longitude 0",
            Self::BadPlace => "latitude or longitude out of range",
            Self::PoorFix => "fewer than 5 satellites, or dilution above 5",
            Self::Duplicate => "same time as the next fix, which counts",
            Self::Outlier => "more than 15 m/s² from its neighbours",
            Self::OtherEngine => "of another engine or shaft",
            Self::CutOff => "the file ends or breaks in the middle",
            Self::TooManySources => "from one of too many senders",
        })
    }
}

/// All that was set aside for one reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rejected {
    /// The reason.
    pub why: Why,
    /// How often.
    pub count: u64,
    /// Where first: 1 for the first line.
    pub line: u64,
    /// What stood there, at most 80 characters of it.
    pub example: String,
}

#[derive(Clone, Debug, Default)]
pub(crate) struct Rejects(Vec<Rejected>);

impl Rejects {
    pub(crate) fn add(&mut self, why: Why, line: u64, text: &[u8]) {
        if let Some(known) = self.0.iter_mut().find(|r| r.why == why) {
            known.count += 1;
            return;
        }
        let example = shown(text);
        self.0.push(Rejected {
            why,
            count: 1,
            line,
            example,
        });
    }

    pub(crate) fn merge(&mut self, other: Self) {
        for new in other.0 {
            match self.0.iter_mut().find(|r| r.why == new.why) {
                Some(known) => {
                    known.count += new.count;
                    if new.line < known.line {
                        known.line = new.line;
                        known.example = new.example;
                    }
                }
                None => self.0.push(new),
            }
        }
    }

    /// The most frequent first.
    pub(crate) fn sorted(mut self) -> Vec<Rejected> {
        self.0
            .sort_by(|a, b| b.count.cmp(&a.count).then(a.why.cmp(&b.why)));
        self.0
    }
}

/// A piece of a file as it may be shown: control characters made visible, cut to length.
pub(crate) fn shown(text: &[u8]) -> String {
    let start = &text[..text.len().min(4 * SHOWN)];
    String::from_utf8_lossy(start)
        .trim()
        .chars()
        .take(SHOWN)
        .map(|c| if c.is_control() { '\u{fffd}' } else { c })
        .collect()
}
