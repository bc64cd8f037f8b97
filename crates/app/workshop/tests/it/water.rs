//! Water tests: what is refused, what folds, what is typed. All data are invented.

mod refused;
mod typed;

use std::sync::Arc;

use quantity::{Entered, Unit, parse};
use workshop::act::Act;
use workshop::draft::JobDraft;
use workshop::draft::water::OutingDraft;
use workshop::entry::{Body, Entry, Key};
use workshop::fold::{Misfit, fold};
use workshop::plan::Work;
use workshop::refusal::{Refusal, Splash};
use workshop::water::{
    Columns, Figure, Format, Logged, Read, Shown, Side, Trialling, Way, What, Window, evidence,
};

use crate::journal::Journal;
use crate::work::{Desk, T, done};

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn digest(digit: &str) -> Key {
    key(&digit.repeat(64))
}

fn typed(text: &str, bare: Unit) -> Entered {
    parse(text, bare).unwrap()
}

/// An outing that says no more than it must.
fn draft(side: &str) -> OutingDraft {
    OutingDraft {
        name: format!("Home lake, {side}"),
        side: side.into(),
        unit: "mph".into(),
        ..OutingDraft::default()
    }
}

pub(crate) fn outing(name: &str, side: &str) -> Body {
    Body::Trialled(Trialling::Outing {
        key: key(name),
        outing: draft(side).read().unwrap(),
    })
}

fn columns(time_ms: impl IntoIterator<Item = i64>) -> Columns {
    let time_ms: Vec<i64> = time_ms.into_iter().collect();
    Columns {
        speed_mm_s: vec![21_000; time_ms.len()],
        time_ms,
        ..Columns::default()
    }
}

/// Two stretches with a break between: 0 to 20 s and 30 to 50 s.
fn logged() -> Logged {
    Logged {
        name: "run1.gpx".into(),
        bytes: 4096,
        format: Format::Gpx,
        speed_from: "speed of the receiver".into(),
        read: 202,
        thinned: false,
        layout: None,
        unit_ratio: Some(1.0),
        rejected: Vec::new(),
        zero_ms: Some(1_779_000_000_000),
        stretches: vec![
            columns((0..=100).map(|n| n * 200)),
            columns((150..=250).map(|n| n * 200)),
        ],
    }
}

fn said_log(outing: &str, digit: &str, log: Logged) -> Body {
    Body::Trialled(Trialling::Log {
        outing: key(outing),
        digest: digest(digit),
        log: Arc::new(log),
    })
}

pub(crate) fn log(outing: &str, digit: &str) -> Body {
    said_log(outing, digit, logged())
}

fn windows(runs: &[(i64, i64)]) -> Vec<Window> {
    let window = |(from_ms, until_ms): &(i64, i64)| Window {
        from_ms: *from_ms,
        until_ms: *until_ms,
    };
    runs.iter().map(window).collect()
}

pub(crate) fn runs(digit: &str, runs: &[(i64, i64)]) -> Body {
    Body::Trialled(Trialling::Runs {
        digest: digest(digit),
        windows: Some(windows(runs)),
    })
}

pub(crate) fn put_away(digit: &str) -> Body {
    let digest = digest(digit);
    Body::Trialled(Trialling::LogPutAway { digest })
}

fn figure(what: What, text: &str, bare: Unit) -> Figure {
    Figure {
        what,
        value: typed(text, bare),
        read: Read::Display,
    }
}

fn figures_of(outing: &str, figures: Vec<Figure>) -> Body {
    let outing = key(outing);
    Body::Trialled(Trialling::Figures { outing, figures })
}

pub(crate) fn figures(outing: &str) -> Body {
    let top = figure(What::TopSpeed(Way::There), "48", Unit::MilePerHour);
    figures_of(outing, vec![top])
}

pub(crate) fn taken(evidence: String) -> Body {
    Body::Trialled(Trialling::Taken(Shown {
        evidence,
        words: "As fast as before.".into(),
        after: Some([21.0, 20.8, 21.2]),
        change: None,
        program: "a test".into(),
    }))
}

/// A job with an outing before the rebuild and a log of it.
fn lake() -> Journal {
    let mut journal = Journal::described();
    journal.record(outing("lake", "before"));
    journal.record(log("lake", "a"));
    journal
}

fn refusal(journal: &Journal, body: Body) -> Refusal {
    journal.clone().try_act(Act::Record(body)).unwrap_err()
}

