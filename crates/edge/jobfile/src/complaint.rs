//! Where in a file something is wrong: the line, the column, the text with a mark under it.

use std::fmt;
use std::ops::Range;

/// The most characters of a line that are shown.
const WIDEST: usize = 72;

/// A file's text and what it is called.
#[derive(Debug)]
pub(crate) struct Source {
    pub(crate) name: String,
    pub(crate) text: String,
}

/// What is wrong with a file, and where.
#[derive(Debug)]
pub struct Complaint {
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
    pub(crate) fn complain(&self, at: Range<usize>, message: &str) -> Complaint {
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
pub(crate) fn sentence(message: &str) -> String {
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

impl Complaint {
    /// What is wrong, without the line.
    pub fn message(&self) -> String {
        format!("Line {}: {}", self.line, self.message)
    }
}

impl std::error::Error for Complaint {}

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

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        #[test]
        fn law_a_mark_stands_under_the_line(byte in 0..400_usize, length in 0..400_usize) {
            let text = "a = \"é–½\"\n\tlong = \"".to_owned() + &"x".repeat(300) + "\"\r\nlast";
            let source = super::Source { name: "job.toml".to_owned(), text };
            let shown = source.complain(byte..byte + length, "No.").to_string();
            let lines: Vec<usize> = shown.lines().map(|line| line.chars().count()).collect();
            prop_assert_eq!(lines.len(), 5);
            prop_assert!(lines.iter().all(|width| *width <= 80), "{shown}");
        }
    }
}
