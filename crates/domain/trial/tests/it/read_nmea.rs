//! NMEA 0183: forms and check values of the gpsd project's description, and real logs.
#![expect(clippy::format_collect, reason = "made-up logs of a few lines")]

use crate::logs::{count, real, rejected, samples, text};
use trial::read::{Kind, Options, SpeedFrom, Why, read};

const KNOT: f64 = 1852.0 / 3600.0;

fn close(ours: f64, theirs: f64) {
    assert!(
        (ours - theirs).abs() <= 4.0 * f64::EPSILON * theirs.abs(),
        "{ours} against {theirs}"
    );
}

pub(crate) fn sentence(body: &str) -> String {
    let sum = body.bytes().fold(0, |sum, c| sum ^ c);
    format!("${body}*{sum:02X}\r\n")
}

/// A log of RMC alone, speed in knots, a second apart.
pub(crate) fn rmc(speeds: &[f64]) -> String {
    let line = |(at, speed): (usize, &f64)| {
        let (h, m, s) = (12 + at / 3600, at / 60 % 60, at % 60);
        sentence(&format!(
            "GPRMC,{h:02}{m:02}{s:02}.00,A,,,,,{speed:.3},090.0,150626,,,A"
        ))
    };
    speeds.iter().enumerate().map(line).collect()
}

/// The first two from gpsd's description of NMEA, the others reckoned by hand.
#[test]
fn published_checksums() {
    for (body, sum) in [
        (
            "GNRMC,001031.00,A,4404.13993,N,12118.86023,W,0.146,,100117,,,A",
            "7B",
        ),
        ("GPVTG,220.86,T,,M,2.550,N,4.724,K,A", "34"),
        ("INRPM,E,1,7450,,A", "57"),
        ("IIRPM,E,1,7812.5,,A", "41"),
        (
            "GPRMC,151233.20,A,4500.0000,N,09300.0000,W,52.139,090.0,150626,,,D",
            "74",
        ),
    ] {
        let log = rmc(&[1.0, 2.0]);
        let reading = text(&format!("{log}${body}*{sum}\n")).unwrap();
        assert_eq!(rejected(&reading, Why::Checksum), 0, "{body}");
        let wrong = u8::from_str_radix(sum, 16).unwrap() ^ 1;
        let reading = text(&format!("{log}${body}*{wrong:02x}\n")).unwrap();
        assert_eq!(rejected(&reading, Why::Checksum), 1, "{body}");
        assert_eq!(reading.rejected[0].line, 3);
    }
}

#[test]
fn computed_speed_and_time_of_a_sentence() {
    let log = "$GPRMC,151233.20,A,4500.0000,N,09300.0000,W,52.139,090.0,150626,,,D*74\n";
    let reading = text(log).unwrap();
    let all = samples(&reading);
    assert_eq!(all.len(), 1);
    close(all[0].speed, 52.139 * KNOT);
    assert!((all[0].speed - 26.822_618_9).abs() < 5e-8);
    close(all[0].course.unwrap(), std::f64::consts::FRAC_PI_2);
    // 2026-06-15T15:12:33.2Z by GNU date.
    close(reading.log.zero.unwrap(), 1_781_536_353.2);
    assert_eq!(reading.kind, Kind::Nmea);
    assert_eq!(reading.speed_from, SpeedFrom::Receiver("GPRMC".to_owned()));
}

#[test]
fn computed_a_river_log_whose_clock_steps_back() {
    let Some(reading) = real("powerboat_river_time_backwards.nmea") else {
        return;
    };
    let reading = reading.unwrap();
    assert_eq!(reading.counts.iter().map(|(_, n)| n).sum::<u64>(), 98);
    assert_eq!(count(&reading, "INRMC"), 17);
    assert_eq!(rejected(&reading, Why::Checksum), 0);
    assert_eq!((reading.fixes, reading.clock_back), (17, 1));
    assert_eq!(reading.log.stretches.len(), 2);
    let steps: Vec<f64> = samples(&reading)
        .windows(2)
        .map(|two| two[1].time - two[0].time)
        .collect();
    assert_eq!(
        steps.iter().filter(|s| (**s - 2.0).abs() < 1e-9).count(),
        15
    );
    assert_eq!(
        steps.iter().filter(|s| (**s + 12.0).abs() < 1e-9).count(),
        1
    );
    let most = samples(&reading)
        .iter()
        .map(|s| s.speed)
        .fold(0.0, f64::max);
    close(most, 5.3 * KNOT);
}

