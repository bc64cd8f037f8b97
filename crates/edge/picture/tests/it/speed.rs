//! How long one photo takes.

use std::time::Instant;

use image::{Rgb, RgbImage};
use picture::Photo;

use crate::make::{from_camera, jpeg};

#[test]
#[ignore = "takes minutes: cargo xtask study photo runs it"]
fn photo_study() {
    let photo = RgbImage::from_fn(4032, 3024, |x, y| {
        // Slopes, edges and grain, so that it packs as a photo does.
        let grain = (x.wrapping_mul(2_654_435_761) ^ y.wrapping_mul(2_246_822_519)) >> 27;
        let edge = if (x / 97 + y / 61).is_multiple_of(3) {
            60
        } else {
            0
        };
        Rgb([x / 20, y / 16, (x + y) / 32]
            .map(|c| u8::try_from((c + grain + edge).min(255)).unwrap()))
    });
    let bytes = from_camera(&jpeg(&photo), 6);
    println!("| step | time, ms | bytes |\n|---|---|---|");
    println!("| as it came, 4032 × 3024 | | {} |", bytes.len());
    let mut times = Vec::new();
    let mut kept = None;
    let runs = std::env::var("PUMPWRIGHT_PHOTOS").map_or(3, |text| text.parse().unwrap());
    for _ in 0..runs {
        let photo = Photo::open(bytes.clone()).unwrap();
        let start = Instant::now();
        kept = Some(photo.keep().unwrap());
        times.push(start.elapsed().as_millis());
    }
    times.sort_unstable();
    let kept = kept.unwrap();
    println!(
        "| unpack, turn, scale, pack: median | {} | {} |",
        times[times.len() / 2],
        kept.picture.len()
    );
    println!("| of it the small picture | | {} |", kept.thumb.len());
}
