//! Opening the database: the settings of every connection, and the tables.

use std::str::FromStr;
use std::time::Duration;

use sqlx::any::{AnyConnectOptions, AnyPoolOptions};
use sqlx::migrate::{MigrateError, Migrator};
use sqlx::{AnyConnection, AnyPool, ConnectOptions, Connection};

use crate::Error;

static MIGRATIONS: Migrator = sqlx::migrate!();

/// A bench has a few devices; `SQLite` lets one write at a time.
const MOST_CONNECTIONS: u32 = 5;
/// Longer than a connection waits for a lock, so that the lock's error is the one seen.
const PATIENCE: Duration = Duration::from_secs(10);

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

/// Opens or makes the database at `url` and brings its tables up to date.
pub(crate) async fn open(url: &str) -> Result<AnyPool, Error> {
    let options = address(url)?;
    sqlx::any::install_default_drivers();
    // The pool retries a refused connection until its patience ends; this one says why at once.
    let mut first = options.connect().await?;
    settle(&mut first).await?;
    migrate(&mut first).await?;
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
    Ok(pool)
}

fn address(url: &str) -> Result<AnyConnectOptions, Error> {
    let bad = || Error::BadAddress {
        url: url.to_owned(),
    };
    let file = url.strip_prefix("sqlite:").ok_or_else(bad)?;
    if file.is_empty() || file.contains('?') {
        return Err(bad());
    }
    AnyConnectOptions::from_str(&format!("{url}?mode=rwc")).map_err(|_| bad())
}

/// Makes the settings and refuses a connection that does not keep them.
async fn settle(connection: &mut AnyConnection) -> Result<(), Error> {
    for setting in &SETTINGS {
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

async fn migrate(connection: &mut AnyConnection) -> Result<(), Error> {
    let mut done = MIGRATIONS.run(&mut *connection).await;
    if let Err(MigrateError::Execute(_) | MigrateError::ExecuteMigration(..)) = done {
        // Another program may have made the tables in the same moment; then there is nothing to do.
        done = MIGRATIONS.run(&mut *connection).await;
    }
    done.map_err(|error| match error {
        MigrateError::VersionMissing(found) => Error::NewerDatabase {
            found,
            known: MIGRATIONS.iter().map(|m| m.version).max().unwrap_or(0),
        },
        other => Error::Migration(other),
    })
}
