//! Water tests at the command line: what is told, and what is refused. All logs are invented.

use std::fmt::Write as _;

use crate::bench::Bench;

const BEFORE: &str = include_str!("../../example/before.csv");
const AFTER: &str = include_str!("../../example/after.csv");
const AT: [&str; 2] = ["--at", "2026-05-09T14:00:00+02:00[Europe/Berlin]"];

/// A folder with the two logs that come with the program.
fn ashore() -> Bench {
    let bench = Bench::new();
    bench.write("before.csv", BEFORE);
    bench.write("after.csv", AFTER);
    bench
}

/// A store with a job of nothing in it.
const STORE: [&str; 2] = ["--store", "sqlite:bench.sqlite"];
const JOB: &str = "format = \"pumpwright job\"\nversion = 1\n\n[job]\nid = \"sled-4\"\ntitle = \"Rescue sled 4\"\n";

/// Why a log with this content is not read.
fn unread(name: &str, content: impl AsRef<[u8]>) -> String {
    let bench = Bench::new();
    bench.write(name, content);
    bench.refusal(&["trial", "--read", name])
}

/// What is told of a log with this content.
fn told(name: &str, content: impl AsRef<[u8]>) -> String {
    let bench = Bench::new();
    bench.write(name, content);
    bench.answer(&[&["trial", "--read", name], &AT[..]].concat())
}

#[test]
fn practice_the_logs_alone_in_words() {
    let bench = ashore();
    let read = ["trial", "--read", "before.csv", "--side", "before"];
    insta::assert_snapshot!(bench.answer(&[&read[..], &AT].concat()));
}

#[test]
fn practice_the_logs_alone_for_programs() {
    let bench = ashore();
    let read = ["trial", "--read", "after.csv", "--json"];
    insta::assert_snapshot!(short(&bench.answer(&[&read[..], &AT].concat())));
}

/// The last digits may differ between machines, because each has its own logarithm.
fn short(document: &str) -> String {
    let short = |line: &str| {
        let digits = line.rfind('.').map(|at| (at, &line[at + 1..]));
        match digits {
            Some((at, digits))
                if digits.len() > 6
                    && digits
                        .trim_end_matches(',')
                        .bytes()
                        .all(|b| b.is_ascii_digit()) =>
            {
                format!("{}…\n", &line[..at + 7])
            }
            _ => format!("{line}\n"),
        }
    };
    document.lines().map(short).collect()
}

/// Both days in a job of the store.
fn both() -> Bench {
    let bench = ashore();
    bench.write("job.toml", JOB);
    bench.answer(&[&["import", "job.toml"], &STORE[..]].concat());
    for side in ["before", "after"] {
        let log = format!("{side}.csv");
        let read = [
            "trial", "sled-4", "--read", &log, "--outing", side, "--side", side,
        ];
        bench.answer(&[&read[..], &STORE, &AT].concat());
    }
    bench
}

#[test]
fn practice_both_days_in_words() {
    insta::assert_snapshot!(both().answer(&[&["trial", "sled-4"], &STORE[..], &AT].concat()));
}

#[test]
fn practice_both_days_for_programs() {
    let ask = ["trial", "sled-4", "--json"];
    insta::assert_snapshot!(short(&both().answer(&[&ask[..], &STORE, &AT].concat())));
}

#[test]
fn practice_the_card_without_a_plan() {
    insta::assert_snapshot!(
        both().answer(&[&["trial", "sled-4", "--card"], &STORE[..], &AT].concat())
    );
}

#[test]
fn practice_a_job_that_may_not_float() {
    let bench = ashore();
    bench.write("job.toml", include_str!("../../example/patrol-craft.toml"));
    let ask = |more: &[&str]| bench.answer(&[&["trial", "job.toml"], &AT[..], more].concat());
    insta::assert_snapshot!("may_not_float", ask(&[]));
    insta::assert_snapshot!("may_not_float_card", ask(&["--card"]));
    insta::assert_snapshot!("may_not_float_json", short(&ask(&["--json"])));
    let read = ["trial", "job.toml", "--read", "after.csv"];
    insta::assert_snapshot!(
        "may_not_float_read",
        bench.refusal(&[&read[..], &AT].concat())
    );
}

