//! The program as a person meets it: run, and judged by what it prints and how it ends.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests are tests, which the lint cannot see"
)]

mod answers;
mod backup;
mod bench;
mod browser;
mod diagnose;
mod document;
mod fits;
mod inspect;
mod journeys;
mod logs;
mod readme;
mod refusals;
mod seals;
mod tools;
mod waiting;
mod water;
