//! What cannot be is refused, with its limit and the way out. All data are invented.

mod typed;

use workshop::act::Act;
use workshop::decide::{MOST_PARTS, MOST_PIECES, MOST_RULES};
use workshop::draft::upkeep::{PieceDraft, RuleDraft, SortDraft, UsageDraft};
use workshop::entry::Body;
use workshop::refusal::Refusal;
use workshop::upkeep::recheck::Point;

use super::{
    bare, closed, done, kept_up, looked_at, meter, mishap, no_piece, no_rule, no_sort, piece, rule,
    said_piece, said_rule, said_sort, said_usage, sort, usage, words,
};
use crate::journal::Journal;

/// The field and the sentence.
fn refused(journal: &Journal, body: Body) -> (Option<&'static str>, String) {
    let mut journal = journal.clone();
    let refusal = journal.try_act(Act::Record(body)).unwrap_err();
    (refusal.field(), refusal.to_string())
}

fn accepted(journal: &Journal, body: Body) {
    let mut journal = journal.clone();
    journal.try_act(Act::Record(body)).unwrap();
}

fn with<D>(mut draft: D, change: impl FnOnce(&mut D)) -> D {
    change(&mut draft);
    draft
}

/// A field, how it is set, values just inside, and values just outside with the limits they are told.
type Case<D> = (
    &'static str,
    fn(&mut D, String),
    [&'static str; 2],
    [&'static str; 2],
    &'static str,
);

fn ranges<D: Clone>(cases: &[Case<D>], draft: &D, body: impl Fn(&D) -> Body) {
    for (field, set, inside, outside, limits) in cases {
        let of = |text: &str| body(&with(draft.clone(), |draft| set(draft, words(text))));
        for text in inside {
            accepted(&kept_up(), of(text));
        }
        for text in outside {
            let (found, said) = refused(&kept_up(), of(text));
            assert_eq!(found, Some(*field), "{said}");
            assert!(said.contains(text) && said.contains(limits), "{said}");
        }
    }
}

const USAGE: &[Case<UsageDraft>] = &[
    (
        "silt",
        |d, t| d.silt = t,
        ["1", "50"],
        ["0.9", "51"],
        "1 to 50",
    ),
    (
        "sand",
        |d, t| d.sand = t,
        ["1", "50"],
        ["0", "50.5"],
        "1 to 50",
    ),
    (
        "week",
        |d, t| d.week = t,
        [".1", "168"],
        ["5 min", "169"],
        " to 1",
    ),
    (
        "season",
        |d, t| d.season = t,
        ["1", "3000"],
        ["0.9", "3001"],
        "1 to 3000",
    ),
    (
        "keep",
        |d, t| d.keep = t,
        ["1", "20000"],
        ["0", "20001"],
        "1 to 20000",
    ),
    (
        "wage",
        |d, t| d.wage = t,
        ["0", "1000000"],
        ["-1", "1000001"],
        "0 to 1000000",
    ),
    (
        "failure",
        |d, t| d.failure = t,
        ["0", "1000000"],
        ["-1", "1000001"],
        "0 to 1000000",
    ),
    (
        "worth",
        |d, t| d.worth = t,
        ["0", "1000000"],
        ["-1", "1000001"],
        "0 to 1000000",
    ),
    (
        "between",
        |d, t| d.between = t,
        ["1", "100000"],
        ["0", "100001"],
        "1 to 100000",
    ),
    (
        "floor",
        |d, t| d.floor = t,
        ["1", "99"],
        ["0", "100"],
        "1 to 99",
    ),
];

const SORT: &[Case<SortDraft>] = &[
    (
        "price",
        |d, t| d.price = t,
        [".01", "1000000"],
        ["0", "1000001"],
        "0.01 to 1000000",
    ),
    (
        "supplies",
        |d, t| d.supplies = t,
        ["0", "1000000"],
        ["-1", "1000001"],
        "0 to 1000000",
    ),
    (
        "labour",
        |d, t| d.labour = t,
        ["0", "200"],
        ["-1", "201"],
        "0 to 200",
    ),
    (
        "tenth",
        |d, t| d.tenth = t,
        ["4", "92"],
        [".9", "20001"],
        "1 to 20000",
    ),
    (
        "half",
        |d, t| d.half = t,
        ["48", "1290"],
        [".9", "20001"],
        "1 to 20000",
    ),
    (
        "ruin",
        |d, t| d.ruin = t,
        ["0", "100"],
        ["-1", "101"],
        "0 to 100",
    ),
    (
        "lost",
        |d, t| d.lost = t,
        ["0", "100"],
        ["-1", "101"],
        "0 to 100",
    ),
    (
        "lost_at",
        |d, t| d.lost_at = t,
        ["1", "20000"],
        ["0", "20001"],
        "1 to 20000",
    ),
];

const PIECE: &[Case<PieceDraft>] = &[
    (
        "fitted",
        |d, t| d.fitted = t,
        ["0", "80"],
        ["-1", "50001"],
        "0 to 50000",
    ),
    (
        "good",
        |d, t| d.good = t,
        ["20", "100.25"],
        ["-1", "50001"],
        "0 to 50000",
    ),
    (
        "ended",
        |d, t| d.ended = t,
        ["80", "50000"],
        ["-1", "50001"],
        "0 to 50000",
    ),
];

#[test]
fn law_every_figure_of_service_has_its_range() {
    ranges(USAGE, &usage(), said_usage);
    ranges(SORT, &sort("Soft"), |draft| said_sort("soft", draft));
    ranges(PIECE, &piece(), |draft| said_piece("first", draft));
    let hours: Case<RuleDraft> = (
        "hours",
        |d, t| d.hours = t,
        [".5", "5000"],
        [".4", "5001"],
        "0.5 to 5000",
    );
    ranges(&[hours], &rule(), |draft| said_rule("bearing", draft));
    for hours in ["-1", "50001"] {
        for body in [
            meter("2026-11-01", hours),
            mishap("hot", "", hours),
            done("gap", "", hours),
        ] {
            let (field, said) = refused(&bare(), body);
            assert_eq!(field, Some("hours"), "{said}");
            assert!(said.contains("0 to 50000"), "{said}");
        }
    }
    accepted(&bare(), meter("", "50000"));
}

/// What is said, the field it stands at, and the whole sentence.
type Told = (Body, Option<&'static str>, &'static str);

fn told(cases: impl IntoIterator<Item = Told>) {
    for (body, field, sentence) in cases {
        assert_eq!(refused(&kept_up(), body), (field, words(sentence)));
    }
}

#[test]
fn practice_a_sort_that_is_none_says_what_is_wrong_and_the_way_out() {
    let sort_with = |change: fn(&mut SortDraft)| said_sort("soft", &with(sort("Soft"), change));
    told([
        (
            sort_with(|d| d.price = words("0,001")),
            Some("price"),
            "“0,001” is outside 0.01 to 1000000. Check the decimal point.",
        ),
        (
            sort_with(|d| d.half = words("47")),
            Some("tenth"),
            "One in ten by 43\u{a0}h and half by 47\u{a0}h: no part lasts so. Half is usually one and a half to five times one in ten.",
        ),
        (
            sort_with(|d| d.half = words("1291")),
            Some("tenth"),
            "One in ten by 43\u{a0}h and half by 1291\u{a0}h: no part lasts so. Half is usually one and a half to five times one in ten.",
        ),
        (
            sort_with(|d| d.half = words("43")),
            Some("tenth"),
            "“43” must be smaller than “43”. Swap them or mend one.",
        ),
        (
            sort_with(|d| d.half.clear()),
            Some("half"),
            "A guess of how long it lasts stands alone. Fill in both, or neither.",
        ),
        (
            sort_with(|d| d.tenth.clear()),
            Some("tenth"),
            "A guess of how long it lasts stands alone. Fill in both, or neither.",
        ),
        (
            sort_with(|d| d.lost.clear()),
            Some("lost"),
            "What is lost while it is worn stands alone. Fill in both, or neither.",
        ),
        (
            sort_with(|d| d.lost_at.clear()),
            Some("lost_at"),
            "What is lost while it is worn stands alone. Fill in both, or neither.",
        ),
    ]);
}

#[test]
fn practice_a_piece_that_is_none_says_what_is_wrong_and_the_way_out() {
    let piece_with = |change: fn(&mut PieceDraft)| said_piece("first", &with(piece(), change));
    told([
        (
            piece_with(|d| d.part = words("hard-one")),
            Some("part"),
            "There is no sort of part “hard-one” here. Describe it first, or choose another.",
        ),
        (
            piece_with(|d| d.good = words("19")),
            Some("good"),
            "“19\u{a0}h” is not after “20\u{a0}h”. Look at the engine hours again: fitted, last seen good, ended, in that order.",
        ),
        (
            piece_with(|d| d.ended = words("79 h")),
            Some("ended"),
            "“79 h” is not after “80\u{a0}h”. Look at the engine hours again: fitted, last seen good, ended, in that order.",
        ),
        (
            piece_with(|d| d.ended = words("20")),
            Some("ended"),
            "“20\u{a0}h” is not after “20\u{a0}h”. Look at the engine hours again: fitted, last seen good, ended, in that order.",
        ),
        (
            piece_with(|d| d.elsewhere = words("yes")),
            Some("fitted"),
            "A piece of another craft counts its own hours, from 0, not from “20”. Write 0, and the hours it ran as its end.",
        ),
    ]);
}

#[test]
fn practice_a_miscount_says_what_is_wrong_and_the_way_out() {
    let never = RuleDraft {
        name: words("Never"),
        ..RuleDraft::default()
    };
    let nameless = with(rule(), |d| d.name = words(" "));
    told([
        (
            no_sort("other"),
            Some("part"),
            "There is no sort of part “other” here. Describe it first, or choose another.",
        ),
        (no_piece("other"), None, "There is no piece “other” here."),
        (
            no_rule("gap"),
            Some("task"),
            "There is no task “gap” here. Choose one of the list, or make a rule of your own first.",
        ),
        (
            done("paint", "", ""),
            Some("task"),
            "There is no task “paint” here. Choose one of the list, or make a rule of your own first.",
        ),
        (
            meter("2026-05-02", "99"),
            Some("hours"),
            "“99\u{a0}h” does not go with 100\u{a0}h on 2026-05-01: an hour meter never runs backwards. Look at figure and day again; for a meter that was changed, add up old and new.",
        ),
        (
            meter("2026-04-30", "101"),
            Some("hours"),
            "“101\u{a0}h” does not go with 100\u{a0}h on 2026-05-01: an hour meter never runs backwards. Look at figure and day again; for a meter that was changed, add up old and new.",
        ),
        (
            said_rule("never", &never),
            Some("hours"),
            "Nothing says when this falls due. State hours, months, a mishap or an edge of the season.",
        ),
        (
            said_rule("own", &nameless),
            Some("name"),
            "A task of your own, “own”, needs a name.",
        ),
    ]);
}

#[test]
fn law_nothing_happened_on_a_day_to_come() {
    // The test's own day is the twenty-fourth.
    for body in [
        meter("2026-11-24", "1"),
        mishap("hot", "2026-11-24", ""),
        done("gap", "2026-11-24", ""),
    ] {
        accepted(&bare(), body);
    }
    for body in [
        meter("2026-11-25", "1"),
        mishap("hot", "2026-11-25", ""),
        done("gap", "2026-11-25", ""),
    ] {
        let (_, said) = refused(&bare(), body);
        assert!(said.starts_with("2026-11-25 is still to come"), "{said}");
    }
}

#[test]
fn law_a_meter_stands_still_or_runs_on() {
    let mut journal = kept_up();
    for (on, hours) in [
        ("2026-05-01", "100"),
        ("2026-05-01", "100.5"),
        ("2026-04-30", "100"),
        ("2026-06-01", "100,5"),
        ("2026-01-01", "0"),
    ] {
        journal.record(meter(on, hours));
    }
    // Of one day they go in the order they were told.
    let (_, said) = refused(&journal, meter("2026-05-01", "100.25"));
    assert!(said.contains("100.5\u{a0}h on 2026-05-01"), "{said}");
}

#[test]
fn law_a_job_keeps_so_much_and_no_more() {
    let mut journal = bare();
    for n in 0..MOST_PARTS {
        journal.record(said_sort(&format!("s-{n}"), &sort("A ring")));
    }
    let full = |what: &str, most: usize| {
        format!(
            "A job keeps at most {most} {what}. Put away what is not needed, or begin a new job."
        )
    };
    let one_more = refused(&journal, said_sort("more", &sort("A ring")));
    assert_eq!(one_more, (None, full("sorts of part", MOST_PARTS)));
    accepted(&journal, said_sort("s-0", &sort("Another ring")));
    let of_it = with(piece(), |d| d.part = words("s-0"));
    for n in 0..MOST_PIECES {
        journal.record(said_piece(&format!("p-{n}"), &of_it));
    }
    let one_more = refused(&journal, said_piece("more", &of_it));
    assert_eq!(one_more, (None, full("pieces", MOST_PIECES)));
    accepted(&journal, said_piece("p-0", &of_it));
    for n in 0..MOST_RULES {
        journal.record(said_rule(&format!("r-{n}"), &rule()));
    }
    let one_more = refused(&journal, said_rule("more", &rule()));
    assert_eq!(one_more, (None, full("rules", MOST_RULES)));
    accepted(&journal, said_rule("r-0", &rule()));
}

#[test]
fn law_a_job_is_closed_when_every_point_is_well() {
    let mut journal = kept_up();
    let open = |journal: &Journal| refused(journal, closed(journal)).1;
    let way_out = "Put right what is amiss, look at it again, then close it.";
    let sentence = |what: &str| format!("The job cannot be closed: {what}. {way_out}");
    assert_eq!(
        open(&journal),
        sentence("8 not looked at yet, 1 not as it should be")
    );
    journal.record(looked_at(Point::Gap, Some(true)));
    assert_eq!(open(&journal), sentence("8 not looked at yet"));
    for point in Point::ALL {
        journal.record(looked_at(point, Some(true)));
    }
    accepted(&journal, closed(&journal));
    journal.record(looked_at(Point::Cone, Some(false)));
    assert_eq!(open(&journal), sentence("1 not as it should be"));
    let stale = closed(&journal);
    journal.record(looked_at(Point::Cone, Some(true)));
    let refused = journal.clone().try_act(Act::Record(stale));
    assert_eq!(refused, Err(Refusal::ShownIsStale));
}

#[test]
fn law_a_sort_goes_with_an_option_that_is_there() {
    let with_option = with(sort("Soft"), |d| d.option = words("ring"));
    let (field, said) = refused(&kept_up(), said_sort("soft", &with_option));
    assert_eq!(field, Some("option"));
    assert!(said.contains("“ring”"), "{said}");
}
