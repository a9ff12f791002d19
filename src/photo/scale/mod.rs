//! Pixels to millimetres.

use super::conic::Oval;
use super::found::Found;
use super::frame::Frame;
use super::homography::HomographyError;
use super::lens::Lens;
use super::maps::Maps;
use super::point::Point;
use super::pose::{Focal, TOO_FLAT_DEGREES, rectangle_pairs};
use super::reference::{Reference, ReferenceError, Shape};
use super::scale_flat::{Sides, flat};
use super::scale_round::{disc, two_marks};
use super::warning::Warning;
use crate::quantity::{Angle, Length, Measured, Origin, Propagated};

/// What is known besides the reference.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Options {
    /// How much nearer to the camera the measured face lies than the reference's upper face
    /// (negative for a reference that lies on the face: then minus its
    /// [thickness](Reference::thickness)).
    pub height: Measured<Length>,
    /// How well the reference's corners, outline or marks were found, in pixels (half-width at
    /// about 95 % of each coordinate).
    pub reference_noise: f64,
    /// How well a marked point sits on the part's edge, in pixels (the same). More points along
    /// an edge halve it at best: the edge itself is no sharper.
    pub point_noise: f64,
    /// The lens's distortion.
    pub lens: Lens,
    /// The focal length; what is usual where the picture file does not say.
    pub focal: Option<Focal>,
    /// The measured face's four square corners in the picture, round its outline, where they were
    /// marked: they tell which way a disc leans.
    pub face: Option<[Point; 4]>,
}

impl Default for Options {
    /// Same plane within 1 mm, corners to 1 pixel, points to 1.5 pixels, a telephone's lens.
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
    /// The outline found is of another kind than the reference.
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

/// The inputs of a scale after they were checked.
pub(super) struct Known {
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
const LEAST_PIXELS: f64 = 10.0;
/// Below this extent a reference is small, in pixels.
const SMALL_PIXELS: f64 = 120.0;
/// A misfit above this is no accident.
const MOST_MISFIT: f64 = 5.0;

/// The way from a picture to the measured face, with its uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct Scale {
    maps: Maps,
    point_sigma: f64,
    /// The lens, as known before or as the printed target showed it.
    pub lens: Lens,
    /// Between the line of sight to the reference and the face's normal; two marks do not tell.
    pub viewing_angle: Option<Angle>,
    /// What makes the lengths worse than they could be.
    pub warnings: Vec<Warning>,
}

impl Scale {
    /// The scale that a reference found in a picture gives.
    ///
    /// # Errors
    /// A reference of no allowed size, an outline of another kind or without extent, corners that
    /// are no quadrilateral, options out of range.
    pub fn new(frame: Frame, reference: &Reference, found: &Found, options: &Options) -> Result<Self, ScaleError> {
        reference.check()?;
        let known = Known::checked(frame, options)?;
        let mut warnings = Vec::new();
        let extent = extent(found)
            .filter(|pixels| *pixels >= LEAST_PIXELS)
            .ok_or(ScaleError::NoExtent(LEAST_PIXELS))?;
        if extent < SMALL_PIXELS {
            warnings.push(Warning::SmallReference { pixels: extent });
        }
        let thickness = reference.thickness().value.mm();
        let mut lens = known.lens;
        let (maps, viewing_angle) = match (reference.shape(), found) {
            (Shape::Rectangle { width, height, .. }, Found::Rectangle(corners)) => {
                let pairs = rectangle_pairs(corners, width.value.mm(), height.value.mm());
                let rim = (thickness / width.value.mm(), thickness / height.value.mm());
                let spread = (relative(width), relative(height));
                let flat = flat(&known, &pairs, Sides { spread, rim })?;
                if flat.misfit > MOST_MISFIT {
                    warnings.push(Warning::DoesNotFit { misfit: flat.misfit });
                }
                (flat.maps, Some(flat.viewing_angle))
            }
            (Shape::Lattice { across, down }, Found::Lattice(corners)) => {
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
                    Sides {
                        spread,
                        rim: (0.0, 0.0),
                    },
                )?;
                if flat.residual > (2.0 * options.reference_noise).max(1.0) {
                    warnings.push(Warning::Uneven { pixels: flat.residual });
                }
                lens = flat.lens;
                (flat.maps, Some(flat.viewing_angle))
            }
            (
                Shape::Disc { diameter },
                Found::Ellipse {
                    centre,
                    half_axes,
                    angle,
                },
            ) => {
                let oval = Oval::new(*centre, *half_axes, *angle);
                let (maps, angle, told) = disc(&known, oval, diameter, thickness).ok_or(ScaleError::AboveCamera)?;
                if !told {
                    warnings.push(Warning::LeanUnknown);
                }
                (maps, Some(angle))
            }
            (Shape::Marks { length }, Found::Marks(marks)) => {
                warnings.push(Warning::TiltUnknown);
                (two_marks(&known, *marks, length).ok_or(ScaleError::AboveCamera)?, None)
            }
            _ => return Err(ScaleError::WrongKind),
        };
        if let Some(degrees) = viewing_angle
            .map(Angle::degrees)
            .filter(|degrees| *degrees > TOO_FLAT_DEGREES)
        {
            warnings.push(Warning::TooFlat { degrees });
        }
        Ok(Self {
            maps,
            point_sigma: options.point_noise / 2.0,
            lens,
            viewing_angle,
            warnings,
        })
    }

