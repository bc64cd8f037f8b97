//! When it is opened again, what lasts, what it costs. All data are invented.

mod parts;

use jiff::civil::{Date, date};
use quantity::Unit;
use workshop::draft::upkeep::{
    DoneDraft, MeterDraft, MishapDraft, PieceDraft, PointDraft, RuleDraft, SortDraft, UsageDraft,
};
use workshop::entry::{Body, Key};
use workshop::upkeep::answer::{Answer, By, Due, Pace, Says, answer};
use workshop::upkeep::recheck::Point;
use workshop::upkeep::{Servicing, Told, evidence};

use crate::journal::Journal;

fn words(text: &str) -> String {
    text.to_owned()
}

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn say(journal: &mut Journal, said: Servicing) {
    journal.record(Body::Serviced(said));
}

fn usage(journal: &mut Journal, change: impl Fn(UsageDraft) -> UsageDraft) {
    let usage = change(UsageDraft {
        currency: words("EUR"),
        season: words("50"),
        week: words("6"),
        failure: words("150"),
        ..UsageDraft::default()
    });
    say(journal, Servicing::Usage(Box::new(usage.read().unwrap())));
}

/// On a day, which may lie before that of the telling.
fn meter(journal: &mut Journal, on: &str, hours: &str) {
    let read = MeterDraft {
        on: words(on),
        hours: words(hours),
    };
    say(journal, Servicing::Meter(read.read().unwrap()));
}

fn done(journal: &mut Journal, task: &str, on: &str, hours: &str) {
    let done = DoneDraft {
        task: words(task),
        on: words(on),
        hours: words(hours),
        note: String::new(),
    };
    say(journal, Servicing::Done(done.read().unwrap()));
}

fn mishap(journal: &mut Journal, what: &str, on: &str) {
    let what = MishapDraft {
        what: words(what),
        on: words(on),
        ..MishapDraft::default()
    };
    say(journal, Servicing::Happened(what.read().unwrap()));
}

fn rule(journal: &mut Journal, task: &str, rule: &RuleDraft) {
    let rule = Some(Box::new(rule.read().unwrap()));
    say(
        journal,
        Servicing::Rule {
            task: key(task),
            rule,
        },
    );
}

fn part(journal: &mut Journal, name: &str, of: [&str; 5]) {
    let [price, labour, tenth, half, trust] = of.map(words);
    let part = SortDraft {
        name: format!("{name} ring"),
        kind: words("ring"),
        price,
        supplies: words("8"),
        labour,
        tenth,
        half,
        trust,
        ruin: words("15"),
        ..SortDraft::default()
    };
    let part = Some(Box::new(part.read().unwrap()));
    let key = key(name);
    say(journal, Servicing::Part { key, part });
}

fn piece(journal: &mut Journal, name: &str, of: [&str; 5]) {
    let [part, fitted, good, end, ended] = of.map(words);
    let piece = PieceDraft {
        part,
        fitted,
        good,
        end,
        ended,
        ..PieceDraft::default()
    };
    let piece = Some(Box::new(piece.read().unwrap()));
    let key = key(name);
    say(journal, Servicing::Piece { key, piece });
}

fn both(journal: &mut Journal) {
    part(journal, "plastic", ["45", "2", "43", "102", "fair"]);
    part(journal, "metal", ["260", "2.5", "189", "354", "fair"]);
}

fn told(journal: &Journal, today: Date) -> Answer {
    answer(&journal.job(), today)
}

fn due<'a>(answer: &'a Answer, task: &str) -> &'a Due {
    answer.due.iter().find(|due| due.task == key(task)).unwrap()
}

fn hours(seconds: f64) -> f64 {
    Unit::Hour.from_si(seconds)
}

fn whole(seconds: f64) -> String {
    format!("{:.0}", hours(seconds))
}

/// 88 h read, due at 125 h, 6 h a week: 43.17 days on. By hand.
#[test]
fn practice_hours_become_a_day_by_the_pace() {
    let mut journal = Journal::described();
    usage(&mut journal, |usage| usage);
    meter(&mut journal, "2026-05-02", "88");
    rule(
        &mut journal,
        "gap",
        &RuleDraft {
            hours: words("37"),
            page: words("5-14"),
            ..RuleDraft::default()
        },
    );
    let answer = told(&journal, date(2026, 5, 2));
    let gap = due(&answer, "gap");
    assert_eq!(whole(gap.first.hours.unwrap()), "125");
    assert_eq!(gap.first.on, Some(date(2026, 6, 14)));
    assert_eq!(gap.says, Says::Stated(words("5-14")));
    assert!(!gap.overdue);
    assert!(due(&told(&journal, date(2026, 6, 15)), "gap").overdue);
}

#[test]
fn practice_days_out_of_season_do_not_count() {
    let mut journal = Journal::described();
    usage(&mut journal, |usage| UsageDraft {
        week: words("7"),
        from: words("05-01"),
        until: words("05-10"),
        ..usage
    });
    meter(&mut journal, "2026-05-01", "0");
    rule(
        &mut journal,
        "gap",
        &RuleDraft {
            hours: words("12"),
            ..RuleDraft::default()
        },
    );
    // An hour a day: nine days are left of this season, three of the next one are needed.
    let answer = told(&journal, date(2026, 5, 1));
    assert_eq!(due(&answer, "gap").first.on, Some(date(2027, 5, 3)));
    let later = told(&journal, date(2026, 12, 1));
    assert_eq!(whole(later.hours.unwrap().today), "9");
}

