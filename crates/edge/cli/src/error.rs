//! What is refused here, in sentences for a person.

use std::fmt;
use std::path::PathBuf;

use jobfile::Complaint;
use trial::read::{Mapping, Missing, Refused};
use web::Unsealed;
use workshop::entry::JobId;
use workshop::refusal::Refusal;

/// Nothing was changed, whatever the error.
#[derive(Debug)]
pub(crate) enum Error {
    /// The store refused.
    Store(store::Error),
    /// The job does not take it, and no line of a file is to blame.
    Refused(Refusal),
    /// A line of a job file is to blame.
    JobFile(Complaint),
    /// A card was named where a job is needed.
    CardForJob,
    /// A job was to begin from a card, and was given no title.
    CardNeedsTitle,
    /// A title has no letter that an id could be made of.
    NoIdInTitle,
    /// A title was given for a job that has its own.
    TitleForJob,
    /// A file cannot be read.
    Unread { path: PathBuf, why: Unread },
    /// A log cannot be read.
    UnreadLog { path: PathBuf, why: Unread },
    /// A log is refused whole.
    Log {
        path: PathBuf,
        refused: Box<trial::read::Refused>,
    },
    /// A log that says itself what its columns are, or has none.
    ColumnsUnused { path: PathBuf },
    /// A file cannot be written.
    Unwritten { path: PathBuf, why: std::io::Error },
    /// A folder for the store cannot be made.
    NoFolder { path: PathBuf, why: std::io::Error },
    /// The system names no folder for data.
    NoDataFolder,
    /// A file that is no backup.
    NoBackup { path: PathBuf },
    /// An archive was given an id or a title.
    ArchiveHasItsOwn,
    /// A store was to be restored where one stands.
    StoreThere { path: PathBuf },
    /// Nothing was ever stored there.
    NoStore { url: String },
    /// The store has no such job.
    NoSuchJob { id: JobId, there: Vec<JobId> },
    /// Another program listens on the port.
    PortTaken { port: u16, option: &'static str },
    /// The bench was to be opened to a network that this machine is not in.
    NoAddress,
    /// The system gives no random numbers.
    NoRandomness,
    /// The file of the authority cannot be used.
    Authority { path: PathBuf, why: Unsealed },
    /// The file of the authority lies open to others.
    Bare { path: PathBuf },
    /// The network refuses.
    Network(std::io::Error),
    /// A calendar of a job where nothing has a day.
    NothingDated,
    /// The answer cannot be written to standard output.
    Output(std::io::Error),
}

/// Why a file cannot be read as a job file.
#[derive(Debug)]
pub(crate) enum Unread {
    /// The system refuses.
    System(std::io::Error),
    /// It is a folder.
    Folder,
    /// It has more bytes than a job file may have, as far as they were counted.
    TooLarge { bytes: u64, most: u64 },
    /// It is no text; the first byte that is none, counted from 1.
    NotText { byte: usize },
}

impl fmt::Display for Error {
    #[expect(clippy::too_many_lines, reason = "a sentence an arm, read as a table")]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Store(error) => {
                write!(f, "{error}")?;
                match std::error::Error::source(error) {
                    Some(cause) if !matches!(error, store::Error::Refused(_)) => {
                        write!(f, "\nThe cause, for whoever mends it: {cause}")
                    }
                    _ => Ok(()),
                }
            }
            Self::Refused(refusal) => write!(f, "{refusal}"),
            Self::JobFile(complaint) => write!(f, "{complaint}"),
            Self::CardForJob => f.write_str(
                "This is a card of a pump and no job yet. Begin one from it: pumpwright import FILE \
                 --title “Craft and reason”.",
            ),
            Self::CardNeedsTitle => f.write_str(
                "A card begins a job of your own, and it needs a title: --title “Craft and reason”.",
            ),
            Self::NoIdInTitle => f.write_str(
                "No id can be made of this title. Give the job one: --as sled-2, in lower-case \
                 letters, digits and hyphens.",
            ),
            Self::TitleForJob => f.write_str(
                "A job file has its own title; --title is for a card. Leave it out, or mend the \
                 title in the file.",
            ),
            Self::Unread { path, why } => unread(f, &path.display().to_string(), why),
            Self::UnreadLog { path, why } => unread_log(f, &path.display().to_string(), why),
            Self::Log { path, refused } => log(f, &path.display().to_string(), refused),
            Self::ColumnsUnused { path } => write!(
                f,
                "“{}” was not read: --columns is for a table that does not say what its columns \
                 are. Leave it out; another unit of speed is said with --log-unit.",
                path.display()
            ),
            Self::Unwritten { path, why } => write!(
                f,
                "“{}” cannot be written: {why}. Name another file.",
                path.display()
            ),
            Self::NoFolder { path, why } => write!(
                f,
                "The folder “{}” cannot be made: {why}. Name another place with \
                 --store sqlite:FILE.",
                path.display()
            ),
            Self::NoDataFolder => f.write_str(
                "The system names no folder for data. Say where the store lies with \
                 --store sqlite:FILE.",
            ),
            Self::NoBackup { path } => write!(
                f,
                "{} is no backup of a store. Name the file that “pumpwright backup” wrote; a job file is \
                 brought in with “import”.",
                path.display()
            ),
            Self::ArchiveHasItsOwn => f.write_str(
                "An archive has its job’s own id and title, and its entries belong to that job. Leave out \
                 --as and --title.",
            ),
            Self::StoreThere { path } => write!(
                f,
                "A store stands in {} and is not overwritten. Move it away first, or name another place \
                 with --store sqlite:FILE.",
                path.display()
            ),
            Self::NoStore { url } => write!(
                f,
                "There is no store at {url} yet. Import a job file first, open the bench with \
                 “pumpwright serve”, or name another store with --store.",
            ),
            Self::NoSuchJob { id, there } => no_such_job(f, id, there),
            Self::PortTaken { port, option } => write!(
                f,
                "Port {port} is in use, perhaps by a bench that is open already. Use that one, \
                 close it, or take any free port with {option} 0.",
            ),
            Self::NoAddress => f.write_str(
                "This machine has no address in a network, so no other device could reach the bench. \
                 Join a network first, or leave --lan out.",
            ),
            Self::Authority { path, why } => write!(
                f,
                "“{}” cannot be used for HTTPS: {why}. Move the file away to have another made; every device \
                 must then take the new one.",
                path.display()
            ),
            Self::Bare { path } => write!(
                f,
                "“{}” holds the private key of this bench, and others on this machine may read it. Make it \
                 private, such as with chmod 600, or move it away to have another made.",
                path.display()
            ),
            Self::NoRandomness => f.write_str(
                "The system gives no random numbers, so no pairing number can be made. Open the bench \
                 without --lan.",
            ),
            Self::Network(why) => write!(f, "The bench cannot be opened: {why}."),
            Self::NothingDated => f.write_str(
                "Nothing has a day yet, so there is no calendar. State what the hour meter reads and how \
                 many hours a week it runs, or when a task was last done.",
            ),
            Self::Output(why) => write!(f, "The answer cannot be written: {why}."),
        }
    }
}

