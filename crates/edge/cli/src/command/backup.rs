//! `backup`: the whole store as one file, while the bench goes on.

use std::path::PathBuf;

use clap::Args;
use report::words::count;

use crate::error::Error;
use crate::place::Place;
use crate::say;

#[derive(Args, Debug)]
pub(crate) struct Backup {
    /// The file to write; one that is there is never overwritten
    file: PathBuf,
    #[command(flatten)]
    place: Place,
}

impl Backup {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let store = self.place.look().await?;
        let written = store.backup(&self.file).await;
        store.close().await;
        written?;
        let whole = super::restore::checked(&self.file).await?;
        say::out(&format!(
            "{}, {} and {} are in {}, read back whole. Keep it on another disk.\n",
            count(whole.jobs, "job", "jobs"),
            count(whole.entries, "entry", "entries"),
            count(whole.photos, "photo", "photos"),
            self.file.display()
        ))
    }
}
