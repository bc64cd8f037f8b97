//! The store through its public face.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod bench;
mod choose;
mod diagnose;
mod fits;
mod fixtures;
mod inspect;
mod kill;
mod kill_photos;
mod photos;
mod schema_2;
mod seals;
mod sqlite;
mod store;
mod tools;
mod water;
mod work;
