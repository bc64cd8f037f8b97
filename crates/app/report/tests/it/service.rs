//! Service, as told. All of it is invented, the answers too: what is looked at here is how they are said.

mod says;
mod told;

use jiff::civil::{Date, date};
use report::page::service::calendar::calendar;
use report::page::service::{CAUTIONS, closing, headline};
use report::page::{Button, FormName, Next, Page, Refused, Section, Tone, flat};
use workshop::entry::JobId;
use workshop::fold::fold;
use workshop::upkeep::answer::{Answer, By, Recheck};
use workshop::upkeep::recheck::Point;
use workshop::upkeep::tasks::TASKS;
use workshop::upkeep::{Mishap, evidence};

use crate::choose::Journal;
use crate::text::text;

const TODAY: Date = date(2026, 5, 9);

/// Jobs with the answers that go with them, by name.
fn pages() -> Vec<(&'static str, Page)> {
    let fresh = says::nothing();
    let mut pages = vec![("nothing", Journal::open().serviced(&fresh))];

    let mut journal = Journal::everything();
    let all = says::everything();
    pages.push(("to close", journal.serviced(&all)));
    journal.close(&all);
    let closed = says::closed(all.clone());
    pages.push(("everything", journal.serviced(&closed)));
    pages.push(("overdue", journal.serviced(&says::overdue(closed.clone()))));

    let mut struck = Journal(journal.0.clone());
    struck.happened("strike", "2026-05-03");
    struck.happened("thrust", "2026-05-04");
    pages.push(("mishap", struck.serviced(&says::struck(closed))));

    let mut amiss = Journal::open();
    amiss.found("cone", "amiss", "a bead of oil at the bottom");
    amiss.found("marks", "well", "");
    let says = Answer {
        recheck: Recheck {
            amiss: vec![Point::Cone],
            well: vec![Point::Marks],
            left: fresh
                .recheck
                .left
                .iter()
                .copied()
                .filter(|point| !matches!(point, Point::Cone | Point::Marks))
                .collect(),
            ..fresh.recheck.clone()
        },
        ..fresh.clone()
    };
    pages.push(("amiss", amiss.serviced(&says)));

    let mut missing = Journal::open();
    missing.sort("plastic-ring", "Plastic ring", ["", "", ""]);
    missing.all_well();
    missing.close(&fresh);
    pages.push(("missing", missing.serviced(&says::missing(fresh))));
    pages
}

fn named(name: &str) -> Page {
    let all = pages().into_iter();
    let mut all = all.filter(|(known, _)| *known == name);
    all.next().unwrap().1
}

#[test]
fn practice_nothing_said() {
    insta::assert_snapshot!(text(&named("nothing")));
}

#[test]
fn practice_everything_said() {
    insta::assert_snapshot!(text(&named("everything")));
}

#[test]
fn practice_overdue() {
    insta::assert_snapshot!(text(&named("overdue")));
}

#[test]
fn practice_a_mishap() {
    insta::assert_snapshot!(text(&named("mishap")));
}

#[test]
fn practice_a_point_amiss() {
    insta::assert_snapshot!(text(&named("amiss")));
}

#[test]
fn practice_figures_missing() {
    insta::assert_snapshot!(text(&named("missing")));
}

/// Every page has its cautions, and no word that a bench does not use.
#[test]
fn law_the_words_of_the_bench() {
    for (name, page) in pages() {
        assert_eq!(page.cautions, CAUTIONS, "{name}");
        let said = text(&page);
        for word in [
            "β",
            "η",
            "RUL",
            "NaN",
            "inf ",
            "Some(",
            "None",
            "hazard",
            "Weibull",
            "posterior",
            "probability",
            "-0",
            "0.00 ",
        ] {
            assert!(!said.contains(word), "{name} says “{word}”: {said}");
        }
    }
}

/// A price that leaves out somebody's time says so in the same line.
#[test]
fn law_own_time_is_said_beside_every_price() {
    let page = named("everything");
    let mut seen = 0;
    for line in text(&page).lines().filter(|line| line.contains("EUR")) {
        let form = line.starts_with('+');
        assert!(
            form || line.contains("your own time at nothing") || line.contains("instead of"),
            "{line}"
        );
        seen += usize::from(!form);
    }
    assert!(seen >= 6, "{seen}");
}

fn buttons(page: &Page) -> &[Button] {
    match &page.next {
        Next::Ask { buttons, .. } => buttons,
        _ => &[],
    }
}

/// What comes first, and what it asks.
#[test]
fn practice_the_one_thing_to_do_next() {
    for (name, form, tone) in [
        ("nothing", Some(FormName::Recheck), Tone::Open),
        ("amiss", Some(FormName::Recheck), Tone::Stop),
        ("to close", Some(FormName::CloseJob), Tone::Open),
        ("mishap", Some(FormName::TaskDone), Tone::Stop),
        ("overdue", Some(FormName::TaskDone), Tone::Open),
        ("everything", Some(FormName::TaskDone), Tone::Good),
        ("missing", None, Tone::Plain),
    ] {
        let page = named(name);
        let asked = buttons(&page).first().map(|button| button.form);
        assert_eq!((asked, page.answer.tone), (form, tone), "{name}");
    }
    let Next::Fill(form) = named("missing").next else {
        panic!("nothing to fill in");
    };
    assert_eq!(form.name, FormName::Usage);
}

