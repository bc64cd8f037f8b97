//! Pages for when there is nothing to show: what happened, and the way on.

use super::{Answer, Next, Page, Target, Tone, frame, plain};

/// What went wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Problem {
    /// No such address.
    NoSuchPage,
    /// No such job.
    NoSuchJob {
        /// The id asked for.
        id: String,
    },
    /// Something failed here; the reason is in the log.
    Failed,
    /// The store cannot be used just now, such as when its server is started again.
    Store {
        /// The store's own sentence.
        why: String,
    },
    /// What was sent could not be read.
    Unreadable,
    /// More was sent than a form holds.
    TooLarge {
        /// The most, in bytes.
        most: usize,
    },
    /// Entries of this job cannot be read.
    Damaged {
        /// The store's own sentence.
        why: String,
    },
}

/// The page.
pub fn page(problem: &Problem) -> Page {
    let (headline, detail) = match problem {
        Problem::NoSuchPage => (
            "There is no such page.".to_owned(),
            "The address may be mistyped. All jobs are on the first page.".to_owned(),
        ),
        Problem::NoSuchJob { id } => (
            "There is no such job.".to_owned(),
            format!("No job on this bench has the id “{id}”. Choose one from the list."),
        ),
        Problem::Failed => (
            "Something failed here.".to_owned(),
            "Nothing was changed. Try again; the reason is in the program’s log.".to_owned(),
        ),
        Problem::Store { why } => (
            "The store cannot be used just now.".to_owned(),
            format!("{why} Go back in the browser: what you typed is still there."),
        ),
        Problem::Unreadable => (
            "What was sent could not be read.".to_owned(),
            "Nothing was changed. Go back, reload the page and send it again.".to_owned(),
        ),
        Problem::TooLarge { most } => (
            "That is more than a form holds.".to_owned(),
            format!(
                "Nothing was changed. At most {most} bytes can be sent at once: shorten the text."
            ),
        ),
        Problem::Damaged { why } => (
            "This job cannot be read.".to_owned(),
            format!("{why} Nothing was changed. Restore the journal from a backup."),
        ),
    };
    let answer = Answer {
        tone: Tone::Open,
        headline,
        detail: vec![plain(detail)],
        origin: String::new(),
    };
    let next = Next::Go {
        words: Vec::new(),
        links: vec![(Target::Jobs, "All jobs".to_owned())],
    };
    frame::bare("Not here", answer, next)
}
