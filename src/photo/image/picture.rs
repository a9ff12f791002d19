//! Decoding of a photo's file: JPEG or PNG, turned upright, in grey, at two sizes.

use crate::words::{Explain, Message};
use std::io::Cursor;

use zune_jpeg::JpegDecoder;
use zune_jpeg::zune_core::bytestream::ZCursor;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

use super::exif::{self, Exif};
use super::gray::{Gray, upright};
use crate::photo::Cancelled;
use crate::photo::geometry::Point;

/// Largest file, in bytes; a 100-megapixel JPEG has about 30 MB.
pub const MAX_BYTES: usize = 48 * 1024 * 1024;
/// Largest picture, in pixels.
pub const MAX_PIXELS: usize = 100_000_000;
/// Largest memory that a decoder may allocate for pixels and intermediate data, in bytes. A camera's
/// photo of 50 megapixels takes 200 MB as a progressive JPEG.
pub const MAX_MEMORY: usize = 256 * 1024 * 1024;
/// Smallest side, in pixels.
pub const MIN_SIDE: usize = 64;
/// Longest side of the reduced picture that objects are searched in, in pixels.
pub const WORKING_SIDE: usize = 1600;

/// Why a file cannot be used as a photo.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PictureError {
    /// Neither JPEG nor PNG.
    #[error("This file is neither a JPEG nor a PNG picture. Choose a photo in one of these forms.")]
    Unknown,
    /// HEIF, which many phones write by default.
    #[error(
        "This is a HEIF photo, which Curbcore cannot read. Set the camera to JPEG (\"most compatible\") and take the photo again, or export it as JPEG."
    )]
    Heif,
    /// Too many bytes.
    #[error("The file has {megabytes} MB; photos up to {most} MB can be read. Take the photo at a lower resolution.")]
    TooManyBytes {
        /// Its size.
        megabytes: usize,
        /// The limit.
        most: usize,
    },
    /// Too many pixels.
    #[error(
        "The photo has {width} × {height} pixels; up to 100 megapixels can be read. Take it at a lower resolution."
    )]
    TooLarge {
        /// Pixels across.
        width: usize,
        /// Pixels down.
        height: usize,
    },
    /// More memory than is allowed, for the way in which the file was saved.
    #[error(
        "Opening this photo takes {megabytes} MB of memory, and at most {most} MB are allowed. Save the photo as a plain (baseline) JPEG, or take it at a lower resolution."
    )]
    TooMuchMemory {
        /// What it takes.
        megabytes: usize,
        /// The limit.
        most: usize,
    },
    /// Too few pixels.
    #[error(
        "The photo has {width} × {height} pixels; it needs at least 64 each way. Use the photo as the camera took it."
    )]
    TooSmall {
        /// Pixels across.
        width: usize,
        /// Pixels down.
        height: usize,
    },
    /// The file stops before its end.
    #[error("The photo's file is cut short. Copy it from the camera again.")]
    CutShort,
    /// The person cancelled the decoding.
    #[error("Opening the photo was cancelled.")]
    Cancelled,
    /// Damaged, or of a rare kind.
    #[error(
        "The photo's file is damaged or of an unusual kind ({what}). Copy it from the camera again, or save it as a plain JPEG."
    )]
    Damaged {
        /// The decoder's message.
        what: String,
    },
}

impl Explain for PictureError {
    fn message(&self) -> Message {
        match self {
            PictureError::Unknown => Message::new("refused-picture"),
            PictureError::Heif => Message::new("refused-picture-heif"),
            PictureError::TooManyBytes { megabytes, most } => Message::new("refused-picture-bytes")
                .with("megabytes", megabytes)
                .with("most", most),
            PictureError::TooLarge { width, height } => Message::new("refused-picture-large")
                .with("width", width)
                .with("height", height),
            PictureError::TooMuchMemory { megabytes, most } => Message::new("refused-picture-memory")
                .with("megabytes", megabytes)
                .with("most", most),
            PictureError::TooSmall { width, height } => Message::new("refused-picture-small")
                .with("width", width)
                .with("height", height),
            PictureError::CutShort => Message::new("refused-picture-cut"),
            PictureError::Cancelled => Message::new("refused-cancelled"),
            PictureError::Damaged { .. } => Message::new("refused-picture-damaged"),
        }
    }
}

