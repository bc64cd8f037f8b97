//! What the columns of a table are, as one line of text: `time 1 seconds; speed 2 mph; engine 4 rpm`.
//!
//! A person confirms it once; the job keeps it with the log, and the next table with the same headings
//! is read by it.

use quantity::Unit;
use trial::read::{Mapping, Options, Refused, TimeForm};

use super::{Choice, word};
use crate::refusal::{Refusal, Splash};

/// The words for [`TimeForm`].
pub const TIME_FORMS: [Choice<TimeForm>; 6] = [
    ("seconds", TimeForm::Seconds),
    ("milliseconds", TimeForm::Milliseconds),
    ("seconds-since-1970", TimeForm::SecondsSince1970),
    ("milliseconds-since-1970", TimeForm::MillisecondsSince1970),
    ("date-and-time", TimeForm::DateAndTime),
    ("time-of-day", TimeForm::TimeOfDay),
];
const SEPARATORS: [Choice<char>; 3] = [("comma", ','), ("semicolon", ';'), ("tab", '\t')];

/// The line that reads as `mapping`; columns are counted from 1.
pub fn written(mapping: &Mapping) -> String {
    let mut parts = vec![
        format!("separator {}", word(&SEPARATORS, mapping.separator)),
        format!("heading {}", mapping.heading),
    ];
    if mapping.decimal_comma {
        parts.push("decimal-comma".to_owned());
    }
    let form = mapping.time_form.map_or("", |form| word(&TIME_FORMS, form));
    let speed = mapping.speed_unit.map_or("", Unit::symbol);
    for (name, column, unit) in [
        ("time", mapping.time, form),
        ("date", mapping.date, ""),
        ("speed", mapping.speed, speed),
        ("course", mapping.course, mapping.course_unit.symbol()),
        ("engine", mapping.engine, mapping.engine_unit.symbol()),
        ("latitude", mapping.latitude, ""),
        ("longitude", mapping.longitude, ""),
        ("dilution", mapping.dilution, ""),
        ("satellites", mapping.satellites, ""),
    ] {
        if let Some(column) = column {
            let part = format!("{name} {} {unit}", column + 1);
            parts.push(part.trim_end().to_owned());
        }
    }
    parts.join("; ")
}

/// What `text` says, over what was guessed: what it does not name stays.
pub fn read(text: &str, guess: &Mapping) -> Result<Mapping, Refusal> {
    let mut mapping = guess.clone();
    for part in text
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
    {
        say(&mut mapping, part).ok_or_else(|| {
            Refusal::Water(Splash::BadLayout {
                text: part.chars().take(60).collect(),
            })
        })?;
    }
    Ok(mapping)
}

/// Refuses what says nothing of a column.
pub fn check(text: &str) -> Result<(), Refusal> {
    read(text, &Mapping::nothing(',')).map(drop)
}

fn say(mapping: &mut Mapping, part: &str) -> Option<()> {
    let words: Vec<&str> = part.split_whitespace().collect();
    let (name, rest) = words.split_first()?;
    if let ("decimal-comma" | "decimal-point", []) = (*name, rest) {
        mapping.decimal_comma = *name == "decimal-comma";
        return Some(());
    }
    let (first, unit) = match rest {
        [first] => (*first, None),
        [first, unit] => (*first, Some(*unit)),
        _ => return None,
    };
    if *name == "separator" {
        mapping.separator = of(&SEPARATORS, first)?;
        return Some(());
    }
    let number: usize = first.parse().ok()?;
    if *name == "heading" {
        mapping.heading = number;
        return Some(());
    }
    // A column of 0 takes away what was guessed.
    let column = number.checked_sub(1);
    match *name {
        "time" => {
            mapping.time = column;
            if let Some(form) = unit {
                mapping.time_form = Some(of(&TIME_FORMS, form)?);
            }
        }
        "date" => mapping.date = column,
        "speed" => {
            mapping.speed = column;
            if let Some(unit) = unit {
                mapping.speed_unit = Some(Unit::from_symbol(unit)?);
            }
        }
        "course" => {
            mapping.course = column;
            if let Some(unit) = unit {
                mapping.course_unit = Unit::from_symbol(unit)?;
            }
        }
        "engine" => {
            mapping.engine = column;
            if let Some(unit) = unit {
                mapping.engine_unit = Unit::from_symbol(unit)?;
            }
        }
        "latitude" => mapping.latitude = column,
        "longitude" => mapping.longitude = column,
        "dilution" => mapping.dilution = column,
        "satellites" => mapping.satellites = column,
        _ => return None,
    }
    Some(())
}

