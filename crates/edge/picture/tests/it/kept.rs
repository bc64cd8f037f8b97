//! What is kept of a photo, and what is not.

use image::{DynamicImage, GrayImage, Luma, RgbImage, Rgba, RgbaImage};
use picture::{Kept, LONGEST_EDGE, Photo, THUMB_EDGE};

use crate::make::{
    BLUE, GREEN, RED, YELLOW, corners, exif_of_png, from_camera, jpeg, png, with_chunk,
};

fn keep(bytes: Vec<u8>) -> Kept {
    Photo::open(bytes).unwrap().keep().unwrap()
}

fn points(jpeg: &[u8]) -> RgbImage {
    image::load_from_memory_with_format(jpeg, image::ImageFormat::Jpeg)
        .unwrap()
        .into_rgb8()
}

/// The colours of the corners, row by row, each by the nearest of the four.
fn seen(picture: &RgbImage) -> [&'static str; 4] {
    let (width, height) = picture.dimensions();
    let at = |x: u32, y: u32| {
        let point = picture.get_pixel(x, y).0;
        let far = |colour: [u8; 3]| -> u32 {
            let apart = point.iter().zip(colour);
            apart.map(|(a, b)| u32::from(a.abs_diff(b))).sum()
        };
        let colours = [
            ("red", RED),
            ("green", GREEN),
            ("blue", BLUE),
            ("yellow", YELLOW),
        ];
        let nearest = colours
            .into_iter()
            .min_by_key(|(_, colour)| far(*colour))
            .unwrap();
        assert!(far(nearest.1) < 40, "{point:?} is none of the colours");
        nearest.0
    };
    let (left, right) = (width / 8, width - 1 - width / 8);
    let (top, bottom) = (height / 8, height - 1 - height / 8);
    [
        at(left, top),
        at(right, top),
        at(left, bottom),
        at(right, bottom),
    ]
}

/// The corners after `ImageOps.exif_transpose` of Pillow 13.0.0, of the same picture written by it.
const TURNED: [(u16, [&str; 4]); 8] = [
    (1, ["red", "green", "blue", "yellow"]),
    (2, ["green", "red", "yellow", "blue"]),
    (3, ["yellow", "blue", "green", "red"]),
    (4, ["blue", "yellow", "red", "green"]),
    (5, ["red", "blue", "green", "yellow"]),
    (6, ["blue", "red", "yellow", "green"]),
    (7, ["yellow", "green", "blue", "red"]),
    (8, ["green", "yellow", "red", "blue"]),
];

#[test]
fn computed_all_eight_ways_to_hold_a_camera() {
    let plain = corners(96, 64);
    for (orientation, wanted) in TURNED {
        let turned = orientation > 4;
        let size = if turned { (64, 96) } else { (96, 64) };
        let of_jpeg = keep(from_camera(&jpeg(&plain), orientation));
        let of_png = with_chunk(
            &png(&DynamicImage::ImageRgb8(plain.clone())),
            *b"eXIf",
            &exif_of_png(orientation),
        );
        for kept in [of_jpeg, keep(of_png)] {
            assert_eq!((kept.width, kept.height), size, "{orientation}");
            for picture in [&kept.picture, &kept.thumb] {
                let picture = points(picture);
                assert_eq!(picture.dimensions(), size, "{orientation}");
                assert_eq!(seen(&picture), wanted, "{orientation}");
            }
        }
    }
}

#[test]
fn law_an_orientation_that_is_none_turns_nothing() {
    for orientation in [0, 9, 500] {
        let kept = keep(from_camera(&jpeg(&corners(96, 64)), orientation));
        assert_eq!(seen(&points(&kept.picture)), TURNED[0].1, "{orientation}");
    }
}