/// A photo, upright and grey: at full size for exact positions, and reduced for searching.
///
/// Positions in a photo are given in pixels of the full size.
#[derive(Debug, Clone)]
pub struct Photo {
    full: Gray,
    small: Option<Gray>,
    factor: usize,
    focal_35mm: Option<f64>,
}

impl Photo {
    /// Decodes a JPEG or PNG file, identified by its first bytes, and turns it upright by its Exif
    /// orientation.
    ///
    /// # Errors
    /// [`PictureError::TooManyBytes`], [`TooLarge`](PictureError::TooLarge) and
    /// [`TooSmall`](PictureError::TooSmall) before memory for pixels is allocated;
    /// [`Heif`](PictureError::Heif) and [`Unknown`](PictureError::Unknown) for other formats;
    /// [`CutShort`](PictureError::CutShort) and [`Damaged`](PictureError::Damaged) while decoding.
    pub fn decode(bytes: &[u8]) -> Result<Self, PictureError> {
        Self::decode_unless(bytes, &|| false)
    }

    /// As [`Photo::decode`], given up when `cancelled` says so. It is asked before and after the pixels of a
    /// JPEG, which are decoded in one piece, before each row of a PNG, and before the picture is turned and
    /// reduced.
    ///
    /// # Errors
    /// [`PictureError::Cancelled`], or those of [`Photo::decode`].
    pub fn decode_unless(bytes: &[u8], cancelled: Cancelled<'_>) -> Result<Self, PictureError> {
        go_on(cancelled)?;
        if bytes.len() > MAX_BYTES {
            return Err(PictureError::TooManyBytes {
                megabytes: bytes.len().div_ceil(1024 * 1024),
                most: MAX_BYTES / 1024 / 1024,
            });
        }
        let (gray, exif) = if bytes.starts_with(&[0xFF, 0xD8, 0xFF]) {
            (jpeg(bytes)?, exif::of_jpeg(bytes))
        } else if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
            png(bytes, cancelled)?
        } else if is_heif(bytes) {
            return Err(PictureError::Heif);
        } else {
            return Err(PictureError::Unknown);
        };
        go_on(cancelled)?;
        let gray = upright(gray, exif.orientation.unwrap_or(1));
        go_on(cancelled)?;
        let mut photo = Self::from_gray(gray)?;
        photo.focal_35mm = exif.focal_35mm;
        Ok(photo)
    }

    /// A photo from an upright grey picture.
    ///
    /// # Errors
    /// [`PictureError::TooSmall`] below 64 pixels, [`PictureError::TooLarge`] above 100
    /// megapixels.
    pub fn from_gray(full: Gray) -> Result<Self, PictureError> {
        check_size(full.width(), full.height())?;
        let factor = full.width().max(full.height()).div_ceil(WORKING_SIDE);
        let small =
            (factor > 1 && full.width().min(full.height()) / factor >= MIN_SIDE / 2).then(|| full.shrunk(factor));
        Ok(Self {
            factor: if small.is_some() { factor } else { 1 },
            full,
            small,
            focal_35mm: None,
        })
    }

    /// The picture at full size.
    #[must_use]
    pub const fn full(&self) -> &Gray {
        &self.full
    }

    /// The reduced picture; the full one where it is small already.
    #[must_use]
    pub fn working(&self) -> &Gray {
        self.small.as_ref().unwrap_or(&self.full)
    }

    /// Full-size pixels to one pixel of the reduced picture.
    #[must_use]
    pub const fn factor(&self) -> usize {
        self.factor
    }

    /// The 35 mm equivalent focal length from Exif, in millimetres.
    #[must_use]
    pub const fn focal_35mm(&self) -> Option<f64> {
        self.focal_35mm
    }

    /// The focal length from Exif in pixels of the full size, by a frame of 36 mm along the long
    /// side. Wrong for a cropped or digitally zoomed photo.
    #[must_use]
    pub fn focal_pixels(&self) -> Option<f64> {
        let long = self.full.width().max(self.full.height()) as f64;
        self.focal_35mm.map(|mm| mm / 36.0 * long)
    }

    /// A point of the reduced picture in pixels of the full size.
    #[must_use]
    pub fn to_full(&self, place: Point) -> Point {
        let factor = self.factor as f64;
        Point::new((place.x + 0.5) * factor - 0.5, (place.y + 0.5) * factor - 0.5)
    }

    /// A point of the full size in pixels of the reduced picture.
    #[must_use]
    pub fn to_reduced(&self, place: Point) -> Point {
        let factor = self.factor as f64;
        Point::new((place.x + 0.5) / factor - 0.5, (place.y + 0.5) / factor - 0.5)
    }
}