#[test]
fn computed_a_chartplotter_log() {
    let Some(reading) = real("boat_chartplotter_mixed.nmea") else {
        return;
    };
    let reading = reading.unwrap();
    assert_eq!(reading.counts.iter().map(|(_, n)| n).sum::<u64>(), 3230);
    for (name, expected) in [
        ("GPRMC", 146),
        ("GPVTG", 148),
        ("GPGGA", 138),
        ("SDVHW", 150),
        ("GPZDA", 154),
    ] {
        assert_eq!(count(&reading, name), expected, "{name}");
    }
    assert_eq!(rejected(&reading, Why::Checksum), 0);
    assert_eq!(rejected(&reading, Why::Duplicate), 1);
    assert_eq!(reading.fixes, 145);
    let steps: Vec<f64> = samples(&reading)
        .windows(2)
        .map(|two| two[1].time - two[0].time)
        .collect();
    assert_eq!(
        steps.iter().filter(|s| (**s - 1.0).abs() < 1e-9).count(),
        142
    );
    assert_eq!(steps.iter().filter(|s| (**s - 2.0).abs() < 1e-9).count(), 2);
    let most = samples(&reading)
        .iter()
        .map(|s| s.speed)
        .fold(0.0, f64::max);
    close(most, 6.7 * KNOT);
    assert!((reading.unit_check.unwrap() - 1.0).abs() < 0.03);
}

#[test]
fn computed_a_fast_log_with_dropouts() {
    let Some(reading) = real("fast_to_stop_with_dropouts_1hz.nmea") else {
        return;
    };
    let reading = reading.unwrap();
    assert_eq!(reading.counts.iter().map(|(_, n)| n).sum::<u64>(), 3921);
    assert_eq!(count(&reading, "GPRMC"), 1307);
    assert_eq!(rejected(&reading, Why::NoFix), 314);
    let poor = rejected(&reading, Why::PoorFix) + rejected(&reading, Why::Outlier);
    assert_eq!(reading.fixes + poor, 993);
    let most = samples(&reading)
        .iter()
        .map(|s| s.speed)
        .fold(0.0, f64::max);
    close(most, 152.6 * KNOT);
    // An empty speed is not zero, and a break is not bridged.
    let long = |stretch: &Vec<trial::Sample>| {
        stretch
            .windows(2)
            .any(|two| two[1].time - two[0].time > 2.5)
    };
    assert!(!reading.log.stretches.iter().any(long));
}

#[test]
fn computed_a_log_of_vtg_and_zda_alone() {
    let Some(reading) = real("boat_sog_vs_water_speed.nmea") else {
        return;
    };
    let reading = reading.unwrap();
    assert_eq!(reading.counts.iter().map(|(_, n)| n).sum::<u64>(), 14_399);
    let all = samples(&reading);
    assert_eq!(count(&reading, "GPZDA"), 3600);
    assert_eq!(reading.log.zero, None);
    let mean = all.iter().map(|s| s.speed / KNOT).sum::<f64>() / 3600.0;
    assert_eq!(all.len(), 3600);
    assert!((mean - 4.128_025).abs() < 5e-7, "{mean}");
}

fn three(bodies: &[&str]) -> Vec<trial::Sample> {
    let log: String = bodies.iter().map(|b| sentence(b)).collect();
    samples(&text(&log).unwrap())
}

