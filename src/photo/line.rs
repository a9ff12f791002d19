//! A straight line through marked points.

use super::point::Point;

/// A line by a point on it and its direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// The middle of the points that it was laid through.
    pub middle: Point,
    /// Its direction, of length 1.
    pub direction: Point,
}

impl Line {
    /// The line with the least squares of the perpendicular distances; none for fewer than two
    /// different points.
    #[must_use]
    pub fn through(points: &[Point]) -> Option<Self> {
        Self::parallel(&[points]).map(|(direction, middles)| Self {
            middle: middles[0],
            direction,
        })
    }

    /// How far a point lies to the right of the line, looking along its direction on a picture
    /// (y down).
    #[must_use]
    pub fn offset(&self, point: Point) -> f64 {
        self.direction.cross(point - self.middle)
    }

    /// The common direction of parallel lines, each through its own points, and the middle of
    /// each: least squares of the perpendicular distances from all of them together.
    pub(super) fn parallel(edges: &[&[Point]]) -> Option<(Point, Vec<Point>)> {
        let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
        let mut middles = Vec::with_capacity(edges.len());
        for edge in edges {
            if edge.is_empty() {
                return None;
            }
            let middle = edge.iter().fold(Point::default(), |sum, point| sum + *point) * (1.0 / edge.len() as f64);
            for point in *edge {
                let away = *point - middle;
                xx += away.x * away.x;
                xy += away.x * away.y;
                yy += away.y * away.y;
            }
            middles.push(middle);
        }
        let angle = 0.5 * (2.0 * xy).atan2(xx - yy);
        let direction = Point::new(angle.cos(), angle.sin());
        (xx + yy > 0.0 && angle.is_finite()).then_some((direction, middles))
    }
}
