//! Files on disk: a job file or a card read, and a place beside a file for what is not whole yet.

use std::fs::File;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use jiff::ZonedDateTime;
use jobfile::{By, JobFile, LARGEST};

use crate::error::{Error, Unread};

/// Reads a job file or a card.
pub(crate) fn read(path: &Path) -> Result<JobFile, Error> {
    let text = text(path).map_err(|why| Error::Unread {
        path: path.to_owned(),
        why,
    })?;
    Ok(jobfile::parse(&path.display().to_string(), &text)?)
}

/// What a file brings in is told by this command line.
pub(crate) fn by_command() -> By {
    By {
        now: ZonedDateTime::now(),
        device: "command line".to_owned(),
        who: String::new(),
    }
}

/// A name beside a file, on the same disk, that no other running program takes.
pub(crate) fn beside(file: &Path, word: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(format!(".{word}-{}", std::process::id()));
    PathBuf::from(name)
}

fn text(path: &Path) -> Result<String, Unread> {
    let file = File::open(path).map_err(Unread::System)?;
    let about = file.metadata().map_err(Unread::System)?;
    if about.is_dir() {
        return Err(Unread::Folder);
    }
    let too_large = |bytes| Unread::TooLarge {
        bytes,
        most: LARGEST,
    };
    if about.len() > LARGEST {
        return Err(too_large(about.len()));
    }
    let mut bytes = Vec::new();
    // A pipe does not say its size beforehand.
    file.take(LARGEST + 1)
        .read_to_end(&mut bytes)
        .map_err(Unread::System)?;
    match u64::try_from(bytes.len()) {
        Ok(read) if read <= LARGEST => {}
        _ => return Err(too_large(LARGEST + 1)),
    }
    String::from_utf8(bytes).map_err(|error| Unread::NotText {
        byte: error.utf8_error().valid_up_to() + 1,
    })
}
