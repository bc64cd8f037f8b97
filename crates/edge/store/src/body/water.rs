//! What is said of water tests.

use std::sync::Arc;

use quantity::{Entered, Unit};
use serde::{Deserialize, Serialize};
use workshop::draft::water::{FORMATS, READS, RECEIVERS, SIDES, SPEED_UNITS, WATERS, WAYS};
use workshop::draft::word;
use workshop::entry::{Body, Key};
use workshop::water::{self, Trialling, What, Window};

use super::typed::{Duration, Length, Pressure, ShaftSpeed, Speed, Temperature};
use super::{Encoded, Fault, key, may, of, read, whole, write};

/// Writes what was said, each kind in its own shape.
pub(super) fn encode(said: &Trialling) -> Result<Encoded, Fault> {
    match said {
        Trialling::Outing { key, outing } => {
            write("outing-described", &Described::new(key, outing))
        }
        Trialling::Log {
            outing,
            digest,
            log,
        } => write("log-read", &Log::new(outing, digest, log)),
        Trialling::LogPutAway { digest } => {
            let digest = digest.to_string();
            write("log-put-away", &PutAway { digest })
        }
        Trialling::Runs { digest, windows } => {
            let runs = Runs {
                digest: digest.to_string(),
                windows: windows
                    .as_ref()
                    .map(|all| all.iter().map(Span::from).collect()),
            };
            write("runs-set", &runs)
        }
        Trialling::Figures { outing, figures } => {
            let figures = Figures {
                outing: outing.to_string(),
                figures: figures.iter().map(Figure::from).collect(),
            };
            write("figures-read", &figures)
        }
        Trialling::Taken(shown) => {
            let taken = Taken {
                evidence: shown.evidence.clone(),
                words: shown.words.clone(),
                after_m_s: shown.after,
                change_m_s: shown.change,
                program: shown.program.clone(),
            };
            write("trial-taken", &taken)
        }
    }
}

/// Reads one of these kinds; none for a kind of something else.
pub(super) fn decode(kind: &str, version: u32, json: &str) -> Option<Result<Body, Fault>> {
    Some(match (kind, version) {
        ("outing-described", 1) => of_json::<Described>(json),
        ("log-read", 1) => of_json::<Log>(json),
        ("log-put-away", 1) => of_json::<PutAway>(json),
        ("runs-set", 1) => of_json::<Runs>(json),
        ("figures-read", 1) => of_json::<Figures>(json),
        ("trial-taken", 1) => of_json::<Taken>(json),
        _ => return None,
    })
}

fn of_json<T>(json: &str) -> Result<Body, Fault>
where
    T: serde::de::DeserializeOwned,
    Trialling: TryFrom<T, Error = String>,
{
    let said = read::<T>(json)?;
    whole(Trialling::try_from(said).map(Body::Trialled))
}

fn entered<T: Into<Entered>>(typed: Option<T>) -> Option<Entered> {
    typed.map(Into::into)
}

