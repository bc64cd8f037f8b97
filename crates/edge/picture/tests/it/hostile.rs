//! Files that are no photos, and photos that are none any more.

use image::{DynamicImage, RgbImage};
use picture::{Kind, MOST_BYTES, Photo, Refused};

use crate::make::{chunk, corners, from_camera, hollow_png, jpeg, png, with_chunk, with_pieces};

fn refused(bytes: Vec<u8>) -> Option<Refused> {
    let kept = Photo::open(bytes).and_then(|photo| photo.keep());
    kept.err()
}

/// A picture with something to pack in every place.
fn busy(width: u32, height: u32) -> RgbImage {
    RgbImage::from_fn(width, height, |x, y| {
        let v = (x * 7919 + y * 104_729) ^ (x * y * 31);
        image::Rgb([v, v / 3, v / 7].map(|v| u8::try_from(v % 251).unwrap()))
    })
}

#[test]
fn law_what_is_no_photo_is_refused_by_what_it_is() {
    let words = "Torque the nuts by hand first. ".repeat(40);
    let mut film = b"\0\0\0\x18ftypmp42".to_vec();
    film.extend([0; 64]);
    let mut heic = b"\0\0\0\x18ftypheic".to_vec();
    heic.extend([0; 64]);
    let cases: [(&str, Vec<u8>, Refused); 11] = [
        ("nothing", Vec::new(), Refused::Empty),
        (
            "text named .jpg",
            words.into_bytes(),
            Refused::Unfit(Kind::Unknown),
        ),
        (
            "a page",
            b"<html><script>".to_vec(),
            Refused::Unfit(Kind::Unknown),
        ),
        (
            "a drawing",
            b"<svg xmlns='x'/>".to_vec(),
            Refused::Unfit(Kind::Unknown),
        ),
        (
            "an archive",
            b"PK\x03\x04".to_vec(),
            Refused::Unfit(Kind::Unknown),
        ),
        ("HEIC", heic, Refused::Unfit(Kind::Heic)),
        ("a film", film, Refused::Unfit(Kind::Film)),
        (
            "WebP",
            b"RIFF\x10\0\0\0WEBPVP8 ".to_vec(),
            Refused::Unfit(Kind::Webp),
        ),
        (
            "GIF",
            b"GIF89a\x01\0\x01\0".to_vec(),
            Refused::Unfit(Kind::Gif),
        ),
        ("PDF", b"%PDF-1.7".to_vec(), Refused::Unfit(Kind::Pdf)),
        (
            "raw",
            b"II*\0\x08\0\0\0".to_vec(),
            Refused::Unfit(Kind::Tiff),
        ),
    ];
    for (what, bytes, why) in cases {
        assert_eq!(refused(bytes), Some(why), "{what}");
        assert!(why.to_string().ends_with('.'), "{what}");
    }
    let way_out = Refused::Unfit(Kind::Heic).to_string();
    assert!(way_out.contains("Set the camera to JPEG"), "{way_out}");
}

#[test]
fn law_what_is_too_large_is_refused_before_it_is_unpacked() {
    let mut heavy = jpeg(&corners(8, 8));
    heavy.resize(MOST_BYTES + 1, 0);
    assert_eq!(
        refused(heavy),
        Some(Refused::Heavy {
            bytes: MOST_BYTES + 1
        })
    );
    let vast = |width, height| Some(Refused::Vast { width, height });
    // A hundred bytes that would unpack to ten thousand million.
    let bomb = hollow_png(60_000, 60_000);
    assert!(bomb.len() < 100);
    assert_eq!(refused(bomb), vast(60_000, 60_000));
    let most = u32::MAX;
    assert_eq!(refused(hollow_png(most, most)), vast(most, most));
    assert_eq!(refused(hollow_png(60_000_001, 1)), vast(60_000_001, 1));
    assert_eq!(refused(hollow_png(0, 10)), Some(Refused::Damaged));
    let mut wide = jpeg(&corners(64, 64));
    let frame = wide.windows(2).position(|w| w == [0xff, 0xc0]).unwrap();
    wide[frame + 5..frame + 9].copy_from_slice(&[0xff, 0xff, 0xff, 0xff]);
    assert_eq!(refused(wide), vast(65_535, 65_535));
    let words = vast(60_000, 60_000).unwrap().to_string();
    assert!(
        words.contains("60000 × 60000") && words.contains("60 million"),
        "{words}"
    );
    let words = Refused::Heavy {
        bytes: MOST_BYTES + 1,
    }
    .to_string();
    assert!(
        words.contains("26 MB") && words.contains("25 MB"),
        "{words}"
    );
}

