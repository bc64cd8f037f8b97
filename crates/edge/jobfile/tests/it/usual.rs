//! The usual plan as a card, to be edited in a text editor.

use std::path::PathBuf;

use jobfile::{By, parse, stored, write_card};
use workshop::draft::JobDraft;
use workshop::entry::{EntryId, JobId};
use workshop::fold::fold;
use workshop::job::{Fact, Job};
use workshop::usual::{Craft, usual};

const HEAD: &str = "\
# The usual rebuild as a card, for a pressed ring, greased bearings, a gauge bar, a reverse gate and two
# bailer lines. It is common practice, from no manual: every time in it is assumed. Put in what your
# manual and your data sheets say, then begin a job from it. The program lays the same plan from a few
# answers on the Assemble page; a test keeps the two alike.

";

fn card() -> String {
    let mut job = Job::default();
    job.bench.plan = Some(Fact {
        entry: EntryId::new("laid").unwrap(),
        position: 1,
        value: usual(&Craft::default()).unwrap(),
    });
    format!("{HEAD}{}", write_card(&JobDraft::card(&job)))
}

fn file() -> PathBuf {
    let here = env!("CARGO_MANIFEST_DIR");
    PathBuf::from(here).join("../cli/example/usual-plan.toml")
}

#[test]
fn law_the_card_of_the_usual_plan_is_the_one_in_the_code() {
    if std::env::var_os("PUMPWRIGHT_WRITE_FIXTURES").is_some() {
        std::fs::write(file(), card()).unwrap();
    }
    let there = std::fs::read_to_string(file()).unwrap();
    assert!(
        there == card(),
        "usual-plan.toml is not the plan of the code: PUMPWRIGHT_WRITE_FIXTURES=1 writes it anew"
    );
}

#[test]
fn law_a_job_begun_from_the_card_has_the_usual_plan() {
    let by = By {
        now: "2026-05-09T14:30:00+02:00[Europe/Berlin]".parse().unwrap(),
        device: "test".to_owned(),
        who: String::new(),
    };
    let file = parse("usual-plan.toml", &card()).unwrap_or_else(|why| panic!("{why}"));
    let file = file.begin("Patrol craft 3: pump out", "");
    let entries = file.entries(&JobId::new("third").unwrap(), &[], &by);
    let (job, objections) = fold(&stored(&entries.unwrap(), 0));
    assert!(objections.is_empty());
    assert_eq!(job.bench.plan(), Some(&usual(&Craft::default()).unwrap()));
}
