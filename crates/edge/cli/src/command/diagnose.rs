//! `diagnose`: the page What is wrong at the command line.

use clap::Args;
use report::page::diagnose::{View, page};
use workshop::diagnose::answer::answer;
use workshop::fold::fold;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::{diagnose_json, say};

#[derive(Args, Debug)]
pub(crate) struct Diagnose {
    /// A job file, or the id of a job in the store
    job: String,
    #[command(flatten)]
    place: Place,
    /// Print a JSON document for other programs
    #[arg(long)]
    json: bool,
}

impl Diagnose {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let says = answer(&job);
        let view = View {
            id: &id,
            job: &job,
            objections: &objections,
            says: &says,
            refused: None,
        };
        if self.json {
            return say::out(&diagnose_json::write(&view));
        }
        say::page(&page(&view))
    }
}
