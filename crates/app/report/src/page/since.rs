//! What others did in a job since somebody looked.

use jiff::{SignedDuration, ZonedDateTime};
use workshop::entry::Entry;
use workshop::job::Job;

use super::record::{by, line};
use crate::words;

/// The most acts that are told one by one.
const MOST_TOLD: usize = 30;

/// What others did since.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Since {
    /// The last position of the journal.
    pub position: u64,
    /// How many acts of other devices came.
    pub count: usize,
    /// The same in words; empty when there are none.
    pub words: String,
    /// A line an act, newest last: `Tablet: reading at A 12, just now`.
    pub lines: Vec<String>,
}

/// Who asks, and when.
#[derive(Clone, Copy, Debug)]
pub struct Asks<'a> {
    /// The last position they know.
    pub position: u64,
    /// Their device, whose own acts are no news to it.
    pub device: &'a str,
    /// The time, in their zone.
    pub now: &'a ZonedDateTime,
}

/// What other devices did after the position that is known.
pub fn since(job: &Job, entries: &[Entry], asks: &Asks<'_>) -> Since {
    let news: Vec<&Entry> = entries
        .iter()
        .filter(|entry| entry.position > asks.position && entry.new.device != asks.device)
        .collect();
    let told = news.len().saturating_sub(MOST_TOLD);
    let lines = news[told..].iter().map(|entry| {
        let what = line(job, &entry.new.body, entries);
        format!(
            "{}: {what}, {}",
            words::upper(&by(entry)),
            when(entry, asks.now)
        )
    });
    let earlier = (told > 0).then(|| format!("{told} more before these"));
    Since {
        position: job.position,
        count: news.len(),
        words: match news.len() {
            0 => String::new(),
            count => format!(
                "{} by other devices.",
                words::count(count, "new act", "new acts")
            ),
        },
        lines: earlier.into_iter().chain(lines).collect(),
    }
}

/// `just now`, `14:02`, or with its day where that is another one.
fn when(entry: &Entry, now: &ZonedDateTime) -> String {
    let at = entry
        .new
        .happened_at
        .with_time_zone(now.time_zone().clone());
    let ago = now.timestamp().duration_since(at.timestamp());
    if ago.abs() < SignedDuration::from_mins(1) {
        "just now".to_owned()
    } else if at.date() == now.date() {
        at.strftime("%H:%M").to_string()
    } else {
        at.strftime("%Y-%m-%d %H:%M").to_string()
    }
}
