//! A telephone's photo of 12 megapixels, from the file to the reference found.
//!
//! Targets: no slower than the same steps in OpenCV on one core, side by side
//! (`tests/reference/photo/timing.sh`, with the figures of a run); within three times the decoding
//! alone; peak memory under six times the decoded grey picture.

#![allow(clippy::unwrap_used)]

use curbcore::photo::find::find_reference;
use curbcore::photo::{Photo, Reference};
use curbcore::quantity::{Length, Measured, Origin};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

/// Counts what is taken and given back.
#[global_allocator]
static MEMORY: divan::AllocProfiler = divan::AllocProfiler::system();

/// The rendered rectangle made ten times as large, with noise, as a JPEG of 4000 × 3000 in colour.
fn file() -> Vec<u8> {
    let bytes: &[u8] = include_bytes!("../tests/reference/photo/rectangle.png");
    let small = Photo::decode(bytes).unwrap();
    let gray = small.full();
    let mut state = 1_u64;
    let mut noise = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        ((state >> 40) & 7) as i32 - 3
    };
    let mut pixels = Vec::with_capacity(36_000_000);
    for y in 0..3000_usize {
        for x in 0..4000_usize {
            let at = |size: usize, most: usize| {
                let place = ((size as f64 + 0.5) / 10.0 - 0.5).clamp(0.0, most as f64 - 1.001);
                (place as usize, place.fract())
            };
            let ((u, fx), (v, fy)) = (at(x, 400), at(y, 300));
            let value = |u: usize, v: usize| f64::from(gray.row(v)[u]);
            let above = value(u, v) * (1.0 - fx) + value(u + 1, v) * fx;
            let below = value(u, v + 1) * (1.0 - fx) + value(u + 1, v + 1) * fx;
            let value = (above * (1.0 - fy) + below * fy) as i32 + noise();
            pixels.extend([value + 4, value, value - 6].map(|value| value.clamp(0, 255) as u8));
        }
    }
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, 88);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder.encode(&pixels, 4000, 3000, ColorType::Rgb).unwrap();
    bytes
}

fn reference() -> Reference {
    let exact = |mm| Measured::exact(Length::from_mm(mm), Origin::Calipers);
    Reference::Rectangle {
        width: exact(60.0),
        height: exact(40.0),
    }
}

fn main() {
    // For the same photo in another program.
    if let Ok(path) = std::env::var("PHOTO_FILE") {
        std::fs::write(path, file()).unwrap();
    }
    divan::main();
}

/// The decoding alone: the file's bytes to grey pixels, upright, and the reduced picture.
#[divan::bench(sample_count = 9, sample_size = 1)]
fn decode(bencher: divan::Bencher) {
    let bytes = file();
    bencher.bench_local(|| Photo::decode(&bytes).unwrap());
}

/// To the rectangle found.
#[divan::bench(sample_count = 9, sample_size = 1)]
fn decode_and_find(bencher: divan::Bencher) {
    let bytes = file();
    bencher.bench_local(|| find_reference(&Photo::decode(&bytes).unwrap(), &reference()).unwrap());
}