/// A part past its age is told by its pieces; a task that is overdue comes before it.
#[test]
fn practice_a_part_to_renew() {
    let mut journal = Journal::everything();
    let all = says::everything();
    journal.close(&all);
    let past = says::past(says::closed(all));
    let page = journal.serviced(&past);
    assert_eq!(
        page.answer.headline,
        "Renew Plastic ring: it is past the age at which that is cheapest."
    );
    let asked = buttons(&page).iter().map(|button| button.form);
    assert_eq!(asked.collect::<Vec<_>>(), [FormName::Undo]);
    let said = text(&page);
    assert!(said.contains("cheapest to replace around 70\u{a0}h"));
    let mut both = past;
    both.due[1].overdue = true;
    both.due[1].first.on = Some(date(2026, 5, 4));
    let page = journal.serviced(&both);
    assert!(page.answer.headline.starts_with("Overdue since"));
    assert_eq!(buttons(&page)[0].form, FormName::TaskDone);
}

/// A hand goes in only beside what can hurt it.
#[test]
fn law_every_look_at_the_pump_has_its_caution() {
    let mut seen = 0;
    for (name, page) in pages() {
        for section in &page.evidence {
            let Section::Step(step) = section else {
                continue;
            };
            // What is left off is looked at on a page, not in a pump.
            if step.forms.is_empty() {
                continue;
            }
            let said = step.notes.iter().any(|note| note.contains("lanyard off"));
            assert!(said, "{name}: {}", step.heading);
            seen += 1;
        }
        let lists = page.evidence.iter().filter_map(|section| match section {
            Section::List(list) => Some(list),
            _ => None,
        });
        for list in lists {
            let said = list.cautions.iter().any(|one| one.contains("lanyard off"));
            assert!(said, "{name}: {}", list.heading);
        }
    }
    assert!(seen >= 5, "{seen}");
}

/// Each point of the recheck is asked in turn, until the job can be closed.
#[test]
fn practice_nine_points_then_close() {
    let mut journal = Journal::open();
    let mut says = says::nothing();
    says.recheck.left_off = 2;
    for point in Point::ALL {
        let page = journal.serviced(&says);
        let Next::Ask { question, .. } = &page.next else {
            panic!("nothing is asked");
        };
        assert!(flat(question).starts_with(point.name()), "{question:?}");
        let [well, amiss] = &buttons(&page)[..2] else {
            panic!("{:?}", buttons(&page));
        };
        assert_eq!((well.key, amiss.key), (Some('w'), Some('a')));
        let values: Vec<&str> = well.values.iter().map(|(_, v)| v.as_str()).collect();
        let [word, "well"] = values[..] else {
            panic!("{values:?}");
        };
        journal.found(word, "well", "");
        says.recheck.left.retain(|left| *left != point);
        says.recheck.well.push(point);
    }
    let page = journal.serviced(&says);
    assert!(page.answer.headline.ends_with("the job can be closed."));
    let said = text(&page);
    assert!(said.contains("Left off on purpose: 2 steps"), "{said}");
    let (job, _) = fold(&journal.0);
    let close = &buttons(&page)[0];
    assert_eq!(close.values, [("evidence", evidence(&job))]);
    let told = closing(&says);
    assert!(told.contains("Left off on purpose: 2 steps."), "{told}");
    journal.close(&says);
    assert_eq!(fold(&journal.0).1, []);
    // A point said anew opens it again.
    journal.found("bilge", "amiss", "");
    assert_eq!(fold(&journal.0).1.len(), 1);
}

/// Words for chances, from hardly ever to nearly always.
#[test]
fn practice_chances_in_words() {
    for (chance, words) in [
        (0.004, "hardly one case in 100"),
        (0.05, "hardly one case in 20"),
        (0.1, "about 1 of 10 cases"),
        (0.15, "1 or 2 of 10 cases"),
        (0.48, "about half of all cases"),
        (0.55, "5 or 6 of 10 cases"),
        (0.81, "about 8 of 10 cases"),
        (0.85, "8 or 9 of 10 cases"),
        (0.95, "about 19 of 20 cases"),
        (0.995, "more than 99 of 100 cases"),
    ] {
        let mut says = says::closed(says::everything());
        says.parts[0].lasts.as_mut().unwrap().season = Some(chance);
        let said = flat(&Journal::everything().serviced(&says).answer.detail);
        assert!(said.contains(&format!("in {words};")), "{words}: {said}");
    }
}

