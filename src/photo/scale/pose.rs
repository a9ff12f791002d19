//! The camera above a plane: focal length, viewing angle, and a plane at another height.
//!
//! Assumes square pixels and the optical axis at the picture's centre. A cropped picture violates
//! the second, so lengths on the reference's own plane never depend on this module: only the
//! viewing angle, the correction for height, and which side of a card is the long one do.

use nalgebra::{Matrix2, Matrix3, Vector2, Vector3};

use super::homography::{Homography, HomographyError, HomographyFit};
use crate::photo::geometry::{Frame, Point};
use crate::quantity::Angle;

/// Above this angle between the line of sight and the plane's normal a photo is too flat, degrees.
pub const TOO_FLAT_DEGREES: f64 = 50.0;
/// Diagonal of a frame of 36 × 24 mm, in millimetres: what "35 mm equivalent" refers to.
const FULL_FRAME_DIAGONAL_MM: f64 = 43.267;
/// Standard uncertainty of the two squareness residuals for exact points: an optical axis a few
/// hundredths off-centre, lens distortion. Common practice, no source.
const MODEL_SIGMA: f64 = 0.01;

/// A focal length with its uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Focal {
    /// Best value, in pixels.
    pub pixels: f64,
    /// Half-width at about 95 % of its natural logarithm (0.1 is about ± 10 %).
    pub spread: f64,
}

impl Focal {
    /// The range of phones' main cameras: 28 mm (35 mm equivalent), times or divided by 1.6, so 18
    /// to 45 mm. Common practice, no source.
    #[must_use]
    pub fn usual(frame: Frame) -> Self {
        Self {
            pixels: pixels_of(frame, 28.3),
            spread: 1.6_f64.ln(),
        }
    }

    /// From the 35 mm equivalent stated in a file, ± 8 % (rounded to whole millimetres, and defined
    /// differently for 4:3 frames; common practice, no source).
    #[must_use]
    pub fn from_35mm(frame: Frame, millimetres: f64) -> Self {
        Self {
            pixels: pixels_of(frame, millimetres),
            spread: 0.08,
        }
    }

    pub(crate) fn is_usable(&self) -> bool {
        self.pixels.is_finite() && self.pixels > 0.0 && (0.0..=2.0).contains(&self.spread)
    }

    /// The focal length moved by a number of standard uncertainties.
    pub(crate) fn moved(&self, sigmas: f64) -> Self {
        Self {
            pixels: self.pixels * (sigmas * self.spread / 2.0).exp(),
            spread: self.spread,
        }
    }
}

fn pixels_of(frame: Frame, millimetres: f64) -> f64 {
    2.0 * frame.half_diagonal() * millimetres / FULL_FRAME_DIAGONAL_MM
}

/// A pinhole camera: focal length and principal point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Camera {
    /// Focal length, in pixels.
    pub focal: f64,
    /// Principal point in the picture.
    pub centre: Point,
}

impl Camera {
    /// The calibration matrix K.
    pub fn matrix(&self) -> Matrix3<f64> {
        let (f, c) = (self.focal, self.centre);
        Matrix3::new(f, 0.0, c.x, 0.0, f, c.y, 0.0, 0.0, 1.0)
    }

    /// K⁻¹ times a column of a homography.
    fn direction(&self, column: Vector3<f64>) -> Vector3<f64> {
        let (f, c) = (self.focal, self.centre);
        Vector3::new(
            (column.x - c.x * column.z) / f,
            (column.y - c.y * column.z) / f,
            column.z,
        )
    }

    /// The direction to a point in the picture, with third component 1.
    pub fn sight(&self, place: Point) -> Vector3<f64> {
        self.direction(Vector3::new(place.x, place.y, 1.0))
    }

    /// The plane's two axes and its origin in camera coordinates, up to a common scale.
    fn axes(&self, plane: &Homography) -> [Vector3<f64>; 3] {
        let m = plane.matrix();
        [0, 1, 2].map(|index| self.direction(m.column(index).into_owned()))
    }

    /// Deviation of the plane's axes from orthogonal and equally long for this camera: the cosine
    /// between them and the logarithm of their ratio, both zero for the true camera. Source: the two
    /// constraints on the image of the absolute conic (Zhang, A Flexible New
    /// Technique for Camera Calibration, 2000, equations 3 and 4).
    fn squareness(&self, plane: &Homography) -> Vector2<f64> {
        let [x, y, _] = self.axes(plane);
        Vector2::new(x.dot(&y) / (x.norm() * y.norm()), (x.norm() / y.norm()).ln())
    }

    /// Angle between the line of sight to a point of the plane and the plane's normal.
    pub fn viewing_angle(&self, plane: &Homography, place: Point) -> Angle {
        let [x, y, origin] = self.axes(plane);
        let sight = x * place.x + y * place.y + origin;
        let normal = x.cross(&y);
        Angle::from_si(
            (sight.dot(&normal).abs() / (sight.norm() * normal.norm()))
                .min(1.0)
                .acos(),
        )
    }

