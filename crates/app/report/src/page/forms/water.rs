//! The forms of the water tests.

use quantity::Unit;
use workshop::draft::water::{OutingDraft, START_TO, WindowDraft};
use workshop::draft::word;
use workshop::entry::Key;
use workshop::water::{Figure, LogState, OutingState, Side, Window};

use super::{Blank, about, choice, field, line, number};
use crate::page::water::say;
use crate::page::{Button, Field, FieldKind, Form, FormName, Refused, Weight};

const SIDES: [(&str, &str); 2] = [
    ("before", "before the pump was opened"),
    ("after", "after the rebuild"),
];
const UNITS: [(&str, &str); 4] = [
    ("mph", "mph"),
    ("km/h", "km/h"),
    ("kn", "kn"),
    ("m/s", "m/s"),
];
const RECEIVERS: [(&str, &str); 4] = [
    ("", "not said"),
    ("own", "a receiver of its own, 5 to 10 fixes a second"),
    ("phone", "a phone or a watch"),
    ("craft", "the craft’s own plotter"),
];
const WATERS: [(&str, &str); 3] = [("", "not said"), ("fresh", "fresh"), ("salt", "salt")];
const WHATS: [(&str, &str); 3] = [
    ("top-speed", "top speed, full throttle"),
    ("engine-speed", "engine speed, full throttle"),
    ("start", "time from rest to a speed"),
];
const WAYS: [(&str, &str); 3] = [
    ("there", "on the way out"),
    ("back", "on the way back"),
    ("not-said", "nobody knows"),
];
const READS: [(&str, &str); 4] = [
    ("display", "off the craft’s display"),
    ("receiver", "off a receiver or a phone"),
    ("stop-watch", "with a stop watch"),
    ("video", "from a video, frame by frame"),
];

/// Describe an outing, or say anew what one was.
pub(crate) fn outing(
    had: Option<(&Key, &OutingState)>,
    (side, unit): (Side, Unit),
    refused: Option<&Refused>,
    open: bool,
) -> Form {
    let draft = had.map_or_else(
        || OutingDraft {
            side: word(&workshop::draft::water::SIDES, side).to_owned(),
            unit: word(&workshop::draft::water::SPEED_UNITS, unit).to_owned(),
            ..OutingDraft::default()
        },
        |(_, state)| OutingDraft::of(&state.outing.value),
    );
    let blank = Blank {
        name: FormName::Outing,
        heading: match had {
            Some(_) => "Change what is said of it",
            None => "Describe a time on the water",
        },
        intro: "What was not the same the other time is worth writing down: it can move the top \
                speed by as much as a worn ring.",
        submit: "Keep it",
        fields: vec![
            line("name", "Name", &draft.name).hint("Before, home lake"),
            choice("side", "When", &draft.side, &SIDES),
            choice("unit", "Speeds in", &draft.unit, &UNITS),
            choice("receiver", "Speed measured by", &draft.receiver, &RECEIVERS)
                .hint("The same unit in the same place both times: then its errors cancel."),
            line("note", "Riders, fuel, trim", &draft.note)
                .hint("2 riders 160 kg, half a tank, trim neutral, bilge dry"),
            number("wind", "Wind", &draft.wind).unit("m/s"),
            number("waves", "Waves", &draft.waves).unit("m"),
            number("air_temperature", "Air", &draft.air_temperature).unit("°C"),
            number("pressure", "Pressure at the place", &draft.pressure)
                .unit("mbar")
                .hint("As the barometer shows there, not reduced to sea level."),
            number("humidity", "Humidity", &draft.humidity).unit("%"),
            choice("water", "Water", &draft.water, &WATERS),
            number(
                "water_temperature",
                "Water temperature",
                &draft.water_temperature,
            )
            .unit("°C"),
            field(
                "charged",
                "The engine is supercharged or turbocharged",
                &draft.charged,
                FieldKind::Tick,
            ),
        ],
    };
    let key = had.map_or_else(String::new, |(key, _)| key.to_string());
    about(blank, ("outing", key), refused, open)
}

/// Read a log into an outing.
pub(crate) fn log(outing: &Key, refused: Option<&Refused>, open: bool) -> Form {
    let mine = refused.filter(|refused| {
        refused.form == FormName::Log
            && refused
                .typed
                .iter()
                .any(|(name, value)| name == "outing" && value == outing.as_str())
    });
    let mut fields = mine.map_or_else(Vec::new, asked);
    // What is said of a file must come before it: the file is read while it comes.
    fields.push(field("log", "Choose the log", "", FieldKind::Log));
    let blank = Blank {
        name: FormName::Log,
        heading: "Read a log",
        intro: "GPX, NMEA 0183 or columns of text (CSV). The file stays where it is: the job keeps \
                its name, its digest, speed, course and engine speed. Where you were is left behind.",
        submit: "Read it",
        fields,
    };
    let mut form = about(blank, ("outing", outing.to_string()), refused, open);
    // What was asked is asked again if the answer does not do.
    let sent = mine.into_iter().flat_map(|refused| &refused.typed);
    for (name, value) in sent {
        for key in ["asks", "columns", "names"] {
            if name == key {
                form.values.push((key, value.clone()));
            }
        }
    }
    form
}

