//! Places in a picture and on a plane.

use std::ops::{Add, Mul, Sub};

/// A place: in a picture, pixels right and down from the centre of its upper left pixel; on the
/// plane of a reference, millimetres right and down from the reference's first corner.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// A place from its two numbers.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// How far another place is.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The length of the way from the origin.
    #[must_use]
    pub fn length(self) -> f64 {
        // Plainly: a picture's numbers cannot overflow, and `hypot` takes ten times as long.
        self.dot(self).sqrt()
    }

    /// The pixel of a picture that it lies in, column and row.
    #[must_use]
    pub fn pixel(self) -> (isize, isize) {
        // Cut off, from well beyond any picture: `round` is a call on a plain processor.
        const FAR: i32 = 1 << 20;
        let nearest = |value: f64| ((value + (f64::from(FAR) + 0.5)) as i32 - FAR) as isize;
        (nearest(self.x), nearest(self.y))
    }

    /// The scalar product with another.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The cross product's size, positive where `other` lies clockwise on a picture (y down).
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
