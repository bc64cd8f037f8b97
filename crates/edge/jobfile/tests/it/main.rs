//! Job files and cards, through the public face of the crate.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod bench;
mod blamed;
mod calendar;
mod card;
mod choose;
mod diagnose;
mod joints;
mod laws;
mod photos;
mod upkeep;
mod usual;
mod water;
