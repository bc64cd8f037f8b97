//! What a person may do.

use jiff::ZonedDateTime;

use crate::entry::{Body, EntryId};

/// One act, as asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Act {
    /// Put this on record.
    Record(Body),
    /// Put on record what happened earlier, as a job file tells it. It has happened, so only what
    /// cannot have been is refused. Without a time, it is the time of the telling.
    Recount(Body, Option<ZonedDateTime>),
    /// Withdraw the last act that counts.
    Undo,
    /// Restore what was undone last.
    Redo,
}

/// Who, when and with what: all that `decide` may not find out for itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Stamp {
    /// The id of the entry to be, made by the client.
    pub id: EntryId,
    /// The time of the act, with the person's zone.
    pub now: ZonedDateTime,
    /// The device it was done on.
    pub device: String,
    /// The person; empty when nobody said.
    pub who: String,
    /// The position its author was looking at; that of the job where nothing was looked at, as by a
    /// file or a command.
    pub seen: Option<u64>,
}
