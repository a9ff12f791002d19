//! Handles: the points that a person drags to correct the outline of the object of known size.

use super::marks::reference_from_stored;
use crate::job::{PhotoFound, PhotoMarks, Place};
use crate::photo::ReferenceShape;

/// The handles of an outline: a rectangle's corners, the ends of an ellipse's long and short axis, a
/// rule's marks; none for the printed target.
#[must_use]
pub fn handles(found: &PhotoFound) -> Vec<Place> {
    match found {
        PhotoFound::Rectangle { corners } => corners.to_vec(),
        PhotoFound::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let along = |length: f64, angle: f64| [centre[0] + length * angle.cos(), centre[1] + length * angle.sin()];
            let across = angle + std::f64::consts::FRAC_PI_2;
            vec![
                along(half_axes[0], *angle),
                along(-half_axes[0], *angle),
                along(half_axes[1], across),
                along(-half_axes[1], across),
            ]
        }
        PhotoFound::Marks { points } => points.to_vec(),
        PhotoFound::Lattice { .. } => Vec::new(),
    }
}

/// An initial outline near the middle of the photo, for an object that was not found; `None` for the
/// printed target.
#[must_use]
pub fn default_outline(marks: &PhotoMarks) -> Option<PhotoFound> {
    let [w, h] = marks.frame;
    let at = |x: f64, y: f64| [w * x, h * y];
    Some(match reference_from_stored(&marks.reference).ok()?.shape() {
        ReferenceShape::Rectangle { .. } => PhotoFound::Rectangle {
            corners: [at(0.35, 0.4), at(0.65, 0.4), at(0.65, 0.6), at(0.35, 0.6)],
        },
        ReferenceShape::Disc { .. } => PhotoFound::Ellipse {
            centre: at(0.5, 0.5),
            half_axes: [w.min(h) * 0.1, w.min(h) * 0.1],
            angle: 0.0,
        },
        ReferenceShape::Marks { .. } => PhotoFound::Marks {
            points: [at(0.3, 0.5), at(0.7, 0.5)],
        },
        ReferenceShape::Lattice { .. } => return None,
    })
}

/// Whether an outline can lie on a face with these corners, clockwise as seen: its middle, and half of its
/// handles or the target's squares at least, are inside.
#[must_use]
pub(super) fn can_lie_on(found: &PhotoFound, face: &[Place; 4]) -> bool {
    let inside = |[x, y]: &Place| {
        (0..4).all(|index| {
            let ([x1, y1], [x2, y2]) = (face[index], face[(index + 1) % 4]);
            (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1) >= 0.0
        })
    };
    let points: Vec<Place> = match found {
        PhotoFound::Lattice { corners } => corners.iter().map(|(_, _, x, y)| [*x, *y]).collect(),
        // A rule may be longer than the face.
        PhotoFound::Marks { .. } => Vec::new(),
        _ => handles(found),
    };
    let all = if points.is_empty() {
        handles(found)
    } else {
        points.clone()
    };
    let mean = |axis: usize| all.iter().map(|point| point[axis]).sum::<f64>() / all.len().max(1) as f64;
    inside(&[mean(0), mean(1)]) && 2 * points.iter().filter(|point| inside(point)).count() >= points.len()
}

/// The outline after a handle was moved.
#[must_use]
pub fn with_handle_moved(found: &PhotoFound, handle: usize, place: Place) -> PhotoFound {
    let mut points = handles(found);
    if let Some(point) = points.get_mut(handle) {
        *point = place;
    }
    match (found, points.as_slice()) {
        (PhotoFound::Rectangle { .. }, &[a, b, c, d]) => PhotoFound::Rectangle { corners: [a, b, c, d] },
        (PhotoFound::Marks { .. }, &[a, b]) => PhotoFound::Marks { points: [a, b] },
        (
            PhotoFound::Ellipse {
                centre,
                half_axes,
                angle,
            },
            _,
        ) => {
            let out = [place[0] - centre[0], place[1] - centre[1]];
            let reach = out[0].hypot(out[1]).max(1.0);
            // An end of the long axis rotates and scales; an end of the short axis only scales.
            let (long, short, turn) = match handle {
                0 => (reach, half_axes[1], out[1].atan2(out[0])),
                1 => (reach, half_axes[1], (-out[1]).atan2(-out[0])),
                _ => (half_axes[0], reach, *angle),
            };
            PhotoFound::Ellipse {
                centre: *centre,
                half_axes: [long, short],
                angle: turn,
            }
        }
        _ => found.clone(),
    }
}

/// An ellipse with its centre moved to a point; other outlines are unchanged.
#[must_use]
pub fn with_centre_moved(found: &PhotoFound, place: Place) -> PhotoFound {
    match found {
        PhotoFound::Ellipse { half_axes, angle, .. } => PhotoFound::Ellipse {
            centre: place,
            half_axes: *half_axes,
            angle: *angle,
        },
        other => other.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// On a face of 100 by 80: a coin on it and a rule across it can lie there; a card beside it and a sheet below
    /// it cannot.
    #[test]
    fn what_lies_beside_a_face_or_below_it_is_told() {
        let face = [[100.0, 100.0], [200.0, 100.0], [200.0, 180.0], [100.0, 180.0]];
        let disc = |x: f64| PhotoFound::Ellipse {
            centre: [x, 140.0],
            half_axes: [20.0, 18.0],
            angle: 0.3,
        };
        let card = |left: f64, right: f64| PhotoFound::Rectangle {
            corners: [[left, 110.0], [right, 110.0], [right, 160.0], [left, 160.0]],
        };
        let sheet = PhotoFound::Rectangle {
            corners: [[50.0, 20.0], [260.0, 20.0], [260.0, 300.0], [50.0, 300.0]],
        };
        let rule = PhotoFound::Marks {
            points: [[80.0, 140.0], [220.0, 140.0]],
        };
        let target = |left: f64| PhotoFound::Lattice {
            corners: (0..9)
                .map(|index| (index, 0, left + 10.0 * f64::from(index), 120.0))
                .collect(),
        };
        for on in [disc(150.0), card(110.0, 190.0), card(130.0, 220.0), rule, target(105.0)] {
            assert!(can_lie_on(&on, &face), "{on:?}");
        }
        for off in [disc(240.0), card(210.0, 290.0), sheet, target(220.0)] {
            assert!(!can_lie_on(&off, &face), "{off:?}");
        }
    }

    #[test]
    fn handles_move_their_outline() {
        let disc = PhotoFound::Ellipse {
            centre: [100.0, 100.0],
            half_axes: [50.0, 40.0],
            angle: 0.0,
        };
        let moved_up = with_handle_moved(&disc, 2, [100.0, 190.0]);
        assert_eq!(handles(&moved_up)[2], [100.0, 190.0]);
        let PhotoFound::Ellipse { half_axes, .. } = moved_up else {
            panic!()
        };
        assert_eq!(half_axes, [50.0, 90.0]);
        let rule = PhotoFound::Marks {
            points: [[0.0, 0.0], [10.0, 0.0]],
        };
        assert_eq!(
            handles(&with_handle_moved(&rule, 1, [20.0, 5.0])),
            [[0.0, 0.0], [20.0, 5.0]]
        );
    }
}
