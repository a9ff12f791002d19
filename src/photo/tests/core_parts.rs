//! Proposed parts of a core's face without edges, and invalid corners. Rendered faces are in
//! `tests/reference/photo/rendered.rs`.

use crate::photo::find::core_parts::suggest_face;
use crate::photo::{Gray, Point};

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
