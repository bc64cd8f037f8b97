//! The bench over real HTTP, on a port of its own.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests are tests, which the lint cannot see"
)]

mod attacks;
mod bench;
mod diagnose;
mod driveline;
mod journey;
mod lay;
mod pages;
mod photos;
mod plan;
mod safety;
mod seals;
mod service;
mod teardown;
mod tools;
mod usual;
mod water;
