//! What is wrong, in a job file. All data are invented.

use jobfile::{parse, stored, write};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use workshop::diagnose::Diagnosing;
use workshop::draft::diagnose::{CHECKS, CheckDraft, SYMPTOMS};
use workshop::draft::{JobDraft, SearchDraft, TrialDraft};
use workshop::entry::{Body, Entry};
use workshop::fold::fold;

use crate::blamed::{by, check, id, of};

fn words(text: &str) -> String {
    text.to_owned()
}

fn checks() -> impl Strategy<Value = Vec<CheckDraft>> {
    let one = |word: &'static str| {
        let note = "([^\\p{Cc}]|\n){0,20}";
        (select(vec!["something", "nothing"]), note).prop_map(move |(found, note)| CheckDraft {
            check: words(word),
            found: words(found),
            // Nobody keeps the blanks around a note.
            note: words(note.trim()),
        })
    };
    let all: Vec<_> = CHECKS.into_iter().map(|(word, _)| word).collect();
    let some = subsequence(all, 0..=CHECKS.len()).prop_shuffle();
    some.prop_flat_map(move |some| some.into_iter().map(one).collect::<Vec<_>>())
}

/// What may be said of what is wrong.
pub(crate) fn searches() -> impl Strategy<Value = SearchDraft> {
    let answers = prop::collection::vec(prop::option::of(any::<bool>()), SYMPTOMS.len());
    (
        answers.prop_map(|all| answered(&all)),
        any::<bool>(),
        checks(),
    )
        .prop_map(|((yes, no), named, checks)| SearchDraft {
            outing: if named { words("named") } else { String::new() },
            yes,
            no,
            checks,
        })
}

fn answered(answers: &[Option<bool>]) -> (Vec<String>, Vec<String>) {
    let of = |so: bool| {
        let all = SYMPTOMS.iter().zip(answers);
        let mine = all.filter(|(_, answer)| **answer == Some(so));
        mine.map(|((word, _), _)| words(word)).collect()
    };
    (of(true), of(false))
}

/// Where an outing was to be named it is the last of the file, where there is one.
pub(crate) fn suspecting(mut search: SearchDraft, trials: &[TrialDraft]) -> SearchDraft {
    let last = trials.last().map(|trial| trial.key.clone());
    if !search.outing.is_empty() {
        search.outing = last.unwrap_or_default();
    }
    search
}

const OUTING: &str =
    "[[outing]]\nkey = \"lake\"\nname = \"Lake\"\nside = \"after\"\nunit = \"kn\"\n";
const SEARCH: &str = "[diagnosis]\nyes = [\"roar\", \"milky-jet\"]\nno = [\"hot\"]\n";
const CHECK: &str = "[[check]]\ncheck = \"soap\"\nfound = \"something\"\nnote = \"at the shoe\"\n";

/// The first line of a body is line 6 of its file.
#[test]
fn law_signs_that_cannot_be_are_refused_at_their_word() {
    let search = |lines: &str| format!("{OUTING}[diagnosis]\n{lines}\n");
    check([
        (
            search("yes = [\"roar\", \"rattle\"]"),
            "line 12, column 17",
            "since-refit, sudden, flare, roar",
        ),
        (
            search("yes = [\"roar\"]\nno = [\"hot\", \"Held\"]"),
            "line 13, column 15",
            "“Held”",
        ),
        (
            search("yes = [\"roar\", \" flare\"]\nno = [\"hot\", \"flare\"]"),
            "line 13, column 15",
            "“flare” stands under what is so and under what is not; keep one of them.",
        ),
        (
            search("yes = [\"roar\", \"\"]"),
            "line 12, column 16",
            "filled in",
        ),
        (search("no = [\" \"]"), "line 12, column 7", "filled in"),
        (search("yes = \"roar\""), "line 12, column 7", "sequence"),
        (
            search("yes = [true]"),
            "line 12, column 8",
            "text in quotes",
        ),
        (search("maybe = [\"roar\"]"), "line 12", "maybe"),
        // That a craft can't start is said beside it.
        (search("still = true"), "line 12", "still"),
        (
            search("outing = \"sea\""),
            "line 12, column 10",
            "no outing “sea”",
        ),
        (search("outing = \"Sea\""), "line 12, column 11", "no id"),
        (
            words("[diagnosis]\nouting = \"lake\"\n"),
            "line 7, column 10",
            "no outing “lake”",
        ),
    ]);
}