fn go_on(cancelled: Cancelled<'_>) -> Result<(), PictureError> {
    if cancelled() {
        Err(PictureError::Cancelled)
    } else {
        Ok(())
    }
}

fn check_size(width: usize, height: usize) -> Result<(), PictureError> {
    if width < MIN_SIDE || height < MIN_SIDE {
        return Err(PictureError::TooSmall { width, height });
    }
    if width.checked_mul(height).is_none_or(|pixels| pixels > MAX_PIXELS) {
        return Err(PictureError::TooLarge { width, height });
    }
    Ok(())
}

fn check_memory(bytes: usize) -> Result<(), PictureError> {
    if bytes > MAX_MEMORY {
        return Err(PictureError::TooMuchMemory {
            megabytes: bytes.div_ceil(1024 * 1024),
            most: MAX_MEMORY / 1024 / 1024,
        });
    }
    Ok(())
}

fn damaged(what: impl ToString) -> PictureError {
    PictureError::Damaged { what: what.to_string() }
}

/// Whether the file begins with an `ftyp` box of a still-picture brand (ISO 23008-12).
fn is_heif(bytes: &[u8]) -> bool {
    bytes.get(4..8) == Some(b"ftyp")
        && bytes.get(8..12).is_some_and(|brand| {
            [b"heic", b"heix", b"hevc", b"mif1", b"msf1", b"heim", b"avif"]
                .iter()
                .any(|known| brand == *known)
        })
}

fn jpeg(bytes: &[u8]) -> Result<Gray, PictureError> {
    if !jpeg_is_whole(bytes) {
        return Err(PictureError::CutShort);
    }
    let side = 1 << 15;
    let options = DecoderOptions::default()
        .set_max_width(side)
        .set_max_height(side)
        .jpeg_set_out_colorspace(ColorSpace::Luma);
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), options);
    decoder
        .decode_headers()
        .map_err(|error| damaged(format!("{error:?}")))?;
    let (width, height) = decoder.dimensions().ok_or_else(|| damaged("no size"))?;
    check_size(width, height)?;
    let grey = matches!(decoder.input_colorspace(), Some(ColorSpace::YCbCr | ColorSpace::Luma));
    // Each block of 8 × 8 pixels has at least one bit (ITU-T T.81, F.1.2): fewer bytes hold no photo of
    // this size, whatever the head says.
    if bytes.len() < width * height / 512 {
        return Err(PictureError::CutShort);
    }
    // Grey pixels are decoded in place; colours are decoded first, and then weighed.
    let pixels = width * height * if grey { 1 } else { 4 };
    check_memory(pixels.saturating_add(jpeg_coefficients(bytes)))?;
    if !grey {
        decoder.set_options(options.jpeg_set_out_colorspace(ColorSpace::RGB));
    }
    let pixels = decoder.decode().map_err(|error| damaged(format!("{error:?}")))?;
    let pixels = if grey { pixels } else { luma(&pixels, 3) };
    Gray::new(width, height, pixels).ok_or_else(|| damaged("pixels missing"))
}

