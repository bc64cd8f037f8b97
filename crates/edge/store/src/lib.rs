//! The journal in `SQLite` or `PostgreSQL`, and the one home of entry JSON.
//!
//! [`Store`] appends entries and reads them back; [`Store::act`] is the whole way of an act: load,
//! fold, decide, append. What an entry says travels as JSON, read and written by [`body`] alone.
//! No other crate knows SQL.
//!
//! The statements keep to what `SQLite` and `PostgreSQL` share and run through `sqlx`'s `Any`.

pub mod archive;
mod backup;
pub mod body;
mod connect;
mod copy;
mod device;
mod digest;
mod error;
mod journal;
mod photo;
mod row;
mod store;

pub use backup::Whole;
pub use connect::address::shown;
pub use device::Device;
pub use error::Error;
pub use photo::Size;
pub use store::{JobLine, Store, Taken};
