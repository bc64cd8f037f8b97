//! How tests must stand.

use crate::scan::{Line, words};
use crate::tree::{FILES, Fault, File, Rule, SOURCES, Source, enforce, has_extension};
use serde_json::Value;

/// Where an ignored test is run instead, as its reason must say.
const RUNNERS: [&str; 2] = ["cargo xtask check", "cargo xtask study"];

fn unreasoned(sources: &[Source]) -> Vec<Fault> {
    let mut faults = Vec::new();
    for source in sources {
        for (number, line) in source.lines.iter().enumerate() {
            let place = || source.file.at(number);
            if line.code.contains("[should_panic") {
                faults.push(Fault::new(place(), "should_panic: any panic would do"));
            }
            if line.code.contains("#[ignore") {
                let what = unrun(&source.file.path, &source.lines[number..]);
                faults.extend(what.map(|what| Fault::new(place(), what)));
            }
        }
    }
    faults
}

/// Why no command runs the ignored test whose attribute begins these lines.
fn unrun(path: &str, lines: &[Line]) -> Option<&'static str> {
    let text: Vec<&str> = lines.iter().take(6).map(|line| line.text.trim()).collect();
    let text = text.join(" ");
    let (reason, rest) = text.split_once(']').unwrap_or((&text, ""));
    let name = rest.split_once("fn ").map_or("", |(_, name)| name);
    let name = words(name).next().unwrap_or_default();
    if !RUNNERS.iter().any(|runner| reason.contains(runner)) {
        return Some("an ignored test nobody is said to run");
    }
    if !path.contains("/tests/it/") {
        return Some("the check runs ignored tests of tests/it only");
    }
    // The check leaves out what has `study` in its name, and runs the rest.
    let named = name.contains("study") || path.contains("study");
    (named != reason.contains(RUNNERS[1]))
        .then_some("`study` in the name and `cargo xtask study` in the reason go together")
}

/// Rows with a tolerance and no reason for it.
fn unexplained(file: &File) -> Vec<Fault> {
    let value = if has_extension(&file.path, &["toml"]) {
        toml::from_str::<Value>(&file.text).map_err(|cause| cause.to_string())
    } else {
        serde_json::from_str(&file.text).map_err(|cause| cause.to_string())
    };
    let mut faults = Vec::new();
    match value {
        Ok(value) => visit(&value, "", false, &mut |path| {
            let line = line_of(&file.text, path);
            faults.push(Fault::new(
                file.at(line),
                format!("`{path}` without `because`"),
            ));
        }),
        Err(cause) => faults.push(Fault::new(&file.path, cause)),
    }
    faults
}

/// Calls `fault` with the path of each tolerance that nothing in it or around it explains.
fn visit(value: &Value, path: &str, explained: bool, fault: &mut dyn FnMut(&str)) {
    match value {
        Value::Object(table) => {
            let explained = explained || explains(value);
            for (key, value) in table {
                let path = if path.is_empty() {
                    key.clone()
                } else {
                    format!("{path}.{key}")
                };
                let tolerance = ["within", "tolerance"].contains(&key.as_str());
                if tolerance && !explained && !explains(value) {
                    fault(&path);
                }
                visit(value, &path, explained, fault);
            }
        }
        Value::Array(rows) => {
            for (number, row) in rows.iter().enumerate() {
                visit(row, &format!("{path}[{number}]"), explained, fault);
            }
        }
        _ => {}
    }
}

fn explains(value: &Value) -> bool {
    let because = value.get("because").and_then(Value::as_str);
    because.is_some_and(|why| !why.trim().is_empty())
}

/// The line where a tolerance probably stands: the n-th with its key, n from the path's last row.
fn line_of(text: &str, path: &str) -> usize {
    let key = path.rsplit('.').next().unwrap_or(path);
    let row = path
        .rsplit_once('[')
        .and_then(|(_, rest)| rest.split_once(']')?.0.parse::<usize>().ok());
    let mut places = text
        .lines()
        .enumerate()
        .filter(|(_, line)| line.contains(key));
    let first = places.clone().next();
    places
        .nth(row.unwrap_or(0))
        .or(first)
        .map_or(0, |(line, _)| line)
}

#[test]
fn ignored_tests_have_a_reason() {
    let rule = Rule {
        way_out: "write `#[ignore = \"needs what: cargo xtask check runs it\"]` (or `cargo xtask study NAME`) \
                  in tests/it, and assert the message instead of should_panic",
        heading: "Tests",
    };
    enforce(&rule, &unreasoned(&SOURCES));
}

#[test]
fn tolerances_are_explained() {
    let rule = Rule {
        way_out: "add `because = \"...\"` to the row or to the table around it",
        heading: "Tests",
    };
    let faults: Vec<Fault> = FILES
        .iter()
        .filter(|file| file.path.contains("/tests/") || file.path.starts_with("validation/"))
        .filter(|file| has_extension(&file.path, &["toml", "json"]))
        .flat_map(unexplained)
        .collect();
    enforce(&rule, &faults);
}

#[test]
fn law_an_ignored_test_without_a_runner_is_a_fault() {
    let text = r#"#[ignore]
#[ignore = "slow"]
#[ignore = "slow: cargo xtask check runs it"]
fn a() {}
#[ignore = "a long reason, \
            cargo xtask study kill runs it"]
fn kill_study() {}
#[ignore = "slow: cargo xtask check runs it"]
fn no_study() {}
#[should_panic(expected = "x")]
// #[ignore]
"#;
    let lines = |path: &str| -> Vec<String> {
        let faults = unreasoned(&[Source::new(path, text)]);
        let place = |fault: Fault| fault.place.rsplit(':').next().map(String::from);
        faults.into_iter().filter_map(place).collect()
    };
    assert_eq!(lines("a/tests/it/b.rs"), ["1", "2", "8", "10"]);
    assert_eq!(lines("a/src/b.rs"), ["1", "2", "3", "5", "8", "10"]);
}

#[test]
fn law_a_tolerance_without_a_reason_is_a_fault() {
    let check = |path: &str, text: &str| -> Vec<String> {
        let file = File {
            path: path.into(),
            text: text.into(),
        };
        unexplained(&file)
            .into_iter()
            .map(|fault| fault.place)
            .collect()
    };
    let toml = "[[case]]\nwithin = 1e-9\nbecause = 'rounding'\n[[case]]\nwithin = 1e-3\n";
    assert_eq!(check("a.toml", toml), ["a.toml:5"]);
    let json = "{\"because\": \"rounding\",\n\"cases\": [{\"tolerance\": 1e-9}]}";
    assert_eq!(check("a.json", json), Vec::<String>::new());
    assert_eq!(
        check("b.json", &json.replace("rounding", " ")),
        ["b.json:2"]
    );
    let inside =
        "{\"within\": {\"relative\": 1e-9, \"because\": \"rounding\"}, \"leaf_tolerance_m\": 5e-6}";
    assert_eq!(check("c.json", inside), Vec::<String>::new());
    assert_eq!(check("d.json", "{"), ["d.json"]);
}
