//! Opening the database: the settings of every connection, and the tables.

pub(crate) mod address;
pub(crate) mod lent;
mod setting;

use std::future::Future;
use std::time::{Duration, Instant};

use sqlx::any::AnyPoolOptions;
use sqlx::migrate::{MigrateError, Migration, Migrator};
use sqlx::{AnyConnection, AnyPool, AssertSqlSafe, ConnectOptions, Connection, SqlSafeStr as _};

use crate::{Error, error};
use address::Kind;
use setting::settle;

static MIGRATIONS: Migrator = sqlx::migrate!();

/// A bench has a few devices; `SQLite` lets one write at a time, and a server is shared with others.
const MOST_CONNECTIONS: u32 = 5;
/// Longer than a connection waits for a lock, so that the lock's error is the one seen.
const PATIENCE: Duration = Duration::from_secs(10);
/// Longer than a server's own patience with a statement; beyond it nobody answers.
const ANSWER: Duration = Duration::from_secs(20);
/// A connection that does not answer within this is given up: behind a cut network it never would.
const ALIVE: Duration = Duration::from_secs(2);

/// From one try to open to the next.
const PAUSE: Duration = Duration::from_millis(20);

/// Opens or makes the database at `url` and brings its tables up to date. Another program that makes
/// the same one in the same moment may hold it where a connection's own patience does not reach.
pub(crate) async fn open(url: &str) -> Result<(Kind, AnyPool), Error> {
    let began = Instant::now();
    loop {
        match in_time(opened(url)).await {
            Err(error) if held(&error) && began.elapsed() < PATIENCE => {
                tokio::time::sleep(PAUSE).await;
            }
            done => return done,
        }
    }
}

/// Gives up when the store does not answer: a network that is cut says nothing.
pub(crate) async fn in_time<T>(work: impl Future<Output = Result<T, Error>>) -> Result<T, Error> {
    let answer = tokio::time::timeout(ANSWER, work).await;
    answer.unwrap_or(Err(Error::Database(sqlx::Error::PoolTimedOut)))
}

/// Whether the database was locked by somebody else.
fn held(error: &Error) -> bool {
    match error {
        Error::Held => true,
        Error::Migration(
            MigrateError::Execute(error) | MigrateError::ExecuteMigration(error, _),
        ) => error::is_held(error),
        _ => false,
    }
}

async fn opened(url: &str) -> Result<(Kind, AnyPool), Error> {
    let (kind, options) = address::read(url)?;
    sqlx::any::install_default_drivers();
    // The pool retries a refused connection until its patience ends; this one says why at once.
    let mut first = options.connect().await?;
    settle(kind, &mut first).await?;
    first.close().await?;

    let mut pool = AnyPoolOptions::new()
        .max_connections(MOST_CONNECTIONS)
        .acquire_timeout(PATIENCE)
        .after_connect(move |connection, _| {
            Box::pin(async move {
                let settled = settle(kind, connection).await;
                settled.map_err(|error| sqlx::Error::Configuration(error.into()))
            })
        });
    if kind == Kind::Postgres {
        pool = pool
            .before_acquire(|connection, _| Box::pin(alive(connection)))
            .after_release(|connection, _| Box::pin(alive(connection)))
            .test_before_acquire(false);
    }
    let pool = pool.connect_with(options).await?;
    migrate(kind, &pool).await?;
    Ok((kind, pool))
}

/// The pool's own test waits without an end, and holds the connection's place as it does.
async fn alive(connection: &mut AnyConnection) -> Result<bool, sqlx::Error> {
    let answer = tokio::time::timeout(ALIVE, connection.ping()).await;
    answer
        .unwrap_or(Err(sqlx::Error::PoolTimedOut))
        .map(|()| true)
}

