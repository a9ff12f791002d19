//! The projective map between a plane and its picture: eight parameters from four or more points.

use crate::words::{Explain, Message};
use nalgebra::{Matrix3, SMatrix, SVector, Vector3};

use crate::photo::geometry::Point;

type Vector9 = SVector<f64, 9>;
type Matrix9 = SMatrix<f64, 9, 9>;

/// Smallest ratio of singular values at which the points determine the map.
const DEGENERATE: f64 = 1e-4;
/// Smallest determinant of a map between normalised points (unit norm; about 0.2 for a square seen
/// from above) that does not collapse the plane onto a line.
const SINGULAR: f64 = 1e-6;

/// Why points give no map between a plane and a picture.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum HomographyError {
    /// Fewer than four points.
    #[error("{0} points were marked; at least 4 are needed, and no three of the four on one line")]
    TooFew(usize),
    /// The points lie on a line, or coincide.
    #[error("the points lie on one line or on top of each other; move them to the corners of the object")]
    Degenerate,
    /// The outline crosses itself.
    #[error("the corners are not in order along the outline, or one of them is far off; put each on its own corner")]
    Folded,
    /// A coordinate is not finite.
    #[error("a point has no place in the picture; mark it again")]
    NotFinite,
}

impl Explain for HomographyError {
    fn message(&self) -> Message {
        match self {
            HomographyError::TooFew(_) => Message::new("refused-points-few"),
            HomographyError::Degenerate => Message::new("refused-points-line"),
            HomographyError::Folded => Message::new("refused-points-folded"),
            HomographyError::NotFinite => Message::new("refused-points-nowhere"),
        }
    }
}

/// A projective map from one plane to another: a 3 × 3 matrix, defined up to scale, with the sign
/// that puts the fitted points in front of the camera.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Homography {
    matrix: Matrix3<f64>,
}

/// A fitted map with its residual and its uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct HomographyFit {
    /// The best map.
    pub homography: Homography,
    /// Root mean square residual of each coordinate of the target points.
    pub residual: f64,
    /// Eight independent changes of the matrix by one standard uncertainty each, for target
    /// coordinates of standard uncertainty 1.
    moves: [Matrix3<f64>; 8],
}

impl Homography {
    pub(crate) const fn from_matrix(matrix: Matrix3<f64>) -> Self {
        Self { matrix }
    }

    pub(crate) const fn matrix(&self) -> &Matrix3<f64> {
        &self.matrix
    }

    /// The nine elements, row by row, scaled so that the last is 1 unless it is near zero.
    #[must_use]
    pub fn rows(&self) -> [[f64; 3]; 3] {
        let last = self.matrix[(2, 2)];
        let scale = if last.abs() > 1e-12 * self.matrix.norm() {
            1.0 / last
        } else {
            1.0
        };
        std::array::from_fn(|row| std::array::from_fn(|column| self.matrix[(row, column)] * scale))
    }

    /// Maps a point; `None` at or beyond the horizon.
    #[must_use]
    pub fn apply(&self, point: Point) -> Option<Point> {
        let to = self.matrix * Vector3::new(point.x, point.y, 1.0);
        let mapped = Point::new(to.x / to.z, to.y / to.z);
        (to.z > 0.0 && mapped.x.is_finite() && mapped.y.is_finite()).then_some(mapped)
    }

    /// The inverse map; `None` for a singular matrix.
    #[must_use]
    pub fn inverse(&self) -> Option<Self> {
        self.matrix.try_inverse().map(Self::from_matrix)
    }

