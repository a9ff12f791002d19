//! Pixels to millimetres: the map from the picture to the measured face, with its uncertainty.
//!
//! Begin at [`Scale::new`]. A rectangle or the printed target determines the whole map (`flat`,
//! through [`homography`]); a disc leaves open which way it leans and two marks leave the tilt open
//! (`round`). A reference above or below the face needs the camera's pose ([`pose`]); [`lens`]
//! removes distortion. `maps` holds the best map beside the maps with each input moved by its
//! uncertainty, and propagates both to a length.

mod flat;
pub mod homography;
pub mod lens;
mod maps;
pub mod pose;
pub(crate) mod round;

pub use lens::{Lens, LensError};
pub use pose::Focal;

pub(crate) use maps::{POINTS, PlaneMap};

use self::flat::{SideSpread, flat};
use self::homography::HomographyError;
use self::maps::Maps;
use self::pose::{TOO_FLAT_DEGREES, plausibility, rectangle_pairs};
use self::round::{Oval, disc, two_marks};
use super::geometry::{Frame, Point};
use super::reference::{Reference, ReferenceError, ReferenceOutline, ReferenceShape};
use crate::quantity::{Angle, Length, Measured, Origin, Propagated};
use crate::words::{Explain, Message};

/// Assumptions about the photo besides the reference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Options {
    /// Height of the measured face above the reference's upper face, towards the camera. For a
    /// reference that lies on the face it is minus the reference's
    /// [thickness](Reference::thickness).
    pub height: Measured<Length>,
    /// ± of each coordinate of the reference's corners, outline or marks, in pixels (half-width at
    /// about 95 %).
    pub reference_noise: f64,
    /// ± of each coordinate of a marked point, in pixels (half-width at about 95 %). More points
    /// along an edge halve it at best: the edge itself is no sharper.
    pub point_noise: f64,
    /// The lens's distortion.
    pub lens: Lens,
    /// The focal length; [`Focal::usual`] where the file does not state it.
    pub focal: Option<Focal>,
    /// The measured face's four square corners in the picture, in order along its outline, where
    /// marked: they determine which way a disc leans.
    pub face: Option<[Point; 4]>,
}

impl Default for Options {
    /// Same plane within 1 mm, corners to 1 pixel, points to 1.5 pixels, a phone's lens.
    /// Common practice, no source.
    fn default() -> Self {
        Self {
            height: Measured::new(Length::ZERO, Length::from_mm(1.0), Origin::Typical),
            reference_noise: 1.0,
            point_noise: 1.5,
            lens: Lens::default(),
            focal: None,
            face: None,
        }
    }
}

/// Why a photo has no scale.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ScaleError {
    /// The reference's own size.
    #[error(transparent)]
    Reference(#[from] ReferenceError),
    /// The outline is of another kind than the reference.
    #[error(
        "what was marked is not of the reference's kind: mark four corners of a card, a sheet or a rectangle, the outline of a coin or a disc, two marks of a rule, the squares' corners of the printed target"
    )]
    WrongKind,
    /// The points do not make a plane.
    #[error(transparent)]
    Points(#[from] HomographyError),
    /// An outline or a pair of marks without extent.
    #[error("the reference has no size in the picture; mark it again, its marks at least {0} pixels apart")]
    NoExtent(f64),
    /// Height, noise, lens or focal length out of range.
    #[error("the {0} cannot be used; give a height within 500 mm either way and noise from 0 to 100 pixels")]
    Option(&'static str),
    /// The face would lie above the camera.
    #[error("the face cannot lie that much nearer to the camera than the reference; check the height")]
    AboveCamera,
}

impl Explain for ScaleError {
    fn message(&self) -> Message {
        match self {
            ScaleError::Reference(error) => error.message(),
            ScaleError::WrongKind => Message::new("refused-scale-kind"),
            ScaleError::Points(error) => error.message(),
            ScaleError::NoExtent(least) => Message::new("refused-scale-extent").with("least", least),
            ScaleError::Option(_) => Message::new("refused-scale-option"),
            ScaleError::AboveCamera => Message::new("refused-scale-above"),
        }
    }
}

/// The options after validation, with defaults filled in.
pub(crate) struct CheckedOptions {
    pub frame: Frame,
    pub height: Measured<Length>,
    pub reference_noise: f64,
    pub lens: Lens,
    pub focal: Focal,
    pub face: Option<[Point; 4]>,
    /// One standard uncertainty of a marked coordinate, in pixels.
    pub point_sigma: f64,
}

/// Least extent of a reference in the picture, in pixels.
const MIN_PIXELS: f64 = 10.0;
/// Below this extent a reference is small, in pixels: an outline found within ± 1 pixel then costs
/// more than 1.7 % of a length.
const SMALL_PIXELS: f64 = 60.0;
/// Largest misfit without a warning, in standard uncertainties.
const MAX_MISFIT: f64 = 5.0;

/// The map from a picture to the measured face, with its uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    maps: Maps,
    point_sigma: f64,
    /// The lens, from the options or as estimated from the printed target.
    pub lens: Lens,
    /// Angle between the line of sight to the reference and the face's normal; `None` for two
    /// marks.
    pub viewing_angle: Option<Angle>,
    /// What makes the lengths less certain than they could be.
    pub warnings: Vec<ScaleWarning>,
}

