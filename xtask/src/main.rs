//! Project chores: the check, its set-up, the studies.
#![expect(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a chore speaks to the terminal"
)]

mod check;
mod run;
mod setup;
mod study;

use std::process::ExitCode;

const HELP: &str = "\
Project chores. Usage: cargo xtask CHORE

  check           set up this machine, then format, clippy, tests, docs, browser, outside;
                  stops at the first failure and prints the seconds of each stage
  check --quick   the same without setup, browser and outside
  setup           only the set-up: system packages and the Python environment
  study NAME      run a study and write its table to docs/studies/NAME.md; names: photo, full, shop, restart, kill, clearance, speed, waiting, planning, swaps, faults, effects
  help            this text
";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let outcome = match words.as_slice() {
        ["check"] => check::run(check::Extent::Whole),
        ["check", "--quick"] => check::run(check::Extent::Quick),
        ["setup"] => setup::run(),
        ["study", name] => study::run(name),
        ["help" | "--help" | "-h"] => {
            print!("{HELP}");
            return ExitCode::SUCCESS;
        }
        other => {
            eprintln!("xtask: no chore `{}`\n\n{HELP}", other.join(" "));
            return ExitCode::from(2);
        }
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(message) => {
            eprintln!("xtask: {message}");
            ExitCode::FAILURE
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_the_help_names_every_study() {
        for name in study::names() {
            assert!(HELP.contains(name), "the help text leaves out `{name}`");
        }
    }
}
