//! A best way from picture to plane, and the ways it would be if one thing known were otherwise.

use super::frame::Frame;
use super::homography::Homography;
use super::lens::Lens;
use super::point::Point;
use crate::quantity::Propagated;

/// From a place in the picture to a place on the measured face, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct PlaneMap {
    pub frame: Frame,
    pub lens: Lens,
    /// From the straightened picture to the face.
    pub back: Homography,
}

impl PlaneMap {
    pub fn place(&self, point: Point) -> Option<Point> {
        self.back.apply(self.lens.straightened(self.frame, point))
    }
}

/// One map, or several that fit the picture equally well: an answer is their mean.
pub(super) type Candidates = Vec<PlaneMap>;

/// The maps with one input moved to each side by so many standard uncertainties.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Move {
    pub cause: &'static str,
    pub up: Candidates,
    pub down: Candidates,
    pub sigmas: f64,
}

/// The best maps and every move of an input, the inputs being independent.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Maps {
    pub best: Candidates,
    pub moves: Vec<Move>,
}

impl Maps {
    /// An answer worked out from marked points, with its first-order uncertainty: each input is
    /// moved to both sides, the larger change of the answer counts, and the squares are added
    /// (JCGM 100:2008, 5.1.2). Inputs known only roughly are moved by two standard uncertainties
    /// and the change halved, so that the half-width holds where the answer is not linear.
    /// Causes of the same name are put together.
    ///
    /// `noise` is one standard uncertainty of each marked coordinate, in pixels; `groups` counts
    /// the points of each edge, one after the other, which share a part of it ([`SHARED`]).
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
        let mut shares: Vec<(&'static str, [f64; M])> = Vec::new();
        let mut add = |cause: &'static str, change: [f64; M]| match shares.iter_mut().find(|share| share.0 == cause) {
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
        let mut shaken = |which: std::ops::Range<usize>, sigma: f64| -> Option<()> {
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
            shaken(start..start + count, noise * SHARED.sqrt())?;
            for index in start..start + count {
                shaken(index..index + 1, noise * (1.0 - SHARED).sqrt())?;
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

/// Part of the variance of a mark that all marks along one edge share: blur, burr and bevel hide
/// the edge in the same way all along, however many points are put on it. Common practice, no
/// source.
pub(super) const SHARED: f64 = 0.25;
/// The cause that marked points bring.
pub(super) const POINTS: &str = "marked points";

fn larger<const M: usize>(value: &[f64; M], up: [f64; M], down: [f64; M], sigmas: f64) -> [f64; M] {
    std::array::from_fn(|index| {
        let change = |moved: f64| (moved - value[index]).abs();
        change(up[index]).max(change(down[index])) / sigmas
    })
}