    /// The plane `height` (in the plane's own unit) nearer to the camera, with the same axes; `None`
    /// where the camera would be below it.
    pub fn lifted(&self, plane: &Homography, height: f64) -> Option<Homography> {
        if height == 0.0 {
            return Some(*plane);
        }
        let [x, y, origin] = self.axes(plane);
        let normal = x.cross(&y) / (x.norm() * y.norm()).sqrt();
        // Towards the camera, which is at the origin.
        let up = if normal.dot(&origin) > 0.0 { -normal } else { normal };
        let raised = origin + up * height;
        if raised.dot(&up) >= 0.0 {
            return None;
        }
        let mut matrix = *plane.matrix();
        matrix.set_column(2, &(self.matrix() * raised));
        Some(Homography::from_matrix(matrix))
    }
}

/// Weight matrix of the two squareness residuals, relative to the prior of the focal length.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Weights(Matrix2<f64>);

impl Weights {
    /// From the uncertainty of the map (`sigma` of its picture points) and the standard uncertainty
    /// of the logarithm of the reference's width over height (`proportions`).
    pub fn of(fit: &HomographyFit, sigma: f64, proportions: f64, camera: Camera) -> Self {
        let mut covariance = Matrix2::new(MODEL_SIGMA.powi(2), 0.0, 0.0, MODEL_SIGMA.powi(2) + proportions.powi(2));
        for (up, down) in fit.moved(sigma) {
            let change = (camera.squareness(&up) - camera.squareness(&down)) / 2.0;
            covariance += change * change.transpose();
        }
        Self(covariance.try_inverse().unwrap_or_else(Matrix2::zeros))
    }
}

/// The focal length in pixels that combines the prior with the picture, and the remaining χ² (about
/// 2 for a correct reference).
///
/// Minimises `eᵀWe + ((ln f − ln f₀)/σ)²` over f, e being [`Camera::squareness`].
pub(crate) fn focal_length(plane: &Homography, centre: Point, known: Focal, weights: &Weights) -> (f64, f64) {
    let sigma = (known.spread / 2.0).max(1e-6);
    let error = |x: f64| {
        let camera = Camera {
            focal: known.pixels * (x * sigma).exp(),
            centre,
        };
        camera.squareness(plane)
    };
    let cost = |x: f64| {
        let e = error(x);
        e.dot(&(weights.0 * e)) + x * x
    };
    // x counts standard uncertainties of the prior. A coarse grid, then Gauss-Newton.
    let mut x = 0.0;
    for tried in (-16..=16).map(|step| f64::from(step) * 0.25) {
        if cost(tried) < cost(x) {
            x = tried;
        }
    }
    for _ in 0..30 {
        let slope = (error(x + 1e-4) - error(x - 1e-4)) / 2e-4;
        let curve = slope.dot(&(weights.0 * slope)) + 1.0;
        let mut step = -(slope.dot(&(weights.0 * error(x))) + x) / curve;
        while cost(x + step) > cost(x) && step.abs() > 1e-12 {
            step /= 2.0;
        }
        x += step;
        if step.abs() < 1e-10 {
            break;
        }
    }
    (known.pixels * (x * sigma).exp(), cost(x))
}

/// Agreement of a quadrilateral with a rectangle of given sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plausibility {
    /// Implied focal length, in pixels.
    pub focal: f64,
    /// Cosine of the angle between the sides for that camera, 0 if square.
    pub skew: f64,
    /// Natural logarithm of the first side's excess length relative to the second.
    pub stretch: f64,
    /// Total deviation in standard uncertainties: up to about 2.5 is normal, above 5 it is another
    /// rectangle. Of two orientations, the one with the smaller misfit is right.
    pub misfit: f64,
    /// Angle between the line of sight to the middle and the normal.
    pub viewing_angle: Angle,
}

/// Agreement of four corners (in order along the outline) with a rectangle whose side from corner 0
/// to corner 1 is `width` and whose other side is `height` (in one unit); `noise` is the ± of the
/// corners in pixels (half-width at about 95 %).
///
/// # Errors
/// As [`Homography::fit`], for corners that make no quadrilateral.
pub fn plausibility(
    frame: Frame,
    corners: &[Point; 4],
    (width, height): (f64, f64),
    noise: f64,
    known: Focal,
) -> Result<Plausibility, HomographyError> {
    let fit = Homography::fit(&rectangle_pairs(corners, width, height))?;
    let centre = frame.centre();
    let start = Camera {
        focal: known.pixels,
        centre,
    };
    let weights = Weights::of(&fit, (noise / 2.0).max(0.05), 0.0, start);
    let (focal, cost) = focal_length(&fit.homography, centre, known, &weights);
    let camera = Camera { focal, centre };
    let left = camera.squareness(&fit.homography);
    Ok(Plausibility {
        focal,
        skew: left.x,
        stretch: left.y,
        misfit: cost.sqrt(),
        viewing_angle: camera.viewing_angle(&fit.homography, Point::new(width / 2.0, height / 2.0)),
    })
}

/// Pairs of a rectangle's corners on its plane and in the picture.
pub(crate) fn rectangle_pairs(corners: &[Point; 4], width: f64, height: f64) -> [(Point, Point); 4] {
    let plane = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    std::array::from_fn(|index| (Point::new(plane[index].0, plane[index].1), corners[index]))
}
