//! Water tests, as typed.

use std::sync::Arc;

use quantity::{Entered, Unit};

use super::{Choice, choose, length, optional, typed, word};
use crate::act::Act;
use crate::entry::{Body, Key};
use crate::job::Job;
use crate::refusal::Refusal;
use crate::water::{
    Figure, Format, Logged, Outing, Read, Receiver, Side, Trialling, Water, Way, What, Window,
};

/// The words for [`Side`].
pub const SIDES: [Choice<Side>; 2] = [("before", Side::Before), ("after", Side::After)];
/// The units of speed there are.
pub const SPEED_UNITS: [Choice<Unit>; 4] = [
    ("mph", Unit::MilePerHour),
    ("km/h", Unit::KilometrePerHour),
    ("kn", Unit::Knot),
    ("m/s", Unit::MetrePerSecond),
];
/// The words for [`Receiver`].
pub const RECEIVERS: [Choice<Receiver>; 3] = [
    ("own", Receiver::Own),
    ("phone", Receiver::Phone),
    ("craft", Receiver::Craft),
];
/// The words for [`Water`].
pub const WATERS: [Choice<Water>; 2] = [("fresh", Water::Fresh), ("salt", Water::Salt)];
/// The words for [`Format`].
pub const FORMATS: [Choice<Format>; 4] = [
    ("gpx", Format::Gpx),
    ("nmea", Format::Nmea),
    ("csv", Format::Csv),
    ("n2k", Format::N2k),
];
/// The words for [`Way`].
pub const WAYS: [Choice<Way>; 3] = [
    ("there", Way::There),
    ("back", Way::Back),
    ("not-said", Way::NotSaid),
];
/// The words for [`Read`].
pub const READS: [Choice<Read>; 4] = [
    ("display", Read::Display),
    ("receiver", Read::Receiver),
    ("stop-watch", Read::StopWatch),
    ("video", Read::Video),
];
/// What a figure can say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// Speed at full throttle.
    TopSpeed,
    /// Engine speed at full throttle.
    EngineSpeed,
    /// From rest to a speed.
    Start,
}

/// The words for [`Told`].
pub const FIGURES: [Choice<Told>; 3] = [
    ("top-speed", Told::TopSpeed),
    ("engine-speed", Told::EngineSpeed),
    ("start", Told::Start),
];

/// [`Outing`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OutingDraft {
    /// What it is called.
    pub name: String,
    /// Before or after.
    pub side: String,
    /// The unit of speed.
    pub unit: String,
    /// What measured the speed; may be empty.
    pub receiver: String,
    /// The water; may be empty.
    pub water: String,
    /// Its temperature; bare in degrees Celsius. May be empty.
    pub water_temperature: String,
    /// The wind; bare in metres a second. May be empty.
    pub wind: String,
    /// The waves; bare in metres. May be empty.
    pub waves: String,
    /// The air’s temperature; bare in degrees Celsius. May be empty.
    pub air_temperature: String,
    /// The pressure at the place; bare in millibar. May be empty.
    pub pressure: String,
    /// The humidity in percent; may be empty.
    pub humidity: String,
    /// The engine is charged: `yes` or empty.
    pub charged: String,
    /// Anything else; may be empty.
    pub note: String,
}

/// [`Figure`] as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct FigureDraft {
    /// What it says.
    pub what: String,
    /// Which way; may be empty.
    pub way: String,
    /// The speed a start goes to; may be empty, then 30 mph.
    pub to: String,
    /// The value.
    pub value: String,
    /// How it was read off.
    pub read: String,
}

/// [`Window`] as typed: seconds since the log began, or minutes and seconds such as `1:02.5`.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WindowDraft {
    /// From.
    pub from: String,
    /// Until.
    pub until: String,
}

/// Minutes since a log began: a receiver whose date jumps leaves a log of decades.
const LONGEST: i64 = 100_000_000;

/// The speed a start goes to where nothing else is said.
pub const START_TO: &str = "30 mph";

/// One of a few, or nothing.
pub(super) fn may<T: Copy>(
    field: &'static str,
    text: &str,
    choices: &[Choice<T>],
) -> Result<Option<T>, Refusal> {
    match text.trim() {
        "" => Ok(None),
        text => choose(field, text, choices).map(Some),
    }
}

fn yes(field: &'static str, text: &str) -> Result<bool, Refusal> {
    Ok(may(field, text, &[("yes", true), ("no", false)])?.unwrap_or(false))
}

