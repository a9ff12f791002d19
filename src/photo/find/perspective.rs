//! A rectangle in perspective: the homography of the unit square in closed form.

use crate::photo::geometry::Point;

/// Ratio of consecutive trial focal lengths; twelve steps make 3.2.
const FOCAL_STEP: f64 = 1.101_785_1;

/// Deviation of an outline from a rectangle with this ratio of width to height, and the cosine
/// between the line of sight to its first corner and its plane's normal.
///
/// The deviation is the logarithm of the ratio's error or the cosine between the sides, whichever
/// is larger, for the best focal length between 0.5 and 1.6 of the picture's long side.
///
/// The homography of the unit square has the columns λK(w r₁), λK(h r₂) with r₁ ⊥ r₂ (Hartley and
/// Zisserman, Multiple View Geometry, 8.1), so each focal length gives a ratio and an angle.
pub(crate) fn misfit(corners: &[Point; 4], centre: Point, long_side: f64, ratio: f64) -> (f64, f64) {
    let scaled = corners.map(|corner| (corner - centre) * (1.0 / long_side));
    let Some((first, second)) = square_columns(&scaled) else {
        return (f64::INFINITY, 0.0);
    };
    let at_focal = |focal: f64| {
        let length = |v: [f64; 3]| ((v[0] * v[0] + v[1] * v[1]) / (focal * focal) + v[2] * v[2]).sqrt();
        let product = (first[0] * second[0] + first[1] * second[1]) / (focal * focal) + first[2] * second[2];
        let (one, two) = (length(first), length(second));
        (one / two / ratio).ln().abs().max((product / one / two).abs())
    };
    let focals = std::iter::successors(Some(0.5), |focal| Some(focal * FOCAL_STEP));
    let (misfit, focal) =
        focals
            .take(13)
            .map(|focal| (at_focal(focal), focal))
            .fold(
                (f64::INFINITY, 1.0),
                |best, one| if one.0 < best.0 { one } else { best },
            );
    let ([a, b, c], [d, e, f]) = (first, second);
    let normal = [
        (b * f - c * e) / focal,
        (c * d - a * f) / focal,
        (a * e - b * d) / (focal * focal),
    ];
    let sight = [scaled[0].x / focal, scaled[0].y / focal, 1.0];
    let length = |v: [f64; 3]| (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]).sqrt();
    let along = normal[0] * sight[0] + normal[1] * sight[1] + normal[2] * sight[2];
    let facing = along.abs() / (length(normal) * length(sight));
    (misfit, if facing.is_finite() { facing } else { 0.0 })
}

/// The first two columns of the homography from the unit square to an outline (Heckbert 1989,
/// Fundamentals of Texture Mapping, 2.2.3).
fn square_columns(corners: &[Point; 4]) -> Option<([f64; 3], [f64; 3])> {
    let (g, h) = square_bend(corners)?;
    let [a, b, _, d] = *corners;
    let column = |corner: Point, bend: f64| [corner.x - a.x + bend * corner.x, corner.y - a.y + bend * corner.y, bend];
    Some((column(b, g), column(d, h)))
}

/// The two perspective terms of that homography.
fn square_bend(corners: &[Point; 4]) -> Option<(f64, f64)> {
    let [a, b, c, d] = *corners;
    let (one, two) = (b - c, d - c);
    let sum = a - b + (c - d);
    let cross = one.cross(two);
    (cross.abs() > 1e-15).then(|| (sum.cross(two) / cross, one.cross(sum) / cross))
}

/// The map from the unit square to an outline: (0, 0) to the first corner, (1, 0) to the second.
pub(crate) struct Square {
    origin: Point,
    across: Point,
    down: Point,
    bend: (f64, f64),
}

impl Square {
    /// `None` for an outline that is no perspective view of a square.
    pub fn of(corners: &[Point; 4]) -> Option<Self> {
        let bend = square_bend(corners)?;
        let [a, b, _, d] = *corners;
        Some(Self {
            origin: a,
            across: b - a + b * bend.0,
            down: d - a + d * bend.1,
            bend,
        })
    }

    /// The point of the outline at (`u`, `v`) of the square.
    pub fn place(&self, u: f64, v: f64) -> Option<Point> {
        let w = 1.0 + self.bend.0 * u + self.bend.1 * v;
        let place = self.origin + self.across * u + self.down * v;
        (w.abs() > 1e-12).then(|| place * (1.0 / w))
    }
}