/// The field and the sentence.
fn refused(journal: &Journal, body: Body) -> (Option<&'static str>, String) {
    let refusal = refusal(journal, body);
    (refusal.field(), refusal.to_string())
}

fn misfits(journal: &Journal) -> Vec<Misfit> {
    let objections = journal.objections().into_iter();
    objections.map(|open| open.why).collect()
}

/// Runs as they are set of a log, in seconds.
fn set(journal: &Journal, digit: &str) -> Option<Vec<(i64, i64)>> {
    let job = journal.job();
    let windows = job.trials.logs.get(&digest(digit))?.windows.clone()?;
    let windows = windows.value.into_iter();
    Some(windows.map(|one| (one.from_ms, one.until_ms)).collect())
}

#[test]
fn practice_a_trial_is_described_and_read() {
    let mut journal = lake();
    journal.record(outing("sea", "before"));
    journal.record(log("sea", "b"));
    journal.record(runs("a", &[(0, 9000), (9000, 20_000)]));
    journal.record(figures("sea"));
    let job = journal.job();
    let in_order = job.trials.in_order(Some(Side::Before));
    let keys: Vec<&str> = in_order.iter().map(|(key, _)| key.as_str()).collect();
    assert_eq!(keys, ["lake", "sea"]);
    assert!(job.trials.in_order(Some(Side::After)).is_empty());
    assert_eq!(job.trials.logs_of(&key("lake")).len(), 1);
    assert!(!job.trials.is_empty());
    // Said anew it keeps its place, its log and its figures.
    let mut anew = draft("before");
    anew.name = "The lake".into();
    journal.record(Body::Trialled(Trialling::Outing {
        key: key("lake"),
        outing: anew.read().unwrap(),
    }));
    let job = journal.job();
    assert_eq!(job.trials.in_order(None)[0].1.outing.value.name, "The lake");
    assert_eq!(set(&journal, "a"), Some(vec![(0, 9000), (9000, 20_000)]));
    assert_eq!(journal.objections(), []);
}

#[test]
fn law_a_powered_run_waits_until_the_craft_may_float() {
    let mut desk = Desk::ready();
    let after = || Act::Record(outing("after", "after"));
    assert_eq!(
        desk.act(after(), T).unwrap_err(),
        "The craft may not go on the water yet: “spread” is still to do; “close” is still to do. See \
         to that on Assemble first, then run it."
    );
    // What was before the pump was opened needs nothing, and a file tells of what was done.
    desk.act(Act::Record(outing("before", "before")), T)
        .unwrap();
    let mut told = Desk(desk.0.clone());
    told.act(Act::Recount(outing("after", "after"), None), T)
        .unwrap();
    // Once it is there, it may be said anew; a second one may not come, nor may one change sides.
    told.act(after(), T).unwrap();
    assert!(told.act(Act::Record(outing("later", "after")), T).is_err());
    assert!(told.act(Act::Record(outing("before", "after")), T).is_err());
    // A log and figures of an outing that is there are taken.
    told.act(Act::Record(log("after", "a")), T).unwrap();
    told.act(Act::Record(figures("after")), T).unwrap();
    desk.say(done("spread"), T);
    desk.say(done("close"), "2026-11-24T14:06:00");
    let next = "2026-11-26T10:00:00";
    assert_eq!(
        desk.act(after(), next).unwrap_err(),
        "The craft may not go on the water yet: “close” has 0 of 6 fasteners in. See to that on \
         Assemble first, then run it."
    );
    let fasteners = Work::FastenersIn {
        step: key("close"),
        count: 6,
        temporary: 0,
    };
    desk.say(fasteners, next);
    desk.act(after(), next).unwrap();
    assert_eq!(desk.fold().1, []);
}

/// Without a plan nobody knows what holds the craft ashore.
#[test]
fn law_a_job_without_a_plan_takes_any_outing() {
    let mut journal = Journal::described();
    journal.record(outing("after", "after"));
    assert_eq!(journal.job().trials.in_order(Some(Side::After)).len(), 1);
}

#[test]
fn law_more_reasons_are_counted() {
    let splash = Splash::MayNotFloat {
        blocks: vec!["one".into(), "two".into()],
        more: 4,
    };
    assert_eq!(
        splash.to_string(),
        "The craft may not go on the water yet: one; two; and 4 more. See to that on Assemble \
         first, then run it."
    );
    assert_eq!(splash.field(), "side");
}

