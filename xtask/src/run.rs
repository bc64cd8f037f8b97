//! Starting other programs, at the root of the workspace.

use std::ffi::OsStr;
use std::fmt::Display;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The folder of the workspace.
pub(crate) fn root() -> PathBuf {
    // Asked as it runs: two checkouts that share a build folder may share this program.
    let here = std::env::var_os("CARGO_MANIFEST_DIR");
    let mut here = here.map_or_else(|| env!("CARGO_MANIFEST_DIR").into(), PathBuf::from);
    here.pop();
    here
}

/// A program with its arguments, to be started at the root.
pub(crate) fn program(name: impl AsRef<OsStr>, arguments: &[&str]) -> Command {
    let mut command = Command::new(name);
    command.args(arguments).current_dir(root());
    command
}

/// The cargo that started us, so that every stage uses one toolchain.
pub(crate) fn cargo(arguments: &[&str]) -> Command {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    program(cargo, arguments)
}

/// Runs to the end with the terminal as it is.
pub(crate) fn succeed(command: &mut Command) -> Result<(), String> {
    let status = command
        .status()
        .map_err(|cause| format!("{}: {cause}", written(command)))?;
    if status.success() {
        Ok(())
    } else {
        Err(format!("{}: {status}", written(command)))
    }
}

/// Runs to the end, passing every line of standard output on as it comes, and returns the lines.
pub(crate) fn watch(command: &mut Command) -> Result<Vec<String>, String> {
    let name = written(command);
    let fault = |cause: &dyn Display| format!("{name}: {cause}");
    let mut child = command
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|cause| fault(&cause))?;
    let mut lines = Vec::new();
    if let Some(output) = child.stdout.take() {
        for line in BufReader::new(output).lines() {
            let line = line.map_err(|cause| fault(&cause))?;
            println!("{line}");
            lines.push(line);
        }
    }
    let status = child.wait().map_err(|cause| fault(&cause))?;
    if status.success() {
        Ok(lines)
    } else {
        Err(fault(&status))
    }
}

/// Whether the search path holds a program of this name.
pub(crate) fn on_path(name: &str) -> bool {
    std::env::var_os("PATH")
        .is_some_and(|path| std::env::split_paths(&path).any(|folder| folder.join(name).is_file()))
}

fn written(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let name = program.file_name().unwrap_or(command.get_program());
    std::iter::once(name)
        .chain(command.get_args())
        .map(|word| word.to_string_lossy())
        .collect::<Vec<_>>()
        .join(" ")
}
