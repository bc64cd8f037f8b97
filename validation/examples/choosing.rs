//! How long choosing takes: one balance, one run, learning from a log, and two dozen options; and how long it takes to say
//! what is wrong.
//!
//!     cargo run --release -p validation --example choosing
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "it times and prints"
)]

use std::f64::consts::PI;
use std::hint::black_box;
use std::sync::Arc;
use std::time::{Duration, Instant};

use jiff::Timestamp;
use propulsion::craft::Conditions;
use propulsion::matching::{full_throttle, full_throttle_near};
use propulsion::run::run;
use propulsion::surge::{Launch, surge};
use propulsion::unknown::Unknown;
use quantity::{Unit, parse};
use workshop::act::{Act, Stamp};
use workshop::choose::Choosing;
use workshop::choose::answer::{DRAWS, answer, inputs};
use workshop::choose::craft::setup;
use workshop::decide::decide;
use workshop::diagnose::answer as diagnose;
use workshop::diagnose::expected::reckon;
use workshop::draft::choose::{CraftDraft, FittingDraft};
use workshop::draft::water::OutingDraft;
use workshop::entry::{Body, Entry, EntryId, Key};
use workshop::fold::fold;
use workshop::water::{Columns, Figure, Format, Logged, Read, Trialling, Way, What};

fn main() {
    let mut journal = journal();
    for number in 0..24_u32 {
        let leading = 12.5 + 0.1 * f64::from(number);
        option(&mut journal, number, leading);
    }
    let job = fold(&journal).0;
    let craft = {
        let mut craft = setup(&job, None).unwrap().craft;
        craft.unknowns[Unknown::Breakdown] = 9.0;
        craft
    };
    let day = Conditions::fresh();
    let near = full_throttle(&craft, &day, 20.0).unwrap();
    let speed = |at: u32| 20.0 + 0.5 * f64::from(at % 2);
    let balance = timed(200_000, |at| {
        black_box(full_throttle_near(&craft, &day, speed(at), &near).unwrap());
    });
    println!("one balance from a near one: {balance:?}");
    println!(
        "one run from rest: {:?}",
        timed(2000, |_| {
            black_box(run(&craft, &day).unwrap());
        })
    );
    let small = inputs(&job);
    let alone = timed(3, |_| {
        black_box(answer(&small));
    });
    println!("24 options, {DRAWS} beliefs, nothing learnt: {alone:?}");
    let log = log(&craft, &day);
    let samples = log.stretches[0].time_ms.len();
    read(&mut journal, ("before", "a"), log.clone());
    let whole = inputs(&fold(&journal).0);
    let learnt = timed(3, |_| {
        black_box(answer(&whole));
    });
    println!(
        "the same with a log of {samples} samples, runs found and craft learnt anew: {learnt:?}"
    );
    let mut typed = journal.clone();
    outing(&mut typed, "after");
    figures(&mut typed, "after");
    read(&mut journal, ("after", "b"), log);
    for (what, journal) in [("three figures", &typed), ("another such log", &journal)] {
        let job = diagnose::inputs(&fold(journal).0);
        let told = timed(3, |_| {
            black_box(diagnose::answer(&job));
        });
        println!("what is wrong, {what} against that log, craft learnt anew: {told:?}");
        let reckoned = reckon(&job);
        let again = timed(20, |_| {
            black_box(diagnose::answer_by(&job, &reckoned));
        });
        println!("  a sign or a check more: {again:?}");
    }
}

/// The least of three rounds, for one.
fn timed(count: u32, mut once: impl FnMut(u32)) -> Duration {
    let round = |_: u32| {
        let begin = Instant::now();
        (0..count).for_each(&mut once);
        begin.elapsed() / count
    };
    (0..3).map(round).min().unwrap()
}

fn push(journal: &mut Vec<Entry>, body: Body) {
    let stamp = Stamp {
        id: EntryId::new(&format!("e-{}", journal.len() + 1)).unwrap(),
        now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
        device: String::new(),
        who: String::new(),
        seen: None,
    };
    for new in decide(&fold(journal).0, Act::Record(body), stamp).unwrap() {
        journal.push(Entry {
            position: u64::try_from(journal.len()).unwrap() + 1,
            recorded_at: Timestamp::UNIX_EPOCH,
            new,
        });
    }
}

