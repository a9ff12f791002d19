//! Radial lens distortion by one parameter.

use super::homography::Homography;
use crate::photo::geometry::{Frame, Point, StraightLine};
use crate::words::{Explain, Message};

/// Radial distortion by the division model: a point at `d` from the picture's centre is undistorted
/// at `d / (1 + k ρ²)`, ρ being its distance as a fraction of half the diagonal. `k` is negative for
/// barrel distortion. Source: Fitzgibbon, Simultaneous Linear Estimation of Multiple View
/// Geometry and Lens Distortion, 2001.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lens {
    /// Distortion at the picture's corner.
    pub k: f64,
    /// Its half-width at about 95 %.
    pub plus_minus: f64,
}

/// Largest distortion accepted, either sign: a fish-eye lens is unsuitable for measuring.
pub const MAX_DISTORTION: f64 = 0.4;
/// Minimum number of lattice points that separate distortion from perspective.
const ENOUGH_LATTICE: usize = 20;

/// Why a lens's distortion could not be estimated.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum LensError {
    /// No edge has three points.
    #[error(
        "mark at least three points along one straight edge, the longer and the nearer to the picture's rim the better"
    )]
    TooFew,
    /// The edges are not straight, or the lens is a fish eye.
    #[error(
        "no lens explains edges as bent as these; mark edges that are straight, and take a photo without a wide-angle lens"
    )]
    NoAnswer,
}

impl Explain for LensError {
    fn message(&self) -> Message {
        match self {
            LensError::TooFew => Message::new("refused-lens-few"),
            LensError::NoAnswer => Message::new("refused-lens"),
        }
    }
}

impl Default for Lens {
    /// The residual of phones, which correct their own pictures: 0 ± 1 % at the corner. Common
    /// practice, no source.
    fn default() -> Self {
        Self {
            k: 0.0,
            plus_minus: 0.01,
        }
    }
}

impl Lens {
    /// No distortion, as in a rendered picture.
    pub const NONE: Self = Self {
        k: 0.0,
        plus_minus: 0.0,
    };
    /// Unknown: up to a strong wide angle, 0 ± 0.2.
    pub const UNKNOWN: Self = Self {
        k: 0.0,
        plus_minus: 0.2,
    };

    /// Whether distortion and ± are within range.
    #[must_use]
    pub fn is_usable(&self) -> bool {
        self.k.abs() <= MAX_DISTORTION && (0.0..=MAX_DISTORTION).contains(&self.plus_minus)
    }

    /// Removes the distortion from a point of the picture.
    #[must_use]
    pub fn straightened(&self, frame: Frame, place: Point) -> Point {
        let (centre, unit) = (frame.centre(), frame.half_diagonal());
        let away = place - centre;
        let rho2 = away.dot(away) / (unit * unit);
        centre + away * (1.0 / (1.0 + self.k * rho2))
    }

    /// Applies the distortion to an undistorted point; the inverse of [`Lens::straightened`]. `None`
    /// for a point outside the lens's field.
    #[must_use]
    pub fn bent(&self, frame: Frame, place: Point) -> Option<Point> {
        let (centre, unit) = (frame.centre(), frame.half_diagonal());
        let away = place - centre;
        let rho2 = away.dot(away) / (unit * unit);
        // ρ_bent = (1 − √(1 − 4kρ²)) / (2kρ), written so that k = 0 is no special case.
        let root = 1.0 - 4.0 * self.k * rho2;
        (root >= 0.0).then(|| centre + away * (2.0 / (1.0 + root.sqrt())))
    }

    /// The distortion moved by a number of standard uncertainties.
    pub(crate) fn moved(&self, sigmas: f64) -> Self {
        Self {
            k: self.k + sigmas * self.plus_minus / 2.0,
            plus_minus: self.plus_minus,
        }
    }

    /// Distortion from edges that are straight on the part, each marked by three or more points
    /// (± `noise` pixels, half-width at about 95 %), combined with the prior `known`.
    ///
    /// The plumb-line method: the distortion that brings the points nearest to straight lines
    /// (Brown, Close-Range Camera Calibration, 1971).
    ///
    /// # Errors
    /// [`LensError::TooFew`] without an edge of three points; [`LensError::NoAnswer`] for edges that
    /// no accepted distortion straightens.
    pub fn from_edges(frame: Frame, edges: &[Vec<Point>], known: Lens, noise: f64) -> Result<Self, LensError> {
        let useful: Vec<&Vec<Point>> = edges.iter().filter(|edge| edge.len() >= 3).collect();
        if useful.is_empty() {
            return Err(LensError::TooFew);
        }
        let left = |lens: Lens| {
            let mut left = Vec::new();
            for edge in &useful {
                let straight: Vec<Point> = edge.iter().map(|point| lens.straightened(frame, *point)).collect();
                let line = StraightLine::through(&straight)?;
                left.extend(straight.iter().map(|point| line.offset(*point)));
            }
            Some(left)
        };
        estimated(left, known, noise, 2 * useful.len()).ok_or(LensError::NoAnswer)
    }

    /// Distortion from a lattice (pairs of plane and picture points), or the prior for fewer than 20
    /// points.
    pub(crate) fn from_lattice(frame: Frame, pairs: &[(Point, Point)], known: Lens, noise: f64) -> Option<Self> {
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

/// The pairs with distortion removed from their picture points.
pub(crate) fn straightened_pairs(frame: Frame, pairs: &[(Point, Point)], lens: Lens) -> Vec<(Point, Point)> {
    pairs
        .iter()
        .map(|(plane, picture)| (*plane, lens.straightened(frame, *picture)))
        .collect()
}

/// Gauss-Newton in `k` on `Σ(r/σ)² + ((k − k₀)/σ₀)²`, `residuals` being r. Where the residuals
/// exceed the noise, σ is estimated from them; `spent` is the number of parameters refitted at each
/// `k`.
fn estimated(residuals: impl Fn(Lens) -> Option<Vec<f64>>, known: Lens, noise: f64, spent: usize) -> Option<Lens> {
    let at = |k: f64| residuals(Lens { k, plus_minus: 0.0 });
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
        k = (k + change).clamp(-1.5 * MAX_DISTORTION, 1.5 * MAX_DISTORTION);
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
