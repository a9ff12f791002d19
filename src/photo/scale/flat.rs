//! The scale from a rectangle's corners or a lattice: eight numbers of the map from the points.

use nalgebra::Matrix3;

use super::homography::{Fit, Homography, HomographyError};
use super::lens::{Lens, straightened_pairs};
use super::maps::{Maps, Move, PlaneMap};
use super::point::Point;
use super::pose::{Camera, Focal, Weights, focal_length};
use super::scale::{Known, ScaleError};
use crate::quantity::Angle;

/// What a flat reference gives.
pub(super) struct Flat {
    pub maps: Maps,
    pub viewing_angle: Angle,
    /// How far, in standard uncertainties, the outline is from the object's (see `plausibility`).
    pub misfit: f64,
    /// Root mean square of what is left in the picture, in pixels.
    pub residual: f64,
    pub lens: Lens,
}

/// The points of the reference's plane (millimetres at its best size) beside their places in the
/// picture, and what turns them into maps.
struct Plane<'a> {
    known: &'a Known,
    pairs: &'a [(Point, Point)],
    weights: Weights,
}

/// One state of everything that the map depends on besides the points.
#[derive(Clone, Copy)]
struct State {
    stretch: (f64, f64),
    height: f64,
    focal: Focal,
    lens: Lens,
}

/// What is known about a reference's two sides.
#[derive(Clone, Copy)]
pub(super) struct Sides {
    /// Their relative standard uncertainties.
    pub spread: (f64, f64),
    /// The reference's thickness as a part of each.
    pub rim: (f64, f64),
}

impl Sides {
    /// The relative standard uncertainties of the sides of the outline that was found. Seen from
    /// aside a thing of some thickness shows its rim, and the edge may have been found on the
    /// upper or the lower side of it: the half-width is the thickness times the tangent of the
    /// viewing angle.
    fn seen_at(self, viewing_angle: Angle) -> (f64, f64) {
        let aside = viewing_angle.si().tan().min(4.0) / 2.0;
        (
            self.spread.0.hypot(self.rim.0 * aside),
            self.spread.1.hypot(self.rim.1 * aside),
        )
    }
}

/// The maps from a reference's points.
pub(super) fn flat(known: &Known, pairs: &[(Point, Point)], sides: Sides) -> Result<Flat, ScaleError> {
    let lens = Lens::from_lattice(known.frame, pairs, known.lens, known.reference_noise).unwrap_or(known.lens);
    let fit = fit_with(known, pairs, lens)?;
    let sigma = (known.reference_noise / 2.0).max(noise_seen(&fit, pairs.len()));
    let centre = known.frame.centre();
    let start = Camera {
        focal: known.focal.pixels,
        centre,
    };
    let plane = Plane {
        known,
        pairs,
        weights: Weights::of(&fit, sigma, sides.spread.0.hypot(sides.spread.1), start),
    };
    let best = State {
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

fn fit_with(known: &Known, pairs: &[(Point, Point)], lens: Lens) -> Result<Fit, HomographyError> {
    Homography::fit(&straightened_pairs(known.frame, pairs, lens))
}

/// One standard uncertainty of a coordinate as the points themselves show it: what is left, for
/// as many numbers as are free. It may be more than was believed; four points leave nothing.
fn noise_seen(fit: &Fit, points: usize) -> f64 {
    let numbers = (2 * points) as f64;
    if numbers > 8.0 {
        fit.residual * (numbers / (numbers - 8.0)).sqrt()
    } else {
        0.0
    }
}

impl Plane<'_> {
    /// From the straightened picture to the face, for a map of the reference's plane.
    fn map(&self, plane: &Homography, state: State) -> Option<PlaneMap> {
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

    /// Every input moved to both sides; none where one of them brings the face above the camera.
    fn moves(&self, fit: &Fit, sigma: f64, best: State, spread: (f64, f64)) -> Option<Vec<Move>> {
        let mut moves = Vec::new();
        for (up, down) in fit.moved(sigma) {
            moves.push(Move {
                cause: "reference in the picture",
                up: vec![self.map(&up, best)?],
                down: vec![self.map(&down, best)?],
                sigmas: 1.0,
            });
        }
        let mut push = |cause, sigmas: f64, change: &dyn Fn(State, f64) -> State| -> Option<()> {
            let to = |by: f64| {
                let state = change(best, by);
                // Another lens straightens the points otherwise: the map is fitted again.
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
        push("reference size", 1.0, &|mut state, by| {
            state.stretch.0 += by * spread.0;
            state
        })?;
        push("reference size", 1.0, &|mut state, by| {
            state.stretch.1 += by * spread.1;
            state
        })?;
        push("height", 1.0, &|mut state, by| {
            state.height += by * half_height;
            state
        })?;
        push("focal length", 2.0, &|mut state, by| {
            state.focal = state.focal.moved(by);
            state
        })?;
        push("lens", 1.0, &|mut state, by| {
            state.lens = state.lens.moved(by);
            state
        })?;
        Some(moves)
    }
}
