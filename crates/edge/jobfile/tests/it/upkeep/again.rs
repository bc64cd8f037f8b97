//! What a file brings when it comes again, otherwise, or as a card. All data are invented.

use jobfile::{parse, stored, write, write_card};
use workshop::draft::JobDraft;
use workshop::draft::upkeep::{PieceDraft, UsageDraft};
use workshop::entry::{Body, Entry};
use workshop::fold::fold;
use workshop::upkeep::{Servicing, Told, evidence};

use crate::blamed::{by, id, of};

fn words(text: &str) -> String {
    text.to_owned()
}

/// The first line of a body is line 6 of its file.
const SERVICE: &str =
    "[service]\ncurrency = \"EUR\"\nwater = \"sand\"\nsand = \"4\"\nweek = \"6\"\n";
pub(super) const SORT: &str = "[[sort]]\nkey = \"soft\"\nname = \"Soft\"\nkind = \"ring\"\nprice = \"45\"\n\
                    tenth = \"43\"\nhalf = \"102\"\n";
pub(super) const PIECE: &str = "[[piece]]\nkey = \"first\"\nsort = \"soft\"\nfitted = \"20\"\ngood = \"80\"\n\
                     end = \"worn\"\nended = \"100\"\n";
pub(super) const TOLD: &str = "[[meter]]\non = \"2026-04-01\"\nhours = \"20\"\n\
                    [[mishap]]\nwhat = \"strike\"\non = \"2026-04-02\"\n\
                    [[due]]\ntask = \"bearing\"\nname = \"Bearing\"\nmonths = 6\n\
                    [[done]]\ntask = \"bearing\"\non = \"2026-04-03\"\n\
                    [[recheck]]\npoint = \"cone\"\nfound = \"well\"\n";

fn bring_in(body: &str, there: &[Entry]) -> Vec<Entry> {
    let file = of(body).unwrap_or_else(|complaint| panic!("{complaint}"));
    let new = file.entries(&id(), there, &by()).unwrap();
    let base = u64::try_from(there.len()).unwrap();
    stored(&new, base)
}

fn all() -> String {
    format!("{SERVICE}{SORT}{PIECE}{TOLD}")
}

/// What the file leaves unsaid of a job stays, and what it says anew is heard.
#[test]
fn law_a_file_that_says_otherwise_of_service_is_heard() {
    let mut there = bring_in(&all(), &[]);
    // The job itself, its use, and each of the seven.
    assert_eq!(there.len(), 9);
    for again in [all().as_str(), "", "[service]\n", SORT] {
        assert_eq!(bring_in(again, &there), []);
    }
    // The same, written otherwise.
    let otherwise = all()
        .replace("\"45\"", "\" 45 \"")
        .replace("sort = \"soft\"", "sort = \"soft\"\nelsewhere = \"no\"")
        .replace("\"2026-04-01\"", "\"20260401\"")
        .replace("months = 6", "months = \"06\"");
    assert_eq!(bring_in(&otherwise, &there), []);
    let more = "[service]\nweek = \"5\"\n[[meter]]\non = \"2026-05-01\"\nhours = \"30\"\n";
    let new = bring_in(more, &there);
    assert_eq!(new.len(), 2);
    there.extend(new);
    let draft = JobDraft::of(&fold(&there).0).upkeep;
    // A table takes the place of its like; what happened is added.
    let usage = draft.usage.unwrap();
    assert_eq!((usage.week.as_str(), usage.currency.as_str()), ("5", ""));
    assert_eq!((draft.meter.len(), draft.parts.len()), (2, 1));
}

/// That a job was closed is said by whoever looked at it, and never by a file.
#[test]
fn law_a_job_that_was_closed_does_not_travel() {
    let mut there = bring_in(&all(), &[]);
    let (job, _) = fold(&there);
    let before = write(&id(), &JobDraft::of(&job));
    let mut closed = there.last().unwrap().clone();
    closed.position += 1;
    closed.new.body = Body::Serviced(Servicing::Closed(Box::new(Told {
        evidence: evidence(&job),
        words: words("Closed."),
        program: words("a test"),
    })));
    there.push(closed);
    let (job, objections) = fold(&there);
    assert!(job.upkeep.closed.is_some() && objections.is_empty());
    assert_eq!(write(&id(), &JobDraft::of(&job)), before);
}

/// What a part costs and how long it lasts is true of the next craft too; when this one runs is not.
#[test]
fn law_a_card_takes_what_parts_cost_and_how_long_they_last_along() {
    let card = write_card(&JobDraft::card(&fold(&bring_in(&all(), &[])).0));
    let file = parse("card.toml", &card).unwrap_or_else(|complaint| panic!("{complaint}\n{card}"));
    let usage = file.draft.upkeep.usage.clone().unwrap();
    let kept = UsageDraft {
        currency: words("EUR"),
        sand: words("4"),
        ..UsageDraft::default()
    };
    assert_eq!(usage, kept);
    // The piece by its own hours, in the water it ran in, which was the craft's.
    let ran = PieceDraft {
        part: words("soft"),
        elsewhere: words("yes"),
        water: words("sand"),
        fitted: words("0"),
        good: words("60"),
        end: words("worn"),
        ended: words("80"),
        note: String::new(),
    };
    assert_eq!(file.draft.upkeep.pieces, [(words("first"), ran)]);
    assert_eq!(file.draft.upkeep.rules.len(), 1);
    let new = file.begin("Second", "").entries(&id(), &[], &by()).unwrap();
    let (second, _) = fold(&stored(&new, 0));
    let again = write_card(&JobDraft::card(&second));
    assert_eq!(again.replace("\"Second\"", "\"A\""), card);
}

#[test]
fn law_a_card_holds_no_service_of_one_craft() {
    let head = "format = \"pumpwright card\"\nversion = 1\n[card]\ntitle = \"A\"\n";
    for (body, line, why) in [
        (
            words("[service]\nsilt = \"2\"\nweek = \"6\"\n"),
            "line 7",
            "of a craft’s use",
        ),
        (
            format!("{SORT}{PIECE}"),
            "line 13",
            "pieces but those that ended elsewhere",
        ),
        (
            format!(
                "{SORT}[[piece]]\nkey = \"a\"\nsort = \"soft\"\nelsewhere = \"yes\"\nfitted = \"0\"\n"
            ),
            "line 13",
            "pieces but those that ended elsewhere",
        ),
        (words(TOLD), "line 6", "hours, mishaps and work done"),
        (
            words("[[recheck]]\npoint = \"cone\"\nfound = \"well\"\n"),
            "line 6",
            "hours, mishaps and work done",
        ),
    ] {
        let said = parse("card.toml", &format!("{head}{body}")).unwrap_err();
        let said = said.to_string();
        assert!(said.contains(line) && said.contains(why), "{said}");
    }
}
