//! Finds the reference in a photo.

use super::find_disc::find_disc;
use super::find_lattice::find_lattice;
use super::find_rectangle::{Sought, UNDER_A_CORE, find_rectangle};
use super::found::Found;
use super::picture::Photo;
use super::point::Point;
use super::quality::Quality;
use super::reference::{Reference, Shape};

pub use super::candidate::{Candidate, FindError, FindWarning, Trust};

/// Smallest reference that is not flagged: its longer side over the picture's long side.
pub(super) const SMALL: f64 = 0.1;
/// A second candidate this near to the first, as a part of its score, is a doubt.
pub(super) const CLOSE: f64 = 0.85;

/// Looks for the reference: for a rectangle by its four straight sides, for a disc by its
/// outline, for the printed target by its squares' corners.
///
/// # Errors
/// [`FindError::Nothing`] where nothing fits; [`FindError::ByHand`] for a steel rule.
pub fn find_reference(photo: &Photo, reference: &Reference) -> Result<Candidate, FindError> {
    match reference.shape() {
        Shape::Rectangle {
            width,
            height,
            corner_radius,
        } => {
            let (wide, high) = (width.value.mm(), height.value.mm());
            let margin = 0.06 + corner_radius.mm() / wide.min(high);
            let sought = Sought {
                ratio: wide / high,
                margin,
                spread: width.plus_minus.mm() / wide + height.plus_minus.mm() / high,
                bare: wide.max(high) < UNDER_A_CORE,
                white: matches!(reference, Reference::Paper(_)),
                thick: matches!(reference, Reference::Rectangle { .. }),
            };
            find_rectangle(photo, &sought)
        }
        Shape::Disc { .. } => find_disc(photo, matches!(reference, Reference::Coin(_))),
        Shape::Lattice { .. } => find_lattice(photo),
        Shape::Marks { .. } => Err(FindError::ByHand),
    }
}

/// A person lays the reference by the part and holds the camera above both: of two finds that are
/// equally good the one nearer to the middle counts, by a third in the picture's corners.
pub(super) fn in_the_middle(place: Point, centre: Point) -> f64 {
    1.0 - 0.35 * aside(place, centre)
}

/// How far a place is from the picture's middle, as a part of half the diagonal.
pub(super) fn aside(place: Point, centre: Point) -> f64 {
    place.distance(centre) / centre.length()
}

/// Farther aside than this a reference is so seldom laid that something else is as likely.
pub(super) const ASIDE: f64 = 0.4;

/// And of two the one that is seen more from straight above, by `facing`, the cosine between the
/// line of sight and its plane's normal.
pub(super) fn from_above(facing: f64) -> f64 {
    facing.clamp(0.1, 1.0).powf(0.35)
}

pub(super) fn candidate(
    photo: &Photo,
    found: Found,
    rms: f64,
    mut warnings: Vec<FindWarning>,
    quality: Quality,
) -> Candidate {
    warnings.extend(quality.flaws(photo.factor()).into_iter().map(FindWarning::Photo));
    let trust = if warnings.iter().any(|warning| warning.is_doubt()) {
        Trust::Doubtful
    } else {
        Trust::Good
    };
    Candidate {
        found,
        trust,
        warnings,
        rms,
        quality,
    }
}
