//! Our numbers against outside libraries: recorded always, live where the locked Python is.

mod clearance_values;
mod record;
