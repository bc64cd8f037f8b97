//! The one executable: arguments, exit codes, the clock, where the store lies.
//!
//! Every command answers in the same shape as the pages do, and words nothing of its own but how
//! to go on at the command line.

mod audit_json;
mod choose_json;
mod command;
mod diagnose_json;
mod document;
mod error;
mod file;
mod measure_json;
mod place;
mod plan_json;
mod say;
mod service_json;
mod teardown_json;
mod terminal;
mod torque_json;
mod trial_json;

use std::process::ExitCode;

use clap::Parser as _;

use crate::error::Error;

/// 0 answered, 1 refused; wrong usage is 2 and clap's own.
fn main() -> ExitCode {
    let arguments = command::Arguments::parse();
    let answered = tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .map_err(Error::Output)
        .and_then(|runtime| runtime.block_on(command::run(arguments)));
    match answered {
        Ok(()) => ExitCode::SUCCESS,
        Err(Error::Output(error)) if error.kind() == std::io::ErrorKind::BrokenPipe => {
            // Whoever was reading has read enough.
            ExitCode::SUCCESS
        }
        Err(error) => {
            say::refusal(&error);
            ExitCode::FAILURE
        }
    }
}
