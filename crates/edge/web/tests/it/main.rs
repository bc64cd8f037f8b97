//! The bench over real HTTP, on a port of its own.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests are tests, which the lint cannot see"
)]

mod archive;
mod attacks;
mod bench;
mod diagnose;
mod driveline;
mod journey;
mod label;
mod lay;
mod live;
mod numbers;
mod pages;
mod photos;
mod plan;
mod safety;
mod seals;
mod service;
mod strangers;
mod teardown;
mod tls;
mod tools;
mod usual;
mod water;
