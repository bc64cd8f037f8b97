//! Real logs, used in place where they are.

use std::fs;
use std::path::{Path, PathBuf};

use trial::read::{Options, Reading, Refused, read};

/// The folder of real logs: `PUMPWRIGHT_LOGS`, else beside the project.
fn folder() -> PathBuf {
    std::env::var_os("PUMPWRIGHT_LOGS").map_or_else(
        || Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../../shared/data/logs"),
        PathBuf::from,
    )
}

/// The bytes of a real log; none, with a word, where it is not there.
#[expect(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a test reads its files, and says so where they are missing"
)]
pub(crate) fn bytes(name: &str) -> Option<Vec<u8>> {
    let path = folder().join(name);
    let bytes = fs::read(&path);
    if bytes.is_err() {
        println!("skipped: the real log {name} is not here; PUMPWRIGHT_LOGS names its folder");
    }
    bytes.ok()
}

pub(crate) fn real(name: &str) -> Option<Result<Reading, Refused>> {
    bytes(name).map(|bytes| read(&bytes[..], &Options::default()))
}

/// How many were set aside for a reason.
pub(crate) fn rejected(reading: &Reading, why: trial::read::Why) -> u64 {
    let found = reading.rejected.iter().find(|r| r.why == why);
    found.map_or(0, |r| r.count)
}

pub(crate) fn count(reading: &Reading, name: &str) -> u64 {
    let found = reading.counts.iter().find(|(n, _)| n == name);
    found.map_or(0, |(_, count)| *count)
}

pub(crate) fn samples(reading: &Reading) -> Vec<trial::Sample> {
    reading.log.stretches.concat()
}

pub(crate) fn text(text: &str) -> Result<Reading, Refused> {
    read(text.as_bytes(), &Options::default())
}
