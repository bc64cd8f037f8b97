//! Water tests as they are stored. All data are invented.

use std::sync::Arc;

use ::store::body::{Encoded, decode, encode};
use quantity::{Entered, Unit, parse};
use workshop::entry::{Body, Key};
use workshop::job::Job;
use workshop::water::{
    Columns, Figure, Format, Logged, Outing, Read, Receiver, Rejected, Shown, Side, Trialling,
    Water, Way, What, Window, evidence,
};

use crate::comes_back;

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn digest(digit: &str) -> Key {
    key(&digit.repeat(64))
}

fn typed(text: &str, bare: Unit) -> Entered {
    parse(text, bare).unwrap()
}

fn outing() -> Outing {
    Outing {
        name: "Before, home lake".into(),
        side: Side::Before,
        unit: Unit::MilePerHour,
        receiver: Some(Receiver::Own),
        water: Some(Water::Fresh),
        water_temperature: Some(typed("64 °F", Unit::Celsius)),
        wind: Some(typed("8 kn", Unit::MetrePerSecond)),
        waves: Some(typed("0,2", Unit::Metre)),
        air_temperature: Some(typed("21", Unit::Celsius)),
        pressure: Some(typed("1008", Unit::Millibar)),
        humidity: Some(60),
        charged: true,
        note: "Two up, half a tank".into(),
    }
}

/// Two stretches, one of them with course and engine speed, and a hole in each.
fn log() -> Logged {
    Logged {
        name: "run1.csv".into(),
        bytes: 4096,
        format: Format::Csv,
        speed_from: "speed of the receiver".into(),
        read: 7,
        thinned: true,
        layout: Some("time s\nheading 1; time 1 seconds; speed 2 mph".to_owned()),
        unit_ratio: Some(1.0 / 3.0),
        rejected: vec![Rejected {
            why: "not a number".into(),
            count: 2,
            line: 14,
            text: "\"--\",\"x\"".into(),
        }],
        zero_ms: Some(1_779_000_000_250),
        stretches: vec![
            Columns {
                time_ms: vec![-200, 0, 200],
                speed_mm_s: vec![0, 21_340, u32::MAX],
                course_cdeg: vec![Some(35_999), None, Some(0)],
                engine_rpm: vec![None, Some(7800), Some(0)],
            },
            Columns {
                time_ms: vec![9000, 9100],
                speed_mm_s: vec![20_100, 20_050],
                ..Columns::default()
            },
        ],
    }
}

fn figures() -> Vec<Figure> {
    let mph = |text| typed(text, Unit::MilePerHour);
    let figure = |what, value, read| Figure { what, value, read };
    let top = |way, text| figure(What::TopSpeed(way), mph(text), Read::Receiver);
    vec![
        top(Way::There, "48.2"),
        top(Way::Back, "77 km/h"),
        figure(What::EngineSpeed, typed("7450", Unit::Rpm), Read::Display),
        figure(
            What::Start { to: mph("30") },
            typed("2.9", Unit::Second),
            Read::Video,
        ),
    ]
}

/// Everything that can be said of a trial but that its result is taken, in an order that makes sense.
pub(crate) fn every_kind() -> Vec<Trialling> {
    let log = Arc::new(log());
    let read = |digit: &str| Trialling::Log {
        outing: key("before"),
        digest: digest(digit),
        log: Arc::clone(&log),
    };
    let windows = vec![Window {
        from_ms: -200,
        until_ms: 200,
    }];
    vec![
        Trialling::Outing {
            key: key("before"),
            outing: outing(),
        },
        read("a"),
        Trialling::Runs {
            digest: digest("a"),
            windows: Some(windows),
        },
        read("b"),
        Trialling::LogPutAway {
            digest: digest("b"),
        },
        Trialling::Figures {
            outing: key("before"),
            figures: figures(),
        },
    ]
}

