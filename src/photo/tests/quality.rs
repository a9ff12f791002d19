//! The width of a known edge.

use crate::photo::Gray;
use crate::photo::image::edges::Edges;
use crate::photo::image::quality::Quality;

/// A step of light blurred by σ = 2 pixels is spread over √(2π) σ = 5.0 pixels; the smoothing
/// before the gradient (variance 1) and the gradient's own (about 0.8) make it 6.0.
#[test]
fn width_of_a_known_edge() {
    let value = |x: usize| {
        let z = (x as f64 - 100.0) / (2.0 * std::f64::consts::SQRT_2);
        // Abramowitz and Stegun 7.1.26.
        let t = 1.0 / (1.0 + 0.327_591_1 * z.abs());
        let series = [
            0.254_829_592,
            -0.284_496_736,
            1.421_413_741,
            -1.453_152_027,
            1.061_405_429,
        ];
        let poly = series.iter().rev().fold(0.0, |sum, c| (sum + c) * t);
        let erf = (1.0 - poly * (-z * z).exp()) * z.signum();
        (120.0 + 80.0 * erf).round() as u8
    };
    let pixels = (0..200 * 120).map(|index| value(index % 200)).collect();
    let gray = Gray::new(200, 120, pixels).unwrap();
    let quality = Quality::of(&gray, &Edges::of(&gray), 1);
    assert!((quality.edge_width.unwrap() - 6.0).abs() < 0.6, "{quality:?}");
}
