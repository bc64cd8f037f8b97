//! Which crate may use which.

use crate::scan::has_word;
use crate::tree::{CRATES, Crate, FILES, Fault, Rule, SOURCES, Source, enforce};
use std::collections::BTreeSet;

const FLOORS: [&str; 4] = ["base", "domain", "app", "edge"];

/// Arrows that stay on one floor: from, to.
const SAME_FLOOR: [(&str, &str); 7] = [
    ("app/report", "app/workshop"),
    ("edge/cli", "edge/jobfile"),
    ("edge/cli", "edge/store"),
    ("edge/cli", "edge/web"),
    ("edge/web", "edge/jobfile"),
    ("edge/web", "edge/picture"),
    ("edge/web", "edge/store"),
];

/// What comes from outside and may be used below the edge, and why.
const LISTED: [(&str, &str); 18] = [
    ("csv", "rows and cells of a log"),
    (
        "differential-equations",
        "a run from rest step by step, with the moments in it that are asked for",
    ),
    ("errorfunctions", "erf and its inverse to the last bit"),
    ("geographiclib-rs", "distances on the ellipsoid"),
    ("insta", "tests only: pictures and pages compared as text"),
    (
        "jiff",
        "instants and dates with a zone; the clock itself stays at the edge",
    ),
    ("maud", "SVG and HTML checked and escaped at compile time"),
    ("memchr", "ends of lines in logs of any length"),
    (
        "microlp",
        "linear programmes: bounds that no scatter is assumed for",
    ),
    ("nalgebra", "small matrices: factors, solutions, ranks"),
    ("proptest", "tests only: laws over generated input"),
    ("qrcode", "which modules of a QR code are dark"),
    ("quick-xml", "tags of a log, one by one"),
    ("rand_pcg", "a pinned generator, so that answers repeat"),
    (
        "rayon",
        "workshop only: hundreds of beliefs asked on all cores",
    ),
    ("rust_decimal", "what people type, in exact decimal"),
    ("sha2", "ids made from content"),
    ("statrs", "distributions with their inverses"),
];

/// What only one crate may know: the library, the crate, the knowledge.
const ONE_HOME: [(&str, &str, &str); 5] = [
    ("sqlx", "edge/store", "SQL"),
    ("axum", "edge/web", "HTTP"),
    ("clap", "edge/cli", "arguments"),
    ("image", "edge/picture", "the formats of photos"),
    ("thirtyfour", "edge/cli", "the browser under test"),
];

fn crossing(crates: &[Crate]) -> Vec<Fault> {
    let height = |krate: &Crate| FLOORS.iter().position(|floor| *floor == krate.floor());
    let mut faults = Vec::new();
    for from in crates {
        for name in from.dependencies() {
            let Some(to) = crates.iter().find(|krate| krate.name == name) else {
                continue;
            };
            let allowed = match (height(from), height(to)) {
                (None, Some(_)) => true,
                (_, None) => false,
                (Some(above), Some(below)) => {
                    below < above || SAME_FLOOR.contains(&(&from.folder, &to.folder))
                }
            };
            if !allowed {
                let what = format!("{} uses {}", from.folder, to.folder);
                faults.push(Fault::new(from.manifest_path(), what));
            }
        }
    }
    faults
}

fn unlisted(crates: &[Crate]) -> Vec<Fault> {
    let own: BTreeSet<&str> = crates.iter().map(|krate| krate.name.as_str()).collect();
    let mut faults = Vec::new();
    for krate in crates
        .iter()
        .filter(|krate| ["base", "domain", "app"].contains(&krate.floor()))
    {
        for name in krate.dependencies() {
            let listed = LISTED.iter().any(|(listed, _)| *listed == name);
            if !listed && !own.contains(name.as_str()) {
                let what = format!("{} uses `{name}`, which is not listed", krate.folder);
                faults.push(Fault::new(krate.manifest_path(), what));
            }
        }
    }
    faults
}

fn strangers(crates: &[Crate]) -> Vec<Fault> {
    let mut faults = Vec::new();
    for krate in crates {
        for name in krate.dependencies() {
            let home = ONE_HOME.iter().find(|(library, ..)| *library == name);
            if let Some((_, home, knowledge)) = home.filter(|(_, home, _)| *home != krate.folder) {
                let what = format!("`{name}`: only {home} knows {knowledge}");
                faults.push(Fault::new(krate.manifest_path(), what));
            }
        }
    }
    faults
}

fn waiting(sources: &[Source]) -> Vec<Fault> {
    let mut faults = Vec::new();
    for source in sources
        .iter()
        .filter(|source| source.is_src_of(&["base", "domain", "app"]))
    {
        for (number, line) in source.lines.iter().enumerate() {
            for word in ["async", "await"] {
                if has_word(&line.code, word) {
                    faults.push(Fault::new(source.file.at(number), format!("`{word}`")));
                }
            }
        }
    }
    faults
}

fn unmapped(map: &str, folders: &BTreeSet<String>) -> Vec<Fault> {
    let rows: BTreeSet<String> = map
        .lines()
        .filter_map(|line| line.strip_prefix("| `")?.split_once("` |"))
        .map(|(folder, _)| folder.to_owned())
        .collect();
    let missing = folders
        .difference(&rows)
        .map(|folder| format!("no row for `{folder}`"));
    let stale = rows
        .difference(folders)
        .map(|folder| format!("`{folder}` is not on disk"));
    missing
        .chain(stale)
        .map(|what| Fault::new("ARCHITECTURE.md", what))
        .collect()
}

