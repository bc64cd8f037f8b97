//! The job through its public face. All data are invented.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod again;
mod align;
mod around;
mod assemble;
mod audit;
mod chosen;
mod decide;
mod draft;
mod edit;
mod finding;

mod fits;
mod fold;
mod found;
mod inspect;
mod journal;
mod judge;
mod photos;
mod reading;
mod seals;
mod supplies;
mod timetable;
mod tools;
mod torque;
mod trialled;
mod usual;
mod walk;
mod water;
mod why;
mod work;