impl OutingDraft {
    /// The draft that reads as `outing`.
    pub fn of(outing: &Outing) -> Self {
        let said = |entered: &Option<Entered>, bare| {
            let entered = entered.as_ref();
            entered.map_or_else(String::new, |entered| typed(entered, bare))
        };
        let maybe = |word: Option<&'static str>| word.unwrap_or_default().to_owned();
        Self {
            name: outing.name.clone(),
            side: word(&SIDES, outing.side).to_owned(),
            unit: word(&SPEED_UNITS, outing.unit).to_owned(),
            receiver: maybe(outing.receiver.map(|own| word(&RECEIVERS, own))),
            water: maybe(outing.water.map(|water| word(&WATERS, water))),
            water_temperature: said(&outing.water_temperature, Unit::Celsius),
            wind: said(&outing.wind, Unit::MetrePerSecond),
            waves: said(&outing.waves, Unit::Metre),
            air_temperature: said(&outing.air_temperature, Unit::Celsius),
            pressure: said(&outing.pressure, Unit::Millibar),
            humidity: outing.humidity.map_or_else(String::new, |p| p.to_string()),
            charged: maybe(outing.charged.then_some("yes")),
            note: outing.note.clone(),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Outing, Refusal> {
        let humidity = match self.humidity.trim().trim_end_matches('%').trim_end() {
            "" => None,
            text => Some(super::count(
                "humidity",
                text,
                "a whole number of percent from 0 to 100",
            )?),
        };
        let quantity = |field, text: &str, bare| optional(field, text, bare);
        Ok(Outing {
            name: self.name.trim().to_owned(),
            side: choose("side", &self.side, &SIDES)?,
            unit: choose("unit", &self.unit, &SPEED_UNITS)?,
            receiver: may("receiver", &self.receiver, &RECEIVERS)?,
            water: may("water", &self.water, &WATERS)?,
            water_temperature: quantity(
                "water_temperature",
                &self.water_temperature,
                Unit::Celsius,
            )?,
            wind: quantity("wind", &self.wind, Unit::MetrePerSecond)?,
            waves: quantity("waves", &self.waves, Unit::Metre)?,
            air_temperature: quantity("air_temperature", &self.air_temperature, Unit::Celsius)?,
            pressure: quantity("pressure", &self.pressure, Unit::Millibar)?,
            humidity,
            charged: yes("charged", &self.charged)?,
            note: self.note.trim().to_owned(),
        })
    }
}

impl FigureDraft {
    /// The draft that reads as `figure`, bare speeds in `unit`.
    pub fn of(figure: &Figure, unit: Unit) -> Self {
        let (told, way, to, bare) = match &figure.what {
            What::TopSpeed(way) => (Told::TopSpeed, word(&WAYS, *way), String::new(), unit),
            What::EngineSpeed => (Told::EngineSpeed, "", String::new(), Unit::Rpm),
            What::Start { to } => (Told::Start, "", typed(to, unit), Unit::Second),
        };
        Self {
            what: word(&FIGURES, told).to_owned(),
            way: way.to_owned(),
            to,
            value: typed(&figure.value, bare),
            read: word(&READS, figure.read).to_owned(),
        }
    }

    /// Reads it, bare speeds in `unit`.
    pub fn read(&self, unit: Unit) -> Result<Figure, Refusal> {
        let (what, bare) = match choose("what", &self.what, &FIGURES)? {
            Told::TopSpeed => {
                let way = may("way", &self.way, &WAYS)?.unwrap_or(Way::NotSaid);
                (What::TopSpeed(way), unit)
            }
            Told::EngineSpeed => (What::EngineSpeed, Unit::Rpm),
            Told::Start => {
                let to = match self.to.trim() {
                    "" => length("to", START_TO, unit)?,
                    text => length("to", text, unit)?,
                };
                (What::Start { to }, Unit::Second)
            }
        };
        Ok(Figure {
            what,
            value: length("value", &self.value, bare)?,
            read: choose("read", &self.read, &READS)?,
        })
    }
}

impl WindowDraft {
    /// The draft that reads as `window`.
    pub fn of(window: Window) -> Self {
        Self {
            from: clock(window.from_ms),
            until: clock(window.until_ms),
        }
    }

    /// Reads it.
    pub fn read(&self) -> Result<Window, Refusal> {
        Ok(Window {
            from_ms: milliseconds("from", &self.from)?,
            until_ms: milliseconds("until", &self.until)?,
        })
    }
}

/// `1:02.5`, minutes and seconds since the log began; to the millisecond where it needs it.
pub fn clock(ms: i64) -> String {
    let sign = if ms < 0 { "-" } else { "" };
    let ms = ms.unsigned_abs();
    let (minutes, rest) = (ms / 60_000, ms % 60_000);
    let thousandths = format!("{:03}", rest % 1000);
    let part = match thousandths.trim_end_matches('0') {
        "" => "0",
        part => part,
    };
    format!("{sign}{minutes}:{:02}.{part}", rest / 1000)
}

fn milliseconds(field: &'static str, text: &str) -> Result<i64, Refusal> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Refusal::Empty { field });
    }
    let bad = || Refusal::NotACount {
        field,
        text: text.to_owned(),
        allowed: "minutes and seconds since the log began, such as 1:02.5, or seconds, such as 62.5",
    };
    let plain = text.trim_end_matches('s').trim_end();
    let (sign, plain) = match plain.strip_prefix(['-', '−']) {
        Some(rest) => (-1, rest),
        None => (1, plain),
    };
    let (minutes, seconds) = plain.split_once(':').unwrap_or(("0", plain));
    let minutes: i64 = minutes
        .parse()
        .ok()
        .filter(|n| (0..=LONGEST).contains(n))
        .ok_or_else(bad)?;
    let (whole, part) = seconds.split_once(['.', ',']).unwrap_or((seconds, "0"));
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    if !digits(whole) || whole.len() > 7 || !digits(part) || part.len() > 3 {
        return Err(bad());
    }
    let whole: i64 = whole.parse().map_err(|_| bad())?;
    let part: i64 = format!("{part:0<3}").parse().map_err(|_| bad())?;
    Ok(sign * (minutes * 60_000 + whole * 1000 + part))
}

/// An outing with all that belongs to it.
#[derive(Clone, Debug, PartialEq)]
pub struct TrialDraft {
    /// Names it within the job.
    pub key: String,
    /// What is said of it.
    pub outing: OutingDraft,
    /// What was read off.
    pub figures: Vec<FigureDraft>,
    /// Its logs.
    pub logs: Vec<LogDraft>,
}

/// A log with its runs as set by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct LogDraft {
    /// SHA-256 of the file.
    pub digest: String,
    /// What is kept of it.
    pub log: Arc<Logged>,
    /// Its runs as set by hand; none where they are found.
    pub runs: Option<Vec<WindowDraft>>,
}

