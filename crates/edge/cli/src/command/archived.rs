//! A job whole in one file: written beside its place and read back first, or taken in.

use std::fs::File;
use std::io::{BufReader, BufWriter, Read as _, Seek as _};
use std::path::Path;

use jiff::Timestamp;
use report::page::archived::sentences;
use report::words::count;
use store::Store;
use store::archive::{Archive, Archived, BEGINS};
use workshop::entry::JobId;

use crate::error::{Error, Unread};
use crate::file::beside;
use crate::place::Place;
use crate::say;

/// Writes the archive of a job of the store. Nothing half ever stands in its place.
pub(super) async fn write(job: &str, file: &Path, place: &Place) -> Result<(), Error> {
    let id = JobId::new(job)?;
    if file.exists() {
        return Err(there(file));
    }
    let store = place.look().await?;
    let beside = beside(file, "writing");
    let written = written(&store, &id, &beside).await;
    store.close().await;
    let moved = written.and_then(|archived| {
        // Another program may have written there meanwhile.
        if file.exists() {
            return Err(there(file));
        }
        let moved = std::fs::rename(&beside, file);
        moved.map(|()| archived).map_err(|why| unwritten(file, why))
    });
    let _ = std::fs::remove_file(&beside);
    let archived = moved?;
    let mut words = format!(
        "{} and {} of the job {id} are in {}, read back whole.\n",
        count(archived.entries, "entry", "entries"),
        count(archived.photos, "photo", "photos"),
        file.display()
    );
    if !archived.absent.is_empty() {
        let absent = count(archived.absent.len(), "photo", "photos");
        words.push_str(&absent);
        words.push_str(" that it speaks of are not in this store.\n");
    }
    say::out(&words)
}

async fn written(store: &Store, id: &JobId, beside: &Path) -> Result<Archived, Error> {
    let made = File::create_new(beside).map_err(|why| unwritten(beside, why))?;
    let into = BufWriter::new(&made);
    let archived = store.archive(id, Timestamp::now(), into).await?;
    let Some(archived) = archived else {
        let there = store.jobs().await?;
        let there = there.into_iter().map(|line| line.id).collect();
        let id = id.clone();
        return Err(Error::NoSuchJob { id, there });
    };
    made.sync_all().map_err(|why| unwritten(beside, why))?;
    let again = File::open(beside).map_err(|why| unwritten(beside, why))?;
    Archive::open(BufReader::new(again)).map_err(store::Error::from)?;
    Ok(archived)
}

/// The file, when it begins as an archive does.
pub(super) fn opened(path: &Path) -> Result<Option<File>, Error> {
    let unread = |why: std::io::Error| Error::Unread {
        path: path.to_owned(),
        why: Unread::System(why),
    };
    // What is no file is left to whoever reads job files.
    if !path.is_file() {
        return Ok(None);
    }
    let mut file = File::open(path).map_err(unread)?;
    let mut begins = [0; BEGINS.len()];
    let archive = file.read_exact(&mut begins).is_ok() && begins == BEGINS;
    file.rewind().map_err(unread)?;
    Ok(archive.then_some(file))
}

/// Takes the archive in, and says what that changed.
pub(super) async fn take_in(file: File, place: &Place) -> Result<(), Error> {
    let mut archive = Archive::open(BufReader::new(file)).map_err(store::Error::from)?;
    let store = place.open().await?;
    let taken = store.take_in(&mut archive).await;
    store.close().await;
    let taken = sentences(&web::came(&taken?));
    say::out(&(taken.join("\n") + "\n"))
}

fn there(file: &Path) -> Error {
    Error::Store(store::Error::FileThere {
        path: file.to_owned(),
    })
}

fn unwritten(path: &Path, why: std::io::Error) -> Error {
    Error::Unwritten {
        path: path.to_owned(),
        why,
    }
}
