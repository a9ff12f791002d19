//! Points, the picture's frame and straight lines, shared by every step from pixels to lengths.

use std::ops::{Add, Mul, Sub};

/// A point: in a picture, pixels right and down from the centre of its upper left pixel; on the
/// plane of a reference, millimetres right and down from the reference's first corner.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// A point from its two coordinates.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The distance to another point.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The length of the vector from the origin.
    #[must_use]
    pub fn length(self) -> f64 {
        // Not `hypot`: pixel coordinates cannot overflow, and `hypot` takes ten times as long.
        self.dot(self).sqrt()
    }

    /// The column and row of the pixel that contains the point.
    #[must_use]
    pub fn pixel(self) -> (isize, isize) {
        // Truncation with an offset far beyond any picture: `round` is a library call on a plain
        // processor.
        const FAR: i32 = 1 << 20;
        let nearest = |value: f64| ((value + (f64::from(FAR) + 0.5)) as i32 - FAR) as isize;
        (nearest(self.x), nearest(self.y))
    }

    /// The scalar product with another vector.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The cross product, positive where `other` lies clockwise in a picture (y down).
    #[must_use]
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }
}

impl Add for Point {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl Sub for Point {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Point {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.x * factor, self.y * factor)
    }
}

/// The unit vector in a vector's direction; the zero vector for zero.
pub(crate) fn unit(vector: Point) -> Point {
    let length = vector.length();
    if length > 0.0 { vector * (1.0 / length) } else { vector }
}

/// A picture's width and height, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Across.
    pub width: f64,
    /// Down.
    pub height: f64,
}

impl Frame {
    /// A frame from its two sides, in pixels.
    #[must_use]
    pub const fn new(width: f64, height: f64) -> Self {
        Self { width, height }
    }

    /// The picture's centre, where a camera's optical axis meets it unless the picture was
    /// cropped.
    #[must_use]
    pub fn centre(self) -> Point {
        Point::new((self.width - 1.0) / 2.0, (self.height - 1.0) / 2.0)
    }

    /// Half the picture's diagonal, in pixels.
    #[must_use]
    pub fn half_diagonal(self) -> f64 {
        self.width.hypot(self.height) / 2.0
    }

    /// Whether both sides are finite and at least one pixel.
    #[must_use]
    pub fn is_real(self) -> bool {
        self.width.is_finite() && self.height.is_finite() && self.width >= 1.0 && self.height >= 1.0
    }
}

/// A straight line by a point on it and its direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StraightLine {
    /// The mean of the points that the line was fitted to.
    pub middle: Point,
    /// The direction, of length 1.
    pub direction: Point,
}

impl StraightLine {
    /// The least-squares line of the perpendicular distances; `None` for fewer than two different
    /// points.
    #[must_use]
    pub fn through(points: &[Point]) -> Option<Self> {
        Self::parallel(&[points]).map(|(direction, middles)| Self {
            middle: middles[0],
            direction,
        })
    }

    /// The signed distance of a point: positive to the right of the line, looking along its
    /// direction in a picture (y down).
    #[must_use]
    pub fn offset(&self, point: Point) -> f64 {
        self.direction.cross(point - self.middle)
    }

    /// The common direction of parallel lines, each through its own points, and the mean point of
    /// each: least squares of the perpendicular distances over all of them together.
    pub(crate) fn parallel(edges: &[&[Point]]) -> Option<(Point, Vec<Point>)> {
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
