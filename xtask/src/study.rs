//! Studies: long seeded runs outside the check, their tables kept in docs/studies.

use crate::run::{cargo, root, watch};
use crate::setup;
use std::fs;

/// A study is an ignored test that prints one table in Markdown.
struct Study {
    name: &'static str,
    question: &'static str,
    package: &'static str,
    test: &'static str,
    /// Built as it is used, where times are looked at.
    release: bool,
    environment: (&'static str, &'static str),
}

const STUDIES: [Study; 12] = [
    Study {
        name: "effects",
        question: "What do faults change? So many invented craft of other physics, each with every fault, without noise: per \
                   cent of what the craft does when all is well, the middle and what two craft in three lie between, of those \
                   that still plane and get so far. They are craft of the half that is tuned on. With `PUMPWRIGHT_ROWS` \
                   naming a file, every change goes there for `validation/python/effects.py`, which fits the laws that causes \
                   are weighed by.",
        package: "workshop",
        test: "effects_study",
        release: true,
        environment: ("PUMPWRIGHT_CRAFT", "1200"),
    },
    Study {
        name: "faults",
        question: "Is the cause found, and are its chances honest? Invented craft of other physics, each learnt from one \
                   noisy log; then something is wrong with it by the chances told, at any severity from 0.2 to 1, and it \
                   is run again: four runs, three starts. `Ten` are the causes the water shows best, `all` the whole list \
                   but what is not on it. `Five figures` are top speed, the engine there, the times to 30 and 50 mph and \
                   the engine off the line; `a log` also tells the engine passing 20, 30 and 40 mph; `signs` are what is \
                   heard and seen, by chances of their own. `Its physics known` ranks by what each craft's own physics \
                   makes of every fault, which nobody can better. `First` and `among three` are the shares of cases where \
                   the truth was; Brier and log score, less is better; `calibration` is by how much told confidences \
                   differ from hit rates, in bins of 400 at least. What is tuned or learnt is so on the first half. \
                   `First craft` is what the tests count again.",
        package: "workshop",
        test: "faults_study",
        release: true,
        environment: ("PUMPWRIGHT_CRAFT", "80"),
    },
    Study {
        name: "swaps",
        question: "Are changes foretold, and do 80 % bands hold? Invented craft of other physics, each learnt from one \
                   noisy run and its typed description; six swaps each. `size` and `off` are medians of the true change \
                   and of what the middle of the band is off by; `score` is the mean interval score (less is better). \
                   What is tuned is tuned on the first half. `First` is what the tests count again.",
        package: "propulsion",
        test: "swaps_study",
        release: false,
        environment: ("PUMPWRIGHT_CRAFT", "200"),
    },
    Study {
        name: "photo",
        question: "How long does one photo of a phone take? Twelve megapixels with grain and edges; the median of so many \
               runs, on whatever machine wrote this.",
        package: "picture",
        test: "photo_study",
        release: true,
        environment: ("PUMPWRIGHT_PHOTOS", "7"),
    },
    Study {
        name: "restart",
        question: "Does the journal keep every answered act when the server it is on is restarted while six writers of two \
                   benches go on? Three of them in one job. An act that was answered by an error is sent again until it \
                   is acknowledged. On whatever machine wrote this.",
        package: "store",
        test: "restart_study",
        release: false,
        environment: ("PUMPWRIGHT_RESTARTS", "20"),
    },
    Study {
        name: "kill",
        question: "Does the journal keep every answered act when the program is killed at any moment?",
        package: "store",
        test: "kill_study",
        release: false,
        environment: ("PUMPWRIGHT_KILLS", "1000"),
    },
    Study {
        name: "full",
        question: "The disk is full, and then it is not: is every answered act on record, and does a refused one land \
                   once when there is room? A small file system in memory, which takes the rights of the \
                   administrator to make.",
        package: "store",
        test: "full_study",
        release: false,
        environment: ("PUMPWRIGHT_TIMES", "100"),
    },
    Study {
        name: "shop",
        question: "A shop at work: twenty devices, an entry a second each, on four jobs and then all on one, with a hundred \
                   listeners. Is every answered entry on record once, did every listener hear of the last one, and how \
                   long did an entry wait? On whatever machine wrote this.",
        package: "pumpwright",
        test: "shop_study",
        release: true,
        environment: ("PUMPWRIGHT_SECONDS", "600"),
    },
    Study {
        name: "clearance",
        question: "Is the cause of an uneven gap found, do the intervals hold, and is \"in\" true? Invented pumps of four \
               blades at eight positions; `first ten` is what the tests count again (+ right, ? cannot tell, \
               0 none said, - others named).",
        package: "clearance",
        test: "clearance_study",
        release: false,
        environment: ("PUMPWRIGHT_PUMPS", "500"),
    },
    Study {
        name: "speed",
        question: "How long do the answers about causes take? Six blades, twelve positions, two stations; the least of so \
               many runs, on whatever machine wrote this.",
        package: "clearance",
        test: "speed_study",
        release: false,
        environment: ("PUMPWRIGHT_RUNS", "20"),
    },
    Study {
        name: "waiting",
        question: "How long does a person wait for the pages and commands of the example job?",
        package: "pumpwright",
        test: "waiting_study",
        release: true,
        environment: ("PUMPWRIGHT_RUNS", "30"),
    },
    Study {
        name: "planning",
        question: "How soon is there a plan for hands and tools, how good is it, and when is it proved? Five invented \
               rebuilds of each kind by one person with two tools, with and without evenings off, each given so many \
               seconds; CP-SAT with one worker. Median and greatest; `sooner / later over` counts benches by their \
               finish. The quickest of five runs for the first answer, on whatever machine wrote this.",
        package: "validation",
        test: "planning_study",
        release: true,
        environment: ("PUMPWRIGHT_SECONDS", "5"),
    },
];