/// The result as it could be shown now; the numbers are invented, the evidence is the job's.
pub(crate) fn taken(job: &Job) -> Trialling {
    Trialling::Taken(Shown {
        evidence: evidence(job),
        words: "It is as fast as before.".into(),
        after: Some([21.1, 20.9, 0.1 + 0.2]),
        change: Some([-0.1, -0.4, 0.2]),
        program: "a test".into(),
    })
}

fn round(said: Trialling) -> String {
    comes_back(&Body::Trialled(said))
}

#[test]
fn law_what_is_said_of_a_trial_comes_back() {
    for said in every_kind() {
        round(said);
    }
    round(taken(&Job::default()));
    // What nobody said is absent, and an empty column is left out.
    let bare = Outing {
        receiver: None,
        water: None,
        water_temperature: None,
        wind: None,
        waves: None,
        air_temperature: None,
        pressure: None,
        humidity: None,
        charged: false,
        note: String::new(),
        ..outing()
    };
    let key = key("before");
    round(Trialling::Outing { key, outing: bare });
    let mut log = log();
    log.zero_ms = None;
    log.unit_ratio = None;
    log.rejected.clear();
    log.stretches.remove(0);
    let json = round(Trialling::Log {
        outing: self::key("before"),
        digest: digest("c"),
        log: Arc::new(log),
    });
    assert!(!json.contains("course_cdeg") && !json.contains("engine_rpm"));
    round(Trialling::Runs {
        digest: digest("a"),
        windows: None,
    });
    round(Trialling::Runs {
        digest: digest("a"),
        windows: Some(Vec::new()),
    });
}

#[test]
fn law_every_word_of_a_trial_comes_back() {
    for unit in [
        Unit::MilePerHour,
        Unit::KilometrePerHour,
        Unit::Knot,
        Unit::MetrePerSecond,
    ] {
        for side in [Side::Before, Side::After] {
            for receiver in [Receiver::Own, Receiver::Phone, Receiver::Craft] {
                for water in [Water::Fresh, Water::Salt] {
                    let outing = Outing {
                        unit,
                        side,
                        receiver: Some(receiver),
                        water: Some(water),
                        ..outing()
                    };
                    let key = key("before");
                    round(Trialling::Outing { key, outing });
                }
            }
        }
    }
    for format in [Format::Gpx, Format::Nmea, Format::Csv, Format::N2k] {
        let log = Arc::new(Logged { format, ..log() });
        let (outing, digest) = (key("before"), digest("a"));
        round(Trialling::Log {
            outing,
            digest,
            log,
        });
    }
    for way in [Way::There, Way::Back, Way::NotSaid] {
        for read in [Read::Display, Read::Receiver, Read::StopWatch, Read::Video] {
            let figures = vec![Figure {
                what: What::TopSpeed(way),
                value: typed("40", Unit::Knot),
                read,
            }];
            let outing = key("before");
            round(Trialling::Figures { outing, figures });
        }
    }
}

#[test]
fn law_a_trial_with_a_word_that_is_none_is_refused() {
    let of = |said: Trialling| encode(&Body::Trialled(said)).unwrap();
    let kinds: Vec<Encoded> = every_kind().into_iter().map(of).collect();
    for (n, from, to) in [
        (0, "\"before\",\"unit\"", "\"between\",\"unit\""),
        (0, "\"mph\",\"receiver\"", "\"mm\",\"receiver\""),
        (0, "speed_m_s", "length_m"),
        (0, "\"humidity_percent\":60", "\"humidity_percent\":300"),
        (1, "\"csv\"", "\"tape\""),
        (1, "21340", "21340.5"),
        (1, "21340", "-1"),
        (1, "35999", "70000"),
        (1, "time_ms", "time_s"),
        (2, "from_ms", "from"),
        (5, "shaft_speed_rad_s", "speed_m_s"),
        (5, "\"top-speed\"", "\"bottom-speed\""),
        (5, "\"there\"", "\"sideways\""),
    ] {
        let Encoded { kind, json, .. } = &kinds[n];
        assert!(json.contains(from), "{json}: {from}");
        let broken = json.replacen(from, to, 1);
        assert!(decode(kind, 1, &broken).is_err(), "{broken}");
    }
}
