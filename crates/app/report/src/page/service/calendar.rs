//! What falls due, as the entries of a calendar.

use jiff::civil::Date;
use workshop::job::Job;
use workshop::upkeep::answer::{Answer as Says, By, Due, Says as Whose};
use workshop::upkeep::tasks::task;

use super::{due, say};
use crate::words::manual;

/// One day to remember.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Names this time of this task within the job: `gap-3`.
    pub name: String,
    /// The day.
    pub on: Date,
    /// In a line.
    pub summary: String,
    /// How, whose figure it is, and how sure the day is.
    pub description: String,
}

/// An entry for every task that has a day; one of the past stands on today.
pub fn calendar(job: &Job, says: &Says) -> Vec<Entry> {
    let dated = says.due.iter();
    let dated = dated.filter_map(|due| Some((due, due.first.on?)));
    dated
        .map(|(due, on)| entry(job, says, due, on.max(says.today)))
        .collect()
}

fn entry(job: &Job, says: &Says, due: &Due, on: Date) -> Entry {
    let craft = job.title.as_deref().unwrap_or_default();
    let when = match due::mishap(due) {
        None if due.overdue && !due::renews(due) => {
            format!("Overdue {}.", due::since(due, says.today))
        }
        _ => format!("Due {}.", due::first(due, says.today)),
    };
    let mut lines = vec![when];
    if due.first.hours.is_some() {
        lines.push(
            "The day is an estimate from the pace of the hour meter: read the meter, and make this \
             calendar anew."
                .to_owned(),
        );
    }
    lines.push(match &due.says {
        Whose::Stated(page) => format!("As stated: {}.", manual(page)),
        Whose::Practice => "General practice; the craft’s manual wins.".to_owned(),
        Whose::Reckoned => "Reckoned from what is known of the part.".to_owned(),
    });
    if let By::Mishap(what, on) = due.first.by {
        lines.push(format!(
            "{}, {}.",
            crate::words::upper(say::mishap(what)),
            say::day(on, says.today)
        ));
    }
    let task = task(due.task.as_str());
    let how = task.map_or(&[][..], |task| task.how);
    let cautions = say::cautions(task);
    lines.extend(how.iter().chain(&cautions).map(|line| (*line).to_owned()));
    Entry {
        name: format!("{}-{}", due.task, due.cycle),
        on,
        summary: match craft {
            "" => due::name(due),
            craft => format!("{}: {craft}", due::name(due)),
        },
        description: lines.join("\n"),
    }
}
