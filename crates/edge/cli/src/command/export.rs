//! `export`: a job as a job file, its pump as a card, or all of it as an archive.

use std::path::PathBuf;

use clap::Args;
use workshop::draft::JobDraft;
use workshop::fold::fold;
use workshop::refusal::{Need, Refusal};

use super::{archived, subject};
use crate::error::Error;
use crate::place::Place;
use crate::say;

#[derive(Args, Debug)]
pub(crate) struct Export {
    /// The id of a job in the store, or a job file
    job: String,
    /// Only the card of its pump: steps, joints, limits, page numbers, and nothing of this craft
    #[arg(long)]
    card: bool,
    /// All of it, with its photos and every entry, into this file; one that is there is not overwritten
    #[arg(long, value_name = "FILE", conflicts_with_all = ["card", "to"])]
    archive: Option<PathBuf>,
    #[command(flatten)]
    place: Place,
    /// Write to this file instead of standard output
    #[arg(long, value_name = "FILE")]
    to: Option<PathBuf>,
}

impl Export {
    pub(crate) async fn run(self) -> Result<(), Error> {
        if let Some(file) = &self.archive {
            return archived::write(&self.job, file, &self.place).await;
        }
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, _) = fold(&entries);
        if job.pump.is_none() && !job.tries.is_empty() {
            // Without its pump a reading has no clock to name its spot by.
            return Err(Error::Refused(Refusal::Missing(Need::Pump)));
        }
        let text = if self.card {
            jobfile::write_card(&JobDraft::card(&job))
        } else {
            jobfile::write(&id, &JobDraft::of(&job))
        };
        match self.to {
            Some(path) => std::fs::write(&path, text).map_err(|why| Error::Unwritten { path, why }),
            None => say::out(&text),
        }
    }
}
