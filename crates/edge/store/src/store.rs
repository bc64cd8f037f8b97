//! Appending and reading the journal.

use jiff::Timestamp;
use sqlx::{AnyConnection, AnyPool, AssertSqlSafe, Connection as _, Row as _};
use tokio::sync::watch;
use workshop::act::{Act, Stamp};
use workshop::entry::{Body, Entry, JobId, NewEntry};
use workshop::merge;

use crate::body;
use crate::connect::address::Kind;
use crate::connect::lent::Lent;
use crate::connect::{self, in_time};
use crate::journal::Journals;
use crate::row::{self, Row};
use crate::{Error, error};

/// How often an append is tried when another one took the position.
pub(crate) const ATTEMPTS: u32 = 20;

/// A job's rows from a position on, as [`row::read`] reads them.
pub(crate) const ENTRIES: &str = "SELECT job, position, id, seen, recorded_at, happened_at, \
     device, who, program, kind, body_version, body FROM entry \
     WHERE job = $1 AND position >= $2 ORDER BY position";

/// The journal of every job. Clones share their connections.
#[derive(Clone, Debug)]
pub struct Store {
    kind: Kind,
    pool: AnyPool,
    pub(crate) journals: Journals,
    /// Told after each append of this process.
    grown: watch::Sender<()>,
}

/// A job in the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct JobLine {
    /// The job.
    pub id: JobId,
    /// Its title; its id when the title cannot be read here.
    pub title: String,
    /// The earlier job of the same pump.
    pub follows: Option<JobId>,
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
    /// Opens the store at `sqlite:FILE` and makes the file when there is none, or the one in the
    /// database at `postgres://NAME@HOST/DATABASE`.
    pub async fn open(url: &str) -> Result<Self, Error> {
        let (kind, pool) = connect::open(url).await?;
        let (grown, _) = watch::channel(());
        Ok(Self {
            kind,
            pool,
            journals: Journals::default(),
            grown,
        })
    }

    /// Wakes whenever this process appended to any job. What another process wrote on the same store
    /// is seen only by asking for the [`positions`](Self::positions).
    pub fn grown(&self) -> watch::Receiver<()> {
        self.grown.subscribe()
    }

    /// The last position of each of these jobs; a job that is not there is left out.
    pub async fn positions(&self, jobs: &[JobId]) -> Result<Vec<(JobId, u64)>, Error> {
        if jobs.is_empty() {
            return Ok(Vec::new());
        }
        let statement = format!(
            "SELECT job, max(position) AS position FROM entry WHERE job IN ({}) GROUP BY job",
            places(1, jobs.len())
        );
        // Only numbers of places were put into the statement.
        let mut query = sqlx::query(AssertSqlSafe(statement));
        for job in jobs {
            query = query.bind(job.as_str());
        }
        let rows = in_time(async { Ok(query.fetch_all(&self.pool).await?) }).await?;
        rows.iter().map(last_position).collect()
    }

    /// The jobs, the one written last first.
    pub async fn jobs(&self) -> Result<Vec<JobLine>, Error> {
        let select = sqlx::query(
            "SELECT last.job, last.position, last.recorded_at, \
                    opened.kind, opened.body_version, opened.body \
             FROM entry AS last \
             LEFT JOIN entry AS opened \
               ON opened.job = last.job AND opened.position = \
                  (SELECT min(position) FROM entry WHERE job = last.job AND kind = 'job-opened') \
             WHERE last.position = (SELECT max(position) FROM entry WHERE job = last.job)",
        );
        let rows = in_time(async { Ok(select.fetch_all(&self.pool).await?) }).await?;
        let mut jobs = rows
            .iter()
            .map(job_line)
            .collect::<Result<Vec<JobLine>, Error>>()?;
        jobs.sort_by(|a, b| (b.recorded_at, &b.id).cmp(&(a.recorded_at, &a.id)));
        Ok(jobs)
    }

    /// The job's entries by position; none for a job that is not there.
    pub async fn entries(&self, job: &JobId) -> Result<Vec<Entry>, Error> {
        self.entries_from(job, 1).await
    }

    /// The job's entries by position, from this one on.
    pub(crate) async fn entries_from(&self, job: &JobId, from: u64) -> Result<Vec<Entry>, Error> {
        let select = sqlx::query(ENTRIES)
            .bind(job.as_str())
            .bind(i64::try_from(from).unwrap_or(i64::MAX));
        let rows = in_time(async { Ok(select.fetch_all(&self.pool).await?) }).await?;
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
            match in_time(self.append_once(job, &rows, recorded_at)).await {
                Err(Error::Database(error)) if error::is_collision(&error) => {}
                done => {
                    self.tell();
                    return done;
                }
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
        let mut lent = Lent::from(&self.pool).await?;
        let mut transaction = lent.connection.begin().await?;
        begin(&mut transaction, job).await?;
        let mut taken = Taken {
            positions: Vec::new(),
            again: true,
        };
        let recorded_at = recorded_at.to_string();
        for row in rows {
            let (position, again) = put(&mut transaction, job, row, &recorded_at).await?;
            taken.again &= again;
            taken.positions.push(position);
        }
        transaction.commit().await?;
        lent.give_back();
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
        let entries = self.journal(job).await?;
        if let Some(there) = entries.iter().find(|entry| entry.new.id == stamp.id) {
            return if merge::again(&entries, there, &act, &stamp) {
                Ok(Taken {
                    positions: vec![there.position],
                    again: true,
                })
            } else {
                Err(Error::IdTaken { id: stamp.id })
            };
        }
        let new = merge::decide_on(&entries, act, stamp)?;
        self.append(job, &new, recorded_at).await
    }

    /// Tells those who listen that a job has grown.
    pub(crate) fn tell(&self) {
        self.grown.send_replace(());
    }

    pub(crate) fn kind(&self) -> Kind {
        self.kind
    }

    pub(crate) fn pool(&self) -> &AnyPool {
        &self.pool
    }

    /// Waits for what is under way and closes the connections.
    pub async fn close(self) {
        self.pool.close().await;
    }
}

