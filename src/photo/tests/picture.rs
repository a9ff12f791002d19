//! Files of photos: whole, turned, cut short, damaged.

use std::cell::Cell;

use crate::photo::image::picture::{Photo, PictureError};
use crate::photo::{Gray, Point};

/// A PNG of a ramp, brighter to the right and darker below, with these samples to a pixel.
pub(super) fn png_file(width: u32, height: u32, color: png::ColorType, exif: Option<Vec<u8>>) -> Vec<u8> {
    let samples = color.samples();
    let pixel = |index: u32| {
        let (x, y) = (index % width, index / width);
        vec![(100 + x - y.min(90)) as u8; samples]
    };
    let data: Vec<u8> = (0..width * height).flat_map(pixel).collect();
    let mut info = png::Info::with_size(width, height);
    info.color_type = color;
    info.bit_depth = png::BitDepth::Eight;
    info.exif_metadata = exif.map(Into::into);
    let mut bytes = Vec::new();
    png::Encoder::with_info(&mut bytes, info)
        .unwrap()
        .write_header()
        .unwrap()
        .write_image_data(&data)
        .unwrap();
    bytes
}

/// A TIFF block with an orientation and, in its second directory, a focal length.
pub(super) fn exif(big: bool, orientation: u16, focal_35mm: u16) -> Vec<u8> {
    let two = |value: u16| if big { value.to_be_bytes() } else { value.to_le_bytes() };
    let four = |value: u32| if big { value.to_be_bytes() } else { value.to_le_bytes() };
    let mut block = if big { b"MM".to_vec() } else { b"II".to_vec() };
    block.extend(two(42));
    block.extend(four(8));
    block.extend(two(2));
    let mut entry = |tag: u16, kind: u16, value: [u8; 4]| {
        block.extend(two(tag));
        block.extend(two(kind));
        block.extend(four(1));
        block.extend(value);
    };
    let short = |value: u16| [two(value)[0], two(value)[1], 0, 0];
    entry(0x0112, 3, short(orientation));
    entry(0x8769, 4, four(38));
    block.extend([0; 4]);
    block.extend(two(1));
    block.extend(two(0xA405));
    block.extend(two(3));
    block.extend(four(1));
    block.extend(short(focal_35mm));
    block
}

/// A JPEG of one grey value, written by hand from ITU-T T.81: baseline, one component, every block
/// the same: a DC difference of zero and an end of block.
pub(super) fn jpeg_file(width: u16, height: u16, exif: Option<Vec<u8>>) -> Vec<u8> {
    let mut bytes = vec![0xFF, 0xD8];
    let mut segment = |marker: u8, body: &[u8]| {
        bytes.extend([0xFF, marker]);
        bytes.extend((body.len() as u16 + 2).to_be_bytes());
        bytes.extend(body);
    };
    if let Some(tiff) = exif {
        segment(0xE1, &[b"Exif\0\0".to_vec(), tiff].concat());
    }
    segment(0xDB, &[vec![0], vec![1; 64]].concat());
    let [h, w] = [height.to_be_bytes(), width.to_be_bytes()];
    segment(0xC0, &[8, h[0], h[1], w[0], w[1], 1, 1, 0x11, 0]);
    // One code of one bit for DC category 0, one for AC end of block.
    for class in [0x00, 0x10] {
        segment(0xC4, &[vec![class, 1], vec![0; 15], vec![0]].concat());
    }
    segment(0xDA, &[1, 1, 0x00, 0, 63, 0]);
    let blocks = usize::from(width.div_ceil(8)) * usize::from(height.div_ceil(8));
    // Two bits of 0 for each block, the rest of the last byte filled with 1.
    bytes.extend(vec![0; blocks / 4]);
    if blocks % 4 > 0 {
        bytes.push(0xFF >> (2 * (blocks % 4)));
    }
    bytes.extend([0xFF, 0xD9]);
    bytes
}

fn sides(photo: &Photo) -> (usize, usize) {
    (photo.full().width(), photo.full().height())
}

