//! A job whole in one file, by the command line.

use std::process::Command;

use crate::bench::{Bench, EXAMPLE, Open};
use crate::document::schema;
use crate::two_benches::taken;

/// Another store in the same folder.
const OTHER: [&str; 2] = ["--store", "sqlite:other.sqlite"];

fn with_job() -> Bench {
    let bench = Bench::with_example();
    bench.answer(&["import", "job.toml"]);
    bench
}

fn at<'a>(arguments: &[&'a str], place: [&'a str; 2]) -> Vec<&'a str> {
    [arguments, &place].concat()
}

fn names(bench: &Bench) -> Vec<String> {
    let files = bench.path().read_dir().unwrap();
    let mut names: Vec<String> = files
        .map(|file| file.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn law_a_job_archived_and_taken_in_is_the_same_job() {
    let bench = with_job();
    let said = bench.answer(&["export", "patrol-craft", "--archive", "sled.zip"]);
    assert!(
        said.ends_with("and 0 photos of the job patrol-craft are in sled.zip, read back whole.\n"),
        "{said}"
    );
    let said = bench.answer(&at(&["import", "sled.zip"], OTHER));
    assert!(said.contains("is on this bench now: "), "{said}");
    assert_eq!(
        bench.answer(&["export", "patrol-craft"]),
        bench.answer(&at(&["export", "patrol-craft"], OTHER))
    );
    let said = bench.answer(&at(&["import", "sled.zip"], OTHER));
    assert!(
        said.starts_with("Nothing new: this bench has all of the archive’s "),
        "{said}"
    );
    let gone = names(&bench);
    assert!(
        !gone.iter().any(|name| name.contains("writing")),
        "{gone:?}"
    );
}

#[test]
fn law_no_file_is_overwritten_and_nothing_half_is_left() {
    let bench = with_job();
    bench.write("sled.zip", "mine");
    let said = bench.refusal(&["export", "patrol-craft", "--archive", "sled.zip"]);
    assert_eq!(
        said,
        "“sled.zip” is there already and is not overwritten. Name another file.\n"
    );
    assert_eq!(
        std::fs::read(bench.path().join("sled.zip")).unwrap(),
        b"mine"
    );
    let said = bench.refusal(&["export", "no-such", "--archive", "none.zip"]);
    assert!(said.contains("no-such"), "{said}");
    let said = bench.refusal(&["export", "patrol-craft", "--archive", "no/such/folder.zip"]);
    assert!(said.contains("cannot be written"), "{said}");
    assert_eq!(names(&bench), ["data", "job.toml", "sled.zip"]);
}

/// Two tablets with the same job, each measured at another spot.
#[test]
fn practice_two_copies_are_made_one() {
    let bench = with_job();
    bench.answer(&["export", "patrol-craft", "--archive", "first.zip"]);
    bench.answer(&at(&["import", "first.zip"], OTHER));
    let reading = |spot: &str, text: &str| {
        let row = format!("\"{spot}\" = \"{text}\"");
        assert!(!EXAMPLE.contains(&format!("\"{spot}\"")), "{spot}");
        bench.write("changed.toml", format!("{}\n{row}\n", EXAMPLE.trim_end()));
    };
    reading("C 7:30", "14-15");
    bench.answer(&["import", "changed.toml"]);
    reading("C 9", "15-16");
    bench.answer(&at(&["import", "changed.toml"], OTHER));
    bench.answer(&at(
        &["export", "patrol-craft", "--archive", "second.zip"],
        OTHER,
    ));
    let said = bench.answer(&["import", "second.zip"]);
    let lines: Vec<&str> = said.lines().collect();
    assert!(lines[0].starts_with("1 entry came into “"), "{said}");
    assert_eq!(
        lines[1..],
        [
            "While the two copies were apart, 1 entry was written here: leaves tried.",
            "1 entry was written in the other copy: leaves tried.",
            "Where both say something about the same thing, the later entry counts: look at those \
             pages once.",
        ]
    );
    let both = bench.answer(&["export", "patrol-craft"]);
    assert!(
        both.contains("\"C 7:30\"") && both.contains("\"C 9\""),
        "{both}"
    );
}

/// One spot read by a command here and on a page there: every command says so until it is said anew.
#[test]
fn practice_what_crossed_is_told_at_the_command_line() {
    let bench = with_job();
    bench.answer(&["export", "patrol-craft", "--archive", "first.zip"]);
    bench.answer(&at(&["import", "first.zip"], OTHER));
    let reading = |text: &str| {
        let text = format!("{}\n\"C 7:30\" = \"{text}\"\n", EXAMPLE.trim_end());
        bench.write("changed.toml", text);
        bench.answer(&["import", "changed.toml"]);
    };
    reading("14-15");
    {
        let there = Open::new(&bench, &OTHER);
        let form = "id=there-1&spot=C+7:30&reading=13-14";
        taken(&there, "/job/patrol-craft/act/reading", form);
    }
    bench.answer(&at(
        &["export", "patrol-craft", "--archive", "second.zip"],
        OTHER,
    ));
    bench.answer(&["import", "second.zip"]);
    let told = |command: &str| {
        let page = bench.answer(&[command, "patrol-craft"]);
        page.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let commands = [
        "measure", "teardown", "choose", "torque", "plan", "audit", "trial", "diagnose", "service",
        "sheet",
    ];
    for command in commands {
        let page = told(command);
        for words in [
            "? Said without seeing each other. Command line: reading at C 7:30, 14 goes; 15 won’t go, at ",
            "reading at C 7:30, 13 goes; 14 won’t go, at ",
            "The later one counts. Look, then say it once more, or undo one",
        ] {
            assert!(page.contains(words), "{command}: {page}");
        }
    }
    reading("15-16");
    assert!(!told("measure").contains("without seeing"));
}

#[test]
fn law_a_damaged_archive_is_refused_and_changes_nothing() {
    let bench = with_job();
    bench.answer(&["export", "patrol-craft", "--archive", "sled.zip"]);
    let whole = std::fs::read(bench.path().join("sled.zip")).unwrap();
    bench.write("cut.zip", &whole[..whole.len() - 9]);
    let said = bench.refusal(&at(&["import", "cut.zip"], OTHER));
    assert_eq!(
        said,
        "This archive was not taken in, and nothing was changed.\n\
         It is no whole ZIP file: its beginning or its end is missing, or something stands behind \
         the end.\n\
         Copy the file once more from where it was made, or make the archive anew there.\n"
    );
    assert!(!bench.path().join("other.sqlite").exists());
    let said = bench.refusal(&["import", "sled.zip", "--as", "sister"]);
    assert!(said.contains("Leave out --as and --title"), "{said}");
    let ended = bench.run(&["export", "patrol-craft", "--archive", "x.zip", "--card"]);
    assert_eq!(ended.code, Some(2));
}

/// What Python's own library for ZIP files makes of ours, and ours of what it packs.
#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn outside_python_reads_an_archive_and_packs_it_again() {
    let python = std::env::var("PUMPWRIGHT_PYTHON").unwrap();
    let bench = with_job();
    bench.answer(&["export", "patrol-craft", "--archive", "sled.zip"]);
    let script = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../../validation/python/archive_file.py"
    );
    let mut judge = Command::new(python);
    judge.arg(script).args(["sled.zip", "again.zip"]);
    judge.args([schema("archive-manifest"), schema("archive-entry")]);
    let judged = judge.current_dir(bench.path()).output().unwrap();
    let said = String::from_utf8_lossy(&judged.stderr).into_owned();
    assert!(judged.status.success(), "{said}");
    let said = bench.answer(&at(&["import", "again.zip"], OTHER));
    assert!(said.contains("is on this bench now: "), "{said}");
    assert_eq!(
        bench.answer(&["export", "patrol-craft"]),
        bench.answer(&at(&["export", "patrol-craft"], OTHER))
    );
}
