//! The document for other programs, and its schema.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::bench::{Bench, EXAMPLE};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../..")
}

/// The schema of the version that is written.
pub(crate) fn schema(of: &str) -> PathBuf {
    let version = match of {
        "teardown" | "trial" | "choose" | "service" | "archive-manifest" | "archive-entry" => 1,
        "measure" => 3,
        _ => 2,
    };
    root().join(format!("docs/schema/{of}-{version}.json"))
}

#[test]
fn regress_the_committed_schemas_are_the_schemas() {
    for of in [
        "measure",
        "torque",
        "plan",
        "teardown",
        "audit",
        "trial",
        "choose",
        "diagnose",
        "service",
        "archive-manifest",
        "archive-entry",
    ] {
        let committed = std::fs::read_to_string(schema(of)).unwrap();
        let now = Bench::new().answer(&["schema", of]);
        assert!(
            now == committed,
            "what `{of} --json` says has changed; CONTRIBUTING.md says how to write its schema anew"
        );
    }
}

#[test]
fn practice_the_job_file_in_the_document_is_measured() {
    let page = std::fs::read_to_string(root().join("docs/job-file.md")).unwrap();
    let example = page
        .split("```toml\n")
        .nth(1)
        .unwrap()
        .split("```")
        .next()
        .unwrap();
    let bench = Bench::new();
    bench.write("job.toml", example);
    let answer = bench.answer(&["measure", "job.toml"]);
    assert!(answer.contains("4 of 16 spots used"), "{answer}");
    assert_eq!(bench.answer(&["export", "job.toml"]), example);
}

/// In, out, undecided, and not yet begun: each fits.
#[test]
#[ignore = "needs the locked Python environment: cargo xtask check runs it"]
fn outside_json_fits_its_schema() {
    let python = std::env::var("PUMPWRIGHT_PYTHON").unwrap();
    let bench = Bench::new();
    let undecided = EXAMPLE.replace("greatest = \"18 thou\"", "greatest = \"24 thou\"");
    let contradictory = undecided.replace("\"14 drags; 15 won't go\"", "\"15 goes; 14 won't go\"");
    let (two_spots, _) = EXAMPLE.split_once("\"A 3\"").unwrap();
    let (all_in, _) = two_spots.split_once("\"A 12\"").unwrap();
    let all_in = ["A", "B", "C"]
        .iter()
        .fold(all_in.to_owned(), |text, blade| {
            let clocks = ["12", "1:30", "3", "4:30", "6", "7:30", "9", "10:30"];
            let rows = clocks.map(|clock| format!("\"{blade} {clock}\" = \"14-15\"\n"));
            text + rows.concat().as_str()
        });
    let no_limits = EXAMPLE.split("[limits]").next().unwrap().to_owned();
    let begun = EXAMPLE.split("[pump]").next().unwrap();
    let jobs = [
        EXAMPLE,
        &undecided,
        &contradictory,
        &all_in,
        &no_limits,
        begun,
    ];
    let verdicts = [
        "out",
        "undecided",
        "undecided",
        "in",
        "undecided",
        "undecided",
    ];
    for (job, verdict) in jobs.iter().zip(verdicts) {
        bench.write("job.toml", job);
        let document = bench.answer(&["measure", "job.toml", "--json"]);
        assert!(
            document.contains(&format!("\"verdict\": \"{verdict}\"")),
            "{document}"
        );
        fits(&bench, &python, "measure", document);
    }
    let example = include_str!("../../example/patrol-craft.toml");
    let stopped = example.replace("19 lbf·ft", "190 lbf·ft");
    for job in [EXAMPLE, example, &stopped] {
        bench.write("job.toml", job);
        for of in [
            "torque", "plan", "teardown", "audit", "trial", "choose", "diagnose", "service",
        ] {
            fits(
                &bench,
                &python,
                of,
                bench.answer(&[of, "job.toml", "--json"]),
            );
        }
    }
}

fn fits(bench: &Bench, python: &str, of: &str, document: String) {
    let document = bench.write("document.json", document);
    let mut judge = Command::new(python);
    judge.args(["-c", VALIDATE]).args([schema(of), document]);
    let judged = judge.output().unwrap();
    let said = String::from_utf8_lossy(&judged.stderr).into_owned();
    assert!(judged.status.success(), "{of}: {said}");
}

/// The third check shows that the schema can refuse.
const VALIDATE: &str = "
import json, sys, jsonschema
schema, document = (json.load(open(path)) for path in sys.argv[1:])
judge = jsonschema.validators.validator_for(schema)
judge.check_schema(schema)
judge(schema).validate(document)
assert not judge(schema).is_valid({**document, 'verdict': 'perhaps'})
assert not judge(schema).is_valid({**document, 'version': 99})
";
