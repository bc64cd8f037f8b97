//! What is said of photos. All data are invented.

use workshop::act::Act;
use workshop::decide::MOST_PHOTOS;
use workshop::draft::JobDraft;
use workshop::draft::inspect::Sheet;
use workshop::entry::{Body, Key};
use workshop::fold::{Misfit, fold};
use workshop::photos::{Photo, PhotoHash, Photography, Subject};
use workshop::refusal::Refusal;

use crate::inspect::{NICK, keep};
use crate::journal::Journal;

fn hash(n: usize) -> PhotoHash {
    PhotoHash::new(&format!("{n:064x}")).unwrap()
}

fn key(text: &str) -> Key {
    Key::new(text).unwrap()
}

fn taken(n: usize, subject: Subject, words: &str) -> Body {
    Body::Photographed(Photography::Taken {
        photo: hash(n),
        said: Photo {
            width: 2560,
            height: 1920,
            subject,
            words: words.to_owned(),
        },
    })
}

fn captioned(n: usize, subject: Subject, words: &str) -> Body {
    Body::Photographed(Photography::Captioned {
        photo: hash(n),
        subject,
        words: words.to_owned(),
    })
}

fn put_away(n: usize) -> Body {
    Body::Photographed(Photography::PutAway { photo: hash(n) })
}

/// A job with a finding.
fn bench() -> Journal {
    let mut journal = Journal::described();
    keep(&mut journal, Sheet::Finding, "nick", NICK);
    journal
}

fn refused(journal: &Journal, body: Body) -> (Option<&'static str>, String) {
    let refusal: Refusal = journal.clone().try_act(Act::Record(body)).unwrap_err();
    (refusal.field(), refusal.to_string())
}

/// Number, subject and words of every photo, in the order taken.
fn shown(journal: &Journal) -> Vec<(String, String, String)> {
    let job = journal.job();
    let photos = job.photos.in_order().into_iter();
    photos
        .map(|(photo, state)| {
            let said = &state.photo.value;
            let number = photo.as_str().trim_start_matches('0').to_owned();
            (number, said.subject.to_string(), said.words.clone())
        })
        .collect()
}

fn line(number: &str, subject: &str, words: &str) -> (String, String, String) {
    (number.to_owned(), subject.to_owned(), words.to_owned())
}

#[test]
fn practice_a_photo_is_taken_filed_and_put_away() {
    let mut journal = bench();
    journal.record(taken(2, Subject::Job, ""));
    journal.record(taken(1, Subject::Finding(key("nick")), "Blade A"));
    assert_eq!(
        shown(&journal),
        [line("2", "job", ""), line("1", "finding nick", "Blade A")]
    );
    journal.record(captioned(2, Subject::Finding(key("nick")), "Closer"));
    let nick = Subject::Finding(key("nick"));
    assert_eq!(journal.job().photos.of(&nick).len(), 2);
    assert_eq!(shown(&journal)[0], line("2", "finding nick", "Closer"));
    journal.record(put_away(2));
    assert_eq!(shown(&journal), [line("1", "finding nick", "Blade A")]);
    // Put away, it may be taken again, and stands last.
    journal.record(taken(2, Subject::Job, "again"));
    assert_eq!(shown(&journal)[1], line("2", "job", "again"));
    assert_eq!(journal.objections(), []);
}

#[test]
fn law_undo_goes_back_step_by_step() {
    let mut journal = bench();
    journal.record(taken(1, Subject::Job, "one"));
    journal.record(captioned(1, Subject::Job, "two"));
    journal.record(put_away(1));
    assert_eq!(shown(&journal), []);
    journal.act(Act::Undo);
    assert_eq!(shown(&journal), [line("1", "job", "two")]);
    journal.act(Act::Undo);
    assert_eq!(shown(&journal), [line("1", "job", "one")]);
    journal.act(Act::Undo);
    assert_eq!(shown(&journal), []);
    journal.act(Act::Redo);
    assert_eq!(shown(&journal), [line("1", "job", "one")]);
    assert_eq!(journal.objections(), []);
}

#[test]
fn law_what_cannot_be_is_refused() {
    let mut journal = bench();
    journal.record(taken(1, Subject::Job, ""));
    let no_such = |subject: Subject, words: &str| {
        let said = refused(&journal, taken(2, subject.clone(), ""));
        assert_eq!(said, refused(&journal, captioned(1, subject, "")));
        assert_eq!(said.0, Some("subject"));
        assert!(said.1.contains(words), "{}", said.1);
    };
    no_such(Subject::Finding(key("crack")), "“finding crack”");
    no_such(Subject::Step(key("close-up")), "“step close-up”");
    no_such(Subject::Joint(key("housing")), "“joint housing”");
    no_such(Subject::Fit(key("seal")), "“fit seal”");
    let (field, words) = refused(&journal, taken(1, Subject::Finding(key("nick")), ""));
    assert_eq!(field, Some("photo"));
    assert!(words.contains("photo 00000000, of job"), "{words}");
    for body in [captioned(2, Subject::Job, ""), put_away(2)] {
        assert!(refused(&journal, body).1.contains("not in this job"));
    }
    for (width, height, wrong) in [(0, 5, "width"), (2561, 5, "width"), (5, 0, "height")] {
        let said = Photo {
            width,
            height,
            subject: Subject::Job,
            words: String::new(),
        };
        let photo = hash(2);
        let body = Body::Photographed(Photography::Taken { photo, said });
        let (field, words) = refused(&journal, body);
        assert_eq!(field, Some(wrong));
        assert!(words.contains("1 to 2560"), "{words}");
    }
    let long = "x".repeat(2001);
    assert_eq!(
        refused(&journal, captioned(1, Subject::Job, &long)).0,
        Some("words")
    );
}

