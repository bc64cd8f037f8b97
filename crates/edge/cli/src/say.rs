//! Writing to the two streams, without falling over when nobody reads them.

use std::io::Write as _;

use crate::error::Error;

/// Writes text to standard output.
pub(crate) fn out(text: &str) -> Result<(), Error> {
    let mut out = std::io::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    written.map_err(Error::Output)
}

/// Writes why something was refused to standard error.
pub(crate) fn refusal(error: &Error) {
    // When standard error is closed too, the exit code is all there is left to say.
    let _ = writeln!(std::io::stderr().lock(), "{error}");
}
