//! `schema`: what other programs may expect of `measure --json`.

use crate::error::Error;
use crate::{measure_json, say};

pub(crate) fn run() -> Result<(), Error> {
    say::out(&measure_json::schema())
}
