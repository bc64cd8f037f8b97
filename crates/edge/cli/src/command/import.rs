//! `import`: a job file or an archive into the store, or a job from a card.

use std::path::PathBuf;

use clap::Args;
use jiff::Timestamp;
use jobfile::JobFile;
use report::words::count;
use store::Store;
use workshop::entry::{JobId, Key};

use super::archived;
use crate::error::Error;
use crate::place::Place;
use crate::{file, say};

#[derive(Args, Debug)]
pub(crate) struct Import {
    /// The job file, the archive of a job, or the card of a pump
    file: PathBuf,
    #[command(flatten)]
    place: Place,
    /// Another id for the job than the file gives it
    #[arg(long = "as", value_name = "ID")]
    id: Option<String>,
    /// Craft and reason, for the job that a card begins
    #[arg(long)]
    title: Option<String>,
}

impl Import {
    pub(crate) async fn run(self) -> Result<(), Error> {
        if let Some(file) = archived::opened(&self.file)? {
            if self.id.is_some() || self.title.is_some() {
                return Err(Error::ArchiveHasItsOwn);
            }
            return archived::take_in(file, &self.place).await;
        }
        let (file, id) = self.read()?;
        let store = self.place.open().await?;
        let added = bring_in(&store, &file, &id).await;
        store.close().await;
        say::out(&match added? {
            0 => format!("Nothing new: the job {id} has all of it.\n"),
            added => format!(
                "{} added to the job {id}.\n",
                count(added, "entry", "entries")
            ),
        })
    }
}

impl Import {
    /// The file and the id of its job: the one asked for, else the file's own, else of its title.
    fn read(&self) -> Result<(JobFile, JobId), Error> {
        let file = file::read(&self.file)?;
        let asked = self.id.as_deref().map(JobId::new).transpose()?;
        let title = self.title.as_deref().map(str::trim);
        match (file.id.clone(), title) {
            (Some(id), None) => Ok((file, asked.unwrap_or(id))),
            (Some(_), Some(_)) => Err(Error::TitleForJob),
            (None, None | Some("")) => Err(Error::CardNeedsTitle),
            (None, Some(title)) => {
                let named = || Key::of_name(title).and_then(|key| JobId::new(key.as_str()));
                let id = asked
                    .map_or_else(named, Ok)
                    .map_err(|_| Error::NoIdInTitle)?;
                Ok((file.begin(title, ""), id))
            }
        }
    }
}

/// Appends what the job does not have yet, all or nothing, and says how many entries that were.
pub(crate) async fn bring_in(store: &Store, file: &JobFile, id: &JobId) -> Result<usize, Error> {
    let there = store.entries(id).await?;
    let new = file.entries(id, &there, &file::by_command())?;
    if new.is_empty() {
        return Ok(0);
    }
    let taken = store.append(id, &new, Timestamp::now()).await?;
    Ok(if taken.again { 0 } else { new.len() })
}
