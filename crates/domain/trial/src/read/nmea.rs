//! NMEA 0183.
//!
//! Split by hand. The best kept crate for it, nmea 0.8.0, takes all 15 498 sentences of these kinds in
//! the real logs at hand; but it has no engine speed (`RPM`), refuses the older `VTG`, the sixtieth second
//! and sentences without a sum, and keeps speeds in single precision.
//!
//! Sentences of one instant make one fix, in whatever order they arrive. Speed is that of `RMC`, or
//! where a receiver sends none, that of `VTG` at the time of its neighbour; the two are never mixed,
//! nor are two receivers.

mod sentence;

use std::collections::{BTreeMap, VecDeque};

use quantity::Unit;

use super::finish::{About, unit_size};
use super::gather::{Fix, Gather};
use super::input::{Input, Line};
use super::reject::{Rejects, Why};
use super::{Kind, Options, Reading, Refused};
use crate::geodesy::{Earth, Place};
use sentence::{Clock, Found, Sentence, find};

/// Whether a line may hold a sentence.
pub(crate) fn looks_like(line: &[u8]) -> bool {
    memchr::memchr2_iter(b'$', b'!', line).any(|at| {
        let rest = &line[at + 1..];
        let name = rest.iter().take_while(|c| c.is_ascii_alphanumeric());
        (4..=6).contains(&name.count()) && rest.contains(&b',')
    })
}

/// Instants that may still be added to.
const OPEN: usize = 3;
/// Sources told apart, and kinds of sentences counted.
const SOURCES: usize = 4;
const KINDS: usize = 64;
/// Two places of one instant further apart than this are of two craft, in metres.
const APART: f64 = 100.0;

type Talker = [u8; 2];

/// Who gave a speed, and in which sentence.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Source {
    talker: Talker,
    sentence: [u8; 3],
}

/// What one receiver says of one instant.
#[derive(Clone, Copy, Default)]
struct Quality {
    talker: Talker,
    dilution: Option<f64>,
    satellites: Option<f64>,
    no_fix: bool,
    place: Option<Place>,
}

/// One instant, while its sentences arrive.
#[derive(Default)]
struct Epoch {
    time: i64,
    fixes: Vec<(Source, Fix)>,
    qualities: Vec<Quality>,
    engine: Option<f64>,
}

impl Epoch {
    /// Adds what a source says, and gives back what it said of this instant before.
    fn put(&mut self, source: Source, fix: Fix) -> Option<Fix> {
        let known = self.fixes.iter_mut().find(|(s, _)| *s == source);
        if let Some((_, before)) = known {
            return Some(std::mem::replace(before, fix));
        }
        // More talkers than this are no receivers; the first ones count.
        if self.fixes.len() < 2 * SOURCES {
            self.fixes.push((source, fix));
        }
        None
    }
}

struct Nmea<'o> {
    options: &'o Options,
    knot: f64,
    sources: BTreeMap<Source, Gather>,
    rejects: Rejects,
    counts: BTreeMap<[u8; 5], u64>,
    clock: Clock,
    open: VecDeque<Epoch>,
    /// A `VTG` that came before any time, and whether all of them do.
    waiting: Option<(Source, Fix)>,
    ahead: Option<bool>,
    engine: Option<(u8, u32)>,
    near: u64,
    far: u64,
    line: u64,
    unsigned: u64,
    earth: Earth,
}

pub(crate) fn read(mut input: Input<'_>, options: &Options) -> Result<Reading, Refused> {
    let unit = options.speed_unit.unwrap_or(Unit::Knot);
    let mut nmea = Nmea {
        options,
        knot: unit_size(unit),
        sources: BTreeMap::new(),
        rejects: Rejects::default(),
        counts: BTreeMap::new(),
        clock: Clock::default(),
        open: VecDeque::new(),
        waiting: None,
        ahead: None,
        engine: None,
        near: 0,
        far: 0,
        line: 0,
        unsigned: 0,
        earth: Earth::default(),
    };
    let mut line = Vec::new();
    while let Some(kind) = input.line(&mut line)? {
        nmea.line += 1;
        nmea.take(&line, kind);
    }
    nmea.finish(unit)
}

