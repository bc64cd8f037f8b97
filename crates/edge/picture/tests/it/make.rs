//! Photos made for the tests, as a camera writes them.

use image::codecs::jpeg::JpegEncoder;
use image::codecs::png::PngEncoder;
use image::{DynamicImage, ExtendedColorType, ImageEncoder, Rgb, RgbImage};

pub(crate) const RED: [u8; 3] = [200, 30, 30];
pub(crate) const GREEN: [u8; 3] = [30, 160, 60];
pub(crate) const BLUE: [u8; 3] = [40, 60, 190];
pub(crate) const YELLOW: [u8; 3] = [230, 210, 40];

/// Red and green above, blue and yellow below.
pub(crate) fn corners(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        Rgb(match (x < width / 2, y < height / 2) {
            (true, true) => RED,
            (false, true) => GREEN,
            (true, false) => BLUE,
            (false, false) => YELLOW,
        })
    })
}

pub(crate) fn jpeg(picture: &RgbImage) -> Vec<u8> {
    let mut bytes = Vec::new();
    JpegEncoder::new_with_quality(&mut bytes, 95)
        .encode_image(picture)
        .unwrap();
    bytes
}

pub(crate) fn png(picture: &DynamicImage) -> Vec<u8> {
    let mut bytes = Vec::new();
    let colour: ExtendedColorType = picture.color().into();
    PngEncoder::new(&mut bytes)
        .write_image(
            picture.as_bytes(),
            picture.width(),
            picture.height(),
            colour,
        )
        .unwrap();
    bytes
}

/// A list of a block of Exif: two entries, each of tag, kind, count and value.
fn list(entries: [(u16, u16, u32, [u8; 4]); 2]) -> Vec<u8> {
    let mut list = vec![0, 2];
    for (tag, kind, count, value) in entries {
        list.extend(tag.to_be_bytes());
        list.extend(kind.to_be_bytes());
        list.extend(count.to_be_bytes());
        list.extend(value);
    }
    list.extend([0; 4]);
    list
}

/// A block of Exif (big-endian TIFF): the orientation, and a place with a latitude of 47° 15′ 30″ N.
fn exif(orientation: u16) -> Vec<u8> {
    let [high, low] = orientation.to_be_bytes();
    let mut block = b"Exif\0\0MM\0*\0\0\0\x08".to_vec();
    // The first list stands at 8, the place's own list at 38, its figures at 68.
    block.extend(list([
        (0x0112, 3, 1, [high, low, 0, 0]),
        (0x8825, 4, 1, 38_u32.to_be_bytes()),
    ]));
    block.extend(list([
        (1, 2, 2, *b"N\0\0\0"),
        (2, 5, 3, 68_u32.to_be_bytes()),
    ]));
    for (over, under) in [(47_u32, 1_u32), (15, 1), (30, 1)] {
        block.extend(over.to_be_bytes());
        block.extend(under.to_be_bytes());
    }
    block
}

/// The same JPEG with pieces behind its beginning: each a marker and a body.
pub(crate) fn with_pieces(jpeg: &[u8], pieces: &[(u8, Vec<u8>)]) -> Vec<u8> {
    let mut bytes = jpeg[..2].to_vec();
    for (marker, body) in pieces {
        bytes.extend([0xff, *marker]);
        bytes.extend(u16::try_from(body.len() + 2).unwrap().to_be_bytes());
        bytes.extend(body);
    }
    bytes.extend(&jpeg[2..]);
    bytes
}

/// The same JPEG as a camera writes it: held so, at a place, with a word of its own.
pub(crate) fn from_camera(jpeg: &[u8], orientation: u16) -> Vec<u8> {
    let xmp = b"http://ns.adobe.com/xap/1.0/\0<x:xmpmeta>Latitude 47.2583</x:xmpmeta>";
    with_pieces(
        jpeg,
        &[
            (0xe1, exif(orientation)),
            (0xe1, xmp.to_vec()),
            (
                0xed,
                b"Photoshop 3.0\x008BIM IPTC Harbour Street 5".to_vec(),
            ),
            (0xfe, b"by the owner of the craft, at home".to_vec()),
        ],
    )
}

/// A piece of a PNG with its sum.
pub(crate) fn chunk(name: [u8; 4], body: &[u8]) -> Vec<u8> {
    let mut piece = u32::try_from(body.len()).unwrap().to_be_bytes().to_vec();
    piece.extend(name);
    piece.extend(body);
    let sum = piece[4..].iter().fold(!0_u32, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ (0xedb8_8320 * (sum & 1))
        })
    });
    piece.extend((!sum).to_be_bytes());
    piece
}

/// A PNG that says it is so large, with next to nothing in it.
pub(crate) fn hollow_png(width: u32, height: u32) -> Vec<u8> {
    let mut head = width.to_be_bytes().to_vec();
    head.extend(height.to_be_bytes());
    head.extend([8, 2, 0, 0, 0]);
    let mut bytes = b"\x89PNG\r\n\x1a\n".to_vec();
    bytes.extend(chunk(*b"IHDR", &head));
    bytes.extend(chunk(*b"IDAT", b"\x78\x9c\x63\x00\x00\x00\x01\x00\x01"));
    bytes.extend(chunk(*b"IEND", b""));
    bytes
}

/// The same PNG with a piece behind its head.
pub(crate) fn with_chunk(png: &[u8], name: [u8; 4], body: &[u8]) -> Vec<u8> {
    let head = 8 + 12 + 13;
    [&png[..head], &chunk(name, body), &png[head..]].concat()
}

/// The orientation alone, as a PNG carries it.
pub(crate) fn exif_of_png(orientation: u16) -> Vec<u8> {
    exif(orientation)[6..].to_vec()
}
