//! Logs of receivers and recorders, told apart by what is in them and read in one pass.
//!
//! A log is never refused for some bad lines: what can be understood is read, and what cannot is
//! counted with its reason and its first place. It is refused whole where nothing would be left, or
//! where the answer would be a guess: which of two craft, which unit, which column.
//!
//! Positions are used to check the unit of the receiver's speeds, and for speed and course where the
//! log has none. They are not handed on.

mod csv;
mod finish;
mod gather;
mod gpx;
mod input;
mod n2k;
mod nmea;
mod refused;
mod reject;
mod time;

use std::io::{BufRead, Read};

use quantity::Unit;

use crate::Log;
use crate::keep::Thinned;
use input::Input;

pub use csv::{Column, Mapping, Missing, TimeForm};
pub use refused::Refused;
pub use reject::{Rejected, Why};

/// Bytes looked at to tell what a file is.
const HEAD: u64 = 1 << 16;
/// Weeks after which the week of old receivers begins anew.
pub(crate) const ROLLOVER_WEEKS: u32 = 1024;

/// What a person may have said about a file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Options {
    /// Which column of a table is what.
    pub mapping: Option<Mapping>,
    /// The unit of the speeds, whatever the file says; it is not doubted any more.
    pub speed_unit: Option<Unit>,
    /// Whether sentences without a checksum count.
    pub unsigned: bool,
    /// Which of several tracks, counted from 1.
    pub track: Option<usize>,
    /// Which of several receivers, by the two letters its sentences begin with.
    pub talker: Option<String>,
    /// Weeks to be added to the dates of an old receiver.
    pub weeks: u32,
    /// Now, in seconds since 1970, for noticing such dates.
    pub now: Option<f64>,
}

/// What kind of file it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// GPX 1.0 or 1.1.
    Gpx,
    /// Sentences of NMEA 0183.
    Nmea,
    /// Rows and columns.
    Table,
    /// Messages of NMEA 2000 as text.
    Network,
}

/// What the speeds of a log are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SpeedFrom {
    /// The receiver's own, from this place in the file.
    Receiver(String),
    /// Reckoned from positions, for want of any other.
    Positions,
}

/// A log, and how it came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The log.
    pub log: Log,
    /// What the file was.
    pub kind: Kind,
    /// Where the speeds are from.
    pub speed_from: SpeedFrom,
    /// Fixes that counted, also those that were thinned out later.
    pub fixes: u64,
    /// What was understood: sentences, points or rows, by kind.
    pub counts: Vec<(String, u64)>,
    /// Senders that were not used, with their fixes.
    pub others: Vec<(String, u64)>,
    /// What was set aside, the most frequent first.
    pub rejected: Vec<Rejected>,
    /// The receiver's speeds over those from positions; 1 where units are right.
    pub unit_check: Option<f64>,
    /// The median step between fixes in seconds, to the millisecond.
    pub step: Option<f64>,
    /// How often the clock stepped back; the log breaks there.
    pub clock_back: u64,
    /// Times without a zone, taken for UTC.
    pub zoneless: u64,
    /// Weeks the dates seem to lag behind, a multiple of 1024, for [`Options::weeks`].
    pub weeks_behind: u32,
    /// What was given up to bound the memory.
    pub thinned: Option<Thinned>,
}

/// Reads a log of any kind.
///
/// The caller counts bytes where progress is to be shown. Memory stays bounded whatever the length.
///
/// # Errors
///
/// [`Refused`], with the way out.
pub fn read(mut input: impl BufRead, options: &Options) -> Result<Reading, Refused> {
    let mut head = Vec::new();
    input.by_ref().take(HEAD).read_to_end(&mut head)?;
    if head.is_empty() {
        return Err(Refused::Empty);
    }
    if head.iter().all(u8::is_ascii_whitespace) {
        return blank(&mut input);
    }
    packed(&head)?;
    let start = head.strip_prefix(b"\xef\xbb\xbf").unwrap_or(&head);
    let mut whole = start.chain(input);
    let stream = Input::new(&mut whole);
    match sniff(start)? {
        Kind::Gpx => gpx::read(stream.mask(start), options),
        Kind::Nmea => nmea::read(stream, options),
        Kind::Network => n2k::read(stream, options),
        Kind::Table => csv::read(stream, start, options),
    }
}

/// A page of nothing begins the file: refused in any case, and named by what follows.
fn blank(input: &mut dyn BufRead) -> Result<Reading, Refused> {
    loop {
        let some = input.fill_buf()?;
        if some.is_empty() {
            return Err(Refused::Blank);
        }
        if !some.iter().all(u8::is_ascii_whitespace) {
            return Err(Refused::NotALog {
                start: "a page of white space".to_owned(),
            });
        }
        let count = some.len();
        input.consume(count);
    }
}

/// Refuses what is no plain text.
fn packed(head: &[u8]) -> Result<(), Refused> {
    const UNPACK: &str = "unpack it first and choose the log inside";
    const EXPORT: &str = "export the track as GPX or as a table instead";
    let known: [(&[u8], &'static str, &'static str); 7] = [
        (b"PK\x03\x04", "a zip archive", UNPACK),
        (b"\x1f\x8b", "compressed with gzip", UNPACK),
        (b"BZh", "compressed with bzip2", UNPACK),
        (b"\xfd7zXZ", "compressed with xz", UNPACK),
        (b"7z\xbc\xaf", "a 7z archive", UNPACK),
        (b"Rar!", "a rar archive", UNPACK),
        (b"%PDF", "a PDF document", EXPORT),
    ];
    for (start, what, way_out) in known {
        if head.starts_with(start) {
            return Err(Refused::Packed { what, way_out });
        }
    }
    if head.get(8..12) == Some(b".FIT") {
        return Err(Refused::Packed {
            what: "a FIT recording",
            way_out: EXPORT,
        });
    }
    let zeros = |from: usize| {
        let every = head.iter().take(200).skip(from).step_by(2);
        head.len() >= 8 && every.clone().count() > 0 && every.filter(|c| **c == 0).count() >= 3
    };
    if head.starts_with(b"\xff\xfe") || head.starts_with(b"\xfe\xff") || zeros(0) != zeros(1) {
        return Err(Refused::TwoBytes);
    }
    if head.iter().take(4096).filter(|c| **c == 0).count() > 8 {
        return Err(Refused::NotALog {
            start: "bytes that are no text".to_owned(),
        });
    }
    Ok(())
}

/// Tells the kind by the first lines.
fn sniff(start: &[u8]) -> Result<Kind, Refused> {
    if start.trim_ascii_start().starts_with(b"<") {
        return Ok(Kind::Gpx);
    }
    let lines = start.split(|&c| c == b'\n').map(<[u8]>::trim_ascii);
    let lines = lines.filter(|line| !line.is_empty() && !line.starts_with(b"#"));
    let (mut sentences, mut messages, mut all) = (0, 0, 0);
    for line in lines.take(200) {
        all += 1;
        sentences += usize::from(nmea::looks_like(line));
        messages += usize::from(n2k::looks_like(line));
    }
    if all == 0 {
        return Err(Refused::NotALog {
            start: reject::shown(start),
        });
    }
    Ok(if 2 * sentences >= all {
        Kind::Nmea
    } else if 2 * messages >= all {
        Kind::Network
    } else {
        Kind::Table
    })
}
