//! What to fit, as told. All of it is invented.

use std::f64::consts::PI;
use std::sync::Arc;

use jiff::Timestamp;
use jiff::civil::date;
use propulsion::surge::{Launch, surge};
use propulsion::unknown::Unknown;
use quantity::Unit;
use report::page::choose::{Stand, View, page};
use workshop::act::{Act, Stamp};
use workshop::choose::answer::answer;
use workshop::choose::craft::setup;
use workshop::choose::{Choosing, Wish};
use workshop::decide::decide;
use workshop::draft::choose::{CraftDraft, FittingDraft, WishDraft};
use workshop::draft::upkeep::{SortDraft, UsageDraft};
use workshop::draft::water::{FigureDraft, OutingDraft};
use workshop::entry::{Body, Entry, EntryId, JobId, Key};
use workshop::fold::fold;
use workshop::job::Job;
use workshop::upkeep::{self, Servicing};
use workshop::water::{Columns, Format, Logged, Trialling};

use crate::text::text;

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "thousandths of a speed"
)]
fn whole(value: f64) -> u32 {
    value.round() as u32
}

#[derive(Default)]
pub(crate) struct Journal(pub(crate) Vec<Entry>);

impl Journal {
    pub(crate) fn open() -> Self {
        let mut journal = Self::default();
        journal.act(Body::JobOpened {
            title: "Two-seat craft, new impeller".into(),
            note: String::new(),
            follows: None,
        });
        journal
    }

    pub(crate) fn act(&mut self, body: Body) {
        let stamp = Stamp {
            id: EntryId::new(&format!("e-{}", self.0.len() + 1)).unwrap(),
            now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
            device: "tablet".into(),
            who: "A. Example".into(),
            seen: None,
        };
        for new in decide(&fold(&self.0).0, Act::Record(body), stamp).unwrap() {
            self.0.push(Entry {
                position: u64::try_from(self.0.len()).unwrap() + 1,
                recorded_at: Timestamp::UNIX_EPOCH,
                new,
            });
        }
    }

    fn say(&mut self, said: Choosing) {
        self.act(Body::Chose(said));
    }

    pub(crate) fn craft(&mut self) {
        let draft = CraftDraft {
            power: "96 kW".into(),
            rated: "7000 rpm".into(),
            limiter: "7300 rpm".into(),
            wanted_from: "6850".into(),
            wanted_to: "7150".into(),
            impeller: "155 mm".into(),
            fitted: FittingDraft {
                leading: "13.5".into(),
                trailing: "18.5".into(),
                angles: "measured".into(),
                nozzle: "85 mm".into(),
                ..FittingDraft::default()
            },
            ..CraftDraft::default()
        };
        let facts = draft.read(Unit::Millimetre).unwrap();
        self.say(Choosing::Craft(Box::new(facts)));
    }

    fn option(&mut self, name: &str, [leading, trailing, nozzle, gap]: [&str; 4]) {
        let draft = FittingDraft {
            name: name.into(),
            leading: leading.into(),
            trailing: trailing.into(),
            angles: if leading.is_empty() { "" } else { "measured" }.into(),
            nozzle: nozzle.into(),
            gap: gap.into(),
            ..FittingDraft::default()
        };
        self.say(Choosing::Option {
            key: Key::of_name(name).unwrap(),
            fitting: Box::new(draft.read(Unit::Millimetre).unwrap()),
        });
    }

    fn options(&mut self) {
        self.option("14 to 19.5", ["14", "19.5", "", ""]);
        self.option("13 to 18", ["13", "18", "", ""]);
        self.option("86 nozzle", ["", "", "86", ""]);
        self.option("New ring", ["", "", "", "0.15 mm"]);
    }

    fn wish(&mut self, want: &str) {
        let draft = WishDraft {
            want: want.into(),
            to: String::new(),
        };
        let wish: Wish = draft.read(Unit::MilePerHour).unwrap();
        self.say(Choosing::Wish(wish));
    }

