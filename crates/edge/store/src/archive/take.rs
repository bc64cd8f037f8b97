//! Taking an archive in: a job that is not here as it was, or two copies of one job made one again.

use std::collections::{BTreeMap, HashMap};
use std::io::{Read, Seek};

use sqlx::{AssertSqlSafe, Connection as _, Row as _};
use workshop::entry::{Entry, JobId};

use super::{Archive, Refused};
use crate::connect::lent::Lent;
use crate::error::is_collision;
use crate::row::{self, Stored};
use crate::store::{ATTEMPTS, ENTRIES, begin, places, put};
use crate::{Error, Size, Store};

/// How many ids are looked for in one statement.
const AT_ONCE: usize = 500;

/// What became of an archive that was taken in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Merged {
    /// The job.
    pub job: JobId,
    /// Craft and reason.
    pub title: String,
    /// The job was not here before.
    pub begun: bool,
    /// The entries that came in.
    pub new: Vec<Told>,
    /// How many entries of the archive were here.
    pub already: usize,
    /// The entries that only this bench had, where others came in: written while the copies were apart.
    pub apart: Vec<Told>,
    /// How many photos came in.
    pub photos: usize,
}

/// An entry as it is told of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// Its position in the journal here.
    pub position: u64,
    /// What kind of entry it is.
    pub kind: String,
}

impl Store {
    /// Takes an archive in, all of it or nothing. What is here already stays as it is; what is new is
    /// appended in the order of the archive. Taken in again, it changes nothing.
    pub async fn take_in<R: Read + Seek + Send>(
        &self,
        archive: &mut Archive<R>,
    ) -> Result<Merged, Error> {
        // Looked at first, so that no photo is kept of a job that is refused.
        let here = self.lines(&archive.job).await?;
        let here: Vec<Stored> = here.into_iter().map(|(line, _)| line).collect();
        let new = unknown(&archive.job, &here, &archive.lines)?;
        self.nowhere_else(&archive.job, &new).await?;
        let photos = self.keep_all(archive).await?;
        for _ in 0..ATTEMPTS {
            match self.merge(archive, photos).await {
                Ok(Some(merged)) => return Ok(merged),
                Ok(None) => {}
                Err(Error::Database(error)) if is_collision(&error) => {}
                Err(error) => return Err(error),
            }
        }
        Err(Error::Crowded { attempts: ATTEMPTS })
    }

    /// The job's rows as they stand, each with what it says.
    pub(super) async fn lines(&self, job: &JobId) -> Result<Vec<(Stored, Entry)>, Error> {
        let rows = sqlx::query(ENTRIES).bind(job.as_str()).bind(1_i64);
        let rows = rows.fetch_all(self.pool()).await?;
        rows.iter().map(row::read).collect()
    }

    /// Refuses new entries of which an id is taken in another job. In their own it may have come meanwhile.
    async fn nowhere_else(&self, job: &JobId, new: &[&Stored]) -> Result<(), Error> {
        for some in new.chunks(AT_ONCE) {
            let statement = format!(
                "SELECT id, job FROM entry WHERE job <> $1 AND id IN ({})",
                places(2, some.len())
            );
            // Only numbers of places were put into the statement.
            let mut query = sqlx::query(AssertSqlSafe(statement)).bind(job.as_str());
            for line in some {
                query = query.bind(line.row.id.as_str());
            }
            let mut found = BTreeMap::new();
            for row in query.fetch_all(self.pool()).await? {
                let id: String = row.try_get("id")?;
                let job: String = row.try_get("job")?;
                found.insert(id, job);
            }
            let taken = |line: &&Stored| {
                let id = line.row.id.clone();
                let job = found.remove(id.as_str())?;
                Some(Refused::Elsewhere { id, job })
            };
            if let Some(refused) = some.iter().find_map(taken) {
                return Err(refused.into());
            }
        }
        Ok(())
    }

    /// Keeps the photos that are not here, or not whole, and says how many those were.
    async fn keep_all<R: Read + Seek + Send>(
        &self,
        archive: &mut Archive<R>,
    ) -> Result<usize, Error> {
        let mut kept = 0;
        for photo in archive.photos.clone() {
            let here = (
                self.photo(&photo, Size::Full).await,
                self.photo(&photo, Size::Thumb).await,
            );
            match here {
                (Ok(Some(_)), Ok(Some(_))) => {}
                (Err(error @ Error::Database(_)), _) => return Err(error),
                _ => {
                    let [large, small] = archive.photo(&photo)?;
                    self.keep_photo(&large, &small).await?;
                    kept += 1;
                }
            }
        }
        Ok(kept)
    }

