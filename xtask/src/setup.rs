//! What the tests need on this machine beside Rust: a few system packages and one Python environment.

use crate::run::{on_path, program, root, succeed};
use std::fs;
use std::path::PathBuf;
use std::process::{Command, Stdio};

/// A thing the tests need, how it is recognised, and the Debian packages that bring it.
struct Need {
    what: &'static str,
    packages: &'static [&'static str],
    present: fn() -> bool,
}

const NEEDS: [Need; 7] = [
    Need {
        what: "a C compiler, `cc`",
        packages: &["gcc", "libc6-dev"],
        present: || on_path("cc"),
    },
    Need {
        what: "the browser, `chromium`",
        packages: &["chromium"],
        present: || on_path("chromium"),
    },
    Need {
        what: "its driver, `chromedriver`",
        packages: &["chromium-driver"],
        present: || on_path("chromedriver"),
    },
    Need {
        what: "`pdftotext`",
        packages: &["poppler-utils"],
        present: || on_path("pdftotext"),
    },
    Need {
        what: "the font DejaVu Sans (without a font pages render as boxes)",
        packages: &["fontconfig", "fonts-dejavu-core"],
        present: || said("fc-list", &[":", "family"]).contains("DejaVu Sans"),
    },
    Need {
        what: "`python3` with its modules venv and ensurepip",
        packages: &["python3", "python3-venv"],
        present: || said("python3", &["-c", "import ensurepip, venv; print('yes')"]) == "yes",
    },
    Need {
        // The package may start a server of its own on some systems; nothing here speaks to it.
        what: "a `PostgreSQL` server's programs, `initdb` and `pg_ctl`",
        packages: &["postgresql"],
        present: || postgres().is_some(),
    },
];

/// Where Debian's packages put the programs of a server: one folder a version.
const SERVERS: &str = "/usr/lib/postgresql";

/// Brings what is missing; on a machine that has everything it only looks.
pub(crate) fn run() -> Result<(), String> {
    system()?;
    environment()
}

/// The interpreter of the Python environment.
fn python() -> PathBuf {
    root().join("target/python/bin/python")
}

/// Tells a run of tests where the programs from outside are.
pub(crate) fn outside(command: &mut Command) -> &mut Command {
    if let Some(postgres) = postgres() {
        command.env("PUMPWRIGHT_POSTGRES", postgres);
    }
    command.env("PUMPWRIGHT_PYTHON", python())
}

/// The folder of the newest server's programs; tests start their own with them.
fn postgres() -> Option<PathBuf> {
    let all = fs::read_dir(SERVERS).ok()?;
    let version = |folder: &PathBuf| {
        let name = folder.file_name().and_then(|name| name.to_str());
        name.and_then(|name| name.parse::<u32>().ok())
    };
    all.filter_map(|folder| Some(folder.ok()?.path()))
        .filter(|folder| folder.join("bin/initdb").is_file())
        .max_by_key(version)
        .map(|folder| folder.join("bin"))
}

fn missing() -> Vec<&'static Need> {
    NEEDS.iter().filter(|need| !(need.present)()).collect()
}

fn system() -> Result<(), String> {
    let needs = missing();
    if needs.is_empty() {
        println!("system: everything is there");
        return Ok(());
    }
    println!("system: missing {}", list(&needs));
    let install = install(
        &packages(&needs),
        on_path("apt-get"),
        said("id", &["-u"]) == "0",
    );
    for words in install.map_err(|reason| format!("missing {}; {reason}", list(&needs)))? {
        succeed(&mut program(words[0], &words[1..]))?;
    }
    let left = missing();
    if left.is_empty() {
        Ok(())
    } else {
        Err(format!(
            "still missing after installing: {}; look at the search path",
            list(&left)
        ))
    }
}

/// The commands that install these packages, or why that is for a person to do.
fn install<'a>(
    packages: &[&'a str],
    has_apt: bool,
    is_root: bool,
) -> Result<[Vec<&'a str>; 2], String> {
    if !has_apt {
        return Err(format!(
            "this is not a Debian system (no apt-get): install them with its own package manager \
             (on Debian they are called {})",
            packages.join(", ")
        ));
    }
    let mut start = vec!["env", "DEBIAN_FRONTEND=noninteractive", "apt-get"];
    if !is_root {
        start.insert(0, "sudo");
    }
    let update = [start.clone(), vec!["update", "--quiet"]].concat();
    let options = ["install", "--yes", "--quiet", "--no-install-recommends"];
    Ok([update, [&start[..], &options, packages].concat()])
}

fn packages(needs: &[&Need]) -> Vec<&'static str> {
    needs
        .iter()
        .flat_map(|need| need.packages)
        .copied()
        .collect()
}

fn list(needs: &[&Need]) -> String {
    needs
        .iter()
        .map(|need| need.what)
        .collect::<Vec<_>>()
        .join(", ")
}

/// What a program says on standard output, empty where it fails or is not there.
fn said(name: &str, arguments: &[&str]) -> String {
    Command::new(name)
        .args(arguments)
        .stderr(Stdio::null())
        .output()
        .ok()
        .filter(|output| output.status.success())
        .map(|output| String::from_utf8_lossy(&output.stdout).trim().to_owned())
        .unwrap_or_default()
}

/// Makes the Python environment anew when its requirements changed or it no longer runs.
fn environment() -> Result<(), String> {
    let wanted = root().join("validation/python/requirements.txt");
    let wanted = fs::read_to_string(&wanted)
        .map_err(|cause| format!("{}: {cause}; it locks the environment", wanted.display()))?;
    // Written last, so that an installation cut short is begun again.
    let installed = root().join("target/python/requirements.txt");
    let runs = !said(&python().to_string_lossy(), &["--version"]).is_empty();
    if runs && fs::read_to_string(&installed).is_ok_and(|text| text == wanted) {
        println!("python: the environment is up to date");
        return Ok(());
    }
    println!("python: making the environment in target/python");
    succeed(&mut program(
        "python3",
        &["-m", "venv", "--clear", "target/python"],
    ))?;
    let mut pip = program(python(), &["-m", "pip", "install", "--quiet"]);
    pip.args(["--disable-pip-version-check", "--require-hashes"]);
    succeed(pip.args(["--requirement", "validation/python/requirements.txt"]))?;
    fs::write(&installed, wanted).map_err(|cause| format!("{}: {cause}", installed.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_only_what_is_missing_is_installed() {
        let needs: Vec<&Need> = NEEDS[1..3].iter().collect();
        let [update, install] = install(&packages(&needs), true, true).unwrap();
        assert_eq!(update[2..], ["apt-get", "update", "--quiet"]);
        assert!(install.ends_with(&["--no-install-recommends", "chromium", "chromium-driver"]));
    }

    #[test]
    fn law_a_plain_user_asks_for_rights() {
        let commands = install(&["gcc"], true, false).unwrap();
        assert!(commands.iter().all(|words| words[0] == "sudo"));
        let commands = install(&["gcc"], true, true).unwrap();
        assert!(commands.iter().all(|words| words[0] == "env"));
    }

    #[test]
    fn law_another_system_is_told_what_is_missing() {
        let refusal = install(&["chromium", "poppler-utils"], false, true).unwrap_err();
        assert!(refusal.contains("chromium, poppler-utils"), "{refusal}");
    }
}
