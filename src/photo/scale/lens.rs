//! One number for how a lens bends straight lines.

use super::frame::Frame;
use super::homography::Homography;
use super::point::Point;

/// Radial distortion by the division model: a place `d` from the picture's middle belongs at
/// `d / (1 + k ρ²)`, ρ being its distance as a part of half the diagonal. Negative `k` for a lens
/// that bulges (barrel). Source: Fitzgibbon, Simultaneous Linear Estimation of Multiple View
/// Geometry and Lens Distortion, 2001.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lens {
    /// Distortion at the picture's corner.
    pub k: f64,
    /// Its half-width at about 95 %.
    pub plus_minus: f64,
}

/// The most distortion that is believed, either way: a fish eye is not for measuring.
pub const MOST_DISTORTION: f64 = 0.4;
/// Fewest points of a lattice that tell a lens's distortion from the view's perspective.
const ENOUGH_LATTICE: usize = 20;

/// Why a lens's distortion could not be had.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum LensError {
    /// No edge has three points.
    #[error(
        "mark at least three points along one straight edge, the longer and the nearer to the picture's rim the better"
    )]
    TooFew,
    /// The edges are not straight, or this is a fish eye.
    #[error(
        "no lens explains edges as bent as these; mark edges that are straight, and take a photo without a wide-angle lens"
    )]
    NoAnswer,
}

impl Default for Lens {
    /// What is left in pictures from telephones, which straighten them on their own: 0 ± 1 % at
    /// the corner. Common practice, no source.
    fn default() -> Self {
        Self {
            k: 0.0,
            plus_minus: 0.01,
        }
    }
}

impl Lens {
    /// No distortion at all, as in a rendered picture.
    pub const NONE: Self = Self {
        k: 0.0,
        plus_minus: 0.0,
    };
    /// Nothing known: anything up to a strong wide angle, 0 ± 0.2.
    pub const UNKNOWN: Self = Self {
        k: 0.0,
        plus_minus: 0.2,
    };

    /// Whether its numbers can be used.
    #[must_use]
    pub fn is_usable(&self) -> bool {
        self.k.abs() <= MOST_DISTORTION && (0.0..=MOST_DISTORTION).contains(&self.plus_minus)
    }

    /// Where a place of the picture would be with a lens that keeps lines straight.
    #[must_use]
    pub fn straightened(&self, frame: Frame, place: Point) -> Point {
        let (centre, unit) = (frame.centre(), frame.half_diagonal());
        let away = place - centre;
        let rho2 = away.dot(away) / (unit * unit);
        centre + away * (1.0 / (1.0 + self.k * rho2))
    }

    /// Where the lens puts a place that a straight lens would put here; the way back of
    /// [`Lens::straightened`]. None where this lens shows no such place.
    #[must_use]
    pub fn bent(&self, frame: Frame, place: Point) -> Option<Point> {
        let (centre, unit) = (frame.centre(), frame.half_diagonal());
        let away = place - centre;
        let rho2 = away.dot(away) / (unit * unit);
        // ρ_bent = (1 − √(1 − 4kρ²)) / (2kρ), written so that k = 0 is no special case.
        let root = 1.0 - 4.0 * self.k * rho2;
        (root >= 0.0).then(|| centre + away * (2.0 / (1.0 + root.sqrt())))
    }

    pub(super) fn moved(&self, sigmas: f64) -> Self {
        Self {
            k: self.k + sigmas * self.plus_minus / 2.0,
            plus_minus: self.plus_minus,
        }
    }

    /// Distortion from edges that are straight on the part, each marked by three or more points
    /// (`noise` pixels each, half-width at about 95 %), together with what was `known` before.
    ///
    /// The plumb-line method: the number that leaves the points nearest to straight lines (Brown,
    /// Close-Range Camera Calibration, 1971).
    ///
    /// # Errors
    /// No edge with three points; edges that no lens straightens.
    pub fn from_edges(frame: Frame, edges: &[Vec<Point>], known: Lens, noise: f64) -> Result<Self, LensError> {
        let useful: Vec<&Vec<Point>> = edges.iter().filter(|edge| edge.len() >= 3).collect();
        if useful.is_empty() {
            return Err(LensError::TooFew);
        }
        let left = |lens: Lens| {
            let mut left = Vec::new();
            for edge in &useful {
                let straight: Vec<Point> = edge.iter().map(|point| lens.straightened(frame, *point)).collect();
                let line = super::line::Line::through(&straight)?;
                left.extend(straight.iter().map(|point| line.offset(*point)));
            }
            Some(left)
        };
        estimated(left, known, noise, 2 * useful.len()).ok_or(LensError::NoAnswer)
    }

    /// Distortion from a lattice (plane points beside their places in the picture), or what was
    /// known where the lattice has fewer than 20 points.
    pub(super) fn from_lattice(frame: Frame, pairs: &[(Point, Point)], known: Lens, noise: f64) -> Option<Self> {
        if pairs.len() < ENOUGH_LATTICE || known.plus_minus == 0.0 {
            return Some(known);
        }
        let left = |lens: Lens| {
            let straight = straightened_pairs(frame, pairs, lens);
            let map = Homography::fit(&straight).ok()?.homography;
            let mut left = Vec::with_capacity(2 * pairs.len());
            for (plane, picture) in straight {
                let off = map.apply(plane)? - picture;
                left.extend([off.x, off.y]);
            }
            Some(left)
        };
        estimated(left, known, noise, 8)
    }
}

/// Pairs with their picture places straightened.
pub(super) fn straightened_pairs(frame: Frame, pairs: &[(Point, Point)], lens: Lens) -> Vec<(Point, Point)> {
    pairs
        .iter()
        .map(|(plane, picture)| (*plane, lens.straightened(frame, *picture)))
        .collect()
}

/// Gauss-Newton in `k` on `Σ(left/σ)² + ((k − k₀)/σ₀)²`. Where more is left than the noise
/// explains, the noise is taken as what is left. `spent` numbers of the points went into what is
/// refitted at each `k`.
fn estimated(left: impl Fn(Lens) -> Option<Vec<f64>>, known: Lens, noise: f64, spent: usize) -> Option<Lens> {
    let at = |k: f64| left(Lens { k, plus_minus: 0.0 });
    let step = 1e-4;
    let before = (known.plus_minus / 2.0).max(1e-9).powi(-2);
    let mut k = known.k;
    let mut sigma = f64::NAN;
    for _ in 0..25 {
        let now = at(k)?;
        let (up, down) = (at(k + step)?, at(k - step)?);
        let slopes: Vec<f64> = up
            .iter()
            .zip(&down)
            .map(|(up, down)| (up - down) / (2.0 * step))
            .collect();
        let free = now.len().saturating_sub(spent + 1).max(1) as f64;
        let seen = now.iter().map(|off| off * off).sum::<f64>() / free;
        let weight = 1.0 / seen.max((noise / 2.0).max(1e-6).powi(2));
        let curve = weight * slopes.iter().map(|slope| slope * slope).sum::<f64>() + before;
        let pull = weight * slopes.iter().zip(&now).map(|(slope, off)| slope * off).sum::<f64>();
        let change = -(pull + before * (k - known.k)) / curve;
        sigma = curve.powf(-0.5);
        k = (k + change).clamp(-1.5 * MOST_DISTORTION, 1.5 * MOST_DISTORTION);
        if change.abs() < 1e-9 {
            break;
        }
    }
    let lens = Lens {
        k,
        plus_minus: 2.0 * sigma,
    };
    lens.is_usable().then_some(lens)
}