    /// The map from the first to the second point of each pair, by least squares of the residuals
    /// in the second points (exact for four pairs).
    ///
    /// Start: the direct linear transformation on normalised coordinates; then
    /// Levenberg-Marquardt on the geometric error in the target (Hartley and Zisserman, Multiple
    /// View Geometry, algorithms 4.2 and 4.3; Hartley, In Defense of the Eight-Point Algorithm,
    /// 1997). Covariance by backward transport, `(JᵀJ)⁻¹` on the tangent of the unit sphere of
    /// matrices (the same book, section 5.2.3).
    ///
    /// # Errors
    /// [`TooFew`](HomographyError::TooFew) below four pairs;
    /// [`Degenerate`](HomographyError::Degenerate) for points on a line;
    /// [`Folded`](HomographyError::Folded) for an outline that crosses itself;
    /// [`NotFinite`](HomographyError::NotFinite) for a coordinate that is not finite.
    pub fn fit(pairs: &[(Point, Point)]) -> Result<HomographyFit, HomographyError> {
        if pairs.len() < 4 {
            return Err(HomographyError::TooFew(pairs.len()));
        }
        let from = Normaliser::of(pairs.iter().map(|pair| pair.0))?;
        let to = Normaliser::of(pairs.iter().map(|pair| pair.1))?;
        let normal: Vec<(Point, Point)> = pairs
            .iter()
            .map(|pair| (from.apply(pair.0), to.apply(pair.1)))
            .collect();
        let start = direct(&normal)?;
        let (best, normal_moves, sum) = refine(start, &normal);
        if matrix_of(&best).determinant().abs() < SINGULAR {
            return Err(HomographyError::Degenerate);
        }
        let undo = |h: &Vector9| to.inverse() * matrix_of(h) * from.matrix();
        let mut homography = Homography::from_matrix(undo(&best));
        // Depth must have one sign at all points; it is made positive.
        let depths = || {
            pairs
                .iter()
                .map(|pair| (homography.matrix * Vector3::new(pair.0.x, pair.0.y, 1.0)).z)
        };
        let flip = if depths().all(|depth| depth > 0.0) {
            1.0
        } else if depths().all(|depth| depth < 0.0) {
            -1.0
        } else {
            return Err(HomographyError::Folded);
        };
        homography.matrix *= flip;
        Ok(HomographyFit {
            homography,
            residual: (sum / (2 * pairs.len()) as f64).sqrt() / to.scale,
            moves: normal_moves.map(|change| undo(&change) * (flip * to.scale)),
        })
    }
}

impl HomographyFit {
    /// The map moved by one standard uncertainty up and down along each of its eight independent
    /// directions, for target coordinates of standard uncertainty `sigma`. The squared changes of a
    /// result under these moves add up to its variance.
    pub fn moved(&self, sigma: f64) -> impl Iterator<Item = (Homography, Homography)> + '_ {
        self.moves.iter().map(move |change| {
            let by = |factor: f64| Homography::from_matrix(self.homography.matrix + change * (sigma * factor));
            (by(1.0), by(-1.0))
        })
    }
}

/// Translation and scale that centre points on the origin at a mean distance of √2.
struct Normaliser {
    centre: Point,
    scale: f64,
}

impl Normaliser {
    fn of(points: impl Iterator<Item = Point> + Clone) -> Result<Self, HomographyError> {
        if points
            .clone()
            .any(|point| !(point.x.is_finite() && point.y.is_finite()))
        {
            return Err(HomographyError::NotFinite);
        }
        let count = points.clone().count() as f64;
        let centre = points.clone().fold(Point::default(), |sum, point| sum + point) * (1.0 / count);
        let away = points.map(|point| point.distance(centre)).sum::<f64>() / count;
        if away <= f64::EPSILON * centre.length() || away == 0.0 {
            return Err(HomographyError::Degenerate);
        }
        Ok(Self {
            centre,
            scale: std::f64::consts::SQRT_2 / away,
        })
    }

    fn apply(&self, point: Point) -> Point {
        (point - self.centre) * self.scale
    }

    fn matrix(&self) -> Matrix3<f64> {
        let (s, c) = (self.scale, self.centre);
        Matrix3::new(s, 0.0, -s * c.x, 0.0, s, -s * c.y, 0.0, 0.0, 1.0)
    }

    fn inverse(&self) -> Matrix3<f64> {
        let (s, c) = (1.0 / self.scale, self.centre);
        Matrix3::new(s, 0.0, c.x, 0.0, s, c.y, 0.0, 0.0, 1.0)
    }
}

