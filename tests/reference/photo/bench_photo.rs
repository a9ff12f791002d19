//! The photo of 12 megapixels that the bench and OpenCV decode and search.

use curbcore::photo::Photo;
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

/// The rendered rectangle enlarged ten times, with noise, as a colour JPEG of 4000 × 3000 pixels.
pub fn jpeg() -> Vec<u8> {
    let bytes: &[u8] = include_bytes!("rectangle.png");
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
