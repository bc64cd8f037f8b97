//! Files that must be there, and what no file may be or hold.

use crate::tree::{FILES, Fault, File, Rule, SOURCES, Source, enforce, has_extension, root};

const LONGEST: usize = 500;

const REQUIRED: [&str; 7] = [
    "README.md",
    "ARCHITECTURE.md",
    "CONTRIBUTING.md",
    "LICENSE-MIT",
    "LICENSE-APACHE",
    "docs/references.bib",
    ".ci/run",
];

/// Addresses that never leave the machine: the machine itself, and names that nobody fetches.
const INSIDE: [&str; 6] = [
    "localhost",
    "127.0.0.1",
    "[::1]",
    "{",
    "www.w3.org/2000/svg",
    "192.168.1.20:8080",
];

fn long(source: &Source) -> Option<Fault> {
    let count = source.lines.iter().filter(|line| !line.test).count();
    (count > LONGEST).then(|| {
        let place = source.file.at(LONGEST);
        Fault::new(
            place,
            format!("{count} lines without tests, {LONGEST} are allowed"),
        )
    })
}

/// Addresses of other machines in a line that may reach a browser.
fn outside(line: &str) -> Vec<String> {
    ["http://", "https://"]
        .iter()
        .flat_map(|scheme| line.match_indices(scheme))
        .map(|(start, scheme)| &line[start + scheme.len()..])
        .filter(|rest| !INSIDE.iter().any(|inside| rest.starts_with(inside)))
        .map(|rest| rest.chars().take(30).collect())
        .collect()
}

fn addresses(path: &str, lines: &[&str]) -> Vec<Fault> {
    let mut faults = Vec::new();
    for (number, line) in lines.iter().enumerate() {
        for address in outside(line) {
            faults.push(Fault::new(format!("{path}:{}", number + 1), address));
        }
    }
    faults
}

#[test]
fn source_files_are_short() {
    let rule = Rule {
        way_out: "split the file by what it knows",
        heading: "Style",
    };
    enforce(&rule, &SOURCES.iter().filter_map(long).collect::<Vec<_>>());
}

#[test]
fn no_outside_address() {
    let rule = Rule {
        way_out: "serve the thing from crates/edge/web/static: the bench has no internet",
        heading: "The bench is offline",
    };
    let pages = ["chart", "report", "web"];
    let is_page = |path: &str| {
        path.split('/')
            .nth(2)
            .is_some_and(|name| pages.contains(&name))
    };
    let mut faults = Vec::new();
    for source in SOURCES
        .iter()
        .filter(|source| source.is_src_of(&["base", "app", "edge"]) && is_page(&source.file.path))
    {
        let lines = source
            .lines
            .iter()
            .map(|line| if line.test { "" } else { &line.text });
        faults.extend(addresses(&source.file.path, &lines.collect::<Vec<_>>()));
    }
    let page_files = ["css", "html", "js", "mjs", "json", "svg", "webmanifest"];
    let is_static = |file: &&File| {
        file.path.starts_with("crates/edge/web/") && has_extension(&file.path, &page_files)
    };
    for file in FILES.iter().filter(is_static) {
        faults.extend(addresses(
            &file.path,
            &file.text.lines().collect::<Vec<_>>(),
        ));
    }
    enforce(&rule, &faults);
}

#[test]
fn licence_and_readme_files_exist() {
    let rule = Rule {
        way_out: "write it",
        heading: "Style",
    };
    let empty =
        |path: &&str| std::fs::metadata(root().join(path)).map_or(0, |file| file.len()) == 0;
    let faults: Vec<Fault> = REQUIRED
        .into_iter()
        .filter(|path| empty(path))
        .map(|path| Fault::new(path, "missing or empty"))
        .collect();
    enforce(&rule, &faults);
}

#[test]
fn law_tests_do_not_count_as_length() {
    let code = "fn a() {}\n".repeat(LONGEST);
    let tests = format!(
        "#[cfg(test)]\nmod tests {{\n{}}}\n",
        "fn b() {}\n".repeat(9)
    );
    assert_eq!(long(&Source::new("a.rs", &format!("{code}{tests}"))), None);
    assert!(long(&Source::new("a.rs", &format!("{code}fn c() {{}}\n{tests}"))).is_some());
}

#[test]
fn law_only_addresses_elsewhere_are_faults() {
    let lines = [
        "import 'https://cdn.example/x.js' // http://localhost:8080",
        "createElementNS('http://www.w3.org/2000/svg', 'g')",
        "format!(\"http://{address}\")",
        "@import url(http://fonts.example/a.css)",
    ];
    let places: Vec<String> = addresses("a.js", &lines)
        .into_iter()
        .map(|fault| fault.place)
        .collect();
    assert_eq!(places, ["a.js:1", "a.js:4"]);
}