#[test]
fn law_both_forms_of_vtg_and_all_of_zda() {
    let all = three(&[
        "GPZDA,120000.00,15,06,2026,00,00",
        "GPVTG,090.0,T,,M,10.0,N,18.5,K,A",
        "GPZDA,120001.00,15,06,2026,00,00",
        "GPVTG,090.0,087.0,10.5,19.4",
        "GPZDA,120002.00,15,06,2026,00,00",
        "GPVTG,,T,,M,,N,,K,N",
    ]);
    let speeds: Vec<f64> = all.iter().map(|s| s.speed).collect();
    assert_eq!(speeds.len(), 2);
    close(speeds[0], 10.0 * KNOT);
    close(speeds[1], 10.5 * KNOT);
    close(all[1].course.unwrap(), std::f64::consts::FRAC_PI_2);
}

#[test]
fn law_engine_speed_is_of_the_instant_read_last_and_of_one_engine() {
    let log: String = [
        "GPRMC,120000.00,A,,,,,10,90,150626,,,A",
        "IIRPM,E,1,7812.5,,A",
        "IIRPM,E,2,100,,A",
        "GPRMC,120001.00,A,,,,,10,90,150626,,,A",
        "IIRPM,E,1,7000,,V",
        "GPRMC,120002.00,A,,,,,10,90,150626,,,A",
    ]
    .iter()
    .map(|b| sentence(b))
    .collect();
    let reading = text(&log).unwrap();
    let engines: Vec<Option<f64>> = samples(&reading).iter().map(|s| s.engine).collect();
    close(engines[0].unwrap(), 7812.5 * std::f64::consts::TAU / 60.0);
    assert_eq!(engines[1..], [None, None]);
    assert_eq!(rejected(&reading, Why::OtherEngine), 1);
}

#[test]
fn law_midnight_is_crossed_with_a_date_or_without() {
    let dated = three(&[
        "GPRMC,235959.00,A,,,,,10,90,311226,,,A",
        "GPRMC,000000.00,A,,,,,10,90,010127,,,A",
        "GPGGA,235959.00,,,,,1,9,0.9,,,,,,",
        "GPRMC,000001.00,A,,,,,10,90,010127,,,A",
    ]);
    let undated = three(&[
        "GPRMC,235959.00,A,,,,,10,90,,,,A",
        "GPRMC,000000.00,A,,,,,10,90,,,,A",
        "GPRMC,000001.00,A,,,,,10,90,,,,A",
    ]);
    for all in [dated, undated] {
        let times: Vec<f64> = all.iter().map(|s| s.time).collect();
        assert_eq!(times, [0.0, 1.0, 2.0]);
    }
}

#[test]
fn law_what_a_logger_puts_before_a_sentence_does_not_matter() {
    let plain = rmc(&[10.0, 10.5, 11.0]);
    let expected = text(&plain).unwrap().log;
    for before in [
        "2026-06-15 12:00:00.123 ",
        "\\s:GP,c:1781524800*5E\\",
        "1781524800;",
        "[$x] ",
    ] {
        let log: String = plain
            .lines()
            .map(|line| format!("{before}{line}\n!AIVDM,1,1,,A,x,0*00\n"))
            .collect();
        let reading = text(&log).unwrap();
        assert_eq!(reading.log, expected, "{before}");
        assert_eq!(reading.rejected, [], "{before}");
    }
}

#[test]
fn law_without_a_checksum_only_when_told_and_counted() {
    let log: String = rmc(&[10.0, 10.5, 11.0])
        .lines()
        .map(|line| format!("{}\n", line.split('*').next().unwrap()))
        .collect();
    let refused = text(&log).unwrap_err().to_string();
    assert!(
        refused.contains("3 × no checksum (first in line 1: “$GPRMC,120000.00"),
        "{refused}"
    );
    let options = Options {
        unsigned: true,
        ..Options::default()
    };
    let reading = read(log.as_bytes(), &options).unwrap();
    assert_eq!(
        (reading.fixes, count(&reading, "without checksum, accepted")),
        (3, 3)
    );
}

/// Two receivers, each with full fixes, so many degrees apart.
fn two(apart: f64) -> String {
    let fix = |s: u32, talker: &str, off: f64| {
        let minutes = 60.0 * off;
        sentence(&format!(
            "{talker}RMC,1200{s:02}.00,A,45{minutes:07.4},N,09300.0000,W,10.0,90.0,150626,,,A"
        ))
    };
    (0..30)
        .map(|s| fix(s, "GP", 0.0) + &fix(s, "II", apart))
        .collect()
}

