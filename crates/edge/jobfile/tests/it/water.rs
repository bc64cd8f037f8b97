//! Water tests in a job file. All data are invented.

use std::sync::Arc;

use jobfile::{parse, stored, write};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use workshop::draft::water::{FigureDraft, LogDraft, OutingDraft, WindowDraft};
use workshop::draft::{JobDraft, TrialDraft};
use workshop::fold::fold;
use workshop::water::{Columns, Format, Logged, Rejected};

use crate::blamed::{by, check, id, of, refused};

fn outing(key: &str, side: &str) -> TrialDraft {
    let words = |text: &str| text.to_owned();
    TrialDraft {
        key: words(key),
        outing: OutingDraft {
            name: format!("Home \"lake\", {side}"),
            side: words(side),
            unit: words("mph"),
            receiver: words("own"),
            water: words("fresh"),
            water_temperature: words("64 °F"),
            wind: words("8 kn"),
            waves: words("0,2"),
            air_temperature: words("21"),
            pressure: words("1008"),
            humidity: words("60"),
            charged: words("yes"),
            note: words("Two up,\nhalf a tank"),
        },
        figures: figures(),
        logs: Vec::new(),
    }
}

/// One that says no more than it must.
fn bare() -> TrialDraft {
    TrialDraft {
        outing: OutingDraft {
            name: "Sea trial".to_owned(),
            side: "after".to_owned(),
            unit: "km/h".to_owned(),
            ..OutingDraft::default()
        },
        figures: Vec::new(),
        ..outing("sea", "after")
    }
}

fn figures() -> Vec<FigureDraft> {
    let figure = |what: &str, way: &str, to: &str, value: &str, read: &str| FigureDraft {
        what: what.to_owned(),
        way: way.to_owned(),
        to: to.to_owned(),
        value: value.to_owned(),
        read: read.to_owned(),
    };
    vec![
        figure("top-speed", "there", "", "48.2", "receiver"),
        figure("top-speed", "back", "", "77 km/h", "display"),
        figure("engine-speed", "", "", "7450", "display"),
        figure("start", "", "", "2.9", "video"),
        figure("start", "", "25 kn", "3.4 s", "stop-watch"),
    ]
}

fn rejected() -> Vec<Rejected> {
    let row = |why: &str, text: &str| Rejected {
        why: why.to_owned(),
        count: 14,
        line: 3,
        text: text.to_owned(),
    };
    vec![row("not a number", "\"--\",'x'"), row("out of order", "")]
}

/// Columns of one length whose time rises; a column may be absent.
fn columns() -> impl Strategy<Value = Columns> {
    let sample = (
        1_i64..400,
        any::<u32>(),
        prop::option::of(0..36_000_u16),
        prop::option::of(any::<u16>()),
    );
    let samples = prop::collection::vec(sample, 1..60);
    (samples, -5000_i64..2_000_000_000_000, any::<[bool; 2]>()).prop_map(
        |(samples, begin, [course, engine])| {
            let mut columns = Columns::default();
            let mut at = begin;
            for (step, speed, degrees, rpm) in samples {
                at += step;
                columns.time_ms.push(at);
                columns.speed_mm_s.push(speed);
                if course {
                    columns.course_cdeg.push(degrees);
                }
                if engine {
                    columns.engine_rpm.push(rpm);
                }
            }
            columns
        },
    )
}

/// A run over the whole of each stretch that has more than one sample; stretches of one log may
/// lie over each other, so only the first has one.
fn runs(stretches: &[Columns]) -> Vec<WindowDraft> {
    let run = |columns: &Columns| {
        let from_ms = *columns.time_ms.first()?;
        let until_ms = *columns.time_ms.last()?;
        let window = workshop::water::Window { from_ms, until_ms };
        (from_ms < until_ms).then(|| WindowDraft::of(window))
    };
    stretches.first().and_then(run).into_iter().collect()
}

fn log(digit: char) -> impl Strategy<Value = LogDraft> {
    let stretches = prop::collection::vec(columns(), 0..4);
    let format = select(vec![Format::Gpx, Format::Nmea, Format::Csv, Format::N2k]);
    let zero = prop::option::of(-1_000_000_000_000_i64..4_000_000_000_000);
    let ratio = prop::option::of(select(vec![
        1.0,
        0.5144,
        1.0 / 3.0,
        1e-7,
        2.236_936_292_054_402,
    ]));
    let flags = any::<[bool; 3]>();
    (stretches, format, zero, ratio, flags).prop_map(
        move |(stretches, format, zero_ms, unit_ratio, [thinned, some, set])| LogDraft {
            digest: digit.to_string().repeat(64),
            runs: set.then(|| runs(&stretches)),
            log: Arc::new(Logged {
                name: format!("run {digit}.gpx"),
                bytes: 4096,
                format,
                speed_from: "speed of the receiver".to_owned(),
                read: 5120,
                thinned,
                layout: some
                    .then(|| "time s\nspeed, \"mph\"\nheading 1; time 1 seconds".to_owned()),
                unit_ratio,
                rejected: if some { rejected() } else { Vec::new() },
                zero_ms,
                stretches,
            }),
        },
    )
}

