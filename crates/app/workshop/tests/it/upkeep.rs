//! Service: what folds, what is typed, what a file and a card bring. All data are invented.

mod brought;
mod refused;

use std::collections::BTreeSet;

use jiff::civil::Date;
use quantity::{Entered, Unit};
use workshop::act::Act;
use workshop::draft::JobDraft;
use workshop::draft::upkeep::{
    DoneDraft, EDGES, ENDINGS, MISHAPS, MeterDraft, MishapDraft, POINTS, PieceDraft, RuleDraft,
    SORTS, SortDraft, TRUSTS, UsageDraft,
};
use workshop::entry::{Body, Key};
use workshop::fold::Misfit;
use workshop::refusal::Refusal;
use workshop::upkeep::recheck::Point;
use workshop::upkeep::tasks::{TASKS, task};
use workshop::upkeep::{End, Mishap, MonthDay, PartKind, Servicing, Told, Trust, evidence};

use crate::journal::{Journal, opened, stamp};

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn words(text: &str) -> String {
    text.to_owned()
}

fn usage() -> UsageDraft {
    UsageDraft {
        currency: words("EUR"),
        water: words("sand"),
        silt: words("2"),
        sand: words("4,5"),
        week: words("6"),
        season: words("50 h"),
        from: words("05-01"),
        until: words("09-30"),
        keep: words("300"),
        wage: words("0"),
        failure: words("150"),
        worth: words("12 1/2"),
        between: words("80"),
        floor: words("90"),
    }
}

fn sort(name: &str) -> SortDraft {
    SortDraft {
        name: words(name),
        kind: words("ring"),
        option: String::new(),
        price: words("45.50"),
        supplies: words("8"),
        labour: words("90 min"),
        tenth: words("43"),
        half: words("102"),
        trust: words("fair"),
        ruin: words("15"),
        lost: words("4"),
        lost_at: words("100"),
        note: words("One maker"),
    }
}

fn piece() -> PieceDraft {
    PieceDraft {
        part: words("soft"),
        elsewhere: String::new(),
        water: String::new(),
        fitted: words("20"),
        good: words("80"),
        end: words("worn"),
        ended: words("100.25"),
        note: words("grooves"),
    }
}

fn rule() -> RuleDraft {
    RuleDraft {
        name: words("Bearing"),
        hours: words("40"),
        months: words("6"),
        after: vec![words("milky"), words("strike")],
        edge: words("lay-up"),
        page: words("9-4"),
    }
}

fn said(said: Servicing) -> Body {
    Body::Serviced(said)
}

fn said_usage(draft: &UsageDraft) -> Body {
    said(Servicing::Usage(Box::new(draft.read().unwrap())))
}

fn said_sort(name: &str, draft: &SortDraft) -> Body {
    let part = Some(Box::new(draft.read().unwrap()));
    let key = key(name);
    said(Servicing::Part { key, part })
}

fn said_piece(name: &str, draft: &PieceDraft) -> Body {
    let piece = Some(Box::new(draft.read().unwrap()));
    let key = key(name);
    said(Servicing::Piece { key, piece })
}

fn said_rule(name: &str, draft: &RuleDraft) -> Body {
    let rule = Some(Box::new(draft.read().unwrap()));
    let task = key(name);
    said(Servicing::Rule { task, rule })
}

fn no_sort(name: &str) -> Body {
    let key = key(name);
    said(Servicing::Part { key, part: None })
}

fn no_piece(name: &str) -> Body {
    let key = key(name);
    said(Servicing::Piece { key, piece: None })
}

fn no_rule(name: &str) -> Body {
    let task = key(name);
    said(Servicing::Rule { task, rule: None })
}

fn meter(on: &str, hours: &str) -> Body {
    let (on, hours) = (words(on), words(hours));
    said(Servicing::Meter(MeterDraft { on, hours }.read().unwrap()))
}

fn mishap(what: &str, on: &str, hours: &str) -> Body {
    let draft = MishapDraft {
        what: words(what),
        on: words(on),
        hours: words(hours),
        note: words("off the ramp"),
    };
    said(Servicing::Happened(draft.read().unwrap()))
}

fn done(task: &str, on: &str, hours: &str) -> Body {
    let draft = DoneDraft {
        task: words(task),
        on: words(on),
        hours: words(hours),
        note: words("clear"),
    };
    said(Servicing::Done(draft.read().unwrap()))
}

fn looked_at(point: Point, well: Option<bool>) -> Body {
    let note = words("seen");
    said(Servicing::Rechecked { point, well, note })
}

fn closed(journal: &Journal) -> Body {
    said(Servicing::Closed(Box::new(Told {
        evidence: evidence(&journal.job()),
        words: words("All nine points well."),
        program: words("a test"),
    })))
}

/// A job that is open, and nothing else.
fn bare() -> Journal {
    let mut journal = Journal::default();
    journal.act(opened());
    journal
}