/// The names of all studies.
pub(crate) fn names() -> impl Iterator<Item = &'static str> {
    STUDIES.iter().map(|study| study.name)
}

/// Runs one study and writes its table.
pub(crate) fn run(name: &str) -> Result<(), String> {
    let Some(study) = STUDIES.iter().find(|study| study.name == name) else {
        let known = names().collect::<Vec<_>>().join(", ");
        return Err(format!("no study `{name}`; there are: {known}"));
    };
    let (key, value) = study.environment;
    // A shorter or longer run is asked for by the same variable; the page says which it was.
    let value = std::env::var(key).unwrap_or_else(|_| value.to_owned());
    let mut command = cargo(&["test", "-p", study.package, "--test", "it", study.test]);
    if study.release {
        command.arg("--release");
    }
    command.args(["--", "--ignored", "--nocapture"]);
    let lines = watch(setup::outside(&mut command).env(key, &value))?;
    let rows = table(&lines);
    if rows.is_empty() {
        return Err(format!(
            "study `{name}` printed no table (rows that begin with `|`)"
        ));
    }
    let path = root().join(format!("docs/studies/{name}.md"));
    let text = format!(
        "# Study: {name}\n\n{}\n\nMade by `cargo xtask study {name}` (`{key}={value}`); do not edit.\n\n{}\n",
        study.question,
        rows.join("\n")
    );
    fs::create_dir_all(root().join("docs/studies"))
        .and_then(|()| fs::write(&path, text))
        .map_err(|cause| format!("{}: {cause}", path.display()))?;
    println!("written: docs/studies/{name}.md");
    Ok(())
}

/// The rows of the table; the first may stand behind the test's own name.
fn table(lines: &[String]) -> Vec<&str> {
    lines
        .iter()
        .filter_map(|line| match line.split_once(" ... |") {
            Some((start, _)) if start.starts_with("test ") => Some(&line[start.len() + 5..]),
            _ => line.starts_with('|').then_some(line.as_str()),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_an_unknown_study_is_refused_with_the_list() {
        let refusal = run("nonsense").unwrap_err();
        assert_eq!(
            refusal,
            "no study `nonsense`; there are: effects, faults, swaps, photo, restart, kill, full, shop, clearance, speed, waiting, planning"
        );
    }

    #[test]
    fn law_the_rows_are_found_among_the_lines_of_the_run() {
        let lines = [
            "running 1 test",
            "test kill_study ... | kills |",
            "|---|",
            "| 200 |",
            "ok",
        ];
        let lines = lines.map(String::from);
        assert_eq!(table(&lines), ["| kills |", "|---|", "| 200 |"]);
    }
}