#[test]
fn law_a_job_takes_so_many_photos_and_no_more() {
    let mut journal = bench();
    // One fold for all of them: each is decided on an empty album otherwise.
    for n in 1..=MOST_PHOTOS {
        let position = journal.entries.last().unwrap().position + 1;
        let mut entry = journal.entries[0].clone();
        entry.position = position;
        entry.new.id = workshop::entry::EntryId::new(&format!("photo-{n}")).unwrap();
        entry.new.body = taken(n, Subject::Job, "");
        journal.entries.push(entry);
    }
    let (_, words) = refused(&journal, taken(0, Subject::Job, ""));
    assert!(words.contains("1000 photos"), "{words}");
}

#[test]
fn law_a_hash_and_a_subject_are_read_as_written() {
    for text in [
        "job",
        "finding a",
        "step b-2",
        "joint c",
        "fit d",
        "as-found e",
        "item f",
    ] {
        assert_eq!(Subject::read(text).unwrap().to_string(), text);
    }
    for text in [
        "", "job x", "finding", "finding ", "step A", "blob x", "step a b", "../x",
    ] {
        let refusal = Subject::read(text).unwrap_err();
        assert_eq!(refusal.field(), Some("subject"), "{text}");
    }
    let whole = "0123456789abcdef".repeat(4);
    assert_eq!(PhotoHash::new(&whole).unwrap().as_str(), whole);
    assert_eq!(PhotoHash::new(&whole).unwrap().short(), "01234567");
    let upper = whole.to_uppercase();
    for text in [
        "",
        "abc",
        &whole[1..],
        &format!("{whole}0"),
        &upper,
        "../../../etc",
    ] {
        assert!(PhotoHash::new(text).is_err(), "{text}");
    }
}

#[test]
fn law_a_photo_of_what_is_gone_stays_and_is_told() {
    let mut journal = bench();
    journal.record(taken(1, Subject::Finding(key("nick")), "Blade A"));
    // The finding's own entry withdrawn, as another device may do it in between.
    let entries = journal.entries.iter();
    let gone: Vec<_> = entries
        .filter(|entry| !matches!(entry.new.body, Body::Inspected(_)))
        .cloned()
        .collect();
    let (job, objections) = fold(&gone);
    assert_eq!(job.photos.len(), 1);
    assert_eq!(objections.len(), 1);
    assert_eq!(objections[0].why, Misfit::PhotoOfNothing);
    // A way out: it is said to be of something else.
    let mut journal = Journal { entries: gone };
    journal.record(captioned(1, Subject::Job, "Blade A"));
    assert_eq!(journal.objections(), []);
}

#[test]
fn law_every_subset_folds() {
    let mut journal = bench();
    journal.record(taken(1, Subject::Finding(key("nick")), ""));
    journal.record(captioned(1, Subject::Job, "two"));
    journal.record(put_away(1));
    journal.act(Act::Undo);
    journal.record(taken(2, Subject::Job, ""));
    let last: Vec<_> = journal.entries.split_off(journal.entries.len() - 6);
    for set in 0..1_u32 << last.len() {
        let kept = last.iter().enumerate().filter(|(n, _)| set >> n & 1 == 1);
        let mut entries = journal.entries.clone();
        entries.extend(kept.map(|(_, entry)| entry.clone()));
        let _ = fold(&entries);
    }
}

#[test]
fn law_a_draft_brings_the_photos_of_a_job_and_says_nothing_twice() {
    let mut journal = bench();
    journal.record(taken(1, Subject::Finding(key("nick")), "Blade A"));
    journal.record(taken(2, Subject::AsFound(key("hose")), ""));
    let draft = JobDraft::of(&journal.job());
    assert_eq!(draft.acts(&journal.job()).unwrap(), []);
    assert_eq!(JobDraft::card(&journal.job()).photos, []);
    let mut other = bench();
    for act in draft.acts(&other.job()).unwrap() {
        other.act(act);
    }
    assert_eq!(shown(&other), shown(&journal));
    // A file that says it in other words is heard.
    let mut changed = draft;
    "Blade A, closer".clone_into(&mut changed.photos[0].words);
    for act in changed.acts(&other.job()).unwrap() {
        other.act(act);
    }
    assert_eq!(
        shown(&other)[0],
        line("1", "finding nick", "Blade A, closer")
    );
}