impl Scale {
    /// The scale from a reference's outline in a picture.
    ///
    /// # Errors
    /// [`ScaleError::Reference`] for a size out of range; [`ScaleError::WrongKind`] for an outline
    /// of another kind; [`ScaleError::NoExtent`] below 10 pixels; [`ScaleError::Points`] for corners
    /// that make no quadrilateral; [`ScaleError::Option`] for an option out of range;
    /// [`ScaleError::AboveCamera`] for a face above the camera.
    pub fn new(
        frame: Frame,
        reference: &Reference,
        found: &ReferenceOutline,
        options: &Options,
    ) -> Result<Self, ScaleError> {
        reference.check()?;
        let known = CheckedOptions::checked(frame, options)?;
        let mut warnings = Vec::new();
        let extent = extent(found)
            .filter(|pixels| *pixels >= MIN_PIXELS)
            .ok_or(ScaleError::NoExtent(MIN_PIXELS))?;
        if extent < SMALL_PIXELS {
            warnings.push(ScaleWarning::SmallReference { pixels: extent });
        }
        let thickness = reference.thickness().value.mm();
        let mut lens = known.lens;
        let (maps, viewing_angle) = match (reference.shape(), found) {
            (ReferenceShape::Rectangle { width, height, .. }, ReferenceOutline::Rectangle(corners)) => {
                let pairs = rectangle_pairs(corners, width.value.mm(), height.value.mm());
                let rim = (thickness / width.value.mm(), thickness / height.value.mm());
                let spread = (relative(width), relative(height));
                let flat = flat(&known, &pairs, SideSpread { spread, rim })?;
                if flat.misfit > MAX_MISFIT {
                    warnings.push(ScaleWarning::DoesNotFit { misfit: flat.misfit });
                }
                (flat.maps, Some(flat.viewing_angle))
            }
            (ReferenceShape::Lattice { across, down }, ReferenceOutline::Lattice(corners)) => {
                let (across_mm, down_mm) = (across.value.mm(), down.value.mm());
                let plane = |column: i32, row: i32| Point::new(f64::from(column) * across_mm, f64::from(row) * down_mm);
                let pairs: Vec<_> = corners
                    .iter()
                    .map(|(column, row, at)| (plane(*column, *row), *at))
                    .collect();
                let spread = (relative(across), relative(down));
                let flat = flat(
                    &known,
                    &pairs,
                    SideSpread {
                        spread,
                        rim: (0.0, 0.0),
                    },
                )?;
                if flat.residual > (2.0 * options.reference_noise).max(1.0) {
                    warnings.push(ScaleWarning::Uneven { pixels: flat.residual });
                }
                lens = flat.lens;
                (flat.maps, Some(flat.viewing_angle))
            }
            (
                ReferenceShape::Disc { diameter },
                ReferenceOutline::Ellipse {
                    centre,
                    half_axes,
                    angle,
                },
            ) => {
                let oval = Oval::new(*centre, *half_axes, *angle);
                let (maps, angle, told) = disc(&known, oval, diameter, thickness).ok_or(ScaleError::AboveCamera)?;
                if !told {
                    warnings.push(ScaleWarning::LeanUnknown);
                }
                (maps, Some(angle))
            }
            (ReferenceShape::Marks { length }, ReferenceOutline::Marks(marks)) => {
                warnings.push(ScaleWarning::TiltUnknown);
                (two_marks(&known, *marks, length).ok_or(ScaleError::AboveCamera)?, None)
            }
            _ => return Err(ScaleError::WrongKind),
        };
        if let Some(degrees) = viewing_angle
            .map(Angle::degrees)
            .filter(|degrees| *degrees > TOO_FLAT_DEGREES)
        {
            warnings.push(ScaleWarning::TooFlat { degrees });
        }
        Ok(Self {
            maps,
            point_sigma: options.point_noise / 2.0,
            lens,
            viewing_angle,
            warnings,
        })
    }