    /// Three figures read off: both ways, and the engine.
    fn read_off(&mut self, speeds: [&str; 2], engine: &str) {
        self.ran("before", speeds, engine);
    }

    /// The same of the outing of a side.
    pub(crate) fn ran(&mut self, side: &str, speeds: [&str; 2], engine: &str) {
        let draft = OutingDraft {
            name: if side == "before" { "Before" } else { "After" }.into(),
            side: side.into(),
            unit: "mph".into(),
            ..OutingDraft::default()
        };
        let outing = Key::new(side).unwrap();
        self.act(Body::Trialled(Trialling::Outing {
            key: outing.clone(),
            outing: draft.read().unwrap(),
        }));
        let figure = |what: &str, way: &str, value: &str| FigureDraft {
            what: what.into(),
            way: way.into(),
            to: String::new(),
            value: value.into(),
            read: "display".into(),
        };
        let figures = [
            figure("top-speed", "there", speeds[0]),
            figure("top-speed", "back", speeds[1]),
            figure("engine-speed", "", engine),
        ];
        let figures = figures
            .iter()
            .map(|one| one.read(Unit::MilePerHour).unwrap());
        self.act(Body::Trialled(Trialling::Figures {
            outing,
            figures: figures.collect(),
        }));
    }

    /// Four logged runs up and down, each from rest, of a craft whose physics is the model's own with
    /// other values; the engine's speed is in the log.
    fn logged(&mut self) {
        let draft = OutingDraft {
            name: "Before, logged".into(),
            side: "before".into(),
            unit: "mph".into(),
            receiver: "own".into(),
            water: "fresh".into(),
            ..OutingDraft::default()
        };
        let outing = Key::new("before").unwrap();
        self.act(Body::Trialled(Trialling::Outing {
            key: outing.clone(),
            outing: draft.read().unwrap(),
        }));
        let job = fold(&self.0).0;
        let setup = setup(&job, None).unwrap();
        let mut craft = setup.craft.clone();
        craft.unknowns[Unknown::Breakdown] = 9.0;
        craft.unknowns[Unknown::Hull] = 2.1;
        craft.unknowns[Unknown::Froth] = 0.2;
        let launch = Launch {
            inertia: 0.05,
            idle: 150.0,
            opens: 0.3,
        };
        let run = surge(&craft, &setup.day, launch, 34.0).unwrap();
        let mut columns = Columns::default();
        let mut at = 0_i64;
        let mut put = |speed: f64, course: u16, engine: f64| {
            let wobble = 0.06 * (f64::from(u16::try_from(at % 997).unwrap()) * 1.3).sin();
            columns.time_ms.push(100 * at);
            columns
                .speed_mm_s
                .push(whole((speed + wobble).max(0.0) * 1e3));
            columns.course_cdeg.push(Some(course));
            columns
                .engine_rpm
                .push(u16::try_from(whole(engine * 30.0 / PI)).ok());
            at += 1;
        };
        for pass in 0..4_u16 {
            let course = 9000 + 18_000 * (pass % 2);
            (0..150).for_each(|_| put(0.0, course, 150.0));
            for moment in &run {
                put(moment.speed, course, moment.engine);
            }
            let top = run[run.len() - 1].speed;
            for step in 0..120_u8 {
                put(top * (-0.04 * f64::from(step)).exp(), course, 150.0);
            }
        }
        let log = Logged {
            name: "before.csv".into(),
            bytes: 100_000,
            format: Format::Csv,
            speed_from: "speed".into(),
            read: u64::try_from(columns.time_ms.len()).unwrap(),
            thinned: false,
            unit_ratio: None,
            rejected: Vec::new(),
            layout: None,
            zero_ms: Some(0),
            stretches: vec![columns],
        };
        self.act(Body::Trialled(Trialling::Log {
            outing,
            digest: Key::new(&"a".repeat(64)).unwrap(),
            log: Arc::new(log),
        }));
    }

    fn job(&self) -> Job {
        fold(&self.0).0
    }

