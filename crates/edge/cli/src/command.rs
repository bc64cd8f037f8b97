//! The commands and their arguments.

mod archived;
mod audit;
mod backup;
mod choose;
mod diagnose;
mod export;
mod import;
mod measure;
mod plan;
mod restore;
mod schema;
mod serve;
mod service;
mod sheet;
mod subject;
mod teardown;
mod torque;
mod trial;

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
    /// Say what is not fit to go back, and what nobody has looked at
    Teardown(teardown::Teardown),
    /// Say whether the gap is in tolerance, how sure that is, and what to try next
    Measure(measure::Measure),
    /// Say what an impeller, a ring or a nozzle will do to this craft, and which to fit
    Choose(choose::Choose),
    /// Say how tight each joint, in which order, and how far it has come
    Torque(torque::Torque),
    /// Say what to do next, what may not wait, and how ready the craft is
    Plan(plan::Plan),
    /// Say whether anything is forgotten: steps, fasteners, things, tools, reasons
    Audit(audit::Audit),
    /// Say whether the rebuild worked: runs found in logs, free of current, before and after
    Trial(trial::Trial),
    /// Say what is likely wrong with a craft that falls short, and which check tells most
    Diagnose(diagnose::Diagnose),
    /// Say when to open the pump again, how long parts last and what they cost
    Service(service::Service),
    /// Print the build sheet: what was done, by whom, with what, and what is open
    Sheet(sheet::Sheet),
    /// Bring a job file, or the archive of a job, into the store
    Import(import::Import),
    /// Write a job of the store as a job file, or whole as an archive
    Export(export::Export),
    /// Write the whole store into one file, while the bench goes on
    Backup(backup::Backup),
    /// Make a store from the file of a backup, once it is found whole
    Restore(restore::Restore),
    /// Print the JSON Schema of what a command prints with --json
    #[command(hide = true)]
    Schema(schema::Schema),
}

/// Does what was asked for.
pub(crate) async fn run(arguments: Arguments) -> Result<(), Error> {
    match arguments.command {
        Command::Serve(serve) => serve.run().await,
        Command::Teardown(teardown) => teardown.run().await,
        Command::Measure(measure) => measure.run().await,
        Command::Choose(choose) => choose.run().await,
        Command::Torque(torque) => torque.run().await,
        Command::Plan(plan) => plan.run().await,
        Command::Audit(audit) => audit.run().await,
        Command::Trial(trial) => Box::pin(trial.run()).await,
        Command::Diagnose(diagnose) => diagnose.run().await,
        Command::Service(service) => service.run().await,
        Command::Sheet(sheet) => sheet.run().await,
        Command::Import(import) => import.run().await,
        Command::Export(export) => export.run().await,
        Command::Backup(backup) => backup.run().await,
        Command::Restore(restore) => restore.run().await,
        Command::Schema(schema) => schema.run(),
    }
}
