//! Writing to the two streams, without falling over when nobody reads them.

use std::io::{IsTerminal as _, Write as _};

use report::page::Page;

use crate::error::Error;
use crate::terminal;

/// Writes text to standard output.
pub(crate) fn out(text: &str) -> Result<(), Error> {
    let mut out = std::io::stdout().lock();
    let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
    written.map_err(Error::Output)
}

/// Whether somebody looks at standard output.
pub(crate) fn on_terminal() -> bool {
    std::io::stdout().is_terminal()
}

/// Writes a page to standard output, in bold and dim where that is a terminal.
pub(crate) fn page(page: &Page) -> Result<(), Error> {
    let ink = std::io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    out(&terminal::write(page, ink))
}

/// Writes why something was refused to standard error.
pub(crate) fn refusal(error: &Error) {
    // When standard error is closed too, the exit code is all there is left to say.
    let _ = writeln!(std::io::stderr().lock(), "{error}");
}

/// How far long work is, on one line of standard error that the next one replaces.
pub(crate) fn progress(words: &str) {
    let _ = write!(std::io::stderr().lock(), "\r\u{1b}[K{words}");
}
