//! What can go wrong, in sentences for a person; the cause for the log is in `source`.

use std::fmt;
use std::path::PathBuf;

use sqlx::migrate::MigrateError;
use workshop::entry::EntryId;
use workshop::photos::PhotoHash;
use workshop::refusal::Refusal;

/// Nothing was changed, whatever the error.
#[derive(Debug)]
pub enum Error {
    /// The act may not be done.
    Refused(Refusal),
    /// An entry with this id is on record and says something else.
    IdTaken {
        /// The id.
        id: EntryId,
    },
    /// A stored value cannot be read back.
    Damaged {
        /// The table it stands in.
        table: &'static str,
        /// The column it stands in.
        column: &'static str,
        /// The job as stored.
        job: String,
        /// The position as stored.
        position: i64,
        /// What is wrong with it, for the log.
        why: String,
    },
    /// A stored picture is not what its name says.
    PhotoDamaged {
        /// Its name.
        photo: PhotoHash,
    },
    /// An entry that could not be read back, so it was not written.
    Unwritable {
        /// The entry.
        id: EntryId,
        /// What is wrong with it, for the log.
        why: String,
    },
    /// The address names no database this program can open.
    BadAddress {
        /// As given.
        url: String,
    },
    /// A newer program changed the database's tables.
    NewerDatabase {
        /// The newest change found in the database.
        found: i64,
        /// The newest change this program knows.
        known: i64,
    },
    /// The tables are not those this program made.
    Migration(MigrateError),
    /// The database does not keep a setting that the journal's safety rests on.
    Setting {
        /// Its name.
        name: &'static str,
        /// What it must be.
        wanted: String,
        /// What it is.
        found: String,
    },
    /// Others appended to the job at every attempt.
    Crowded {
        /// How often it was tried.
        attempts: u32,
    },
    /// A file that is there already was to be written.
    FileThere {
        /// Which.
        path: PathBuf,
    },
    /// The database's own check finds it damaged.
    Broken {
        /// What it finds, for the log.
        why: String,
    },
    /// The database failed.
    Database(sqlx::Error),
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(refusal) => write!(f, "{refusal}"),
            Self::IdTaken { id } => write!(
                f,
                "“{id}” is on record already and says something else. Nothing was changed; load \
                 the page again and repeat the act.",
            ),
            Self::Damaged {
                table,
                column,
                job,
                position,
                ..
            } => write!(
                f,
                "Entry {position} of the job “{job}” is damaged: “{column}” in the table “{table}” \
                 cannot be read. Restore the store from a backup.",
            ),
            Self::PhotoDamaged { photo } => write!(
                f,
                "The photo {} is damaged in the store. Send it again, or restore the store from a \
                 backup.",
                photo.short(),
            ),
            Self::Unwritable { id, .. } => write!(
                f,
                "“{id}” was not recorded, because it could not be read back. Check its numbers \
                 and its time.",
            ),
            Self::BadAddress { url } => write!(
                f,
                "“{url}” is no address of a store. Write sqlite: and the path of a file.",
            ),
            Self::NewerDatabase { found, known } => write!(
                f,
                "A newer program wrote this store: it has tables of version {found}, and this \
                 program knows up to {known}. Open it with the newer program.",
            ),
            Self::Migration(_) => f.write_str(
                "This file has other tables than a store has. Choose another file, or restore \
                 the store from a backup.",
            ),
            Self::Setting {
                name,
                wanted,
                found,
            } => write!(
                f,
                "The store’s “{name}” is {found} and must be {wanted}, or an answered act could \
                 be lost. Keep the store in a file on a local disk.",
            ),
            Self::Crowded { attempts } => write!(
                f,
                "Others wrote in this job at each of {attempts} attempts. Nothing was changed; \
                 try again.",
            ),
            Self::FileThere { path } => write!(
                f,
                "“{}” is there already and is not overwritten. Name another file.",
                path.display()
            ),
            Self::Broken { .. } => f.write_str(
                "The store is damaged: its own check fails. Restore it from a backup, and look at the disk.",
            ),
            Self::Database(_) => f.write_str(
                "The store cannot be read or written. Check that the file is there, that it may \
                 be written, and that the disk has room; then try again.",
            ),
        }
    }
}

impl std::error::Error for Error {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Refused(refusal) => Some(refusal),
            Self::Migration(error) => Some(error),
            Self::Database(error) => Some(error),
            _ => None,
        }
    }
}

impl From<Refusal> for Error {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

impl From<sqlx::Error> for Error {
    /// Finds again an error of ours that had to travel through `sqlx`.
    fn from(error: sqlx::Error) -> Self {
        match error {
            sqlx::Error::Configuration(cause) => match cause.downcast::<Self>() {
                Ok(ours) => *ours,
                Err(cause) => Self::Database(sqlx::Error::Configuration(cause)),
            },
            other => Self::Database(other),
        }
    }
}