#[test]
fn law_a_check_that_cannot_be_is_refused_at_its_line() {
    let check_ = |lines: &str| format!("{SEARCH}{CHECK}[[check]]\n{lines}\n");
    let long = "x".repeat(2001);
    check([
        (
            check_("check = \"paint\"\nfound = \"nothing\""),
            "line 14, column 10",
            "intake, leaves, blades, mark",
        ),
        (
            check_("check = \"mark\"\nfound = \"maybe\""),
            "line 15, column 10",
            "something, nothing",
        ),
        (
            check_("check = \"mark\"\nfound = true"),
            "line 15, column 9",
            "text in quotes",
        ),
        (
            check_("check = \"mark\"\nfound = \"\""),
            "line 15, column 9",
            "filled in",
        ),
        (check_("check = \"mark\""), "line 13", "found"),
        (check_("found = \"nothing\""), "line 13", "check"),
        (
            check_("check = \" soap\"\nfound = \"nothing\""),
            "line 14, column 9",
            "The check “soap” stands above already. Keep one of them.",
        ),
        (
            check_("check = \"mark\"\nfound = \"nothing\"\nwords = \"none\""),
            "line 16",
            "words",
        ),
        (
            check_(&format!(
                "check = \"mark\"\nfound = \"nothing\"\nnote = \"{long}\""
            )),
            "line 16, column 8",
            "2000",
        ),
    ]);
}

fn bring_in(body: &str, there: &[Entry]) -> Vec<Entry> {
    let file = of(body).unwrap_or_else(|complaint| panic!("{complaint}"));
    let new = file.entries(&id(), there, &by()).unwrap();
    let base = u64::try_from(there.len()).unwrap();
    stored(&new, base)
}

/// What the file leaves unsaid of a job stays, and what it says anew is heard.
#[test]
fn law_a_file_that_says_otherwise_of_what_is_wrong_is_heard() {
    let suspect = SEARCH.replace("yes", "outing = \"lake\"\nyes");
    let body = format!("{OUTING}{suspect}{CHECK}");
    let mut there = bring_in(&body, &[]);
    // The job itself, its outing, and each of the three.
    assert_eq!(there.len(), 5);
    assert_eq!(bring_in(&body, &there), []);
    assert_eq!(bring_in("", &there), []);
    assert_eq!(bring_in("[diagnosis]\n", &there), []);
    let text = write(&id(), &JobDraft::of(&fold(&there).0));
    assert!(
        text.ends_with(
            "\n[diagnosis]\nouting = \"lake\"\nyes = [\"roar\", \"milky-jet\"]\nno = [\"hot\"]\n\
             \n[[check]]\ncheck = \"soap\"\nfound = \"something\"\nnote = \"at the shoe\"\n"
        ),
        "{text}"
    );
    // The signs are all of them each time; a check more leaves the other alone.
    let more = "[diagnosis]\nno = [\"roar\"]\n\
                [[check]]\ncheck = \"intake\"\nfound = \"nothing\"\n";
    let new = bring_in(more, &there);
    assert_eq!(new.len(), 2);
    there.extend(new);
    let draft = JobDraft::of(&fold(&there).0).diagnosis;
    assert_eq!((draft.yes, draft.no), (vec![], vec![words("roar")]));
    assert_eq!((draft.outing.as_str(), draft.checks.len()), ("lake", 2));
}

/// That a craft can't start is said beside it, and never by a file.
#[test]
fn law_a_craft_made_safe_does_not_travel() {
    let mut there = bring_in(SEARCH, &[]);
    let mut safe = there.last().unwrap().clone();
    let before = write(&id(), &JobDraft::of(&fold(&there).0));
    safe.position += 1;
    safe.new.body = Body::Diagnosed(Diagnosing::MadeSafe(true));
    there.push(safe);
    let (job, _) = fold(&there);
    assert!(job.diagnosis.safe.is_some());
    assert_eq!(write(&id(), &JobDraft::of(&job)), before);
}

#[test]
fn law_a_card_holds_nothing_of_what_is_wrong() {
    let head = "format = \"pumpwright card\"\nversion = 1\n[card]\ntitle = \"A\"\n";
    for (body, line) in [
        (SEARCH, "line 5"),
        ("[diagnosis]\n", "line 5"),
        (CHECK, "line 6"),
    ] {
        let said = parse("card.toml", &format!("{head}{body}")).unwrap_err();
        let said = said.to_string();
        let words = "no signs and checks";
        assert!(said.contains(line) && said.contains(words), "{said}");
    }
}
