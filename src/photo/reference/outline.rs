//! A reference's outline in a picture, as found or as corrected by a person.

use crate::photo::geometry::Point;

/// The outline of a reference in a picture, in pixels.
#[derive(Debug, Clone, PartialEq)]
pub enum ReferenceOutline {
    /// The four corners of a rectangle, clockwise as seen, the first side (corner 0 to corner 1)
    /// being the reference's width. A corner is the intersection of straight sides, also where the
    /// object's corner is round.
    Rectangle([Point; 4]),
    /// The ellipse that is a disc's outline.
    Ellipse {
        /// The centre.
        centre: Point,
        /// Half the long axis, half the short axis.
        half_axes: (f64, f64),
        /// The long axis's angle from the picture's x axis towards its y axis, radians.
        angle: f64,
    },
    /// Corners of the printed target's squares, each with its column and row. Origin and rotation of
    /// the lattice are arbitrary; lengths do not depend on them.
    Lattice(Vec<(i32, i32, Point)>),
    /// Two marks of a steel rule.
    Marks([Point; 2]),
}
