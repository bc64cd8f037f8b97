//! `trial`: the Water test page at the command line, and logs read into a job.

use std::fs::File;
use std::io::{self, BufReader, IsTerminal as _, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use clap::{Args, ValueEnum};
use jiff::{Timestamp, ZonedDateTime};
use quantity::Unit;
use report::page::water::{View, card_page, page};
use sha2::{Digest, Sha256};
use store::Store;
use trial::read::Options;
use workshop::act::{Act, Stamp};
use workshop::decide::decide;
use workshop::draft::layout;
use workshop::draft::water::SPEED_UNITS;
use workshop::entry::{Body, Entry, EntryId, JobId, Key};
use workshop::fold::fold;
use workshop::job::Job;
use workshop::water::answer::answer;
use workshop::water::intake::{FileSays, known, logged, take_in};
use workshop::water::{Outing, Side, Trialling};

use super::subject;
use crate::error::{Error, Unread};
use crate::place::Place;
use crate::{say, trial_json};

#[derive(Args, Debug)]
pub(crate) struct Trial {
    /// A job file, or the id of a job in the store; none to look at logs alone
    #[arg(required_unless_present = "read")]
    job: Option<String>,
    #[command(flatten)]
    place: Place,
    /// Read this log: GPX, NMEA 0183 or columns of text. It is kept in a job of the store, and only
    /// looked at otherwise
    #[arg(long, value_name = "LOG")]
    read: Vec<PathBuf>,
    /// The outing the logs belong to, by its key; one is described where there is none
    #[arg(long, value_name = "KEY", default_value = "outing")]
    outing: String,
    /// Whether that outing was before the rebuild or after it
    #[arg(long, value_enum, default_value = "after")]
    side: When,
    /// The unit that speeds are shown in
    #[arg(long, value_name = "UNIT", default_value = "mph", value_parser = speed_unit)]
    unit: Unit,
    /// The unit of the log’s speeds, whatever the file says
    #[arg(long, value_name = "UNIT", value_parser = speed_unit)]
    log_unit: Option<Unit>,
    /// What the columns of a table are: "time 1 seconds; speed 2 mph; course 3; engine 4 rpm"
    #[arg(
        long,
        value_name = "TEXT",
        default_value = "",
        hide_default_value = true
    )]
    columns: String,
    /// Which of several tracks of a file, counted from 1
    #[arg(long, value_name = "NUMBER")]
    track: Option<usize>,
    /// Which of several receivers, by the two letters its sentences begin with
    #[arg(long, value_name = "LETTERS")]
    talker: Option<String>,
    /// Print the test card: what to run, in what order, safely
    #[arg(long, requires = "job", conflicts_with = "read")]
    card: bool,
    /// Print a JSON document for other programs
    #[arg(long, conflicts_with = "card")]
    json: bool,
    /// Answer as at this time, with its zone, instead of now
    #[arg(long, value_name = "TIME")]
    at: Option<ZonedDateTime>,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum When {
    Before,
    After,
}

fn speed_unit(text: &str) -> Result<Unit, String> {
    let known = SPEED_UNITS.iter().find(|(word, _)| *word == text);
    known
        .map(|(_, unit)| *unit)
        .ok_or_else(|| "write mph, km/h, kn or m/s".to_owned())
}

impl Trial {
    pub(crate) async fn run(self) -> Result<(), Error> {
        layout::check(&self.columns)?;
        let now = self.at.clone().unwrap_or_else(ZonedDateTime::now);
        let (id, mut entries) = match &self.job {
            Some(job) => subject::load(job, &self.place).await?,
            None => scratch(&now)?,
        };
        if !self.read.is_empty() {
            let store = self.store_of(&id).await?;
            let read = self.read_all((&id, &mut entries), store.as_ref(), &now);
            let read = Box::pin(read).await;
            if let Some(store) = store {
                store.close().await;
            }
            read?;
        }
        let (job, objections) = fold(&entries);
        let says = answer(&job);
        let view = View {
            id: &id,
            job: &job,
            objections: &objections,
            now: &now,
            says: &says,
            refused: None,
        };
        if self.json {
            return say::out(&trial_json::write(&view));
        }
        say::page(&if self.card {
            card_page(&view)
        } else {
            page(&view)
        })
    }

    /// The store, where the job lies in it: a file is only looked at.
    async fn store_of(&self, id: &JobId) -> Result<Option<Store>, Error> {
        match &self.job {
            Some(job) if job == id.as_str() => Ok(Some(self.place.look().await?)),
            _ => Ok(None),
        }
    }

