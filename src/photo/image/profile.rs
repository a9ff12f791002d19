//! Edges to a fraction of a pixel: light along a short line, its slope, and straight sides fitted
//! to many such lines.

use super::gray::Gray;
use crate::photo::geometry::{Point, unit};

/// An edge located on a line across it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Spot {
    /// Distance along the line from its middle, in pixels.
    pub offset: f64,
    /// Slope, in light per pixel (0 black, 1 white); positive where light increases along the
    /// line.
    pub slope: f64,
}

/// Sample spacing of a profile, in pixels.
const STEP: f64 = 0.5;

/// Light along a line through `middle`, from `-reach` to `reach`, averaged over parallel lines
/// across `thickness` pixels.
pub(crate) fn profile(gray: &Gray, middle: Point, along: Point, reach: f64, thickness: f64) -> Vec<f64> {
    let steps = (reach / STEP).ceil() as i32;
    let lines = (thickness.round() as i32).max(1);
    let across = Point::new(-along.y, along.x);
    let mean = |step: i32| {
        let place = middle + along * (f64::from(step) * STEP);
        let light = |line: i32| gray.light(place + across * (f64::from(line) - f64::from(lines - 1) / 2.0));
        (0..lines).map(light).sum::<f64>() / f64::from(lines)
    };
    (-steps..=steps).map(mean).collect()
}

/// Half of an odd filter: the derivative of a Gaussian of one pixel, x exp(−x²/2), sampled at 1, 2
/// ... [`STEP`]s and scaled so that a ramp of slope 1 gives 1.
const WEIGHTS: [f64; 6] = {
    const RAW: [f64; 6] = [
        0.441_248_45,
        0.606_530_66,
        0.486_978_70,
        0.270_670_57,
        0.109_842_33,
        0.033_326_99,
    ];
    let (mut scale, mut k) = (0.0, 0);
    while k < RAW.len() {
        scale += 2.0 * (k + 1) as f64 * STEP * RAW[k];
        k += 1;
    }
    let mut weights = RAW;
    k = 0;
    while k < RAW.len() {
        weights[k] /= scale;
        k += 1;
    }
    weights
};

/// Slopes of a profile, smoothed by a Gaussian of one pixel, in light per pixel. The profile is
/// extended by its end values.
pub(crate) fn slopes(profile: &[f64]) -> Vec<f64> {
    let reach = WEIGHTS.len();
    let (Some(first), Some(last)) = (profile.first(), profile.last()) else {
        return Vec::new();
    };
    let mut long = vec![*first; profile.len() + 2 * reach];
    long[reach..reach + profile.len()].copy_from_slice(profile);
    long[reach + profile.len()..].fill(*last);
    let slope = |window: &[f64]| {
        let pairs = window[reach + 1..].iter().zip(window[..reach].iter().rev());
        pairs
            .zip(WEIGHTS)
            .map(|((after, before), weight)| (after - before) * weight)
            .sum()
    };
    long.windows(2 * reach + 1).map(slope).collect()
}

/// The steepest edge of either sign on a profile, located at the peak of a parabola through the
/// three steepest slopes.
pub(crate) fn strongest(profile: &[f64]) -> Option<Spot> {
    let slopes = slopes(profile);
    let value = |index: usize| slopes[index].abs();
    let best = (1..slopes.len().saturating_sub(1)).max_by(|&a, &b| value(a).total_cmp(&value(b)))?;
    let (left, peak, right) = (value(best - 1), value(best), value(best + 1));
    if !(peak > 0.0 && peak >= left && peak >= right) {
        return None;
    }
    let curvature = left - 2.0 * peak + right;
    let shift = if curvature < 0.0 {
        0.5 * (left - right) / curvature
    } else {
        0.0
    };
    Some(Spot {
        offset: (best as f64 + shift - (profile.len() - 1) as f64 / 2.0) * STEP,
        slope: slopes[best],
    })
}

/// A straight side fitted to an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct FittedSide {
    /// A point on the side.
    pub place: Point,
    /// Direction, of length 1.
    pub along: Point,
    /// Root mean square distance of the edge points from the line, in pixels.
    pub rms: f64,
    /// Share of the sampled positions whose edge lies on the line.
    pub share: f64,
    /// Median slope across it, in light per pixel.
    pub slope: f64,
}

