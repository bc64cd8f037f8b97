//! GPX in the forms it is found in.

use crate::logs::{real, rejected, samples, text};
use trial::read::{Kind, Options, Refused, SpeedFrom, Why, read};

pub(crate) fn gpx(points: &str) -> String {
    format!(
        "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\"><trk><trkseg>\n{points}</trkseg></trk></gpx>\n"
    )
}

pub(crate) fn point(time: &str, inside: &str) -> String {
    format!("<trkpt lat=\"45.0\" lon=\"-93.0\"><time>{time}</time>{inside}</trkpt>\n")
}

fn at(second: u32, inside: &str) -> String {
    point(&format!("2026-06-15T12:00:{second:02}Z"), inside)
}

fn speeds(log: &str) -> Vec<f64> {
    samples(&text(log).unwrap())
        .iter()
        .map(|s| s.speed)
        .collect()
}

/// The numbers were counted by a script of its own over the saved file.
#[test]
fn computed_a_watercraft_track_with_speeds_in_extensions() {
    let Some(reading) = real("fast_watercraft_gpxdata_speed.gpx") else {
        return;
    };
    let reading = reading.unwrap();
    assert_eq!(reading.kind, Kind::Gpx);
    assert_eq!(reading.counts, [("points".to_owned(), 1500)]);
    assert_eq!(reading.rejected, []);
    let all = samples(&reading);
    assert_eq!(all.len(), 1500);
    assert!((all[1499].time - 1665.0).abs() < 1e-9);
    let most = all.iter().map(|s| s.speed).fold(0.0, f64::max);
    assert!((most - 13.90).abs() < 1e-12);
    assert_eq!(reading.step, Some(1.0));
    assert!((reading.unit_check.unwrap() - 1.0).abs() < 0.02);
    // Steps of more than two and a half seconds, as a script counts them: 6 of 3 s, 3 of 4 s, and one
    // each of 11, 13, 14, 16, 18, 23 and 28 s.
    assert_eq!(reading.log.stretches.len(), 1 + 6 + 3 + 7);
}

#[test]
fn computed_small_files() {
    if let Some(reading) = real("gpx_small/track_with_speed.gpx") {
        let reading = reading.unwrap();
        let speeds: Vec<f64> = samples(&reading).iter().map(|s| s.speed).collect();
        assert_eq!(speeds, [1.2, 2.2, 3.2]);
    }
    if let Some(refused) = real("gpx_small/track_with_dilution_errors.gpx") {
        assert_eq!(refused.unwrap_err(), Refused::NoTime { fixes: 1 });
    }
    if let Some(refused) = real("gpx_small/unicode_with_bom.gpx") {
        assert_eq!(refused.unwrap_err(), Refused::NoTrack { points: 1 });
    }
}

#[test]
fn law_a_speed_is_found_wherever_it_stands_and_the_best_place_wins() {
    let block = "<x:TrackPointExtension xmlns:x=\"urn:invented:v2\"><x:speed>3</x:speed><x:course>90</x:course></x:TrackPointExtension>";
    for (inside, speed, place) in [
        (
            "<speed>1</speed>".to_owned(),
            1.0_f64,
            "in the points themselves",
        ),
        (
            "<extensions><speed>2</speed></extensions>".to_owned(),
            2.0,
            "in the points' extensions",
        ),
        (
            "<extensions><d:speed xmlns:d=\"urn:invented\">2.5</d:speed></extensions>".to_owned(),
            2.5,
            "in the points' extensions",
        ),
        (
            format!("<extensions>{block}</extensions>"),
            3.0,
            "TrackPointExtension",
        ),
        (
            format!("<speed>1</speed><extensions><speed>2</speed>{block}</extensions>"),
            3.0,
            "TrackPointExtension",
        ),
        (
            format!("<extensions>{block}<speed>2</speed></extensions><speed>1</speed>"),
            3.0,
            "TrackPointExtension",
        ),
    ] {
        let reading = text(&gpx(&at(1, &inside))).unwrap();
        assert_eq!(
            samples(&reading)[0].speed.to_bits(),
            speed.to_bits(),
            "{inside}"
        );
        let SpeedFrom::Receiver(from) = &reading.speed_from else {
            panic!("{inside}")
        };
        assert!(from.contains(place), "{from}");
    }
    let reading = text(&gpx(&at(1, "<speed>1</speed><cog>45</cog>"))).unwrap();
    assert_eq!(
        samples(&reading)[0].course,
        Some(std::f64::consts::FRAC_PI_4)
    );
}

#[test]
fn law_a_segment_is_a_break_and_times_may_have_a_zone_or_none() {
    let log = format!(
        "\u{feff}<gpx>{}</gpx>",
        "<trk><trkseg>A</trkseg><trkseg>B</trkseg></trk>"
            .replace(
                'A',
                &(at(1, "<speed>1</speed>") + &at(2, "<speed>1</speed>"))
            )
            .replace('B', &point("2026-06-15T14:00:03+02:00", "<speed>1</speed>"))
    );
    let reading = text(&log).unwrap();
    let times: Vec<Vec<f64>> = reading
        .log
        .stretches
        .iter()
        .map(|s| s.iter().map(|s| s.time).collect())
        .collect();
    assert_eq!(times, [vec![0.0, 1.0], vec![2.0]]);
    assert_eq!(reading.zoneless, 0);
    let bare = text(&gpx(&point("2026-06-15T12:00:01", "<speed>1</speed>"))).unwrap();
    assert_eq!((bare.zoneless, bare.log.zero), (1, Some(1_781_524_801.0)));
}