#[test]
fn practice_a_pace_is_learnt_from_two_readings_a_fortnight_apart() {
    let mut journal = Journal::described();
    meter(&mut journal, "2026-04-01", "10");
    meter(&mut journal, "2026-04-08", "17");
    assert_eq!(told(&journal, date(2026, 4, 8)).hours.unwrap().pace, None);
    meter(&mut journal, "2026-05-01", "40");
    let hours_now = told(&journal, date(2026, 5, 4)).hours.unwrap();
    let (pace, how) = hours_now.pace.unwrap();
    assert_eq!(how, Pace::Learnt);
    assert!((hours(pace) - 1.0).abs() < 1e-12);
    assert!((hours(hours_now.today) - 43.0).abs() < 1e-12);
}

/// The last of February stands for the 31st; from when it was done, not from when it was due.
#[test]
fn practice_months_go_by_the_calendar() {
    let mut journal = Journal::described();
    let monthly = RuleDraft {
        name: words("Anodes"),
        months: words("1"),
        ..RuleDraft::default()
    };
    rule(&mut journal, "anode", &monthly);
    done(&mut journal, "anode", "2026-01-31", "");
    let answer = told(&journal, date(2026, 2, 1));
    assert_eq!(due(&answer, "anode").first.on, Some(date(2026, 2, 28)));
    done(&mut journal, "anode", "2026-03-05", "");
    let answer = told(&journal, date(2026, 3, 6));
    assert_eq!(due(&answer, "anode").first.on, Some(date(2026, 4, 5)));
    assert_eq!(due(&answer, "anode").cycle, 2);
}

#[test]
fn practice_a_strike_goes_before_everything_until_it_was_looked_into() {
    let mut journal = Journal::described();
    usage(&mut journal, |usage| usage);
    meter(&mut journal, "2026-04-01", "88");
    done(&mut journal, "strike", "2026-04-02", "");
    mishap(&mut journal, "strike", "2026-05-01");
    let answer = told(&journal, date(2026, 5, 2));
    assert_eq!(answer.due[0].task, key("strike"));
    assert!(answer.due[0].overdue);
    assert!(matches!(answer.due[0].first.by, By::Mishap(..)));
    done(&mut journal, "strike", "2026-05-02", "");
    let answer = told(&journal, date(2026, 5, 2));
    assert!(answer.due.iter().all(|due| due.task != key("strike")));
}

#[test]
fn practice_an_edge_of_the_season_that_went_by_stays() {
    let mut journal = Journal::described();
    usage(&mut journal, |usage| UsageDraft {
        from: words("05-01"),
        until: words("09-30"),
        ..usage
    });
    meter(&mut journal, "2025-06-01", "20");
    let answer = told(&journal, date(2026, 4, 1));
    let lay_up = due(&answer, "lay-up");
    assert_eq!(lay_up.first.on, Some(date(2025, 9, 30)));
    assert!(lay_up.overdue);
    assert_eq!(due(&answer, "launch").first.on, Some(date(2026, 5, 1)));
    done(&mut journal, "launch", "2026-04-20", "");
    let answer = told(&journal, date(2026, 5, 2));
    assert_eq!(due(&answer, "launch").first.on, Some(date(2027, 5, 1)));
}

#[test]
fn practice_the_recheck_is_due_an_hour_after_the_first_reading_and_closes_the_job() {
    let mut journal = Journal::described();
    meter(&mut journal, "2026-05-01", "88");
    meter(&mut journal, "2026-05-02", "89.5");
    let answer = told(&journal, date(2026, 5, 2));
    assert_eq!(whole(answer.recheck.due.unwrap()), "89");
    assert!(answer.recheck.overdue);
    assert_eq!(answer.recheck.left.len(), 9);
    let look = |journal: &mut Journal, point: Point, found: &str| {
        let (_, well, note) = PointDraft {
            point: words("bilge"),
            found: words(found),
            note: words("a cupful"),
        }
        .read()
        .unwrap();
        let well = Some(well);
        say(journal, Servicing::Rechecked { point, well, note });
    };
    for point in Point::ALL {
        look(&mut journal, point, "well");
    }
    look(&mut journal, Point::Bilge, "amiss");
    assert_eq!(
        told(&journal, date(2026, 5, 2)).recheck.amiss,
        [Point::Bilge]
    );
    let closing = |journal: &Journal| {
        Servicing::Closed(Box::new(Told {
            evidence: evidence(&journal.job()),
            words: words("All nine as they should be."),
            program: words("a test"),
        }))
    };
    let refused = journal.try_act(workshop::act::Act::Record(Body::Serviced(closing(
        &journal,
    ))));
    assert_eq!(
        refused.unwrap_err().to_string(),
        "The job cannot be closed: 1 not as it should be. Put right what is amiss, look at it again, \
         then close it."
    );
    look(&mut journal, Point::Bilge, "well");
    let closed = closing(&journal);
    say(&mut journal, closed);
    assert!(told(&journal, date(2026, 5, 2)).recheck.closed.is_some());
    // A point looked at again opens it again, and the journal says so.
    look(&mut journal, Point::Cone, "well");
    assert_eq!(told(&journal, date(2026, 5, 2)).recheck.closed, None);
    assert_eq!(journal.objections().len(), 1);
}
