//! Every stated source is in the bibliography, and every book in it is used.

use crate::tree::{FILES, Fault, Rule, SOURCES, Source, enforce, read};
use std::collections::BTreeSet;

const BIBLIOGRAPHY: &str = "docs/references.bib";

/// What may stand instead of a key.
const WITHOUT_KEY: [&str; 2] = ["definition", "common practice, no source"];

/// The keys of a bibliography, with their lines.
fn keys(bibliography: &str) -> Vec<(usize, &str)> {
    let entry = |line: &'_ str| line.starts_with('@') && line.contains('{');
    bibliography
        .lines()
        .enumerate()
        .filter(|(_, line)| entry(line))
        .filter_map(|(number, line)| {
            let (_, rest) = line.split_once('{')?;
            Some((number, rest.trim_end().trim_end_matches(',')))
        })
        .collect()
}

/// The line of a doc comment, without its marks.
pub(crate) fn doc_text(comment: &str) -> Option<&str> {
    let text = comment.trim();
    let text = text
        .strip_prefix("///")
        .or_else(|| text.strip_prefix("//!"))?;
    Some(text.trim())
}

/// What stands after `Source:`, the lines it runs on to included.
fn stated(source: &Source) -> Vec<(usize, String)> {
    let docs: Vec<Option<&str>> = source
        .lines
        .iter()
        .map(|line| doc_text(&line.comment))
        .collect();
    let mut found = Vec::new();
    for (number, doc) in docs.iter().enumerate() {
        let Some(first) = doc.and_then(|text| text.strip_prefix("Source:")) else {
            continue;
        };
        let more = docs[number + 1..]
            .iter()
            .map_while(|doc| doc.filter(|text| !text.is_empty() && !text.starts_with("Source:")));
        let text = std::iter::once(first)
            .chain(more)
            .collect::<Vec<_>>()
            .join(" ");
        found.push((number, text.trim().to_owned()));
    }
    found
}

/// The keys a statement names: its words in backticks that look like one, or else its first word.
fn named(statement: &str) -> Vec<&str> {
    let key = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-' || c == '.';
    let ticked: Vec<&str> = statement
        .split('`')
        .skip(1)
        .step_by(2)
        .filter(|word| word.chars().all(key))
        .collect();
    if ticked.is_empty() {
        let end = statement.find([' ', ',', ';']).unwrap_or(statement.len());
        return vec![statement[..end].trim_end_matches('.')];
    }
    ticked
}

/// Only formulas must name a key; a test may describe its source in words.
fn unresolved(sources: &[Source], known: &BTreeSet<&str>) -> Vec<Fault> {
    let floors = ["base", "domain", "app", "edge"];
    let mut faults = Vec::new();
    for source in sources.iter().filter(|source| source.is_src_of(&floors)) {
        for (number, statement) in stated(source) {
            if WITHOUT_KEY
                .iter()
                .any(|words| statement.trim_start_matches('`').starts_with(words))
            {
                continue;
            }
            for key in named(&statement)
                .into_iter()
                .filter(|key| !known.contains(key))
            {
                let what = format!("`{key}` is not in {BIBLIOGRAPHY}");
                faults.push(Fault::new(source.file.at(number), what));
            }
        }
    }
    faults
}

/// Whether a text names a key on its own, not as part of a longer one.
fn names(text: &str, key: &str) -> bool {
    let part = |c: char| c.is_alphanumeric() || c == '-' || c == '_';
    text.match_indices(key).any(|(start, _)| {
        !text[..start].ends_with(part) && !text[start + key.len()..].starts_with(part)
    })
}

#[test]
fn sources_resolve() {
    let rule = Rule {
        way_out: "correct the key, add the book to docs/references.bib, or write `definition` or \
                  `common practice, no source`; a book nobody cites goes",
        heading: "Formulas",
    };
    let bibliography = read(BIBLIOGRAPHY);
    let keys = keys(&bibliography);
    let mut faults = unresolved(&SOURCES, &keys.iter().map(|(_, key)| *key).collect());
    for (number, key) in &keys {
        let cited = |path: &str| path != BIBLIOGRAPHY && !path.starts_with("xtask/");
        if !FILES
            .iter()
            .any(|file| cited(&file.path) && names(&file.text, key))
        {
            let place = format!("{BIBLIOGRAPHY}:{}", number + 1);
            faults.push(Fault::new(place, format!("`{key}` is cited nowhere")));
        }
    }
    enforce(&rule, &faults);
}

#[test]
fn law_a_key_outside_the_bibliography_is_a_fault() {
    let text = "\
/// Source: `a-1`, section 3 for `f(x)`, and
/// `b-2`.
fn f() {}
/// Source: a-1 section 2.
/// Source: definition.
/// Source: `definition`.
/// Source: common practice, no source
/// Source: c-3
fn g() { let x = \"/// Source: d-4\"; }";
    let faults = unresolved(
        &[Source::new("crates/base/a/src/a.rs", text)],
        &BTreeSet::from(["a-1"]),
    );
    let places: Vec<String> = faults.into_iter().map(|fault| fault.place).collect();
    assert_eq!(
        places,
        ["crates/base/a/src/a.rs:1", "crates/base/a/src/a.rs:8"]
    );
}

#[test]
fn law_a_key_is_cited_by_its_whole_name() {
    assert!(names("see `iso-1`, 4.2", "iso-1"));
    assert!(!names("see iso-14", "iso-1"));
    assert_eq!(keys("% a\n@book{iso-1,\n title = {x} }"), [(1, "iso-1")]);
}
