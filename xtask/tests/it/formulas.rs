//! A formula says what it computes, for which range, in which units, and where it comes from.

use crate::scan::{has_word, words};
use crate::sources::doc_text;
use crate::tree::{Fault, Rule, SOURCES, Source, enforce};
use std::collections::BTreeSet;

/// Coherent SI, nothing else.
const UNITS: [&str; 30] = [
    "1", "m", "m^2", "m^3", "m^4", "1/m", "1/m^2", "s", "1/s", "Hz", "rad", "rad/s", "m/s",
    "m/s^2", "m^2/s", "m^3/s", "kg", "kg/m^3", "kg/s", "N", "N/m", "N m", "Pa", "Pa s", "J", "W",
    "K", "1/K", "V", "J/kg",
];

/// What computes nothing a book could state: files, or folders with all they hold.
const EXEMPT: [(&str, &str); 4] = [
    (
        "crates/base/chart/",
        "places on paper, in units of the drawing",
    ),
    ("crates/base/quantity/src/format.rs", "number to text"),
    ("crates/base/quantity/src/parse.rs", "text to number"),
    (
        "crates/base/quantity/src/unit.rs",
        "a number in whatever unit is asked for",
    ),
];

/// A public function with its doc comment.
#[derive(Debug, Default)]
struct Function {
    line: usize,
    name: String,
    /// Name and type of each argument.
    arguments: Vec<(String, String)>,
    answer: String,
    doc: Vec<String>,
}

/// The public functions outside tests.
fn functions(source: &Source) -> Vec<Function> {
    let lines = &source.lines;
    let mut found = Vec::new();
    for (number, line) in lines.iter().enumerate() {
        let code = line.code.trim_start();
        if line.test || !(code.starts_with("pub fn ") || code.starts_with("pub const fn ")) {
            continue;
        }
        let rest: Vec<&str> = lines[number..]
            .iter()
            .map(|line| line.code.trim())
            .collect();
        let signature = rest.join(" ");
        let end = signature.find(['{', ';']).unwrap_or(signature.len());
        let above = lines[..number].iter().rev();
        let mut doc: Vec<String> = above
            .take_while(|line| {
                let code = line.code.trim();
                code.starts_with("#[") || (code.is_empty() && doc_text(&line.comment).is_some())
            })
            .filter_map(|line| doc_text(&line.comment).map(String::from))
            .collect();
        doc.reverse();
        found.extend(signature_parts(&signature[..end]).map(|function| Function {
            line: number,
            doc,
            ..function
        }));
    }
    found
}

/// Name, arguments and answer from the text up to the body.
fn signature_parts(signature: &str) -> Option<Function> {
    let (_, rest) = signature.split_once("fn ")?;
    let name = words(rest).next()?.to_owned();
    let open = rest.find('(')?;
    let mut parts = vec![String::new()];
    let mut depth = 0;
    let mut close = rest.len();
    for (at, c) in rest.char_indices().skip_while(|(at, _)| *at < open) {
        match c {
            '(' | '[' | '<' => depth += 1,
            ')' | ']' => depth -= 1,
            '>' if !rest[..at].ends_with('-') => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            close = at + 1;
            break;
        }
        match c {
            ',' if depth == 1 => parts.push(String::new()),
            _ if at > open => parts.last_mut()?.push(c),
            _ => {}
        }
    }
    let argument = |part: &String| {
        let (name, kind) = part.split_once(':')?;
        let name = name.trim().trim_start_matches("mut ");
        Some((name.to_owned(), kind.trim().to_owned()))
    };
    Some(Function {
        name,
        arguments: parts.iter().filter_map(argument).collect(),
        answer: rest[close..]
            .trim()
            .trim_start_matches("->")
            .trim()
            .to_owned(),
        ..Function::default()
    })
}

/// The structs of a file whose every field is a number.
fn number_structs(source: &Source) -> BTreeSet<String> {
    let lines = source.lines.iter().filter(|line| !line.test);
    let code = lines
        .map(|line| line.code.trim())
        .collect::<Vec<_>>()
        .join(" ");
    code.split("pub struct ")
        .skip(1)
        .filter_map(|rest| {
            let (name, body) = rest.split_once('{')?;
            let (body, _) = body.split_once('}')?;
            let mut fields = body
                .split(',')
                .filter_map(|field| Some(field.split_once(':')?.1.trim()));
            let all = fields.clone().next().is_some() && fields.all(|kind| kind == "f64");
            all.then(|| name.trim().to_owned())
        })
        .collect()
}

/// What a formula's doc comment lacks.
fn lacks(function: &Function) -> Vec<String> {
    let mut lacks = Vec::new();
    let starts = |mark: &str| function.doc.iter().position(|line| line.starts_with(mark));
    let (range, source) = (starts("Range:"), starts("Source:"));
    if range.is_none() {
        lacks.push("no `Range:` line".into());
    }
    match (range, source) {
        (_, None) => lacks.push("no `Source:` line".into()),
        (Some(range), Some(source)) if range > source => {
            lacks.push("`Source:` before `Range:`".into());
        }
        _ => {}
    }
    let rows = rows(&function.doc);
    for (name, unit) in &rows {
        if !is_unit(unit) {
            lacks.push(format!(
                "`{name}` in {unit}, which is not a unit of the house"
            ));
        }
    }
    let has_row = |argument: &str| {
        rows.iter().any(|(name, _)| {
            name.strip_prefix(argument)
                .is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
        })
    };
    for (name, _) in function
        .arguments
        .iter()
        .filter(|(_, kind)| is_numeric(kind))
    {
        if !has_row(name) {
            lacks.push(format!("no row with the unit of `{name}`"));
        }
    }
    if has_word(&function.answer, "f64") && !has_row("returns") {
        lacks.push("no row with the unit of what it `returns`".into());
    }
    lacks
}