#[test]
fn png_of_every_colour() {
    for color in [
        png::ColorType::Grayscale,
        png::ColorType::GrayscaleAlpha,
        png::ColorType::Rgb,
        png::ColorType::Rgba,
    ] {
        let photo = Photo::decode(&png_file(100, 70, color, None)).unwrap();
        assert_eq!(sides(&photo), (100, 70));
        assert_eq!(photo.full().row(0)[0..3], [100, 101, 102], "{color:?}");
        assert_eq!(photo.full().row(69)[99], 130);
        assert_eq!(photo.factor(), 1);
    }
}

#[test]
fn jpeg_of_one_grey() {
    let photo = Photo::decode(&jpeg_file(120, 66, None)).unwrap();
    assert_eq!(sides(&photo), (120, 66));
    assert!(photo.full().pixels().iter().all(|&value| value == 128));
}

/// Where the first pixel of the file goes, for each value (Exif 2.3, tag 0x0112: the sides of the
/// scene that row 0 and column 0 show).
#[test]
fn every_orientation() {
    let corners = [(0, 0), (99, 0), (99, 69), (0, 69), (0, 0), (69, 0), (69, 99), (0, 99)];
    // The file's second pixel in its first row is one to the right of the first in the scene,
    // or to the left, or below, or above.
    let steps = [(1, 0), (-1, 0), (-1, 0), (1, 0), (0, 1), (0, 1), (0, -1), (0, -1)];
    for (index, (corner, step)) in corners.into_iter().zip(steps).enumerate() {
        let orientation = index as u16 + 1;
        for big in [false, true] {
            let bytes = png_file(100, 70, png::ColorType::Grayscale, Some(exif(big, orientation, 26)));
            let photo = Photo::decode(&bytes).unwrap();
            assert_eq!(sides(&photo), if orientation < 5 { (100, 70) } else { (70, 100) });
            let at = |(x, y): (i32, i32)| photo.full().row(y as usize)[x as usize];
            assert_eq!(at(corner), 100, "{orientation}");
            assert_eq!(at((corner.0 + step.0, corner.1 + step.1)), 101, "{orientation}");
            assert_eq!(photo.focal_35mm(), Some(26.0));
            assert!((photo.focal_pixels().unwrap() - 26.0 / 36.0 * 100.0).abs() < 1e-9);
        }
    }
    let turned = Photo::decode(&jpeg_file(120, 66, Some(exif(true, 6, 28)))).unwrap();
    assert_eq!((sides(&turned), turned.focal_35mm()), ((66, 120), Some(28.0)));
    let senseless = Photo::decode(&jpeg_file(120, 66, Some(exif(true, 9, 0)))).unwrap();
    assert_eq!((sides(&senseless), senseless.focal_35mm()), ((120, 66), None));
}

/// Cut at every length: an error and no panic, and for a photo that has begun: that it is cut.
#[test]
fn cut_short_at_every_length() {
    let files = [
        jpeg_file(72, 66, Some(exif(false, 6, 26))),
        png_file(72, 66, png::ColorType::Rgb, Some(exif(true, 3, 26))),
    ];
    for bytes in files {
        assert!(Photo::decode(&bytes).is_ok());
        for length in 0..bytes.len() {
            let result = Photo::decode(&bytes[..length]);
            // The last bytes of a PNG say only that it ends.
            let all_pixels = bytes.starts_with(b"\x89PNG") && length + 80 > bytes.len();
            assert!(all_pixels || result.is_err(), "{length} of {}", bytes.len());
        }
        assert_eq!(
            Photo::decode(&bytes[..bytes.len() - 100]).err(),
            Some(PictureError::CutShort)
        );
    }
}

/// Bytes changed one after the other, and in bunches: whatever comes out, no panic and no more
/// pixels than the limit.
#[test]
fn damaged_bytes() {
    let files = [
        jpeg_file(72, 66, Some(exif(false, 6, 26))),
        png_file(72, 66, png::ColorType::Rgb, Some(exif(true, 3, 26))),
    ];
    for bytes in files {
        for index in 0..bytes.len().min(700) {
            for flip in [0x01, 0x80, 0xFF] {
                let mut changed = bytes.clone();
                changed[index] ^= flip;
                let _ = Photo::decode(&changed);
            }
        }
        let mut random = super::numbers::Numbers::new(3);
        for _ in 0..200 {
            let mut changed = bytes.clone();
            for _ in 0..8 {
                let index = random.below(changed.len());
                changed[index] = random.below(256) as u8;
            }
            let _ = Photo::decode(&changed);
        }
    }
}

