//! Why something about what is wrong is not taken.

use std::fmt;

/// What cannot be so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Misstep {
    /// Something that is so and is not so.
    YesAndNo {
        /// Its word.
        symptom: String,
    },
}

impl Misstep {
    /// The field it stands in.
    pub(super) fn field(&self) -> &'static str {
        match self {
            Self::YesAndNo { .. } => "no",
        }
    }
}

impl fmt::Display for Misstep {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::YesAndNo { symptom } => write!(
                f,
                "“{symptom}” stands under what is so and under what is not; keep one of them."
            ),
        }
    }
}
