//! What is wrong, as told. All of it is invented.

use std::collections::BTreeMap;

use diagnosis::check::Check;
use diagnosis::symptom::Symptom;
use report::page::diagnose::check::words;
use report::page::diagnose::{View, headline, page};
use report::page::{Button, FieldKind, Form, FormName, Next, Page, Section, flat};
use workshop::diagnose::Diagnosing;
use workshop::diagnose::answer::answer;
use workshop::draft::diagnose::CHECKS;
use workshop::draft::word;
use workshop::entry::{Body, JobId};
use workshop::fold::fold;

use crate::choose::Journal;
use crate::text::text;

impl Journal {
    fn tell(&mut self, said: Diagnosing) {
        self.act(Body::Diagnosed(said));
    }

    fn heard(&mut self, yes: &[Symptom], no: &[Symptom]) {
        let yes = yes.iter().map(|one| (*one, true));
        let all: BTreeMap<Symptom, bool> = yes.chain(no.iter().map(|one| (*one, false))).collect();
        self.tell(Diagnosing::Symptoms(all));
    }

    fn checked(&mut self, check: Check, found: bool) {
        let (found, note) = (Some(found), String::new());
        self.tell(Diagnosing::Checked { check, found, note });
    }

    fn wrong(&self) -> Page {
        let (job, objections) = fold(&self.0);
        page(&View {
            id: &JobId::new("job").unwrap(),
            job: &job,
            objections: &objections,
            says: &answer(&job),
            refused: None,
        })
    }

    /// Runs well before, falls short after, with a craft described.
    fn falls_short(&mut self) {
        self.craft();
        self.ran("before", ["52.1", "51.3"], "6950");
        self.ran("after", ["49.0", "48.4"], "7090");
    }
}

#[test]
fn practice_nothing_told() {
    let page = Journal::open().wrong();
    insta::assert_snapshot!(text(&page));
}

#[test]
fn practice_signs_alone() {
    let mut journal = Journal::open();
    journal.heard(
        &[
            Symptom::Refit,
            Symptom::Flare,
            Symptom::Milky,
            Symptom::Chop,
        ],
        &[Symptom::Vibration, Symptom::Misfire, Symptom::Hot],
    );
    insta::assert_snapshot!(text(&journal.wrong()));
}

#[test]
fn practice_a_run_held_against_another() {
    let mut journal = Journal::open();
    journal.falls_short();
    journal.heard(&[Symptom::Roar], &[Symptom::Milky, Symptom::Sudden]);
    journal.tell(Diagnosing::MadeSafe(true));
    journal.checked(Check::Intake, false);
    insta::assert_snapshot!(text(&journal.wrong()));
}

#[test]
fn practice_a_likely_cause_is_taken_and_said_so() {
    let mut journal = Journal::open();
    journal.tell(Diagnosing::MadeSafe(true));
    journal.heard(&[Symptom::Growl, Symptom::Vibration], &[Symptom::Misfire]);
    journal.checked(Check::Turn, true);
    let (job, _) = fold(&journal.0);
    let says = answer(&job);
    let (bearing, chance) = says.leaders()[0];
    let told = headline(&job, &says);
    assert_eq!(bearing, diagnosis::fault::Fault::Bearing, "{chance}");
    assert!(told.starts_with("Most likely a bearing fails"), "{told}");
    let take = |page: &Page| {
        let take = buttons(page);
        take.iter().any(|one| one.form == FormName::TakeCause)
    };
    assert!(take(&journal.wrong()));
    journal.tell(Diagnosing::Taken(Box::new(says.told(bearing, told))));
    let page = journal.wrong();
    assert!(!take(&page));
    let Next::Ask {
        question, buttons, ..
    } = &page.next
    else {
        panic!("{:?}", page.next);
    };
    assert!(flat(question).contains("prove it under Water test"));
    assert!(buttons.iter().all(|button| button.form == FormName::Undo));
    let said = flat(&page.answer.detail);
    assert!(said.contains("On record as the cause: a failing bearing"));
    // On other grounds it is offered again, and said to be so.
    journal.checked(Check::Codes, false);
    let page = journal.wrong();
    assert!(take(&page));
    let notes = text(&page);
    assert!(notes.contains("takes a cause on other grounds"), "{notes}");
}

