//! `choose`: the Choose page at the command line.

use clap::Args;
use jiff::ZonedDateTime;
use report::page::choose::{Stand, View, page};
use workshop::choose::answer::answer;
use workshop::fold::fold;
use workshop::upkeep;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::{choose_json, say};

#[derive(Args, Debug)]
pub(crate) struct Choose {
    /// A job file, or the id of a job in the store
    job: String,
    #[command(flatten)]
    place: Place,
    /// Print a JSON document for other programs
    #[arg(long)]
    json: bool,
}

impl Choose {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let says = answer(&job);
        let kept = upkeep::answer::answer(&job, ZonedDateTime::now().date());
        let view = View {
            id: &id,
            job: &job,
            objections: &objections,
            says: &says,
            refused: None,
            stand: &Stand::default(),
            parts: &kept.parts,
        };
        if self.json {
            return say::out(&choose_json::write(&view));
        }
        say::page(&page(&view))
    }
}
