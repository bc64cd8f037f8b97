//! What the journal's safety rests on, in each database: made and checked on every connection.

use sqlx::AnyConnection;

use super::address::Kind;
use crate::Error;

/// A setting of a connection: how it is made, how it reads back, what it must be.
struct Setting {
    name: &'static str,
    /// Nothing where reading makes it too, or where it is the server's own.
    set: &'static str,
    read: &'static str,
    wanted: &'static str,
    /// Goes on from “and must be so”.
    why: &'static str,
}

const LOST: &str = "or an answered act could be lost";
const WAIT: &str = "or the bench could wait for ever";
const TOGETHER: &str = "or acts of two devices could not be told apart";

/// The lock's patience comes first, because the others may have to wait.
const SQLITE: [Setting; 4] = [
    Setting {
        name: "busy_timeout",
        set: "PRAGMA busy_timeout = 5000",
        read: "SELECT CAST(timeout AS TEXT) FROM pragma_busy_timeout",
        wanted: "5000",
        why: WAIT,
    },
    Setting {
        name: "journal_mode",
        set: "PRAGMA journal_mode = WAL",
        read: "SELECT CAST(journal_mode AS TEXT) FROM pragma_journal_mode",
        wanted: "wal",
        why: LOST,
    },
    Setting {
        // FULL: in WAL a weaker one may lose the last commits when the power fails.
        name: "synchronous",
        set: "PRAGMA synchronous = FULL",
        read: "SELECT CAST(synchronous AS TEXT) FROM pragma_synchronous",
        wanted: "2",
        why: LOST,
    },
    Setting {
        name: "foreign_keys",
        set: "PRAGMA foreign_keys = ON",
        read: "SELECT CAST(foreign_keys AS TEXT) FROM pragma_foreign_keys",
        wanted: "1",
        why: LOST,
    },
];

const fn of_server(
    name: &'static str,
    read: &'static str,
    wanted: &'static str,
    why: &'static str,
) -> Setting {
    Setting {
        name,
        set: "",
        read,
        wanted,
        why,
    }
}

/// `set_config` answers with what then holds.
const POSTGRES: [Setting; 10] = [
    of_server(
        // The oldest that is still mended by its makers.
        "server_version",
        "SELECT CASE WHEN current_setting('server_version_num')::bigint >= 150000 \
         THEN '15 or newer' ELSE current_setting('server_version') END",
        "15 or newer",
        "because older ones are not tested here",
    ),
    of_server(
        "server_encoding",
        "SELECT current_setting('server_encoding')",
        "UTF8",
        "or not every letter could be kept",
    ),
    of_server("fsync", "SELECT current_setting('fsync')", "on", LOST),
    of_server(
        "full_page_writes",
        "SELECT current_setting('full_page_writes')",
        "on",
        LOST,
    ),
    of_server(
        // A copy of another server that only reads says “on”.
        "transaction_read_only",
        "SELECT current_setting('transaction_read_only')",
        "off",
        "or nothing could be recorded",
    ),
    of_server(
        // A server may be told not to wait for its disk; for us it does.
        "synchronous_commit",
        "SELECT set_config('synchronous_commit', 'on', false)",
        "on",
        LOST,
    ),
    of_server(
        // What is read after the wait for a job's lock must be what is there then.
        "default_transaction_isolation",
        "SELECT set_config('default_transaction_isolation', 'read committed', false)",
        "read committed",
        TOGETHER,
    ),
    of_server(
        "lock_timeout",
        "SELECT set_config('lock_timeout', '5s', false)",
        "5s",
        WAIT,
    ),
    of_server(
        // Shorter than a bench waits for its store, so that the server's reason is the one seen.
        "statement_timeout",
        "SELECT set_config('statement_timeout', '15s', false)",
        "15s",
        WAIT,
    ),
    of_server(
        // A bench that lost the network holds its job no longer than this.
        "idle_in_transaction_session_timeout",
        "SELECT set_config('idle_in_transaction_session_timeout', '15s', false)",
        "15s",
        WAIT,
    ),
];

/// Makes the settings and refuses a connection that does not keep them.
pub(crate) async fn settle(kind: Kind, connection: &mut AnyConnection) -> Result<(), Error> {
    let (settings, way_out) = match kind {
        Kind::Sqlite => (&SQLITE[..], "Keep the store in a file on a local disk."),
        Kind::Postgres => (
            &POSTGRES[..],
            "Have the server set so, or keep the store elsewhere.",
        ),
    };
    for setting in settings {
        if !setting.set.is_empty() {
            sqlx::query(setting.set).execute(&mut *connection).await?;
        }
        let found: String = sqlx::query_scalar(setting.read)
            .fetch_one(&mut *connection)
            .await?;
        if found != setting.wanted {
            return Err(Error::Setting {
                name: setting.name,
                wanted: setting.wanted,
                found,
                why: setting.why,
                way_out,
            });
        }
    }
    Ok(())
}
