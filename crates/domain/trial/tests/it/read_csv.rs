//! Tables in the hands people write them, and what they are asked.
#![expect(clippy::format_collect, reason = "made-up logs of a few lines")]

use crate::logs::{real, rejected, samples, text};
use quantity::Unit;
use trial::read::{
    Kind, Mapping, Missing, Options, Reading, Refused, SpeedFrom, TimeForm, Why, read,
};

/// The numbers were counted by a script of its own over the saved file.
#[test]
fn computed_a_receiver_at_rest() {
    let Some(reading) = real("rest_jitter_1hz.csv") else {
        return;
    };
    let reading = reading.unwrap();
    assert_eq!(reading.kind, Kind::Table);
    assert_eq!(reading.counts, [("rows".to_owned(), 1201)]);
    assert_eq!(
        reading.speed_from,
        SpeedFrom::Receiver("column 4, sog_kn".to_owned())
    );
    // Eight rows have four satellites.
    assert_eq!(rejected(&reading, Why::PoorFix), 8);
    assert_eq!(reading.fixes, 1193);
    let knot = 1852.0 / 3600.0;
    let most = samples(&reading)
        .iter()
        .map(|s| s.speed)
        .fold(0.0, f64::max);
    assert!((most - 3.36 * knot).abs() < 1e-12, "{most}");
}

fn facts(reading: &Reading) -> Vec<(f64, f64, Option<f64>)> {
    let rpm = std::f64::consts::TAU / 60.0;
    let round = |x: f64| (x * 1e9).round() / 1e9;
    samples(reading)
        .iter()
        .map(|s| {
            (
                round(s.time),
                round(s.speed),
                s.engine.map(|n| round(n / rpm)),
            )
        })
        .collect()
}

#[test]
fn law_one_log_however_it_is_written() {
    let expected = vec![
        (0.0, 10.0, Some(1234.5)),
        (0.5, 10.5, None),
        (1.0, 11.0, Some(7000.0)),
    ];
    for log in [
        "time_s,speed_m/s,rpm\n0.0,10,1234.5\n0.5,10.5,\n1.0,11,7000\n",
        "time (ms),GPS Speed [m/s],Engine RPM\n5000,10,1234.5\n5500,10.5,\n6000,11,7000\n",
        "\u{feff}Time [s];Speed [km/h];Engine speed [rpm]\r\n0,0;36,0;1.234,5\r\n0,5;37,8;\r\n1,0;39,6;7.000\r\n",
        "# recorder of our own\n\nt\tv m/s\trpm\n0.0\t10\t1234.5\n0.5\t10.5\t\n1.0\t11\t7000\n",
        "timestamp,sog_mps,rpm\n2026-06-15T12:00:00Z,10,1234.5\n2026-06-15T12:00:00.5Z,10.5,\n2026-06-15 12:00:01Z,11,7000\n",
        "utc;speed_ms;rpm\n23:59:59,5;10;1 234,5\n00:00:00,0;10,5;\n00:00:00,5;11;7 000\n",
        "time,speed m_s,rpm\n1781524800.0,10,\"1,234.5\"\n1781524800.5,10.5,\n1781524801.0,11,\"7,000\"\n",
        "date,time,speed m/s,rpm\n2026/06/15,23:59:59.5,10,1234.5\n2026/06/16,00:00:00.0,10.5,\n2026/06/16,00:00:00.5,11,7000\n",
        "time,speed,rpm\ns,m/s,rpm\n0.0,10,1234.5\n0.5,10.5,nan\n1.0,11,7000\n",
        "rpm,water speed kn,speed m/s,elapsed s\n1234.5,9,10,0.0\n,9,10.5,0.5\n7000,9,11,1.0\n",
    ] {
        let reading = text(log).unwrap_or_else(|refused| panic!("{log}{refused}"));
        assert_eq!(facts(&reading), expected, "{log}");
        assert_eq!(reading.rejected, [], "{log}");
    }
}

