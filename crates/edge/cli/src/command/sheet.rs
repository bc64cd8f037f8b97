//! `sheet`: the build sheet at the command line.

use clap::Args;
use report::page::sheet::{View, page};
use workshop::fold::fold;
use workshop::gap::Inputs;
use workshop::judge::judge;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::say;

#[derive(Args, Debug)]
pub(crate) struct Sheet {
    /// A job file, or the id of a job in the store
    job: String,
    #[command(flatten)]
    place: Place,
}

impl Sheet {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let judgement = Inputs::of(&job).map(|inputs| judge(&inputs));
        let page = page(&View {
            id: &id,
            job: &job,
            objections: &objections,
            judgement: judgement.as_ref().map_err(|need| *need),
            entries: &entries,
            now: &jiff::ZonedDateTime::now(),
        });
        say::page(&page)
    }
}
