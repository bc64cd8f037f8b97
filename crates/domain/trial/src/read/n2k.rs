//! NMEA 2000 messages as lines of text: `time,priority,PGN,source,destination,length,bytes`.
//!
//! Three numbered messages are read, by the few bytes of them that matter. Two senders of the same
//! message are common; they are never mixed, and the one with most samples counts.

use std::collections::BTreeMap;

use quantity::Unit;

use super::finish::{About, unit_size};
use super::gather::{Fix, Gather};
use super::input::{Input, Line};
use super::reject::{Rejects, Why};
use super::time::{digits, instant};
use super::{Kind, Options, Reading, Refused};

/// Course and speed over ground; engine, rapid update; speed through the water.
const COURSE_AND_SPEED: i64 = 129_026;
const ENGINE: i64 = 127_488;
const WATER_SPEED: i64 = 128_259;
const SENDERS: usize = 4;
/// Values from here on mean that there is none.
const ABSENT: u16 = 0xfffd;
/// An engine speed holds for this long, in nanoseconds.
const FRESH: i64 = 1_000_000_000;

/// Whether a line may be one of these.
pub(crate) fn looks_like(line: &[u8]) -> bool {
    message(line).is_some()
}

struct Message {
    time: i64,
    number: i64,
    source: u8,
    bytes: [u8; 8],
    length: usize,
}

fn message(line: &[u8]) -> Option<Message> {
    let mut fields = line.trim_ascii().split(|&c| c == b',');
    let (time, _) = instant(fields.next()?)?;
    let _priority = digits(fields.next()?)?;
    let number = digits(fields.next()?).filter(|n| (59_392..=131_071).contains(n))?;
    let source = u8::try_from(digits(fields.next()?)?).ok()?;
    let _destination = digits(fields.next()?)?;
    let _length = digits(fields.next()?)?;
    let mut bytes = [0xff; 8];
    let mut length = 0;
    for (byte, field) in bytes.iter_mut().zip(fields) {
        let text = std::str::from_utf8(field).ok()?;
        *byte = u8::from_str_radix(text.trim(), 16).ok()?;
        length += 1;
    }
    Some(Message {
        time,
        number,
        source,
        bytes,
        length,
    })
}

impl Message {
    /// Two bytes, the low one first; none where they say so.
    fn word(&self, at: usize) -> Option<f64> {
        let word = u16::from_le_bytes([self.bytes[at], self.bytes[at + 1]]);
        (word < ABSENT && at + 2 <= self.length).then(|| f64::from(word))
    }
}

/// What has been read so far.
#[derive(Default)]
struct Network {
    senders: BTreeMap<u8, Gather>,
    rejects: Rejects,
    counts: BTreeMap<i64, u64>,
    /// The last engine speed and when it came; of the first engine heard.
    engine: Option<(i64, f64)>,
    engine_source: Option<(u8, u8)>,
}

pub(crate) fn read(mut input: Input<'_>, options: &Options) -> Result<Reading, Refused> {
    let unit = options.speed_unit.unwrap_or(Unit::MetrePerSecond);
    let size = unit_size(unit);
    let mut network = Network::default();
    let (mut line, mut number) = (Vec::new(), 0);
    while let Some(kind) = input.line(&mut line)? {
        number += 1;
        if line.trim_ascii().is_empty() || line.starts_with(b"#") {
            continue;
        }
        let fault = match (message(&line), kind) {
            (Some(message), _) => network.take(&message, size, (number, &line)).err(),
            (None, Line::Whole) => Some(Why::NotUnderstood),
            (None, Line::Long) => Some(Why::LongLine),
            (None, Line::Open) => Some(Why::CutOff),
        };
        if let Some(why) = fault {
            network.rejects.add(why, number, &line);
        }
    }
    let mut senders: Vec<(u8, Gather)> = network.senders.into_iter().collect();
    let best = (0..senders.len())
        .rev()
        .max_by_key(|&at| senders[at].1.fixes);
    let named = |source: u8| format!("sender {source}");
    let (source, gather) = best.map_or_else(Default::default, |best| senders.remove(best));
    let counts = network.counts.into_iter();
    let about = About {
        kind: Kind::Network,
        place: named(source),
        unit,
        dated: true,
        zoneless: 0,
        counts: counts.map(|(n, count)| (n.to_string(), count)).collect(),
        others: senders.iter().map(|(s, g)| (named(*s), g.fixes)).collect(),
        rejects: network.rejects,
    };
    gather.finish().reading(about, options)
}

impl Network {
    fn take(&mut self, message: &Message, size: f64, at: (u64, &[u8])) -> Result<(), Why> {
        if [COURSE_AND_SPEED, ENGINE, WATER_SPEED].contains(&message.number) {
            *self.counts.entry(message.number).or_default() += 1;
        }
        match message.number {
            ENGINE => self.turns(message),
            COURSE_AND_SPEED => self.speed(message, size, at),
            _ => Ok(()),
        }
    }

    fn turns(&mut self, message: &Message) -> Result<(), Why> {
        let id = (message.source, message.bytes[0]);
        if *self.engine_source.get_or_insert(id) != id {
            return Err(Why::OtherEngine);
        }
        let turns = message.word(1).map(|n| 0.25 * n * unit_size(Unit::Rpm));
        self.engine = turns.map(|n| (message.time, n)).or(self.engine);
        Ok(())
    }

    fn speed(&mut self, message: &Message, size: f64, at: (u64, &[u8])) -> Result<(), Why> {
        if !self.senders.contains_key(&message.source) && self.senders.len() >= SENDERS {
            return Err(Why::TooManySources);
        }
        let fresh = |(then, n): (i64, f64)| {
            let age = message.time.saturating_sub(then);
            (0..=FRESH).contains(&age).then_some(n)
        };
        // Two bits tell what north the course counts from; zero is the true one.
        let true_north = message.bytes[1].is_multiple_of(4);
        let fix = Fix {
            time: Some(message.time),
            speed: message.word(4).map(|v| 0.01 * v * size),
            course: message.word(2).filter(|_| true_north).map(|c| 1e-4 * c),
            engine: self.engine.and_then(fresh),
            line: at.0,
            ..Fix::default()
        };
        let sender = self.senders.entry(message.source).or_default();
        sender.fix(fix, at.1);
        Ok(())
    }
}
