//! The program as a person meets it: run, and judged by what it prints and how it ends.

#![expect(
    clippy::unwrap_used,
    reason = "helpers of tests are tests, which the lint cannot see"
)]

mod answers;
mod archive;
mod backup;
mod bench;
mod browser;
mod diagnose;
mod document;
mod fits;
mod inspect;
mod journeys;
mod load;
mod logs;
#[path = "../../../store/tests/it/postgres.rs"]
#[expect(dead_code, reason = "the tests of the store need more of it")]
mod postgres;
mod readme;
mod refusals;
mod seals;
mod tools;
mod two_benches;
mod waiting;
mod water;