    async fn read_all(
        &self,
        (id, entries): (&JobId, &mut Vec<Entry>),
        store: Option<&Store>,
        now: &ZonedDateTime,
    ) -> Result<(), Error> {
        let outing = Key::new(&self.outing)?;
        for path in &self.read {
            let (job, _) = fold(entries);
            if !job.trials.outings.contains_key(&outing) {
                let said = Trialling::Outing {
                    key: outing.clone(),
                    outing: self.described(),
                };
                take((id, entries), store, said, now).await?;
            }
            let (job, _) = fold(entries);
            let said = self.log(&job, &outing, path)?;
            take((id, entries), store, said, now).await?;
        }
        Ok(())
    }

    fn described(&self) -> Outing {
        let (side, name) = match self.side {
            When::Before => (Side::Before, "Before"),
            When::After => (Side::After, "After"),
        };
        Outing::named(name, side, self.unit)
    }

    /// What the job keeps of a log.
    fn log(&self, job: &Job, outing: &Key, path: &Path) -> Result<Trialling, Error> {
        let unread = |why| Error::UnreadLog {
            path: path.to_owned(),
            why: Unread::System(why),
        };
        let file = File::open(path).map_err(unread)?;
        let about = file.metadata().map_err(unread)?;
        if about.is_dir() {
            return Err(Error::UnreadLog {
                path: path.to_owned(),
                why: Unread::Folder,
            });
        }
        let mut file = BufReader::with_capacity(
            1 << 16,
            Counted {
                file,
                hash: Sha256::new(),
                bytes: 0,
                of: about.len(),
                told: 0,
                tells: io::stderr().is_terminal(),
            },
        );
        let options = Options {
            speed_unit: self.log_unit,
            track: self.track,
            talker: self.talker.clone(),
            ..Options::default()
        };
        let taken = take_in(&mut file, &options, &self.columns, &known(job));
        let taken = taken.map_err(|refused| Error::Log {
            path: path.to_owned(),
            refused: Box::new(refused),
        });
        // The digest is of the whole file, read or not.
        let rest = io::copy(&mut file, &mut io::sink());
        let file = file.into_inner();
        if file.tells {
            say::progress("");
        }
        let taken = taken?;
        rest.map_err(unread)?;
        if taken.layout.is_none() && !self.columns.trim().is_empty() {
            return Err(Error::ColumnsUnused {
                path: path.to_owned(),
            });
        }
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let says = FileSays {
            name: name.into_owned(),
            bytes: file.bytes,
        };
        Ok(Trialling::Log {
            outing: outing.clone(),
            digest: Key::new(&format!("{:x}", file.hash.finalize()))?,
            log: Arc::new(logged(&taken, says)),
        })
    }
}

/// A job of nothing, to look at logs with.
fn scratch(now: &ZonedDateTime) -> Result<(JobId, Vec<Entry>), Error> {
    let opened = Body::JobOpened {
        title: "Logs, looked at".to_owned(),
        note: "Nothing is kept: name a job of the store to keep them.".to_owned(),
        follows: None,
    };
    let new = decide(&Job::default(), Act::Record(opened), stamp("opened", now)?)?;
    Ok((JobId::new("logs")?, jobfile::stored(&new, 0)))
}

fn stamp(id: &str, now: &ZonedDateTime) -> Result<Stamp, Error> {
    Ok(Stamp {
        id: EntryId::new(id)?,
        now: now.clone(),
        device: "command line".to_owned(),
        who: String::new(),
        seen: None,
    })
}

/// Puts it on record in the store, or beside it.
async fn take(
    (id, entries): (&JobId, &mut Vec<Entry>),
    store: Option<&Store>,
    said: Trialling,
    now: &ZonedDateTime,
) -> Result<(), Error> {
    let act = Act::Record(Body::Trialled(said));
    // Where it was said, and what: the same log read twice is refused as such, not as a slip of ids.
    let stamp = stamp(
        &format!(
            "trial-{}-{}",
            entries.len(),
            now.timestamp().as_millisecond()
        ),
        now,
    )?;
    if let Some(store) = store {
        store.act(id, act, stamp, Timestamp::now()).await?;
        *entries = store.entries(id).await?;
    } else {
        let (job, _) = fold(entries);
        let new = decide(&job, act, stamp)?;
        entries.extend(jobfile::stored(&new, job.position));
    }
    Ok(())
}

/// A file that is digested while it is read, and tells how far it has come.
struct Counted {
    file: File,
    hash: Sha256,
    bytes: u64,
    of: u64,
    told: u64,
    tells: bool,
}

/// So many bytes from one word of progress to the next.
const STEP: u64 = 8 << 20;

impl Read for Counted {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let count = self.file.read(into)?;
        self.hash.update(&into[..count]);
        self.bytes += u64::try_from(count).unwrap_or_default();
        if self.tells && self.bytes >= self.told + STEP {
            self.told = self.bytes;
            let megabytes = |bytes: u64| bytes / 1_000_000;
            say::progress(&format!(
                "{} of {} MB read",
                megabytes(self.bytes),
                megabytes(self.of)
            ));
        }
        Ok(count)
    }
}
