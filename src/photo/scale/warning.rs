//! What a photo could have better.

use super::pose::TOO_FLAT_DEGREES;

/// Something about a photo that makes its lengths worse than they could be.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Warning {
    /// Seen from too far aside.
    #[error(
        "the face is seen {degrees:.0}° from straight above; hold the camera more nearly above it, within {TOO_FLAT_DEGREES}°"
    )]
    TooFlat {
        /// Between the line of sight and the normal, in degrees.
        degrees: f64,
    },
    /// The reference is small in the picture.
    #[error(
        "the reference is only {pixels:.0} pixels wide in the picture; move closer, or lay a larger one beside the part"
    )]
    SmallReference {
        /// Its shorter extent.
        pixels: f64,
    },
    /// The outline is not that of the object named.
    #[error(
        "the outline does not look like the object named; check which object it is, which side is its first, its corners, and that the photo is not cropped"
    )]
    DoesNotFit {
        /// In standard uncertainties.
        misfit: f64,
    },
    /// The lattice's corners are not where a flat sheet has them.
    #[error(
        "the printed squares are off by {pixels:.1} pixels; lay the sheet flat, and check that every corner was counted right"
    )]
    Uneven {
        /// Root mean square.
        pixels: f64,
    },
    /// A disc leaves open which way it leans.
    #[error(
        "a disc does not show which way the face leans: the ± grows with the distance from it; lay it close to what is measured, or use a card"
    )]
    LeanUnknown,
    /// Two marks show no lean at all.
    #[error(
        "two marks do not show how the camera is held: the ± allows for 15° each way; use a card or a sheet for better figures"
    )]
    TiltUnknown,
}
