//! Opening the database: the settings of every connection, and the tables.

use std::str::FromStr;
use std::time::{Duration, Instant};

use sqlx::any::{AnyConnectOptions, AnyPoolOptions};
use sqlx::migrate::{MigrateError, Migrator};
use sqlx::{AnyConnection, AnyPool, ConnectOptions, Connection};

use crate::Error;

static MIGRATIONS: Migrator = sqlx::migrate!();

/// A bench has a few devices; `SQLite` lets one write at a time.
const MOST_CONNECTIONS: u32 = 5;
/// Longer than a connection waits for a lock, so that the lock's error is the one seen.
const PATIENCE: Duration = Duration::from_secs(10);

/// From one try to open to the next.
const PAUSE: Duration = Duration::from_millis(20);

/// A setting of a connection, how it is made and how it reads back.
struct Setting {
    name: &'static str,
    set: &'static str,
    read: &'static str,
    wanted: &'static str,
}

/// The lock's patience comes first, because the others may have to wait.
const SETTINGS: [Setting; 4] = [
    Setting {
        name: "busy_timeout",
        set: "PRAGMA busy_timeout = 5000",
        read: "SELECT CAST(timeout AS TEXT) FROM pragma_busy_timeout",
        wanted: "5000",
    },
    Setting {
        name: "journal_mode",
        set: "PRAGMA journal_mode = WAL",
        read: "SELECT CAST(journal_mode AS TEXT) FROM pragma_journal_mode",
        wanted: "wal",
    },
    Setting {
        // FULL: in WAL a weaker one may lose the last commits when the power fails.
        name: "synchronous",
        set: "PRAGMA synchronous = FULL",
        read: "SELECT CAST(synchronous AS TEXT) FROM pragma_synchronous",
        wanted: "2",
    },
    Setting {
        name: "foreign_keys",
        set: "PRAGMA foreign_keys = ON",
        read: "SELECT CAST(foreign_keys AS TEXT) FROM pragma_foreign_keys",
        wanted: "1",
    },
];

/// Opens or makes the database at `url` and brings its tables up to date. Another program that makes
/// the same file in the same moment may hold it where a connection's own patience does not reach.
pub(crate) async fn open(url: &str) -> Result<AnyPool, Error> {
    let began = Instant::now();
    loop {
        match opened(url).await {
            Err(error) if busy(&error) && began.elapsed() < PATIENCE => {
                tokio::time::sleep(PAUSE).await;
            }
            done => return done,
        }
    }
}

/// Whether the database was locked by somebody else: `SQLITE_BUSY`, in any of its forms.
fn busy(error: &Error) -> bool {
    let (Error::Database(error)
    | Error::Migration(MigrateError::Execute(error) | MigrateError::ExecuteMigration(error, _))) =
        error
    else {
        return false;
    };
    let Some(cause) = error.as_database_error() else {
        return false;
    };
    let code = cause.code().and_then(|code| code.parse::<u32>().ok());
    code.is_some_and(|code| code & 0xff == 5)
}

async fn opened(url: &str) -> Result<AnyPool, Error> {
    let options = address(url)?;
    sqlx::any::install_default_drivers();
    // The pool retries a refused connection until its patience ends; this one says why at once.
    let mut first = options.connect().await?;
    settle(&mut first).await?;
    first.close().await?;

    let pool = AnyPoolOptions::new()
        .max_connections(MOST_CONNECTIONS)
        .acquire_timeout(PATIENCE)
        .after_connect(|connection, _| {
            Box::pin(async move {
                let settled = settle(connection).await;
                settled.map_err(|error| sqlx::Error::Configuration(error.into()))
            })
        })
        .connect_with(options)
        .await?;
    migrate(&pool).await?;
    Ok(pool)
}

/// The file's name is taken as it stands, whatever its characters mean in an address.
fn address(url: &str) -> Result<AnyConnectOptions, Error> {
    let bad = || Error::BadAddress {
        url: url.to_owned(),
    };
    let file = url.strip_prefix("sqlite:").ok_or_else(bad)?;
    if file.is_empty() {
        return Err(bad());
    }
    let file = file
        .replace('%', "%25")
        .replace('?', "%3F")
        .replace('#', "%23");
    AnyConnectOptions::from_str(&format!("sqlite:{file}?mode=rwc")).map_err(|_| bad())
}

/// Makes the settings and refuses a connection that does not keep them.
async fn settle(connection: &mut AnyConnection) -> Result<(), Error> {
    for setting in SETTINGS {
        sqlx::query(setting.set).execute(&mut *connection).await?;
        let found: String = sqlx::query_scalar(setting.read)
            .fetch_one(&mut *connection)
            .await?;
        if found != setting.wanted {
            return Err(Error::Setting {
                name: setting.name,
                wanted: setting.wanted.to_owned(),
                found,
            });
        }
    }
    Ok(())
}

async fn migrate(pool: &AnyPool) -> Result<(), Error> {
    let mut done = MIGRATIONS.run(pool).await;
    for _ in MIGRATIONS.iter() {
        if let Err(MigrateError::Execute(_) | MigrateError::ExecuteMigration(..)) = done {
            // Another program may have made the tables in the same moment, one change at a time;
            // then there is nothing left to do.
            done = MIGRATIONS.run(pool).await;
        }
    }
    done.map_err(|error| match error {
        MigrateError::VersionMissing(found) => Error::NewerDatabase {
            found,
            known: MIGRATIONS.iter().map(|m| m.version).max().unwrap_or(0),
        },
        other => Error::Migration(other),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn law_every_connection_of_the_pool_keeps_the_settings() {
        let folder = tempfile::tempdir().unwrap();
        let url = format!("sqlite:{}", folder.path().join("store").display());
        let pool = open(&url).await.unwrap();
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
            let pool = open(&format!("sqlite:{}", file.display())).await.unwrap();
            pool.close().await;
            assert!(file.exists(), "{name}");
        }
        assert_eq!(folder.path().read_dir().unwrap().count(), 6);
    }

    #[tokio::test]
    async fn law_what_is_no_file_is_no_address() {
        for url in ["", "store.sqlite", "sqlite:", "postgres://bench/journal"] {
            let refused = open(url).await.unwrap_err();
            assert_eq!(
                refused.to_string(),
                format!("“{url}” is no address of a store. Write sqlite: and the path of a file.")
            );
        }
    }
}