#[test]
fn law_dirt_is_counted_and_no_empty_speed_is_zero() {
    let log = gpx(&[
        at(1, "<speed>5</speed>"),
        at(2, "<speed></speed>"),
        at(3, "<speed>-1</speed>"),
        at(4, "<speed>fast</speed>"),
        at(5, "<speed>5.5</speed><hdop>9</hdop>"),
        at(6, "<speed>5.5</speed><sat>3</sat>"),
        at(7, "<speed>6</speed>")
            .replace("45.0", "0")
            .replace("-93.0", "0.0"),
        at(8, "<speed>6</speed>").replace("45.0", "95"),
        point("yesterday", "<speed>6</speed>"),
        at(9, "<speed>6</speed>"),
        at(9, "<speed>7</speed>"),
        at(10, "<speed>7.5</speed>"),
        at(11, "<speed>7.5</speed>"),
        at(12, "<speed>7.5</speed>"),
        at(13, "<speed>7.5</speed>"),
    ]
    .concat());
    let reading = text(&log).unwrap();
    assert_eq!(speeds(&log), [5.0, 7.0, 7.5, 7.5, 7.5, 7.5]);
    for (why, count) in [
        (Why::NoSpeed, 3),
        (Why::BadNumber, 2),
        (Why::PoorFix, 2),
        (Why::NullPlace, 1),
        (Why::BadPlace, 1),
        (Why::BadTime, 1),
        (Why::NoTime, 1),
        (Why::Duplicate, 1),
    ] {
        assert_eq!(rejected(&reading, why), count, "{why}");
    }
}

#[test]
fn law_a_track_cut_off_keeps_what_was_whole() {
    let log = gpx(&(0..50)
        .map(|s| at(s, "<speed>5</speed>"))
        .collect::<String>());
    let cut = &log[..log.len() / 2];
    let reading = text(cut).unwrap();
    assert_eq!(rejected(&reading, Why::CutOff), 1);
    assert!((20..30).contains(&samples(&reading).len()));
    let broken = log.replacen("<speed>5</speed></trkpt>", "<speed>5</sped></trkpt>", 30);
    assert!(text(&broken).is_err() || rejected(&text(&broken).unwrap(), Why::CutOff) == 1);
}

#[test]
fn law_letters_of_an_old_alphabet_do_not_end_the_log() {
    let log = gpx(&(0..9)
        .map(|s| at(s, "<speed>5</speed>"))
        .collect::<String>());
    let mut bytes = log
        .replacen("<trkseg>", "<name>Bat#</name><trkseg>", 1)
        .into_bytes();
    let at = bytes.iter().position(|c| *c == b'#').unwrap();
    bytes[at] = 0xe9;
    let reading = read(&bytes[..], &Options::default()).unwrap();
    assert_eq!(samples(&reading).len(), 9);
}

fn track(name: &str, from: u32, latitude: &str) -> String {
    let points: String = (from..from + 20)
        .map(|s| at(s, "<speed>5</speed>").replace("45.0", latitude))
        .collect();
    format!("<trk><name>{name}</name><trkseg>{points}</trkseg></trk>")
}

#[test]
fn law_tracks_at_the_same_time_are_asked_about() {
    let after = format!(
        "<gpx>{}{}</gpx>",
        track("one", 0, "45.0"),
        track("two", 25, "45.0")
    );
    assert_eq!(speeds(&after).len(), 40);
    let both = format!(
        "<gpx>{}{}</gpx>",
        track("one", 0, "45.0"),
        track("two", 2, "45.1")
    );
    let refused = text(&both).unwrap_err();
    let words = refused.to_string();
    assert!(
        words.contains("track 1 “one” (20 fixes), track 2 “two” (20 fixes); say which"),
        "{words}"
    );
    let second = Options {
        track: Some(2),
        ..Options::default()
    };
    let reading = read(both.as_bytes(), &second).unwrap();
    assert_eq!(
        (samples(&reading).len(), reading.log.zero),
        (20, Some(1_781_524_802.0))
    );
    let third = Options {
        track: Some(3),
        ..Options::default()
    };
    assert!(matches!(
        read(both.as_bytes(), &third),
        Err(Refused::NotThere { .. })
    ));
}

#[test]
fn law_two_tracks_woven_into_one_are_refused() {
    let woven: String = (0..50)
        .map(|s| {
            at(s, "<speed>5</speed>").replace("45.0", if s % 2 == 0 { "45.0" } else { "45.001" })
        })
        .collect();
    assert_eq!(text(&gpx(&woven)).unwrap_err(), Refused::Interleaved);
}
