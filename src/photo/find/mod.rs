//! Search in the reduced picture, exact position at full size: the object of known size, and the
//! parts of a core's face.
//!
//! Begin at [`find_reference`]. A rectangle goes `segments` (straight edges) → `quads` (four that
//! meet) → `rectangle` (ranking, sides fitted at full size); where lines alone are not clear,
//! `patches` adds outlines of even areas. A disc goes `round_outlines` → `ellipse`, chosen in
//! `disc`; the printed target goes `saddles` → `lattice`. `object_cues` tells the edge of an object
//! from a drawn line, and a core's window from a dark card. `follow` fits an object again near where it
//! was in the frame before. [`core_parts`] proposes tongue and
//! windows inside a core's four corners. Every result is a [`FoundReference`] with its
//! [`FindWarning`]s: a doubtful one is shown to a person before anything is measured.

pub mod core_parts;
mod disc;
mod ellipse;
pub(crate) mod follow;
mod lattice;
pub(crate) mod object_cues;
pub(crate) mod patches;
pub(crate) mod perspective;
pub(crate) mod quads;
mod rectangle;
mod round_outlines;
mod saddles;
pub(crate) mod segments;

use self::disc::find_disc;
use self::lattice::find_lattice;
use self::rectangle::{SoughtRectangle, find_rectangle};
use super::Cancelled;
use super::geometry::Point;
use super::image::{Flaw, Photo, Quality};
use super::reference::{Reference, ReferenceOutline, ReferenceShape};
use crate::words::{Explain, Message};

/// Smallest reference without a flag: its longer side over the picture's long side.
const SMALL: f64 = 0.1;
/// A second outline with at least this fraction of the best one's score is a doubt.
const CLOSE: f64 = 0.85;
/// Beyond this off-centre distance, flag as unlikely.
const FAR_OFF_CENTRE: f64 = 0.4;

/// A reference located in a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundReference {
    /// Its outline, in pixels of the full size.
    pub outline: ReferenceOutline,
    /// Whether a person must check it before anything is measured.
    pub trust: Trust,
    /// Reasons for doubt, and defects of the photo.
    pub warnings: Vec<FindWarning>,
    /// Root mean square distance of the edge points from the fitted outline, or of the printed
    /// target's corners from a plane's, in pixels of the full size.
    pub rms: f64,
    /// The photo's sharpness and light.
    pub quality: Quality,
}

/// How far a found reference can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trust {
    /// A person must compare the outline with the picture.
    Doubtful,
    /// No reason for doubt.
    Good,
}

/// A reason to doubt a found reference, or a defect of the photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FindWarning {
    /// Another outline in the picture fits nearly as well.
    SecondAsLikely,
    /// Far off-centre, or as dark as a core's window: another object is as likely.
    Unlikely,
    /// It covers little of the picture, so that a pixel is a large part of it.
    Small,
    /// It touches the border and may be cut off.
    AtBorder,
    /// Long parts of its outline have no edge.
    WeakOutline,
    /// No camera position fits its sides to its known shape.
    OddShape,
    /// Its corners are square where the reference has round ones: a sheet of paper, not a card.
    SquareCorners,
    /// A defect of the photo.
    Photo(Flaw),
}

impl FindWarning {
    /// The identifier used in files and for texts.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            FindWarning::SecondAsLikely => "second-as-likely",
            FindWarning::Unlikely => "unlikely",
            FindWarning::Small => "small",
            FindWarning::AtBorder => "at-border",
            FindWarning::WeakOutline => "weak-outline",
            FindWarning::OddShape => "odd-shape",
            FindWarning::SquareCorners => "square-corners",
            FindWarning::Photo(flaw) => flaw.word(),
        }
    }

    /// Whether it makes the reference doubtful; glare and darkness alone do not.
    #[must_use]
    pub const fn is_doubt(self) -> bool {
        !matches!(self, FindWarning::Photo(Flaw::Glare | Flaw::Dark))
    }
}

