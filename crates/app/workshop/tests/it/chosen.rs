//! What to fit: what folds, what is typed. All data are invented.

mod refused;
mod typed;

use quantity::Unit;
use workshop::act::Act;
use workshop::choose::{Choosing, Steady, Told, evidence, speed_unit};
use workshop::draft::JobDraft;
use workshop::draft::choose::{CraftDraft, FittingDraft, SteadyDraft, WishDraft};
use workshop::entry::{Body, Key};
use workshop::fold::{Misfit, fold};
use workshop::refusal::Refusal;

use crate::journal::Journal;
use crate::water;

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn words(text: &str) -> String {
    text.to_owned()
}

/// A craft of which everything is said.
pub(crate) fn craft() -> CraftDraft {
    CraftDraft {
        mass: words("350"),
        riders: words("330 lb"),
        length: words("2.6"),
        beam: words("3 ft"),
        deadrise: words("20"),
        balance: words("1,1"),
        power: words("180 hp"),
        rated: words("7500"),
        limiter: words("8000 rpm"),
        breathing: words("blower"),
        curve: words("4000 rpm 150 N·m; 6000 180; 8000 120 ft-lb"),
        wanted_from: words("7400"),
        wanted_to: words("7600"),
        impeller: words("139,4"),
        fitted: fitted(),
        outing: String::new(),
        page: words("12-3"),
    }
}

fn fitted() -> FittingDraft {
    FittingDraft {
        name: words("As bought"),
        leading: words("14"),
        trailing: words("19°"),
        radius: words("69"),
        angles: words("stamped"),
        maker: words("The first maker"),
        blades: words("3"),
        hub: words("60"),
        cup: words("no"),
        gap: words("13"),
        nozzle: words("3.3 in"),
        note: words("Two nicks"),
    }
}

fn option(leading: &str, trailing: &str) -> FittingDraft {
    FittingDraft {
        name: format!("{leading} to {trailing}"),
        leading: words(leading),
        trailing: words(trailing),
        ..FittingDraft::default()
    }
}

fn steadies(all: &[[&str; 3]]) -> Vec<Steady> {
    let read = |[engine, speed, pull]: &[&str; 3]| {
        let draft = SteadyDraft {
            engine: words(engine),
            speed: words(speed),
            pull: words(pull),
        };
        draft.read(Unit::MilePerHour).unwrap()
    };
    all.iter().map(read).collect()
}

pub(crate) fn said_craft(draft: &CraftDraft) -> Body {
    let facts = draft.read(Unit::Thou).unwrap();
    Body::Chose(Choosing::Craft(Box::new(facts)))
}

pub(crate) fn said_option(name: &str, draft: &FittingDraft) -> Body {
    Body::Chose(Choosing::Option {
        key: key(name),
        fitting: Box::new(draft.read(Unit::Thou).unwrap()),
    })
}

pub(crate) fn said_wish(want: &str, to: &str) -> Body {
    let (want, to) = (words(want), words(to));
    let wish = WishDraft { want, to }.read(Unit::MilePerHour).unwrap();
    Body::Chose(Choosing::Wish(wish))
}

pub(crate) fn said_steadies(all: &[[&str; 3]]) -> Body {
    Body::Chose(Choosing::Steadies(steadies(all)))
}

pub(crate) fn put_away(name: &str) -> Body {
    let key = key(name);
    Body::Chose(Choosing::OptionPutAway { key })
}

pub(crate) fn told(option: &str, evidence: String) -> Told {
    Told {
        option: key(option),
        evidence,
        words: words("The engine turns 250 rpm slower."),
        engine: [-38.0, -26.0, -14.0],
        speed: [-0.2, 0.1, 0.5],
        time: Some([-0.2, -0.1, 0.0]),
        program: words("a test"),
    }
}

fn taken(journal: &Journal, option: &str) -> Body {
    let told = told(option, evidence(&journal.job()));
    Body::Chose(Choosing::Taken(Box::new(told)))
}

/// A job with one of everything.
fn shop() -> Journal {
    let mut journal = Journal::described();
    journal.record(water::outing("lake", "before"));
    let outing = words("lake");
    journal.record(said_craft(&CraftDraft { outing, ..craft() }));
    journal.record(said_option("steeper", &option("15", "20")));
    journal.record(said_option("a-nozzle", &nozzle("82")));
    journal.record(said_wish("both", "40"));
    journal.record(said_steadies(&[
        ["3000", "8", ""],
        ["5000 rpm", "30 kn", ""],
        ["4500", "", "90 kgf"],
    ]));
    journal
}

pub(crate) fn nozzle(bore: &str) -> FittingDraft {
    FittingDraft {
        name: words("Another nozzle"),
        nozzle: words(bore),
        ..FittingDraft::default()
    }
}

fn misfits(journal: &Journal) -> Vec<Misfit> {
    let objections = journal.objections().into_iter();
    objections.map(|open| open.why).collect()
}

fn refusal(journal: &Journal, body: Body) -> Refusal {
    journal.clone().try_act(Act::Record(body)).unwrap_err()
}

