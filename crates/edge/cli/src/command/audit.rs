//! `audit`: the Account page at the command line.

use clap::Args;
use jiff::ZonedDateTime;
use report::page::audit::{View, page};
use workshop::fold::fold;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::{audit_json, say};

#[derive(Args, Debug)]
pub(crate) struct Audit {
    /// A job file, or the id of a job in the store
    job: String,
    #[command(flatten)]
    place: Place,
    /// Print a JSON document for other programs
    #[arg(long)]
    json: bool,
    /// Answer as at this time, with its zone, instead of now
    #[arg(long, value_name = "TIME")]
    at: Option<ZonedDateTime>,
}

impl Audit {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let now = self.at.unwrap_or_else(ZonedDateTime::now);
        let view = View {
            id: &id,
            job: &job,
            objections: &objections,
            now: &now,
            at: None,
            refused: None,
        };
        if self.json {
            return say::out(&audit_json::write(&view));
        }
        say::page(&page(&view))
    }
}
