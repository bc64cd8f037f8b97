//! Unpacks a JPEG strictly: whole to its end, without a damaged piece.

use image::metadata::Orientation;
use image::{DynamicImage, GrayImage, RgbImage};
use zune_core::bytestream::ZCursor;
use zune_core::colorspace::ColorSpace;
use zune_core::options::DecoderOptions;
use zune_jpeg::JpegDecoder;

use crate::{MOST_MEMORY, Refused};

/// How a JPEG begins.
pub(crate) const BEGIN: [u8; 3] = [0xff, 0xd8, 0xff];

const START_OF_SCAN: u8 = 0xda;
const END: u8 = 0xd9;

/// Strict, because the decoder otherwise fills with grey what is missing.
fn decoder(bytes: &[u8]) -> JpegDecoder<ZCursor<&[u8]>> {
    let options = DecoderOptions::default()
        .set_strict_mode(true)
        .set_max_width(usize::from(u16::MAX))
        .set_max_height(usize::from(u16::MAX));
    JpegDecoder::new_with_options(ZCursor::new(bytes), options)
}

/// Width and height as the file says them.
pub(crate) fn size(bytes: &[u8]) -> Result<(u32, u32), Refused> {
    let mut found = (0, 0);
    for piece in Pieces::of(bytes) {
        let (marker, body) = piece?;
        let frame = matches!(marker, 0xc0..=0xcf) && ![0xc4, 0xc8, 0xcc].contains(&marker);
        if let (true, &[_, h1, h0, w1, w0, ..]) = (frame, body) {
            let number = |high, low| u32::from(u16::from_be_bytes([high, low]));
            found = (number(w1, w0), number(h1, h0));
        }
        if marker == START_OF_SCAN {
            return Ok(found);
        }
    }
    Err(Refused::Cut)
}

/// Points to put where a picture ends: one that needs more than it has would take them for its own.
const STRAY: [u8; 32] = [0x5a; 32];

/// The points as they lie, and how they must be turned.
pub(crate) fn unpack(bytes: &[u8]) -> Result<(DynamicImage, Orientation), Refused> {
    // What follows the end is another thing in the same file, and stays behind.
    let bytes = &bytes[..end(bytes)?];
    let read = points(bytes)?;
    // The decoder goes on with nothing where an end comes too early, and says no word. So it reads
    // once more with something behind the last point; a whole picture stays the same.
    let (whole, end) = bytes.split_at(bytes.len() - 2);
    let longer = points(&[whole, &STRAY, end].concat())?;
    if longer.image != read.image {
        return Err(Refused::Damaged);
    }
    Ok((read.image, read.orientation))
}

struct Read {
    image: DynamicImage,
    orientation: Orientation,
}

fn points(bytes: &[u8]) -> Result<Read, Refused> {
    let mut decoder = decoder(bytes);
    decoder.decode_headers().map_err(|_| Refused::Damaged)?;
    let colours = decoder.input_colorspace().ok_or(Refused::Damaged)?;
    let grey = colours == ColorSpace::Luma;
    let out = if grey {
        ColorSpace::Luma
    } else {
        ColorSpace::RGB
    };
    decoder.set_options(decoder.options().jpeg_set_out_colorspace(out));
    let room = decoder.output_buffer_size().ok_or(Refused::Damaged)?;
    if u64::try_from(room).unwrap_or(u64::MAX) > MOST_MEMORY {
        return Err(Refused::Hungry);
    }
    let points = decoder.decode().map_err(|_| Refused::Damaged)?;
    let (width, height) = decoder.dimensions().ok_or(Refused::Damaged)?;
    let edge = |edge: usize| u32::try_from(edge).map_err(|_| Refused::Damaged);
    let (width, height) = (edge(width)?, edge(height)?);
    let image = if grey {
        GrayImage::from_raw(width, height, points).map(DynamicImage::ImageLuma8)
    } else {
        RgbImage::from_raw(width, height, points).map(DynamicImage::ImageRgb8)
    };
    let told = decoder
        .exif()
        .and_then(|exif| Orientation::from_exif_chunk(exif));
    Ok(Read {
        image: image.ok_or(Refused::Damaged)?,
        orientation: told.unwrap_or(Orientation::NoTransforms),
    })
}

/// Where the picture ends.
fn end(bytes: &[u8]) -> Result<usize, Refused> {
    let mut pieces = Pieces::of(bytes);
    while let Some(piece) = pieces.next() {
        if piece?.0 == END {
            return Ok(pieces.at);
        }
    }
    Err(Refused::Cut)
}

/// The pieces of a JPEG: each a marker with its body. What lies between scans is skipped.
struct Pieces<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Pieces<'a> {
    fn of(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 2 }
    }

    /// Goes on to the next marker behind packed points.
    fn skip_points(&mut self) {
        let points = &self.bytes[self.at..];
        let marker = |pair: &[u8]| pair[0] == 0xff && !matches!(pair[1], 0x00 | 0xd0..=0xd7 | 0xff);
        let next = points.windows(2).position(marker);
        self.at += next.unwrap_or(points.len());
    }
}

impl<'a> Iterator for Pieces<'a> {
    type Item = Result<(u8, &'a [u8]), Refused>;

    fn next(&mut self) -> Option<Self::Item> {
        let rest = self.bytes.get(self.at..).filter(|rest| !rest.is_empty())?;
        if rest[0] != 0xff {
            self.at = self.bytes.len();
            return Some(Err(Refused::Damaged));
        }
        // Any number of filling bytes may stand before a marker.
        let fill = rest.iter().take_while(|byte| **byte == 0xff).count();
        let marker = *rest.get(fill)?;
        self.at += fill + 1;
        if matches!(marker, 0x01 | 0xd0..=0xd9) {
            return Some(Ok((marker, &[])));
        }
        let length = self.bytes.get(self.at..self.at + 2)?;
        let length = usize::from(u16::from_be_bytes([length[0], length[1]]));
        if length < 2 {
            self.at = self.bytes.len();
            return Some(Err(Refused::Damaged));
        }
        let body = self.bytes.get(self.at + 2..self.at + length)?;
        self.at += length;
        if marker == START_OF_SCAN {
            self.skip_points();
        }
        Some(Ok((marker, body)))
    }
}
