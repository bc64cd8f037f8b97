//! Photos as they come, and what becomes of them.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod hostile;
mod kept;
mod make;
mod speed;
