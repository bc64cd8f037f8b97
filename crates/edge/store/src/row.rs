//! Between an entry and its row.

use jiff::fmt::temporal::DateTimeParser;
use jiff::tz::OffsetConflict;
use sqlx::Row as _;
use sqlx::any::AnyRow;
use workshop::entry::{Entry, EntryId, NewEntry};

use crate::Error;
use crate::body::{self, Encoded};

/// A country may change its clock after the entry was written; the moment stays what it was.
pub(crate) const TIMES: DateTimeParser =
    DateTimeParser::new().offset_conflict(OffsetConflict::AlwaysOffset);

/// An entry in the types the database has, before its position and time are known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Row {
    pub(crate) id: EntryId,
    pub(crate) seen: i64,
    pub(crate) happened_at: String,
    pub(crate) device: String,
    pub(crate) who: String,
    pub(crate) program: String,
    pub(crate) kind: String,
    pub(crate) body_version: i64,
    pub(crate) body: String,
}

impl Row {
    /// Writes the entry as a row, and refuses what would not read back as the same entry.
    pub(crate) fn of(entry: &NewEntry) -> Result<Self, Error> {
        let unwritable = |why: String| Error::Unwritable {
            id: entry.id.clone(),
            why,
        };
        let Encoded {
            kind,
            version,
            json,
        } = body::encode(&entry.body).map_err(|cause| unwritable(cause.to_string()))?;
        let row = Self {
            id: entry.id.clone(),
            seen: i64::try_from(entry.seen).map_err(|cause| unwritable(cause.to_string()))?,
            happened_at: entry.happened_at.to_string(),
            device: entry.device.clone(),
            who: entry.who.clone(),
            program: entry.program.clone(),
            kind,
            body_version: i64::from(version),
            body: json,
        };
        // SQLite would keep it; PostgreSQL has no such text. In JSON it is written as an escape.
        let texts = [&row.device, &row.who, &row.program, &row.kind, &row.body];
        if texts.iter().any(|text| text.contains('\0')) {
            return Err(unwritable("a zero character in a text".to_owned()));
        }
        match row.read() {
            Ok(read) if read == *entry => Ok(row),
            Ok(_) => Err(unwritable("it reads back as something else".to_owned())),
            Err((column, why)) => Err(unwritable(format!("{column}: {why}"))),
        }
    }

    /// The entry, or the column that cannot be read and why.
    fn read(&self) -> Result<NewEntry, (&'static str, String)> {
        let version = u32::try_from(self.body_version)
            .map_err(|cause| ("body_version", cause.to_string()))?;
        Ok(NewEntry {
            id: self.id.clone(),
            seen: u64::try_from(self.seen).map_err(|cause| ("seen", cause.to_string()))?,
            happened_at: TIMES
                .parse_zoned_datetime(&self.happened_at)
                .map_err(|cause| ("happened_at", cause.to_string()))?,
            device: self.device.clone(),
            who: self.who.clone(),
            program: self.program.clone(),
            body: body::decode(&self.kind, version, &self.body)
                .map_err(|cause| ("body", cause.to_string()))?,
        })
    }
}

/// A row as it stands in the table or in an archive: its texts are not touched.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Stored {
    pub(crate) position: u64,
    pub(crate) recorded_at: String,
    pub(crate) row: Row,
}

impl Stored {
    /// The entry, or the column that cannot be read and why.
    pub(crate) fn entry(&self) -> Result<Entry, (&'static str, String)> {
        Ok(Entry {
            position: self.position,
            recorded_at: self
                .recorded_at
                .parse()
                .map_err(|cause: jiff::Error| ("recorded_at", cause.to_string()))?,
            new: self.row.read()?,
        })
    }
}

/// Reads a stored row of [`crate::store`]'s list of columns.
pub(crate) fn entry(stored: &AnyRow) -> Result<Entry, Error> {
    Ok(read(stored)?.1)
}

/// The row as it stands, and what it says.
pub(crate) fn read(stored: &AnyRow) -> Result<(Stored, Entry), Error> {
    let job: String = stored.try_get("job")?;
    let position: i64 = stored.try_get("position")?;
    let damaged = |(column, why): (&'static str, String)| Error::Damaged {
        table: "entry",
        column,
        job: job.clone(),
        position,
        why,
    };
    let text = |column: &'static str| {
        let read: Result<String, _> = stored.try_get(column);
        read.map_err(|cause| damaged((column, cause.to_string())))
    };
    let number = |column: &'static str| {
        let read: Result<i64, _> = stored.try_get(column);
        read.map_err(|cause| damaged((column, cause.to_string())))
    };
    let id = EntryId::new(&text("id")?).map_err(|cause| damaged(("id", cause.to_string())))?;
    let row = Row {
        id,
        seen: number("seen")?,
        happened_at: text("happened_at")?,
        device: text("device")?,
        who: text("who")?,
        program: text("program")?,
        kind: text("kind")?,
        body_version: number("body_version")?,
        body: text("body")?,
    };
    let stored = Stored {
        position: u64::try_from(position)
            .map_err(|cause| damaged(("position", cause.to_string())))?,
        recorded_at: text("recorded_at")?,
        row,
    };
    let entry = stored.entry().map_err(damaged)?;
    Ok((stored, entry))
}
