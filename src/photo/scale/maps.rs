//! The best map from picture to face, the maps with one input moved by its uncertainty, and the
//! propagation of both to a result.

use super::homography::Homography;
use super::lens::Lens;
use crate::photo::geometry::{Frame, Point};
use crate::quantity::{Input, Propagated};

/// The map from a point in the picture to the measured face, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PlaneMap {
    pub frame: Frame,
    pub lens: Lens,
    /// From the undistorted picture to the face.
    pub back: Homography,
}

impl PlaneMap {
    pub fn place(&self, point: Point) -> Option<Point> {
        self.back.apply(self.lens.straightened(self.frame, point))
    }
}

/// One map, or several that fit the picture equally well; a result is their mean.
pub(crate) type Candidates = Vec<PlaneMap>;

/// The maps with one input moved up and down by `sigmas` standard uncertainties.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Move {
    pub cause: Input,
    pub up: Candidates,
    pub down: Candidates,
    pub sigmas: f64,
}

/// The best maps and the moves of each independent input.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Maps {
    pub best: Candidates,
    pub moves: Vec<Move>,
}

impl Maps {
    /// A result computed from marked points, with its first-order uncertainty: each input is moved up
    /// and down, the larger change of the result counts, and the squares add up (JCGM 100:2008,
    /// 5.1.2). Inputs known only roughly are moved by two standard uncertainties and the change is
    /// halved, so that the half-width holds where the result is not linear. Contributions of one
    /// cause are summed.
    ///
    /// `noise` is the standard uncertainty of each marked coordinate, in pixels; `groups` counts the
    /// points of each edge in order; points of one edge share a part of the noise ([`SHARED`]).
    pub fn propagate<const M: usize>(
        &self,
        points: &[Point],
        groups: &[usize],
        noise: f64,
        answer: impl Fn(&[Point]) -> Option<[f64; M]>,
    ) -> Option<Propagated<M>> {
        let with = |maps: &Candidates, points: &[Point]| -> Option<[f64; M]> {
            let mut sum = [0.0; M];
            for map in maps {
                let flat: Option<Vec<Point>> = points.iter().map(|point| map.place(*point)).collect();
                let one = answer(&flat?)?;
                sum.iter_mut()
                    .zip(one)
                    .for_each(|(sum, one)| *sum += one / maps.len() as f64);
            }
            Some(sum)
        };
        let value = with(&self.best, points)?;
        if self.best.is_empty() || value.iter().any(|number| !number.is_finite()) {
            return None;
        }
        let mut shares: Vec<(Input, [f64; M])> = Vec::new();
        let mut add = |cause: Input, change: [f64; M]| match shares.iter_mut().find(|share| share.0 == cause) {
            Some(share) => share
                .1
                .iter_mut()
                .zip(change)
                .for_each(|(old, new)| *old = old.hypot(new)),
            None => shares.push((cause, change)),
        };
        for one in &self.moves {
            add(
                one.cause,
                larger(&value, with(&one.up, points)?, with(&one.down, points)?, one.sigmas),
            );
        }
        let mut perturb = |which: std::ops::Range<usize>, sigma: f64| -> Option<()> {
            for by in [Point::new(sigma, 0.0), Point::new(0.0, sigma)] {
                let to = |by: Point| {
                    let mut moved = points.to_vec();
                    moved
                        .get_mut(which.clone())?
                        .iter_mut()
                        .for_each(|point| *point = *point + by);
                    with(&self.best, &moved)
                };
                add(POINTS, larger(&value, to(by)?, to(by * -1.0)?, 1.0));
            }
            Some(())
        };
        let mut start = 0;
        for count in groups.iter().copied() {
            perturb(start..start + count, noise * SHARED.sqrt())?;
            for index in start..start + count {
                perturb(index..index + 1, noise * (1.0 - SHARED).sqrt())?;
            }
            start += count;
        }
        let mut variance = [0.0; M];
        for (_, share) in &shares {
            variance.iter_mut().zip(share).for_each(|(sum, one)| *sum += one * one);
        }
        Some(Propagated {
            value,
            sigma: variance.map(f64::sqrt),
            shares,
            inputs: Vec::new(),
        })
    }
}

/// Fraction of a mark's variance that is common to all marks along one edge: blur, burr and bevel
/// hide the edge in the same way along its length. Common practice, no source.
pub(crate) const SHARED: f64 = 0.25;
/// The cause under which marked points appear.
pub(crate) const POINTS: Input = Input::MarkedPoints;

/// The larger of the two changes, per standard uncertainty.
fn larger<const M: usize>(value: &[f64; M], up: [f64; M], down: [f64; M], sigmas: f64) -> [f64; M] {
    std::array::from_fn(|index| {
        let change = |moved: f64| (moved - value[index]).abs();
        change(up[index]).max(change(down[index])) / sigmas
    })
}