#[test]
fn law_undo_goes_back_step_by_step() {
    let mut journal = lake();
    journal.record(runs("a", &[(0, 9000)]));
    journal.record(runs("a", &[(0, 8000)]));
    journal.record(put_away("a"));
    assert_eq!(journal.job().trials.logs.len(), 0);
    journal.act(Act::Undo);
    assert_eq!(set(&journal, "a"), Some(vec![(0, 8000)]));
    journal.act(Act::Undo);
    assert_eq!(set(&journal, "a"), Some(vec![(0, 9000)]));
    journal.act(Act::Redo);
    assert_eq!(set(&journal, "a"), Some(vec![(0, 8000)]));
    journal.act(Act::Undo);
    journal.act(Act::Undo);
    assert_eq!(set(&journal, "a"), None);
    assert_eq!(journal.job().trials.logs.len(), 1);
    assert_eq!(journal.objections(), []);
}

#[test]
fn law_a_log_of_an_outing_that_is_gone_stays_and_is_told() {
    let mut journal = lake();
    journal.record(figures("lake"));
    // The outing withdrawn from elsewhere, as another device may do it in between.
    let of_outing =
        |entry: &Entry| matches!(&entry.new.body, Body::Trialled(Trialling::Outing { .. }));
    let gone = journal
        .entries
        .iter()
        .find(|entry| of_outing(entry))
        .unwrap();
    let entry = gone.new.id.clone();
    journal.force(Body::Withdrawn { entry });
    assert_eq!(
        misfits(&journal),
        [Misfit::NoSuchOuting, Misfit::NoSuchOuting]
    );
    let job = journal.job();
    assert_eq!(job.trials.logs.len(), 1);
    drop(evidence(&job));
    assert_eq!(JobDraft::of(&job).trials, []);
    // A way out: it is described again.
    journal.record(outing("lake", "before"));
    assert_eq!(misfits(&journal), [Misfit::NoSuchOuting]);
    journal.force(put_away("b"));
    journal.force(runs("b", &[(0, 1)]));
    let all = [Misfit::NoSuchOuting, Misfit::NoSuchLog, Misfit::NoSuchLog];
    assert_eq!(misfits(&journal), all);
}

#[test]
fn law_a_result_is_stale_when_a_run_changes() {
    let mut journal = lake();
    let stale = refusal(&journal, taken("of something else".into()));
    assert_eq!(stale, Refusal::ShownIsStale);
    let now = evidence(&journal.job());
    journal.record(taken(now.clone()));
    assert_eq!(journal.objections(), []);
    for body in [
        runs("a", &[(0, 9000)]),
        figures("lake"),
        outing("lake", "before"),
        log("lake", "b"),
        put_away("a"),
    ] {
        let mut journal = journal.clone();
        journal.record(body);
        assert_ne!(evidence(&journal.job()), now);
        assert_eq!(misfits(&journal), [Misfit::TrialTakenOfOtherRuns]);
        assert_eq!(refusal(&journal, taken(now.clone())), Refusal::ShownIsStale);
        // Back to what it was taken of, it holds again.
        journal.act(Act::Undo);
        assert_eq!(journal.objections(), []);
        journal.act(Act::Redo);
        let now = evidence(&journal.job());
        journal.record(taken(now));
        assert_eq!(journal.objections(), []);
    }
    assert_eq!(
        refusal(
            &journal,
            Body::Trialled(Trialling::Taken(Shown {
                evidence: now,
                words: "x".repeat(2001),
                after: None,
                change: None,
                program: String::new(),
            }))
        )
        .field(),
        Some("words")
    );
}

#[test]
fn law_every_subset_folds() {
    let mut journal = lake();
    journal.record(runs("a", &[(0, 9000)]));
    journal.record(figures("lake"));
    journal.record(taken(evidence(&journal.job())));
    journal.record(put_away("a"));
    journal.act(Act::Undo);
    let last: Vec<_> = journal.entries.split_off(journal.entries.len() - 7);
    for set in 0..1_u32 << last.len() {
        let kept = last.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1);
        let mut entries = journal.entries.clone();
        entries.extend(kept.map(|(_, entry)| entry.clone()));
        let (job, _) = fold(&entries);
        drop((evidence(&job), JobDraft::of(&job)));
    }
}