impl Nmea<'_> {
    fn take(&mut self, line: &[u8], kind: Line) {
        if kind == Line::Long {
            self.rejects.add(Why::LongLine, self.line, line);
            return;
        }
        match find(line) {
            Found::Other => {}
            Found::Fault(_) if kind == Line::Open => {
                self.rejects.add(Why::CutOff, self.line, line);
            }
            Found::Fault(why) => self.rejects.add(why, self.line, line),
            Found::Sentence(s) if !s.summed && !self.options.unsigned => {
                let why = if kind == Line::Open {
                    Why::CutOff
                } else {
                    Why::NoChecksum
                };
                self.rejects.add(why, self.line, line);
            }
            Found::Sentence(s) => {
                self.unsigned += u64::from(!s.summed);
                self.count(&s);
                if let Err(why) = self.sentence(&s, line) {
                    self.rejects.add(why, self.line, line);
                }
            }
        }
    }

    fn count(&mut self, s: &Sentence<'_>) {
        let [a, b] = s.talker;
        let [c, d, e] = s.kind;
        if let Some(count) = self.counts.get_mut(&[a, b, c, d, e]) {
            *count += 1;
        } else if self.counts.len() < KINDS {
            self.counts.insert([a, b, c, d, e], 1);
        }
    }

    fn sentence(&mut self, s: &Sentence<'_>, line: &[u8]) -> Result<(), Why> {
        match &s.kind {
            b"RMC" => self.rmc(s, line),
            b"VTG" => self.vtg(s),
            b"GGA" => self.gga(s),
            b"ZDA" => self.zda(s),
            b"RPM" => self.rpm(s),
            _ => Ok(()),
        }
    }

    /// `RMC,time,A,lat,N,lon,E,knots,course,ddmmyy,…`
    fn rmc(&mut self, s: &Sentence<'_>, line: &[u8]) -> Result<(), Why> {
        let source = source(s);
        if s.field(2) != b"A" {
            self.rejects.add(Why::NoFix, self.line, line);
            // What was open belongs before the break.
            self.flush(0);
            if let Some(gather) = self.sources.get_mut(&source) {
                gather.broken();
            }
            return Ok(());
        }
        let time = s.time(1)?.ok_or(Why::NoTime)?;
        let fix = Fix {
            place: s.place(3)?,
            speed: s.amount(7)?.map(|v| v * self.knot),
            course: s.amount(8)?.map(f64::to_radians),
            line: self.line,
            ..Fix::default()
        };
        if let Some(midnight) = s.date(9) {
            self.date(midnight);
        }
        if let Some(before) = self.timed(time).put(source, fix) {
            self.rejects.add(Why::Duplicate, before.line, line);
        }
        Ok(())
    }

    /// `VTG,course,T,course,M,knots,N,kmh,K,…`, or the old form without letters.
    fn vtg(&mut self, s: &Sentence<'_>) -> Result<(), Why> {
        let letters = s.field(2).eq_ignore_ascii_case(b"T");
        let speed = s.amount(if letters { 5 } else { 3 })?;
        if s.field(9) == b"N" || speed.is_none() {
            return Ok(());
        }
        let fix = Fix {
            speed: speed.map(|v| v * self.knot),
            course: s.amount(1)?.map(f64::to_radians),
            line: self.line,
            ..Fix::default()
        };
        let ahead = *self.ahead.get_or_insert(self.open.is_empty());
        if ahead {
            self.waiting = Some((source(s), fix));
        } else if let Some(epoch) = self.open.back_mut() {
            epoch.put(source(s), fix);
        }
        Ok(())
    }

    /// `GGA,time,lat,N,lon,E,quality,satellites,hdop,…`
    fn gga(&mut self, s: &Sentence<'_>) -> Result<(), Why> {
        let Some(time) = s.time(1)? else {
            return Ok(());
        };
        let quality = Quality {
            talker: s.talker,
            place: s.place(2)?,
            no_fix: matches!(s.field(6), b"0" | b""),
            satellites: s.amount(7)?,
            dilution: s.amount(8)?,
        };
        let qualities = &mut self.timed(time).qualities;
        qualities.retain(|q| q.talker != s.talker);
        if qualities.len() < SOURCES {
            qualities.push(quality);
        }
        Ok(())
    }

    /// `ZDA,time,dd,mm,yyyy,…`
    fn zda(&mut self, s: &Sentence<'_>) -> Result<(), Why> {
        let Some(time) = s.time(1)? else {
            return Ok(());
        };
        if let Some(midnight) = s.long_date(2) {
            self.date(midnight);
        }
        self.timed(time);
        Ok(())
    }

    /// `RPM,E,number,rpm,pitch,A`; it has no time, so it is of the instant that was read last.
    fn rpm(&mut self, s: &Sentence<'_>) -> Result<(), Why> {
        let valid = s.field(5) == b"A" || s.field(5).is_empty();
        let (Some(value), Some(&kind), true) = (s.amount(3)?, s.field(1).first(), valid) else {
            return Ok(());
        };
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "the number of an engine, small and not below zero"
        )]
        let number = s.amount(2)?.unwrap_or_default() as u32;
        if *self.engine.get_or_insert((kind, number)) != (kind, number) {
            return Err(Why::OtherEngine);
        }
        if let Some(epoch) = self.open.back_mut() {
            epoch.engine = Some(value * unit_size(Unit::Rpm));
        }
        Ok(())
    }

    fn date(&mut self, midnight: i64) {
        if self.clock.date.is_none() {
            // What came before the first date was of the same day.
            for epoch in &mut self.open {
                epoch.time = epoch.time.saturating_add(midnight);
            }
        }
        if self.clock.date != Some(midnight) {
            self.clock.set(midnight);
        }
    }

    /// The instant of a time of the day, made if it is not there; the oldest gives way.
    fn timed(&mut self, time: i64) -> &mut Epoch {
        let weeks = i64::from(self.options.weeks) * 7 * super::time::DAY;
        let instant = self.clock.instant(time).saturating_add(weeks);
        let known = self.open.iter().position(|e| e.time == instant);
        if known.is_none() {
            self.flush(OPEN - 1);
            self.open.push_back(Epoch {
                time: instant,
                ..Epoch::default()
            });
        }
        let at = known.unwrap_or(self.open.len() - 1);
        if let Some(waiting) = self.waiting.take() {
            self.open[at].put(waiting.0, waiting.1);
        }
        &mut self.open[at]
    }

    /// Gives the oldest instants on until only so many are open.
    fn flush(&mut self, left: usize) {
        while self.open.len() > left {
            if let Some(epoch) = self.open.pop_front() {
                self.close(&epoch);
            }
        }
    }

    fn close(&mut self, epoch: &Epoch) {
        self.compare(epoch);
        if epoch.fixes.is_empty() {
            self.places_alone(epoch);
        }
        for (source, fix) in &epoch.fixes {
            if !self.sources.contains_key(source) && self.sources.len() >= SOURCES {
                self.rejects
                    .add(Why::TooManySources, fix.line, &source.talker);
                continue;
            }
            let own = |q: &&Quality| q.talker == source.talker;
            let quality = epoch.qualities.iter().find(own);
            let quality = quality.or(epoch.qualities.first().filter(|_| {
                // With one receiver only, satellites may go by another name.
                epoch.qualities.len() == 1
            }));
            let gather = self.sources.entry(*source).or_default();
            if quality.is_some_and(|q| q.no_fix) {
                gather.rejects.add(Why::NoFix, fix.line, b"quality 0");
                gather.broken();
                continue;
            }
            let fix = Fix {
                time: Some(epoch.time),
                place: fix.place.or(quality.and_then(|q| q.place)),
                dilution: quality.and_then(|q| q.dilution),
                satellites: quality.and_then(|q| q.satellites),
                engine: epoch.engine,
                ..*fix
            };
            gather.fix(fix, &source.sentence);
        }
    }

    /// A receiver that sends `GGA` alone still gives places.
    fn places_alone(&mut self, epoch: &Epoch) {
        for quality in epoch.qualities.iter().filter(|q| !q.no_fix) {
            let source = Source {
                talker: quality.talker,
                sentence: *b"GGA",
            };
            let known = self.sources.contains_key(&source);
            if quality.place.is_none() || (!known && self.sources.len() >= SOURCES) {
                continue;
            }
            let fix = Fix {
                time: Some(epoch.time),
                place: quality.place,
                dilution: quality.dilution,
                satellites: quality.satellites,
                engine: epoch.engine,
                line: self.line,
                ..Fix::default()
            };
            let gather = self.sources.entry(source).or_default();
            gather.fix(fix, &source.sentence);
        }
    }

    /// Whether two receivers of one instant are at one place.
    fn compare(&mut self, epoch: &Epoch) {
        let mut places = epoch
            .fixes
            .iter()
            .filter_map(|(source, fix)| Some((source.talker, fix.place?)));
        let Some((talker, place)) = places.next() else {
            return;
        };
        for (_, other) in places.filter(|(other, _)| *other != talker) {
            let [east, north] = self.earth.plane(place, other);
            if east.hypot(north) > APART {
                self.far += 1;
            } else {
                self.near += 1;
            }
        }
    }

    fn finish(mut self, unit: Unit) -> Result<Reading, Refused> {
        self.flush(0);
        let word = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
        let mut counts: Vec<(String, u64)> = self
            .counts
            .iter()
            .map(|(name, count)| (word(name), *count))
            .collect();
        if self.unsigned > 0 {
            counts.push(("without checksum, accepted".to_owned(), self.unsigned));
        }
        let mut sources: Vec<(Source, Gather)> = self.sources.into_iter().collect();
        if let Some(wanted) = &self.options.talker {
            let present = sources.iter().map(|(s, _)| word(&s.talker)).collect();
            sources.retain(|(s, _)| word(&s.talker) == *wanted);
            if sources.is_empty() {
                return Err(Refused::NotThere {
                    wanted: format!("receiver {wanted}"),
                    present,
                });
            }
        } else if self.far > self.near && self.far >= 10 {
            return Err(Refused::Talkers {
                talkers: sources
                    .iter()
                    .map(|(s, gather)| (word(&s.talker), gather.fixes))
                    .collect(),
            });
        }
        // RMC goes before VTG, as its time is its own, and both before places alone; else the most
        // fixes, the first of equals.
        let rank = |(source, gather): &(Source, Gather)| {
            let own = [*b"GGA", *b"VTG", *b"RMC"].map(|kind| kind == source.sentence);
            let own = own.into_iter().position(|is| is && gather.fixes > 0);
            (own, gather.fixes)
        };
        let best = (0..sources.len())
            .rev()
            .max_by_key(|&at| rank(&sources[at]));
        let dated = self.clock.date.is_some();
        let (source, gather) = match best {
            Some(best) => sources.swap_remove(best),
            None => (
                Source {
                    talker: *b"--",
                    sentence: *b"RMC",
                },
                Gather::default(),
            ),
        };
        let named = |s: &Source| format!("{}{}", word(&s.talker), word(&s.sentence));
        let others = sources
            .iter()
            .map(|(s, gather)| (named(s), gather.fixes))
            .collect();
        let about = About {
            kind: Kind::Nmea,
            place: named(&source),
            unit,
            dated,
            zoneless: 0,
            counts,
            others,
            rejects: self.rejects,
        };
        gather.finish().reading(about, self.options)
    }
}

fn source(s: &Sentence<'_>) -> Source {
    Source {
        talker: s.talker,
        sentence: s.kind,
    }
}