fn last_position(row: &sqlx::any::AnyRow) -> Result<(JobId, u64), Error> {
    let job: String = row.try_get("job")?;
    let position: i64 = row.try_get("position")?;
    let id = JobId::new(&job).map_err(|cause| Error::Damaged {
        table: "entry",
        column: "job",
        job: job.clone(),
        position,
        why: cause.to_string(),
    })?;
    Ok((id, position.unsigned_abs()))
}

/// So many places of a statement, from this number on: `$1, $2, $3`.
pub(crate) fn places(from: usize, many: usize) -> String {
    let places: Vec<String> = (from..from + many).map(|n| format!("${n}")).collect();
    places.join(", ")
}

/// Begins an append in this job. Written first, so that `SQLite` takes its lock for writing before anything is
/// read; and written again where it is there, so that `PostgreSQL` locks it: one append at a time in a job.
pub(crate) async fn begin(transaction: &mut AnyConnection, job: &JobId) -> Result<(), Error> {
    let insert = "INSERT INTO job (id) VALUES ($1) ON CONFLICT (id) DO UPDATE SET id = excluded.id";
    let insert = sqlx::query(insert).bind(job.as_str());
    insert.execute(transaction).await?;
    Ok(())
}

/// Appends one row, and tells its position; the earlier one, and that it was there, for a row that is
/// on record with the same content.
pub(crate) async fn put(
    transaction: &mut AnyConnection,
    job: &JobId,
    row: &Row,
    recorded_at: &str,
) -> Result<(u64, bool), Error> {
    let appended: Option<i64> = sqlx::query_scalar(
        "INSERT INTO entry (job, position, id, seen, recorded_at, happened_at, device, \
                            who, program, kind, body_version, body) \
         SELECT $1, coalesce(max(position), 0) + 1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11 \
         FROM entry WHERE job = $1 \
         ON CONFLICT (id) DO NOTHING RETURNING position",
    )
    .bind(job.as_str())
    .bind(row.id.as_str())
    .bind(row.seen)
    .bind(recorded_at)
    .bind(&row.happened_at)
    .bind(&row.device)
    .bind(&row.who)
    .bind(&row.program)
    .bind(&row.kind)
    .bind(row.body_version)
    .bind(&row.body)
    .fetch_optional(&mut *transaction)
    .await?;
    if let Some(position) = appended {
        return Ok((position.unsigned_abs(), false));
    }
    let earlier: Option<i64> = sqlx::query_scalar(
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
    let earlier = earlier.ok_or_else(|| Error::IdTaken { id: row.id.clone() })?;
    Ok((earlier.unsigned_abs(), true))
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
    let (title, follows) = opening(row).unwrap_or_else(|| (job.clone(), None));
    Ok(JobLine {
        id: JobId::new(&job).map_err(|cause| damaged("job", cause.to_string()))?,
        title,
        follows,
        entries: position.unsigned_abs(),
        recorded_at: recorded_at
            .parse()
            .map_err(|cause: jiff::Error| damaged("recorded_at", cause.to_string()))?,
    })
}

/// The title and the earlier job in the opening, where it can be read: one damaged job must not hide the others.
fn opening(row: &sqlx::any::AnyRow) -> Option<(String, Option<JobId>)> {
    let kind: String = row.try_get("kind").ok()?;
    let version: i64 = row.try_get("body_version").ok()?;
    let json: String = row.try_get("body").ok()?;
    match body::decode(&kind, u32::try_from(version).ok()?, &json) {
        Ok(Body::JobOpened { title, follows, .. }) => Some((title, follows)),
        _ => None,
    }
}
