//! Our numbers against outside libraries: recorded always, live where the locked Python is.
#![expect(
    clippy::unwrap_used,
    reason = "a comparison that cannot read its values has failed"
)]

mod alignment_values;
mod around_values;
mod assembly_values;
mod calendar_file;
mod clearance_values;
mod diagnosis_ranker;
mod diagnosis_values;
mod jet_values;
mod joint_values;
mod lives_values;
mod planning_study;
mod propulsion_values;
mod readers_values;
mod record;
mod service_values;
mod trial_values;
