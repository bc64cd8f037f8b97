//! Appending and reading the journal.

use jiff::Timestamp;
use sqlx::{AnyPool, Row as _};
use workshop::act::{Act, Stamp};
use workshop::decide::decide;
use workshop::entry::{Body, Entry, JobId, NewEntry};
use workshop::fold::fold;

use crate::body;
use crate::row::{self, Row};
use crate::{Error, connect};

/// How often an append is tried when another one took the position.
const ATTEMPTS: u32 = 20;

/// The journal of every job. Clones share their connections.
#[derive(Clone, Debug)]
pub struct Store {
    pool: AnyPool,
}

/// A job in the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobLine {
    /// The job.
    pub id: JobId,
    /// Its title; its id when the title cannot be read here.
    pub title: String,
    /// How many entries it has.
    pub entries: u64,
    /// When the last one was recorded.
    pub recorded_at: Timestamp,
}

/// What became of the entries handed in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Taken {
    /// Their positions, in the order handed in.
    pub positions: Vec<u64>,
    /// All were on record already, with the same content.
    pub again: bool,
}

impl Store {
    /// Opens the store at `sqlite:FILE` and makes the file when there is none.
    pub async fn open(url: &str) -> Result<Self, Error> {
        let pool = connect::open(url).await?;
        Ok(Self { pool })
    }

    /// The jobs, the one written last first.
    pub async fn jobs(&self) -> Result<Vec<JobLine>, Error> {
        let rows = sqlx::query(
            "SELECT last.job, last.position, last.recorded_at, \
                    opened.kind, opened.body_version, opened.body \
             FROM entry AS last \
             LEFT JOIN entry AS opened \
               ON opened.job = last.job AND opened.position = \
                  (SELECT min(position) FROM entry WHERE job = last.job AND kind = 'job-opened') \
             WHERE last.position = (SELECT max(position) FROM entry WHERE job = last.job)",
        )
        .fetch_all(&self.pool)
        .await?;
        let mut jobs = rows
            .iter()
            .map(job_line)
            .collect::<Result<Vec<JobLine>, Error>>()?;
        jobs.sort_by(|a, b| (b.recorded_at, &b.id).cmp(&(a.recorded_at, &a.id)));
        Ok(jobs)
    }

    /// The job's entries by position; none for a job that is not there.
    pub async fn entries(&self, job: &JobId) -> Result<Vec<Entry>, Error> {
        let rows = sqlx::query(
            "SELECT job, position, id, seen, recorded_at, happened_at, device, who, program, \
                    kind, body_version, body \
             FROM entry WHERE job = $1 ORDER BY position",
        )
        .bind(job.as_str())
        .fetch_all(&self.pool)
        .await?;
        rows.iter().map(row::entry).collect()
    }

    /// Appends the entries, all or none. One that is there with the same content is not appended
    /// again: its position is told.
    pub async fn append(
        &self,
        job: &JobId,
        entries: &[NewEntry],
        recorded_at: Timestamp,
    ) -> Result<Taken, Error> {
        let rows = entries
            .iter()
            .map(Row::of)
            .collect::<Result<Vec<Row>, Error>>()?;
        for _ in 0..ATTEMPTS {
            match self.append_once(job, &rows, recorded_at).await {
                Err(Error::Database(error)) if is_collision(&error) => {}
                done => return done,
            }
        }
        Err(Error::Crowded { attempts: ATTEMPTS })
    }

    async fn append_once(
        &self,
        job: &JobId,
        rows: &[Row],
        recorded_at: Timestamp,
    ) -> Result<Taken, Error> {
        let mut transaction = self.pool.begin().await?;
        // Written first, so that SQLite takes its lock for writing before anything is read.
        sqlx::query("INSERT INTO job (id) VALUES ($1) ON CONFLICT (id) DO NOTHING")
            .bind(job.as_str())
            .execute(&mut *transaction)
            .await?;
        let mut taken = Taken {
            positions: Vec::new(),
            again: true,
        };
        for row in rows {
            let appended = sqlx::query_scalar(
                "INSERT INTO entry (job, position, id, seen, recorded_at, happened_at, device, \
                                    who, program, kind, body_version, body) \
                 SELECT $1, coalesce(max(position), 0) + 1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11 \
                 FROM entry WHERE job = $1 \
                 ON CONFLICT (id) DO NOTHING RETURNING position",
            )
            .bind(job.as_str())
            .bind(row.id.as_str())
            .bind(row.seen)
            .bind(recorded_at.to_string())
            .bind(&row.happened_at)
            .bind(&row.device)
            .bind(&row.who)
            .bind(&row.program)
            .bind(&row.kind)
            .bind(row.body_version)
            .bind(&row.body)
            .fetch_optional(&mut *transaction)
            .await?;
            let position: i64 = if let Some(position) = appended {
                taken.again = false;
                position
            } else {
                let earlier = sqlx::query_scalar(
                    "SELECT position FROM entry \
                     WHERE id = $1 AND job = $2 AND kind = $3 AND body_version = $4 AND body = $5",
                )
                .bind(row.id.as_str())
                .bind(job.as_str())
                .bind(&row.kind)
                .bind(row.body_version)
                .bind(&row.body)
                .fetch_optional(&mut *transaction)
                .await?;
                earlier.ok_or_else(|| Error::IdTaken { id: row.id.clone() })?
            };
            taken.positions.push(position.unsigned_abs());
        }
        transaction.commit().await?;
        Ok(taken)
    }