/// The bytes that the decoder allocates for coefficients: two for each sample of each component where
/// the file is progressive or has a scan for each component; otherwise one row of blocks, counted as
/// 0.
fn jpeg_coefficients(bytes: &[u8]) -> usize {
    let (mut at, mut progressive, mut in_frame, mut samples) = (2, false, 0_u8, 0_usize);
    while let Some((marker, body)) = exif::segment(bytes, at) {
        at += 4 + body.len();
        match marker {
            0xC4 | 0xC8 | 0xCC => {}
            0xC0..=0xCF => {
                let &[_, h0, h1, w0, w1, count, ref components @ ..] = body else {
                    return 0;
                };
                let side = |high, low| usize::from(u16::from_be_bytes([high, low]));
                let factors: Vec<(usize, usize)> = components
                    .chunks_exact(3)
                    .map(|component| (usize::from(component[1] >> 4), usize::from(component[1] & 15)))
                    .collect();
                let most = |of: fn(&(usize, usize)) -> usize| factors.iter().map(of).max().unwrap_or(1).max(1);
                let (across, down) = (most(|f| f.0), most(|f| f.1));
                let units = side(w0, w1).div_ceil(8 * across) * side(h0, h1).div_ceil(8 * down);
                let parts: usize = factors.iter().map(|(h, v)| h * v).sum();
                // The decoder counts rows of units twice where it drops the colours of such a file.
                samples = samples.max(units * parts * 64 * down.div_ceil(across));
                progressive |= !matches!(marker, 0xC0 | 0xC1);
                in_frame = in_frame.max(count);
            }
            0xDA => {
                let in_scan = body.first().copied().unwrap_or_default();
                return if progressive || in_scan < in_frame {
                    2 * samples
                } else {
                    0
                };
            }
            _ => {}
        }
    }
    0
}

/// Whether the end marker follows the first scan; inside a scan 0xFF is never followed by 0xD9
/// (ITU-T T.81, B.1.1.5).
fn jpeg_is_whole(bytes: &[u8]) -> bool {
    let mut at = 2;
    while let Some((marker, body)) = exif::segment(bytes, at) {
        at += 4 + body.len();
        if marker == 0xDA {
            // Searched from the end, where it is in every whole file.
            return bytes[at..].windows(2).rev().any(|pair| pair == [0xFF, 0xD9]);
        }
    }
    false
}

fn png(bytes: &[u8], cancelled: Cancelled<'_>) -> Result<(Gray, Exif), PictureError> {
    let cut_or_damaged = |error: png::DecodingError| match error {
        png::DecodingError::IoError(error) if error.kind() == std::io::ErrorKind::UnexpectedEof => {
            PictureError::CutShort
        }
        error => damaged(error),
    };
    // Memory for rows and metadata; the pixels are bounded by `check_size` below.
    let limits = png::Limits {
        bytes: 64 * 1024 * 1024,
    };
    let mut decoder = png::Decoder::new_with_limits(Cursor::new(bytes), limits);
    decoder.set_ignore_text_chunk(true);
    decoder.set_ignore_iccp_chunk(true);
    decoder.set_transformations(png::Transformations::EXPAND | png::Transformations::STRIP_16);
    let header = decoder.read_header_info().map_err(cut_or_damaged)?;
    check_size(header.width as usize, header.height as usize)?;
    let mut reader = decoder.read_info().map_err(cut_or_damaged)?;
    let (width, height) = (reader.info().width as usize, reader.info().height as usize);
    let samples = reader.output_color_type().0.samples();
    let mut pixels = Vec::new();
    if reader.info().interlaced {
        let size = reader.output_buffer_size().ok_or_else(|| damaged("size"))?;
        check_memory(size.saturating_add(width * height))?;
        let mut whole = vec![0; size];
        reader.next_frame(&mut whole).map_err(cut_or_damaged)?;
        pixels = luma(&whole, samples);
    } else {
        pixels.reserve_exact(width * height);
        while let Some(row) = reader.next_row().map_err(cut_or_damaged)? {
            pixels.extend(luma(row.data(), samples));
            go_on(cancelled)?;
        }
    }
    let exif = reader
        .info()
        .exif_metadata
        .as_deref()
        .map(exif::read)
        .unwrap_or_default();
    let gray = Gray::new(width, height, pixels).ok_or(PictureError::CutShort)?;
    Ok((gray, exif))
}

/// Luma by ITU-R BT.601, as in JPEG; an alpha channel is ignored.
pub(crate) fn luma(pixels: &[u8], samples: usize) -> Vec<u8> {
    if samples < 3 {
        return pixels.iter().step_by(samples.max(1)).copied().collect();
    }
    let weigh = |p: &[u8]| (299 * u32::from(p[0]) + 587 * u32::from(p[1]) + 114 * u32::from(p[2]) + 500) / 1000;
    pixels.chunks_exact(samples).map(|pixel| weigh(pixel) as u8).collect()
}
