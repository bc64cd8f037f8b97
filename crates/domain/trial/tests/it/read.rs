//! Files that are refused whole, in whose words; and what every kind has in common.

use std::io::{self, BufReader, Read};

use crate::logs::{rejected, samples, text};
use crate::read_gpx::{gpx, point};
use crate::read_nmea::{rmc, sentence};
use quantity::Unit;
use trial::read::{Options, Refused, Why, read};

fn refused(bytes: &[u8]) -> String {
    read(bytes, &Options::default()).unwrap_err().to_string()
}

#[test]
fn law_every_refusal_says_what_and_the_way_out() {
    for (bytes, words) in [
        (&b""[..], "the file is empty: save the log again"),
        (b"  \r\n\t\n", "nothing but white space"),
        (b"PK\x03\x04rest", "a zip archive: unpack it first"),
        (b"\x1f\x8b\x08rest", "compressed with gzip: unpack it first"),
        (b"%PDF-1.7", "a PDF document: export the track"),
        (
            b"\x0e\x10\x5e\x08\x00\x00\x00\x00.FIT\x00\x00",
            "a FIT recording: export the track",
        ),
        (
            b"\xff\xfe<\0g\0p\0x\0",
            "UTF-16: open it in an editor and save it as UTF-8",
        ),
        (b"\0<\0?\0x\0m\0l\0 \0v", "UTF-16"),
        (
            b"\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0abc",
            "begins “bytes that are no text”",
        ),
        (
            b"Dear diary, today we went out.\nIt was wet.\n",
            "no log known here, it begins “Dear diary",
        ),
        (b"<html><body>no</body></html>", "begins “<html"),
        (b"<?xml version=\"1.0\"?>", "no log known here"),
        (
            b"<!DOCTYPE gpx [<!ENTITY a \"b\">]><gpx/>",
            "line 1 declares a document type",
        ),
        (b"<gpx><trk>\n&lol;</trk></gpx>", "line 2 declares"),
        (b"<gpx></gpx>", "0 single places and no track"),
    ] {
        let refused = refused(bytes);
        assert!(refused.contains(words), "{refused}");
    }
    let deep = format!("<gpx>{}", "<a>".repeat(100_000));
    assert!(refused(deep.as_bytes()).contains("nested more than 64 deep"));
}

/// Each of ten names ten of the one below: a thousand million laughs, none of them read.
#[test]
fn law_a_bomb_of_entities_is_refused_at_its_first_line() {
    let mut bomb = "<?xml version=\"1.0\"?>\n<!DOCTYPE gpx [\n<!ENTITY a0 \"ha\">\n".to_owned();
    for level in 1..10 {
        let row = format!("&a{};", level - 1).repeat(10);
        bomb += &["<!ENTITY a", &level.to_string(), " \"", &row, "\">\n"].concat();
    }
    bomb.push_str("]>\n<gpx><name>&a9;</name></gpx>");
    assert!(matches!(text(&bomb).unwrap_err(), Refused::Entities { .. }));
}

struct Broken;

impl Read for Broken {
    fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
        Err(io::Error::other("the card was pulled"))
    }
}

#[test]
fn law_a_file_that_stops_being_readable_is_refused() {
    for start in [
        rmc(&vec![1.0; 3000]),
        gpx(&point("2026-06-15T12:00:00Z", "").repeat(2000)),
    ] {
        let log = BufReader::new(start.as_bytes().chain(Broken));
        let refused = read(log, &Options::default()).unwrap_err().to_string();
        assert!(refused.contains("the card was pulled"), "{refused}");
    }
}

#[test]
fn law_a_spike_is_set_aside_and_a_lasting_change_breaks_the_log() {
    let mut speeds = vec![20.0; 30];
    speeds[10] = 90.0;
    let reading = text(&rmc(&speeds)).unwrap();
    assert_eq!(rejected(&reading, Why::Outlier), 1);
    let set_aside = reading.rejected.iter().find(|r| r.why == Why::Outlier);
    assert_eq!(set_aside.unwrap().line, 11);
    assert_eq!((reading.fixes, reading.log.stretches.len()), (29, 1));
    let mut speeds = vec![20.0; 30];
    speeds[15..].fill(90.0);
    let reading = text(&rmc(&speeds)).unwrap();
    assert_eq!((reading.fixes, reading.log.stretches.len()), (30, 2));
    assert_eq!(rejected(&reading, Why::Outlier), 0);
}

