//! What can be wrong with an archive: each thing named, with what was wanted and what was found.

use std::fmt;

/// One thing that is wrong with an archive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Damage {
    /// No ZIP, or one that does not end where the file ends.
    NoZip,
    /// A ZIP without a manifest.
    NoArchive,
    /// A manifest of something else.
    OtherFormat {
        /// What it calls itself.
        found: String,
    },
    /// More bytes than an archive may have.
    Heavy {
        /// As many as there are.
        found: u64,
        /// As many as may be.
        most: u64,
    },
    /// More files than an archive may hold.
    ManyFiles {
        /// As many as there are.
        found: u64,
        /// As many as may be.
        most: u64,
    },
    /// A name that no file of an archive has.
    Stranger {
        /// The name.
        name: String,
    },
    /// Two files of one name.
    Twice {
        /// The name.
        name: String,
    },
    /// A file that stands for another one.
    Link {
        /// Its name.
        name: String,
    },
    /// A file that is locked by a password.
    Locked {
        /// Its name.
        name: String,
    },
    /// A file that is packed in a way that archives are not.
    Packed {
        /// Its name.
        name: String,
    },
    /// A file that unpacks to more than it may.
    Large {
        /// Its name.
        name: String,
        /// The most bytes it may have.
        most: u64,
    },
    /// All files together unpack to more than they may.
    Vast {
        /// The most bytes they may have.
        most: u64,
    },
    /// A file whose bytes do not fit what the ZIP says of it.
    Spoilt {
        /// Its name.
        name: String,
    },
    /// A file that the manifest, or another file, names.
    Missing {
        /// Its name.
        name: String,
    },
    /// A file that the manifest does not name.
    Extra {
        /// Its name.
        name: String,
    },
    /// A file of another size.
    Size {
        /// Its name.
        name: String,
        /// As the manifest has it.
        wanted: u64,
        /// As it is.
        found: u64,
    },
    /// A file of another content.
    Sum {
        /// Its name.
        name: String,
        /// As the manifest has it, or its name.
        wanted: String,
        /// As it is.
        found: String,
    },
    /// A manifest that cannot be read.
    Manifest {
        /// Why.
        why: String,
    },
    /// A line of the entries that cannot be read.
    Line {
        /// Counted from 1.
        number: u64,
        /// Why.
        why: String,
    },
    /// Another number of entries than the manifest says.
    Entries {
        /// As the manifest has it.
        wanted: u64,
        /// As many as there are.
        found: u64,
    },
    /// A photo that is no JPEG.
    NoPhoto {
        /// Its name.
        name: String,
    },
    /// A photo that no entry speaks of.
    Unspoken {
        /// Its name.
        name: String,
    },
}

impl fmt::Display for Damage {
    #[expect(clippy::too_many_lines, reason = "a sentence an arm, read as a table")]
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoZip => f.write_str(
                "It is no whole ZIP file: its beginning or its end is missing, or something stands \
                 behind the end.",
            ),
            Self::NoArchive => {
                f.write_str("It is a ZIP file, but no archive of a job: it has no “manifest.json”.")
            }
            Self::OtherFormat { found } => write!(
                f,
                "Its manifest is of “{found}”, and not of “{}”.",
                super::FORMAT
            ),
            Self::Heavy { found, most } => {
                write!(f, "It has {found} bytes, and an archive may have {most}.")
            }
            Self::ManyFiles { found, most } => {
                write!(f, "It has {found} files, and an archive may have {most}.")
            }
            Self::Stranger { name } => write!(f, "“{name}” is no name of a file in an archive."),
            Self::Twice { name } => write!(f, "“{name}” is in it twice."),
            Self::Link { name } => write!(f, "“{name}” is a link to another file, and no file."),
            Self::Locked { name } => write!(
                f,
                "“{name}” is locked by a password, which archives never are."
            ),
            Self::Packed { name } => write!(
                f,
                "“{name}” is packed in another way than the two that archives use: stored, and \
                 deflated."
            ),
            Self::Large { name, most } => write!(
                f,
                "“{name}” unpacks to more than the {most} bytes that it may have; it was not \
                 unpacked further."
            ),
            Self::Vast { most } => write!(
                f,
                "All its files together unpack to more than the {most} bytes that they may have; \
                 they were not unpacked further."
            ),
            Self::Spoilt { name } => {
                write!(f, "“{name}” cannot be unpacked: its bytes are damaged.")
            }
            Self::Missing { name } => write!(f, "“{name}” is missing."),
            Self::Extra { name } => write!(f, "“{name}” is in it, and the manifest has none such."),
            Self::Size {
                name,
                wanted,
                found,
            } => write!(f, "“{name}” has {found} bytes and must have {wanted}."),
            Self::Sum {
                name,
                wanted,
                found,
            } => write!(
                f,
                "“{name}” has another content than it must: its SHA-256 is {found} and must be \
                 {wanted}."
            ),
            Self::Manifest { why } => write!(f, "“manifest.json” cannot be read: {why}."),
            Self::Line { number, why } => write!(f, "“entries.jsonl”, line {number}: {why}."),
            Self::Entries { wanted, found } => {
                write!(
                    f,
                    "“entries.jsonl” has {found} entries and must have {wanted}."
                )
            }
            Self::NoPhoto { name } => write!(f, "“{name}” is no JPEG."),
            Self::Unspoken { name } => write!(f, "“{name}” is a photo that no entry speaks of."),
        }
    }
}

/// A name out of an archive, as it may be shown: short, and without signs that do something.
pub(super) fn shown(name: &[u8]) -> String {
    let text = String::from_utf8_lossy(name);
    let plain = text
        .chars()
        .map(|c| if c.is_control() { '\u{fffd}' } else { c });
    let mut short: String = plain.clone().take(100).collect();
    if plain.count() > 100 {
        short.push('…');
    }
    short
}
