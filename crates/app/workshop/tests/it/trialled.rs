//! What the water tests show, through the job: figures read off, logs, runs set by hand. All of it is
//! invented where no source is named.

use std::sync::Arc;

use quantity::{Unit, parse};
use trial::figure::Interval;
use trial::reduce::Method;
use workshop::act::Act;
use workshop::entry::{Body, Key};
use workshop::water::answer::{Answer, Told, answer};
use workshop::water::outing::{OutingSays, Top, milliseconds};
use workshop::water::{
    Columns, Figure, Format, Logged, Outing, Read, Receiver, Shown, Side, Trialling, Way, What,
    Window, evidence,
};

use crate::journal::{Journal, opened};

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn outing(side: Side) -> Outing {
    Outing {
        receiver: Some(Receiver::Own),
        ..Outing::named("Home lake", side, Unit::MetrePerSecond)
    }
}

fn say(journal: &mut Journal, said: Trialling) {
    journal.record(Body::Trialled(said));
}

fn with(outings: &[(&str, Side)]) -> Journal {
    let mut journal = Journal::default();
    journal.act(opened());
    for (name, side) in outings {
        let (key, outing) = (key(name), outing(*side));
        say(&mut journal, Trialling::Outing { key, outing });
    }
    journal
}

fn read_off(what: What, text: &str, unit: Unit, read: Read) -> Figure {
    let value = parse(text, unit).unwrap();
    Figure { what, value, read }
}

/// Top speeds there and back, read off a receiver.
fn speeds(all: &[&str]) -> Vec<Figure> {
    let ways = [Way::There, Way::Back].into_iter().cycle();
    let figure = |(text, way): (&&str, Way)| {
        let what = What::TopSpeed(way);
        read_off(what, text, Unit::MetrePerSecond, Read::Receiver)
    };
    all.iter().zip(ways).map(figure).collect()
}

fn starts(all: &[&str]) -> Vec<Figure> {
    let to = parse("30 mph", Unit::MilePerHour).unwrap();
    let figure = |text: &&str| {
        let what = What::Start { to: to.clone() };
        read_off(what, text, Unit::Second, Read::StopWatch)
    };
    all.iter().map(figure).collect()
}

fn told(journal: &mut Journal, outing: &str, figures: Vec<Figure>) {
    let outing = key(outing);
    say(journal, Trialling::Figures { outing, figures });
}

fn says(journal: &Journal) -> Answer {
    answer(&journal.job())
}

fn reduced(outing: &OutingSays) -> &trial::reduce::Reduced {
    match &outing.top {
        Top::Reduced(all) if all.len() == 1 => &all[0],
        other => panic!("one series is expected, not {other:?}"),
    }
}

fn near(ours: f64, theirs: f64, within: f64) {
    assert!((ours - theirs).abs() <= within, "{ours} against {theirs}");
}

/// Worked by hand: V = 24, current 0.60 - 0.30 k + 0.04 k^2. The plain mean keeps 0.09 of it.
#[test]
fn computed_four_figures_read_off_are_free_of_a_drifting_current() {
    let mut journal = with(&[("after", Side::After)]);
    told(
        &mut journal,
        "after",
        speeds(&["24.60", "23.66", "24.16", "23.94"]),
    );
    let all = says(&journal);
    let found = reduced(&all.after.outings[0]);
    near(found.speed.value, 24.0, 1e-12);
    near(found.plain, 24.09, 1e-12);
    assert_eq!(found.method, Method::MeanOfMeans);
    assert!(!all.after.one_way);
    // One of them tells no more than a speed with the current in it.
    told(&mut journal, "after", speeds(&["24.60"]));
    assert!(says(&journal).after.one_way);
}

/// `scipy` 1.17.1, `ttest_ind(equal_var=False)`, of 24.6 24.3 24.8 24.5 and 26.1 25.7 26.0.
#[test]
fn outside_starts_before_and_after_are_compared_as_welch_does() {
    let mut journal = with(&[("before", Side::Before), ("after", Side::After)]);
    told(
        &mut journal,
        "before",
        starts(&["24.6", "24.3", "24.8", "24.5"]),
    );
    told(&mut journal, "after", starts(&["26.1", "25.7", "26.0"]));
    let all = says(&journal);
    let (to, change) = &all.starts[0];
    near(*to, 13.4112, 1e-12);
    let repeats = change.repeats.unwrap();
    assert_eq!(repeats.counts, (4, 3));
    near(repeats.difference.difference, 1.383_333_3, 1e-6);
    let Interval { low, high } = repeats.interval;
    near(low, 0.959_115_94, 1e-6);
    near(high, 1.807_550_73, 1e-6);
    assert_eq!(change.told(), Told::More);
}