    /// Does an act: loads the job, decides, appends. The same act sent again is answered as before.
    pub async fn act(
        &self,
        job: &JobId,
        act: Act,
        stamp: Stamp,
        recorded_at: Timestamp,
    ) -> Result<Taken, Error> {
        let first = self.act_once(job, act.clone(), stamp.clone(), recorded_at);
        match first.await {
            // It may have come twice at once, and be decided on another state each time; now the
            // one that landed is on record to be compared with.
            Err(Error::IdTaken { .. }) => self.act_once(job, act, stamp, recorded_at).await,
            done => done,
        }
    }

    async fn act_once(
        &self,
        job: &JobId,
        act: Act,
        stamp: Stamp,
        recorded_at: Timestamp,
    ) -> Result<Taken, Error> {
        let entries = self.entries(job).await?;
        if let Some(there) = entries.iter().find(|entry| entry.new.id == stamp.id) {
            return again(&entries, there, act, stamp);
        }
        let new = decide(&fold(&entries).0, act, stamp)?;
        self.append(job, &new, recorded_at).await
    }

    pub(crate) fn pool(&self) -> &AnyPool {
        &self.pool
    }

    /// Waits for what is under way and closes the connections.
    pub async fn close(self) {
        self.pool.close().await;
    }
}

/// Decides once more on what the author of the stored entry saw; the content must be the same.
fn again(entries: &[Entry], there: &Entry, act: Act, stamp: Stamp) -> Result<Taken, Error> {
    let seen: Vec<Entry> = entries
        .iter()
        .filter(|entry| entry.position <= there.new.seen)
        .cloned()
        .collect();
    let id = stamp.id.clone();
    match decide(&fold(&seen).0, act, stamp).as_deref() {
        Ok([same]) if same.body == there.new.body => Ok(Taken {
            positions: vec![there.position],
            again: true,
        }),
        _ => Err(Error::IdTaken { id }),
    }
}

/// A second entry of the same id does not come here, so this is a position taken by another append.
fn is_collision(error: &sqlx::Error) -> bool {
    error
        .as_database_error()
        .is_some_and(sqlx::error::DatabaseError::is_unique_violation)
}

fn job_line(row: &sqlx::any::AnyRow) -> Result<JobLine, Error> {
    let job: String = row.try_get("job")?;
    let position: i64 = row.try_get("position")?;
    let damaged = |column: &'static str, why: String| Error::Damaged {
        table: "entry",
        column,
        job: job.clone(),
        position,
        why,
    };
    let recorded_at: String = row.try_get("recorded_at")?;
    Ok(JobLine {
        id: JobId::new(&job).map_err(|cause| damaged("job", cause.to_string()))?,
        title: title(row).unwrap_or_else(|| job.clone()),
        entries: position.unsigned_abs(),
        recorded_at: recorded_at
            .parse()
            .map_err(|cause: jiff::Error| damaged("recorded_at", cause.to_string()))?,
    })
}

/// The title in the opening, where it can be read: one damaged job must not hide the others.
fn title(row: &sqlx::any::AnyRow) -> Option<String> {
    let kind: String = row.try_get("kind").ok()?;
    let version: i64 = row.try_get("body_version").ok()?;
    let json: String = row.try_get("body").ok()?;
    match body::decode(&kind, u32::try_from(version).ok()?, &json) {
        Ok(Body::JobOpened { title, .. }) => Some(title),
        _ => None,
    }
}
