//! Proposes tongue, windows and outer limbs inside the four corners of a core's face.

use super::perspective::Square;
use crate::photo::geometry::Point;
use crate::photo::image::Gray;
use crate::photo::image::profile::slopes;

/// The parts of an E-I core's face, proposed for a person to accept or to move.
///
/// Points are in pixels; each pair lies where two edges cross the line of measurement. Trust goes
/// from 0 (a guess by the usual proportions) to 1 (clear edges on both sides).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Suggestion {
    /// The tongue's left and right edge, halfway down the windows.
    pub tongue: [Point; 2],
    /// The left window's outer and inner edge.
    pub left_window: [Point; 2],
    /// The right window's inner and outer edge.
    pub right_window: [Point; 2],
    /// The windows' upper and lower edge, in the middle of the left one.
    pub window_height: [Point; 2],
    /// Trust in the edges across the face, of tongue and windows, 0 to 1.
    pub across_trust: f64,
    /// Trust in the upper and lower edges of the windows, 0 to 1.
    pub down_trust: f64,
}

/// Samples along a profile.
const SAMPLES: usize = 240;
/// Lines averaged into one profile.
const LINES: usize = 25;

/// Proposes the parts of a face from its four outer corners, clockwise as seen from the upper left,
/// the first side running across tongue and windows. `None` where the corners make no convex
/// outline inside the picture.
///
/// Edges are assumed symmetric about the middle, as E-I laminations are, and alternating: both
/// windows are darker, or both brighter, than iron. The usual proportions 1 : 1 : 2 : 1 : 1 break
/// ties between equally clear edges.
#[must_use]
pub fn suggest_face(gray: &Gray, corners: &[Point; 4]) -> Option<Suggestion> {
    let turn = |index: usize| {
        let (a, b, c) = (corners[index], corners[(index + 1) % 4], corners[(index + 2) % 4]);
        (b - a).cross(c - b)
    };
    if !(0..4).all(|index| turn(index) > 1.0) || !corners.iter().all(|corner| gray.contains(*corner, 0.0)) {
        return None;
    }
    let square = Square::of(corners)?;
    let light = |u: f64, v: f64| square.place(u, v).map_or(0.0, |place| gray.light(place));
    let across = smooth_slopes(|u| mean(0.35, 0.65, |v| light(u, v)));
    let ((limb, window), across_trust) = symmetric_pair(&across);
    let inside = |u: f64| {
        let (low, high) = (limb + 0.25 * (window - limb), limb + 0.75 * (window - limb));
        mean(low, high, |s| f64::midpoint(light(s, u), light(1.0 - s, u)))
    };
    let down = smooth_slopes(inside);
    let ((upper, lower), down_trust) = window_ends(&down, limb);
    let middle = f64::midpoint(upper, lower);
    let at = |u: f64, v: f64| square.place(u, v);
    Some(Suggestion {
        tongue: [at(window, middle)?, at(1.0 - window, middle)?],
        left_window: [at(limb, middle)?, at(window, middle)?],
        right_window: [at(1.0 - window, middle)?, at(1.0 - limb, middle)?],
        window_height: [
            at(f64::midpoint(limb, window), upper)?,
            at(f64::midpoint(limb, window), lower)?,
        ],
        across_trust,
        down_trust,
    })
}

fn mean(low: f64, high: f64, light: impl Fn(f64) -> f64) -> f64 {
    let at = |index: usize| light(low + (high - low) * (index as f64 + 0.5) / LINES as f64);
    (0..LINES).map(at).sum::<f64>() / LINES as f64
}

/// Slopes along a profile over 0 to 1, divided by their root mean square.
fn smooth_slopes(light: impl Fn(f64) -> f64) -> Vec<f64> {
    let profile: Vec<f64> = (0..SAMPLES).map(|index| light(position(index as f64))).collect();
    let slopes = slopes(&profile);
    let edge = SAMPLES / 25;
    let inner = &slopes[edge..SAMPLES - edge];
    let spread = (inner.iter().map(|slope| slope * slope).sum::<f64>() / inner.len() as f64).sqrt();
    slopes.iter().map(|slope| slope / spread.max(1e-4)).collect()
}

