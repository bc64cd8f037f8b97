//! What can go wrong, in sentences for a person; the cause for the log is in `source`.

use std::fmt;
use std::path::PathBuf;

use sqlx::migrate::MigrateError;
use workshop::entry::EntryId;
use workshop::photos::PhotoHash;
use workshop::refusal::Refusal;

use crate::archive;

/// Nothing was changed, whatever the error, with one exception: when the connection to a server was
/// lost, nobody knows. What is sent again lands once.
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
    /// What is stored of a device cannot be read back.
    DeviceDamaged {
        /// The column it stands in.
        column: &'static str,
        /// The device's id as stored.
        device: String,
        /// What is wrong with it, for the log.
        why: String,
    },
    /// Another device has this name.
    NameTaken {
        /// The name.
        name: String,
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
        /// What of it may be shown.
        shown: String,
    },
    /// The address of a server holds a setting that is not taken from it.
    AddressSetting,
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
        wanted: &'static str,
        /// What it is.
        found: String,
        /// Why it must.
        why: &'static str,
        /// What to do.
        way_out: &'static str,
    },
    /// Another program held the job, or the store, for too long.
    Held,
    /// A store that holds something was to be filled from another.
    NotEmpty,
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
    /// An archive is not taken in, or not made.
    Archive(Box<archive::Refused>),
    /// The file of an archive cannot be written.
    ArchiveUnwritten {
        /// What the system says.
        why: std::io::Error,
    },
    /// The database failed.
    Database(sqlx::Error),
}

impl fmt::Display for Error {
    #[expect(clippy::too_many_lines, reason = "a sentence an arm, read as a table")]
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
            Self::DeviceDamaged { column, device, .. } => write!(
                f,
                "What the store knows of the device “{device}” is damaged: “{column}” cannot be read. \
                 Restore the store from a backup.",
            ),
            Self::NameTaken { name } => write!(
                f,
                "Another device here is named “{name}”. Give this one another name, so that the journal \
                 can tell them apart.",
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
                 and its time, and that no name holds a zero character.",
            ),
            Self::BadAddress { shown } => write!(
                f,
                "“{shown}” is no address of a store. Write sqlite: and the path of a file, or \
                 postgres://NAME@HOST/DATABASE.",
            ),
            Self::AddressSetting => f.write_str(
                "The address of the store says something after “?” that is not taken there. It may \
                 say host, port, dbname, user, password and sslmode.",
            ),
            Self::NewerDatabase { found, known } => write!(
                f,
                "A newer program wrote this store: it has tables of version {found}, and this \
                 program knows up to {known}. Open it with the newer program.",
            ),
            Self::Migration(_) => f.write_str(
                "There are other tables here than a store has. Choose another file or database, or \
                 restore the store from a backup.",
            ),
            Self::Setting {
                name,
                wanted,
                found,
                why,
                way_out,
            } => write!(
                f,
                "The store’s “{name}” is {found} and must be {wanted}, {why}. {way_out}",
            ),
            Self::Held => f.write_str(
                "Another program held the store for longer than 5 seconds. Nothing was changed; \
                 try again.",
            ),
            Self::NotEmpty => f.write_str(
                "This store holds something already, and only an empty one is filled. Name another, \
                 or have an empty database made.",
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
            Self::Archive(refused) => write!(f, "{refused}"),
            Self::ArchiveUnwritten { why } => write!(
                f,
                "The archive cannot be written: {why}. Make room, or name another place.",
            ),
            Self::Database(error) => f.write_str(sentence(error)),
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

impl From<archive::Refused> for Error {
    fn from(refused: archive::Refused) -> Self {
        Self::Archive(Box::new(refused))
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
            held if is_held(&held) => Self::Held,
            other => Self::Database(other),
        }
    }
}

/// The database's own name for what went wrong: `SQLite`'s number, or five characters of a server.
fn code(error: &sqlx::Error) -> String {
    let cause = error.as_database_error();
    cause
        .and_then(sqlx::error::DatabaseError::code)
        .map(std::borrow::Cow::into_owned)
        .unwrap_or_default()
}

/// Somebody else held the lock: `SQLITE_BUSY` in any of its forms, `lock_not_available` of a server.
pub(crate) fn is_held(error: &sqlx::Error) -> bool {
    match code(error).as_str() {
        server if server.len() == 5 => server == "55P03",
        file => file.parse::<u32>().is_ok_and(|code| code & 0xff == 5),
    }
}

/// Another append came in between, and this one changed nothing: a position taken, or a server that
/// ended one of two that waited for each other.
pub(crate) fn is_collision(error: &sqlx::Error) -> bool {
    let cause = error.as_database_error();
    cause.is_some_and(sqlx::error::DatabaseError::is_unique_violation)
        || ["40001", "40P01"].contains(&code(error).as_str())
}

/// Whether there is a sentence for this very cause.
pub(crate) fn is_told(error: &sqlx::Error) -> bool {
    sentence(error) != UNTOLD
}

const UNTOLD: &str = "The store cannot be read or written. Check that the file is there, that it may \
                      be written, and that the disk has room; then try again.";

fn sentence(error: &sqlx::Error) -> &'static str {
    match error {
        sqlx::Error::Io(_) => return LOST,
        sqlx::Error::PoolTimedOut => {
            return "The store did not answer in time. Where a server keeps it, check that it runs and \
                    that the network is whole; then try again: what is on record is not recorded twice.";
        }
        sqlx::Error::Tls(_) => {
            return "The server of the store was to be spoken to in cipher, which this program cannot. \
                    Leave sslmode out of the address and stay in a network you trust, or lay a tunnel.";
        }
        _ => {}
    }
    match code(error).as_str() {
        "57P01" | "57P02" | "57P03" | "25P03" => LOST,
        class if class.len() == 5 && class.starts_with("08") => LOST,
        "28P01" | "28000" => {
            "The server of the store refuses this name or its password. Check the address; the \
             password may stand in PGPASSWORD or in the password file."
        }
        "3D000" => {
            "There is no such database on the server. Check the address, or have it made: createdb \
             --owner NAME DATABASE."
        }
        "42501" => {
            "This name may not write in the database of the store. Make it the owner of the database."
        }
        "53100" | "53200" => {
            "The server of the store has no room left. Nothing was changed; make room there, then try \
             again."
        }
        "53300" => {
            "The server of the store takes no more connections. Close another bench, or let the server \
             take more; then try again."
        }
        "57014" => {
            "The server of the store took too long and gave up. Nothing was changed; try again when it \
             has less to do."
        }
        "22021" => {
            "A text holds a zero character, which this database cannot keep. Nothing was changed; take \
             the character out."
        }
        server if server.len() == 5 => {
            "The server of the store refuses. Check its log, and that it has room; then try again."
        }
        _ => UNTOLD,
    }
}

const LOST: &str = "The connection to the server of the store was lost or cannot be made. Check that it \
                    runs, its address and the network; then try again: what is on record is not \
                    recorded twice.";