    /// The position on the face of a point in the picture, in millimetres from the reference's first
    /// corner; `None` at or beyond the horizon.
    #[must_use]
    pub fn place(&self, point: Point) -> Option<Point> {
        let mut sum = Point::default();
        for map in &self.maps.best {
            sum = sum + map.place(point)?;
        }
        Some(sum * (1.0 / self.maps.best.len() as f64))
    }

    /// The maps that fit the picture equally well: two for a disc that may lean either way, else one.
    pub(crate) fn candidates(&self) -> &[PlaneMap] {
        &self.maps.best
    }

    /// Pixels per millimetre at a point in the picture, averaged over all directions.
    #[must_use]
    pub fn pixels_per_mm(&self, point: Point) -> Option<f64> {
        let at = |x: f64, y: f64| self.place(point + Point::new(x, y));
        let (x, y) = (at(0.5, 0.0)? - at(-0.5, 0.0)?, at(0.0, 0.5)? - at(0.0, -0.5)?);
        let area = x.cross(y).abs();
        (area > 0.0).then(|| area.sqrt().recip())
    }

    /// Values computed from points on the face, with their standard uncertainties and the
    /// contributors. `groups` counts the points of each edge.
    pub(crate) fn propagate<const M: usize>(
        &self,
        points: &[Point],
        groups: &[usize],
        answer: impl Fn(&[Point]) -> Option<[f64; M]>,
    ) -> Option<Propagated<M>> {
        self.maps.propagate(points, groups, self.point_sigma, answer)
    }
}

impl CheckedOptions {
    fn checked(frame: Frame, options: &Options) -> Result<Self, ScaleError> {
        let focal = options.focal.unwrap_or_else(|| Focal::usual(frame));
        let noise = |pixels: f64| (0.0..=100.0).contains(&pixels);
        let height = options.height;
        let checks = [
            ("picture", frame.is_real()),
            (
                "height",
                height.value.mm().abs() <= 500.0 && (0.0..=500.0).contains(&height.plus_minus.mm()),
            ),
            ("noise of the reference", noise(options.reference_noise)),
            ("noise of the points", noise(options.point_noise)),
            ("lens", options.lens.is_usable()),
            ("focal length", focal.is_usable()),
        ];
        match checks.iter().find(|check| !check.1) {
            Some((name, _)) => Err(ScaleError::Option(name)),
            None => Ok(Self {
                frame,
                height,
                reference_noise: options.reference_noise,
                lens: options.lens,
                focal,
                face: options.face,
                point_sigma: options.point_noise / 2.0,
            }),
        }
    }
}

/// Relative standard uncertainty of a size.
fn relative(size: Measured<Length>) -> f64 {
    size.sigma_si() / size.value.si()
}

/// The reference's shorter extent in the picture, in pixels (the length, for two marks).
fn extent(found: &ReferenceOutline) -> Option<f64> {
    let finite = |pixels: f64| pixels.is_finite().then_some(pixels);
    match found {
        ReferenceOutline::Rectangle(corners) => {
            let side = |index: usize| corners[index].distance(corners[(index + 1) % 4]);
            finite(side(0).max(side(2)).min(side(1).max(side(3))))
        }
        ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } => finite(centre.x + centre.y + angle).and_then(|_| finite(2.0 * half_axes.0.min(half_axes.1))),
        ReferenceOutline::Lattice(corners) => {
            let span = |of: fn(&Point) -> f64| {
                let values = corners.iter().map(|corner| of(&corner.2));
                values.clone().fold(f64::NEG_INFINITY, f64::max) - values.fold(f64::INFINITY, f64::min)
            };
            finite(span(|point| point.x).min(span(|point| point.y)))
        }
        ReferenceOutline::Marks([first, second]) => finite(first.distance(*second)),
    }
}