    fn page(&self) -> String {
        let (job, objections) = fold(&self.0);
        let says = answer(&job);
        let kept = upkeep::answer::answer(&job, date(2026, 5, 9));
        text(&page(&View {
            id: &JobId::new("job").unwrap(),
            job: &job,
            objections: &objections,
            says: &says,
            refused: None,
            stand: &Stand::default(),
            parts: &kept.parts,
        }))
    }
}

#[test]
fn practice_a_craft_that_was_not_described_asks_for_it() {
    insta::assert_snapshot!(Journal::open().page());
}

#[test]
fn practice_without_a_run_only_differences_in_wide_bands() {
    let mut journal = Journal::open();
    journal.craft();
    journal.options();
    insta::assert_snapshot!(journal.page());
}

#[test]
fn practice_three_figures_narrow_the_bands_and_starts_stay_untold() {
    let mut journal = Journal::open();
    journal.craft();
    journal.options();
    journal.read_off(["52.1", "51.3"], "6950");
    journal.wish("speed");
    insta::assert_snapshot!(journal.page());
}

#[test]
fn practice_part_throttle_is_not_believed() {
    let mut journal = Journal::open();
    journal.craft();
    journal.options();
    journal.read_off(["38.2", "37.9"], "5200");
    insta::assert_snapshot!(journal.page());
}

#[test]
fn practice_a_logged_start_tells_of_starts_too() {
    let mut journal = Journal::open();
    journal.craft();
    journal.options();
    journal.logged();
    journal.wish("both");
    insta::assert_snapshot!(journal.page());
}

#[test]
fn practice_what_an_option_costs_stands_beside_what_it_does() {
    let mut journal = Journal::open();
    journal.craft();
    journal.options();
    assert!(!journal.page().contains("What they cost"));
    let usage = UsageDraft {
        currency: "EUR".into(),
        season: "50".into(),
        failure: "150".into(),
        ..UsageDraft::default()
    };
    let usage = Servicing::Usage(Box::new(usage.read().unwrap()));
    journal.act(Body::Serviced(usage));
    let option = journal.job().choices.in_order()[3].0.clone();
    for (name, option, price) in [
        ("Plastic ring", option.to_string(), "45"),
        ("Priceless ring", option.to_string(), ""),
        ("Another", String::new(), "10"),
    ] {
        let sort = SortDraft {
            name: name.into(),
            option,
            price: price.into(),
            labour: "2".into(),
            tenth: "43".into(),
            half: "102".into(),
            ..SortDraft::default()
        };
        let part = Some(Box::new(sort.read().unwrap()));
        let key = Key::of_name(name).unwrap();
        journal.act(Body::Serviced(Servicing::Part { key, part }));
    }
    let page = journal.page();
    let (_, costs) = page.split_once("What they cost").unwrap();
    let (costs, _) = costs.split_once("Your own time at nothing").unwrap();
    assert!(costs.contains("New ring: Plastic ring"), "{costs}");
    assert!(costs.contains("EUR ("), "{costs}");
    assert!(costs.contains("of 10 cases"), "{costs}");
    assert!(costs.contains("cannot say yet"), "{costs}");
    assert!(!costs.contains("Another"), "{costs}");
}

/// The angles of two makers' stamps, and of a stamp and a protractor, are not held against each other.
#[test]
fn law_stamps_hold_within_one_maker() {
    let mut journal = Journal::open();
    journal.craft();
    journal.say(Choosing::Option {
        key: Key::new("stamped").unwrap(),
        fitting: Box::new(
            FittingDraft {
                name: "Stamped".into(),
                leading: "14".into(),
                trailing: "19".into(),
                angles: "stamped".into(),
                maker: "Somebody".into(),
                ..FittingDraft::default()
            }
            .read(Unit::Millimetre)
            .unwrap(),
        ),
    });
    let page = journal.page();
    assert!(
        page.contains("None of these can be held against what is fitted."),
        "{page}"
    );
    assert!(
        page.contains("Stamped angles are the maker’s own"),
        "{page}"
    );
}
