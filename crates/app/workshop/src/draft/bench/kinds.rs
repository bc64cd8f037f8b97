//! The words for the kinds of a rule.

use crate::draft::Choice;
#[cfg(doc)]
use crate::plan::Ask;

/// The kind of a rule, as a word of the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleKind {
    /// [`Ask::After`].
    After,
    /// [`Ask::StartWithin`].
    StartWithin,
    /// [`Ask::FinishedWithin`].
    FinishedWithin,
    /// [`Ask::StartWithinStart`].
    StartWithinStart,
    /// [`Ask::Together`].
    Together,
    /// [`Ask::NotBefore`].
    NotBefore,
    /// [`Ask::FinishedBy`].
    FinishedBy,
}

/// The words for [`RuleKind`].
pub const RULES: [Choice<RuleKind>; 7] = [
    ("after", RuleKind::After),
    ("start-within", RuleKind::StartWithin),
    ("finished-within", RuleKind::FinishedWithin),
    ("start-within-start", RuleKind::StartWithinStart),
    ("together", RuleKind::Together),
    ("not-before", RuleKind::NotBefore),
    ("finished-by", RuleKind::FinishedBy),
];