/// The word for a value of a choice that may be left open.
fn said<T: PartialEq + Copy>(
    choices: &[workshop::draft::Choice<T>],
    value: Option<T>,
) -> Option<String> {
    value.map(|value| word(choices, value).to_owned())
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Described {
    outing: String,
    name: String,
    side: String,
    unit: String,
    receiver: Option<String>,
    water: Option<String>,
    water_temperature: Option<Temperature>,
    wind: Option<Speed>,
    waves: Option<Length>,
    air_temperature: Option<Temperature>,
    pressure: Option<Pressure>,
    humidity_percent: Option<u8>,
    charged: bool,
    note: String,
}

impl Described {
    fn new(key: &Key, outing: &water::Outing) -> Self {
        Self {
            outing: key.to_string(),
            name: outing.name.clone(),
            side: word(&SIDES, outing.side).to_owned(),
            unit: word::<Unit>(&SPEED_UNITS, outing.unit).to_owned(),
            receiver: said(&RECEIVERS, outing.receiver),
            water: said(&WATERS, outing.water),
            water_temperature: outing.water_temperature.as_ref().map(Into::into),
            wind: outing.wind.as_ref().map(Into::into),
            waves: outing.waves.as_ref().map(Into::into),
            air_temperature: outing.air_temperature.as_ref().map(Into::into),
            pressure: outing.pressure.as_ref().map(Into::into),
            humidity_percent: outing.humidity,
            charged: outing.charged,
            note: outing.note.clone(),
        }
    }
}

impl TryFrom<Described> for Trialling {
    type Error = String;

    fn try_from(stored: Described) -> Result<Self, String> {
        let outing = water::Outing {
            name: stored.name,
            side: of(&SIDES, &stored.side)?,
            unit: of(&SPEED_UNITS, &stored.unit)?,
            receiver: may(&RECEIVERS, stored.receiver.as_ref())?,
            water: may(&WATERS, stored.water.as_ref())?,
            water_temperature: entered(stored.water_temperature),
            wind: entered(stored.wind),
            waves: entered(stored.waves),
            air_temperature: entered(stored.air_temperature),
            pressure: entered(stored.pressure),
            humidity: stored.humidity_percent,
            charged: stored.charged,
            note: stored.note,
        };
        let key = key(&stored.outing)?;
        Ok(Self::Outing { key, outing })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Log {
    outing: String,
    digest: String,
    name: String,
    bytes: u64,
    format: String,
    speed_from: String,
    read: u64,
    thinned: bool,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    layout: Option<String>,
    unit_ratio: Option<f64>,
    rejected: Vec<Rejected>,
    zero_ms: Option<i64>,
    stretches: Vec<Columns>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Rejected {
    why: String,
    count: u64,
    line: u64,
    text: String,
}

/// One number a sample in each; a column that no sample has is left out.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Columns {
    time_ms: Vec<i64>,
    speed_mm_s: Vec<u32>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    course_cdeg: Vec<Option<u16>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    engine_rpm: Vec<Option<u16>>,
}

impl Log {
    fn new(outing: &Key, digest: &Key, log: &water::Logged) -> Self {
        let rejected = log.rejected.iter().map(|some| Rejected {
            why: some.why.clone(),
            count: some.count,
            line: some.line,
            text: some.text.clone(),
        });
        let stretches = log.stretches.iter().map(|some| Columns {
            time_ms: some.time_ms.clone(),
            speed_mm_s: some.speed_mm_s.clone(),
            course_cdeg: some.course_cdeg.clone(),
            engine_rpm: some.engine_rpm.clone(),
        });
        Self {
            outing: outing.to_string(),
            digest: digest.to_string(),
            name: log.name.clone(),
            bytes: log.bytes,
            format: word(&FORMATS, log.format).to_owned(),
            speed_from: log.speed_from.clone(),
            read: log.read,
            thinned: log.thinned,
            layout: log.layout.clone(),
            unit_ratio: log.unit_ratio,
            rejected: rejected.collect(),
            zero_ms: log.zero_ms,
            stretches: stretches.collect(),
        }
    }
}

impl TryFrom<Log> for Trialling {
    type Error = String;

    fn try_from(stored: Log) -> Result<Self, String> {
        let rejected = stored.rejected.into_iter().map(|some| water::Rejected {
            why: some.why,
            count: some.count,
            line: some.line,
            text: some.text,
        });
        let stretches = stored.stretches.into_iter().map(|some| water::Columns {
            time_ms: some.time_ms,
            speed_mm_s: some.speed_mm_s,
            course_cdeg: some.course_cdeg,
            engine_rpm: some.engine_rpm,
        });
        let log = water::Logged {
            name: stored.name,
            bytes: stored.bytes,
            format: of(&FORMATS, &stored.format)?,
            speed_from: stored.speed_from,
            read: stored.read,
            thinned: stored.thinned,
            layout: stored.layout,
            unit_ratio: stored.unit_ratio,
            rejected: rejected.collect(),
            zero_ms: stored.zero_ms,
            stretches: stretches.collect(),
        };
        Ok(Self::Log {
            outing: key(&stored.outing)?,
            digest: key(&stored.digest)?,
            log: Arc::new(log),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PutAway {
    digest: String,
}

impl TryFrom<PutAway> for Trialling {
    type Error = String;

    fn try_from(stored: PutAway) -> Result<Self, String> {
        let digest = key(&stored.digest)?;
        Ok(Self::LogPutAway { digest })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Runs {
    digest: String,
    windows: Option<Vec<Span>>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Span {
    from_ms: i64,
    until_ms: i64,
}

impl From<&Window> for Span {
    fn from(window: &Window) -> Self {
        Self {
            from_ms: window.from_ms,
            until_ms: window.until_ms,
        }
    }
}

impl TryFrom<Runs> for Trialling {
    type Error = String;

    fn try_from(stored: Runs) -> Result<Self, String> {
        let window = |span: Span| Window {
            from_ms: span.from_ms,
            until_ms: span.until_ms,
        };
        Ok(Self::Runs {
            digest: key(&stored.digest)?,
            windows: (stored.windows).map(|all| all.into_iter().map(window).collect()),
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Figures {
    outing: String,
    figures: Vec<Figure>,
}

#[derive(Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case", deny_unknown_fields)]
enum Figure {
    TopSpeed {
        way: String,
        value: Speed,
        read: String,
    },
    EngineSpeed {
        value: ShaftSpeed,
        read: String,
    },
    Start {
        to: Speed,
        value: Duration,
        read: String,
    },
}

impl From<&water::Figure> for Figure {
    fn from(figure: &water::Figure) -> Self {
        let read = word(&READS, figure.read).to_owned();
        let value = &figure.value;
        match &figure.what {
            What::TopSpeed(way) => Self::TopSpeed {
                way: word(&WAYS, *way).to_owned(),
                value: value.into(),
                read,
            },
            What::EngineSpeed => Self::EngineSpeed {
                value: value.into(),
                read,
            },
            What::Start { to } => Self::Start {
                to: to.into(),
                value: value.into(),
                read,
            },
        }
    }
}

impl TryFrom<Figure> for water::Figure {
    type Error = String;

    fn try_from(stored: Figure) -> Result<Self, String> {
        let (what, value, read) = match stored {
            Figure::TopSpeed { way, value, read } => {
                (What::TopSpeed(of(&WAYS, &way)?), value.into(), read)
            }
            Figure::EngineSpeed { value, read } => (What::EngineSpeed, value.into(), read),
            Figure::Start { to, value, read } => {
                (What::Start { to: to.into() }, value.into(), read)
            }
        };
        let read = of(&READS, &read)?;
        Ok(Self { what, value, read })
    }
}

impl TryFrom<Figures> for Trialling {
    type Error = String;

    fn try_from(stored: Figures) -> Result<Self, String> {
        let figures = stored.figures.into_iter().map(TryInto::try_into);
        Ok(Self::Figures {
            outing: key(&stored.outing)?,
            figures: figures.collect::<Result<_, _>>()?,
        })
    }
}

/// Each value with the ends of its interval.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Taken {
    evidence: String,
    words: String,
    after_m_s: Option<[f64; 3]>,
    change_m_s: Option<[f64; 3]>,
    program: String,
}

impl TryFrom<Taken> for Trialling {
    type Error = String;

    fn try_from(stored: Taken) -> Result<Self, String> {
        Ok(Self::Taken(water::Shown {
            evidence: stored.evidence,
            words: stored.words,
            after: stored.after_m_s,
            change: stored.change_m_s,
            program: stored.program,
        }))
    }
}