#[test]
fn refusals_name_the_way_out() {
    let error = |bytes: &[u8]| Photo::decode(bytes).unwrap_err();
    assert_eq!(error(b""), PictureError::Unknown);
    assert_eq!(error(b"GIF89a"), PictureError::Unknown);
    assert_eq!(error(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic"), PictureError::Heif);
    assert!(error(b"\0\0\0\x18ftypheic\0\0\0\0").to_string().contains("JPEG"));
    let small = png_file(63, 80, png::ColorType::Grayscale, None);
    assert_eq!(error(&small), PictureError::TooSmall { width: 63, height: 80 });
    // A header that promises more pixels than memory: refused before any room is taken.
    assert_eq!(
        error(&jpeg_header(30_000, 30_000)),
        PictureError::TooLarge {
            width: 30_000,
            height: 30_000
        }
    );
    // A head of a few hundred bytes that promises the largest size allowed.
    assert_eq!(error(&jpeg_header(10_000, 10_000)), PictureError::CutShort);
    // Enough bytes, but four components of which every coefficient is kept until the end.
    let mut progressive = jpeg_header(8_000, 8_000);
    let at = progressive.windows(2).position(|pair| pair == [0xFF, 0xC0]).unwrap();
    let components = [0x11, 0, 2, 0x11, 0, 3, 0x11, 0, 4, 0x11, 0];
    progressive.splice(at + 11..at + 13, components);
    progressive[at + 1] = 0xC2;
    progressive[at + 3] += 9;
    progressive[at + 9] = 4;
    let end = progressive.len() - 2;
    progressive.splice(end..end, vec![0; 200_000]);
    let message = error(&progressive).to_string();
    assert!(message.contains("MB of memory"), "{message}");
    let most = vec![0xFF; crate::photo::image::picture::MAX_BYTES + 1];
    assert!(matches!(
        error(&most),
        PictureError::TooManyBytes {
            megabytes: 49,
            most: 48
        }
    ));
}

/// The start of a JPEG of that size, and its end.
fn jpeg_header(width: u16, height: u16) -> Vec<u8> {
    let mut bytes = jpeg_file(72, 66, None);
    let at = bytes.windows(2).position(|pair| pair == [0xFF, 0xC0]).unwrap();
    bytes[at + 5..at + 7].copy_from_slice(&height.to_be_bytes());
    bytes[at + 7..at + 9].copy_from_slice(&width.to_be_bytes());
    bytes
}

/// Reduced by the mean of squares; a place keeps its meaning.
#[test]
fn working_size() {
    let pixels = (0..3300 * 99).map(|index| (index % 3300 % 250) as u8).collect();
    let photo = Photo::from_gray(Gray::new(3300, 99, pixels).unwrap()).unwrap();
    assert_eq!(photo.factor(), 3);
    assert_eq!((photo.working().width(), photo.working().height()), (1100, 33));
    assert_eq!(photo.working().row(5)[4], 13);
    // The middle of three pixels is the middle one.
    assert_eq!(photo.to_full(Point::new(4.0, 5.0)), Point::new(13.0, 16.0));
}

/// Decoding that is cancelled ends: a PNG at its next row, a JPEG before or after its pixels.
#[test]
fn cancelled_decoding_ends() {
    let png = png_file(80, 70, png::ColorType::Rgb, None);
    for (bytes, least) in [(png, 70), (jpeg_file(80, 64, None), 3)] {
        let asked = Cell::new(0);
        let decode = |stop_at: u32| {
            asked.set(0);
            Photo::decode_unless(&bytes, &|| {
                asked.set(asked.get() + 1);
                asked.get() > stop_at
            })
        };
        decode(u32::MAX).unwrap();
        let all = asked.get();
        assert!(all >= least, "asked {all} times");
        for stop_at in 0..all {
            assert_eq!(decode(stop_at).unwrap_err(), PictureError::Cancelled);
            assert_eq!(asked.get(), stop_at + 1, "it went on");
        }
    }
}
