//! `teardown`: the Teardown page at the command line.

use clap::Args;
use report::page::teardown::{View, page};
use workshop::fold::fold;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::{say, teardown_json};

#[derive(Args, Debug)]
pub(crate) struct Teardown {
    /// A job file, or the id of a job in the store
    job: String,
    #[command(flatten)]
    place: Place,
    /// Print a JSON document for other programs
    #[arg(long)]
    json: bool,
}

impl Teardown {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let view = View {
            id: &id,
            job: &job,
            objections: &objections,
            now: &jiff::ZonedDateTime::now(),
            refused: None,
        };
        if self.json {
            return say::out(&teardown_json::write(&view));
        }
        say::page(&page(&view))
    }
}