fn position(index: f64) -> f64 {
    (index + 0.5) / SAMPLES as f64
}

/// The position of the peak near a sample, by a parabola through three slopes.
fn peak(slopes: &[f64], index: usize, sign: f64) -> f64 {
    let value = |at: usize| slopes[at] * sign;
    let best =
        (index.saturating_sub(2).max(1)..=(index + 2).min(SAMPLES - 2)).max_by(|a, b| value(*a).total_cmp(&value(*b)));
    let best = best.unwrap_or(index);
    let curvature = value(best - 1) - 2.0 * value(best) + value(best + 1);
    let shift = if curvature < 0.0 {
        (0.5 * (value(best - 1) - value(best + 1)) / curvature).clamp(-0.5, 0.5)
    } else {
        0.0
    };
    position(best as f64 + shift)
}

/// Score of a normalised slope, capped at four times the root mean square.
fn clear(slope: f64) -> f64 {
    (slope / 2.0).clamp(-1.0, 2.0)
}

/// Outer and inner edge of the left window, averaged with the mirrored right one; and the trust.
fn symmetric_pair(slopes: &[f64]) -> ((f64, f64), f64) {
    let mirror = |index: usize| SAMPLES - 1 - index;
    let strongest = |index: usize, sign: f64| {
        let near = index.saturating_sub(1)..=(index + 1).min(SAMPLES - 1);
        near.map(|at| clear(slopes[at] * sign)).fold(-1.0, f64::max)
    };
    // Usual proportions: limb and window a sixth each, the tongue two sixths.
    let mut best = (f64::NEG_INFINITY, (SAMPLES / 6, SAMPLES / 3), 1.0);
    for limb in SAMPLES / 14..SAMPLES / 3 {
        for window in limb + SAMPLES / 16..SAMPLES * 9 / 20 {
            // The window is darker (sign -1 where it begins) or brighter.
            for sign in [-1.0, 1.0] {
                let edges = [
                    strongest(limb, sign),
                    strongest(window, -sign),
                    strongest(mirror(window), sign),
                    strongest(mirror(limb), -sign),
                ];
                let weakest = edges.iter().copied().fold(f64::INFINITY, f64::min);
                let usual = (position(limb as f64) - 1.0 / 6.0).abs() + (position(window as f64) - 1.0 / 3.0).abs();
                let score = edges.iter().sum::<f64>() / 4.0 + weakest - 2.0 * usual;
                if score > best.0 {
                    best = (score, (limb, window), sign);
                }
            }
        }
    }
    let (score, (limb, window), sign) = best;
    let both = |index: usize, sign: f64| {
        let (left, right) = (peak(slopes, index, sign), peak(slopes, mirror(index), -sign));
        (left + 1.0 - right) / 2.0
    };
    let pair = (both(limb, sign), both(window, -sign));
    if score < 0.8 {
        return ((1.0 / 6.0, 1.0 / 3.0), 0.0);
    }
    (pair, (score / 3.0).clamp(0.0, 1.0))
}

/// Upper and lower edge of the windows, and the trust; yokes are about as high as limbs are wide.
fn window_ends(slopes: &[f64], limb: f64) -> ((f64, f64), f64) {
    let mut best = (f64::NEG_INFINITY, (SAMPLES / 5, SAMPLES * 4 / 5), 1.0);
    for upper in SAMPLES / 20..SAMPLES * 2 / 5 {
        for lower in SAMPLES * 3 / 5..SAMPLES * 19 / 20 {
            for sign in [-1.0, 1.0] {
                let (one, two) = (clear(slopes[upper] * sign), clear(slopes[lower] * -sign));
                let uneven = (position(upper as f64) - (1.0 - position(lower as f64))).abs();
                let score = f64::midpoint(one, two) + one.min(two) - uneven;
                if score > best.0 {
                    best = (score, (upper, lower), sign);
                }
            }
        }
    }
    let (score, (upper, lower), sign) = best;
    if score < 0.8 {
        let yoke = 1.2 * limb;
        return ((yoke, 1.0 - yoke), 0.0);
    }
    (
        (peak(slopes, upper, sign), peak(slopes, lower, -sign)),
        (score / 3.0).clamp(0.0, 1.0),
    )
}
