//! One object on a bench in even light, with chosen camera, blur and noise: for tests of one step.

use curbcore::photo::Point;

use super::camera::Camera;
use super::layout::clutter;
use super::objects::{Core, Object, Outline};
use super::paint::{Bench, Paint};
use super::random::Random;
use super::render::Scene;

/// A flat rectangle with rounded corners, in millimetres.
pub fn rectangle(width: f64, height: f64, corner: f64) -> Outline {
    Outline::Rectangle(Point::new(width / 2.0, height / 2.0), corner)
}

/// An object 0.1 mm thick, its middle at the origin.
pub fn flat(outline: Outline, paint: Paint) -> Object {
    Object {
        outline,
        middle: Point::default(),
        turn: 0.0,
        low: 0.0,
        high: 0.1,
        paint,
        flank: 0.1,
        core: None,
    }
}

/// A core's face.
pub fn face(core: Core, light: f64) -> Object {
    Object {
        core: Some(core),
        ..flat(Outline::Rectangle(core.half(), 0.0), Paint::Iron(light, 0.2))
    }
}

/// A photo of one object that takes `share` of the picture's long side, the camera tilted by `tilt`
/// (radians) towards a random side and rolled by a random angle, the object anywhere in view.
pub fn alone(random: &mut Random, size: (usize, usize), object: Object, share: f64, tilt: f64) -> Scene {
    let long = size.0.max(size.1) as f64;
    let focal = long * random.between(0.75, 1.2);
    let across = match object.outline {
        Outline::Rectangle(half, _) => 2.0 * half.x.max(half.y),
        Outline::Disc(radius) => 2.0 * radius,
    };
    let distance = focal * across / (share * long);
    let (roll, lean) = (
        random.between(0.0, std::f64::consts::TAU),
        random.between(0.0, std::f64::consts::TAU),
    );
    let free = (0.5 * size.0.min(size.1) as f64 / focal * distance - 0.75 * across).max(0.0);
    let target = [random.between(-free, free), random.between(-free, free), 0.0];
    let eye = [
        target[0] + distance * tilt.sin() * lean.cos(),
        target[1] + distance * tilt.sin() * lean.sin(),
        distance * tilt.cos(),
    ];
    Scene {
        camera: Camera::new(size, focal, eye, target, roll),
        objects: vec![object],
        bench: (Bench::Plain, 0.2),
        lamp: ([0.0, 0.0, 1.0], 0.05),
        ambient: 1.0,
        vignette: 0.0,
        glare: None,
        exposure: 1.0,
        coarse: 1,
        blur: 0.8,
        motion: Point::default(),
        noise: 1.0,
        quality: 92,
        orientation: 1,
        focal_35mm: None,
        seed: random.below(1 << 20) as u64,
    }
}

/// Adds up to eight objects around the first one.
pub fn cluttered(mut scene: Scene, random: &mut Random) -> Scene {
    clutter(random, &mut scene.objects, 0);
    scene
}

/// The upper outline of the first object on the picture: corners, or 64 points of a disc.
pub fn outline(scene: &Scene) -> Vec<Point> {
    let object = &scene.objects[0];
    let own: Vec<Point> = match object.outline {
        Outline::Rectangle(h, _) => vec![Point::new(-h.x, -h.y), Point::new(h.x, -h.y), h, Point::new(-h.x, h.y)],
        Outline::Disc(radius) => (0..64)
            .map(|k| (f64::from(k) * std::f64::consts::TAU / 64.0).sin_cos())
            .map(|(sine, cosine)| Point::new(radius * cosine, radius * sine))
            .collect(),
    };
    own.into_iter()
        .map(|place| scene.camera.sees(object.place(place, object.high)))
        .collect()
}

/// Whether the first object is in the picture, `margin` pixels from the border.
pub fn is_in_view(scene: &Scene, margin: f64) -> bool {
    let (width, height) = (scene.camera.width as f64, scene.camera.height as f64);
    outline(scene)
        .iter()
        .all(|at| at.x > margin && at.y > margin && at.x < width - margin && at.y < height - margin)
}
