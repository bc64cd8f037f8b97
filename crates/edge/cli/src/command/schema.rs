//! `schema`: what other programs may expect of `--json`.

use clap::{Args, ValueEnum};

use store::archive;

use crate::document::schema_of;
use crate::error::Error;
use crate::{
    audit_json, choose_json, diagnose_json, measure_json, plan_json, say, service_json,
    teardown_json, torque_json, trial_json,
};

#[derive(Args, Debug)]
pub(crate) struct Schema {
    /// The command whose document it is
    #[arg(value_enum)]
    of: Of,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Of {
    Measure,
    Torque,
    Plan,
    Teardown,
    Audit,
    Trial,
    Choose,
    Diagnose,
    Service,
    /// The manifest of an archive
    ArchiveManifest,
    /// A line of the entries of an archive
    ArchiveEntry,
}

impl Schema {
    pub(crate) fn run(&self) -> Result<(), Error> {
        say::out(&match self.of {
            Of::Measure => measure_json::schema(),
            Of::Torque => torque_json::schema(),
            Of::Plan => plan_json::schema(),
            Of::Teardown => teardown_json::schema(),
            Of::Audit => audit_json::schema(),
            Of::Trial => trial_json::schema(),
            Of::Choose => choose_json::schema(),
            Of::Diagnose => diagnose_json::schema(),
            Of::Service => service_json::schema(),
            Of::ArchiveManifest => schema_of(archive::manifest_schema()),
            Of::ArchiveEntry => schema_of(archive::entry_schema()),
        })
    }
}
