//! The job a command is about: in a file, or in the store.

use std::path::Path;

use jobfile::stored;
use workshop::entry::{Entry, JobId};

use crate::error::Error;
use crate::file;
use crate::place::Place;

/// Loads the job that `named` means.
pub(crate) async fn load(named: &str, place: &Place) -> Result<(JobId, Vec<Entry>), Error> {
    let path = Path::new(named);
    if named.contains(['.', '/', '\\']) || path.exists() {
        let file = file::read(path)?;
        let id = file.id.clone().ok_or(Error::CardForJob)?;
        let new = file.entries(&id, &[], &file::by_command())?;
        return Ok((id, stored(&new, 0)));
    }
    let id = JobId::new(named)?;
    let store = place.look().await?;
    let entries = store.entries(&id).await?;
    let there = if entries.is_empty() {
        store.jobs().await?
    } else {
        Vec::new()
    };
    store.close().await;
    if entries.is_empty() {
        let there = there.into_iter().map(|line| line.id).collect();
        return Err(Error::NoSuchJob { id, there });
    }
    Ok((id, entries))
}
