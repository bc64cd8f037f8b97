//! Service, in a job file. All data are invented.

mod again;
mod refused;

use jobfile::{parse, stored, write};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use workshop::draft::upkeep::{
    CARRIED, DoneDraft, EDGES, ENDINGS, MISHAPS, MeterDraft, MishapDraft, POINTS, PieceDraft,
    PointDraft, RuleDraft, SORTS, SortDraft, TRUSTS, UsageDraft, WELL,
};
use workshop::draft::{Choice, JobDraft, UpkeepDraft};
use workshop::fold::fold;

use crate::blamed::{by, check, id, of};

fn words(text: &str) -> String {
    text.to_owned()
}

/// A word of a list, or none.
fn some_word<T: Copy + 'static>(of: &'static [Choice<T>]) -> impl Strategy<Value = String> {
    let all: Vec<String> = of.iter().map(|(word, _)| words(word)).collect();
    prop::option::of(select(all)).prop_map(Option::unwrap_or_default)
}

/// A figure within a range, or none, as a person types it.
fn some_figure(from: u32, to: u32) -> impl Strategy<Value = String> {
    let one = (from..to).prop_map(|n| n.to_string());
    prop::option::of(one).prop_map(Option::unwrap_or_default)
}

fn note() -> impl Strategy<Value = String> {
    // Nobody keeps the blanks around a note.
    "([^\\p{Cc}]|\n){0,20}".prop_map(|note| words(note.trim()))
}

fn usage() -> impl Strategy<Value = UsageDraft> {
    let first = (
        some_word(&CARRIED),
        some_figure(1, 50),
        some_figure(1, 160),
        some_figure(1, 3000),
        any::<bool>(),
    );
    let then = (
        some_figure(1, 20_000),
        some_figure(0, 1000),
        some_figure(0, 1000),
        some_figure(1, 99),
    );
    (first, then).prop_map(
        |((water, silt, week, season, open), (keep, wage, failure, floor))| UsageDraft {
            currency: words("EUR"),
            water,
            sand: silt.clone(),
            silt,
            week,
            between: season.clone(),
            season,
            from: words(if open { "05-01" } else { "" }),
            until: words(if open { "02-29" } else { "" }),
            keep,
            wage,
            worth: failure.clone(),
            failure,
            floor,
        },
    )
}

fn sort() -> impl Strategy<Value = SortDraft> {
    let first = (some_word(&SORTS), some_figure(1, 5000), some_word(&TRUSTS));
    let then = (any::<bool>(), any::<bool>(), note());
    (first, then).prop_map(|((kind, price, trust), (guess, fades, note))| {
        let so = |so: bool, text: &str| words(if so { text } else { "" });
        SortDraft {
            name: words("A ring, “soft”"),
            kind,
            supplies: price.clone(),
            price,
            labour: words("90 min"),
            tenth: so(guess, "43"),
            half: so(guess, "102"),
            trust,
            ruin: so(guess, "15"),
            lost: so(fades, "10,5"),
            lost_at: so(fades, "80 h"),
            note,
            ..SortDraft::default()
        }
    })
}

fn piece() -> impl Strategy<Value = PieceDraft> {
    let how = (any::<bool>(), some_word(&CARRIED), some_word(&ENDINGS));
    (how, any::<bool>(), note()).prop_map(|((elsewhere, water, end), good, note)| PieceDraft {
        part: words("a"),
        elsewhere: words(if elsewhere { "yes" } else { "" }),
        water,
        fitted: words(if elsewhere { "0" } else { "12.5" }),
        good: words(if good { "60" } else { "" }),
        ended: words(if end.is_empty() { "" } else { "61" }),
        end,
        note,
    })
}

fn rule() -> impl Strategy<Value = RuleDraft> {
    let mishaps: Vec<_> = MISHAPS.iter().map(|(word, _)| words(word)).collect();
    let after = subsequence(mishaps, 0..=MISHAPS.len());
    (some_figure(1, 500), after, some_word(&EDGES)).prop_map(|(hours, after, edge)| RuleDraft {
        name: words("A task"),
        hours,
        months: words("12"),
        after,
        edge,
        page: words("5-14"),
    })
}

