//! Blur, glare and darkness in rendered photos.

use super::scene::{Ground, Random, Scene, Subject};
use crate::photo::Gray;
use crate::photo::edges::Edges;
use crate::photo::quality::{Flaw, Quality};

fn scene() -> Scene {
    let mut random = Random::new(8);
    let mut scene = Scene::new(&mut random, (400, 300), Subject::Rectangle(85.6, 53.98, 3.18), 0.5, 0.2);
    scene.ground = Ground::Wood;
    scene
}

fn judged(gray: &Gray) -> (Quality, Vec<Flaw>) {
    let quality = Quality::of(gray, &Edges::of(gray), 1);
    (quality, quality.flaws(1))
}

#[test]
fn blur_is_seen() {
    let mut widths = Vec::new();
    for blur in [0.7, 1.5, 3.0, 5.0] {
        let mut scene = scene();
        scene.blur = blur;
        let (quality, flaws) = judged(&scene.render());
        widths.push(quality.edge_width.unwrap());
        assert_eq!(flaws.contains(&Flaw::Blurred), blur > 2.5, "{blur}: {quality:?}");
    }
    assert!(widths.is_sorted(), "{widths:?}");
}

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
    let (quality, _) = judged(&Gray::new(200, 120, pixels).unwrap());
    assert!((quality.edge_width.unwrap() - 6.0).abs() < 0.6, "{quality:?}");
}

#[test]
fn glare_and_darkness_are_seen() {
    let mut bright = scene();
    (bright.subject_light, bright.ground_light) = (1.4, 0.3);
    let (quality, flaws) = judged(&bright.render());
    assert!(quality.glare > 0.1 && flaws.contains(&Flaw::Glare), "{quality:?}");
    let mut dark = scene();
    (dark.subject_light, dark.ground_light) = (0.03, 0.01);
    let (quality, flaws) = judged(&dark.render());
    assert!(quality.brightness < 60 && flaws.contains(&Flaw::Dark), "{quality:?}");
    assert_eq!(judged(&scene().render()).1, []);
}