/// Why no reference was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum FindError {
    /// Nothing in the picture fits.
    #[error(
        "The reference was not found in the photo. Mark its corners or its outline by hand, or take the photo again: all of the reference in view, on a plain ground that is darker or brighter than it, the camera straight above."
    )]
    Nothing,
    /// The person cancelled the search.
    #[error("The search was cancelled.")]
    Cancelled,
    /// The marks of a rule are set by hand.
    #[error("Two marks of a steel rule are not looked for: set them by hand, as far apart as the photo shows.")]
    ByHand,
}

impl Explain for FindError {
    fn message(&self) -> Message {
        match self {
            FindError::Nothing => Message::new("refused-find"),
            FindError::Cancelled => Message::new("refused-cancelled"),
            FindError::ByHand => Message::new("refused-find-rule"),
        }
    }
}

/// Searches a photo for a reference: a rectangle by its four straight sides, a disc by its outline,
/// the printed target by the corners of its squares.
///
/// # Errors
/// [`FindError::Nothing`] where nothing fits; [`FindError::ByHand`] for a steel rule.
pub fn find_reference(photo: &Photo, reference: &Reference) -> Result<FoundReference, FindError> {
    find_reference_unless(photo, reference, &|| false)
}

/// As [`find_reference`], given up when `cancelled` says so. It is asked between the stages of the search:
/// edges, lines, patches, and each outline that is fitted.
///
/// # Errors
/// [`FindError::Cancelled`], or those of [`find_reference`].
pub fn find_reference_unless(
    photo: &Photo,
    reference: &Reference,
    cancelled: Cancelled<'_>,
) -> Result<FoundReference, FindError> {
    if let Some(sought) = SoughtRectangle::of(reference) {
        return find_rectangle(photo, &sought, cancelled);
    }
    match reference.shape() {
        ReferenceShape::Rectangle { .. } => Err(FindError::Nothing),
        ReferenceShape::Disc { .. } => find_disc(photo, matches!(reference, Reference::Coin(_)), cancelled),
        ReferenceShape::Lattice { .. } => find_lattice(photo, cancelled),
        ReferenceShape::Marks { .. } => Err(FindError::ByHand),
    }
}

/// An outline that was fitted near where it was expected.
struct Near {
    outline: ReferenceOutline,
    /// As in [`FoundReference::rms`].
    rms: f64,
    doubts: Vec<FindWarning>,
}

fn go_on(cancelled: Cancelled<'_>) -> Result<(), FindError> {
    if cancelled() { Err(FindError::Cancelled) } else { Ok(()) }
}

/// Prior: the reference is near the image centre; weight falls to 0.65 in the corners.
pub(crate) fn centre_prior(place: Point, centre: Point) -> f64 {
    1.0 - 0.35 * off_centre(place, centre)
}

/// Distance of a point from the picture's centre, as a fraction of half the diagonal.
fn off_centre(place: Point, centre: Point) -> f64 {
    place.distance(centre) / centre.length()
}

/// Prior favouring a frontal view, by `facing`, the cosine between the line of sight and the
/// plane's normal.
fn frontal_prior(facing: f64) -> f64 {
    facing.clamp(0.1, 1.0).powf(0.35)
}

/// A found outline with the photo's defects added to its warnings, and its trust.
fn assessed(
    photo: &Photo,
    outline: ReferenceOutline,
    rms: f64,
    mut warnings: Vec<FindWarning>,
    quality: Quality,
) -> FoundReference {
    warnings.extend(quality.flaws(photo.factor()).into_iter().map(FindWarning::Photo));
    let trust = if warnings.iter().any(|warning| warning.is_doubt()) {
        Trust::Doubtful
    } else {
        Trust::Good
    };
    FoundReference {
        outline,
        trust,
        warnings,
        rms,
        quality,
    }
}
