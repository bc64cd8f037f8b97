//! `measure`: the Measure page at the command line.

use clap::Args;
use report::page::measure::{View, page};
use workshop::fold::fold;
use workshop::gap::Inputs;
use workshop::judge::judge;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::{measure_json, say};

#[derive(Args, Debug)]
pub(crate) struct Measure {
    /// A job file, or the id of a job in the store
    job: String,
    #[command(flatten)]
    place: Place,
    /// Print a JSON document for other programs
    #[arg(long)]
    json: bool,
}

impl Measure {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let judgement = Inputs::of(&job).map(|inputs| judge(&inputs));
        let view = View {
            id: &id,
            job: &job,
            objections: &objections,
            judgement: judgement.as_ref().map_err(|need| *need),
            at: None,
            refused: None,
        };
        if self.json {
            say::out(&measure_json::write(&view))
        } else {
            say::page(&page(&view))
        }
    }
}