/// What is asked of a log that does not say everything, with what could be guessed or was answered.
fn asked(refused: &Refused) -> Vec<Field> {
    let typed = |key: &str| {
        let typed = refused.typed.iter().find(|(name, _)| name == key);
        typed.map_or("", |(_, value)| value.as_str())
    };
    let names = |key: &str| -> Vec<(String, String)> {
        let lines = typed(key).lines().enumerate();
        lines
            .map(|(place, name)| ((place + 1).to_string(), name.to_owned()))
            .collect()
    };
    match typed("asks") {
        "table" => {
            let mut columns = vec![(String::new(), "none".to_owned())];
            columns.extend(names("columns"));
            let column = |key: &'static str, label: &str| {
                super::choice_of(key, label, typed(key), columns.clone())
            };
            vec![
                column("time", "Time stands in"),
                choice(
                    "time_form",
                    "Time is written as",
                    typed("time_form"),
                    &TIMES,
                ),
                column("speed", "Speed stands in"),
                choice("speed_unit", "Speed is in", typed("speed_unit"), &UNITS),
                column("course", "Course stands in"),
                column("engine", "Engine speed, rpm, stands in"),
                choice("decimal", "Decimal mark", typed("decimal"), &DECIMALS),
            ]
        }
        "unit" => vec![choice(
            "log_unit",
            "Its speeds are in",
            typed("log_unit"),
            &UNITS,
        )],
        "track" => vec![super::choice_of("track", "Read track", "", names("names"))],
        "talker" => {
            let talkers = typed("names").lines();
            let talkers = talkers.map(|name| (name.to_owned(), name.to_owned()));
            vec![super::choice_of(
                "talker",
                "Read the receiver",
                "",
                talkers.collect(),
            )]
        }
        _ => Vec::new(),
    }
}

const TIMES: [(&str, &str); 6] = [
    ("seconds", "seconds"),
    ("milliseconds", "milliseconds"),
    ("seconds-since-1970", "seconds since 1970"),
    ("milliseconds-since-1970", "milliseconds since 1970"),
    ("date-and-time", "date and time"),
    ("time-of-day", "hours, minutes, seconds"),
];
const DECIMALS: [(&str, &str); 2] = [("point", "a point: 52.3"), ("comma", "a comma: 52,3")];

/// Set the runs of a log by hand.
pub(crate) fn runs(
    (digest, state): (&Key, &LogState),
    windows: &[Window],
    refused: Option<&Refused>,
) -> Form {
    let blank = Blank {
        name: FormName::Run,
        heading: "Mend the runs by hand",
        intro: "Minutes and seconds since the log began, as under the picture. A run is one way, \
                straight, at full throttle.",
        submit: "Add this run",
        fields: vec![
            line("from", "From", "").hint("1:02.5"),
            line("until", "Until", "").hint("1:30"),
        ],
    };
    let mut form = about(blank, ("log", digest.to_string()), refused, false);
    let button = |label: String, name, from: &str| Button {
        label,
        form: name,
        values: vec![("log", digest.to_string()), ("from", from.to_owned())],
        weight: Weight::Plain,
        key: None,
    };
    form.quick = windows
        .iter()
        .map(|window| {
            let WindowDraft { from, until } = WindowDraft::of(*window);
            button(
                format!("Leave out {from} to {until}"),
                FormName::RunOff,
                &from,
            )
        })
        .collect();
    if state.windows.is_some() {
        form.quick.push(button(
            "Back to the runs that were found".to_owned(),
            FormName::RunsFound,
            "",
        ));
    }
    form.quick
        .push(button("Put this log away".to_owned(), FormName::LogOff, ""));
    form
}

/// Type in what was read off.
pub(crate) fn figures(
    (key, state): (&Key, &OutingState),
    unit: Unit,
    refused: Option<&Refused>,
    open: bool,
) -> Form {
    let blank = Blank {
        name: FormName::Figure,
        heading: "Read off without a log",
        intro: "By a passenger, a camera or a second craft: the driver reads nothing at speed.",
        submit: "Keep this figure",
        fields: vec![
            choice("what", "What", "top-speed", &WHATS),
            number("value", "How much", "").hint(&format!(
                "A speed in {}, rpm, or seconds: 52.3, 7650, 2.4",
                unit.symbol()
            )),
            choice("way", "Top speed: which way", "there", &WAYS),
            line("to", "Time from rest: to which speed", "").hint(START_TO),
            choice("read", "How it was read", "display", &READS),
        ],
    };
    let mut form = about(blank, ("outing", key.to_string()), refused, open);
    let figures: Vec<&Figure> = state.figures.iter().flat_map(|fact| &fact.value).collect();
    form.quick = figures
        .iter()
        .enumerate()
        .map(|(place, figure)| Button {
            label: format!("Take away: {}", say::figure(figure)),
            form: FormName::FigureOff,
            values: vec![("outing", key.to_string()), ("place", place.to_string())],
            weight: Weight::Plain,
            key: None,
        })
        .collect();
    form
}
