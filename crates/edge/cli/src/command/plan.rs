//! `plan`: the Assemble page at the command line.

use std::io::IsTerminal as _;
use std::time::{Duration, Instant};

use clap::Args;
use jiff::ZonedDateTime;
use quantity::{Unit, parse};
use report::page::assemble::{View, page};
use workshop::assemble::timetable::{SoFar, Timetable, proved};
use workshop::assemble::words::span;
use workshop::fold::fold;
use workshop::job::Job;

use super::subject;
use crate::error::Error;
use crate::place::Place;
use crate::{plan_json, say};

/// From one line about a proof to the next.
const SAY: Duration = Duration::from_secs(1);
/// The longest anybody has at a stretch.
const DAY: i64 = 86_400; // not a conversion: a limit

#[derive(Args, Debug)]
pub(crate) struct Plan {
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
    /// What to do in the time you have from now on: "2 h", "45 min"
    #[arg(long, value_name = "TIME", value_parser = have)]
    have: Option<i64>,
    /// Look for the soonest plan there is, for so long at most: "30 s", "5 min"
    #[arg(long, value_name = "TIME", value_parser = patience)]
    prove: Option<Duration>,
}

impl Plan {
    pub(crate) async fn run(self) -> Result<(), Error> {
        let (id, entries) = subject::load(&self.job, &self.place).await?;
        let (job, objections) = fold(&entries);
        let now = self.at.clone().unwrap_or_else(ZonedDateTime::now);
        let table = self
            .prove
            .and_then(|patience| self.best(&job, &now, patience));
        let view = View {
            id: &id,
            job: &job,
            objections: &objections,
            now: &now,
            at: None,
            have: self.have,
            table: table.as_ref().map(Ok),
            refused: None,
        };
        if self.json {
            return say::out(&plan_json::write(&view));
        }
        say::page(&page(&view))
    }

    /// The best timetable found in the time given; on a terminal it tells how far it is.
    fn best(&self, job: &Job, now: &ZonedDateTime, patience: Duration) -> Option<Timetable> {
        let began = Instant::now();
        let mut told = began;
        let terminal = std::io::stderr().is_terminal();
        let go_on = |so_far: SoFar| {
            if terminal && told.elapsed() > SAY {
                told = Instant::now();
                let gap = so_far.finish.map_or_else(
                    || "no plan yet".to_owned(),
                    |finish| format!("at most {} could be gained", span(finish - so_far.bound)),
                );
                say::progress(&format!("{gap}, {} ways tried", so_far.tried));
            }
            began.elapsed() < patience
        };
        let found = proved(job, now, self.have, go_on);
        if terminal {
            say::progress("");
        }
        found.and_then(Result::ok)
    }
}

fn have(text: &str) -> Result<i64, String> {
    let span = seconds(text)?;
    if (60..=DAY).contains(&span) {
        Ok(span)
    } else {
        Err(format!("{text} is not from 1 min to 24 h"))
    }
}

fn patience(text: &str) -> Result<Duration, String> {
    let span = seconds(text)?;
    u64::try_from(span)
        .ok()
        .filter(|span| (1..=3600).contains(span))
        .map(Duration::from_secs)
        .ok_or_else(|| format!("{text} is not from 1 s to 1 h"))
}

/// A time as typed; a bare number is minutes.
fn seconds(text: &str) -> Result<i64, String> {
    let time = parse(text, Unit::Minute).map_err(|error| error.to_string())?;
    if time.value > f64::from(u32::MAX) {
        return Err(format!("{text} is too long"));
    }
    Ok(workshop::plan::seconds(&time))
}
