//! GPX 1.0 and 1.1.
//!
//! Read with a pull parser. A ready-made reader of GPX was no choice: the one there is for Rust drops
//! every extension, where version 1.1 keeps its speeds. Names count without their prefix, since
//! prefixes mean nothing and namespaces are as often wrong as missing.

use quantity::Unit;
use quick_xml::events::{BytesStart, Event};
use quick_xml::{Reader, errors::Error as XmlError};

use super::finish::{About, unit_size};
use super::gather::{Fix, Gather};
use super::input::Input;
use super::reject::{Rejects, Why};
use super::time::{instant, number};
use super::{Kind, Options, Reading, Refused};
use crate::geodesy::Place;

/// Levels of nesting; a track with extensions has eight.
const DEEPEST: usize = 64;
/// Tracks told apart.
const TRACKS: usize = 1000;
/// Characters of one field.
const FIELD: usize = 64;

/// Where in a point a speed may stand, the best first.
const PLACES: [&str; 3] = [
    "the speed in the points' TrackPointExtension",
    "the speed in the points' extensions",
    "the speed in the points themselves",
];

/// What the text of an element is.
#[derive(Clone, Copy, PartialEq)]
enum Field {
    Time,
    Speed(usize),
    Course(usize),
    Dilution,
    Satellites,
    Name,
}

/// A point of a track while it is read.
#[derive(Default)]
struct Point {
    fix: Fix,
    speed_rank: Option<usize>,
    course_rank: Option<usize>,
    latitude: Option<f64>,
    longitude: Option<f64>,
}

#[derive(Default)]
struct Track {
    name: String,
    points: u64,
    first: i64,
    last: i64,
}

struct Gpx<'o> {
    options: &'o Options,
    size: f64,
    gather: Gather,
    rejects: Rejects,
    /// Depth of the element, and of the point and the extensions it is in.
    depth: usize,
    point_depth: Option<usize>,
    extensions: Option<usize>,
    block: Option<usize>,
    field: Option<(Field, usize)>,
    text: Vec<u8>,
    point: Point,
    tracks: Vec<Track>,
    places: [u64; 3],
    /// Points of no track.
    single: u64,
    zoneless: u64,
    rooted: bool,
}

pub(crate) fn read(input: Input<'_>, options: &Options) -> Result<Reading, Refused> {
    let unit = options.speed_unit.unwrap_or(Unit::MetrePerSecond);
    let mut gpx = Gpx {
        options,
        size: unit_size(unit),
        gather: Gather::default(),
        rejects: Rejects::default(),
        depth: 0,
        point_depth: None,
        extensions: None,
        block: None,
        field: None,
        text: Vec::new(),
        point: Point::default(),
        tracks: Vec::new(),
        places: [0; 3],
        single: 0,
        zoneless: 0,
        rooted: false,
    };
    let mut reader = Reader::from_reader(input);
    reader.config_mut().allow_unmatched_ends = false;
    let mut buffer = Vec::new();
    loop {
        buffer.clear();
        reader.get_mut().piece();
        let event = reader.read_event_into(&mut buffer);
        let line = reader.get_ref().lines + 1;
        match event {
            Ok(Event::Eof) => {
                if gpx.depth > 0 {
                    gpx.cut(line, b"");
                }
                break;
            }
            Ok(event) => gpx.event(&event, line)?,
            Err(XmlError::Io(cause)) => {
                return Err(Refused::Unreadable {
                    cause: cause.to_string(),
                });
            }
            Err(cause) => {
                gpx.cut(line, cause.to_string().as_bytes());
                break;
            }
        }
    }
    gpx.finish(unit)
}