fn matrix_of(h: &Vector9) -> Matrix3<f64> {
    Matrix3::new(h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], h[8])
}

/// The unit vector with the smallest residual of the linear equations.
fn direct(pairs: &[(Point, Point)]) -> Result<Vector9, HomographyError> {
    let mut normal = Matrix9::zeros();
    for (from, to) in pairs {
        let (x, y) = (from.x, from.y);
        for row in [
            [x, y, 1.0, 0.0, 0.0, 0.0, -to.x * x, -to.x * y, -to.x],
            [0.0, 0.0, 0.0, x, y, 1.0, -to.y * x, -to.y * y, -to.y],
        ] {
            let row = Vector9::from(row);
            normal += row * row.transpose();
        }
    }
    let (values, vectors) = ascending(&normal);
    if values[1] < DEGENERATE * DEGENERATE * values[8] {
        return Err(HomographyError::Degenerate);
    }
    Ok(vectors[0])
}

/// Eigenvalues in ascending order, and their eigenvectors.
fn ascending(matrix: &Matrix9) -> ([f64; 9], [Vector9; 9]) {
    let eigen = matrix.clone_owned().symmetric_eigen();
    let mut order: [usize; 9] = std::array::from_fn(|index| index);
    order.sort_by(|a, b| eigen.eigenvalues[*a].total_cmp(&eigen.eigenvalues[*b]));
    (
        order.map(|index| eigen.eigenvalues[index]),
        order.map(|index| eigen.eigenvectors.column(index).into_owned()),
    )
}

/// Sum of squares, `Jᵀr` and `JᵀJ` of the geometric error. `J h = 0` because the matrix is defined
/// up to scale, so the smallest eigenvalue of `JᵀJ` is zero and its eigenvector is `h` itself.
fn squares(h: &Vector9, pairs: &[(Point, Point)]) -> (f64, Vector9, Matrix9) {
    let (mut sum, mut gradient, mut normal) = (0.0, Vector9::zeros(), Matrix9::zeros());
    let matrix = matrix_of(h);
    for (from, to) in pairs {
        let (x, y) = (from.x, from.y);
        let got = matrix * Vector3::new(x, y, 1.0);
        let (u, v) = (got.x / got.z, got.y / got.z);
        for (left, row) in [
            (to.x - u, [x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y, -u]),
            (to.y - v, [0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y, -v]),
        ] {
            let row = Vector9::from(row) / got.z;
            sum += left * left;
            gradient += row * left;
            normal += row * row.transpose();
        }
    }
    (sum, gradient, normal)
}

/// Levenberg-Marquardt from an initial matrix; returns the best matrix, its eight independent
/// changes for noise of standard uncertainty 1, and the residual sum of squares.
fn refine(start: Vector9, pairs: &[(Point, Point)]) -> (Vector9, [Vector9; 8], f64) {
    let mut best = start;
    let (mut sum, mut gradient, mut normal) = squares(&best, pairs);
    let mut damping = 1e-6 * normal.trace() / 9.0;
    for _ in 0..60 {
        let (values, vectors) = ascending(&normal);
        let mut step = Vector9::zeros();
        for (value, vector) in values.iter().zip(&vectors).skip(1) {
            step += vector * (vector.dot(&gradient) / (value + damping));
        }
        let tried = (best + step).normalize();
        let (tried_sum, tried_gradient, tried_normal) = squares(&tried, pairs);
        if tried_sum <= sum {
            (best, sum, gradient, normal) = (tried, tried_sum, tried_gradient, tried_normal);
            damping *= 0.1;
        } else {
            damping *= 10.0;
        }
        if step.norm() < 1e-11 || damping > 1e12 {
            break;
        }
    }
    let (values, vectors) = ascending(&normal);
    let moves = std::array::from_fn(|index| vectors[index + 1] / values[index + 1].max(f64::MIN_POSITIVE).sqrt());
    (best, moves, sum)
}
