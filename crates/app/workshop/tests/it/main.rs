//! The job through its public face. All data are invented.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod again;
mod around;
mod assemble;
mod audit;
mod decide;
mod draft;
mod edit;
mod fits;
mod fold;
mod inspect;
mod journal;
mod judge;
mod reading;
mod seals;
mod timetable;
mod tools;
mod torque;
mod walk;
mod why;
mod work;
