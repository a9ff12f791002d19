//! Repeatable random numbers for the tests, and cameras made from them.

use crate::photo::geometry::Point;

/// A linear congruential generator (Knuth's MMIX constants), its upper bits used.
pub struct Numbers(u64);

impl Numbers {
    pub fn new(seed: u64) -> Self {
        let mut numbers = Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x5DEE_CE66);
        for _ in 0..4 {
            numbers.unit();
        }
        numbers
    }

    /// Uniform between 0 and 1.
    pub fn unit(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub fn below(&mut self, limit: usize) -> usize {
        ((self.unit() * limit as f64) as usize).min(limit - 1)
    }

    /// Normal with mean 0 and standard deviation 1 (Box and Muller).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.unit()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.unit()).cos()
    }

    /// A point moved by normal noise of this standard deviation each way.
    pub fn perturbed(&mut self, point: Point, sigma: f64) -> Point {
        point + Point::new(sigma * self.normal(), sigma * self.normal())
    }
}

/// A camera written again from its description: rotations about the picture's axes (tilt about
/// x, then pan about y, then roll), a plane point it looks at, its distance.
#[derive(Clone, Copy)]
pub struct Eye {
    pub focal: f64,
    pub centre: Point,
    /// Radians.
    pub tilt: f64,
    pub pan: f64,
    pub roll: f64,
    /// Plane point on the optical axis, mm.
    pub target: Point,
    pub distance: f64,
}

impl Eye {
    /// The picture of a point at (x, y) on the plane and `up` towards the camera, mm to pixels.
    pub fn sees(&self, place: Point, up: f64) -> Point {
        // The plane's z points away from the camera, like the camera's.
        let (x, y, z) = (place.x - self.target.x, place.y - self.target.y, -up);
        let (s, c) = self.roll.sin_cos();
        let (x, y) = (c * x - s * y, s * x + c * y);
        let (s, c) = self.tilt.sin_cos();
        let (y, z) = (c * y - s * z, s * y + c * z);
        let (s, c) = self.pan.sin_cos();
        let (x, z) = (c * x + s * z, -s * x + c * z);
        let depth = z + self.distance;
        self.centre + Point::new(x, y) * (self.focal / depth)
    }

    /// Angle between the optical axis and the plane's normal.
    pub fn lean(&self) -> f64 {
        (self.tilt.cos() * self.pan.cos()).acos()
    }
}
