//! A rectangle's straight sides, and which way round it lies.

use super::find::CLOSE;
use super::gray::Gray;
use super::perspective::misfit;
use super::point::Point;
use super::quads;
use super::segments::meeting;
use super::sides::{Side, fit_side};

/// A rectangle with its sides fitted.
pub(super) struct Fitted {
    pub corners: [Point; 4],
    pub rms: f64,
    pub share: f64,
    pub support: f64,
    pub misfit: f64,
    pub score: f64,
}

impl Fitted {
    pub fn new(corners: [Point; 4], sides: &[Side], misfit: f64, support: f64, score: f64) -> Self {
        Self {
            corners,
            rms: sides.iter().map(|side| side.rms).fold(0.0, f64::max),
            share: sides.iter().map(|side| side.share).fold(1.0, f64::min),
            support,
            misfit,
            score,
        }
    }

    pub fn longest_side(&self) -> f64 {
        quads::sides(&self.corners)
            .map(|(a, b)| a.distance(b))
            .fold(0.0, f64::max)
    }

    /// Whether another outline than it is as likely, or likelier.
    pub fn has_rival(&self, all: &[Fitted]) -> bool {
        let reach = 0.02 * self.longest_side();
        let mut others = all
            .iter()
            .filter(|other| !quads::same(&self.corners, &other.corners, reach));
        others.any(|other| other.score > CLOSE * self.score)
    }
}

/// Which of the two ways round a rectangle lies fits better: the corners so turned that the
/// first side is its width, and how they are seen.
pub(super) fn best_turn(corners: &[Point; 4], centre: Point, long_side: f64, ratio: f64) -> Turned {
    let [a, b, c, d] = *corners;
    let turned = [*corners, [b, c, d, a]].map(|corners| {
        let (misfit, facing) = misfit(&corners, centre, long_side, ratio);
        Turned {
            corners,
            misfit,
            facing,
        }
    });
    let [one, two] = turned;
    if one.misfit <= two.misfit { one } else { two }
}

/// A rectangle as it may lie.
pub(super) struct Turned {
    pub corners: [Point; 4],
    pub misfit: f64,
    /// Cosine between the line of sight and its plane's normal.
    pub facing: f64,
}

/// An outline with straight sides fitted to the edges within `reach` of its own, and those sides;
/// what is at the ends of a side, by `margin` of it, is left out. Each place is the mean of up to
/// `most` pixels side by side.
pub(super) fn with_sides(
    gray: &Gray,
    corners: &[Point; 4],
    margin: f64,
    reach: f64,
    most: f64,
) -> Option<([Point; 4], Vec<Side>)> {
    let sides: Option<Vec<Side>> = quads::sides(corners)
        .map(|(from, to)| fit_side(gray, from, to, margin, reach, most))
        .collect();
    let sides = sides?;
    let mut fitted = *corners;
    for (index, corner) in fitted.iter_mut().enumerate() {
        let (before, after) = (sides[(index + 3) % 4], sides[index]);
        *corner = meeting(before.place, before.along, after.place, after.along)?;
    }
    Some((fitted, sides))
}
