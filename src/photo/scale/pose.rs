//! The camera above a plane: focal length, viewing angle, and a plane at another height.
//!
//! Square pixels, the optical axis in the middle of the picture. A cropped picture breaks the
//! second; that is why lengths on the reference's own plane never go through here: only the
//! viewing angle, the correction for height and the question which side of a card is the long one.

use nalgebra::{Matrix2, Matrix3, Vector2, Vector3};

use super::frame::Frame;
use super::homography::{Fit, Homography, HomographyError};
use super::point::Point;
use crate::quantity::Angle;

/// Above this angle between the line of sight and the plane's normal a photo is too flat, degrees.
pub const TOO_FLAT_DEGREES: f64 = 50.0;
/// Diagonal of a frame of 36 × 24 mm, in millimetres: what "35 mm equivalent" refers to.
const FULL_FRAME_DIAGONAL_MM: f64 = 43.267;
/// Part by which the two tests of squareness may be off although the points are right, one
/// standard uncertainty: the optical axis a few hundredths from the middle, lenses. Common
/// practice, no source.
const MODEL_SIGMA: f64 = 0.01;

/// A focal length as far as it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Focal {
    /// Best value, in pixels.
    pub pixels: f64,
    /// Half-width at about 95 % of its natural logarithm (0.1 is about ± 10 %).
    pub spread: f64,
}

impl Focal {
    /// What telephones' main cameras have: 28 mm (35 mm equivalent), times or divided by 1.6, so
    /// 18 to 45 mm. Common practice, no source.
    #[must_use]
    pub fn usual(frame: Frame) -> Self {
        Self {
            pixels: pixels_of(frame, 28.3),
            spread: 1.6_f64.ln(),
        }
    }

    /// From the "35 mm equivalent" that a picture file states, ± 8 % (rounded to whole
    /// millimetres, and differently understood for 4:3 frames; common practice, no source).
    #[must_use]
    pub fn from_35mm(frame: Frame, millimetres: f64) -> Self {
        Self {
            pixels: pixels_of(frame, millimetres),
            spread: 0.08,
        }
    }

    pub(super) fn is_usable(&self) -> bool {
        self.pixels.is_finite() && self.pixels > 0.0 && (0.0..=2.0).contains(&self.spread)
    }

    /// The focal length moved by so many standard uncertainties.
    pub(super) fn moved(&self, sigmas: f64) -> Self {
        Self {
            pixels: self.pixels * (sigmas * self.spread / 2.0).exp(),
            spread: self.spread,
        }
    }
}

fn pixels_of(frame: Frame, millimetres: f64) -> f64 {
    2.0 * frame.half_diagonal() * millimetres / FULL_FRAME_DIAGONAL_MM
}

/// A camera: its focal length and where its axis meets the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Camera {
    /// In pixels.
    pub focal: f64,
    /// In the picture.
    pub centre: Point,
}

impl Camera {
    /// The camera's matrix.
    pub fn matrix(&self) -> Matrix3<f64> {
        let (f, c) = (self.focal, self.centre);
        Matrix3::new(f, 0.0, c.x, 0.0, f, c.y, 0.0, 0.0, 1.0)
    }

    /// A column of a homography in the camera's own directions.
    fn direction(&self, column: Vector3<f64>) -> Vector3<f64> {
        let (f, c) = (self.focal, self.centre);
        Vector3::new(
            (column.x - c.x * column.z) / f,
            (column.y - c.y * column.z) / f,
            column.z,
        )
    }

    /// The way to a place in the picture.
    pub fn sight(&self, place: Point) -> Vector3<f64> {
        self.direction(Vector3::new(place.x, place.y, 1.0))
    }

    /// The plane's two axes and its origin in the camera's directions, all to one unknown scale.
    fn axes(&self, plane: &Homography) -> [Vector3<f64>; 3] {
        let m = plane.matrix();
        [0, 1, 2].map(|index| self.direction(m.column(index).into_owned()))
    }

    /// How far the plane's axes are from square and equally long, as this camera sees them: the
    /// cosine between them and the logarithm of their ratio. Both are zero for the right camera.
    /// Source: the two constraints on the image of the absolute conic (Zhang, A Flexible New
    /// Technique for Camera Calibration, 2000, equations 3 and 4).
    fn squareness(&self, plane: &Homography) -> Vector2<f64> {
        let [x, y, _] = self.axes(plane);
        Vector2::new(x.dot(&y) / (x.norm() * y.norm()), (x.norm() / y.norm()).ln())
    }

    /// Angle between the line of sight to a place on the plane and the plane's normal.
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

    /// The plane that lies `height` (in the plane's own unit) nearer to the camera, with the same
    /// axes; none where the camera would be below it.
    pub fn lifted(&self, plane: &Homography, height: f64) -> Option<Homography> {
        if height == 0.0 {
            return Some(*plane);
        }
        let [x, y, origin] = self.axes(plane);
        let normal = x.cross(&y) / (x.norm() * y.norm()).sqrt();
        // Towards the camera, which is at zero: against the way from the camera to the plane.
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

/// How much the two tests of squareness weigh against what is known of the focal length.
#[derive(Debug, Clone, Copy)]
pub(super) struct Weights(Matrix2<f64>);

impl Weights {
    /// From the uncertainty of the map (`sigma` of its picture points) and of the reference's
    /// proportions (one standard uncertainty of the logarithm of width over height).
    pub fn of(fit: &Fit, sigma: f64, proportions: f64, camera: Camera) -> Self {
        let mut covariance = Matrix2::new(MODEL_SIGMA.powi(2), 0.0, 0.0, MODEL_SIGMA.powi(2) + proportions.powi(2));
        for (up, down) in fit.moved(sigma) {
            let change = (camera.squareness(&up) - camera.squareness(&down)) / 2.0;
            covariance += change * change.transpose();
        }
        Self(covariance.try_inverse().unwrap_or_else(Matrix2::zeros))
    }
}

/// A focal length between what was known and what the picture shows, in pixels, and the square
/// sum of what is left (χ², about 2 where all is right).
///
/// Minimises `eᵀWe + ((ln f − ln f₀)/σ)²` over f, e being [`Camera::squareness`].
pub(super) fn focal_length(plane: &Homography, centre: Point, known: Focal, weights: &Weights) -> (f64, f64) {
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
    // x counts standard uncertainties of what was known. A coarse look round, then Gauss-Newton.
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

/// How well a quadrilateral could be a rectangle of given sides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plausibility {
    /// Focal length that it implies, in pixels.
    pub focal: f64,
    /// Cosine of the angle between its sides as that camera sees them (0 when square).
    pub skew: f64,
    /// Natural logarithm of how much too long the first side is beside the second.
    pub stretch: f64,
    /// All of it in standard uncertainties: up to about 2.5 is ordinary, above 5 it is not this
    /// rectangle. Of two assignments of the sides the one with the smaller misfit is right.
    pub misfit: f64,
    /// Between the line of sight to its middle and its normal.
    pub viewing_angle: Angle,
}

/// How well the four corners (in order along the outline) could be those of a rectangle whose side
/// from corner 0 to corner 1 is `width` and whose other side is `height` (in one unit), with
/// corners found to `noise` pixels (half-width at about 95 %).
///
/// # Errors
/// Corners that are no quadrilateral.
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

/// A rectangle's corners on its plane beside those in the picture.
pub(super) fn rectangle_pairs(corners: &[Point; 4], width: f64, height: f64) -> [(Point, Point); 4] {
    let plane = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)];
    std::array::from_fn(|index| (Point::new(plane[index].0, plane[index].1), corners[index]))
}