#[test]
fn law_two_receivers_are_never_mixed_and_two_craft_are_asked_about() {
    let near = text(&two(0.0001)).unwrap();
    assert_eq!(near.speed_from, SpeedFrom::Receiver("GPRMC".to_owned()));
    assert_eq!(
        (near.fixes, near.others),
        (30, vec![("IIRMC".to_owned(), 30)])
    );
    let refused = text(&two(0.01)).unwrap_err();
    let words = refused.to_string();
    assert!(
        words.contains("GP (30 fixes), II (30 fixes); say which to read"),
        "{words}"
    );
    let options = Options {
        talker: Some("II".to_owned()),
        ..Options::default()
    };
    let chosen = read(two(0.01).as_bytes(), &options).unwrap();
    assert_eq!(chosen.speed_from, SpeedFrom::Receiver("IIRMC".to_owned()));
    let options = Options {
        talker: Some("XX".to_owned()),
        ..Options::default()
    };
    let words = read(two(0.01).as_bytes(), &options)
        .unwrap_err()
        .to_string();
    assert!(
        words.contains("there is no receiver XX in this file, only GP, II"),
        "{words}"
    );
}

#[test]
fn law_a_last_line_cut_off_is_counted_as_that() {
    let log = rmc(&[10.0, 10.5, 11.0]);
    let reading = text(&log[..log.len() - 9]).unwrap();
    assert_eq!((reading.fixes, rejected(&reading, Why::CutOff)), (2, 1));
    let long = format!("{log}${}\n{log}", "x".repeat(10_000_000));
    let reading = text(&long).unwrap();
    assert_eq!(rejected(&reading, Why::LongLine), 1);
}

/// 44°04.13993′ N, 121°18.86023′ W, from gpsd's description, against the same place in degrees.
#[test]
fn computed_a_place_in_degrees_and_minutes() {
    let first = "GNRMC,001031.00,A,4404.13993,N,12118.86023,W,0.146,,100117,,,A";
    let fixes: String = (0..30)
        .map(|s| {
            let degrees = 44.068_998_833_3 + f64::from(s) * 10.0 / 111_000.0;
            let minutes = (degrees - 44.0) * 60.0;
            sentence(&format!(
                "GNRMC,0010{s:02}.00,A,44{minutes:08.5},N,12118.86023,W,19.44,0,100117,,,A"
            ))
        })
        .collect();
    let reading = text(&(fixes + &sentence(first))).unwrap();
    // Ten metres a second: 19.44 kn are 10.0008 m/s, and 10/111000° at this latitude 10.011 m.
    let earth = trial::geodesy::Earth::default();
    let at = |d: f64| trial::geodesy::Place::from_degrees(d, -121.314_337_166_7).unwrap();
    let metres = earth
        .geodesic(at(44.069), at(44.069 + 10.0 / 111_000.0))
        .distance;
    let ratio = 19.44 * KNOT / metres;
    assert!((reading.unit_check.unwrap() - ratio).abs() < 1e-4);
}

#[test]
fn law_places_alone_give_speeds() {
    let log: String = (0..20)
        .map(|s| {
            let minutes = f64::from(s) * 0.006;
            sentence(&format!(
                "GPGGA,1200{s:02}.00,45{minutes:07.4},N,09300.0000,W,1,9,0.9,0,M,0,M,,"
            ))
        })
        .collect();
    let reading = text(&log).unwrap();
    assert_eq!(reading.speed_from, SpeedFrom::Positions);
    let all = samples(&reading);
    assert_eq!(all.len(), 20);
    // Five thousandths of a degree of latitude from 45 degrees on are 555.659131 m by geographiclib 2.1.
    assert!(
        all.iter()
            .all(|s| (s.speed - 555.659_131 / 50.0).abs() < 2e-4),
        "{all:?}"
    );
}
