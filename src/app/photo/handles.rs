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
