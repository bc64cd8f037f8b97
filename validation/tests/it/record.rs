//! What a recipe printed: read from `data/`, or printed anew by the locked Python.

use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// The values recorded for one crate.
pub(crate) fn recorded(name: &str) -> Value {
    let path = here().join("data").join(format!("{name}.json"));
    let text = std::fs::read_to_string(&path)
        .unwrap_or_else(|e| panic!("{} cannot be read: {e}", path.display()));
    serde_json::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

/// The values of one crate, computed now by its recipe in one Python process.
fn live(name: &str) -> Value {
    printed(name, &[])
}

/// What a recipe prints when it is given some words.
pub(crate) fn printed(name: &str, words: &[&str]) -> Value {
    let python = std::env::var("PUMPWRIGHT_PYTHON").expect(
        "PUMPWRIGHT_PYTHON must name the interpreter of the environment locked in \
         validation/python/requirements.txt; `cargo xtask check` sets it",
    );
    let recipe = here().join("python").join(format!("{name}.py"));
    let out = Command::new(&python)
        .arg(&recipe)
        .args(words)
        .output()
        .unwrap_or_else(|e| panic!("{python} does not run: {e}"));
    assert!(
        out.status.success(),
        "{} failed:\n{}",
        recipe.display(),
        String::from_utf8_lossy(&out.stderr)
    );
    serde_json::from_slice(&out.stdout).unwrap_or_else(|e| panic!("{}: {e}", recipe.display()))
}

/// Parts of a document, each with what checks its cases.
pub(crate) type Parts<'a> = &'a [(&'static str, fn(&Value))];

/// Every case of a document, by our own functions; there are this many.
pub(crate) fn compare(document: &Value, parts: Parts<'_>, cases: usize) {
    let mut compared = 0;
    for (part, check) in parts {
        for case in document[part].as_array().unwrap() {
            check(case);
            compared += 1;
        }
    }
    assert_eq!(compared, cases, "cases in the document");
}

/// The same, as printed now, which must be what is recorded to a relative tolerance.
pub(crate) fn compare_live(name: &str, parts: Parts<'_>, cases: usize, relative: f64) {
    let live = live(name);
    compare(&live, parts, cases);
    let recorded = recorded(name);
    for (part, _) in parts {
        assert_same(&recorded[part], &live[part], relative, part);
    }
}

fn here() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Two documents of one recipe agree: the same shape and words, numbers to a relative tolerance.
fn assert_same(recorded: &Value, live: &Value, relative: f64, at: &str) {
    match (recorded, live) {
        (Value::Number(a), Value::Number(b)) => {
            let (a, b) = (a.as_f64().unwrap(), b.as_f64().unwrap());
            assert_close(a, b, relative, at);
        }
        (Value::Array(a), Value::Array(b)) => {
            assert_eq!(a.len(), b.len(), "{at}: lengths");
            for (i, (a, b)) in a.iter().zip(b).enumerate() {
                assert_same(a, b, relative, &format!("{at}[{i}]"));
            }
        }
        (Value::Object(a), Value::Object(b)) => {
            assert!(a.keys().eq(b.keys()), "{at}: keys differ");
            for (key, a) in a {
                assert_same(a, &b[key], relative, &format!("{at}.{key}"));
            }
        }
        _ => assert_eq!(recorded, live, "{at}"),
    }
}

/// A number equals another to a relative tolerance.
pub(crate) fn assert_close(ours: f64, theirs: f64, relative: f64, at: &str) {
    let off = (ours - theirs).abs();
    assert!(
        off <= relative * theirs.abs(),
        "{at}: {ours} against {theirs}, off by {:.2e} of it, allowed {relative:.0e}",
        off / theirs.abs()
    );
}

/// The numbers of an array; `null` stands for `absent`.
pub(crate) fn numbers(values: &Value, absent: f64) -> Vec<f64> {
    values
        .as_array()
        .unwrap_or_else(|| panic!("not an array: {values}"))
        .iter()
        .map(|v| v.as_f64().unwrap_or(absent))
        .collect()
}

/// Numbers of what was given, or of what came out; one that is absent is no number.
pub(crate) fn all(values: &Value) -> Vec<f64> {
    numbers(values, f64::NAN)
}

/// One number.
pub(crate) fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("not a number: {value}"))
}

/// To a part of the largest of the values, since one of them may be near nothing.
pub(crate) fn near(case: &Value, what: &str, ours: &[f64]) {
    let theirs = all(&case["expect"][what]);
    assert_eq!(ours.len(), theirs.len(), "{what}");
    let most = theirs.iter().fold(0.0_f64, |most, v| most.max(v.abs()));
    let relative = number(&case["within"]["relative"]);
    for (ours, theirs) in ours.iter().zip(&theirs) {
        assert!(
            (ours - theirs).abs() <= relative * most,
            "{}, {what}: {ours} against {theirs}",
            case["name"]
        );
    }
}

/// To the part of the value that the case allows.
pub(crate) fn close(case: &Value, what: &str, ours: f64) {
    let name = format!("{}, {what}", case["name"]);
    let relative = number(&case["within"]["relative"]);
    assert_close(ours, number(&case["expect"][what]), relative, &name);
}
