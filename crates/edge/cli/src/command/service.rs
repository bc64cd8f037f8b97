//! `service`: the page Service at the command line, and its calendar.

use clap::Args;
use jiff::civil::Date;
use jiff::{Timestamp, ZonedDateTime};
use report::page::service::{View, page};
use workshop::fold::fold;
use workshop::upkeep::answer::answer;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::{say, service_json};

#[derive(Args, Debug)]
pub(crate) struct Service {
    /// A job file, or the id of a job in the store
    job: String,
    #[command(flatten)]
    place: Place,
    /// Answer as on this day, instead of today
    #[arg(long, value_name = "DAY")]
    on: Option<Date>,
    /// Print a JSON document for other programs
    #[arg(long)]
    json: bool,
    /// Print what falls due as a calendar file (iCalendar)
    #[arg(long, conflicts_with = "json")]
    calendar: bool,
}

impl Service {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let today = self.on.unwrap_or_else(|| ZonedDateTime::now().date());
        let says = answer(&job, today);
        if self.calendar {
            let text = web::calendar(&id, &job, (&says, Timestamp::now()));
            return text.map_or(Err(Error::NothingDated), |text| say::out(&text));
        }
        let view = View {
            id: &id,
            job: &job,
            objections: &objections,
            says: &says,
            refused: None,
        };
        if self.json {
            return say::out(&service_json::write(&view));
        }
        say::page(&page(&view))
    }
}
