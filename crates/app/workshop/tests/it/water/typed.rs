//! What a person types of a water test, and a file. All data are invented.

use proptest::prelude::*;
use quantity::Unit;
use workshop::draft::JobDraft;
use workshop::draft::water::{FigureDraft, OutingDraft, WindowDraft, clock};
use workshop::water::{Way, What, Window};

use super::{draft, figures, lake, runs, set, typed};
use crate::journal::Journal;

#[test]
fn law_a_draft_brings_the_trials_of_a_job_and_says_nothing_twice() {
    let mut journal = lake();
    journal.record(runs("a", &[(0, 9000)]));
    journal.record(figures("lake"));
    let draft = JobDraft::of(&journal.job());
    assert_eq!(draft.acts(&journal.job()).unwrap(), []);
    assert_eq!(JobDraft::card(&journal.job()).trials, []);
    let mut other = Journal::described();
    for act in draft.acts(&other.job()).unwrap() {
        other.act(act);
    }
    assert_eq!(JobDraft::of(&other.job()).trials, draft.trials);
    assert_eq!(set(&other, "a"), Some(vec![(0, 9000)]));
}

/// An outing with all there is to say.
fn full() -> OutingDraft {
    OutingDraft {
        receiver: "phone".into(),
        water: "salt".into(),
        water_temperature: "64 °F".into(),
        wind: "8 kn".into(),
        waves: "0,2".into(),
        air_temperature: "21".into(),
        pressure: "1008".into(),
        humidity: "60".into(),
        charged: "yes".into(),
        note: "Two up".into(),
        ..draft("after")
    }
}

#[test]
fn law_what_is_typed_is_read_and_written_again() {
    let full = full();
    assert_eq!(OutingDraft::of(&full.read().unwrap()), full);
    let percent = OutingDraft {
        humidity: " 60 % ".into(),
        ..full.clone()
    };
    assert_eq!(OutingDraft::of(&percent.read().unwrap()), full);
    for (field, bad) in [
        (
            "side",
            OutingDraft {
                side: "between".into(),
                ..full.clone()
            },
        ),
        (
            "unit",
            OutingDraft {
                unit: "mm".into(),
                ..full.clone()
            },
        ),
        (
            "receiver",
            OutingDraft {
                receiver: "ear".into(),
                ..full.clone()
            },
        ),
        (
            "water",
            OutingDraft {
                water: "beer".into(),
                ..full.clone()
            },
        ),
        (
            "humidity",
            OutingDraft {
                humidity: "wet".into(),
                ..full.clone()
            },
        ),
        (
            "charged",
            OutingDraft {
                charged: "maybe".into(),
                ..full.clone()
            },
        ),
        (
            "waves",
            OutingDraft {
                waves: "2 kn".into(),
                ..full.clone()
            },
        ),
    ] {
        assert_eq!(bad.read().unwrap_err().field(), Some(field));
    }
}

#[test]
fn law_a_figure_is_read_in_the_unit_of_its_outing() {
    let start = FigureDraft {
        what: "start".into(),
        value: "2.9".into(),
        read: "video".into(),
        ..FigureDraft::default()
    };
    let read = start.read(Unit::Knot).unwrap();
    assert_eq!(
        read.what,
        What::Start {
            to: typed("30 mph", Unit::Knot)
        }
    );
    let again = FigureDraft::of(&read, Unit::Knot).read(Unit::Knot);
    assert_eq!(again.unwrap(), read);
    let top = FigureDraft {
        what: "top-speed".into(),
        ..start
    };
    let read = top.read(Unit::Knot).unwrap();
    assert_eq!(read.what, What::TopSpeed(Way::NotSaid));
    assert_eq!(read.value, typed("2.9", Unit::Knot));
}

#[test]
fn practice_a_time_is_typed_as_people_do() {
    let read = |text: &str| {
        let window = WindowDraft {
            from: text.into(),
            until: "9".into(),
        };
        window.read().map(|window| window.from_ms)
    };
    for (text, ms) in [
        ("0", 0),
        ("62.5", 62_500),
        ("62,5 s", 62_500),
        ("1:02.5", 62_500),
        ("1:02.050", 62_050),
        ("100:00.001", 6_000_001),
        ("-0:00.2", -200),
        ("−0.2", -200),
    ] {
        assert_eq!(read(text).unwrap(), ms, "{text}");
    }
    for text in [
        "",
        "soon",
        "1:2:3",
        "1.2345",
        ".",
        "1.",
        "-",
        "--1",
        "1:-5",
        "9999999999",
    ] {
        let refusal = read(text).unwrap_err();
        assert_eq!(refusal.field(), Some("from"), "{text}");
    }
    assert_eq!(clock(62_500), "1:02.5");
    assert_eq!(clock(12_345), "0:12.345");
    assert_eq!(clock(-200), "-0:00.2");
}

proptest! {
    #[test]
    fn law_a_window_is_read_as_it_was_written(
        // Twenty years, as after a jump of the receiver's date, to either side.
        from_ms in -630_000_000_000_i64..630_000_000_000,
        until_ms in -700_000_i64..700_000,
    ) {
        let window = Window { from_ms, until_ms };
        prop_assert_eq!(WindowDraft::of(window).read().unwrap(), window);
        let until = WindowDraft::of(window).until;
        let (_, seconds) = until.split_once(':').unwrap();
        prop_assert!(seconds.split_once('.').unwrap().0.len() == 2, "{}", until);
    }

    #[test]
    fn law_any_text_is_a_time_or_refused(text in "[-−0-9:., s]{0,12}") {
        let draft = WindowDraft { from: text.clone(), until: text };
        if let Ok(window) = draft.read() {
            prop_assert_eq!(WindowDraft::of(window).read().unwrap(), window);
        }
    }
}