/// What may be said about service.
pub(crate) fn upkeeps() -> impl Strategy<Value = UpkeepDraft> {
    let rows = (
        prop::collection::vec((0_u8..28, note()), 0..3),
        prop::collection::vec(
            (select(MISHAPS.map(|(word, _)| word).to_vec()), note()),
            0..3,
        ),
        prop::collection::vec(select(vec!["gap", "anode", "own"]), 0..3),
        subsequence(POINTS.map(|(word, _)| word).to_vec(), 0..=9),
        some_word(&WELL),
    );
    let parts = (
        prop::option::of(usage()),
        sort(),
        prop::collection::vec(piece(), 0..3),
        rule(),
    );
    (parts, rows).prop_map(
        |((usage, sort, pieces, rule), (meter, mishaps, done, points, well))| {
            let day = |n: usize| format!("2026-04-{:02}", n + 1);
            let pieces = pieces.into_iter().enumerate();
            let meter = meter.into_iter().enumerate();
            let mishaps = mishaps.into_iter().enumerate();
            let done = done.into_iter().enumerate();
            UpkeepDraft {
                usage,
                parts: vec![(words("a"), sort)],
                pieces: pieces.map(|(n, piece)| (format!("p-{n}"), piece)).collect(),
                meter: meter
                    .map(|(n, _)| MeterDraft {
                        on: day(n),
                        hours: (100 + n).to_string(),
                    })
                    .collect(),
                mishaps: mishaps
                    .map(|(n, (what, note))| MishapDraft {
                        what: words(what),
                        on: day(n),
                        hours: String::new(),
                        note,
                    })
                    .collect(),
                rules: vec![(words("own"), rule)],
                done: done
                    .map(|(n, task)| DoneDraft {
                        task: words(task),
                        on: day(n),
                        hours: words("103"),
                        note: String::new(),
                    })
                    .collect(),
                // In the order of a walk, as a job tells them.
                recheck: points
                    .into_iter()
                    .map(|point| PointDraft {
                        point: words(point),
                        found: if well.is_empty() {
                            words("well")
                        } else {
                            well.clone()
                        },
                        note: String::new(),
                    })
                    .collect(),
            }
        },
    )
}

/// Rows of a recheck stand by their points, whatever the file's order.
fn sorted(mut draft: UpkeepDraft) -> UpkeepDraft {
    draft.recheck.sort_by(|a, b| a.point.cmp(&b.point));
    draft
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn law_what_is_said_about_service_travels(draft in upkeeps()) {
        let whole = JobDraft { title: words("A"), upkeep: draft.clone(), ..JobDraft::default() };
        let text = write(&id(), &whole);
        let file = parse("job.toml", &text).unwrap_or_else(|complaint| panic!("{complaint}"));
        prop_assert_eq!(sorted(file.draft.upkeep.clone()), sorted(draft.clone()));
        let new = file.entries(&id(), &[], &by()).unwrap_or_else(|error| panic!("{error}\n{text}"));
        let entries = stored(&new, 0);
        let back = JobDraft::of(&fold(&entries).0);
        prop_assert_eq!(sorted(back.upkeep.clone()), sorted(draft));
        // What the job has already is not said again.
        let again = parse("job.toml", &write(&id(), &back)).unwrap();
        prop_assert!(again.entries(&id(), &entries, &by()).unwrap().is_empty());
    }
}

const SORT: &str = "[[sort]]\nkey = \"a\"\nname = \"A\"\n";

/// The first line of a body is line 6 of its file.
#[test]
fn law_what_cannot_be_about_service_is_refused_at_its_place() {
    let service = |lines: &str| format!("[service]\n{lines}\n");
    let sort = |lines: &str| format!("{SORT}{lines}\n");
    check([
        (service("week = \"0\""), "line 7, column 9", "0.1 to 168"),
        (
            service("week = \"6 mm\""),
            "line 7, column 11",
            "unit of a length",
        ),
        (
            service("failure = \"150 EUR\""),
            "line 7, column 16",
            "behind its number",
        ),
        (service("floor = \"100\""), "line 7, column 10", "1 to 99"),
        (
            service("from = \"05-01\""),
            "line 7, column 8",
            "Fill in both",
        ),
        (
            service("from = \"05-01\"\nuntil = \"02-30\""),
            "line 8, column 10",
            "no day of a year",
        ),
        (
            service("water = \"mud\""),
            "line 7, column 10",
            "clean, silt",
        ),
        (service("profit = \"1\""), "line 7", "profit"),
        (
            sort("price = \"0\""),
            "line 9, column 10",
            "0.01 to 1000000",
        ),
        (sort("half = \"100\""), "line 9, column 8", "Fill in both"),
        (
            sort("half = \"100\"\ntenth = \"98\""),
            "line 10, column 9",
            "no part lasts so",
        ),
        (
            sort("half = \"40\"\ntenth = \"98\""),
            "line 10, column 10",
            "smaller",
        ),
        (
            sort("option = \"steeper\""),
            "line 9, column 10",
            "no option “steeper”",
        ),
        (
            format!("{SORT}{SORT}"),
            "line 10, column 7",
            "sort of part “a” above already",
        ),
        (
            words("[[sort]]\nkey = \"A b\"\nname = \"A\"\n"),
            "line 7, column 8",
            "no id",
        ),
    ]);
}

