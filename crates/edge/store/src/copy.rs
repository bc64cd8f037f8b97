//! All rows of one store into an empty other one, whichever databases they are in.

use sqlx::any::AnyRow;
use sqlx::{AnyConnection, AssertSqlSafe, Row as _};
use tokio_stream::StreamExt as _;

use crate::connect::address::Kind;
use crate::connect::in_time;
use crate::store::places;
use crate::{Error, Store};

/// A column and what it holds.
#[derive(Clone, Copy)]
enum Column {
    Text(&'static str),
    Number(&'static str),
    Bytes(&'static str),
}

use Column::{Bytes, Number, Text};

struct Table {
    name: &'static str,
    columns: &'static [Column],
}

/// Every table, those that others refer to before them.
const TABLES: [Table; 4] = [
    table("job", &[Text("id")]),
    table(
        "entry",
        &[
            Text("id"),
            Text("job"),
            Number("position"),
            Number("seen"),
            Text("recorded_at"),
            Text("happened_at"),
            Text("device"),
            Text("who"),
            Text("program"),
            Text("kind"),
            Number("body_version"),
            Text("body"),
        ],
    ),
    table(
        "photo",
        &[
            Text("hash"),
            Text("thumb_hash"),
            Bytes("thumb"),
            Bytes("picture"),
        ],
    ),
    table(
        "device",
        &[
            Text("id"),
            Text("token_hash"),
            Text("name"),
            Text("paired_at"),
            Text("seen_at"),
            Text("removed_at"),
        ],
    ),
];

const fn table(name: &'static str, columns: &'static [Column]) -> Table {
    Table { name, columns }
}

impl Column {
    fn name(self) -> &'static str {
        match self {
            Text(name) | Number(name) | Bytes(name) => name,
        }
    }
}

impl Table {
    fn names(&self) -> String {
        let names: Vec<&str> = self.columns.iter().map(|column| column.name()).collect();
        names.join(", ")
    }

    fn select(&self) -> String {
        format!("SELECT {} FROM {}", self.names(), self.name)
    }

    fn insert(&self) -> String {
        let (names, places) = (self.names(), places(1, self.columns.len()));
        format!("INSERT INTO {} ({names}) VALUES ({places})", self.name)
    }
}

impl Store {
    /// Copies every row of another store, as it is at one moment, into this one, which must be empty:
    /// all or nothing, and each value as it stands.
    pub async fn fill_from(&self, from: &Self) -> Result<(), Error> {
        let mut source = match from.kind() {
            Kind::Sqlite => from.pool().begin().await?,
            Kind::Postgres => {
                let begin = "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY";
                let mut source = from.pool().begin_with(begin).await?;
                // Many pictures take longer than an act may.
                sqlx::query("SET LOCAL statement_timeout = 0")
                    .execute(&mut *source)
                    .await?;
                source
            }
        };
        let mut target = self.pool().begin().await?;
        if self.kind() == Kind::Postgres {
            // Nobody may begin a job between the look and the filling.
            for table in &TABLES {
                let lock = format!("LOCK TABLE {} IN ACCESS EXCLUSIVE MODE", table.name);
                sqlx::query(AssertSqlSafe(lock))
                    .execute(&mut *target)
                    .await?;
            }
        }
        for table in &TABLES {
            let any = sqlx::query(AssertSqlSafe(format!("{} LIMIT 1", table.select())));
            if any.fetch_optional(&mut *target).await?.is_some() {
                return Err(Error::NotEmpty);
            }
        }
        for table in &TABLES {
            copy(table, &mut source, &mut target).await?;
        }
        target.commit().await?;
        source.rollback().await?;
        Ok(())
    }
}

/// One row after the other, because a picture is large and there are many; each in time, because a whole
/// store may take any time and a silent network must still be noticed.
async fn copy(
    table: &Table,
    source: &mut AnyConnection,
    target: &mut AnyConnection,
) -> Result<(), Error> {
    let insert = table.insert();
    let mut rows = sqlx::query(AssertSqlSafe(table.select())).fetch(source);
    while let Some(row) = in_time(async { Ok(rows.next().await) }).await? {
        in_time(put(table, &insert, &row?, target)).await?;
    }
    Ok(())
}

async fn put(
    table: &Table,
    insert: &str,
    row: &AnyRow,
    target: &mut AnyConnection,
) -> Result<(), Error> {
    let mut query = sqlx::query(AssertSqlSafe(insert.to_owned()));
    for column in table.columns {
        query = match *column {
            Text(name) => query.bind(row.try_get::<Option<String>, _>(name)?),
            Number(name) => query.bind(row.try_get::<Option<i64>, _>(name)?),
            Bytes(name) => query.bind(row.try_get::<Option<Vec<u8>>, _>(name)?),
        };
    }
    query.execute(target).await?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[tokio::test]
    async fn law_no_table_and_no_column_is_left_behind() {
        let folder = tempfile::tempdir().unwrap();
        let url = format!("sqlite:{}", folder.path().join("store").display());
        let store = Store::open(&url).await.unwrap();
        let there: Vec<String> = sqlx::query_scalar(
            "SELECT t.name || '.' || c.name FROM sqlite_schema AS t, pragma_table_info(t.name) AS c \
             WHERE t.type = 'table' AND t.name NOT LIKE '\\_sqlx%' ESCAPE '\\' \
             AND t.name NOT LIKE 'sqlite%' ORDER BY 1",
        )
        .fetch_all(store.pool())
        .await
        .unwrap();
        let mut copied: Vec<String> = TABLES
            .iter()
            .flat_map(|table| {
                let columns = table.columns.iter();
                columns.map(|column| format!("{}.{}", table.name, column.name()))
            })
            .collect();
        copied.sort();
        assert_eq!(
            copied, there,
            "every table of the migrations has its line in TABLES"
        );
    }
}
