//! The pages and drawings, looked at from outside.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod assemble;
mod choose;
mod devices;
mod diagnose;
mod drawing;
mod label;
mod photos;
mod seal;
mod service;
mod text;
mod water;
