//! What finding a reference gives: a candidate and what speaks against it, or a refusal.

use super::found::Found;
use super::quality::{Flaw, Quality};

/// A reference as it was found.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// Where it is, in pixels of the full size.
    pub found: Found,
    /// Whether a person must look before anything is measured with it.
    pub trust: Trust,
    /// Why it is doubtful, and what else is wrong with the photo.
    pub warnings: Vec<FindWarning>,
    /// Spread of its outline about the fitted one, in pixels of the full size; for the printed
    /// target, of its corners.
    pub rms: f64,
    /// The photo's sharpness and light.
    pub quality: Quality,
}

/// How far a find can be relied on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Trust {
    /// A person must compare the outline with the picture.
    Doubtful,
    /// Nothing speaks against it.
    Good,
}

/// What speaks against a find, or against the photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FindWarning {
    /// Something else in the picture fits nearly as well.
    SecondAsLikely,
    /// It is where a person hardly lays a reference, or as dark as a core's window: something else,
    /// not seen, is as likely.
    Unlikely,
    /// It covers little of the picture, so that a pixel is a large part of it.
    Small,
    /// It touches the border: part of it may be cut off.
    AtBorder,
    /// Long parts of its outline cannot be seen.
    WeakOutline,
    /// Its sides do not fit its known shape from any place of the camera.
    OddShape,
    /// Something is wrong with the photo.
    Photo(Flaw),
}

impl FindWarning {
    /// The word that files and screens use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            FindWarning::SecondAsLikely => "second-as-likely",
            FindWarning::Unlikely => "unlikely",
            FindWarning::Small => "small",
            FindWarning::AtBorder => "at-border",
            FindWarning::WeakOutline => "weak-outline",
            FindWarning::OddShape => "odd-shape",
            FindWarning::Photo(flaw) => flaw.word(),
        }
    }

    /// Whether it makes a find doubtful: glare and darkness alone do not.
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
    /// Marks of a rule are for a person to set.
    #[error("Two marks of a steel rule are not looked for: set them by hand, as far apart as the photo shows.")]
    ByHand,
}
