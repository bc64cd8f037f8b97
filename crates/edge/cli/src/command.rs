//! The commands and their arguments.

mod export;
mod import;
mod measure;
mod schema;
mod serve;
mod subject;

use clap::{Parser, Subcommand};

use crate::error::Error;

/// Get a jet pump from a box of cleaned parts to a craft that pulls hard.
#[derive(Parser, Debug)]
#[command(name = "pumpwright", version)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand, Debug)]
enum Command {
    /// Open the bench in the browser
    Serve(serve::Serve),
    /// Say whether the gap is in tolerance, how sure that is, and what to try next
    Measure(measure::Measure),
    /// Bring a job file into the store
    Import(import::Import),
    /// Write a job of the store as a job file
    Export(export::Export),
    /// Print the JSON Schema of “measure --json”
    #[command(hide = true)]
    Schema,
}

/// Does what was asked for.
pub(crate) async fn run(arguments: Arguments) -> Result<(), Error> {
    match arguments.command {
        Command::Serve(serve) => serve.run().await,
        Command::Measure(measure) => measure.run().await,
        Command::Import(import) => import.run().await,
        Command::Export(export) => export.run().await,
        Command::Schema => schema::run(),
    }
}