fn unread(f: &mut fmt::Formatter<'_>, path: &str, why: &Unread) -> fmt::Result {
    match why {
        Unread::System(error) if error.kind() == std::io::ErrorKind::NotFound => write!(
            f,
            "There is no file “{path}”. Check its name, or give the id of a job in the store.",
        ),
        Unread::System(error) => write!(f, "“{path}” cannot be read: {error}."),
        Unread::Folder => write!(f, "“{path}” is a folder. Name a job file in it."),
        Unread::TooLarge { bytes, most } => write!(
            f,
            "“{path}” has {} and a job file may have {}. It was not read; is it the right file?",
            megabytes(*bytes),
            megabytes(*most),
        ),
        Unread::NotText { byte } => write!(
            f,
            "“{path}” is not text: byte {byte} is not UTF-8. Save it as UTF-8, or choose the \
             job file.",
        ),
    }
}

fn unread_log(f: &mut fmt::Formatter<'_>, path: &str, why: &Unread) -> fmt::Result {
    match why {
        Unread::System(error) if error.kind() == std::io::ErrorKind::NotFound => {
            write!(f, "There is no file “{path}”. Check its name.")
        }
        Unread::Folder => write!(f, "“{path}” is a folder. Name a log in it."),
        why => unread(f, path, why),
    }
}

/// A log that is refused, and where it is asked about, how to answer.
fn log(f: &mut fmt::Formatter<'_>, path: &str, refused: &Refused) -> fmt::Result {
    write!(f, "“{path}” was not read: {refused}.")?;
    match refused {
        Refused::Ask {
            columns,
            guess,
            missing,
        } => {
            let names = columns.iter().enumerate();
            let names: Vec<String> = names
                .map(|(place, column)| format!("{} “{}”", place + 1, column.name))
                .collect();
            write!(
                f,
                " Its columns are {}. Say it with --columns, such as --columns “{}”.",
                names.join(", "),
                said(guess, missing)
            )
        }
        Refused::Unit { .. } => f.write_str(" Such as --log-unit km/h."),
        Refused::Tracks { .. } => f.write_str(" Such as --track 1."),
        Refused::Talkers { .. } => f.write_str(" Such as --talker GP."),
        _ => Ok(()),
    }
}

/// How the columns are said that could not be told.
fn said(guess: &Mapping, missing: &[Missing]) -> String {
    let column = |guessed: Option<usize>, other: usize| guessed.map_or(other, |at| at + 1);
    let mut parts: Vec<String> = missing
        .iter()
        .map(|missing| match missing {
            Missing::Time | Missing::TimeForm => format!("time {} seconds", column(guess.time, 1)),
            Missing::Speed | Missing::SpeedUnit => format!("speed {} mph", column(guess.speed, 2)),
            Missing::DecimalMark => "decimal-comma".to_owned(),
        })
        .collect();
    parts.dedup();
    parts.join("; ")
}

fn no_such_job(f: &mut fmt::Formatter<'_>, id: &JobId, there: &[JobId]) -> fmt::Result {
    write!(f, "There is no job “{id}” in the store. ")?;
    let ids: Vec<String> = there.iter().map(ToString::to_string).collect();
    if ids.is_empty() {
        f.write_str("It holds no job yet: import a job file first.")
    } else {
        write!(f, "It holds {}.", report::words::list(&ids, 8))
    }
}

/// `104.9 MB`, in the powers of ten that disks are sold in.
fn megabytes(bytes: u64) -> String {
    let tenths = bytes.div_ceil(100_000);
    match tenths % 10 {
        0 => format!("{} MB", tenths / 10),
        rest => format!("{}.{rest} MB", tenths / 10),
    }
}

impl std::error::Error for Error {}

impl From<store::Error> for Error {
    fn from(error: store::Error) -> Self {
        Self::Store(error)
    }
}

impl From<Refusal> for Error {
    fn from(refusal: Refusal) -> Self {
        Self::Refused(refusal)
    }
}

impl From<Complaint> for Error {
    fn from(complaint: Complaint) -> Self {
        Self::JobFile(complaint)
    }
}

impl From<jobfile::Error> for Error {
    fn from(error: jobfile::Error) -> Self {
        match error {
            jobfile::Error::Line(complaint) => Self::JobFile(complaint),
            jobfile::Error::Refused(refusal) => Self::Refused(refusal),
        }
    }
}