/// A property of a photo that makes its lengths less certain than they could be.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ScaleWarning {
    /// The viewing angle is too large.
    #[error(
        "the face is seen {degrees:.0}° from straight above; hold the camera more nearly above it, within {TOO_FLAT_DEGREES}°"
    )]
    TooFlat {
        /// Angle between the line of sight and the normal, in degrees.
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
    /// The outline does not match the named object.
    #[error(
        "the outline does not look like the object named; check which object it is, which side is its first, its corners, and that the photo is not cropped"
    )]
    DoesNotFit {
        /// In standard uncertainties.
        misfit: f64,
    },
    /// The lattice's corners deviate from a flat sheet.
    #[error(
        "the printed squares are off by {pixels:.1} pixels; lay the sheet flat, and check that every corner was counted right"
    )]
    Uneven {
        /// Root mean square.
        pixels: f64,
    },
    /// The direction of a disc's lean is ambiguous.
    #[error(
        "a disc does not show which way the face leans: the ± grows with the distance from it; lay it close to what is measured, or use a card"
    )]
    LeanUnknown,
    /// Two marks give no viewing angle.
    #[error(
        "two marks do not show how the camera is held: the ± allows for 15° each way; use a card or a sheet for better figures"
    )]
    TiltUnknown,
}

impl Explain for ScaleWarning {
    fn message(&self) -> Message {
        match self {
            ScaleWarning::TooFlat { degrees } => Message::new("photo-too-flat")
                .with("degrees", format!("{degrees:.0}"))
                .with("most", TOO_FLAT_DEGREES),
            ScaleWarning::SmallReference { pixels } => {
                Message::new("photo-small-reference").with("pixels", format!("{pixels:.0}"))
            }
            ScaleWarning::DoesNotFit { .. } => Message::new("photo-does-not-fit"),
            ScaleWarning::Uneven { pixels } => Message::new("photo-uneven").with("pixels", format!("{pixels:.1}")),
            ScaleWarning::LeanUnknown => Message::new("photo-lean-unknown"),
            ScaleWarning::TiltUnknown => Message::new("photo-tilt-unknown"),
        }
    }
}

/// A rectangle from four corners set by hand in any order: clockwise as seen, the first side being
/// the reference's width. The orientation is the one that a camera is likelier to have seen; for a
/// square, or in doubt, the first side begins at the uppermost corner. `noise` is the ± of the
/// corners, in pixels (half-width at about 95 %).
///
/// # Errors
/// [`ScaleError::Reference`] for a size out of range; [`ScaleError::WrongKind`] for a reference that
/// is no rectangle; [`ScaleError::Points`] for corners that make no quadrilateral.
pub fn rectangle_by_hand(
    frame: Frame,
    reference: &Reference,
    corners: [Point; 4],
    noise: f64,
    focal: Option<Focal>,
) -> Result<ReferenceOutline, ScaleError> {
    reference.check()?;
    let ReferenceShape::Rectangle { width, height, .. } = reference.shape() else {
        return Err(ScaleError::WrongKind);
    };
    let middle = corners.iter().fold(Point::default(), |sum, corner| sum + *corner) * 0.25;
    let mut round = corners;
    round.sort_by(|a, b| {
        let angle = |corner: &Point| (corner.y - middle.y).atan2(corner.x - middle.x);
        angle(a).total_cmp(&angle(b))
    });
    let upper = (0..4).min_by(|a, b| round[*a].y.total_cmp(&round[*b].y)).unwrap_or(0);
    round.rotate_left(upper);
    let mut turned = round;
    turned.rotate_left(1);
    let known = focal.unwrap_or_else(|| Focal::usual(frame));
    let size = (width.value.mm(), height.value.mm());
    let misfit = |corners: &[Point; 4]| plausibility(frame, corners, size, noise, known).map(|seen| seen.misfit);
    let best = if misfit(&turned)? + 0.5 < misfit(&round)? {
        turned
    } else {
        round
    };
    Ok(ReferenceOutline::Rectangle(best))
}
