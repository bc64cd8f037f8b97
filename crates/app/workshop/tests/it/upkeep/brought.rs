//! What a file and a card bring of service. All data are invented.

use quantity::Unit;
use workshop::choose::Choosing;
use workshop::draft::upkeep::{PieceDraft, SortDraft, UsageDraft};
use workshop::draft::{JobDraft, UpkeepDraft};
use workshop::entry::Body;
use workshop::fold::fold;
use workshop::upkeep::evidence;

use super::{bare, kept_up, key, piece, said_piece, said_sort, sort, words};
use crate::journal::Journal;

/// Any part of it folds, and leaves as a draft that says nothing new here and is taken whole elsewhere.
#[test]
fn law_every_subset_folds_and_leaves_as_a_draft() {
    let whole = kept_up();
    let (head, last) = whole.entries.split_at(1);
    for set in 0..1_u32 << last.len() {
        let kept = last.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1);
        let mut entries = head.to_vec();
        entries.extend(kept.map(|(_, entry)| entry.clone()));
        let (job, _) = fold(&entries);
        let draft = JobDraft::of(&job);
        assert_eq!(draft.acts(&job).unwrap(), []);
        let mut other = bare();
        for act in draft.acts(&other.job()).unwrap() {
            other.act(act);
        }
        assert_eq!(JobDraft::of(&other.job()).upkeep, draft.upkeep);
        drop(evidence(&job));
    }
}

#[test]
fn law_the_same_written_otherwise_is_nothing_new() {
    let journal = kept_up();
    let job = journal.job();
    let mut draft = JobDraft::of(&job);
    let usage = draft.upkeep.usage.as_mut().unwrap();
    usage.sand = words(" 4,5 ");
    draft.upkeep.parts[0].1.price = words(" 45.50");
    draft.upkeep.pieces[0].1.elsewhere = words("no");
    draft.upkeep.rules[0].1.after = vec![words("strike"), words("milky"), words("strike")];
    draft.upkeep.rules[0].1.months = words("06");
    draft.upkeep.meter[0].on = words("20260501");
    assert_eq!(draft.acts(&job).unwrap(), []);
    draft.upkeep.meter[0].hours = words("101");
    assert_eq!(draft.acts(&job).unwrap().len(), 1);
    // Nothing said of the use takes nothing back.
    draft.upkeep = UpkeepDraft {
        usage: Some(UsageDraft::default()),
        ..UpkeepDraft::default()
    };
    assert_eq!(draft.acts(&job).unwrap(), []);
    assert_eq!(draft.acts(&bare().job()).unwrap(), []);
}

/// An option that was put away since would be refused wherever the file is read.
#[test]
fn law_a_sort_leaves_without_an_option_that_is_gone() {
    let mut journal = kept_up();
    let fitting = workshop::choose::Fitting {
        name: words("A new ring"),
        gap: Some(quantity::parse("0.3 mm", Unit::Millimetre).unwrap()),
        ..workshop::choose::Fitting::default()
    };
    let ring = key("ring");
    journal.record(Body::Chose(Choosing::Option {
        key: ring.clone(),
        fitting: Box::new(fitting),
    }));
    let with = SortDraft {
        option: words("ring"),
        ..sort("Soft ring")
    };
    journal.record(said_sort("soft", &with));
    let option = |journal: &Journal| {
        JobDraft::of(&journal.job()).upkeep.parts[0]
            .1
            .option
            .clone()
    };
    assert_eq!(option(&journal), "ring");
    assert_eq!(JobDraft::card(&journal.job()).upkeep.parts[0].1.option, "");
    journal.record(Body::Chose(Choosing::OptionPutAway { key: ring }));
    assert_eq!(option(&journal), "");
    let draft = JobDraft::of(&journal.job());
    assert_eq!(draft.acts(&journal.job()).unwrap(), []);
}

/// Prices, lives and pages are true of the next craft; hours, mishaps and points of the recheck are not.
#[test]
fn law_a_card_brings_what_holds_for_any_craft() {
    let mut journal = kept_up();
    let in_use = PieceDraft {
        good: String::new(),
        end: String::new(),
        ended: String::new(),
        ..piece()
    };
    journal.record(said_piece("now", &in_use));
    // Taken out as it was put in: by its own hours it never ran.
    let at_once = PieceDraft {
        good: words("20"),
        end: words("good"),
        ended: words("20.004"),
        ..piece()
    };
    journal.record(said_piece("at-once", &at_once));
    let told_of = PieceDraft {
        elsewhere: words("yes"),
        water: words("clean"),
        fitted: words("0"),
        ..piece()
    };
    journal.record(said_piece("told-of", &told_of));
    let card = JobDraft::card(&journal.job()).upkeep;
    let kept = UsageDraft {
        currency: words("EUR"),
        silt: words("2"),
        sand: words("4,5"),
        ..UsageDraft::default()
    };
    assert_eq!(card.usage, Some(kept));
    assert_eq!(card.parts.len(), 2);
    assert_eq!(card.rules.len(), 1);
    // Its own hours, and the water it ran in, which was the craft's.
    let first = PieceDraft {
        elsewhere: words("yes"),
        water: words("sand"),
        fitted: words("0"),
        good: words("60"),
        ended: words("80.25"),
        ..piece()
    };
    let pieces = [(words("first"), first), (words("told-of"), told_of)];
    assert_eq!(card.pieces, pieces);
    assert!(card.meter.is_empty() && card.mishaps.is_empty());
    assert!(card.done.is_empty() && card.recheck.is_empty());
    let draft = JobDraft {
        upkeep: card,
        ..JobDraft::of(&bare().job())
    };
    let mut second = bare();
    for act in draft.acts(&second.job()).unwrap() {
        second.act(act);
    }
    assert_eq!(JobDraft::card(&second.job()).upkeep, draft.upkeep);
}