/// A job of which everything is said but that it is closed.
fn kept_up() -> Journal {
    let mut journal = bare();
    journal.record(said_usage(&usage()));
    journal.record(said_sort("soft", &sort("Soft ring")));
    journal.record(said_sort("hard", &sort("Hard ring")));
    journal.record(said_piece("first", &piece()));
    journal.record(meter("2026-05-01", "100"));
    journal.record(mishap("strike", "2026-06-01", "120"));
    journal.record(said_rule("bearing", &rule()));
    journal.record(done("bearing", "2026-06-02", "121"));
    journal.record(looked_at(Point::Gap, Some(false)));
    journal
}

fn why(journal: &Journal) -> Vec<Misfit> {
    let objections = journal.objections().into_iter();
    objections.map(|open| open.why).collect()
}

fn date(text: &str) -> Date {
    text.parse().unwrap()
}

#[test]
fn law_a_bare_number_is_hours_and_a_price_is_a_number() {
    let usage = usage().read().unwrap();
    let unit = |entered: &Option<Entered>| entered.as_ref().map(|entered| entered.unit);
    assert_eq!(unit(&usage.week), Some(Unit::Hour));
    let value = usage.season.as_ref().map(|season| season.value);
    assert_eq!(value, Some(50.0 * 3600.0)); // not a conversion: hours spelled out
    let figure = |plain: &Option<quantity::Plain>| plain.as_ref().map(|plain| plain.value);
    assert_eq!(figure(&usage.sand), Some(4.5));
    assert_eq!(figure(&usage.worth), Some(12.5));
    assert_eq!(figure(&usage.wage), Some(0.0));
    let edge = |month, day| MonthDay { month, day };
    assert_eq!(usage.open, Some((edge(5, 1), edge(9, 30))));
    let part = sort("Soft").read().unwrap();
    assert_eq!(unit(&part.labour), Some(Unit::Minute));
    assert_eq!(
        (part.kind, part.trust),
        (Some(PartKind::Ring), Some(Trust::Fair))
    );
    let (end, ended) = piece().read().unwrap().end.unwrap();
    assert_eq!((end, ended.unit), (End::Worn, Unit::Hour));
    let rule = rule().read().unwrap();
    assert_eq!(rule.months, Some(6));
    assert_eq!(rule.after, BTreeSet::from([Mishap::Strike, Mishap::Milky]));
}

#[test]
fn law_what_is_typed_of_service_comes_back_as_typed() {
    assert_eq!(UsageDraft::of(&usage().read().unwrap()), usage());
    assert_eq!(SortDraft::of(&sort("a").read().unwrap()), sort("a"));
    assert_eq!(PieceDraft::of(&piece().read().unwrap()), piece());
    let mut after = rule();
    after.after.reverse();
    assert_eq!(RuleDraft::of(&rule().read().unwrap()), after);
    let nothing = UsageDraft::default();
    assert_eq!(UsageDraft::of(&nothing.read().unwrap()), nothing);
    let nothing = RuleDraft::default();
    assert_eq!(RuleDraft::of(&nothing.read().unwrap()), nothing);
}

/// Every day of a leap year comes back, and nothing else is one.
#[test]
fn law_a_day_of_any_year_is_month_and_day() {
    let mut days = 0;
    for month in 0..=13 {
        for day in 0..=32 {
            let text = format!("{month:02}-{day:02}");
            let is_one = Date::new(2024, month, day).is_ok();
            let read = MonthDay::parse(&text);
            assert_eq!(read, is_one.then_some(MonthDay { month, day }), "{text}");
            days += usize::from(is_one);
        }
    }
    assert_eq!(days, 366);
    for text in ["5-1", "05-1", "W05-1", "0501", "2026-05-01", "05-01 ", ""] {
        assert_eq!(MonthDay::parse(text), None, "{text}");
    }
}

#[test]
fn law_everything_of_service_has_a_word_of_its_own() {
    for point in Point::ALL {
        assert_eq!(POINTS.iter().filter(|(_, one)| *one == point).count(), 1);
    }
    let unlike = |all: &[&str]| all.iter().collect::<BTreeSet<_>>().len() == all.len();
    assert!(unlike(&POINTS.map(|(word, _)| word)) && unlike(&MISHAPS.map(|(word, _)| word)));
    assert!(unlike(&SORTS.map(|(word, _)| word)) && unlike(&TRUSTS.map(|(word, _)| word)));
    assert!(unlike(&ENDINGS.map(|(word, _)| word)) && unlike(&EDGES.map(|(word, _)| word)));
    let tasks: Vec<&str> = TASKS.iter().map(|task| task.key).collect();
    assert!(unlike(&tasks));
    // A rule may be made for each, so each is a key; each falls due some time.
    for general in TASKS {
        assert!(Key::new(general.key).is_ok() && task(general.key).is_some());
        let by_time = general.hours.is_some() || general.months.is_some();
        let by_event = !general.after.is_empty() || general.edge.is_some();
        assert!(
            by_time || by_event || general.every.is_some(),
            "{}",
            general.key
        );
        assert!(!general.how.is_empty() && !general.name.is_empty());
    }
}