    /// Where a place in the picture lies on the face, in millimetres from the reference's first
    /// corner; none at the horizon and beyond it.
    #[must_use]
    pub fn place(&self, point: Point) -> Option<Point> {
        let mut sum = Point::default();
        for map in &self.maps.best {
            sum = sum + map.place(point)?;
        }
        Some(sum * (1.0 / self.maps.best.len() as f64))
    }

    /// Pixels to a millimetre near a place in the picture: the mean over all directions.
    #[must_use]
    pub fn pixels_per_mm(&self, point: Point) -> Option<f64> {
        let at = |x: f64, y: f64| self.place(point + Point::new(x, y));
        let (x, y) = (at(0.5, 0.0)? - at(-0.5, 0.0)?, at(0.0, 0.5)? - at(0.0, -0.5)?);
        let area = x.cross(y).abs();
        (area > 0.0).then(|| area.sqrt().recip())
    }

    /// Numbers worked out from places on the face, with their standard uncertainties and what
    /// brought them. `groups` counts the points of each edge.
    pub(super) fn propagate<const M: usize>(
        &self,
        points: &[Point],
        groups: &[usize],
        answer: impl Fn(&[Point]) -> Option<[f64; M]>,
    ) -> Option<Propagated<M>> {
        self.maps.propagate(points, groups, self.point_sigma, answer)
    }
}

impl Known {
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
fn extent(found: &Found) -> Option<f64> {
    let finite = |pixels: f64| pixels.is_finite().then_some(pixels);
    match found {
        Found::Rectangle(corners) => {
            let side = |index: usize| corners[index].distance(corners[(index + 1) % 4]);
            finite(side(0).max(side(2)).min(side(1).max(side(3))))
        }
        Found::Ellipse {
            centre,
            half_axes,
            angle,
        } => finite(centre.x + centre.y + angle).and_then(|_| finite(2.0 * half_axes.0.min(half_axes.1))),
        Found::Lattice(corners) => {
            let span = |of: fn(&Point) -> f64| {
                let values = corners.iter().map(|corner| of(&corner.2));
                values.clone().fold(f64::NEG_INFINITY, f64::max) - values.fold(f64::INFINITY, f64::min)
            };
            finite(span(|point| point.x).min(span(|point| point.y)))
        }
        Found::Marks([first, second]) => finite(first.distance(*second)),
    }
}