/// Nobody is sent on looking where it is all but sure; while it runs hot that comes first all the same.
#[test]
fn practice_a_sure_cause_is_asked_about_before_the_next_check() {
    let mut journal = Journal::open();
    journal.tell(Diagnosing::MadeSafe(true));
    journal.heard(&[Symptom::Clears, Symptom::Sudden], &[Symptom::Hot]);
    journal.checked(Check::Intake, true);
    let first = |journal: &Journal| {
        let page = journal.wrong();
        let Next::Ask {
            question, buttons, ..
        } = page.next
        else {
            panic!("{:?}", page.next);
        };
        (flat(&question), buttons[0].form, buttons[0].weight)
    };
    let (question, form, weight) = first(&journal);
    assert!(question.starts_with("Is it that? If not: "), "{question}");
    assert_eq!(
        (form, weight),
        (FormName::TakeCause, report::page::Weight::Main)
    );
    journal.heard(&[Symptom::Clears, Symptom::Sudden, Symptom::Hot], &[]);
    let (question, _, weight) = first(&journal);
    assert!(!question.starts_with("Is it that?"), "{question}");
    assert_eq!(weight, report::page::Weight::Quiet);
}

/// Hot is hot, whatever is likely: the first sentence says what to do about it.
#[test]
fn law_danger_comes_first() {
    for yes in [vec![], vec![Symptom::Growl, Symptom::Vibration]] {
        let mut journal = Journal::open();
        journal.heard(&[yes, vec![Symptom::Hot]].concat(), &[]);
        let page = journal.wrong();
        assert_eq!(page.answer.headline, "Stop: it runs hot.");
        let detail = flat(&page.answer.detail);
        assert!(detail.starts_with("Engine off, and let it cool."));
        assert!(
            !buttons(&page)
                .iter()
                .any(|one| one.label.contains("start again"))
        );
    }
}

#[test]
fn practice_hot() {
    let mut journal = Journal::open();
    journal.heard(&[Symptom::Hot, Symptom::Telltale], &[Symptom::Growl]);
    insta::assert_snapshot!(text(&journal.wrong()));
}

/// Every button of a page.
fn buttons(page: &Page) -> Vec<&Button> {
    let mut all: Vec<&Button> = Vec::new();
    for section in &page.evidence {
        if let Section::Step(step) = section {
            all.extend(&step.buttons);
        }
    }
    all.extend(forms(page).into_iter().flat_map(|form| &form.quick));
    if let Next::Ask { buttons, .. } = &page.next {
        all.extend(buttons);
    }
    all
}

fn forms(page: &Page) -> Vec<&Form> {
    let each = page.evidence.iter().flat_map(|section| match section {
        Section::Step(step) => step.forms.iter().collect(),
        Section::Card(card) => card.forms.iter().collect(),
        Section::Form(form) => vec![form],
        _ => Vec::new(),
    });
    let mut all: Vec<&Form> = each.collect();
    match &page.next {
        Next::Fill(form) => all.push(form),
        Next::Ask { write, .. } => all.extend(write),
        Next::Go { .. } | Next::Print { .. } => {}
    }
    all
}

