//! `import`: a job file into the store.

use std::path::PathBuf;

use clap::Args;
use jiff::{Timestamp, ZonedDateTime};
use report::words::count;
use store::Store;
use workshop::entry::JobId;

use crate::error::Error;
use crate::job_file::{self, JobFile};
use crate::place::Place;
use crate::plan::plan;
use crate::say;

#[derive(Args, Debug)]
pub(crate) struct Import {
    /// The job file
    file: PathBuf,
    #[command(flatten)]
    place: Place,
    /// Another id for the job than the file gives it
    #[arg(long = "as", value_name = "ID")]
    id: Option<String>,
}

impl Import {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let file = job_file::read(&self.file)?;
        let id = self
            .id
            .as_deref()
            .map_or_else(|| Ok(file.id.clone()), JobId::new)?;
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

/// Appends what the job does not have yet, all or nothing, and says how many entries that were.
pub(crate) async fn bring_in(store: &Store, file: &JobFile, id: &JobId) -> Result<usize, Error> {
    let there = store.entries(id).await?;
    let new = plan(file, id, &there, &ZonedDateTime::now())?;
    if new.is_empty() {
        return Ok(0);
    }
    let taken = store.append(id, &new, Timestamp::now()).await?;
    Ok(if taken.again { 0 } else { new.len() })
}