#[test]
fn law_what_is_said_of_service_folds() {
    let journal = kept_up();
    let upkeep = journal.job().upkeep;
    assert_eq!(why(&journal), []);
    assert_eq!(upkeep.usage(), usage().read().unwrap());
    let names: Vec<_> = upkeep
        .parts_in_order()
        .into_iter()
        .map(|(key, _)| key.as_str())
        .collect();
    assert_eq!(names, ["soft", "hard"]);
    assert_eq!(
        upkeep.pieces_in_order(),
        [(&key("first"), &piece().read().unwrap())]
    );
    assert_eq!(upkeep.meter[0].on, date("2026-05-01"));
    assert_eq!(upkeep.mishaps[0].what.value.what, Mishap::Strike);
    assert_eq!(upkeep.rules[&key("bearing")].value, rule().read().unwrap());
    assert_eq!(upkeep.done[0].on, date("2026-06-02"));
    assert_eq!(
        upkeep.recheck[&Point::Gap].what.value,
        (false, words("seen"))
    );
    assert!(upkeep.closed.is_none() && !upkeep.is_empty());
    assert!(bare().job().upkeep.is_empty());
}

/// What says no day is of the day it was told.
#[test]
fn law_a_day_left_open_is_that_of_the_telling() {
    let mut journal = bare();
    let told = stamp("x").now.date();
    journal.record(meter("", "100"));
    journal.record(mishap("hot", "", ""));
    journal.record(done("gap", "", ""));
    journal.record(looked_at(Point::Cone, Some(true)));
    let upkeep = journal.job().upkeep;
    let days = [upkeep.meter[0].on, upkeep.mishaps[0].on, upkeep.done[0].on];
    assert_eq!(days, [told; 3]);
    assert_eq!(upkeep.recheck[&Point::Cone].on, told);
    assert_eq!(
        JobDraft::of(&journal.job()).upkeep.meter[0].on,
        told.to_string()
    );
}

#[test]
fn law_what_is_said_again_takes_the_place_of_what_was_said() {
    let mut journal = kept_up();
    let other = UsageDraft {
        week: words("5"),
        ..UsageDraft::default()
    };
    journal.record(said_usage(&other));
    journal.record(said_sort("soft", &sort("Softer")));
    journal.record(looked_at(Point::Gap, Some(true)));
    let upkeep = journal.job().upkeep;
    assert_eq!(upkeep.usage(), other.read().unwrap());
    // It stays where it was named first.
    assert_eq!(upkeep.parts_in_order()[0].1.name, "Softer");
    assert!(upkeep.recheck[&Point::Gap].what.value.0);
    journal.record(looked_at(Point::Gap, None));
    journal.record(no_piece("first"));
    journal.record(no_sort("soft"));
    let upkeep = journal.job().upkeep;
    assert!(upkeep.recheck.is_empty() && upkeep.pieces.is_empty());
    assert_eq!(upkeep.parts.len(), 1);
    // A general task goes back to general practice; nothing is said against what was done of it.
    journal.record(said_rule("gap", &rule()));
    journal.record(done("gap", "", ""));
    journal.record(no_rule("gap"));
    assert_eq!(why(&journal), []);
}

/// What another device said meanwhile: what it rests on is gone.
#[test]
fn law_what_rests_on_what_is_gone_is_objected_to() {
    let mut journal = kept_up();
    journal.record(no_sort("soft"));
    assert_eq!(why(&journal), [Misfit::NoSuchSort]);
    journal.record(no_rule("bearing"));
    assert_eq!(why(&journal), [Misfit::NoSuchSort, Misfit::NoSuchTask]);
    // Neither goes into a file, which could not be read.
    let draft = JobDraft::of(&journal.job()).upkeep;
    assert!(draft.pieces.is_empty() && draft.done.is_empty());
    journal.act(Act::Undo);
    journal.act(Act::Undo);
    assert_eq!(why(&journal), []);
    journal.force(no_sort("other"));
    journal.force(no_piece("other"));
    journal.force(no_rule("other"));
    let gone = [Misfit::NoSuchSort, Misfit::NoSuchSort, Misfit::NoSuchTask];
    assert_eq!(why(&journal), gone);
}

#[test]
fn law_a_job_stays_closed_on_what_it_rested_on() {
    let mut journal = kept_up();
    for point in Point::ALL {
        journal.record(looked_at(point, Some(true)));
    }
    let told = closed(&journal);
    journal.record(told.clone());
    assert!(journal.job().upkeep.closed.is_some());
    assert_eq!(why(&journal), []);
    // What is no part of the recheck leaves it closed.
    journal.record(meter("", "200"));
    assert_eq!(why(&journal), []);
    journal.record(looked_at(Point::Bilge, Some(false)));
    assert_eq!(why(&journal), [Misfit::ClosedOnOtherGrounds]);
    journal.record(looked_at(Point::Bilge, Some(true)));
    assert_eq!(why(&journal), [Misfit::ClosedOnOtherGrounds]);
    let stale = journal.try_act(Act::Record(told));
    assert_eq!(stale, Err(Refusal::ShownIsStale));
    let told = closed(&journal);
    journal.record(told);
    assert_eq!(why(&journal), []);
}
