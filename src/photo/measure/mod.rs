//! Lengths and angles on a face, with their ±.
//!
//! Begin at [`distance`] for two points, [`gap`] for two edges, or [`Marks`] for all dimensions of a
//! core that a person marked on one photo. [`snap`] moves a tapped point to the edge that was
//! meant.

pub mod combined;
pub mod core_face;
pub mod core_stack;
mod marks;
pub mod snap;

pub use marks::{Dimension, DimensionReading, Mark, Marks, Span};

use super::geometry::{Point, StraightLine};
use super::scale::Scale;
use crate::quantity::{Angle, Input, Length, Measured, Origin, Propagated, VarianceShare, widest_inputs};
use crate::words::{Explain, Message};

/// Why marks give no length or angle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum MeasureError {
    /// A point at or beyond the face's horizon.
    #[error("a marked point lies beyond the face's horizon in this photo; mark points on the face")]
    NotOnFace,
    /// An edge needs two points.
    #[error("mark two or more different points along each edge")]
    TooFew,
}

impl Explain for MeasureError {
    fn message(&self) -> Message {
        match self {
            MeasureError::NotOnFace => Message::new("refused-mark-off-face"),
            MeasureError::TooFew => Message::new("refused-mark-few"),
        }
    }
}

/// A length from a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoLength {
    /// The length and its ±, its origin [`Origin::Photo`].
    pub length: Measured<Length>,
    /// The largest contributors to the ±, largest first.
    pub variance_shares: Vec<VarianceShare>,
    /// The standard uncertainty from each cause, in millimetres: the root of the sum of their squares is half
    /// the ±.
    pub parts: Vec<(Input, f64)>,
}

/// The distance between two edges that should be parallel.
#[derive(Debug, Clone, PartialEq)]
pub struct Gap {
    /// Perpendicular to the common direction, between the means of the marked points.
    pub distance: PhotoLength,
    /// Angle between the two edges, each fitted alone.
    pub out_of_parallel: Measured<Angle>,
}

impl Gap {
    /// Whether the edges deviate from parallel by more than their ±: the distance then depends on
    /// where it is taken.
    #[must_use]
    pub fn is_askew(&self) -> bool {
        self.out_of_parallel.value > self.out_of_parallel.plus_minus
    }
}

/// The distance on the face between two points of the picture.
///
/// # Errors
/// [`MeasureError::NotOnFace`] for a point at or beyond the horizon.
pub fn distance(scale: &Scale, first: Point, second: Point) -> Result<PhotoLength, MeasureError> {
    let answer = scale.propagate(&[first, second], &[1, 1], |flat| Some([flat[0].distance(flat[1])]));
    Ok(photo_length(&answer.ok_or(MeasureError::NotOnFace)?))
}

/// The distance between two parallel edges, each marked by two or more points.
///
/// # Errors
/// [`MeasureError::TooFew`] for an edge with fewer than two different points;
/// [`MeasureError::NotOnFace`] for a point at or beyond the horizon.
pub fn gap(scale: &Scale, first: &[Point], second: &[Point]) -> Result<Gap, MeasureError> {
    let (points, split) = edges(first, second)?;
    let answer = scale.propagate(&points, &[split, points.len() - split], |flat| {
        let (first, second) = flat.split_at(split);
        Some([perpendicular(first, second)?, angle_between(first, second)?])
    });
    let answer = answer.ok_or(MeasureError::NotOnFace)?;
    Ok(Gap {
        distance: photo_length(&answer),
        out_of_parallel: photo_angle(answer.value[1], answer.sigma[1]),
    })
}

/// The angle between two edges, 0 to 90°, each marked by two or more points.
///
/// # Errors
/// As [`gap`].
pub fn angle(scale: &Scale, first: &[Point], second: &[Point]) -> Result<Measured<Angle>, MeasureError> {
    let (points, split) = edges(first, second)?;
    let answer = scale.propagate(&points, &[split, points.len() - split], |flat| {
        let (first, second) = flat.split_at(split);
        Some([angle_between(first, second)?])
    });
    let answer = answer.ok_or(MeasureError::NotOnFace)?;
    Ok(photo_angle(answer.value[0], answer.sigma[0]))
}

fn edges(first: &[Point], second: &[Point]) -> Result<(Vec<Point>, usize), MeasureError> {
    let is_edge = |edge: &[Point]| edge.iter().skip(1).any(|point| point.distance(edge[0]) > 0.0);
    if !(is_edge(first) && is_edge(second)) {
        return Err(MeasureError::TooFew);
    }
    Ok((first.iter().chain(second).copied().collect(), first.len()))
}

/// Distance between two edges perpendicular to their common direction.
pub(crate) fn perpendicular(first: &[Point], second: &[Point]) -> Option<f64> {
    let (direction, middles) = StraightLine::parallel(&[first, second])?;
    Some(direction.cross(middles[1] - middles[0]).abs())
}

/// Angle between the lines through two edges, radians, 0 to π/2.
fn angle_between(first: &[Point], second: &[Point]) -> Option<f64> {
    let (first, second) = (
        StraightLine::through(first)?.direction,
        StraightLine::through(second)?.direction,
    );
    Some(first.cross(second).abs().atan2(first.dot(second).abs()))
}

/// The first value, in millimetres, as a length.
pub(crate) fn photo_length<const M: usize>(answer: &Propagated<M>) -> PhotoLength {
    let (mm, sigma) = (answer.value[0], answer.sigma[0]);
    PhotoLength {
        length: Measured::new(Length::from_mm(mm), Length::from_mm(2.0 * sigma), Origin::Photo),
        variance_shares: widest_inputs(answer, 0),
        parts: answer.shares.iter().map(|(input, share)| (*input, share[0])).collect(),
    }
}

fn photo_angle(value: f64, sigma: f64) -> Measured<Angle> {
    Measured::new(Angle::from_si(value), Angle::from_si(2.0 * sigma), Origin::Photo)
}