#[test]
fn law_pieces_that_cannot_be_are_refused_at_their_place() {
    let piece = |lines: &str| format!("{SORT}[[piece]]\nkey = \"p\"\nsort = \"a\"\n{lines}\n");
    check([
        (
            piece("fitted = \"10\"\ngood = \"9\""),
            "line 13, column 8",
            "not after",
        ),
        (
            piece("fitted = \"10\"\nend = \"worn\""),
            "line 13, column 7",
            "Fill in both",
        ),
        (
            piece("fitted = \"10\"\nend = \"worn\"\nended = \"10\""),
            "line 14, column 9",
            "not after",
        ),
        (
            piece("elsewhere = \"yes\"\nfitted = \"10\""),
            "line 13, column 11",
            "from 0",
        ),
        (
            words("[[piece]]\nkey = \"p\"\nsort = \"b\"\nfitted = \"0\"\n"),
            "line 8, column 9",
            "no sort of part “b”",
        ),
    ]);
}

#[test]
fn law_rows_about_service_that_cannot_be_are_refused_at_their_place() {
    check([
        (
            words(
                "[[meter]]\non = \"2026-04-01\"\nhours = \"90\"\n[[meter]]\non = \"2026-04-02\"\nhours = \"80\"\n",
            ),
            "line 11, column 9",
            "never runs backwards",
        ),
        (
            words("[[mishap]]\nwhat = \"fire\"\non = \"2026-05-01\"\n"),
            "line 7, column 9",
            "strike, sand",
        ),
        (
            words("[[due]]\ntask = \"own\"\nhours = \"10\"\n"),
            "line 7",
            "needs a name",
        ),
        (
            words("[[due]]\ntask = \"gap\"\npage = \"5\"\n"),
            "line 7",
            "Nothing says when",
        ),
        (
            words("[[due]]\ntask = \"gap\"\nmonths = 0\n"),
            "line 8, column 10",
            "1 to 120",
        ),
        (
            words("[[due]]\ntask = \"gap\"\nafter = [\"rain\"]\n"),
            "line 8, column 11",
            "strike, sand",
        ),
        (
            words("[[done]]\ntask = \"own\"\non = \"2026-05-01\"\n"),
            "line 7, column 9",
            "no task “own”",
        ),
        (
            words("[[done]]\ntask = \"gap\"\non = \"2027-01-01\"\n"),
            "line 8, column 6",
            "2027-01-01",
        ),
        (
            words("[[recheck]]\npoint = \"keel\"\nfound = \"well\"\n"),
            "line 7, column 10",
            "cone, marks",
        ),
        (
            words(
                "[[recheck]]\npoint = \"gap\"\nfound = \"well\"\n[[recheck]]\npoint = \"gap\"\nfound = \"amiss\"\n",
            ),
            "line 10, column 9",
            "stands above already",
        ),
    ]);
}

#[test]
fn practice_a_card_holds_prices_and_rules_but_no_hours() {
    let card = |body: &str| {
        let text =
            format!("format = \"pumpwright card\"\nversion = 1\n[card]\ntitle = \"A\"\n{body}");
        parse("card.toml", &text).map_err(|complaint| complaint.to_string())
    };
    let good = "[[due]]\ntask = \"gap\"\nhours = \"25\"\n";
    assert!(card(&format!("[service]\ncurrency = \"EUR\"\n{SORT}{good}")).is_ok());
    let said = card("[[meter]]\non = \"2026-05-01\"\nhours = \"88\"\n").unwrap_err();
    assert!(
        said.contains("A card holds no hours, mishaps and work done"),
        "{said}"
    );
    assert!(of(good).is_ok());
}