#[test]
fn practice_a_craft_and_what_could_be_fitted_are_described() {
    let mut journal = shop();
    let job = journal.job();
    let facts = &job.choices.craft.as_ref().unwrap().value;
    assert_eq!(facts.curve.len(), 3);
    assert_eq!(facts.fitted.gap.as_ref().unwrap().unit, Unit::Thou);
    let keys = |journal: &Journal| -> Vec<String> {
        let choices = journal.job().choices;
        let all = choices.in_order().into_iter();
        all.map(|(key, _)| key.to_string()).collect()
    };
    assert_eq!(keys(&journal), ["steeper", "a-nozzle"]);
    // Said anew an option keeps its place, and what is put away comes back where it was.
    journal.record(said_option("steeper", &option("15", "21")));
    assert_eq!(keys(&journal), ["steeper", "a-nozzle"]);
    journal.record(put_away("steeper"));
    assert_eq!(keys(&journal), ["a-nozzle"]);
    journal.act(Act::Undo);
    assert_eq!(keys(&journal), ["steeper", "a-nozzle"]);
    assert_eq!(journal.objections(), []);
    assert_eq!(speed_unit(&journal.job()), Unit::MilePerHour);
}

#[test]
fn law_an_option_taken_goes_stale_with_what_it_rests_on() {
    let mut journal = shop();
    let body = taken(&journal, "steeper");
    journal.record(body);
    assert_eq!(journal.objections(), []);
    let taken_of = journal.job().choices.taken.unwrap().value;
    let mut craft = craft();
    craft.riders = words("160");
    for body in [
        said_option("steeper", &option("15", "21")),
        said_option("other", &option("13", "18")),
        put_away("a-nozzle"),
        put_away("steeper"),
        said_craft(&craft),
        said_wish("pull", "40"),
        said_steadies(&[["3000", "9", ""]]),
        water::figures("lake"),
    ] {
        let mut journal = journal.clone();
        journal.record(body.clone());
        assert_eq!(
            misfits(&journal),
            [Misfit::OptionTakenOnOtherGrounds],
            "{body:?}"
        );
        let again = Body::Chose(Choosing::Taken(Box::new(taken_of.clone())));
        let refused = refusal(&journal, again);
        assert!(
            refused == Refusal::ShownIsStale || body == put_away("steeper"),
            "{refused}"
        );
        // Back to what it rests on, it holds again.
        journal.act(Act::Undo);
        assert_eq!(journal.objections(), []);
    }
}

#[test]
fn law_every_subset_folds() {
    let mut journal = shop();
    let body = taken(&journal, "steeper");
    journal.record(body);
    journal.record(put_away("steeper"));
    journal.act(Act::Undo);
    journal.record(put_away("a-nozzle"));
    let last = journal.entries.split_off(journal.entries.len() - 10);
    for set in 0..1_u32 << last.len() {
        let kept = last.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1);
        let mut entries = journal.entries.clone();
        entries.extend(kept.map(|(_, entry)| entry.clone()));
        let (job, objections) = fold(&entries);
        let has = |bit: u32| set >> bit & 1 == 1;
        // Taken of the first six; of what came after only the option put away for good matters.
        let holds = (0..6).all(has) && (!has(7) || has(8)) && !has(9);
        let stale = objections
            .iter()
            .any(|one| one.why == Misfit::OptionTakenOnOtherGrounds);
        assert_eq!(stale, has(6) && !holds, "{set:b}");
        drop((evidence(&job), JobDraft::of(&job).acts(&job).unwrap()));
    }
}

#[test]
fn law_a_draft_brings_the_choices_of_a_job_and_says_nothing_twice() {
    let journal = shop();
    let draft = JobDraft::of(&journal.job());
    assert_eq!(draft.choices.options.len(), 2);
    assert_eq!(draft.choices.steadies[1].speed, "30 kn");
    assert_eq!(draft.acts(&journal.job()).unwrap(), []);
    assert_eq!(
        JobDraft::card(&journal.job()).choices,
        JobDraft::default().choices
    );
    let mut other = Journal::described();
    for act in draft.acts(&other.job()).unwrap() {
        other.act(act);
    }
    assert_eq!(JobDraft::of(&other.job()).choices, draft.choices);
    assert_eq!(other.objections(), []);
}

/// The option that was taken is what is fitted now; such a job is brought from a file all the same.
#[test]
fn law_an_option_that_was_fitted_since_travels() {
    let mut journal = shop();
    let mut fitted = craft();
    fitted.outing = words("lake");
    fitted.fitted.leading = words("15");
    fitted.fitted.trailing = words("20");
    journal.record(said_craft(&fitted));
    let like = said_option("steeper", &option("15", "20"));
    assert_eq!(refusal(&journal, like).field(), Some("name"));
    let draft = JobDraft::of(&journal.job());
    let mut other = Journal::described();
    for act in draft.acts(&other.job()).unwrap() {
        other.act(act);
    }
    assert_eq!(JobDraft::of(&other.job()).choices, draft.choices);
}

/// A name of an outing that is gone is not told on.
#[test]
fn law_an_outing_that_is_gone_is_no_longer_named() {
    let mut journal = shop();
    assert_eq!(outing_of(&journal), "lake");
    let gone = journal
        .entries
        .iter()
        .find(|entry| matches!(entry.new.body, Body::Trialled(_)));
    let entry = gone.unwrap().new.id.clone();
    journal.force(Body::Withdrawn { entry });
    assert_eq!(outing_of(&journal), "");
}

fn outing_of(journal: &Journal) -> String {
    JobDraft::of(&journal.job()).choices.craft.unwrap().outing
}
