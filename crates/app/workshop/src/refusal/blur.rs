//! Why something about a photo is not taken.

use std::fmt;

/// What cannot be so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Blur {
    /// No name of a picture.
    BadHash {
        /// As sent, shortened.
        text: String,
    },
    /// Nothing that a photo can be of.
    BadSubject {
        /// As sent, shortened.
        text: String,
    },
    /// A subject that the job does not have.
    NoSuchSubject {
        /// The subject asked for.
        text: String,
    },
    /// A picture that is no photo of this job.
    NoSuchPhoto {
        /// The beginning of its hash.
        short: String,
    },
    /// This very picture is in the record.
    HereAlready {
        /// The beginning of its hash.
        short: String,
        /// What it is of.
        subject: String,
    },
    /// A width or a height that no kept picture has.
    NoSize {
        /// The field it stands in.
        field: &'static str,
        /// As said, in pixels.
        pixels: u32,
        /// The most there can be.
        most: u32,
    },
    /// More photos than a job can have.
    TooMany {
        /// The most there can be.
        most: usize,
    },
}

impl Blur {
    /// The field it stands in.
    pub fn field(&self) -> &'static str {
        match self {
            Self::BadSubject { .. } | Self::NoSuchSubject { .. } => "subject",
            Self::NoSize { field, .. } => field,
            _ => "photo",
        }
    }

    /// The text that was refused, as typed.
    pub fn refused(&self) -> Option<&String> {
        match self {
            Self::BadHash { text } | Self::BadSubject { text } | Self::NoSuchSubject { text } => {
                Some(text)
            }
            _ => None,
        }
    }
}

impl fmt::Display for Blur {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BadHash { text } => write!(
                f,
                "“{text}” names no picture: that is 64 digits and letters a to f. Copy it whole.",
            ),
            Self::BadSubject { text } => write!(
                f,
                "“{text}” is nothing a photo can be of. Write job, or one of finding, step, joint, \
                 fit, as-found, item and its key, such as: step close-up.",
            ),
            Self::NoSuchSubject { text } => write!(
                f,
                "This job has no “{text}”. Choose another subject, or the whole job.",
            ),
            Self::NoSuchPhoto { short } => write!(
                f,
                "The photo {short} is not in this job, or was taken away. Undo, or take it again.",
            ),
            Self::HereAlready { short, subject } => write!(
                f,
                "This very picture is in the job already: photo {short}, of {subject}. Open it to \
                 change what it is of, or take another photo.",
            ),
            Self::NoSize { pixels, most, .. } => write!(
                f,
                "{pixels} pixels will not do here: write a whole number from 1 to {most}.",
            ),
            Self::TooMany { most } => write!(
                f,
                "This job has {most} photos, which is the most. Take some away first.",
            ),
        }
    }
}