/// Some outings with some of the figures and logs.
pub(crate) fn trials() -> impl Strategy<Value = Vec<TrialDraft>> {
    let all = vec![outing("before", "before"), outing("after", "after"), bare()];
    let outings = subsequence(all, 0..=3).prop_shuffle();
    (outings, log('a'), log('b'), any::<bool>()).prop_map(|(mut trials, one, two, both)| {
        if let Some(first) = trials.first_mut() {
            first.logs.push(one);
        }
        if both && let Some(last) = trials.last_mut() {
            last.logs.push(two);
        }
        trials
    })
}

const OUTING: &str =
    "[[outing]]\nkey = \"lake\"\nname = \"Lake\"\nside = \"before\"\nunit = \"mph\"\n";

/// A log of two stretches of three samples each, ten seconds apart, after `more` of its own.
fn log_of(more: &str) -> String {
    let digest = "ab".repeat(32);
    let head =
        "name = \"a.gpx\"\nbytes = 9\nformat = \"gpx\"\nspeed_from = \"receiver\"\nread = 6\n";
    let stretch = |time: &str| {
        format!("[[outing.log.stretch]]\ntime_ms = [{time}]\nspeed_mm_s = [0, 500, 900]\n")
    };
    let (one, two) = (stretch("0, 200, 400"), stretch("10_000, 10_200, 10_400"));
    format!("{OUTING}[[outing.log]]\ndigest = \"{digest}\"\n{head}{more}{one}{two}")
}

#[test]
fn law_an_outing_that_cannot_be_is_refused_at_its_line() {
    let figure = |lines: &str| format!("{OUTING}[[outing.figure]]\n{lines}");
    let top = "what = \"top-speed\"\nread = \"display\"\n";
    check([
        (OUTING.replace("lake", "La ke"), "line 7, column 8", "La ke"),
        (
            OUTING.replace("\"before\"", "\"between\""),
            "line 9, column 9",
            "“between”",
        ),
        (
            OUTING.replace("\"mph\"", "\"mm\""),
            "line 10, column 9",
            "“mm”",
        ),
        (
            format!("{OUTING}wind = \"8 bar\"\n"),
            "line 11, column 11",
            "bar",
        ),
        (
            format!("{OUTING}wind = \"41\"\n"),
            "line 11, column 9",
            "40",
        ),
        (
            format!("{OUTING}humidity = 101\n"),
            "line 11, column 12",
            "0 to 100",
        ),
        (format!("{OUTING}windy = \"8\"\n"), "line 11", "windy"),
        (
            format!("{OUTING}{OUTING}"),
            "line 12, column 7",
            "above already",
        ),
        (
            figure(&format!("{top}value = \"500\"\n")),
            "line 14, column 10",
            "134",
        ),
        (
            figure(&format!("{top}value = \"20 m\"\n")),
            "line 14, column 13",
            "m",
        ),
        (
            figure(&format!(
                "{top}value = \"40\"\n[[outing.figure]]\n{top}value = \"300\"\n"
            )),
            "line 18, column 10",
            "134",
        ),
        (
            figure("what = \"top\"\nvalue = \"4\"\nread = \"display\"\n"),
            "line 12, column 9",
            "“top”",
        ),
    ]);
}

#[test]
fn law_a_log_that_cannot_be_is_refused_at_its_line() {
    let bad = "ab".repeat(32);
    check([
        (
            log_of("").replace(&bad, "abc"),
            "line 12, column 10",
            "digits",
        ),
        (
            log_of("").replace("\"gpx\"", "\"tape\""),
            "line 15, column 10",
            "gpx, nmea, csv, n2k",
        ),
        (
            log_of("zero = \"yesterday\"\n"),
            "line 18, column 8",
            "“yesterday”",
        ),
        (
            log_of("zero = \"2026-05-09T12:30:00.0005Z\"\n"),
            "line 18, column 8",
            "millisecond",
        ),
        (
            log_of("").replace("200, 400", "200, 200"),
            "line 19, column 11",
            "does not rise",
        ),
        (
            log_of("").replace("10_200, ", ""),
            "line 22, column 11",
            "Stretch 2",
        ),
        (log_of("").replace("500, 900", "500, -1"), "line 20", "u32"),
        (
            log_of("").replacen(
                "[0, 500, 900]\n",
                "[0, 500, 900]\nengine_rpm = [1, -2, 3]\n",
                1,
            ),
            "line 21, column 18",
            "-1 where there is none",
        ),
        (log_of("runs = [[\"0:00\"]]\n"), "line 18", "length"),
        (
            log_of("runs = [[\"0:00\", \"soon\"]]\n"),
            "line 18, column 19",
            "“soon”",
        ),
        (
            log_of("runs = [[\"0:10\", \"0:10.4\"], [\"0:00\", \"0:10\"]]\n"),
            "line 18, column 30",
            "unbroken stretch",
        ),
        (
            log_of("runs = [[\"0.1\", \"0.4\"], [\"0\", \"0.2\"]]\n"),
            "line 18, column 10",
            "share the time",
        ),
    ]);
    let two = log_of("");
    let two = format!("{two}{}", two.replace("\"lake\"", "\"sea\""));
    let said = refused(&two);
    assert!(said.contains("belongs to one outing"), "{said}");
}

