//! What cannot be is refused, with its limit and the way out. All data are invented.

use std::sync::Arc;

use quantity::Unit;
use workshop::act::Act;
use workshop::decide::{MOST_RUNS, MOST_SAMPLES};
use workshop::entry::Body;
use workshop::water::{Columns, Logged, Outing, Rejected, Trialling, Way, What};

use super::{
    columns, digest, draft, figure, figures, figures_of, key, lake, log, logged, outing, put_away,
    refused, runs, said_log, set, typed,
};
use crate::journal::Journal;

#[test]
fn law_what_is_not_here_is_refused() {
    let journal = lake();
    let no_outing = "There is no outing “sea” here. Describe it first.".to_owned();
    for body in [log("sea", "b"), figures("sea")] {
        assert_eq!(refused(&journal, body), (Some("outing"), no_outing.clone()));
    }
    let no_log =
        "The log bbbbbbbb is not in this job, or was put away. Undo, or read it again.".to_owned();
    for body in [runs("b", &[(0, 9000)]), put_away("b")] {
        assert_eq!(refused(&journal, body), (Some("log"), no_log.clone()));
    }
    let mut journal = lake();
    journal.record(outing("sea", "before"));
    let here = "This very file is in the job already, as “run1.gpx” of “Home lake, before”. Put it away there \
                first, or choose another.";
    for outing in ["lake", "sea"] {
        let said = refused(&journal, log(outing, "a"));
        assert_eq!(said, (Some("log"), here.to_owned()));
    }
    journal.record(put_away("a"));
    journal.record(log("sea", "a"));
    assert_eq!(journal.objections(), []);
}

#[test]
fn law_columns_that_do_not_hold_together_are_refused() {
    let journal = lake();
    let say = |log: Logged| refused(&journal, said_log("lake", "b", log)).1;
    let of = |columns: Columns| {
        let mut log = logged();
        log.stretches[1] = columns;
        say(log)
    };
    let hold = |what: &str| {
        format!("Stretch 2 of the log does not hold together: {what}. Read the file again.")
    };
    assert_eq!(of(Columns::default()), hold("it is empty"));
    assert_eq!(of(columns([0, 200, 200])), hold("its time does not rise"));
    assert_eq!(of(columns([0, 200, 100])), hold("its time does not rise"));
    let uneven = hold("its columns are not of one length");
    let good = columns([0, 200, 400]);
    for bad in [
        Columns {
            speed_mm_s: vec![1, 2],
            ..good.clone()
        },
        Columns {
            speed_mm_s: Vec::new(),
            ..good.clone()
        },
        Columns {
            course_cdeg: vec![None; 4],
            ..good.clone()
        },
        Columns {
            engine_rpm: vec![Some(1)],
            ..good.clone()
        },
    ] {
        assert_eq!(of(bad), uneven);
    }
    let course = vec![None, Some(35_999), Some(36_000)];
    let round = Columns {
        course_cdeg: course,
        ..good.clone()
    };
    assert_eq!(of(round), hold("a course is 360 degrees or more"));
}

#[test]
fn law_a_log_that_cannot_be_is_refused() {
    let journal = lake();
    let say = |log: Logged| refused(&journal, said_log("lake", "b", log)).1;
    let mut log = logged();
    log.stretches.push(columns(
        100_000..100_000 + i64::try_from(MOST_SAMPLES - 202).unwrap(),
    ));
    assert!(
        journal
            .clone()
            .try_act(Act::Record(said_log("lake", "b", log.clone())))
            .is_ok()
    );
    log.stretches.push(columns([0]));
    assert_eq!(
        say(log),
        "60001 samples are more than a job keeps, which is 60000. Cut the log to the runs."
    );
    let rejected = Rejected {
        why: "x".into(),
        count: 1,
        line: 1,
        text: String::new(),
    };
    let rejected = vec![rejected; 65];
    assert_eq!(
        say(Logged {
            rejected,
            ..logged()
        }),
        "There can be 64 kinds of rejected lines here. Take one away first."
    );
    assert_eq!(
        say(Logged {
            zero_ms: Some(i64::MAX),
            ..logged()
        }),
        "The log begins at a time that no calendar has. Set the receiver’s clock, or take the \
         date out of the file."
    );
    assert_eq!(
        say(Logged {
            unit_ratio: Some(f64::NAN),
            ..logged()
        }),
        "The speed of the receiver over the speed by positions is no number. Read the file again."
    );
    let bad = Body::Trialled(Trialling::Log {
        outing: key("lake"),
        digest: key("abc"),
        log: Arc::new(logged()),
    });
    assert_eq!(
        refused(&journal, bad).1,
        "“abc” is no digest of a file: that is 64 digits and letters a to f. Copy it whole."
    );
}

