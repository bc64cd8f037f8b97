//! The job: entries, their fold, what an act does, and the answers drawn from it.
//!
//! Data flows one way. A person's [`act::Act`] goes through [`decide::decide`], which is strict, and
//! becomes [`entry::NewEntry`] values; the edge stores them; [`fold::fold`], which is total, turns
//! the stored entries into a [`job::Job`]; [`gap`] and [`walk`] answer questions about that job.
//! Nothing here reads a file, a clock or the environment.

pub mod act;
pub mod assemble;
pub mod audit;
pub mod choose;
pub mod crossing;
pub mod decide;
pub mod diagnose;
pub mod draft;
pub mod entry;
pub mod fits;
pub mod fold;
pub mod gap;
pub mod inspect;
pub mod job;
pub mod joints;
pub mod judge;
pub mod kin;
pub mod merge;
pub mod photos;
pub mod plan;
pub mod reading;
pub mod refusal;
pub mod seals;
pub mod sourced;
pub mod supplies;
pub mod tools;
pub mod torque;
pub mod upkeep;
pub mod usual;
pub mod walk;
pub mod water;
pub mod why;

/// The version written into every entry, so that a record says which program gave its advice.
pub const PROGRAM: &str = concat!("pumpwright ", env!("CARGO_PKG_VERSION"));