#[test]
fn layers_point_one_way() {
    let rule = Rule {
        way_out: "pass what is needed as plain numbers through app/workshop, or move the code to the floor it belongs to",
        heading: "Arrows point down",
    };
    enforce(&rule, &crossing(&CRATES));
}

#[test]
fn lower_floor_dependencies_are_listed() {
    let rule = Rule {
        way_out: "do without it, use it at the edge, or list it in xtask/tests/it/layers.rs with its reason",
        heading: "Arrows point down",
    };
    enforce(&rule, &unlisted(&CRATES));
}

#[test]
fn only_store_knows_sql_only_web_http_only_cli_arguments() {
    let rule = Rule {
        way_out: "let the crate that knows it do it, and call that crate",
        heading: "What only one crate knows",
    };
    enforce(&rule, &strangers(&CRATES));
}

#[test]
fn no_async_below_the_edge() {
    let rule = Rule {
        way_out: "let the edge load first and pass the values in",
        heading: "Below the edge nothing touches the world",
    };
    enforce(&rule, &waiting(&SOURCES));
}

#[test]
fn architecture_lists_every_crate() {
    let rule = Rule {
        way_out: "mend the crate table: one row each, beginning with the folder",
        heading: "Crates",
    };
    let folders = CRATES.iter().map(|krate| krate.folder.clone()).collect();
    let map = FILES.iter().find(|file| file.path == "ARCHITECTURE.md");
    let map = map.map_or("", |file| file.text.as_str());
    enforce(&rule, &unmapped(map, &folders));
}

#[test]
fn every_crate_takes_the_lints_of_the_house() {
    let rule = Rule {
        way_out: "add `[lints] workspace = true`",
        heading: "Style",
    };
    let takes = |krate: &&Crate| {
        let lints = krate.manifest.get("lints");
        lints.and_then(|lints| lints.get("workspace")?.as_bool()) == Some(true)
    };
    let faults: Vec<Fault> = CRATES
        .iter()
        .filter(|krate| !takes(krate))
        .map(|krate| Fault::new(krate.manifest_path(), "its own lints or none"))
        .collect();
    enforce(&rule, &faults);
}

#[test]
fn the_lower_floors_ban_the_same() {
    let rule = Rule {
        way_out: "copy crates/base/clippy.toml: the nearest one wins as a whole, so each floor carries the same bans",
        heading: "Below the edge nothing touches the world",
    };
    let text = |floor: &str| {
        let path = format!("crates/{floor}/clippy.toml");
        FILES
            .iter()
            .find(|file| file.path == path)
            .map(|file| &file.text)
    };
    let faults: Vec<Fault> = ["base", "domain", "app"]
        .into_iter()
        .filter(|floor| text(floor).is_none() || text(floor) != text("base"))
        .map(|floor| {
            Fault::new(
                format!("crates/{floor}/clippy.toml"),
                "missing or different",
            )
        })
        .collect();
    enforce(&rule, &faults);
}

fn krate(folder: &str, name: &str, dependencies: &str) -> Crate {
    Crate::new(
        folder,
        &format!("[package]\nname = '{name}'\n{dependencies}"),
    )
}

#[test]
fn law_an_arrow_upward_or_across_is_a_fault() {
    let crates = [
        krate("base/a", "a", "[dev-dependencies]\nb.workspace = true"),
        krate(
            "domain/b",
            "b",
            "[dependencies]\na.workspace = true\nc.path = '../c'",
        ),
        krate(
            "domain/c",
            "c",
            "[target.'cfg(unix)'.dependencies]\nx = { package = 'xtask', path = '' }",
        ),
        krate("xtask", "xtask", "[dependencies]\nb.workspace = true"),
    ];
    let found: Vec<String> = crossing(&crates)
        .into_iter()
        .map(|fault| fault.what)
        .collect();
    assert_eq!(
        found,
        [
            "base/a uses domain/b",
            "domain/b uses domain/c",
            "domain/c uses xtask"
        ]
    );
}

#[test]
fn law_a_library_out_of_place_is_a_fault() {
    let crates = [
        krate("app/a", "a", "[dependencies]\nsqlx = '0'\nmaud = '0'"),
        krate(
            "edge/store",
            "store",
            "[dependencies]\nsqlx = '0'\nserde = '1'",
        ),
    ];
    assert_eq!(unlisted(&crates).len(), 1);
    assert_eq!(strangers(&crates).len(), 1);
}

#[test]
fn law_async_in_a_comment_is_none() {
    let sources = [
        Source::new("crates/app/a/src/lib.rs", "// async\nasync fn a() {}"),
        Source::new("crates/edge/b/src/lib.rs", "async fn a() {}"),
    ];
    let faults = waiting(&sources);
    assert_eq!(faults, [Fault::new("crates/app/a/src/lib.rs:2", "`async`")]);
}

#[test]
fn law_the_map_and_the_disk_are_compared_both_ways() {
    let folders = BTreeSet::from(["base/a".to_owned(), "base/b".to_owned()]);
    let map = "| crate | knows |\n|---|---|\n| `base/b` | x |\n| `base/c` | y |\n";
    assert_eq!(unmapped(map, &folders).len(), 2);
}
