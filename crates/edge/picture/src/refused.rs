//! Why a photo is not taken, in sentences for a person.

use std::fmt;

use crate::{MOST_BYTES, MOST_MEGAPIXELS};

/// Why a photo is not taken; nothing was kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// There is nothing in the file.
    Empty,
    /// More bytes than [`MOST_BYTES`].
    Heavy {
        /// How many there are.
        bytes: usize,
    },
    /// More points than [`MOST_MEGAPIXELS`].
    Vast {
        /// Its width in pixels.
        width: u32,
        /// Its height in pixels.
        height: u32,
    },
    /// Of a kind that is not taken.
    Unfit(Kind),
    /// It ends before its end.
    Cut,
    /// It does not hold together.
    Damaged,
    /// Its points take more memory than a photo's do.
    Hungry,
}

/// A kind that is not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// What many phones save by default.
    Heic,
    /// A picture of the web.
    Webp,
    /// A picture of the web that may move.
    Gif,
    /// A document.
    Pdf,
    /// A camera's raw picture, or a scan.
    Tiff,
    /// A film.
    Film,
    /// Anything else.
    Unknown,
}

impl Kind {
    /// What the first bytes say.
    pub(crate) fn of(bytes: &[u8]) -> Self {
        let at = |from: usize, word: &[u8]| bytes.get(from..).is_some_and(|b| b.starts_with(word));
        let heic: [&[u8]; 8] = [
            b"heic", b"heix", b"heim", b"heis", b"hevc", b"mif1", b"msf1", b"avif",
        ];
        if at(4, b"ftyp") && heic.iter().any(|brand| at(8, brand)) {
            Self::Heic
        } else if at(4, b"ftyp") {
            Self::Film
        } else if at(0, b"RIFF") && at(8, b"WEBP") {
            Self::Webp
        } else if at(0, b"GIF8") {
            Self::Gif
        } else if at(0, b"%PDF") {
            Self::Pdf
        } else if at(0, b"II*\0") || at(0, b"MM\0*") {
            Self::Tiff
        } else {
            Self::Unknown
        }
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("The file is empty. Take the photo again."),
            Self::Heavy { bytes } => write!(
                f,
                "The file has {} MB; a photo may have {} MB. Set the camera to a smaller picture.",
                bytes.div_ceil(1_000_000),
                MOST_BYTES / 1_000_000,
            ),
            Self::Vast { width, height } => write!(
                f,
                "This picture is {width} × {height} points; a photo may have {MOST_MEGAPIXELS} \
                 million. Set the camera to a smaller picture.",
            ),
            Self::Unfit(kind) => write!(f, "{kind}"),
            Self::Cut => f.write_str(
                "The file ends before the picture does. Send it again, or take the photo again.",
            ),
            Self::Damaged => f.write_str(
                "The picture is damaged and cannot be read whole. Take the photo again.",
            ),
            Self::Hungry => f.write_str(
                "Unpacked, this picture takes more memory than a photo does. Save it as JPEG.",
            ),
        }
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Heic => {
                "This is a HEIC picture; photos are taken as JPEG or PNG. Set the camera to JPEG \
                 (“most compatible” on some phones), then take the photo again."
            }
            Self::Webp => {
                "This is a WebP picture; photos are taken as JPEG or PNG. Set the camera to JPEG, \
                 or save the picture as JPEG."
            }
            Self::Gif => {
                "This is a GIF picture; photos are taken as JPEG or PNG. Set the camera to JPEG, \
                 or save the picture as JPEG."
            }
            Self::Pdf => {
                "This is a PDF document; photos are taken as JPEG or PNG. Set the camera to JPEG \
                 and take a photo of the page."
            }
            Self::Tiff => {
                "This is a raw or TIFF picture; photos are taken as JPEG or PNG. Set the camera \
                 to JPEG, or save the picture as JPEG."
            }
            Self::Film => "This is a film; photos are taken as JPEG or PNG. Take a photo instead.",
            Self::Unknown => {
                "This is no photo that can be read; photos are taken as JPEG or PNG. Set the \
                 camera to JPEG, or save the picture as JPEG."
            }
        })
    }
}

impl std::error::Error for Refused {}
