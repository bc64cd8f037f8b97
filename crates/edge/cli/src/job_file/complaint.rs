//! Where in a file something is wrong: the line, the column, the text with a mark under it.

use std::fmt;
use std::ops::Range;

/// The most characters of a line that are shown.
const WIDEST: usize = 72;

/// A file's text and what it is called.
#[derive(Debug)]
pub(super) struct Source {
    pub(super) name: String,
    pub(super) text: String,
}

/// What is wrong with a file, and where.
#[derive(Debug)]
pub(crate) struct Complaint {
    file: String,
    /// Counted from 1.
    line: usize,
    /// Counted from 1, in characters.
    column: usize,
    /// The part of the line that is shown.
    shown: String,
    /// Where in it the mark begins, from 0, and its length.
    mark: (usize, usize),
    message: String,
}

impl Source {
    /// Points at bytes of the text.
    pub(super) fn complain(&self, at: Range<usize>, message: &str) -> Complaint {
        let start = self.floor(at.start);
        let end = self.floor(at.end).max(start);
        let before = &self.text[..start];
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        let line = self.text[line_start..].lines().next().unwrap_or("");
        let column = self.text[line_start..start].chars().count();
        let marked = self.text[start..end]
            .lines()
            .next()
            .unwrap_or("")
            .chars()
            .count();
        // Of a long line the part around the mark.
        let skipped = if column + marked <= WIDEST {
            0
        } else {
            column.saturating_sub(WIDEST / 3)
        };
        let shown: String = line.chars().skip(skipped).take(WIDEST).map(plain).collect();
        let room = WIDEST.saturating_sub(column - skipped);
        Complaint {
            file: self.name.clone(),
            line: before.matches('\n').count() + 1,
            column: column + 1,
            shown,
            mark: (column - skipped, marked.clamp(1, room.max(1))),
            message: message.to_owned(),
        }
    }

    /// The nearest boundary of a character at or before a byte.
    fn floor(&self, byte: usize) -> usize {
        self.text.floor_char_boundary(byte)
    }
}

/// Nothing in a file may move the cursor of a terminal.
fn plain(c: char) -> char {
    match c {
        '\t' => ' ',
        c if c.is_control() => '\u{fffd}',
        c => c,
    }
}

/// What the parser says, as a sentence.
pub(super) fn sentence(message: &str) -> String {
    let message = message.trim().replace('\n', ", ");
    let mut rest = message.chars();
    let first = rest
        .next()
        .map_or_else(String::new, |c| c.to_uppercase().collect());
    let stop = if message.ends_with(['.', '?']) {
        ""
    } else {
        "."
    };
    format!("{first}{}{stop}", rest.as_str())
}

impl fmt::Display for Complaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = self.line.to_string();
        let gutter = " ".repeat(number.len());
        let (start, length) = self.mark;
        let (indent, mark) = (" ".repeat(start), "^".repeat(length));
        writeln!(
            f,
            "{}, line {}, column {}:",
            self.file, self.line, self.column
        )?;
        writeln!(f, "{gutter} |")?;
        writeln!(f, "{}", format!("{number} | {}", self.shown).trim_end())?;
        writeln!(f, "{gutter} | {indent}{mark}")?;
        f.write_str(&self.message)
    }
}
