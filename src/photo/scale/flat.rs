//! The scale from a rectangle's corners or a lattice, which determine the whole map.

use nalgebra::Matrix3;

use super::homography::{Homography, HomographyError, HomographyFit};
use super::lens::{Lens, straightened_pairs};
use super::maps::{Maps, Move, PlaneMap};
use super::pose::{Camera, Focal, Weights, focal_length};
use super::{CheckedOptions, ScaleError};
use crate::photo::geometry::Point;
use crate::quantity::{Angle, Input};

/// The scale from a rectangle or a lattice.
pub(crate) struct Flat {
    pub maps: Maps,
    pub viewing_angle: Angle,
    /// Deviation of the outline from the object's shape, in standard uncertainties (see
    /// `plausibility`).
    pub misfit: f64,
    /// Root mean square residual in the picture, in pixels.
    pub residual: f64,
    pub lens: Lens,
}

/// The reference's points on its plane (in millimetres at its nominal size) paired with the
/// picture, and the inputs that turn them into maps.
struct ReferencePlane<'a> {
    known: &'a CheckedOptions,
    pairs: &'a [(Point, Point)],
    weights: Weights,
}

/// The inputs of the map besides the points.
#[derive(Clone, Copy)]
struct FlatInputs {
    stretch: (f64, f64),
    height: f64,
    focal: Focal,
    lens: Lens,
}

/// Uncertainty of a reference's two sides.
#[derive(Clone, Copy)]
pub(crate) struct SideSpread {
    /// Relative standard uncertainties.
    pub spread: (f64, f64),
    /// Thickness as a fraction of each side.
    pub rim: (f64, f64),
}

impl SideSpread {
    /// The relative standard uncertainties of the outline's sides. Viewed obliquely, a thick object
    /// shows its rim, and the edge may have been found on its upper or lower side: the half-width is
    /// the thickness times the tangent of the viewing angle.
    fn seen_at(self, viewing_angle: Angle) -> (f64, f64) {
        let oblique = viewing_angle.si().tan().min(4.0) / 2.0;
        (
            self.spread.0.hypot(self.rim.0 * oblique),
            self.spread.1.hypot(self.rim.1 * oblique),
        )
    }
}

/// The maps from a reference's points.
///
/// # Errors
/// [`ScaleError::Points`] for points that determine no map; [`ScaleError::AboveCamera`] for a height
/// beyond the camera.
pub(crate) fn flat(known: &CheckedOptions, pairs: &[(Point, Point)], sides: SideSpread) -> Result<Flat, ScaleError> {
    let lens = Lens::from_lattice(known.frame, pairs, known.lens, known.reference_noise).unwrap_or(known.lens);
    let fit = fit_with(known, pairs, lens)?;
    let sigma = (known.reference_noise / 2.0).max(noise_seen(&fit, pairs.len()));
    let centre = known.frame.centre();
    let start = Camera {
        focal: known.focal.pixels,
        centre,
    };
    let plane = ReferencePlane {
        known,
        pairs,
        weights: Weights::of(&fit, sigma, sides.spread.0.hypot(sides.spread.1), start),
    };
    let best = FlatInputs {
        stretch: (1.0, 1.0),
        height: known.height.value.mm(),
        focal: known.focal,
        lens,
    };
    let best_map = plane.map(&fit.homography, best).ok_or(ScaleError::AboveCamera)?;
    let (focal, cost) = focal_length(&fit.homography, centre, known.focal, &plane.weights);
    let middle = pairs.iter().fold(Point::default(), |sum, pair| sum + pair.0) * (1.0 / pairs.len() as f64);
    let viewing_angle = Camera { focal, centre }.viewing_angle(&fit.homography, middle);
    let moves = plane
        .moves(&fit, sigma, best, sides.seen_at(viewing_angle))
        .ok_or(ScaleError::AboveCamera)?;
    Ok(Flat {
        maps: Maps {
            best: vec![best_map],
            moves,
        },
        viewing_angle,
        misfit: cost.sqrt(),
        residual: fit.residual,
        lens,
    })
}

fn fit_with(known: &CheckedOptions, pairs: &[(Point, Point)], lens: Lens) -> Result<HomographyFit, HomographyError> {
    Homography::fit(&straightened_pairs(known.frame, pairs, lens))
}

/// Standard uncertainty of a coordinate estimated from the residuals and the degrees of freedom; 0
/// for four points, which leave none.
fn noise_seen(fit: &HomographyFit, points: usize) -> f64 {
    let numbers = (2 * points) as f64;
    if numbers > 8.0 {
        fit.residual * (numbers / (numbers - 8.0)).sqrt()
    } else {
        0.0
    }
}

impl ReferencePlane<'_> {
    /// The map from the undistorted picture to the face, given the map of the reference's plane.
    fn map(&self, plane: &Homography, state: FlatInputs) -> Option<PlaneMap> {
        let (x, y) = state.stretch;
        let sized = Homography::from_matrix(plane.matrix() * Matrix3::from_diagonal(&[1.0 / x, 1.0 / y, 1.0].into()));
        let lifted = if state.height == 0.0 {
            sized
        } else {
            let centre = self.known.frame.centre();
            let (focal, _) = focal_length(&sized, centre, state.focal, &self.weights);
            Camera { focal, centre }.lifted(&sized, state.height)?
        };
        Some(PlaneMap {
            frame: self.known.frame,
            lens: state.lens,
            back: lifted.inverse()?,
        })
    }

    /// The moves of every input; `None` where one of them puts the face above the camera.
    fn moves(&self, fit: &HomographyFit, sigma: f64, best: FlatInputs, spread: (f64, f64)) -> Option<Vec<Move>> {
        let mut moves = Vec::new();
        for (up, down) in fit.moved(sigma) {
            moves.push(Move {
                cause: Input::ReferenceInThePicture,
                up: vec![self.map(&up, best)?],
                down: vec![self.map(&down, best)?],
                sigmas: 1.0,
            });
        }
        let mut push = |cause, sigmas: f64, change: &dyn Fn(FlatInputs, f64) -> FlatInputs| -> Option<()> {
            let to = |by: f64| {
                let state = change(best, by);
                // A different lens changes the undistorted points: refit the map.
                let plane = if state.lens == best.lens {
                    fit.homography
                } else {
                    fit_with(self.known, self.pairs, state.lens).ok()?.homography
                };
                Some(vec![self.map(&plane, state)?])
            };
            moves.push(Move {
                cause,
                up: to(sigmas)?,
                down: to(-sigmas)?,
                sigmas,
            });
            Some(())
        };
        let half_height = self.known.height.plus_minus.mm() / 2.0;
        push(Input::ReferenceSize, 1.0, &|mut state, by| {
            state.stretch.0 += by * spread.0;
            state
        })?;
        push(Input::ReferenceSize, 1.0, &|mut state, by| {
            state.stretch.1 += by * spread.1;
            state
        })?;
        push(Input::HeightOfTheFace, 1.0, &|mut state, by| {
            state.height += by * half_height;
            state
        })?;
        push(Input::FocalLength, 2.0, &|mut state, by| {
            state.focal = state.focal.moved(by);
            state
        })?;
        push(Input::Lens, 1.0, &|mut state, by| {
            state.lens = state.lens.moved(by);
            state
        })?;
        Some(moves)
    }
}