/// Positions sampled along a side.
const PLACES: usize = 64;

/// Fits a line to the edge between two corners, leaving out `margin` (a fraction of the length) at
/// both ends, where corners may be round. Each position averages up to `max_thickness` parallel
/// lines.
pub(crate) fn fit_side(
    gray: &Gray,
    from: Point,
    to: Point,
    margin: f64,
    reach: f64,
    max_thickness: f64,
) -> Option<FittedSide> {
    let length = from.distance(to);
    let along = unit(to - from);
    let normal = Point::new(-along.y, along.x);
    let thickness = (length * (1.0 - 2.0 * margin) / PLACES as f64).clamp(1.0, max_thickness);
    let mut spots = Vec::with_capacity(PLACES);
    for index in 0..PLACES {
        let t = length * (margin + (1.0 - 2.0 * margin) * (index as f64 + 0.5) / PLACES as f64);
        let middle = from + along * t;
        if !gray.contains(middle, 1.0) {
            continue;
        }
        let light = profile(gray, middle, normal, reach + 3.0, thickness);
        if let Some(spot) = strongest(&light).filter(|spot| spot.offset.abs() <= reach + 0.5) {
            spots.push((t, spot));
        }
    }
    // Lens distortion bends a long side: up to 0.08 % of its length counts as straight.
    let (line, kept) = line_through(&spots, 1.0_f64.max(length * 0.0008))?;
    let mut steepness: Vec<f64> = kept.iter().map(|(_, spot)| spot.slope).collect();
    steepness.sort_by(f64::total_cmp);
    let square: f64 = kept
        .iter()
        .map(|(t, spot)| (spot.offset - line.0 - line.1 * t).powi(2))
        .sum();
    Some(FittedSide {
        place: from + normal * line.0,
        along: unit(along + normal * line.1),
        rms: (square / kept.len() as f64).sqrt(),
        share: kept.len() as f64 / PLACES as f64,
        slope: steepness[steepness.len() / 2],
    })
}

/// The coefficients of a line `offset = a + b t`, and its inliers.
type Agreed = ((f64, f64), Vec<(f64, Spot)>);

/// The line `offset = a + b t` with the most inliers among many pairs, then least squares over the
/// inliers, twice.
fn line_through(spots: &[(f64, Spot)], wide: f64) -> Option<Agreed> {
    let near = |line: (f64, f64), width: f64| {
        let on = move |(t, spot): &&(f64, Spot)| (spot.offset - line.0 - line.1 * t).abs() <= width;
        spots.iter().filter(on)
    };
    let mut best = (0, (0.0, 0.0));
    for first in (0..spots.len()).step_by(2) {
        for second in (first + spots.len() / 4 + 1..spots.len()).step_by(3) {
            let ((t1, one), (t2, two)) = (spots[first], spots[second]);
            let slope = (two.offset - one.offset) / (t2 - t1);
            let line = (one.offset - slope * t1, slope);
            let count = near(line, 0.6 * wide).count();
            if count > best.0 {
                best = (count, line);
            }
        }
    }
    let mut line = best.1;
    let mut kept = Vec::new();
    for width in [wide, 0.7 * wide] {
        kept = near(line, width).copied().collect();
        if kept.len() < 6 {
            return None;
        }
        line = least_squares(&kept)?;
    }
    Some((line, kept))
}

fn least_squares(spots: &[(f64, Spot)]) -> Option<(f64, f64)> {
    let count = spots.len() as f64;
    let t_mean = spots.iter().map(|(t, _)| t).sum::<f64>() / count;
    let mean = spots.iter().map(|(_, spot)| spot.offset).sum::<f64>() / count;
    let tt: f64 = spots.iter().map(|(t, _)| (t - t_mean).powi(2)).sum();
    let to: f64 = spots.iter().map(|(t, spot)| (t - t_mean) * (spot.offset - mean)).sum();
    (tt > 0.0).then(|| (mean - to / tt * t_mean, to / tt))
}
