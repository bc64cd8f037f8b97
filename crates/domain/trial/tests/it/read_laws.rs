//! Laws over drawn files.

use proptest::prelude::*;
use trial::read::{Options, Reading, read};
use trial::{Log, Sample};

use crate::logs::{samples, text};
use crate::read_gpx::{gpx, point};
use crate::read_nmea::{rmc, sentence};

fn sound(log: &Log) {
    assert!(!log.stretches.is_empty());
    for stretch in &log.stretches {
        assert!(!stretch.is_empty());
        for two in stretch.windows(2) {
            assert!(two[0].time < two[1].time);
        }
        for s in stretch {
            assert!(
                s.time.is_finite() && s.speed.is_finite() && s.speed >= 0.0,
                "{s:?}"
            );
            assert!(s.course.is_none_or(f64::is_finite) && s.engine.is_none_or(f64::is_finite));
        }
    }
}

/// Whatever it is, it is read or refused; a log that comes out is sound.
fn swallow(bytes: &[u8]) {
    match read(bytes, &Options::default()) {
        Ok(reading) => sound(&reading.log),
        Err(refused) => assert!(!refused.to_string().is_empty()),
    }
}

fn logs() -> impl Strategy<Value = String> {
    prop_oneof![
        prop::collection::vec(0.0..40.0_f64, 1..40).prop_map(|v| rmc(&v)),
        prop::collection::vec(0.0..40.0_f64, 1..40).prop_map(|v| {
            let at = |(s, v): (usize, &f64)| {
                point(
                    &format!("2026-06-15T12:{:02}:{:02}Z", s / 60, s % 60),
                    &format!("<speed>{v:.2}</speed>"),
                )
            };
            gpx(&v.iter().enumerate().map(at).collect::<String>())
        }),
        prop::collection::vec(0.0..40.0_f64, 1..40).prop_map(|v| {
            let row = |(s, v): (usize, &f64)| format!("{s};{v:.2};{:.0}\n", 200.0 * v);
            format!(
                "time s;speed kn;rpm\n{}",
                v.iter().enumerate().map(row).collect::<String>()
            )
        }),
    ]
}

/// What logs are written in.
fn letters() -> impl Strategy<Value = String> {
    let all: Vec<char> = "$!,;.*<>/=\" \n\t-+0123456789TZ:GPRMCtimespd°&#[]"
        .chars()
        .collect();
    prop::collection::vec(prop::sample::select(all), 0..300).prop_map(String::from_iter)
}

/// Whether `short` is where `long` begins, as far as samples go.
fn begins(short: &[Sample], long: &[Sample]) -> bool {
    short.len() <= long.len() && short == &long[..short.len()]
}

proptest! {
    #[test]
    fn law_any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..600)) {
        swallow(&bytes);
    }

    #[test]
    fn law_any_text_is_read_or_refused(text in letters()) {
        swallow(text.as_bytes());
        swallow(format!("<gpx><trk><trkpt lat=\"1\" lon=\"{text}").as_bytes());
        swallow(format!("$GPRMC,{text}\n$GPRMC,{text}").as_bytes());
        swallow(format!("time,speed\n1,2\n{text}").as_bytes());
    }

    #[test]
    fn law_a_spoilt_log_is_read_or_refused(log in logs(), at in any::<prop::sample::Index>(), byte in any::<u8>(), many in 0..20_usize) {
        let mut bytes = log.into_bytes();
        let at = at.index(bytes.len());
        let end = bytes.len().min(at + many);
        bytes[at..end].fill(byte);
        swallow(&bytes);
    }

    /// The last sample may still wait for its neighbour, and outliers are judged by the next.
    #[test]
    fn law_a_log_cut_anywhere_is_a_beginning_of_the_log(speeds in prop::collection::vec(10.0..12.0_f64, 3..40), at in any::<prop::sample::Index>(), gpx_too in any::<bool>()) {
        let log = if gpx_too {
            let at = |(s, v): (usize, &f64)| point(&format!("2026-06-15T12:00:{s:02}Z"), &format!("<speed>{v:.2}</speed>"));
            gpx(&speeds.iter().enumerate().map(at).collect::<String>())
        } else {
            rmc(&speeds)
        };
        let whole = samples(&text(&log).unwrap());
        let cut = &log[..at.index(log.len())];
        if let Ok(reading) = text(cut) {
            prop_assert!(begins(&samples(&reading), &whole));
            sound(&reading.log);
        }
    }

    #[test]
    fn law_the_order_of_lines_within_an_instant_does_not_matter(speeds in prop::collection::vec(10.0..12.0_f64, 2..30), order in Just([0_usize, 1, 2, 3]).prop_shuffle()) {
        let log = |order: [usize; 4]| -> String {
            let lines = |(s, v): (usize, &f64)| -> String {
                let four = [
                    format!("GPRMC,1200{s:02}.00,A,4500.0,N,09300.0,W,{v:.3},90.0,150626,,,A"),
                    format!("GPGGA,1200{s:02}.00,4500.0,N,09300.0,W,1,{},0.9,1,M,1,M,,", 4 + s % 5),
                    format!("GPZDA,1200{s:02}.00,15,06,2026,00,00"),
                    format!("GPVTG,90.0,T,,M,{v:.3},N,,K,A"),
                ];
                order.iter().map(|&at| sentence(&four[at])).collect()
            };
            speeds.iter().enumerate().map(lines).collect()
        };
        let facts = |r: Reading| (r.log, r.fixes, r.step, r.speed_from);
        let straight = facts(text(&log([0, 1, 2, 3])).unwrap());
        prop_assert_eq!(facts(text(&log(order)).unwrap()), straight);
    }
}
