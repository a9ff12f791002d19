//! A disc seen from aside: an ellipse, and the two ways its plane may lean.
//!
//! An ellipse fits two planes, one leaning towards the camera and one away, mirrored about the
//! line of sight. Without perspective lengths are the same on both; with it they part the more,
//! the farther from the disc one measures. Nothing in one ellipse tells them apart, so an answer
//! is the mean of the two and its ± reaches both.

use nalgebra::{Matrix2, Matrix3, SymmetricEigen, Vector2, Vector3};

use super::frame::Frame;
use super::homography::Homography;
use super::lens::Lens;
use super::point::Point;
use super::pose::Camera;

/// A disc's outline in a picture: `centre + shape · (points of the unit circle)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Oval {
    pub centre: Point,
    pub shape: Matrix2<f64>,
}

/// A plane before a camera: its normal (away from the camera) and its distance from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Plane {
    pub normal: Vector3<f64>,
    pub distance: f64,
}

impl Oval {
    /// From half axes and the first one's angle.
    pub fn new(centre: Point, (a, b): (f64, f64), angle: f64) -> Self {
        let (s, c) = angle.sin_cos();
        let turn = Matrix2::new(c, -s, s, c);
        Self {
            centre,
            shape: turn * Matrix2::new(a, 0.0, 0.0, b) * turn.transpose(),
        }
    }

    /// The same with the lens's distortion taken out, to first order about its centre.
    pub fn straightened(&self, frame: Frame, lens: Lens) -> Self {
        let at = |x: f64, y: f64| lens.straightened(frame, self.centre + Point::new(x, y));
        let (dx, dy) = ((at(0.5, 0.0) - at(-0.5, 0.0)), (at(0.0, 0.5) - at(0.0, -0.5)));
        Self {
            centre: at(0.0, 0.0),
            shape: Matrix2::new(dx.x, dy.x, dx.y, dy.y) * self.shape,
        }
    }

    /// The same with its long half axis and its short one longer by so many pixels, as an eye
    /// sees them that looks straight at it. (Off the middle of a picture a disc across the line
    /// of sight is drawn out, by 1/cos of the angle to the axis.)
    pub fn grown(&self, camera: Camera, (long_by, short_by): (f64, f64)) -> Self {
        let away = self.centre - camera.centre;
        let cosine = camera.focal / camera.focal.hypot(away.length());
        let out = Vector2::new(away.x, away.y)
            .try_normalize(1e-9)
            .unwrap_or_else(Vector2::zeros);
        let look = (Matrix2::identity() - out * out.transpose() * (1.0 - cosine)) * cosine;
        let Some(back) = look.try_inverse() else { return *self };
        let looked = look * self.shape;
        let square = SymmetricEigen::new(looked * looked.transpose());
        let long = usize::from(square.eigenvalues[1] > square.eigenvalues[0]);
        let mut axes = Matrix2::zeros();
        for index in 0..2 {
            let half = square.eigenvalues[index].max(0.0).sqrt();
            let by = if index == long { long_by } else { short_by };
            let axis = square.eigenvectors.column(index);
            axes += axis * axis.transpose() * (half + by).max(half / 10.0);
        }
        Self {
            centre: self.centre,
            shape: back * axes,
        }
    }

    /// The two planes on which a disc of this radius has this outline; none for no ellipse.
    ///
    /// The cone through the outline is `xᵀQx = 0` with eigenvalues λ₁ ≥ λ₂ > 0 > λ₃. The planes
    /// that cut a circle from it have the normals `±√((λ₁−λ₂)/(λ₁−λ₃)) e₁ ± √((λ₂−λ₃)/(λ₁−λ₃)) e₃`,
    /// and one that cuts the radius r is `λ₂ r / √(−λ₁λ₃)` away. Source: Chen, Wu and Wada, Camera
    /// Calibration with Two Arbitrary Coplanar Circles, 2004, section 2 (from memory; checked in
    /// the tests against projected circles).
    pub fn planes(&self, camera: Camera, radius: f64) -> Option<[Plane; 2]> {
        let inverse = self.shape.try_inverse()?;
        let shift = inverse * Vector2::new(self.centre.x, self.centre.y);
        let to_unit = Matrix3::new(
            inverse[(0, 0)],
            inverse[(0, 1)],
            -shift.x,
            inverse[(1, 0)],
            inverse[(1, 1)],
            -shift.y,
            0.0,
            0.0,
            1.0,
        ) * camera.matrix();
        let eigen = SymmetricEigen::new(
            to_unit.transpose() * Matrix3::new(1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, -1.0) * to_unit,
        );
        let mut order = [0, 1, 2];
        order.sort_by(|a, b| eigen.eigenvalues[*b].total_cmp(&eigen.eigenvalues[*a]));
        let [l1, l2, l3] = order.map(|index| eigen.eigenvalues[index]);
        if !(l2 > 0.0 && l3 < 0.0) {
            return None;
        }
        let axis = |index: usize| eigen.eigenvectors.column(order[index]).into_owned();
        let (first, third) = (
            axis(0) * ((l1 - l2) / (l1 - l3)).max(0.0).sqrt(),
            axis(2) * ((l2 - l3) / (l1 - l3)).sqrt(),
        );
        let sight = camera.sight(self.centre);
        let distance = l2 * radius / (-l1 * l3).sqrt();
        Some([first + third, first - third].map(|normal| Plane {
            normal: if normal.dot(&sight) > 0.0 { normal } else { -normal },
            distance,
        }))
    }
}

impl Plane {
    /// The map from this plane to the picture: the origin where the line of sight through
    /// `origin` meets the plane, x as nearly as can be along the picture's x. None where that
    /// line of sight does not meet it.
    pub fn map(&self, camera: Camera, origin: Point) -> Option<Homography> {
        let sight = camera.sight(origin);
        let along = sight.dot(&self.normal);
        if !(along > 1e-6 && self.distance > 0.0) {
            return None;
        }
        let right = Vector3::x() - self.normal * self.normal.x;
        let right = right.try_normalize(1e-9)?;
        let down = self.normal.cross(&right);
        let start = sight * (self.distance / along);
        Some(Homography::from_matrix(
            camera.matrix() * Matrix3::from_columns(&[right, down, start]),
        ))
    }

    /// The plane this much nearer to the camera.
    pub fn lifted(&self, height: f64) -> Self {
        Self {
            distance: self.distance - height,
            ..*self
        }
    }

    /// Angle between the line of sight to a place in the picture and the normal, radians.
    pub fn viewing_angle(&self, camera: Camera, place: Point) -> f64 {
        let sight = camera.sight(place);
        (sight.dot(&self.normal) / sight.norm()).clamp(-1.0, 1.0).acos()
    }
}
