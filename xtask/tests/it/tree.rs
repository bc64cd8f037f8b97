//! The tree as the rules see it, and how a broken rule is told.

use crate::scan;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// A rule of the house: what to do where it is broken, and the heading in ARCHITECTURE.md that says why.
pub(crate) struct Rule {
    pub(crate) way_out: &'static str,
    pub(crate) heading: &'static str,
}

/// A place where a rule is broken.
#[derive(Debug, PartialEq)]
pub(crate) struct Fault {
    pub(crate) place: String,
    pub(crate) what: String,
}

impl Fault {
    pub(crate) fn new(place: impl Into<String>, what: impl Into<String>) -> Self {
        Self {
            place: place.into(),
            what: what.into(),
        }
    }
}

/// Fails with every fault, the way out, and where the rule is explained.
pub(crate) fn enforce(rule: &Rule, faults: &[Fault]) {
    let explained = read("ARCHITECTURE.md")
        .lines()
        .any(|line| line.starts_with('#') && line.trim_start_matches('#').trim() == rule.heading);
    assert!(
        explained,
        "ARCHITECTURE.md has no heading `{}`",
        rule.heading
    );
    let rows: Vec<String> = faults
        .iter()
        .map(|fault| format!("  {}: {}", fault.place, fault.what))
        .collect();
    assert!(
        faults.is_empty(),
        "\n{}\nway out: {}\nwhy: ARCHITECTURE.md, \"{}\"",
        rows.join("\n"),
        rule.way_out,
        rule.heading
    );
}

/// A text file of the tree.
pub(crate) struct File {
    /// From the root, with slashes.
    pub(crate) path: String,
    pub(crate) text: String,
}

impl File {
    /// The place of a line, counted from zero.
    pub(crate) fn at(&self, line: usize) -> String {
        format!("{}:{}", self.path, line + 1)
    }
}

/// A Rust file with its scanned lines.
pub(crate) struct Source {
    pub(crate) file: File,
    pub(crate) lines: Vec<scan::Line>,
}

impl Source {
    pub(crate) fn new(path: &str, text: &str) -> Self {
        Self {
            file: File {
                path: path.into(),
                text: text.into(),
            },
            lines: scan::lines(text),
        }
    }

    /// Whether the path lies on one of these floors' crates, in their `src`.
    pub(crate) fn is_src_of(&self, floors: &[&str]) -> bool {
        let mut parts = self.file.path.split('/');
        parts.next() == Some("crates")
            && parts.next().is_some_and(|floor| floors.contains(&floor))
            && parts.nth(1) == Some("src")
    }
}

pub(crate) fn root() -> PathBuf {
    // Asked as it runs: two checkouts that share a build folder may share this program.
    let here = std::env::var_os("CARGO_MANIFEST_DIR");
    let mut here = here.map_or_else(|| env!("CARGO_MANIFEST_DIR").into(), PathBuf::from);
    here.pop();
    here
}

/// A file that must exist, by its path from the root.
pub(crate) fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|cause| panic!("{path}: {cause}"))
}

/// Every text file of the tree; build output, hidden folders and binary files are left out.
pub(crate) static FILES: LazyLock<Vec<File>> = LazyLock::new(|| {
    let mut files = Vec::new();
    walk(&root(), &mut files);
    files.sort_by(|a, b| a.path.cmp(&b.path));
    files
});

fn walk(folder: &Path, files: &mut Vec<File>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if path.is_dir() {
            if !name.starts_with('.') && name != "target" {
                walk(&path, files);
            }
        } else if let Ok(text) = fs::read_to_string(&path) {
            let path = path
                .strip_prefix(root())
                .unwrap()
                .to_string_lossy()
                .replace('\\', "/");
            files.push(File { path, text });
        }
    }
}

/// Every Rust file of the tree.
pub(crate) static SOURCES: LazyLock<Vec<Source>> = LazyLock::new(|| {
    FILES
        .iter()
        .filter(|file| has_extension(&file.path, &["rs"]))
        .map(|file| Source::new(&file.path, &file.text))
        .collect()
});

pub(crate) fn has_extension(path: &str, wanted: &[&str]) -> bool {
    Path::new(path)
        .extension()
        .is_some_and(|extension| wanted.iter().any(|known| extension == *known))
}

/// One crate: its folder such as `base/quantity`, its name and its manifest.
pub(crate) struct Crate {
    pub(crate) folder: String,
    pub(crate) name: String,
    pub(crate) manifest: toml::Table,
}

impl Crate {
    pub(crate) fn new(folder: &str, manifest: &str) -> Self {
        let manifest: toml::Table = toml::from_str(manifest).unwrap();
        let name = manifest["package"]["name"].as_str().unwrap().to_owned();
        Self {
            folder: folder.into(),
            name,
            manifest,
        }
    }

    /// `base`, `domain`, `app` or `edge`; empty for what stands beside the floors.
    pub(crate) fn floor(&self) -> &str {
        self.folder.split_once('/').map_or("", |(floor, _)| floor)
    }

    pub(crate) fn manifest_path(&self) -> String {
        match self.floor() {
            "" => format!("{}/Cargo.toml", self.folder),
            _ => format!("crates/{}/Cargo.toml", self.folder),
        }
    }

    /// The package names of its dependencies of every kind, for every platform.
    pub(crate) fn dependencies(&self) -> Vec<String> {
        let platforms = self.manifest.get("target").and_then(toml::Value::as_table);
        let platforms = platforms.into_iter().flat_map(toml::Table::values);
        let tables = platforms
            .filter_map(toml::Value::as_table)
            .chain([&self.manifest]);
        let kinds = ["dependencies", "dev-dependencies", "build-dependencies"];
        tables
            .flat_map(|table| kinds.map(|kind| table.get(kind)))
            .flatten()
            .filter_map(toml::Value::as_table)
            .flatten()
            .map(|(name, value)| {
                let renamed = value.get("package").and_then(toml::Value::as_str);
                renamed.unwrap_or(name).to_owned()
            })
            .collect()
    }
}

/// Every crate of the workspace, the two beside the floors last.
pub(crate) static CRATES: LazyLock<Vec<Crate>> = LazyLock::new(|| {
    let mut folders = Vec::new();
    for floor in fs::read_dir(root().join("crates")).unwrap() {
        let floor = floor.unwrap().path();
        for krate in fs::read_dir(&floor).into_iter().flatten() {
            let folder = krate.unwrap().path();
            if folder.join("Cargo.toml").is_file() {
                let folder = folder.strip_prefix(root().join("crates")).unwrap();
                folders.push(folder.to_string_lossy().replace('\\', "/"));
            }
        }
    }
    folders.sort();
    let floors = folders
        .iter()
        .map(|folder| Crate::new(folder, &read(&format!("crates/{folder}/Cargo.toml"))));
    let beside = ["validation", "xtask"]
        .map(|folder| Crate::new(folder, &read(&format!("{folder}/Cargo.toml"))));
    floors.chain(beside).collect()
});
