//! The map between a plane and its picture: eight numbers from four or more points.

use nalgebra::{Matrix3, SMatrix, SVector, Vector3};

use super::point::Point;

type Vector9 = SVector<f64, 9>;
type Matrix9 = SMatrix<f64, 9, 9>;

/// Below this ratio of singular values the points do not determine the map.
const DEGENERATE: f64 = 1e-4;
/// Below this determinant a map between normalised points (unit norm; about 0.2 for a square seen
/// from above) flattens the plane onto a line.
const SINGULAR: f64 = 1e-6;

/// Why no map between a plane and a picture could be had.
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
    /// A coordinate is not a number.
    #[error("a point has no place in the picture; mark it again")]
    NotFinite,
}

/// A projective map from one plane to another (3 × 3, scale without meaning, sign such that the
/// points it was made from lie in front of the camera).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Homography {
    matrix: Matrix3<f64>,
}

/// A map with what is known about it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    /// The best map.
    pub homography: Homography,
    /// Root mean square of what is left in each coordinate of the target points.
    pub residual: f64,
    /// Eight independent changes of the matrix, each by one standard uncertainty where every
    /// target coordinate has a standard uncertainty of 1.
    moves: [Matrix3<f64>; 8],
}

impl Homography {
    pub(super) const fn from_matrix(matrix: Matrix3<f64>) -> Self {
        Self { matrix }
    }

    pub(super) const fn matrix(&self) -> &Matrix3<f64> {
        &self.matrix
    }

    /// The nine numbers, row by row, the last being 1 unless it is near zero.
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

    /// Where a point comes to lie; none at the horizon and behind it.
    #[must_use]
    pub fn apply(&self, point: Point) -> Option<Point> {
        let to = self.matrix * Vector3::new(point.x, point.y, 1.0);
        let mapped = Point::new(to.x / to.z, to.y / to.z);
        (to.z > 0.0 && mapped.x.is_finite() && mapped.y.is_finite()).then_some(mapped)
    }

    /// The map back.
    #[must_use]
    pub fn inverse(&self) -> Option<Self> {
        self.matrix.try_inverse().map(Self::from_matrix)
    }

    /// The map that takes `from` to `to` of each pair, with the least squares of what is left in
    /// the `to` coordinates (exact for four pairs).
    ///
    /// Start: the direct linear transformation on normalised coordinates; then
    /// Levenberg-Marquardt on the geometric error in the target (Hartley and Zisserman, Multiple
    /// View Geometry, algorithms 4.2 and 4.3; Hartley, In Defense of the Eight-Point Algorithm,
    /// 1997). Covariance by backward transport, `(JᵀJ)⁻¹` on the tangent of the unit sphere of
    /// matrices (the same book, section 5.2.3).
    ///
    /// # Errors
    /// Fewer than four pairs, points on a line, an outline that crosses itself, no numbers.
    pub fn fit(pairs: &[(Point, Point)]) -> Result<Fit, HomographyError> {
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
        // The same sign of depth at every point, and that sign positive.
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
        Ok(Fit {
            homography,
            residual: (sum / (2 * pairs.len()) as f64).sqrt() / to.scale,
            moves: normal_moves.map(|change| undo(&change) * (flip * to.scale)),
        })
    }
}

impl Fit {
    /// The map moved by one standard uncertainty each way along each of its eight independent
    /// directions, for target coordinates that have the standard uncertainty `sigma`. The squares
    /// of what these moves do to an answer add up to its variance.
    pub fn moved(&self, sigma: f64) -> impl Iterator<Item = (Homography, Homography)> + '_ {
        self.moves.iter().map(move |change| {
            let by = |factor: f64| Homography::from_matrix(self.homography.matrix + change * (sigma * factor));
            (by(1.0), by(-1.0))
        })
    }
}

/// Shift and scale that bring points round the origin, √2 away on the average.
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

/// The unit vector that the linear equations leave smallest.
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

/// Eigenvalues from the smallest, and their vectors.
fn ascending(matrix: &Matrix9) -> ([f64; 9], [Vector9; 9]) {
    let eigen = matrix.clone_owned().symmetric_eigen();
    let mut order: [usize; 9] = std::array::from_fn(|index| index);
    order.sort_by(|a, b| eigen.eigenvalues[*a].total_cmp(&eigen.eigenvalues[*b]));
    (
        order.map(|index| eigen.eigenvalues[index]),
        order.map(|index| eigen.eigenvectors.column(index).into_owned()),
    )
}

/// Sum of squares, gradient `Jᵀr` and `JᵀJ` of the geometric error. `J h = 0`: scale has no
/// meaning, so the smallest eigenvalue of `JᵀJ` is zero and belongs to `h` itself.
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

/// Levenberg-Marquardt from a start; the best matrix, its eight independent changes for noise of
/// standard uncertainty 1, and the sum of squares left.
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