/// A form that was refused stands open as it was typed, and only that one.
#[test]
fn law_a_refused_form_keeps_what_was_typed() {
    let journal = Journal::everything();
    let says = says::everything();
    for (form, about, field) in [
        (FormName::Usage, ("usage", ""), "week"),
        (FormName::Sort, ("sort", ""), "tenth"),
        (FormName::Sort, ("sort", "metal-ring"), "half"),
        (FormName::Piece, ("new", "metal-ring"), "fitted"),
        (FormName::Piece, ("piece", "plastic-2"), "ended"),
        (FormName::Meter, ("meter", ""), "hours"),
        (FormName::Mishap, ("mishap", ""), "on"),
        (FormName::TaskRule, ("from", "list"), "months"),
        (FormName::TaskRule, ("rule", "lubricant"), "hours"),
        (FormName::TaskDone, ("from", "list"), "on"),
        (FormName::Recheck, ("from", "list"), "note"),
    ] {
        let typed = [
            about,
            (field, "as typed"),
            ("task", "gap"),
            ("point", "cone"),
        ];
        let owned = typed.map(|(name, text)| (name.to_owned(), text.to_owned()));
        let refused = Refused {
            form,
            typed: owned.into(),
            field: Some(field),
            why: "why not".to_owned(),
        };
        let page = journal.refused(&says, Some(&refused));
        let open: Vec<String> = page
            .evidence
            .iter()
            .flat_map(|section| match section {
                Section::Form(form) => vec![form],
                Section::Card(card) => card.forms.iter().collect(),
                Section::Step(step) => step.forms.iter().collect(),
                _ => Vec::new(),
            })
            .filter(|form| form.open)
            .map(|form| {
                let field = form.fields.iter().find(|one| one.refusal.is_some());
                field.map_or_else(String::new, |field| field.value.clone())
            })
            .collect();
        assert_eq!(open, ["as typed"], "{form:?} {about:?}");
    }
}

/// Every task with a day is an entry; one whose day is reckoned from hours says so.
#[test]
fn practice_the_calendar() {
    let journal = Journal::everything();
    let (job, _) = fold(&journal.0);
    let says = says::overdue(says::closed(says::everything()));
    let all = calendar(&job, &says);
    let dated = says.due.iter().filter(|due| due.first.on.is_some());
    assert_eq!(all.len(), dated.count());
    for (entry, due) in all.iter().zip(&says.due) {
        assert!(entry.on >= TODAY, "{entry:?}");
        assert!(entry.summary.contains("Two-seat craft"), "{entry:?}");
        let estimate = entry.description.contains("an estimate from the pace");
        assert_eq!(estimate, due.first.hours.is_some(), "{entry:?}");
        assert!(entry.name.starts_with(due.task.as_str()), "{entry:?}");
        let task = TASKS.iter().find(|task| task.key == due.task.as_str());
        let caution = task.map_or("", |task| task.caution);
        assert!(entry.description.contains(caution), "{entry:?}");
        assert!(entry.description.contains("lanyard off"), "{entry:?}");
    }
    insta::assert_debug_snapshot!(all[0]);
}

/// Each mishap has its sentence.
#[test]
fn practice_every_mishap_says_what_to_look_at() {
    let (job, _) = fold(&Journal::everything().0);
    let mut told = Vec::new();
    for what in [
        Mishap::Strike,
        Mishap::Sand,
        Mishap::Hot,
        Mishap::Thrust,
        Mishap::Milky,
    ] {
        let mut says = says::struck(says::closed(says::everything()));
        says.due[0].first.by = By::Mishap(what, date(2025, 9, 3));
        told.push(headline(&job, &says));
    }
    insta::assert_snapshot!(told.join("\n"));
}

/// What was told stands on the build sheet; of what nobody told nothing does.
#[test]
fn practice_the_sheet_says_what_was_rechecked() {
    let sheet = |journal: &Journal| {
        let (job, objections) = fold(&journal.0);
        text(&report::page::sheet::page(&report::page::sheet::View {
            id: &JobId::new("job").unwrap(),
            job: &job,
            objections: &objections,
            judgement: Err(workshop::refusal::Need::Pump),
            entries: &journal.0,
            now: &"2026-05-10T09:00:00+02:00[Europe/Berlin]".parse().unwrap(),
        }))
    };
    assert!(!sheet(&Journal::open()).contains("## Service"));
    let mut journal = Journal::everything();
    journal.close(&says::everything());
    journal.happened("strike", "2026-05-03");
    let page = sheet(&journal);
    let section = page
        .split("\n\n")
        .find(|part| part.starts_with("## Service"));
    let section = section.unwrap();
    for words in [
        "Closed: All nine points of the recheck were as they should be.",
        "Grounds now: the same",
        "Recheck: Cone: as it should be [A. Example, tablet]",
        "Lubricant of the housing: every 40\u{a0}h [the craft’s manual, p. 3-2]",
        "Mishap: a hard strike, 3\u{a0}May [A. Example, tablet]",
    ] {
        assert!(section.contains(words), "{words} is not in {section}");
    }
    journal.found("bilge", "amiss", "two cups");
    let page = sheet(&journal);
    assert!(page.contains("Recheck: Bilge: amiss: two cups"));
    assert!(page.contains("other ones: look at Service again"));
    assert!(page.contains("- Recheck: amiss at Bilge."));
    let mut begun = Journal::open();
    begun.found("cone", "well", "");
    assert!(sheet(&begun).contains("- Recheck: 8 points not looked at yet."));
}
