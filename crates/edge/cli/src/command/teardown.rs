//! `teardown`: the Teardown page at the command line.

use clap::Args;
use report::page::teardown::{View, page};
use workshop::fold::fold;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::say;

#[derive(Args, Debug)]
pub(crate) struct Teardown {
    /// A job file, or the id of a job in the store
    job: String,
    #[command(flatten)]
    place: Place,
}

impl Teardown {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let page = page(&View {
            id: &id,
            job: &job,
            objections: &objections,
            now: &jiff::ZonedDateTime::now(),
            refused: None,
        });
        say::page(&page)
    }
}