#[test]
fn law_a_step_over_two_and_a_half_medians_breaks_the_log() {
    let rows = |times: &[f64]| {
        let row = |t: &f64| format!("{t:.1};10.0\n");
        format!(
            "time (s);speed (m/s)\n{}",
            times.iter().map(row).collect::<String>()
        )
    };
    let reading = text(&rows(&[0.0, 1.0, 2.0, 3.0, 5.5, 6.5])).unwrap();
    assert_eq!((reading.step, reading.log.stretches.len()), (Some(1.0), 1));
    let reading = text(&rows(&[0.0, 1.0, 2.0, 3.0, 5.6, 6.6])).unwrap();
    let lengths: Vec<usize> = reading.log.stretches.iter().map(Vec::len).collect();
    assert_eq!(lengths, [4, 2]);
}

/// A craft due north at a steady speed, with its receiver's speeds in some unit.
fn north(speed: f64, factor: f64) -> String {
    let points = (0..60).map(|at| {
        let latitude = 45.0 + f64::from(at) * speed / 111_131.75;
        format!(
            "<trkpt lat=\"{latitude:.8}\" lon=\"-93\"><time>2026-06-15T12:00:{at:02}Z</time>\
             <speed>{:.4}</speed></trkpt>",
            speed * factor
        )
    });
    gpx(&points.collect::<String>())
}

#[test]
fn law_a_unit_that_positions_contradict_is_asked_for() {
    let right = text(&north(15.0, 1.0)).unwrap();
    assert!((right.unit_check.unwrap() - 1.0).abs() < 1e-3);
    for (factor, unit) in [
        (3.6, Unit::KilometrePerHour),
        (3600.0 / 1852.0, Unit::Knot),
        (1.0 / 0.447_04, Unit::MilePerHour),
        (1.0 / 0.3048, Unit::FootPerSecond),
    ] {
        let log = north(15.0, factor);
        let refused = text(&log).unwrap_err();
        let Refused::Unit {
            stated,
            ratio,
            likely,
        } = &refused
        else {
            panic!("{refused}");
        };
        assert_eq!((*stated, *likely), (Unit::MetrePerSecond, Some(unit)));
        assert!((ratio / factor - 1.0).abs() < 1e-3, "{ratio}");
        let said = Options {
            speed_unit: Some(unit),
            ..Options::default()
        };
        let reading = read(log.as_bytes(), &said).unwrap();
        assert!(
            samples(&reading)
                .iter()
                .all(|s| (s.speed - 15.0).abs() < 1e-3)
        );
    }
    assert!(matches!(
        text(&north(15.0, 1.6)).unwrap_err(),
        Refused::Unit { likely: None, .. }
    ));
}

#[test]
fn law_without_speeds_positions_give_speed_and_course() {
    let log = north(15.0, 1.0);
    let bare: String = log
        .split("<speed>")
        .map(|piece| piece.split_once("</speed>").map_or(piece, |(_, rest)| rest))
        .collect();
    let reading = text(&bare).unwrap();
    assert_eq!(reading.speed_from, trial::read::SpeedFrom::Positions);
    let all = samples(&reading);
    assert_eq!((all.len(), reading.unit_check), (60, None));
    for sample in all {
        assert!((sample.speed - 15.0).abs() < 0.01, "{}", sample.speed);
        let course = sample.course.unwrap();
        assert!(course.min(std::f64::consts::TAU - course) < 1e-6);
    }
}

#[test]
fn law_old_dates_are_noticed_and_moved_when_told() {
    // 1024 weeks before 2026-06-15.
    let log: String = rmc(&[10.0; 5])
        .replace("150626", "301006")
        .lines()
        .map(|line| sentence(line[1..].split('*').next().unwrap()))
        .collect();
    let now = Some(1_781_600_000.0);
    let options = Options {
        now,
        ..Options::default()
    };
    let reading = read(log.as_bytes(), &options).unwrap();
    assert_eq!(reading.weeks_behind, 1024);
    let moved = Options {
        weeks: reading.weeks_behind,
        ..options
    };
    let moved = read(log.as_bytes(), &moved).unwrap();
    assert_eq!(moved.weeks_behind, 0);
    // 2026-06-15T12:00:00Z by GNU date.
    assert!((moved.log.zero.unwrap() - 1_781_524_800.0).abs() < 1e-6);
}