#[test]
fn practice_no_line_of_a_water_test_is_wider_than_a_terminal() {
    let bench = both();
    for more in [&[][..], &["--card"]] {
        let answer = bench.answer(&[&["trial", "sled-4"], &STORE[..], &AT, more].concat());
        let long: Vec<&str> = answer.lines().filter(|l| l.chars().count() > 80).collect();
        assert!(long.is_empty(), "{long:#?}");
    }
}

#[test]
fn practice_files_that_are_no_log() {
    let packed = [&b"PK\x03\x04\x14\0\0\0"[..], &[0; 200]].concat();
    insta::assert_snapshot!(
        [
            unread("log.gpx", ""),
            unread("log.csv", " \n\t\n  \n"),
            unread("log.zip", packed),
            unread("note.txt", "Went well. Faster than before, I think.\n"),
        ]
        .concat()
    );
    let bench = Bench::new();
    std::fs::create_dir(bench.path().join("logs")).unwrap();
    insta::assert_snapshot!(
        "no_file",
        [
            bench.refusal(&["trial", "--read", "logs"]),
            bench.refusal(&["trial", "--read", "gone.gpx"]),
        ]
        .concat()
    );
}

/// A track at 5 fixes a second, out and back at full throttle and slow where it turns, as `(seconds,
/// latitude, longitude)`.
fn track() -> Vec<(f64, f64, f64)> {
    let mut north = 47.5;
    let fix = |step: u32| {
        let way = if step < 300 { 1.0 } else { -1.0 };
        north += way * pace(step) * 0.2 / 111_170.0;
        (f64::from(step) / 5.0, north, 9.5)
    };
    (0..600).map(fix).collect()
}

/// The speed at a fix of the track, m/s.
fn pace(step: u32) -> f64 {
    if step.abs_diff(300) < 25 { 5.0 } else { 22.0 }
}

/// The track as NMEA, its speeds in a unit of so many m/s.
fn nmea(unit: f64) -> Vec<String> {
    let fixes = (0..).zip(track());
    fixes
        .map(|(step, fix)| rmc("GP", fix, pace(step) / unit))
        .collect()
}

const KNOT: f64 = 0.514_444;

fn gpx(points: &[(f64, f64, f64)]) -> String {
    let mut text = String::from("<?xml version=\"1.0\"?>\n<gpx><trk><trkseg>\n");
    for point in points {
        text.push_str(&trkpt(*point));
    }
    text + "</trkseg></trk></gpx>\n"
}

fn trkpt((time, lat, lon): (f64, f64, f64)) -> String {
    let (minute, second) = ((time / 60.0).floor(), time % 60.0);
    format!(
        "<trkpt lat=\"{lat:.7}\" lon=\"{lon:.7}\"><time>2026-05-09T12:{minute:02.0}:{second:06.3}Z</time></trkpt>\n"
    )
}

/// When the track turns back, s.
const BACK: f64 = 59.9;

/// A sentence with its sum.
fn sentence(words: &str) -> String {
    let sum = words.bytes().fold(0, |sum, byte| sum ^ byte);
    format!("${words}*{sum:02X}\r\n")
}

/// One fix of a receiver; `talker` are its first two letters.
fn rmc(talker: &str, (time, lat, lon): (f64, f64, f64), knots: f64) -> String {
    let minutes = |degrees: f64| format!("{:02.0}{:08.5}", degrees.floor(), degrees.fract() * 60.0);
    let clock = format!("12{:02.0}{:06.3}", (time / 60.0).floor(), time % 60.0);
    let course = if time > BACK { "180.0" } else { "0.0" };
    sentence(&format!(
        "{talker}RMC,{clock},A,{},N,0{},E,{knots:.2},{course},090526,,,A",
        minutes(lat),
        minutes(lon)
    ))
}

#[test]
fn practice_a_track_with_entities_is_not_read() {
    let bomb = "<?xml version=\"1.0\"?>\n<!DOCTYPE gpx [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;&a;\">]>\n\
                <gpx><trk><name>&b;</name></trk></gpx>\n";
    insta::assert_snapshot!(unread("bomb.gpx", bomb));
}

#[test]
fn practice_a_track_that_was_cut_off_is_read_as_far_as_it_goes() {
    let whole = gpx(&track());
    let cut = &whole[..whole.len() - 40];
    insta::assert_snapshot!(told("cut.gpx", cut));
}

#[test]
fn practice_a_clock_that_goes_back_is_told() {
    let mut all = nmea(KNOT);
    let again = all[350..400].to_vec();
    all.splice(400..400, again);
    let text = all.concat();
    insta::assert_snapshot!(told("back.nmea", text));
}