/// Columns at 5 Hz: still, then each run for 20 s, with slow turns between.
fn columns(runs: &[(u32, u16)]) -> Columns {
    let mut columns = Columns::default();
    let mut add = |speed: u32, course: u16, rpm: u16| {
        let at = i64::try_from(columns.time_ms.len()).unwrap() * 200;
        columns.time_ms.push(at);
        // Noise that repeats: a few millimetres a second up and down.
        let noise = [0, 12, 5, 17, 8][columns.speed_mm_s.len() % 5];
        columns.speed_mm_s.push(speed + noise);
        columns.course_cdeg.push(Some(course));
        columns.engine_rpm.push(Some(rpm));
    };
    (0..50).for_each(|_| add(0, 0, 1500));
    for (speed, course) in runs {
        (0..40).for_each(|step: u32| add(step * speed / 40, *course, 7000));
        (0..100).for_each(|_| add(*speed, *course, 7600));
        (0..100).for_each(|_| add(4000, (*course + 9000) % 36_000, 3000));
    }
    columns
}

fn log(runs: &[(u32, u16)]) -> Logged {
    Logged {
        name: "run.csv".into(),
        bytes: 1000,
        format: Format::Csv,
        speed_from: "column 2".into(),
        read: 1000,
        thinned: false,
        layout: None,
        unit_ratio: None,
        rejected: Vec::new(),
        zero_ms: None,
        stretches: vec![columns(runs)],
    }
}

const THERE: u16 = 9000;
const BACK: u16 = 27_000;
const DIGEST: &str = "00000000000000000000000000000000000000000000000000000000000000aa";

fn logged(journal: &mut Journal, outing: &str, runs: &[(u32, u16)]) {
    let said = Trialling::Log {
        outing: key(outing),
        digest: key(DIGEST),
        log: Arc::new(log(runs)),
    };
    say(journal, said);
}

/// Still water and a steady current of 1 m/s: V = 20, by hand.
#[test]
fn computed_runs_of_a_log_are_free_of_a_steady_current() {
    let mut journal = with(&[("after", Side::After)]);
    let runs = [
        (21_000, THERE),
        (19_000, BACK),
        (21_000, THERE),
        (19_000, BACK),
    ];
    logged(&mut journal, "after", &runs);
    let all = says(&journal);
    let outing = &all.after.outings[0];
    assert_eq!(outing.logs[0].runs.len(), 4);
    let found = reduced(outing);
    near(found.speed.value, 20.0, 0.03);
    for along in &found.along {
        near(*along, 1.0, 0.03);
    }
    near(
        all.after.engine.as_ref().unwrap().value,
        parse("7600 rpm", Unit::Rpm).unwrap().value,
        0.5,
    );
}

/// V 20, current 1 m/s toward 60 degrees, headings 0, 120 and 240: what goes over ground is the sum of
/// the two, and comes back as they were.
#[test]
fn computed_three_headings_give_speed_and_current() {
    let mut journal = with(&[("after", Side::After)]);
    let over_ground = |heading: f64| {
        let (east, north) = (
            20.0 * heading.to_radians().sin(),
            20.0 * heading.to_radians().cos(),
        );
        let (east, north) = (
            east + 60_f64.to_radians().sin(),
            north + 60_f64.to_radians().cos(),
        );
        let course = east.atan2(north).to_degrees().rem_euclid(360.0);
        let speed = u32::try_from(milliseconds(east.hypot(north))).unwrap();
        (speed, u16::try_from(milliseconds(course / 10.0)).unwrap())
    };
    let runs = [over_ground(0.0), over_ground(120.0), over_ground(240.0)];
    logged(&mut journal, "after", &runs);
    let all = says(&journal);
    let Top::Headings(speed, circle) = &all.after.outings[0].top else {
        panic!("{:?}", all.after.outings[0].top);
    };
    near(speed.value, 20.0, 0.03);
    near(circle.current(), 1.0, 0.03);
    near(circle.east.atan2(circle.north).to_degrees(), 60.0, 2.0);
    assert!(!all.after.one_way);
}

#[test]
fn law_runs_set_by_hand_take_the_place_of_those_found() {
    let mut journal = with(&[("after", Side::After)]);
    logged(&mut journal, "after", &[(21_000, THERE), (19_000, BACK)]);
    let found = says(&journal);
    let windows = found.after.outings[0].logs[0].windows();
    assert_eq!(windows.len(), 2);
    let runs = |windows| Trialling::Runs {
        digest: key(DIGEST),
        windows,
    };
    // As found, said by hand: the same speeds.
    say(&mut journal, runs(Some(windows.clone())));
    let by_hand = says(&journal);
    assert!(by_hand.after.outings[0].logs[0].by_hand);
    near(
        reduced(&by_hand.after.outings[0]).speed.value,
        reduced(&found.after.outings[0]).speed.value,
        0.02,
    );
    // One left out: what is left has the current in it.
    say(&mut journal, runs(Some(windows[..1].to_vec())));
    let one = says(&journal);
    assert!(one.after.one_way && one.after.speed.is_some());
    // None at all, then back to those found.
    say(&mut journal, runs(Some(Vec::new())));
    assert!(says(&journal).after.speed.is_none());
    say(&mut journal, runs(None));
    assert_eq!(
        says(&journal).after.outings[0].logs[0].windows(),
        found.after.outings[0].logs[0].windows()
    );
    // A window on the turn is a run with something to be said against it.
    let turn = Window {
        from_ms: 40_000,
        until_ms: 50_000,
    };
    say(&mut journal, runs(Some(vec![turn])));
    let doubted = says(&journal);
    let log = &doubted.after.outings[0].logs[0];
    assert!(log.runs.iter().all(|run| !run.doubts.is_empty()), "{log:?}");
}

