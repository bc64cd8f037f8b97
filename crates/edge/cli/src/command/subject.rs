//! The job a command is about: in a file, or in the store.

use std::path::Path;

use jiff::ZonedDateTime;
use workshop::entry::{Entry, JobId};

use crate::error::Error;
use crate::job_file;
use crate::place::Place;
use crate::plan::{plan, stored};

/// Loads the job that `named` means.
pub(crate) async fn load(named: &str, place: &Place) -> Result<(JobId, Vec<Entry>), Error> {
    let path = Path::new(named);
    if named.contains(['.', '/', '\\']) || path.exists() {
        let file = job_file::read(path)?;
        let new = plan(&file, &file.id, &[], &ZonedDateTime::now())?;
        return Ok((file.id, stored(&new, 0)));
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
