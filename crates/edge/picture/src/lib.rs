//! A photo as it came, to the picture that is kept: bytes in, bytes out.
//!
//! What is kept is drawn anew from the light of the photo alone: upright, at most [`LONGEST_EDGE`]
//! long, with nothing beside the picture itself. Place, time, camera and whatever else travelled in
//! the file stay behind, because nothing of it is copied. The same bytes give the same picture, to
//! the last bit.
//!
//! What a photo is, its first bytes say; its name and what a browser calls it are not asked.
//! Nothing is mended: what is cut short, damaged or of another kind is refused with the way out.
//!
//! Colours are taken as they stand: a colour profile is left behind as well, so that a very vivid
//! red may come out a little paler.

mod jpeg;
mod png;
mod refused;

use image::codecs::jpeg::JpegEncoder;
use image::imageops::FilterType;
use image::metadata::Orientation;
use image::{DynamicImage, Rgb, RgbImage};

pub use refused::{Kind, Refused};

/// The most bytes a photo may have as it comes.
pub const MOST_BYTES: usize = 25_000_000;
/// The most megapixels a photo may have as it comes.
pub const MOST_MEGAPIXELS: u32 = 60;
/// The long edge of what is kept, in pixels; a smaller photo keeps its size.
pub const LONGEST_EDGE: u32 = 2560;
/// The long edge of the small picture, in pixels.
pub const THUMB_EDGE: u32 = 320;

/// The most bytes that the unpacked points of a photo may take.
const MOST_MEMORY: u64 = 256 * 1024 * 1024;
/// Good enough to read a part number, and small enough for two hundred in a job.
const QUALITY: u8 = 82;
const THUMB_QUALITY: u8 = 75;

/// What is kept of a photo.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// The picture, a JPEG.
    pub picture: Vec<u8>,
    /// The same, small.
    pub thumb: Vec<u8>,
    /// Its width in pixels, upright.
    pub width: u32,
    /// Its height in pixels, upright.
    pub height: u32,
}

/// A photo whose beginning was read: it is of a kind and a size that can be kept.
#[derive(Clone, Debug)]
pub struct Photo {
    bytes: Vec<u8>,
    kind: Format,
    megapixels: u32,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    Jpeg,
    Png,
}

impl Photo {
    /// Looks at the beginning of a photo: kind and size. Cheap, and before anything is unpacked.
    pub fn open(bytes: Vec<u8>) -> Result<Self, Refused> {
        if bytes.is_empty() {
            return Err(Refused::Empty);
        }
        if bytes.len() > MOST_BYTES {
            return Err(Refused::Heavy { bytes: bytes.len() });
        }
        let (kind, (width, height)) = if bytes.starts_with(&jpeg::BEGIN) {
            (Format::Jpeg, jpeg::size(&bytes)?)
        } else if bytes.starts_with(&png::BEGIN) {
            (Format::Png, png::size(&bytes)?)
        } else {
            return Err(Refused::Unfit(Kind::of(&bytes)));
        };
        if width == 0 || height == 0 {
            return Err(Refused::Damaged);
        }
        let pixels = u64::from(width) * u64::from(height);
        if pixels > u64::from(MOST_MEGAPIXELS) * 1_000_000 {
            return Err(Refused::Vast { width, height });
        }
        // Not more than MOST_MEGAPIXELS.
        let megapixels = u32::try_from(pixels.div_ceil(1_000_000)).unwrap_or(MOST_MEGAPIXELS);
        Ok(Self {
            bytes,
            kind,
            megapixels,
        })
    }

    /// How much work and memory it takes, from 1 to [`MOST_MEGAPIXELS`].
    pub fn megapixels(&self) -> u32 {
        self.megapixels
    }

    /// Unpacks it, turns it upright, and packs what is kept. Takes a good part of a second.
    pub fn keep(&self) -> Result<Kept, Refused> {
        let (image, orientation) = match self.kind {
            Format::Jpeg => jpeg::unpack(&self.bytes)?,
            Format::Png => png::unpack(&self.bytes)?,
        };
        // Turned after it is made small: that takes less of everything.
        let picture = upright(opaque(&fit(image, LONGEST_EDGE)), orientation);
        let (width, height) = picture.dimensions();
        let thumb = fit(DynamicImage::ImageRgb8(picture.clone()), THUMB_EDGE);
        Ok(Kept {
            thumb: pack(&thumb.into_rgb8(), THUMB_QUALITY)?,
            picture: pack(&picture, QUALITY)?,
            width,
            height,
        })
    }
}

/// No longer than `longest`; a smaller picture stays as it is.
fn fit(image: DynamicImage, longest: u32) -> DynamicImage {
    let (width, height) = (image.width(), image.height());
    let long = width.max(height);
    if long <= longest {
        return image;
    }
    let scaled = |edge: u32| {
        let (edge, longest, long) = (u64::from(edge), u64::from(longest), u64::from(long));
        // Not longer than it was.
        u32::try_from((edge * longest + long / 2) / long).map_or(1, |edge| edge.max(1))
    };
    image.resize_exact(scaled(width), scaled(height), FilterType::Triangle)
}

/// What can be seen through lies on white paper.
fn opaque(image: &DynamicImage) -> RgbImage {
    if !image.color().has_alpha() {
        return image.to_rgb8();
    }
    let seen = image.to_rgba8();
    RgbImage::from_fn(seen.width(), seen.height(), |x, y| {
        let [r, g, b, a] = seen.get_pixel(x, y).0.map(u16::from);
        let over = |c: u16| u8::try_from((c * a + 255 * (255 - a) + 127) / 255).unwrap_or(u8::MAX);
        Rgb([over(r), over(g), over(b)])
    })
}

fn upright(picture: RgbImage, orientation: Orientation) -> RgbImage {
    let mut picture = DynamicImage::ImageRgb8(picture);
    picture.apply_orientation(orientation);
    picture.into_rgb8()
}

fn pack(picture: &RgbImage, quality: u8) -> Result<Vec<u8>, Refused> {
    let mut bytes = Vec::new();
    let packed = JpegEncoder::new_with_quality(&mut bytes, quality).encode_image(picture);
    packed.map_err(|_| Refused::Damaged)?;
    Ok(bytes)
}