    /// Appends what is new in one transaction. None when somebody else began the job meanwhile.
    async fn merge<R>(&self, archive: &Archive<R>, photos: usize) -> Result<Option<Merged>, Error> {
        let job = &archive.job;
        let mut lent = Lent::from(self.pool()).await?;
        let mut transaction = lent.connection.begin().await?;
        begin(&mut transaction, job).await?;
        let rows = sqlx::query(ENTRIES).bind(job.as_str()).bind(1_i64);
        let rows = rows.fetch_all(&mut *transaction).await?;
        let here = rows.iter().map(|read| Ok(row::read(read)?.0));
        let here = here.collect::<Result<Vec<Stored>, Error>>()?;
        let mut seen = Seen::new(&here, &archive.lines);
        let mut new = Vec::new();
        for line in unknown(job, &here, &archive.lines)? {
            let mut row = line.row.clone();
            row.seen = seen.here(row.seen);
            let (position, again) = put(&mut transaction, job, &row, &line.recorded_at).await?;
            seen.appended(line);
            if here.is_empty() && position != line.position {
                return Ok(None);
            }
            if !again {
                new.push(told(position, &row.kind));
            }
        }
        transaction.commit().await?;
        lent.give_back();
        self.tell();
        Ok(Some(Merged {
            job: job.clone(),
            title: archive.title.clone(),
            begun: here.is_empty(),
            already: archive.lines.len() - new.len(),
            apart: apart(&here, archive, !new.is_empty()),
            new,
            photos,
        }))
    }
}

/// The entries here that the other copy does not have, where it brought some that were not here.
fn apart<R>(here: &[Stored], archive: &Archive<R>, came: bool) -> Vec<Told> {
    let there = by_id(&archive.lines);
    let apart = here
        .iter()
        .filter(|line| came && !there.contains_key(line.row.id.as_str()));
    apart
        .map(|line| told(line.position, &line.row.kind))
        .collect()
}

fn told(position: u64, kind: &str) -> Told {
    Told {
        position,
        kind: kind.to_owned(),
    }
}

fn by_id(lines: &[Stored]) -> HashMap<&str, &Stored> {
    let named = lines.iter().map(|line| (line.row.id.as_str(), line));
    named.collect()
}

/// Whether two rows say the same: what was appended twice by its id is compared in the same way.
fn same(a: &Stored, b: &Stored) -> bool {
    (&a.row.kind, a.row.body_version, &a.row.body) == (&b.row.kind, b.row.body_version, &b.row.body)
}

/// The lines that are new here, or why the two cannot be copies of one job.
fn unknown<'a>(
    job: &JobId,
    here: &[Stored],
    there: &'a [Stored],
) -> Result<Vec<&'a Stored>, Refused> {
    let known = by_id(here);
    let (mut new, mut differs) = (Vec::new(), Vec::new());
    if let (Some(here), Some(there)) = (here.first(), there.first())
        && here.row.id != there.row.id
    {
        return Err(Refused::OtherJob { job: job.clone() });
    }
    for line in there {
        match known.get(line.row.id.as_str()) {
            None => new.push(line),
            Some(here) if same(here, line) => {}
            Some(here) => differs.push((line.row.id.clone(), here.position, line.position)),
        }
    }
    if differs.is_empty() {
        return Ok(new);
    }
    Err(Refused::Differs {
        job: job.clone(),
        entries: differs,
    })
}

/// How much of the journal here an author of the other copy has certainly seen.
///
/// That author was looking at the first positions of the other journal. Of the journal here counts as
/// seen what stands before the first entry that was not among them.
struct Seen<'a> {
    there: BTreeMap<&'a str, u64>,
    /// For each position here, the furthest position there up to it; none that can be seen from the
    /// first entry on that is not there.
    furthest: Vec<u64>,
}

impl<'a> Seen<'a> {
    fn new(here: &[Stored], there: &'a [Stored]) -> Self {
        let there = there
            .iter()
            .map(|line| (line.row.id.as_str(), line.position));
        let mut seen = Self {
            there: there.collect(),
            furthest: Vec::new(),
        };
        for line in here {
            seen.appended(line);
        }
        seen
    }

    fn appended(&mut self, line: &Stored) {
        let there = self.there.get(line.row.id.as_str());
        let there = there.copied().unwrap_or(u64::MAX);
        let before = self.furthest.last().copied().unwrap_or(0);
        self.furthest.push(before.max(there));
    }

    fn here(&self, seen: i64) -> i64 {
        let seen = seen.unsigned_abs();
        let count = self.furthest.partition_point(|there| *there <= seen);
        i64::try_from(count).unwrap_or(i64::MAX)
    }
}
