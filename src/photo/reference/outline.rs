//! A reference as it was found in a picture, or as a person corrected it.

use super::point::Point;

/// Where the reference lies in the picture (pixels).
#[derive(Debug, Clone, PartialEq)]
pub enum Found {
    /// A rectangle by its four corners, in the order along its outline, clockwise as seen, the
    /// first side (corner 0 to corner 1) being the reference's width. The corners are where its
    /// straight edges meet: a card's corners are round.
    Rectangle([Point; 4]),
    /// A disc by its outline: an ellipse.
    Ellipse {
        /// Its centre.
        centre: Point,
        /// Half the long axis, half the short axis.
        half_axes: (f64, f64),
        /// The long axis's angle from the picture's x axis towards its y axis, radians.
        angle: f64,
    },
    /// Corners of the printed target's squares, each with its column and row. Where the lattice
    /// begins and which way it is turned does not matter: lengths are the same.
    Lattice(Vec<(i32, i32, Point)>),
    /// Two marks of a steel rule.
    Marks([Point; 2]),
}