impl Gpx<'_> {
    fn event(&mut self, event: &Event<'_>, line: u64) -> Result<(), Refused> {
        match event {
            Event::Start(tag) => self.start(tag, line)?,
            Event::Empty(tag) => {
                self.start(tag, line)?;
                self.end();
            }
            Event::End(_) => self.end(),
            Event::Text(text) => self.write(text.as_ref()),
            Event::CData(text) => self.write(text.as_ref()),
            Event::DocType(_) => return Err(Refused::Entities { line }),
            Event::GeneralRef(name) => {
                let name: &str = name.as_ref();
                let known = ["amp", "lt", "gt", "apos", "quot"].contains(&name);
                if !known && !name.starts_with('#') {
                    return Err(Refused::Entities { line });
                }
                self.write("?");
            }
            _ => {}
        }
        Ok(())
    }

    fn write(&mut self, text: &str) {
        if self.field.is_some() {
            let room = FIELD - self.text.len().min(FIELD);
            self.text
                .extend_from_slice(&text.as_bytes()[..text.len().min(room)]);
        }
    }

    fn start(&mut self, tag: &BytesStart<'_>, line: u64) -> Result<(), Refused> {
        self.depth += 1;
        if self.depth > DEEPEST {
            return Err(Refused::TooDeep {
                line,
                limit: DEEPEST,
            });
        }
        let name = tag.local_name();
        let name: &str = name.as_ref();
        if !self.rooted {
            if name != "gpx" {
                let start = super::reject::shown(tag.as_ref().as_bytes());
                return Err(Refused::NotALog {
                    start: format!("<{start}"),
                });
            }
            self.rooted = true;
        }
        if self.point_depth.is_some() {
            self.inside(name);
            return Ok(());
        }
        match name {
            "trk" => self.track(),
            "trkseg" => self.gather.broken(),
            "trkpt" => {
                self.point_depth = Some(self.depth);
                self.point = Point::default();
                self.point.fix.line = line;
                self.place(tag);
            }
            "wpt" | "rtept" => self.single += 1,
            "name" if self.tracks.last().is_some_and(|t| t.name.is_empty()) => {
                self.field = Some((Field::Name, self.depth));
            }
            _ => {}
        }
        Ok(())
    }

    fn track(&mut self) {
        self.gather.broken();
        if self.tracks.len() < TRACKS {
            self.tracks.push(Track::default());
        }
    }

    fn place(&mut self, tag: &BytesStart<'_>) {
        for attribute in tag.attributes().with_checks(false).flatten() {
            let value = number(attribute.value.as_bytes());
            match attribute.key.local_name().as_ref() {
                "lat" => self.point.latitude = value,
                "lon" => self.point.longitude = value,
                _ => {}
            }
        }
    }

    /// An element within a point of a track.
    fn inside(&mut self, name: &str) {
        let rank = match (self.block, self.extensions) {
            (Some(_), _) => 0,
            (None, Some(_)) => 1,
            (None, None) => 2,
        };
        let field = match name {
            "extensions" => {
                self.extensions = self.extensions.or(Some(self.depth));
                return;
            }
            "TrackPointExtension" => {
                self.block = self.block.or(Some(self.depth));
                return;
            }
            "time" => Field::Time,
            "speed" => Field::Speed(rank),
            "course" | "cog" => Field::Course(rank),
            "hdop" => Field::Dilution,
            "sat" => Field::Satellites,
            _ => return,
        };
        self.field = Some((field, self.depth));
        self.text.clear();
    }

    fn end(&mut self) {
        if let Some((field, _)) = self.field.take_if(|(_, depth)| *depth == self.depth) {
            self.set(field);
            self.text.clear();
        }
        for mark in [&mut self.block, &mut self.extensions] {
            mark.take_if(|depth| *depth == self.depth);
        }
        if self
            .point_depth
            .take_if(|depth| *depth == self.depth)
            .is_some()
        {
            self.close();
        }
        self.depth = self.depth.saturating_sub(1);
    }

    fn set(&mut self, field: Field) {
        let line = self.point.fix.line;
        let text = self.text.trim_ascii();
        if field == Field::Name {
            let name = super::reject::shown(text);
            if let Some(track) = self.tracks.last_mut() {
                track.name = name;
            }
            return;
        }
        if text.is_empty() {
            return;
        }
        if field == Field::Time {
            match instant(text) {
                Some((time, zoned)) => {
                    self.point.fix.time = Some(time);
                    self.zoneless += u64::from(!zoned);
                }
                None => self.rejects.add(Why::BadTime, line, text),
            }
            return;
        }
        // Exporters write a speed or a course of -1 for one they do not have.
        let Some(value) = number(text).filter(|v| *v >= 0.0) else {
            self.rejects.add(Why::BadNumber, line, text);
            return;
        };
        let point = &mut self.point;
        match field {
            Field::Speed(rank) if point.speed_rank.is_none_or(|best| rank < best) => {
                point.speed_rank = Some(rank);
                point.fix.speed = Some(value * self.size);
            }
            Field::Course(rank) if point.course_rank.is_none_or(|best| rank < best) => {
                point.course_rank = Some(rank);
                point.fix.course = Some(value.to_radians());
            }
            Field::Dilution => point.fix.dilution = Some(value),
            Field::Satellites => point.fix.satellites = Some(value),
            _ => {}
        }
    }

    fn close(&mut self) {
        let point = std::mem::take(&mut self.point);
        let mut fix = point.fix;
        // A point outside of every track is one of a nameless track.
        if self.tracks.is_empty() {
            self.track();
        }
        let number = self.tracks.len();
        if let Some(track) = self.tracks.last_mut() {
            track.points += 1;
            if let Some(time) = fix.time {
                let new = track.first == 0 && track.last == 0;
                track.first = if new { time } else { track.first.min(time) };
                track.last = if new { time } else { track.last.max(time) };
            }
        }
        if self.options.track.is_some_and(|wanted| wanted != number) {
            return;
        }
        if let (Some(latitude), Some(longitude)) = (point.latitude, point.longitude) {
            fix.place = Place::from_degrees(latitude, longitude);
            if fix.place.is_none() {
                let text = format!("{latitude}, {longitude}");
                self.rejects.add(Why::BadPlace, fix.line, text.as_bytes());
                return;
            }
        }
        if let Some(rank) = point.speed_rank {
            self.places[rank] += 1;
        }
        self.gather.fix(fix, b"a point of the track");
    }

    fn cut(&mut self, line: u64, text: &[u8]) {
        self.rejects.add(Why::CutOff, line, text);
    }

    fn finish(self, unit: Unit) -> Result<Reading, Refused> {
        if !self.rooted {
            return Err(Refused::NotALog {
                start: "<".to_owned(),
            });
        }
        let points: u64 = self.tracks.iter().map(|track| track.points).sum();
        if points == 0 {
            return Err(Refused::NoTrack {
                points: self.single,
            });
        }
        self.which()?;
        let most = (0..PLACES.len())
            .rev()
            .max_by_key(|&rank| self.places[rank]);
        let about = About {
            kind: Kind::Gpx,
            place: PLACES[most.unwrap_or(2)].to_owned(),
            unit,
            dated: true,
            zoneless: self.zoneless,
            counts: vec![("points".to_owned(), points)],
            others: Vec::new(),
            rejects: self.rejects,
        };
        self.gather.finish().reading(about, self.options)
    }

    /// Refuses tracks that ran at the same time, unless one was chosen.
    fn which(&self) -> Result<(), Refused> {
        let named = |(at, track): (usize, &Track)| {
            let name = if track.name.is_empty() {
                String::new()
            } else {
                format!(" “{}”", track.name)
            };
            (format!("track {}{name}", at + 1), track.points)
        };
        let names = || self.tracks.iter().enumerate().map(named);
        if let Some(wanted) = self.options.track {
            if wanted == 0 || wanted > self.tracks.len() {
                return Err(Refused::NotThere {
                    wanted: format!("track {wanted}"),
                    present: names().map(|(name, _)| name).collect(),
                });
            }
            return Ok(());
        }
        let mut order: Vec<&Track> = self.tracks.iter().filter(|t| t.points > 1).collect();
        order.sort_by_key(|track| track.first);
        let mut reached: Option<(i64, i64)> = None;
        for track in order {
            let length = track.last.saturating_sub(track.first);
            if let Some((end, longest)) = reached {
                let shared = end.min(track.last).saturating_sub(track.first);
                if shared > 0 && 2 * shared > length.min(longest) {
                    return Err(Refused::Tracks {
                        tracks: names().collect(),
                    });
                }
            }
            let before = reached.filter(|(end, _)| *end >= track.last);
            reached = before.or(Some((track.last, length)));
        }
        Ok(())
    }
}