#[test]
fn law_nothing_travels_with_the_picture() {
    let words: [&[u8]; 9] = [
        b"Exif",
        b"GPS",
        b"MM\0*",
        b"http",
        b"xmp",
        b"Photoshop",
        b"8BIM",
        b"Harbour Street",
        b"owner",
    ];
    let camera = from_camera(&jpeg(&corners(96, 64)), 6);
    let holds = |bytes: &[u8], word: &[u8]| bytes.windows(word.len()).any(|part| part == word);
    for word in words.iter().filter(|word| **word != b"GPS") {
        assert!(holds(&camera, word), "the photo as it came has {word:?}");
    }
    let kept = keep(camera);
    for bytes in [&kept.picture, &kept.thumb] {
        for word in words {
            assert!(!holds(bytes, word), "{word:?}");
        }
        // Every piece before the points: the frame, its tables and the plain head, nothing else.
        let mut at = 2;
        loop {
            let (marker, length) = (bytes[at + 1], &bytes[at + 2..at + 4]);
            assert_eq!(bytes[at], 0xff);
            assert!(
                [0xe0, 0xc0, 0xc4, 0xdb, 0xda].contains(&marker),
                "a piece {marker:x}"
            );
            if marker == 0xda {
                break;
            }
            at += 2 + usize::from(u16::from_be_bytes([length[0], length[1]]));
        }
        assert!(bytes.ends_with(&[0xff, 0xd9]));
    }
}

#[test]
fn law_nothing_travels_out_of_a_png() {
    let plain = png(&DynamicImage::ImageRgb8(corners(96, 64)));
    let told = with_chunk(&plain, *b"tEXt", b"Comment\0at home, Harbour Street 5");
    assert_eq!(keep(told), keep(plain));
}

#[test]
fn law_the_same_bytes_give_the_same_picture() {
    let bytes = from_camera(&jpeg(&corners(300, 200)), 3);
    assert_eq!(keep(bytes.clone()), keep(bytes));
}

#[test]
fn law_a_photo_keeps_its_shape_and_no_more_than_the_longest_edge() {
    let sizes = [
        ((4032, 3024), (2560, 1920), (320, 240)),
        ((3024, 4032), (1920, 2560), (240, 320)),
        ((2560, 10), (2560, 10), (320, 1)),
        ((2561, 100), (2560, 100), (320, 13)),
        ((320, 320), (320, 320), (320, 320)),
        ((9000, 2), (2560, 1), (320, 1)),
        ((1, 1), (1, 1), (1, 1)),
    ];
    for ((width, height), kept_size, thumb_size) in sizes {
        let kept = keep(jpeg(&RgbImage::new(width, height)));
        assert_eq!((kept.width, kept.height), kept_size);
        assert_eq!(points(&kept.picture).dimensions(), kept_size);
        assert_eq!(points(&kept.thumb).dimensions(), thumb_size);
        assert!(kept.width.max(kept.height) <= LONGEST_EDGE);
        assert!(thumb_size.0.max(thumb_size.1) <= THUMB_EDGE);
    }
}

#[test]
fn law_what_is_seen_through_lies_on_white() {
    let clear = RgbaImage::from_pixel(32, 32, Rgba([0, 0, 0, 0]));
    let half = RgbaImage::from_pixel(32, 32, Rgba([0, 0, 0, 128]));
    for (picture, wanted) in [(clear, 255_u8), (half, 127)] {
        let kept = keep(png(&DynamicImage::ImageRgba8(picture)));
        let point = points(&kept.picture).get_pixel(16, 16).0;
        assert!(point.iter().all(|c| c.abs_diff(wanted) <= 2), "{point:?}");
    }
}

#[test]
fn law_grey_and_deep_pictures_are_taken() {
    let grey = GrayImage::from_pixel(40, 30, Luma([90]));
    let mut bytes = Vec::new();
    image::codecs::jpeg::JpegEncoder::new(&mut bytes)
        .encode_image(&grey)
        .unwrap();
    let deep = DynamicImage::ImageLuma8(grey).into_rgb16();
    for bytes in [bytes, png(&DynamicImage::ImageRgb16(deep))] {
        let kept = keep(bytes);
        let point = points(&kept.picture).get_pixel(20, 15).0;
        assert!(point.iter().all(|c| c.abs_diff(90) <= 2), "{point:?}");
    }
}
