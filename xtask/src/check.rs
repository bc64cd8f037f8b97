//! The check: every stage in turn, timed, up to the first failure.

use crate::run::{cargo, succeed, watch};
use crate::setup;
use std::time::{Duration, Instant};

/// How much of the check to run.
#[derive(Clone, Copy, PartialEq)]
pub(crate) enum Extent {
    /// Everything, set-up included.
    Whole,
    /// Only what needs neither a browser nor Python.
    Quick,
}

struct Stage {
    name: &'static str,
    quick: bool,
    /// Answers with a note for the table.
    work: fn() -> Result<String, String>,
}

const STAGES: [Stage; 7] = [
    stage("setup", false, || setup::run().map(|()| String::new())),
    stage("format", true, || plain(&["fmt", "--check"])),
    stage("clippy", true, || {
        plain(&[
            "clippy",
            "--workspace",
            "--all-targets",
            "--",
            "-D",
            "warnings",
        ])
    }),
    stage("tests", true, || tests(&["test", "--workspace"])),
    stage("docs", true, docs),
    stage("browser", false, browser),
    stage("outside", false, outside),
];

const fn stage(name: &'static str, quick: bool, work: fn() -> Result<String, String>) -> Stage {
    Stage { name, quick, work }
}

/// Runs the stages and prints the table, whole or up to the failure.
pub(crate) fn run(extent: Extent) -> Result<(), String> {
    let mut rows = Vec::new();
    for stage in STAGES
        .iter()
        .filter(|stage| stage.quick || extent == Extent::Whole)
    {
        println!("\n== {} ==", stage.name);
        let start = Instant::now();
        let outcome = (stage.work)();
        let note = outcome.clone().unwrap_or_else(|_| "FAILED".into());
        rows.push((stage.name, start.elapsed(), note));
        if let Err(message) = outcome {
            println!("\n{}", table(&rows));
            return Err(format!("stage `{}` failed: {message}", stage.name));
        }
    }
    println!("\n{}", table(&rows));
    Ok(())
}

fn plain(arguments: &[&str]) -> Result<String, String> {
    succeed(&mut cargo(arguments)).map(|()| String::new())
}

fn tests(arguments: &[&str]) -> Result<String, String> {
    counted(&watch(&mut cargo(arguments))?)
}

/// The targets are named because without `--examples` cargo leaves out what only tests need, chooses
/// other features for the rest, and checks most dependencies once more.
fn docs() -> Result<String, String> {
    let mut command = cargo(&["doc", "--workspace", "--no-deps"]);
    command.args(["--lib", "--bins", "--examples"]);
    succeed(command.env("RUSTDOCFLAGS", "-D warnings")).map(|()| String::new())
}

// The two stages below name the whole workspace although few crates hold such tests: with fewer
// packages named, cargo would choose other features and build the dependencies a second time.

fn browser() -> Result<String, String> {
    tests(&[
        "test",
        "--workspace",
        "--test",
        "it",
        "browser",
        "--",
        "--ignored",
    ])
}

/// Every ignored test that is neither the browser's nor a study, so that none is run by nobody.
fn outside() -> Result<String, String> {
    let mut command = cargo(&["test", "--workspace", "--test", "it", "--", "--ignored"]);
    command.args(["--skip", "browser", "--skip", "study"]);
    counted(&watch(setup::outside(&mut command))?)
}

/// A stage of tests that ran none has shown nothing.
fn counted(lines: &[String]) -> Result<String, String> {
    match passed(lines) {
        0 => Err("no test ran; were the tests renamed, or moved out of tests/it?".into()),
        1 => Ok("1 test".into()),
        many => Ok(format!("{many} tests")),
    }
}

fn passed(lines: &[String]) -> usize {
    lines
        .iter()
        .filter_map(|line| line.trim().strip_prefix("test result: ok. "))
        .filter_map(|rest| rest.split_once(" passed"))
        .filter_map(|(count, _)| count.parse::<usize>().ok())
        .sum()
}

fn table(rows: &[(&str, Duration, String)]) -> String {
    let row = |name: &str, time: Duration, note: &str| {
        format!("{name:<10}{:>9.1}  {note}", time.as_secs_f64())
    };
    let whole = rows.iter().map(|(_, time, _)| *time).sum();
    std::iter::once(format!("{:<10}{:>9}  note", "stage", "seconds"))
        .chain(rows.iter().map(|(name, time, note)| row(name, *time, note)))
        .chain(std::iter::once(row("together", whole, "")))
        .collect::<Vec<_>>()
        .join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str) -> Vec<String> {
        text.lines().map(String::from).collect()
    }

    #[test]
    fn law_passed_tests_add_up_over_the_binaries() {
        let output = lines(
            "running 2 tests\ntest result: ok. 2 passed; 0 failed; 1 ignored; 0 measured\n\
             running 41 tests\ntest result: ok. 41 passed; 0 failed; 0 ignored; 0 measured\n",
        );
        assert_eq!(counted(&output), Ok("43 tests".into()));
    }

    #[test]
    fn law_a_stage_without_tests_fails() {
        let output = lines("running 0 tests\ntest result: ok. 0 passed; 0 failed; 3 ignored\n");
        assert!(counted(&output).is_err());
        assert!(counted(&[]).is_err());
    }

    #[test]
    fn law_the_table_adds_up_its_seconds() {
        let rows = [
            ("format", Duration::from_millis(400), String::new()),
            ("tests", Duration::from_millis(12_100), "43 tests".into()),
        ];
        let table = table(&rows);
        assert!(table.contains("tests          12.1  43 tests"), "{table}");
        assert!(table.contains("together       12.5"), "{table}");
    }
}