fn journal() -> Vec<Entry> {
    let mut journal = Vec::new();
    push(
        &mut journal,
        Body::JobOpened {
            title: "Invented".into(),
            note: String::new(),
            follows: None,
        },
    );
    let draft = CraftDraft {
        power: "96 kW".into(),
        rated: "7000 rpm".into(),
        limiter: "7300 rpm".into(),
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
    let facts = Box::new(draft.read(Unit::Millimetre).unwrap());
    push(&mut journal, Body::Chose(Choosing::Craft(facts)));
    journal
}

fn option(journal: &mut Vec<Entry>, number: u32, leading: f64) {
    let draft = FittingDraft {
        name: format!("Option {number}"),
        leading: format!("{leading:.1}"),
        trailing: format!("{:.1}", leading + 5.2),
        angles: "measured".into(),
        ..FittingDraft::default()
    };
    let fitting = Box::new(draft.read(Unit::Millimetre).unwrap());
    let key = Key::of_name(&draft.name).unwrap();
    push(journal, Body::Chose(Choosing::Option { key, fitting }));
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "thousandths of a speed"
)]
fn whole(value: f64) -> u32 {
    value.round() as u32
}

/// Twenty minutes at ten a second: rest, full throttle from rest, off, and again the other way.
fn log(craft: &propulsion::craft::Craft, day: &Conditions) -> Logged {
    let launch = Launch {
        inertia: 0.05,
        idle: 150.0,
        opens: 0.3,
    };
    let run = surge(craft, day, launch, 34.0).unwrap();
    let mut columns = Columns::default();
    let mut put = |speed: f64, course: u16, engine: f64| {
        let at = i64::try_from(columns.time_ms.len()).unwrap();
        let wobble = 0.06 * (f64::from(u16::try_from(at % 997).unwrap()) * 1.3).sin();
        columns.time_ms.push(100 * at);
        columns
            .speed_mm_s
            .push(whole((speed + wobble).max(0.0) * 1e3));
        columns.course_cdeg.push(Some(course));
        let turns = u16::try_from(whole(engine * 30.0 / PI)).ok(); // not a conversion: what a log keeps
        columns.engine_rpm.push(turns);
    };
    for pass in 0..20_u16 {
        let course = 9000 + 18_000 * (pass % 2);
        (0..150).for_each(|_| put(0.0, course, 150.0));
        for moment in &run {
            put(moment.speed, course, moment.engine);
        }
        let top = run[run.len() - 1].speed;
        (0..110_u8).for_each(|step| put(top * (-0.04 * f64::from(step)).exp(), course, 150.0));
    }
    Logged {
        name: "drawn.csv".into(),
        bytes: 1,
        format: Format::Csv,
        speed_from: "speed".into(),
        read: u64::try_from(columns.time_ms.len()).unwrap(),
        thinned: false,
        unit_ratio: None,
        rejected: Vec::new(),
        layout: None,
        zero_ms: Some(0),
        stretches: vec![columns],
    }
}

fn outing(journal: &mut Vec<Entry>, name: &str) {
    let draft = OutingDraft {
        name: name.into(),
        side: name.into(),
        unit: "mph".into(),
        receiver: "own".into(),
        ..OutingDraft::default()
    };
    let said = Trialling::Outing {
        key: Key::new(name).unwrap(),
        outing: draft.read().unwrap(),
    };
    push(journal, Body::Trialled(said));
}

fn figures(journal: &mut Vec<Entry>, name: &str) {
    let figure = |what, text: &str, unit| Figure {
        what,
        value: parse(text, unit).unwrap(),
        read: Read::Receiver,
    };
    let to = parse("30", Unit::MilePerHour).unwrap();
    let said = Trialling::Figures {
        outing: Key::new(name).unwrap(),
        figures: vec![
            figure(What::TopSpeed(Way::There), "50", Unit::MilePerHour),
            figure(What::EngineSpeed, "6900", Unit::Rpm),
            figure(What::Start { to }, "3.1", Unit::Second),
        ],
    };
    push(journal, Body::Trialled(said));
}

fn read(journal: &mut Vec<Entry>, (name, digest): (&str, &str), log: Logged) {
    outing(journal, name);
    let said = Trialling::Log {
        outing: Key::new(name).unwrap(),
        digest: Key::new(&digest.repeat(64)).unwrap(),
        log: Arc::new(log),
    };
    push(journal, Body::Trialled(said));
}