#[test]
fn law_figures_read_off_stand_aside_where_a_log_has_runs() {
    let mut journal = with(&[("after", Side::After)]);
    told(&mut journal, "after", speeds(&["30.0", "30.0"]));
    near(says(&journal).after.speed.unwrap().value, 30.0, 1e-9);
    logged(&mut journal, "after", &[(21_000, THERE), (19_000, BACK)]);
    near(says(&journal).after.speed.unwrap().value, 20.0, 0.05);
    journal.act(Act::Undo);
    near(says(&journal).after.speed.unwrap().value, 30.0, 1e-9);
}

#[test]
fn law_a_log_that_says_nothing_says_so() {
    let mut journal = with(&[("after", Side::After)]);
    logged(&mut journal, "after", &[(3000, THERE)]);
    let all = says(&journal);
    let log = &all.after.outings[0].logs[0];
    assert!(log.runs.is_empty() && log.none.is_some() && log.refused.is_none());
    assert!(all.after.speed.is_none() && all.speed.is_none());
}

/// 20.0 and 20.6 both ways, by a receiver that is good to 0.05: faster, and the interval says by how
/// much; 20.0 and 20.1 is nothing that these runs can show.
#[test]
fn law_a_change_is_told_by_its_interval() {
    let compared = |after: &[&str]| {
        let mut journal = with(&[("before", Side::Before), ("after", Side::After)]);
        told(
            &mut journal,
            "before",
            speeds(&["20.5", "19.5", "20.5", "19.5"]),
        );
        told(&mut journal, "after", speeds(after));
        says(&journal).speed.unwrap()
    };
    let faster = compared(&["22.1", "21.1", "22.1", "21.1"]);
    assert_eq!(faster.told(), Told::More);
    let (value, ends) = faster.change;
    near(value, 1.6, 1e-9);
    assert!(ends.low > 0.5 && ends.high < 2.7, "{ends:?}");
    let same = compared(&["20.6", "19.6", "20.6", "19.6"]);
    assert_eq!(same.told(), Told::Within);
    let slower = compared(&["18.5", "17.5", "18.5", "17.5"]);
    assert_eq!(slower.told(), Told::Less);
}

/// ISO 1585, from memory: 1005 hPa, 32 °C, 70 % gives 1.03688, and 1020 hPa, 12 °C, 50 % gives 0.94713,
/// both reckoned outside the project.
#[test]
fn computed_the_air_alone() {
    let mut journal = with(&[]);
    let day = |side, pressure: &str, air: &str, humidity| Outing {
        pressure: Some(parse(pressure, Unit::Millibar).unwrap()),
        air_temperature: Some(parse(air, Unit::Celsius).unwrap()),
        humidity: Some(humidity),
        ..outing(side)
    };
    let mut outing_of = |name: &str, outing| {
        let key = key(name);
        say(&mut journal, Trialling::Outing { key, outing });
    };
    outing_of("before", day(Side::Before, "1005", "32", 70));
    outing_of("after", day(Side::After, "1020", "12", 50));
    let air = says(&journal).air.unwrap();
    near(air.power, 1.036_88 / 0.947_13, 5e-5);
    near(air.engine, air.power.cbrt(), 1e-12);
    let pressed = Outing {
        charged: true,
        ..day(Side::After, "1020", "12", 50)
    };
    let key = key("after");
    say(
        &mut journal,
        Trialling::Outing {
            key,
            outing: pressed,
        },
    );
    assert!(says(&journal).air.is_none());
}

#[test]
fn law_what_was_taken_goes_stale_with_its_runs() {
    let mut journal = with(&[("before", Side::Before), ("after", Side::After)]);
    told(&mut journal, "before", speeds(&["20.5", "19.5"]));
    told(&mut journal, "after", speeds(&["22.1", "21.1"]));
    let now = says(&journal);
    assert_eq!(now.evidence, evidence(&journal.job()));
    let shown = Shown::of(&now, "faster".into());
    let change = shown.change.unwrap();
    assert!(change[0] < change[1] && change[1] < change[2]);
    say(&mut journal, Trialling::Taken(shown));
    assert!(journal.objections().is_empty());
    told(&mut journal, "after", speeds(&["22.1", "21.0"]));
    assert_eq!(journal.objections().len(), 1);
    journal.act(Act::Undo);
    assert!(journal.objections().is_empty());
}

#[test]
fn law_milliseconds_are_whole() {
    assert_eq!(milliseconds(12.3456), 12_346);
    assert_eq!(milliseconds(-0.2), -200);
}
