//! Proposed parts of rendered core faces.

use super::scene::{Ground, Random, Scene, Subject};
use crate::photo::suggest::suggest_face;
use crate::photo::{Gray, Point};

/// Width, height, limb, tongue, yoke in millimetres: the usual proportions, a thick tongue, narrow
/// windows, a wide yoke.
const FACES: [[f64; 5]; 4] = [
    [90.0, 75.0, 15.0, 30.0, 15.0],
    [84.0, 70.0, 12.0, 32.0, 14.0],
    [100.0, 70.0, 20.0, 38.0, 18.0],
    [75.0, 62.5, 12.5, 25.0, 16.0],
];

#[test]
fn edges_of_rendered_faces() {
    let mut random = Random::new(21);
    for (index, face) in FACES.into_iter().enumerate() {
        let [width, height, limb, tongue, yoke] = face;
        let mut scene = Scene::new(&mut random, (480, 360), Subject::Face(face), 0.45, 0.25);
        (scene.subject_light, scene.ground_light, scene.noise) = (0.35, 0.1, 2.0);
        scene.ground = Ground::Wood;
        assert!(scene.is_in_view(2.0), "{index}");
        let gray = scene.render();
        let corners: Vec<Point> = scene.outline().iter().map(|place| scene.project(*place)).collect();
        let suggestion = suggest_face(&gray, &[corners[0], corners[1], corners[2], corners[3]]).unwrap();
        assert!(
            suggestion.across_trust > 0.6 && suggestion.down_trust > 0.6,
            "{index}: {suggestion:?}"
        );
        let near = |place: Point, x: Option<f64>, y: Option<f64>| {
            let found = scene.unproject(place);
            let off = x
                .map_or(0.0, |x| (found.x - x).abs())
                .max(y.map_or(0.0, |y| (found.y - y).abs()));
            // 1.5 pixels, in millimetres here.
            let pixel = 1.5 * width / corners[0].distance(corners[1]);
            assert!(off < pixel, "{index}: {found:?} {x:?} {y:?}, {pixel} mm");
        };
        let inner = (width - tongue) / 2.0;
        for (places, expected) in [
            (suggestion.left_window, [limb, inner]),
            (suggestion.tongue, [inner, width - inner]),
            (suggestion.right_window, [width - inner, width - limb]),
        ] {
            near(places[0], Some(expected[0]), None);
            near(places[1], Some(expected[1]), None);
        }
        near(suggestion.window_height[0], None, Some(yoke));
        near(suggestion.window_height[1], None, Some(height - yoke));
    }
}

/// Without edges: the usual proportions, and no trust in them.
#[test]
fn a_plain_face_is_a_guess() {
    let plain = Gray::new(300, 200, vec![120; 60_000]).unwrap();
    let corners = [
        Point::new(30.0, 25.0),
        Point::new(270.0, 25.0),
        Point::new(270.0, 175.0),
        Point::new(30.0, 175.0),
    ];
    let suggestion = suggest_face(&plain, &corners).unwrap();
    assert_eq!((suggestion.across_trust, suggestion.down_trust), (0.0, 0.0));
    assert!((suggestion.tongue[0].x - 110.0).abs() < 1.0 && (suggestion.tongue[1].x - 190.0).abs() < 1.0);
}

#[test]
fn senseless_corners_are_none() {
    let plain = Gray::new(300, 200, vec![120; 60_000]).unwrap();
    let at = |places: [(f64, f64); 4]| suggest_face(&plain, &places.map(|(x, y)| Point::new(x, y)));
    assert_eq!(at([(5.0, 5.0), (5.0, 5.0), (5.0, 5.0), (5.0, 5.0)]), None);
    assert_eq!(at([(5.0, 5.0), (5.0, 90.0), (90.0, 90.0), (90.0, 5.0)]), None);
    assert_eq!(at([(5.0, 5.0), (900.0, 5.0), (900.0, 90.0), (5.0, 90.0)]), None);
    assert_eq!(at([(5.0, 5.0), (f64::NAN, 5.0), (90.0, 90.0), (5.0, 90.0)]), None);
}