/// The rows of the table of symbols, without its head: the first cell, and the unit in the last.
/// An empty last cell is no unit; a struct's fields carry their own.
fn rows(doc: &[String]) -> Vec<(String, String)> {
    doc.iter()
        .filter(|line| line.starts_with('|'))
        .skip(2)
        .map(|line| line.trim_matches('|').split('|').collect::<Vec<_>>())
        .filter(|cells| cells.last().is_some_and(|unit| !unit.trim().is_empty()))
        .map(|cells| (cells[0], cells[cells.len() - 1]))
        .map(|(first, last)| {
            (
                first.trim().trim_matches('`').to_owned(),
                last.trim().to_owned(),
            )
        })
        .collect()
}

/// A unit of the house in backticks, or `unit of the ...` where a formula holds in any unit.
fn is_unit(cell: &str) -> bool {
    UNITS.iter().any(|unit| cell == format!("`{unit}`")) || cell.starts_with("unit of ")
}

/// Numbers as they are passed; a function that is passed in is none.
fn is_numeric(kind: &str) -> bool {
    has_word(kind, "f64")
        && !["Fn", "FnMut", "FnOnce"]
            .iter()
            .any(|word| has_word(kind, word))
}

fn undocumented(source: &Source, numbers: &BTreeSet<String>) -> Vec<Fault> {
    let mut faults = Vec::new();
    for function in functions(source) {
        // A struct of numbers is a formula's answer where numbers go in; elsewhere it is looked up.
        let fed = function.arguments.iter().any(|(_, kind)| is_numeric(kind));
        let answers =
            words(&function.answer).any(|word| word == "f64" || (fed && numbers.contains(word)));
        if !answers {
            continue;
        }
        for what in lacks(&function) {
            let what = format!("`{}`: {what}", function.name);
            faults.push(Fault::new(source.file.at(function.line), what));
        }
    }
    faults
}

#[test]
fn formulas_are_documented() {
    let rule = Rule {
        way_out: "write the doc comment as CONTRIBUTING.md shows under \"Add a formula\"",
        heading: "Formulas",
    };
    let formulas = SOURCES
        .iter()
        .filter(|source| source.is_src_of(&["base", "domain"]))
        .filter(|source| {
            let path = &source.file.path;
            !EXEMPT.iter().any(|(exempt, _)| path.starts_with(exempt))
        });
    let numbers = formulas.clone().flat_map(number_structs).collect();
    let faults: Vec<Fault> = formulas
        .flat_map(|source| undocumented(source, &numbers))
        .collect();
    enforce(&rule, &faults);
}

const WELL_DONE: &str = "\
/// Half of what a gap between two walls leaves.
///
/// `rest = (wide - gap) / 2`
///
/// | here      | meaning       | unit  |
/// |-----------|---------------|-------|
/// | `wide`    | between walls | `m`   |
/// | `gap`     | taken         | `m`   |
/// | `returns` | left          | `m`   |
///
/// Range: wide > gap.
/// Source: definition.
#[must_use]
pub fn rest(
    wide: f64, // between
    gap: f64,
) -> Result<f64, Error> {
    (wide - gap) / 2.0
}
";

fn found(text: &str) -> Vec<String> {
    let source = Source::new("a.rs", text);
    let numbers = number_structs(&source);
    undocumented(&source, &numbers)
        .into_iter()
        .map(|fault| fault.what)
        .collect()
}

#[test]
fn law_a_well_documented_formula_passes() {
    assert_eq!(found(WELL_DONE), Vec::<String>::new());
}

#[test]
fn law_whatever_is_taken_away_is_missed() {
    for line in [
        "/// | `wide`",
        "/// | `gap`",
        "/// | `returns`",
        "/// Range:",
        "/// Source:",
    ] {
        let broken: String = WELL_DONE
            .lines()
            .filter(|l| !l.starts_with(line))
            .collect::<Vec<_>>()
            .join("\n");
        assert_eq!(found(&broken).len(), 1, "{line}");
    }
    let foreign = WELL_DONE.replace("`m`   |\n/// | `gap`", "`mm`  |\n/// | `gap`");
    assert_eq!(
        found(&foreign),
        ["`rest`: `wide` in `mm`, which is not a unit of the house"]
    );
}

#[test]
fn law_a_struct_of_numbers_is_a_formula_too() {
    let text = "pub struct Span { pub low: f64, pub high: f64 }\npub struct Named { name: String, x: f64 }\n\
                /// Both.\npub fn span(x: &[f64]) -> Span { f(x) }\npub fn name(x: f64) -> Named { g(x) }\n\
                pub fn at(n: usize, h: impl Fn(f64)) -> Span { g(n) }\n\
                pub(crate) fn own(x: f64) -> f64 { x }\n#[cfg(test)]\nmod tests { pub fn t(x: f64) -> f64 { x } }";
    assert_eq!(
        found(text),
        [
            "`span`: no `Range:` line",
            "`span`: no `Source:` line",
            "`span`: no row with the unit of `x`"
        ]
    );
}

#[test]
fn law_a_closure_argument_does_not_end_the_list() {
    let function =
        signature_parts("pub fn f<F>(g: impl Fn(f64) -> f64, x: [f64; 2]) -> f64").unwrap();
    let names: Vec<&str> = function
        .arguments
        .iter()
        .map(|(name, _)| name.as_str())
        .collect();
    assert_eq!(names, ["g", "x"]);
    assert_eq!(function.answer, "f64");
}