#[test]
fn law_units_of_speed_in_a_heading_are_those_of_the_house() {
    for (heading, size) in [
        ("speed kn", 1852.0 / 3600.0),
        ("speed_kts", 1852.0 / 3600.0),
        ("Speed (mph)", 0.447_04),
        ("speed,km/h".split(',').next_back().unwrap(), 1.0 / 3.6),
        ("sog kph", 1.0 / 3.6),
        ("v ft/s", 0.3048),
    ] {
        let heading = if heading == "km/h" {
            "speed km/h"
        } else {
            heading
        };
        let reading = text(&format!("time_s,{heading}\n0.0,10\n0.5,10\n")).unwrap();
        let speed = samples(&reading)[0].speed;
        assert!((speed - 10.0 * size).abs() < 1e-14, "{heading}: {speed}");
    }
}

fn asked(log: &str) -> (Mapping, Vec<Missing>) {
    match text(log) {
        Err(Refused::Ask { guess, missing, .. }) => (*guess, missing),
        other => panic!("{log}{other:?}"),
    }
}

#[test]
fn law_what_a_table_does_not_say_is_asked_and_the_answer_counts() {
    let log = "time_s,speed,rpm\n0.0,10,100\n0.5,20,200\n";
    let (guess, missing) = asked(log);
    assert_eq!(missing, [Missing::SpeedUnit]);
    let words = text(log).unwrap_err().to_string();
    assert_eq!(
        words,
        "the table does not say everything: say which unit the speed is in"
    );
    let mapping = Mapping {
        speed_unit: Some(Unit::MilePerHour),
        ..guess
    };
    let options = Options {
        mapping: Some(mapping),
        ..Options::default()
    };
    let reading = read(log.as_bytes(), &options).unwrap();
    assert!((samples(&reading)[1].speed - 20.0 * 0.447_04).abs() < 1e-14);

    let log = "time,speed kn\n0,10\n1,10\n2,10\n";
    let (guess, missing) = asked(log);
    assert_eq!(missing, [Missing::TimeForm]);
    let mapping = Mapping {
        time_form: Some(TimeForm::Milliseconds),
        ..guess
    };
    let options = Options {
        mapping: Some(mapping),
        ..Options::default()
    };
    let reading = read(log.as_bytes(), &options).unwrap();
    assert_eq!(reading.step, Some(0.001));

    assert_eq!(
        asked("a,b\n1.5,2\n2.5,3\n").1,
        [Missing::Time, Missing::Speed]
    );
    assert_eq!(
        asked("time_s;speed_kn;rpm\n1;12;3,456\n2;13;3,456\n").1,
        [Missing::DecimalMark]
    );
}

#[test]
fn law_a_mapping_that_does_not_fit_the_table_is_refused() {
    let (guess, _) = asked("time_s,speed\n0.0,10\n0.5,20\n");
    let mapping = Mapping {
        speed: Some(7),
        speed_unit: Some(Unit::Knot),
        ..guess
    };
    let options = Options {
        mapping: Some(mapping),
        ..Options::default()
    };
    let refused = read(&b"time_s,speed\n0.0,10\n"[..], &options).unwrap_err();
    assert_eq!(
        refused,
        Refused::NoColumn {
            column: 8,
            columns: 2
        }
    );
}

#[test]
fn law_dirt_in_rows_is_counted() {
    let log = "time_s,speed_kn,hdop,nsat\n0,10,1,9\n1,,1,9\n2,x,1,9\n3,-4,1,9\n,10,1,9\nsoon,10,1,9\n\
               4,10,9,9\n5,10,1,3\n6,10\n7,1e400,1,9\n8,10,1,9\n9,10,1,9\n10,10,1,9\n";
    let reading = text(log).unwrap();
    for (why, count) in [
        (Why::NoSpeed, 1),
        (Why::BadNumber, 3),
        (Why::NoTime, 1),
        (Why::BadTime, 1),
        (Why::PoorFix, 2),
    ] {
        assert_eq!(rejected(&reading, why), count, "{why}");
    }
    assert_eq!(reading.fixes, 5);
    let bad = reading
        .rejected
        .iter()
        .find(|r| r.why == Why::BadNumber)
        .unwrap();
    assert_eq!((bad.line, bad.example.as_str()), (4, "2,x,1,9"));
}

