//! The job through its public face. All data are invented.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod again;
mod align;
mod around;
mod assemble;
mod audit;
mod chosen;
mod crossing;
mod decide;
#[path = "../../../../domain/propulsion/tests/it/described.rs"]
mod described;
mod diagnosed;
mod draft;
mod edit;
mod effects_study;
mod faults_study;
mod finding;

mod fits;
mod fold;
mod found;
mod inspect;
mod journal;
mod judge;
mod kin;
mod photos;
mod reading;
mod seals;
mod served;
mod supplies;
mod timetable;
mod tools;
mod torque;
mod trialled;
#[path = "../../../../domain/propulsion/tests/it/truth/mod.rs"]
#[expect(dead_code, reason = "more is drawn than this crate asks")]
mod truth;
mod upkeep;
mod usual;
mod walk;
mod water;
mod why;
mod work;
