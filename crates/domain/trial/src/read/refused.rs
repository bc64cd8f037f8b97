//! Files that are refused whole, and the way out of each.

use std::fmt;

use quantity::Unit;

use super::Rejected;
use super::csv::{Column, Mapping, Missing};

/// Why a file was not read at all.
#[derive(Clone, Debug, PartialEq)]
pub enum Refused {
    /// No bytes.
    Empty,
    /// Nothing but white space.
    Blank,
    /// An archive or a document, by its first bytes.
    Packed {
        /// What it is.
        what: &'static str,
        /// What to do with it.
        way_out: &'static str,
    },
    /// Text with two bytes a character.
    TwoBytes,
    /// None of the kinds of log read here.
    NotALog {
        /// How it begins.
        start: String,
    },
    /// XML that declares a document type or entities of its own.
    Entities {
        /// Where.
        line: u64,
    },
    /// XML nested deeper than any log.
    TooDeep {
        /// Where.
        line: u64,
        /// The most levels read.
        limit: usize,
    },
    /// A log of places without a track.
    NoTrack {
        /// Points that belong to no track.
        points: u64,
    },
    /// Fixes, none with a time.
    NoTime {
        /// How many fixes.
        fixes: u64,
    },
    /// Fixes, none with a speed or a place.
    NoSpeed {
        /// How many fixes.
        fixes: u64,
    },
    /// Nothing was left of the log.
    NothingLeft {
        /// What was set aside, and why.
        rejected: Vec<Rejected>,
    },
    /// The places jump between two tracks.
    Interleaved,
    /// Tracks of one file that ran at the same time.
    Tracks {
        /// Name or number of each, with its points.
        tracks: Vec<(String, u64)>,
    },
    /// Receivers of one file that were at different places at the same time.
    Talkers {
        /// The first letters of each one's sentences, with its fixes.
        talkers: Vec<(String, u64)>,
    },
    /// A track or a sender was asked for that is not there.
    NotThere {
        /// What was asked for.
        wanted: String,
        /// What there is.
        present: Vec<String>,
    },
    /// The positions say that the speeds are in another unit than stated.
    Unit {
        /// The unit the file, or its kind, states.
        stated: Unit,
        /// The speeds in that unit over those from positions.
        ratio: f64,
        /// The unit that would fit.
        likely: Option<Unit>,
    },
    /// A table that does not say enough about itself.
    Ask {
        /// Its columns.
        columns: Vec<Column>,
        /// What could be told, to be confirmed and completed.
        guess: Box<Mapping>,
        /// What could not.
        missing: Vec<Missing>,
    },
    /// The mapping names a column that the table has not.
    NoColumn {
        /// Counted from 1.
        column: usize,
        /// Columns there are.
        columns: usize,
    },
    /// The file could not be read to its end.
    Unreadable {
        /// What the machine says.
        cause: String,
    },
}

impl std::error::Error for Refused {}

impl From<std::io::Error> for Refused {
    fn from(error: std::io::Error) -> Self {
        Self::Unreadable {
            cause: error.to_string(),
        }
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => {
                f.write_str("the file is empty: save the log again and choose that file")
            }
            Self::Blank => f.write_str(
                "the file holds nothing but white space: save the log again and choose that file",
            ),
            Self::Packed { what, way_out } => write!(f, "the file is {what}: {way_out}"),
            Self::TwoBytes => {
                f.write_str("the file is text in UTF-16: open it in an editor and save it as UTF-8")
            }
            Self::NotALog { start } => write!(
                f,
                "this is no log known here, it begins “{start}”: choose a GPX track, an NMEA 0183 or \
                 NMEA 2000 text log, or a table with a row a sample"
            ),
            Self::Entities { line } => write!(
                f,
                "line {line} declares a document type or uses an entity of its own, which no log \
                 needs: save the track again as plain GPX"
            ),
            Self::TooDeep { line, limit } => write!(
                f,
                "line {line} is nested more than {limit} deep: save the track again as plain GPX"
            ),
            Self::Unreadable { cause } => {
                write!(
                    f,
                    "the file cannot be read to its end ({cause}): copy it again"
                )
            }
            Self::NoTrack { .. } | Self::NoTime { .. } | Self::NoSpeed { .. } => self.lacking(f),
            Self::NothingLeft { rejected } => nothing_left(f, rejected),
            Self::Interleaved | Self::Tracks { .. } | Self::Talkers { .. } => self.two_craft(f),
            Self::NotThere { wanted, present } => write!(
                f,
                "there is no {wanted} in this file, only {}: choose one of these",
                present.join(", ")
            ),
            Self::Unit {
                stated,
                ratio,
                likely,
            } => {
                write!(
                    f,
                    "read in {}, the speeds are {ratio:.2} times what the positions say: ",
                    stated.symbol()
                )?;
                match likely {
                    Some(unit) => write!(f, "say whether they are in {}", unit.symbol()),
                    None => f.write_str("say which unit they are in"),
                }
            }
            Self::Ask { missing, .. } => {
                f.write_str("the table does not say everything: ")?;
                let all: Vec<String> = missing.iter().map(ToString::to_string).collect();
                f.write_str(&all.join("; "))
            }
            Self::NoColumn { column, columns } => write!(
                f,
                "column {column} is asked for and the table has {columns}: choose the columns again"
            ),
        }
    }
}

impl Refused {
    fn lacking(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoTrack { points } => write!(
                f,
                "the file has {points} single places and no track: export the recorded track, not \
                 the marks or the route"
            ),
            Self::NoTime { fixes } => write!(
                f,
                "none of the {fixes} fixes has a time, so nothing can be said of speed: export the \
                 recorded track with its times"
            ),
            Self::NoSpeed { fixes } => write!(
                f,
                "none of the {fixes} fixes has a speed or a position: record the receiver's speed \
                 over ground, or its position"
            ),
            _ => Ok(()),
        }
    }

    fn two_craft(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let list = |all: &[(String, u64)]| {
            let all: Vec<String> = all
                .iter()
                .map(|(n, c)| format!("{n} ({c} fixes)"))
                .collect();
            all.join(", ")
        };
        match self {
            Self::Tracks { tracks } => write!(
                f,
                "tracks that ran at the same time, as of two craft: {}; say which to read",
                list(tracks)
            ),
            Self::Talkers { talkers } => write!(
                f,
                "receivers at different places at the same time, as of two craft: {}; say which to \
                 read",
                list(talkers)
            ),
            _ => f.write_str(
                "the positions jump to and fro between two tracks, as of two craft in one file: \
                 export each craft's track on its own",
            ),
        }
    }
}

fn nothing_left(f: &mut fmt::Formatter<'_>, rejected: &[Rejected]) -> fmt::Result {
    f.write_str("nothing of the log could be used")?;
    for (at, some) in rejected.iter().take(3).enumerate() {
        let lead = if at == 0 { ": " } else { ", " };
        write!(f, "{lead}{} × {}", some.count, some.why)?;
    }
    if let Some(first) = rejected.first() {
        write!(f, " (first in line {}: “{}”)", first.line, first.example)?;
    }
    f.write_str("; record again, or choose another file")
}