async fn migrate(kind: Kind, pool: &AnyPool) -> Result<(), Error> {
    let migrations = migrations(kind);
    let mut done = migrations.run(pool).await;
    for _ in migrations.iter() {
        let failed = matches!(
            done,
            Err(MigrateError::Execute(_) | MigrateError::ExecuteMigration(..))
        );
        if failed && kind == Kind::Sqlite {
            // Another program may have made the tables in the same moment, one change at a time;
            // then there is nothing left to do. A server lets one wait for the other.
            done = migrations.run(pool).await;
        }
    }
    done.map_err(|error| match error {
        MigrateError::VersionMissing(found) => Error::NewerDatabase {
            found,
            known: migrations.iter().map(|m| m.version).max().unwrap_or(0),
        },
        MigrateError::Execute(cause) | MigrateError::ExecuteMigration(cause, _)
            if error::is_told(&cause) =>
        {
            cause.into()
        }
        other => Error::Migration(other),
    })
}

/// The tables in the words of the database: the type of bytes is the one that differs. A server's
/// checksums are those of the words it was given.
fn migrations(kind: Kind) -> Migrator {
    let mut all: Vec<Migration> = MIGRATIONS.iter().cloned().collect();
    if kind == Kind::Postgres {
        for one in &mut all {
            let sql = one.sql.as_str().replace("BLOB", "BYTEA");
            *one = Migration::new(
                one.version,
                one.description.clone(),
                one.migration_type,
                AssertSqlSafe(sql).into_sql_str(),
                one.no_tx,
            );
        }
    }
    Migrator::with_migrations(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn law_every_connection_of_the_pool_keeps_the_settings() {
        let folder = tempfile::tempdir().unwrap();
        let url = format!("sqlite:{}", folder.path().join("store").display());
        let (_, pool) = open(&url).await.unwrap();
        let mut held = Vec::new();
        for _ in 0..MOST_CONNECTIONS {
            held.push(pool.acquire().await.unwrap());
        }
        assert_eq!(pool.num_idle(), 0, "all of them are held at once");
        for connection in &mut held {
            let row = |name: &'static str| sqlx::query_scalar::<_, String>(name);
            for (name, wanted) in [
                (
                    "SELECT CAST(journal_mode AS TEXT) FROM pragma_journal_mode",
                    "wal",
                ),
                (
                    "SELECT CAST(synchronous AS TEXT) FROM pragma_synchronous",
                    "2",
                ),
                (
                    "SELECT CAST(timeout AS TEXT) FROM pragma_busy_timeout",
                    "5000",
                ),
                (
                    "SELECT CAST(foreign_keys AS TEXT) FROM pragma_foreign_keys",
                    "1",
                ),
            ] {
                let found = row(name).fetch_one(&mut **connection).await.unwrap();
                assert_eq!(found, wanted, "{name}");
            }
        }
    }

    #[tokio::test]
    async fn law_a_database_that_keeps_no_log_is_refused() {
        let refused = open("sqlite::memory:").await.unwrap_err();
        assert_eq!(
            refused.to_string(),
            "The store’s “journal_mode” is memory and must be wal, or an answered act could be \
             lost. Keep the store in a file on a local disk."
        );
    }

    #[tokio::test]
    async fn law_a_file_is_named_as_it_stands() {
        let folder = tempfile::tempdir().unwrap();
        for name in ["a b", "50%", "what?", "no#1", "Übung", "%41"] {
            let file = folder.path().join(name);
            let (_, pool) = open(&format!("sqlite:{}", file.display())).await.unwrap();
            pool.close().await;
            assert!(file.exists(), "{name}");
        }
        assert_eq!(folder.path().read_dir().unwrap().count(), 6);
    }

    #[test]
    fn law_a_server_gets_the_same_tables_each_time() {
        let (one, two) = (migrations(Kind::Postgres), migrations(Kind::Postgres));
        for (one, two) in one.iter().zip(two.iter()) {
            assert_eq!(one.checksum, two.checksum);
            assert!(!one.sql.as_str().contains("BLOB"));
        }
        let (file, server) = (migrations(Kind::Sqlite), migrations(Kind::Postgres));
        assert_eq!(file.iter().count(), server.iter().count());
        // A file keeps the checksums that earlier programs wrote into it.
        for (file, first) in file.iter().zip(MIGRATIONS.iter()) {
            assert_eq!(file.checksum, first.checksum);
        }
    }
}