#[test]
fn law_runs_are_inside_a_stretch_and_share_no_time() {
    let mut journal = lake();
    let say = |journal: &Journal, set: &[(i64, i64)]| refused(journal, runs("a", set));
    let outside = |from: &str, until: &str| {
        format!(
            "{from} to {until} is not inside one unbroken stretch of this log. Look at the picture \
             of the log, and choose a window without a gap."
        )
    };
    for (run, from, until) in [
        ((19_000, 31_000), "0:19.0", "0:31.0"),
        ((21_000, 22_500), "0:21.0", "0:22.5"),
        ((-100, 9000), "-0:00.1", "0:09.0"),
        ((40_000, 50_001), "0:40.0", "0:50.001"),
    ] {
        let said = say(&journal, &[(0, 5000), run]);
        assert_eq!(said, (Some("from"), outside(from, until)));
    }
    for (run, until) in [((9000, 9000), "0:09.0"), ((9000, 8000), "0:08.0")] {
        let backwards =
            format!("A run from 0:09.0 to {until} ends before it begins. Turn the two round.");
        assert_eq!(say(&journal, &[run]), (Some("from"), backwards));
    }
    assert_eq!(
        say(&journal, &[(30_000, 40_000), (0, 9000), (8900, 20_000)]),
        (
            Some("from"),
            "Two runs share the time from 0:08.9 on. A sample counts once: mend one of them."
                .to_owned()
        )
    );
    let many: Vec<(i64, i64)> = (0..65).map(|n| (n * 200, n * 200 + 200)).collect();
    assert_eq!(
        say(&journal, &many).1,
        "There can be 64 runs here. Take one away first."
    );
    // The whole of each stretch, and as many as there can be.
    journal.record(runs("a", &[(30_000, 50_000), (0, 20_000)]));
    journal.record(runs("a", &many[..MOST_RUNS]));
    journal.record(runs("a", &[]));
    assert_eq!(set(&journal, "a"), Some(Vec::new()));
    journal.record(Body::Trialled(Trialling::Runs {
        digest: digest("a"),
        windows: None,
    }));
    assert_eq!(set(&journal, "a"), None);
}

#[test]
fn law_figures_and_conditions_out_of_range_are_refused() {
    let journal = lake();
    let say = |figure| refused(&journal, figures_of("lake", vec![figure]));
    let mph = |text| typed(text, Unit::MilePerHour);
    let no_speed = "This is no unit of speed: write mph, km/h, kn or m/s.".to_owned();
    let top = |text, bare| figure(What::TopSpeed(Way::NotSaid), text, bare);
    assert_eq!(say(top("40", Unit::Rpm)), (Some("value"), no_speed.clone()));
    let to = typed("3", Unit::Second);
    let start = figure(What::Start { to }, "3", Unit::Second);
    assert_eq!(say(start), (Some("to"), no_speed.clone()));
    for (figure, field) in [
        (top("135", Unit::MilePerHour), "value"),
        (top("0.9 m/s", Unit::MilePerHour), "value"),
        (figure(What::EngineSpeed, "12100", Unit::Rpm), "value"),
        (figure(What::EngineSpeed, "490", Unit::Rpm), "value"),
        (
            figure(What::Start { to: mph("30") }, "121", Unit::Second),
            "value",
        ),
        (
            figure(What::Start { to: mph("1") }, "3", Unit::Second),
            "to",
        ),
    ] {
        let (found, words) = say(figure);
        assert_eq!(found, Some(field), "{words}");
        assert!(words.contains(" to "), "{words}");
    }
    let top = top("48", Unit::MilePerHour);
    let (field, words) = refused(&journal, figures_of("lake", vec![top; 65]));
    assert_eq!(field, Some("value"));
    assert_eq!(words, "There can be 64 figures here. Take one away first.");
    let described = |change: &dyn Fn(&mut Outing)| {
        let mut outing = draft("before").read().unwrap();
        change(&mut outing);
        let key = key("lake");
        refused(&journal, Body::Trialled(Trialling::Outing { key, outing }))
    };
    let unit = described(&|outing| outing.unit = Unit::Millimetre);
    assert_eq!(unit, (Some("unit"), no_speed));
    let humidity = described(&|outing| outing.humidity = Some(101));
    assert_eq!(humidity.0, Some("humidity"));
    let name = described(&|outing| outing.name = " ".into());
    assert_eq!(name.0, Some("name"));
    let wind = described(&|outing| outing.wind = Some(typed("41", Unit::MetrePerSecond)));
    assert_eq!(wind.0, Some("wind"));
    let water = typed("41", Unit::Celsius);
    let water = described(&|outing| outing.water_temperature = Some(water.clone()));
    assert_eq!(water.0, Some("water_temperature"));
    let pressure = typed("400", Unit::Millibar);
    let pressure = described(&|outing| outing.pressure = Some(pressure.clone()));
    assert_eq!(pressure.0, Some("pressure"));
}
