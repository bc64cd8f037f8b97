//! Running text, piece by piece.

use super::{FactRow, Run};

/// Plain text.
pub fn plain(text: impl Into<String>) -> Run {
    Run::Plain(text.into())
}

/// Stressed text.
pub fn strong(text: impl Into<String>) -> Run {
    Run::Strong(text.into())
}

/// Text in softer ink.
pub fn soft(text: impl Into<String>) -> Run {
    Run::Soft(text.into())
}

/// A named value with its origin.
pub(crate) fn row(name: impl Into<String>, value: Vec<Run>, origin: impl Into<String>) -> FactRow {
    FactRow {
        name: name.into(),
        value,
        origin: origin.into(),
        said_in: None,
    }
}

/// Runs as one line of text.
pub fn flat(runs: &[Run]) -> String {
    let text = |run: &Run| match run {
        Run::Plain(text) | Run::Strong(text) | Run::Soft(text) => text.clone(),
    };
    runs.iter().map(text).collect()
}