#[test]
fn law_long_columns_are_broken_into_lines() {
    let time_ms: Vec<i64> = (0..3000).map(|n| n * 100).collect();
    let log = Logged {
        name: "long.csv".to_owned(),
        bytes: 1,
        format: Format::Csv,
        speed_from: String::new(),
        read: 3000,
        thinned: false,
        layout: None,
        unit_ratio: None,
        rejected: Vec::new(),
        zero_ms: Some(1_779_000_000_250),
        stretches: vec![Columns {
            speed_mm_s: vec![21_340; 3000],
            course_cdeg: vec![None; 3000],
            engine_rpm: Vec::new(),
            time_ms,
        }],
    };
    let mut trial = outing("before", "before");
    trial.logs.push(LogDraft {
        digest: "c".repeat(64),
        log: Arc::new(log),
        runs: None,
    });
    let draft = JobDraft {
        title: "A".to_owned(),
        trials: vec![trial],
        ..JobDraft::default()
    };
    let text = write(&id(), &draft);
    let longest = text.lines().map(str::len).max().unwrap();
    assert!((70..=80).contains(&longest), "{longest}");
    assert!(
        text.contains("zero = \"2026-05-17T06:40:00.25Z\"\n"),
        "{text}"
    );
    assert!(text.contains("course_cdeg = [\n  -1, -1,"), "{text}");
    assert!(!text.contains("engine_rpm"), "{text}");
    let again = parse("job.toml", &text).unwrap();
    assert_eq!(again.draft, draft);
}

#[test]
fn law_the_longest_log_fits_a_file() {
    let many = 60_000;
    let log = Logged {
        name: "long.csv".to_owned(),
        bytes: 9_000_000,
        format: Format::Csv,
        speed_from: "receiver".to_owned(),
        read: 60_000,
        thinned: true,
        layout: None,
        unit_ratio: Some(1.0),
        rejected: rejected(),
        zero_ms: None,
        stretches: vec![Columns {
            time_ms: (0..60_000).map(|n| n * 200).collect(),
            speed_mm_s: vec![21_340; many],
            course_cdeg: vec![Some(35_999); many],
            engine_rpm: vec![Some(10_000); many],
        }],
    };
    let mut draft = JobDraft {
        title: "A".to_owned(),
        ..JobDraft::default()
    };
    for (key, digit) in ["one", "two", "three", "four", "five", "six"]
        .iter()
        .zip('1'..)
    {
        let mut trial = outing(key, "before");
        trial.logs.push(LogDraft {
            digest: digit.to_string().repeat(64),
            log: Arc::new(log.clone()),
            runs: None,
        });
        draft.trials.push(trial);
    }
    let bytes = u64::try_from(write(&id(), &draft).len()).unwrap();
    assert!(bytes < jobfile::LARGEST, "{bytes}");
}

/// What the file leaves unsaid of a job stays, and what it says anew is heard.
#[test]
fn law_a_file_that_says_otherwise_is_heard() {
    let first = of(&log_of("")).unwrap();
    let new = first.entries(&id(), &[], &by()).unwrap();
    assert_eq!(new.len(), 3);
    let mut there = stored(&new, 0);
    assert_eq!(first.entries(&id(), &there, &by()).unwrap(), Vec::new());
    let runs = of(&log_of("runs = [[\"0:10\", \"0:10.4\"]]\n")).unwrap();
    let new = runs.entries(&id(), &there, &by()).unwrap();
    assert_eq!(new.len(), 1);
    there.extend(stored(&new, 3));
    assert_eq!(runs.entries(&id(), &there, &by()).unwrap(), Vec::new());
    // Without runs the file says nothing of them.
    assert_eq!(first.entries(&id(), &there, &by()).unwrap(), Vec::new());
    let figures = "[[outing.figure]]\nwhat = \"start\"\nvalue = \"3\"\nread = \"video\"\n";
    let renamed = OUTING.replace("Lake", "The lake") + figures;
    let new = of(&renamed).unwrap().entries(&id(), &there, &by()).unwrap();
    assert_eq!(new.len(), 2);
    there.extend(stored(&new, 4));
    let job = fold(&there).0;
    assert_eq!(job.trials.outings.len(), 1);
    assert_eq!(job.trials.logs.len(), 1);
    assert!(write(&id(), &JobDraft::of(&job)).contains("The lake"));
}

#[test]
fn law_a_card_holds_no_water_tests() {
    let head = "format = \"pumpwright card\"\nversion = 1\n[card]\ntitle = \"A\"\n";
    let said = parse("card.toml", &format!("{head}{OUTING}")).unwrap_err();
    let said = said.to_string();
    assert!(
        said.contains("line 6") && said.contains("no water tests"),
        "{said}"
    );
}