#[test]
fn practice_fixes_at_nought_nought_are_told() {
    let mut points = track();
    for point in &mut points[..5] {
        (point.1, point.2) = (0.0, 0.0);
    }
    insta::assert_snapshot!(told("nought.gpx", gpx(&points)));
    let all: Vec<_> = points.iter().map(|point| (point.0, 0.0, 0.0)).collect();
    insta::assert_snapshot!("all_nought", unread("nought.gpx", gpx(&all)));
}

#[test]
fn practice_two_craft_in_one_file_are_asked_about() {
    let one = track();
    let tracks = |points: &[(f64, f64, f64)]| -> String {
        let points: String = points.iter().map(|point| trkpt(*point)).collect();
        format!("<trk><trkseg>\n{points}</trkseg></trk>\n")
    };
    let two: Vec<_> = one.iter().map(|p| (p.0, p.1 + 0.05, p.2)).collect();
    let both = format!(
        "<?xml version=\"1.0\"?>\n<gpx>{}{}</gpx>\n",
        tracks(&one),
        tracks(&two)
    );
    let mut mixed = String::new();
    for (a, b) in one.iter().zip(&two) {
        mixed.push_str(&rmc("GP", *a, 42.0));
        mixed.push_str(&rmc("GN", *b, 42.0));
    }
    let turns: Vec<_> = one
        .iter()
        .zip(&two)
        .flat_map(|(a, b)| [*a, (b.0 + 0.1, b.1, b.2)])
        .collect();
    insta::assert_snapshot!(
        [
            unread("two.gpx", both),
            unread("two.nmea", mixed),
            unread("turns.gpx", gpx(&turns)),
        ]
        .concat()
    );
}

#[test]
fn practice_a_log_without_full_throttle_says_so() {
    let slow = |speed: f64| {
        let mut text = String::from("time s,speed mph,course deg\n");
        for step in 0..600 {
            let _ = writeln!(text, "{:.1},{speed:.1},90", f64::from(step) / 5.0);
        }
        text
    };
    insta::assert_snapshot!("slow", told("slow.csv", slow(11.0)));
    let brief: Vec<&str> = BEFORE.split_inclusive('\n').take(20).collect();
    insta::assert_snapshot!("brief", told("brief.csv", brief.concat()));
}

#[test]
fn practice_a_unit_that_the_positions_contradict() {
    let text = nmea(1.0 / 3.6).concat();
    insta::assert_snapshot!(unread("unit.nmea", &text));
    let bench = Bench::new();
    bench.write("unit.nmea", text);
    let ask = [
        "trial",
        "--read",
        "unit.nmea",
        "--log-unit",
        "km/h",
        "--unit",
        "km/h",
    ];
    let told = bench.answer(&[&ask[..], &AT].concat());
    assert!(told.contains("79.2 km/h through the water"), "{told}");
}

#[test]
fn practice_a_table_is_asked_about_and_read_as_it_was_answered() {
    let text = BEFORE.replace(",speed mph,", ",speed,");
    insta::assert_snapshot!(unread("before.csv", &text));
    let bench = Bench::new();
    bench.write("before.csv", text);
    let said = ["trial", "--read", "before.csv", "--columns", "speed 2 mph"];
    assert!(bench.answer(&said).contains("mph through the water"));
    let wrong = ["trial", "--read", "before.csv", "--columns", "pace 2 mph"];
    insta::assert_snapshot!("wrong_columns", bench.refusal(&wrong));
    // What is said and not needed is not passed over in silence.
    bench.write("plain.csv", BEFORE);
    let needless = ["trial", "--read", "plain.csv", "--columns", "speed 4 mph"];
    insta::assert_snapshot!("needless_columns", bench.refusal(&needless));
}

#[test]
fn practice_the_same_log_twice_and_an_outing_that_is_none() {
    let bench = both();
    let again = [
        "trial",
        "sled-4",
        "--read",
        "after.csv",
        "--outing",
        "third",
    ];
    insta::assert_snapshot!("twice", bench.refusal(&[&again[..], &STORE, &AT].concat()));
    let none = [
        "trial",
        "sled-4",
        "--read",
        "after.csv",
        "--outing",
        "Third day!",
    ];
    insta::assert_snapshot!("no_key", bench.refusal(&[&none[..], &STORE, &AT].concat()));
}
