//! The one executable.
fn main() {}
