//! Places put by hand near known edges.

use super::scene::{Random, Scene, Subject};
use crate::photo::snap::snap;
use crate::photo::{Gray, Point};

fn scene() -> Scene {
    let mut random = Random::new(4);
    let mut scene = Scene::new(&mut random, (400, 300), Subject::Rectangle(60.0, 40.0, 0.0), 0.6, 0.2);
    scene.noise = 1.5;
    scene.fine = 4;
    scene
}

/// How far a place is from the line through two others.
fn off(place: Point, from: Point, to: Point) -> f64 {
    ((to - from).cross(place - from) / from.distance(to)).abs()
}

#[test]
fn snaps_to_a_rendered_side() {
    let scene = scene();
    let gray = scene.render();
    let corners: Vec<Point> = scene.outline().iter().map(|place| scene.project(*place)).collect();
    for side in 0..4 {
        let (from, to) = (corners[side], corners[(side + 1) % 4]);
        let along = (to - from) * (1.0 / from.distance(to));
        let across = Point::new(-along.y, along.x);
        for shift in [-6.0, -2.5, 3.0, 7.0] {
            let place = from + (to - from) * 0.45 + across * shift;
            for direction in [None, Some(across), Some(across * 3.0 + along)] {
                let snapped = snap(&gray, place, direction, 10.0).unwrap();
                assert!(
                    off(snapped.place, from, to) < 0.2,
                    "side {side} {shift} {direction:?}: {snapped:?}"
                );
                assert!(snapped.noise < 0.3 && snapped.strength > 0.05, "{snapped:?}");
                assert!(snapped.place.distance(place) < 14.0);
                // Towards the bright reference, which lies to the right of a clockwise side.
                assert!(snapped.across.dot(across) > 0.8, "{snapped:?}");
            }
        }
    }
}

#[test]
fn nothing_near_is_none() {
    let plain = Gray::new(100, 100, vec![77; 10_000]).unwrap();
    for direction in [
        None,
        Some(Point::new(1.0, 0.0)),
        Some(Point::default()),
        Some(Point::new(f64::NAN, 0.0)),
    ] {
        assert_eq!(snap(&plain, Point::new(50.0, 50.0), direction, 10.0), None);
    }
    for place in [Point::new(-3.0, 5.0), Point::new(f64::NAN, 5.0), Point::new(5.0, 1e300)] {
        assert_eq!(snap(&plain, place, None, f64::INFINITY), None);
    }
}

/// The more noise in the picture, the more is owned up to.
#[test]
fn noise_is_owned_up_to() {
    let spread = |noise: f64| {
        let mut scene = scene();
        scene.noise = noise;
        let gray = scene.render();
        let corners: Vec<Point> = scene.outline().iter().map(|place| scene.project(*place)).collect();
        let place = corners[0] + (corners[1] - corners[0]) * 0.5;
        snap(&gray, place, None, 6.0).unwrap().noise
    };
    let (little, much) = (spread(1.0), spread(12.0));
    assert!(much > 2.0 * little, "{little} {much}");
}