/// Every check that a form or a button of a page can record.
fn can_record(page: &Page) -> Vec<String> {
    let sent = |values: &[(&'static str, String)]| {
        let check = values.iter().find(|(name, _)| *name == "check");
        check.map(|(_, word)| word.clone())
    };
    let pressed = buttons(page).into_iter();
    let mut all: Vec<String> = pressed.filter_map(|button| sent(&button.values)).collect();
    for form in forms(page) {
        all.extend(sent(&form.values));
        let checks = form.fields.iter().filter(|field| field.key == "check");
        for field in checks {
            if let FieldKind::Choice(choices) = &field.kind {
                all.extend(choices.iter().map(|(word, _)| word.clone()));
            }
        }
    }
    all
}

/// Everything a page says, pictures with their descriptions.
fn everything(page: &Page) -> String {
    let mut all = text(page);
    for section in &page.evidence {
        if let Section::Picture { svg, .. } = section {
            all.push_str(&svg.0);
        }
    }
    let forms = forms(page).into_iter().map(|form| format!("{form:?}"));
    all.extend(forms);
    all
}

/// Jobs in which each check in turn comes first: those that are done are asked no more.
fn journals(safe: Option<bool>) -> Vec<Journal> {
    let mut journal = Journal::open();
    journal.heard(&[Symptom::Roar], &[]);
    let mut all = Vec::new();
    loop {
        let mut one = Journal(journal.0.clone());
        if let Some(safe) = safe {
            one.tell(Diagnosing::MadeSafe(true));
            if !safe {
                one.tell(Diagnosing::MadeSafe(false));
            }
        }
        let next = answer(&fold(&journal.0).0)
            .offers
            .first()
            .map(|offer| offer.check);
        all.push(one);
        let Some(next) = next else { return all };
        journal.checked(next, false);
    }
}

/// Nobody is told how to reach into a craft that can start, and nobody is asked what they found there.
#[test]
fn law_no_instruction_into_a_craft_that_can_start() {
    for journal in journals(None).into_iter().chain(journals(Some(false))) {
        let page = journal.wrong();
        let (said, records) = (everything(&page), can_record(&page));
        for check in Check::ALL
            .into_iter()
            .filter(|one| one.reach().must_not_start())
        {
            let words = words(check);
            for instruction in [words.does, words.how, words.counts] {
                assert!(!said.contains(instruction), "{check:?}: {instruction}");
            }
            let word = word(&CHECKS, check).to_owned();
            assert!(!records.contains(&word), "{check:?} can be recorded");
        }
        // It is said how to get there.
        let waits = answer(&fold(&journal.0).0).offers;
        let waits = waits
            .iter()
            .any(|offer| offer.check.reach().must_not_start());
        let safe = buttons(&page).iter().any(|one| one.form == FormName::Safe);
        assert!(safe || !waits, "{said}");
    }
}

/// Once it can't start, the check that comes first is told whole and can be recorded, and any other too.
#[test]
fn law_all_is_told_once_it_cannot_start() {
    for journal in journals(Some(true)) {
        let (job, _) = fold(&journal.0);
        let page = journal.wrong();
        let (said, records) = (everything(&page), can_record(&page));
        for check in Check::ALL {
            assert!(
                records.contains(&word(&CHECKS, check).to_owned()),
                "{check:?}"
            );
        }
        let Some(next) = answer(&job).offers.first().map(|offer| offer.check) else {
            continue;
        };
        let words = words(next);
        for instruction in [words.does, words.how, words.tools, words.counts] {
            assert!(said.contains(instruction), "{next:?}: {instruction}");
        }
        assert!(said.contains("It may start again"), "{next:?}");
    }
}

/// Who cranks an engine keeps the others away from what turns.
#[test]
fn law_whoever_cranks_is_told_of_what_turns() {
    let mut seen = 0;
    for journal in journals(Some(true)) {
        let (job, _) = fold(&journal.0);
        let next = answer(&job).offers.first().map(|offer| offer.check);
        let cranks = next.is_some_and(|check| check.reach() == diagnosis::check::Reach::Engine);
        let told = text(&journal.wrong()).contains("Nobody is near intake, jet or shaft");
        assert_eq!(cranks, told, "{next:?}");
        seen += usize::from(cranks);
    }
    assert_eq!(seen, 2);
}

/// A run makes what was said before it stale: it can start again, whatever was said.
#[test]
fn law_a_run_makes_it_able_to_start() {
    let mut journal = Journal::open();
    journal.tell(Diagnosing::MadeSafe(true));
    assert!(can_record(&journal.wrong()).contains(&"intake".to_owned()));
    journal.ran("after", ["49.0", "48.4"], "7090");
    assert!(!can_record(&journal.wrong()).contains(&"intake".to_owned()));
}

/// An answer reckoned before somebody said that it may start again shows no instruction.
#[test]
fn law_a_kept_answer_makes_nothing_safe() {
    let mut journal = Journal::open();
    journal.tell(Diagnosing::MadeSafe(true));
    let kept = answer(&fold(&journal.0).0);
    journal.tell(Diagnosing::MadeSafe(false));
    let (job, objections) = fold(&journal.0);
    assert_eq!(kept.evidence, answer(&job).evidence);
    let page = page(&View {
        id: &JobId::new("job").unwrap(),
        job: &job,
        objections: &objections,
        says: &kept,
        refused: None,
    });
    assert!(!everything(&page).contains(words(Check::Intake).how));
    assert!(!can_record(&page).contains(&"intake".to_owned()));
}

/// Every question is asked once, in the word that the record keeps.
#[test]
fn law_every_sign_is_asked_once() {
    let page = Journal::open().wrong();
    let all = forms(&page);
    let form = all
        .iter()
        .find(|form| form.name == FormName::Symptoms)
        .unwrap();
    let asked = form
        .fields
        .iter()
        .filter(|field| matches!(field.kind, FieldKind::Pick(_)));
    let mut asked: Vec<&str> = asked.map(|field| field.key).collect();
    asked.sort_unstable();
    let mut known = workshop::draft::diagnose::SYMPTOMS.map(|(word, _)| word);
    known.sort_unstable();
    assert_eq!(asked, known);
    assert!(form.open);
}

fn sheet(journal: &Journal) -> String {
    let (job, objections) = fold(&journal.0);
    text(&report::page::sheet::page(&report::page::sheet::View {
        id: &JobId::new("job").unwrap(),
        job: &job,
        objections: &objections,
        judgement: Err(workshop::refusal::Need::Pump),
        entries: &journal.0,
        now: &"2026-05-10T09:00:00+02:00[Europe/Berlin]".parse().unwrap(),
    }))
}

/// What was told stands on the build sheet in the words of then; of what nobody told nothing does.
#[test]
fn practice_the_sheet_says_what_was_wrong() {
    let mut journal = Journal::open();
    journal.tell(Diagnosing::MadeSafe(true));
    assert!(!sheet(&journal).contains("## What was wrong"));
    journal.heard(&[Symptom::Growl], &[Symptom::Misfire]);
    journal.tell(Diagnosing::Checked {
        check: Check::Turn,
        found: Some(true),
        note: "grinds at one place".into(),
    });
    let says = answer(&fold(&journal.0).0);
    let told = headline(&fold(&journal.0).0, &says);
    let first = says.leaders()[0].0;
    journal.tell(Diagnosing::Taken(Box::new(says.told(first, told.clone()))));
    let page = sheet(&journal);
    let section = page
        .split("\n\n")
        .find(|part| part.starts_with("## What was wrong"));
    let section = section.unwrap();
    for words in [
        "Cause taken: A failing bearing",
        told.as_str(),
        "Grounds now: the same",
        "the pump growls or whines; no misfire, smoke or lamp",
        "The shaft by hand: something found: grinds at one place [A. Example, tablet]",
    ] {
        assert!(section.contains(words), "{words} is not in {section}");
    }
    journal.tell(Diagnosing::MadeSafe(false));
    assert!(sheet(&journal).contains("Grounds now: the same"));
    journal.checked(Check::Turn, false);
    let page = sheet(&journal);
    assert!(page.contains("other ones: look at What is wrong again"));
    assert!(page.contains("takes a cause on other grounds than there are now; look at it again"));
}

/// Faster than it should be is no fault to look for.
#[test]
fn practice_a_craft_that_does_better() {
    let mut journal = Journal::open();
    journal.falls_short();
    journal.ran("after", ["58.0", "57.4"], "6990");
    let page = journal.wrong();
    assert_eq!(page.answer.headline, "It does better than it should.");
}