#[test]
fn law_a_quote_that_never_closes_costs_one_piece_and_no_more() {
    let rows: String = (3..100_000).map(|t| format!("{t},10\n")).collect();
    let log = format!("time_s,speed_kn\n0,10\n1,10\n2,\"10\n{rows}");
    let reading = text(&log).unwrap();
    assert_eq!(rejected(&reading, Why::LongLine), 1);
    assert_eq!(reading.rejected.len(), 1);
    // A piece is 64 KiB, some eight thousand of these rows; the rest is read, and nothing of it amiss.
    assert!(
        (90_000..93_000).contains(&reading.fixes),
        "{}",
        reading.fixes
    );
    let all = samples(&reading);
    assert!(
        all.iter()
            .all(|s| s.time.fract() == 0.0 && s.time < 100_000.0)
    );
    assert_eq!(reading.log.stretches.len(), 2);
}

/// Facts counted by a script of its own over the saved files: of two senders the busier one.
#[test]
fn computed_two_network_logs() {
    for (name, sender, fixes, other) in [
        ("n2k_figure8_sog_stw.raw", "sender 52", 1429, Some(1281)),
        ("n2k_speed_changes_sog_stw.raw", "sender 25", 1220, None),
    ] {
        let Some(reading) = real(name) else { continue };
        let reading = reading.unwrap();
        assert_eq!(reading.kind, Kind::Network);
        assert_eq!(reading.speed_from, SpeedFrom::Receiver(sender.to_owned()));
        let set_aside: u64 = [Why::Outlier, Why::Duplicate]
            .iter()
            .map(|w| rejected(&reading, *w))
            .sum();
        assert_eq!(
            reading.fixes + set_aside,
            fixes,
            "{name} {:?}",
            reading.rejected
        );
        let others: Vec<u64> = reading.others.iter().map(|(_, n)| *n).collect();
        assert_eq!(others, Vec::from_iter(other), "{name}");
    }
}

#[test]
fn computed_mean_speed_of_the_figure_of_eight() {
    let Some(reading) = real("n2k_figure8_sog_stw.raw") else {
        return;
    };
    let all = samples(&reading.unwrap());
    #[expect(clippy::cast_precision_loss, reason = "a small count")]
    let mean = all.iter().map(|s| s.speed).sum::<f64>() / all.len() as f64;
    assert!((mean - 3.8722).abs() < 5e-5, "{mean}");
}

#[test]
fn law_an_idling_engine_on_the_network() {
    let log = "2026-06-15T12:00:00.0Z,2,127488,0,255,8,00,d4,0c,ff,ff,00,ff,ff\n\
               2026-06-15T12:00:00.1Z,2,129026,1,255,8,ff,fc,00,00,f4,01,ff,ff\n\
               2026-06-15T12:00:00.2Z,2,127488,0,255,8,01,d4,0c,ff,ff,00,ff,ff\n\
               2026-06-15T12:00:00.3Z,2,129026,1,255,8,ff,fd,00,00,ff,ff,ff,ff\n\
               2026-06-15T12:00:02.3Z,2,129026,1,255,8,ff,fd,00,00,f4,01,ff,ff\n";
    let reading = text(log).unwrap();
    let all = samples(&reading);
    // 0x0cd4 quarters are 821 turns a minute; 0x01f4 hundredths are 5 m/s.
    let turns = all[0].engine.unwrap() * 60.0 / std::f64::consts::TAU;
    assert!((turns - 821.0).abs() < 1e-9);
    assert!((all[0].speed - 5.0).abs() < 1e-12);
    // The course of the last is magnetic, its engine speed two seconds old.
    assert_eq!(
        (all[0].course, all[1].course, all[1].engine),
        (Some(0.0), None, None)
    );
    assert_eq!(rejected(&reading, Why::OtherEngine), 1);
    assert_eq!(rejected(&reading, Why::NoSpeed), 1);
}
