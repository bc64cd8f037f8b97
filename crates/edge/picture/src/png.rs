//! Unpacks a PNG: whole to its last piece.

use std::io::Cursor;

use image::codecs::png::PngDecoder;
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageError, Limits};

use crate::{MOST_MEMORY, Refused};

/// How a PNG begins.
pub(crate) const BEGIN: [u8; 8] = *b"\x89PNG\r\n\x1a\n";

/// Width and height as the file says them.
pub(crate) fn size(bytes: &[u8]) -> Result<(u32, u32), Refused> {
    let Some(Ok((b"IHDR", &[a, b, c, d, e, f, g, h, ..]))) = Pieces::of(bytes).next() else {
        return Err(Refused::Damaged);
    };
    Ok((
        u32::from_be_bytes([a, b, c, d]),
        u32::from_be_bytes([e, f, g, h]),
    ))
}

/// The points as they lie, and how they must be turned.
pub(crate) fn unpack(bytes: &[u8]) -> Result<(DynamicImage, Orientation), Refused> {
    let bytes = &bytes[..end(bytes)?];
    let mut limits = Limits::no_limits();
    limits.max_alloc = Some(MOST_MEMORY);
    let why = |error: ImageError| match error {
        ImageError::Limits(_) => Refused::Hungry,
        _ => Refused::Damaged,
    };
    let mut decoder = PngDecoder::with_limits(Cursor::new(bytes), limits).map_err(why)?;
    // The decoder counts what it needs by the way, and not the points that it hands over.
    if decoder.total_bytes() > MOST_MEMORY {
        return Err(Refused::Hungry);
    }
    let orientation = decoder.orientation().map_err(why)?;
    let image = DynamicImage::from_decoder(decoder).map_err(why)?;
    Ok((image, orientation))
}

/// Where the picture ends.
fn end(bytes: &[u8]) -> Result<usize, Refused> {
    let mut pieces = Pieces::of(bytes);
    while let Some(piece) = pieces.next() {
        if piece?.0 == b"IEND" {
            return Ok(pieces.at);
        }
    }
    Err(Refused::Cut)
}

/// The pieces of a PNG: each a name with its body. Their sums are checked as they are unpacked.
struct Pieces<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Pieces<'a> {
    fn of(bytes: &'a [u8]) -> Self {
        Self {
            bytes,
            at: BEGIN.len(),
        }
    }
}

impl<'a> Iterator for Pieces<'a> {
    type Item = Result<(&'a [u8; 4], &'a [u8]), Refused>;

    fn next(&mut self) -> Option<Self::Item> {
        let rest = self.bytes.get(self.at..).filter(|rest| !rest.is_empty())?;
        let piece = || {
            let (length, rest) = rest.split_first_chunk()?;
            let (name, rest) = rest.split_first_chunk()?;
            let length = usize::try_from(u32::from_be_bytes(*length)).ok()?;
            let body = rest.get(..length)?;
            // Four bytes of sum behind the body.
            rest.get(length..length + 4)?;
            Some((name, body))
        };
        let Some((name, body)) = piece() else {
            self.at = self.bytes.len();
            return Some(Err(Refused::Cut));
        };
        self.at += 12 + body.len();
        Some(Ok((name, body)))
    }
}