#[test]
fn law_what_says_more_than_it_holds_is_refused() {
    // Within the limits of a photo, and hollow.
    assert_eq!(refused(hollow_png(5000, 5000)), Some(Refused::Damaged));
    let mut tall = jpeg(&busy(64, 64));
    let frame = tall.windows(2).position(|w| w == [0xff, 0xc0]).unwrap();
    tall[frame + 5..frame + 7].copy_from_slice(&2000_u16.to_be_bytes());
    assert_eq!(refused(tall), Some(Refused::Damaged));
    // Words that unpack to sixteen million letters.
    let mut packed = b"Comment\0\0".to_vec();
    packed.extend(zeros(16_000_000));
    let told = with_chunk(
        &png(&DynamicImage::ImageRgb8(corners(64, 64))),
        *b"zTXt",
        &packed,
    );
    let told = refused(told);
    assert_eq!(told, None, "words are no part of a picture");
}

/// So many zeros, packed: what stands in a black PNG.
fn zeros(count: usize) -> Vec<u8> {
    let mut image = Vec::new();
    let side = u32::try_from(count / 4096).unwrap();
    image.extend(png(&DynamicImage::new_luma8(4095, side)));
    let from = image.windows(4).position(|w| w == b"IDAT").unwrap();
    let length = u32::from_be_bytes(image[from - 4..from].try_into().unwrap());
    image[from + 4..from + 4 + usize::try_from(length).unwrap()].to_vec()
}

#[test]
fn law_a_photo_cut_short_anywhere_is_refused() {
    let picture = busy(120, 90);
    for whole in [
        from_camera(&jpeg(&picture), 6),
        png(&DynamicImage::ImageRgb8(picture.clone())),
    ] {
        assert_eq!(refused(whole.clone()), None);
        for cut in (3..whole.len()).step_by(97).chain([whole.len() - 1]) {
            let short = whole[..cut].to_vec();
            assert!(refused(short).is_some(), "cut at {cut} of {}", whole.len());
        }
    }
    let mut whole = jpeg(&picture);
    whole.truncate(whole.len() - 40);
    assert_eq!(refused(whole.clone()), Some(Refused::Cut));
    // An end put where it was cut does not make it whole.
    whole.truncate(whole.len() / 2);
    whole.extend([0xff, 0xd9]);
    assert_eq!(refused(whole), Some(Refused::Damaged));
}

#[test]
fn law_a_damaged_png_is_refused_wherever_it_is_damaged() {
    let whole = png(&DynamicImage::ImageRgb8(busy(120, 90)));
    for at in (33..whole.len() - 12).step_by(211) {
        let mut damaged = whole.clone();
        damaged[at] ^= 0x20;
        assert!(refused(damaged).is_some(), "damaged at {at}");
    }
}

#[test]
fn law_what_follows_a_picture_stays_behind() {
    let picture = jpeg(&corners(96, 64));
    let kept = |bytes: Vec<u8>| Photo::open(bytes).unwrap().keep().unwrap();
    let script = b"<script>alert(1)</script>PK\x03\x04 an archive".to_vec();
    assert_eq!(
        kept([picture.clone(), script.clone()].concat()),
        kept(picture.clone())
    );
    // Also inside, as a comment of the picture's own.
    assert_eq!(
        kept(with_pieces(&picture, &[(0xfe, script.clone())])),
        kept(picture)
    );
    let plain = png(&DynamicImage::ImageRgb8(corners(96, 64)));
    assert_eq!(kept([plain.clone(), script].concat()), kept(plain));
}

#[test]
fn law_a_kind_is_told_by_content_alone() {
    // A PNG called a JPEG is a PNG: there is no name to go by.
    assert_eq!(
        refused(png(&DynamicImage::ImageRgb8(corners(40, 40)))),
        None
    );
    // A JPEG's first bytes before a PNG are no picture.
    let mixed = [b"\xff\xd8\xff".to_vec(), png(&DynamicImage::new_rgb8(4, 4))].concat();
    assert!(matches!(
        refused(mixed),
        Some(Refused::Damaged | Refused::Cut)
    ));
    // A PNG whose first piece is not its head.
    let headless = [b"\x89PNG\r\n\x1a\n".to_vec(), chunk(*b"IDAT", b"x")].concat();
    assert_eq!(refused(headless), Some(Refused::Damaged));
}

#[test]
fn law_a_deep_picture_may_not_take_all_memory() {
    // 50 megapixels of eight bytes each: within the points, beyond the memory.
    let mut deep = hollow_png(10_000, 5_000);
    deep[24..26].copy_from_slice(&[16, 6]);
    let head = chunk(*b"IHDR", &deep[16..29]);
    deep[8..8 + head.len()].copy_from_slice(&head);
    assert_eq!(refused(deep), Some(Refused::Hungry));
}

#[test]
fn law_no_bytes_at_all_bring_it_down() {
    let whole = from_camera(&jpeg(&busy(60, 40)), 8);
    let other = png(&DynamicImage::ImageRgb8(busy(60, 40)));
    let mut state = 20_261_125_u64;
    let mut draw = || {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        usize::try_from(state >> 33).unwrap()
    };
    for _ in 0..600 {
        for bytes in [&whole, &other] {
            let mut bytes = bytes.clone();
            for _ in 0..=(draw() % 4) {
                let at = draw() % bytes.len();
                bytes[at] = u8::try_from(draw() % 256).unwrap();
            }
            // Refused or not, an answer comes back.
            let _ = refused(bytes);
        }
    }
}
