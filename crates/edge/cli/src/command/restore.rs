//! `restore`: a store from the file that `backup` wrote, checked before it stands where it belongs.

use std::io::{Read as _, Write as _};
use std::path::{Path, PathBuf};

use clap::Args;
use report::words::count;
use store::{Store, Whole};

use crate::error::{Error, Unread};
use crate::file::beside;
use crate::place::Place;
use crate::say;

/// How every file of a backup begins.
const BEGINS: &[u8; 16] = b"SQLite format 3\0";

#[derive(Args, Debug)]
pub(crate) struct Restore {
    /// The file that `backup` wrote; it stays as it is
    file: PathBuf,
    #[command(flatten)]
    place: Place,
}

impl Restore {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let whole = match self.place.file()? {
            Some(place) => self.fill_file(&place).await?,
            None => self.fill_server().await?,
        };
        say::out(&format!(
            "{}, {} and {} stand in {}.\n",
            count(whole.jobs, "job", "jobs"),
            count(whole.entries, "entry", "entries"),
            count(whole.photos, "photo", "photos"),
            self.place.shown()?
        ))
    }

    /// The copy that is checked is the one that is read from; a database takes all of it or nothing.
    async fn fill_server(&self) -> Result<Whole, Error> {
        let store = self.place.open().await?;
        let copied = Scratch(beside(&self.file, "restoring"));
        copy(&self.file, &copied.0)?;
        whole(&copied.0).await?;
        let from = Store::open(&format!("sqlite:{}", copied.0.display())).await?;
        let filled = store.fill_from(&from).await;
        from.close().await;
        filled?;
        let found = store.whole().await?;
        store.close().await;
        Ok(found)
    }

    /// Copied beside its place, checked there, and only then moved into it, so that nothing half stands there.
    async fn fill_file(&self, place: &Path) -> Result<Whole, Error> {
        if place.exists() {
            return Err(Error::StoreThere {
                path: place.to_owned(),
            });
        }
        let beside = beside(place, "restoring");
        copy(&self.file, &beside)?;
        let whole = whole(&beside).await;
        let moved = whole.and_then(|whole| {
            let moved = std::fs::rename(&beside, place);
            moved.map(|()| whole).map_err(|why| Error::Unwritten {
                path: place.to_owned(),
                why,
            })
        });
        let _ = std::fs::remove_file(&beside);
        moved
    }
}

/// A file that goes when it is done with.
struct Scratch(PathBuf);

impl Drop for Scratch {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}

/// What a file of `backup` holds, every row read back from a copy: looking at it changes nothing in it.
pub(super) async fn checked(file: &Path) -> Result<Whole, Error> {
    let copied = beside(file, "checking");
    copy(file, &copied)?;
    let found = whole(&copied).await;
    let _ = std::fs::remove_file(&copied);
    found
}

async fn whole(file: &Path) -> Result<Whole, Error> {
    let store = Store::open(&format!("sqlite:{}", file.display())).await?;
    let found = store.whole().await;
    store.close().await;
    Ok(found?)
}

fn copy(from: &Path, to: &Path) -> Result<(), Error> {
    if from.is_dir() {
        return Err(Error::Unread {
            path: from.to_owned(),
            why: Unread::Folder,
        });
    }
    let read = std::fs::File::open(from).map_err(|why| Error::Unread {
        path: from.to_owned(),
        why: Unread::System(why),
    });
    let mut read = read?;
    let mut begins = [0; BEGINS.len()];
    if read.read_exact(&mut begins).is_err() || begins != *BEGINS {
        return Err(Error::NoBackup {
            path: from.to_owned(),
        });
    }
    let written = std::fs::File::create_new(to).and_then(|mut file| {
        file.write_all(&begins)?;
        std::io::copy(&mut read, &mut file)?;
        file.sync_all()
    });
    written.map_err(|why| Error::Unwritten {
        path: to.to_owned(),
        why,
    })
}