fn of<T: Copy>(choices: &[Choice<T>], text: &str) -> Option<T> {
    let found = choices.iter().find(|(word, _)| *word == text);
    found.map(|(_, value)| *value)
}

/// What a person says of a log before it is read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LogForm {
    /// Unit, track, receiver.
    pub options: Options,
    /// The columns, as a line of text; empty where nothing is said of them.
    pub layout: String,
}

/// What a form is asked for, by what was refused: its fields with what stands in them.
pub type Asked = Vec<(String, String)>;

impl LogForm {
    /// Reads the fields of a form.
    pub fn read(sent: &[(String, String)]) -> Result<Self, Refusal> {
        let get = |key: &str| {
            let named = sent.iter().find(|(name, _)| name == key);
            named.map_or("", |(_, value)| value.trim())
        };
        let asked = get("asks") == "table";
        let part = |key: &'static str, unit: &'static str| match (get(key), get(unit)) {
            // Asked, and answered with none of them: what was guessed does not stay.
            ("", _) => asked.then(|| format!("{key} 0")),
            (column, unit) => Some(format!("{key} {column} {unit}").trim_end().to_owned()),
        };
        let decimal = match get("decimal") {
            mark @ ("comma" | "point") => Some(format!("decimal-{mark}")),
            _ => None,
        };
        let parts = [
            part("time", "time_form"),
            part("speed", "speed_unit"),
            part("course", ""),
            part("engine", ""),
            decimal,
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        let unit = match get("log_unit") {
            "" => None,
            text => Some(super::choose("log_unit", text, &super::water::SPEED_UNITS)?),
        };
        let track = match get("track") {
            "" => None,
            text => Some(usize::from(super::count(
                "track",
                text,
                "the number of a track, from 1",
            )?)),
        };
        let talker = Some(get("talker")).filter(|talker| !talker.is_empty());
        Ok(Self {
            options: Options {
                speed_unit: unit,
                track,
                talker: talker.map(str::to_owned),
                ..Options::default()
            },
            layout: parts.join("; "),
        })
    }

    /// What the form must ask so that this log can be read.
    pub fn asks(refused: &Refused) -> Asked {
        let ask = |asks: &str, rest: Asked| {
            let mut all = vec![("asks".to_owned(), asks.to_owned())];
            all.extend(rest);
            all
        };
        let one = |key: &str, value: &str| (key.to_owned(), value.to_owned());
        match refused {
            Refused::Ask { columns, guess, .. } => {
                let number = |column: Option<usize>| {
                    column.map_or_else(String::new, |column| (column + 1).to_string())
                };
                let names = columns.iter().enumerate().map(|(place, column)| {
                    let name = match (column.name.trim(), column.examples.first()) {
                        ("", Some(example)) => format!("as in {example}"),
                        (name, _) => name.to_owned(),
                    };
                    format!("{}: {name}", place + 1)
                });
                let names: Vec<String> = names.collect();
                let form = guess.time_form.map_or("", |form| word(&TIME_FORMS, form));
                let unit = guess
                    .speed_unit
                    .map_or("", |unit| word(&super::water::SPEED_UNITS, unit));
                let decimal = if guess.decimal_comma {
                    "comma"
                } else {
                    "point"
                };
                ask(
                    "table",
                    vec![
                        one("columns", &names.join("\n")),
                        one("time", &number(guess.time)),
                        one("time_form", form),
                        one("speed", &number(guess.speed)),
                        one("speed_unit", unit),
                        one("course", &number(guess.course)),
                        one("engine", &number(guess.engine)),
                        one("decimal", decimal),
                    ],
                )
            }
            Refused::Unit { likely, .. } => {
                let likely = likely.map_or("", |unit| word(&super::water::SPEED_UNITS, unit));
                ask("unit", vec![one("log_unit", likely)])
            }
            Refused::Tracks { tracks } => {
                let names = tracks.iter().map(|(name, _)| name.as_str());
                let names: Vec<&str> = names.collect();
                ask("track", vec![one("names", &names.join("\n"))])
            }
            Refused::Talkers { talkers } => {
                let names = talkers.iter().map(|(name, _)| name.as_str());
                let names: Vec<&str> = names.collect();
                ask("talker", vec![one("names", &names.join("\n"))])
            }
            _ => Vec::new(),
        }
    }
}