/// The water tests of a job.
pub(super) fn drafts(job: &Job) -> Vec<TrialDraft> {
    let outings = job.trials.in_order(None).into_iter();
    let draft = |(key, state): (&Key, &crate::water::OutingState)| {
        let outing = &state.outing.value;
        let figures = state.figures.iter().flat_map(|fact| &fact.value);
        let logs = job.trials.logs_of(key).into_iter();
        TrialDraft {
            key: key.to_string(),
            outing: OutingDraft::of(outing),
            figures: figures
                .map(|figure| FigureDraft::of(figure, outing.unit))
                .collect(),
            logs: logs
                .map(|(digest, state)| LogDraft {
                    digest: digest.to_string(),
                    log: Arc::clone(&state.log.value),
                    runs: state.windows.as_ref().map(|fact| {
                        let windows = fact.value.iter();
                        windows.map(|window| WindowDraft::of(*window)).collect()
                    }),
                })
                .collect(),
        }
    };
    outings.map(draft).collect()
}

/// The acts that bring `job` to these water tests, where it says otherwise or nothing.
pub(super) fn acts(drafts: &[TrialDraft], job: &Job) -> Result<Vec<Act>, Refusal> {
    let mut acts = Vec::new();
    let mut tell = |said| acts.push(Act::Recount(Body::Trialled(said), None));
    for draft in drafts {
        let key = Key::new(&draft.key)?;
        let outing = draft.outing.read()?;
        let unit = outing.unit;
        let had = job.trials.outings.get(&key);
        let same = |had: &Outing| OutingDraft::of(had) == OutingDraft::of(&outing);
        if had.is_none_or(|had| !same(&had.outing.value)) {
            let key = key.clone();
            tell(Trialling::Outing { key, outing });
        }
        let figures: Vec<Figure> = draft
            .figures
            .iter()
            .map(|figure| figure.read(unit))
            .collect::<Result<_, _>>()?;
        let there = had.and_then(|had| had.figures.as_ref());
        let of = |figures: &[Figure]| -> Vec<FigureDraft> {
            let figures = figures.iter();
            figures
                .map(|figure| FigureDraft::of(figure, unit))
                .collect()
        };
        // A file without figures takes none away.
        if !figures.is_empty() && of(&figures) != of(there.map_or(&[], |fact| &fact.value)) {
            let outing = key.clone();
            tell(Trialling::Figures { outing, figures });
        }
        for log in &draft.logs {
            let digest = Key::new(&log.digest)?;
            let had = job.trials.logs.get(&digest);
            if had.is_none_or(|had| had.log.value != log.log || had.outing != key) {
                tell(Trialling::Log {
                    outing: key.clone(),
                    digest: digest.clone(),
                    log: Arc::clone(&log.log),
                });
            }
            let windows: Option<Vec<Window>> = match &log.runs {
                Some(runs) => Some(
                    runs.iter()
                        .map(WindowDraft::read)
                        .collect::<Result<_, _>>()?,
                ),
                None => None,
            };
            let there = had.and_then(|had| had.windows.as_ref());
            if windows.as_ref() != there.map(|fact| &fact.value) && windows.is_some() {
                tell(Trialling::Runs { digest, windows });
            }
        }
    }
    Ok(acts)
}
