//! Why an archive is not taken in.

use std::fmt;

use workshop::entry::{EntryId, JobId};

use super::Damage;

/// At most so many damages are told; the first few say what to do.
const TOLD: usize = 20;

/// Why an archive is not taken in. Nothing was changed.
#[derive(Debug)]
pub enum Refused {
    /// It is damaged, or is none.
    Damaged {
        /// All that is wrong with it, at least one thing.
        damages: Vec<Damage>,
    },
    /// A newer program wrote it.
    Newer {
        /// The version of its format.
        found: u32,
        /// The newest that is known here.
        known: u32,
    },
    /// A job of the same id is here that began otherwise.
    OtherJob {
        /// The id.
        job: JobId,
    },
    /// Entries that are here too, and say something else there.
    Differs {
        /// The job.
        job: JobId,
        /// Each with its position here and in the archive.
        entries: Vec<(EntryId, u64, u64)>,
    },
    /// An entry that is here in another job.
    Elsewhere {
        /// The entry.
        id: EntryId,
        /// The job it is in.
        job: String,
    },
    /// A job that is too large to be archived.
    TooLarge {
        /// What of it.
        what: &'static str,
        /// As much as there is.
        found: u64,
        /// As much as may be.
        most: u64,
    },
    /// The file cannot be read.
    Unread {
        /// What the system says.
        why: std::io::Error,
    },
}

impl Refused {
    pub(super) fn one(damage: Damage) -> Self {
        Self::Damaged {
            damages: vec![damage],
        }
    }

    /// The sentences of the refusal: what happened, each thing that is wrong, and the way out.
    pub fn sentences(&self) -> Vec<String> {
        match self {
            Self::Damaged { damages } => {
                let mut all =
                    vec!["This archive was not taken in, and nothing was changed.".to_owned()];
                all.extend(damages.iter().take(TOLD).map(Damage::to_string));
                if let Some(more) = damages.len().checked_sub(TOLD).filter(|more| *more > 0) {
                    all.push(format!(
                        "Beside these, {more} more things are wrong with it."
                    ));
                }
                all.push(
                    "Copy the file once more from where it was made, or make the archive anew there."
                        .to_owned(),
                );
                all
            }
            Self::Newer { found, known } => vec![format!(
                "A newer program wrote this archive: its format is version {found}, and this program \
                 reads up to {known}. Nothing was changed; take it in with the newer program.",
            )],
            Self::OtherJob { job } => vec![format!(
                "Another job of that name is here: “{job}” began with another entry than the one in \
                 the archive, so they are not two copies of one job. Nothing was changed; take the \
                 archive in on a bench without that job.",
            )],
            Self::Differs { job, entries } => {
                let mut all = vec![format!(
                    "This archive was not taken in, and nothing was changed: the job “{job}” is here, \
                     and the two copies say different things under the same id, which no bench writes.",
                )];
                all.extend(entries.iter().take(TOLD).map(|(id, here, there)| {
                    format!("“{id}” is entry {here} here and entry {there} in the archive.")
                }));
                all.push(
                    "One of the two copies was changed by hand. Find out which, and keep the other."
                        .to_owned(),
                );
                all
            }
            Self::Elsewhere { id, job } => vec![format!(
                "This archive was not taken in, and nothing was changed: its entry “{id}” is here in \
                 another job, “{job}”. An entry belongs to one job; take the archive in on a bench \
                 without that job.",
            )],
            Self::TooLarge { what, found, most } => vec![format!(
                "This job is too large for an archive: {what} would have {found}, and may have {most}. \
                 Back up the whole store instead.",
            )],
            Self::Unread { why } => vec![format!("The archive cannot be read: {why}.")],
        }
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentences().join("\n"))
    }
}

impl std::error::Error for Refused {}

impl From<Damage> for Refused {
    fn from(damage: Damage) -> Self {
        Self::one(damage)
    }
}

impl From<std::io::Error> for Refused {
    fn from(why: std::io::Error) -> Self {
        Self::Unread { why }
    }
}
