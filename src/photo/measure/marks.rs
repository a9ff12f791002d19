//! The marks that a person placed on a photo, and the core's dimensions computed from them.

use super::{MeasureError, PhotoLength, perpendicular, photo_length};
use crate::photo::geometry::{Frame, Point};
use crate::photo::reference::{Reference, ReferenceOutline};
use crate::photo::scale::{Lens, LensError, Options, POINTS, Scale, ScaleError};
use crate::quantity::{Input, Propagated};

/// A dimension of the core, named as in the drawing in `magnetics::core`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Dimension {
    /// Width of the centre limb.
    Tongue,
    /// Depth of the pile of laminations.
    Stack,
    /// Clear width of one window.
    WindowWidth,
    /// Clear height of one window.
    WindowHeight,
    /// Width of an outer limb.
    OuterLimb,
    /// Width of a yoke.
    Yoke,
}

impl Dimension {
    /// All dimensions, in the order that a person is asked for them.
    pub const ALL: [Dimension; 6] = [
        Dimension::Tongue,
        Dimension::Stack,
        Dimension::WindowWidth,
        Dimension::WindowHeight,
        Dimension::OuterLimb,
        Dimension::Yoke,
    ];

    /// The identifier used in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Dimension::Tongue => "tongue",
            Dimension::Stack => "stack",
            Dimension::WindowWidth => "window_width",
            Dimension::WindowHeight => "window_height",
            Dimension::OuterLimb => "outer_limb",
            Dimension::Yoke => "yoke",
        }
    }

    /// The dimension with this identifier.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|dimension| dimension.word() == word)
    }
}

/// How a dimension was marked.
#[derive(Debug, Clone, PartialEq)]
pub enum Span {
    /// From one point to another.
    Points([Point; 2]),
    /// Between two parallel edges, each with two or more points on it.
    Edges([Vec<Point>; 2]),
}

/// One dimension marked at one place of the core.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// The dimension.
    pub dimension: Dimension,
    /// Its ends in the picture.
    pub span: Span,
}

/// All marks on one photo.
#[derive(Debug, Clone, PartialEq)]
pub struct Marks {
    /// The picture's size.
    pub frame: Frame,
    /// The object of known size.
    pub reference: Reference,
    /// Its outline, as found or as corrected.
    pub outline: ReferenceOutline,
    /// Height, noise, lens and focal length.
    pub options: Options,
    /// The core's edges. A dimension may be marked at several places (both outer limbs).
    pub marks: Vec<Mark>,
}

/// A dimension of the core from a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct DimensionReading {
    /// The dimension.
    pub dimension: Dimension,
    /// The mean over its places.
    pub length: PhotoLength,
    /// Number of places where it was marked.
    pub places: usize,
}

/// The cause of the ± where places of one dimension differ.
const PLACES_DIFFER: Input = Input::PlacesDiffer;

impl Marks {
    /// The scale from the reference.
    ///
    /// # Errors
    /// As [`Scale::new`].
    pub fn scale(&self) -> Result<Scale, ScaleError> {
        Scale::new(self.frame, &self.reference, &self.outline, &self.options)
    }

    /// The lens's distortion from the marked edges of three and more points, with the lens of the
    /// options as prior.
    ///
    /// # Errors
    /// As [`Lens::from_edges`].
    pub fn lens(&self) -> Result<Lens, LensError> {
        let edges: Vec<Vec<Point>> = self
            .marks
            .iter()
            .filter_map(|mark| match &mark.span {
                Span::Edges(edges) => Some(edges.clone()),
                Span::Points(_) => None,
            })
            .flatten()
            .collect();
        Lens::from_edges(self.frame, &edges, self.options.lens, self.options.point_noise)
    }

    /// The marked dimensions in the order of [`Dimension::ALL`], each the mean over its places. The
    /// uncertainty common to all places (the scale) does not average out, that of each mark does,
    /// and places that differ by more than their marks' uncertainty widen the ±.
    #[must_use]
    pub fn readings(&self, scale: &Scale) -> Vec<(Dimension, Result<DimensionReading, MeasureError>)> {
        Dimension::ALL
            .into_iter()
            .filter_map(|dimension| {
                let spans: Vec<&Span> = self
                    .marks
                    .iter()
                    .filter(|mark| mark.dimension == dimension)
                    .map(|mark| &mark.span)
                    .collect();
                (!spans.is_empty()).then(|| (dimension, reading(scale, dimension, &spans)))
            })
            .collect()
    }
}

fn reading(scale: &Scale, dimension: Dimension, spans: &[&Span]) -> Result<DimensionReading, MeasureError> {
    let count = spans.len() as f64;
    let (mut points, mut groups) = (Vec::new(), Vec::new());
    let mut single = Vec::with_capacity(spans.len());
    for span in spans {
        if !span.is_whole() {
            return Err(MeasureError::TooFew);
        }
        let own = span.points();
        let one = scale
            .propagate(&own, &span.groups(), |flat| Some([span.across(flat)?]))
            .ok_or(MeasureError::NotOnFace)?;
        single.push((one.value[0], share(&one, POINTS)));
        points.extend(own);
        groups.extend(span.groups());
    }
    let mean = scale.propagate(&points, &groups, |flat| {
        let mut rest = flat;
        let mut sum = 0.0;
        for span in spans {
            let (own, after) = rest.split_at(span.groups().iter().sum());
            sum += span.across(own)?;
            rest = after;
        }
        Some([sum / count])
    });
    let mut mean = mean.ok_or(MeasureError::NotOnFace)?;
    if spans.len() > 1 {
        let scatter = single
            .iter()
            .map(|(value, _)| (value - mean.value[0]).powi(2))
            .sum::<f64>()
            / (count - 1.0);
        let explained = single.iter().map(|(_, sigma)| sigma * sigma).sum::<f64>() / count;
        let extra = (scatter - explained).max(0.0) / count;
        mean.sigma[0] = mean.sigma[0].hypot(extra.sqrt());
        mean.shares.push((PLACES_DIFFER, [extra.sqrt()]));
    }
    Ok(DimensionReading {
        dimension,
        length: photo_length(&mean),
        places: spans.len(),
    })
}

fn share(answer: &Propagated<1>, cause: Input) -> f64 {
    answer
        .shares
        .iter()
        .find(|share| share.0 == cause)
        .map_or(0.0, |share| share.1[0])
}

impl Span {
    fn points(&self) -> Vec<Point> {
        match self {
            Span::Points(points) => points.to_vec(),
            Span::Edges([first, second]) => first.iter().chain(second).copied().collect(),
        }
    }

    /// The number of points on each edge; each end counts as an edge of its own.
    fn groups(&self) -> [usize; 2] {
        match self {
            Span::Points(_) => [1, 1],
            Span::Edges(edges) => [edges[0].len(), edges[1].len()],
        }
    }

    /// Whether there are two different points, or two on each edge.
    fn is_whole(&self) -> bool {
        let differ = |points: &[Point]| points.iter().skip(1).any(|point| point.distance(points[0]) > 0.0);
        match self {
            Span::Points(points) => differ(points),
            Span::Edges(edges) => edges.iter().all(|edge| differ(edge)),
        }
    }

    /// The length in millimetres, from the span's points on the face.
    fn across(&self, flat: &[Point]) -> Option<f64> {
        match self {
            Span::Points(_) => Some(flat[0].distance(flat[1])),
            Span::Edges([first, _]) => {
                let (first, second) = flat.split_at(first.len());
                perpendicular(first, second)
            }
        }
    }
}
