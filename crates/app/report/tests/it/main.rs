//! The pages and drawings, looked at from outside.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod assemble;
mod choose;
mod diagnose;
mod drawing;
mod photos;
mod seal;
mod service;
mod text;
mod water;
