//! Moves a point set by hand to the nearest strong edge.

use crate::photo::geometry::{Point, unit};
use crate::photo::image::Gray;
use crate::photo::image::profile::{Spot, profile, strongest};

/// A point on an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Snapped {
    /// Position, in pixels.
    pub place: Point,
    /// Unit normal of the edge, towards its brighter side.
    pub across: Point,
    /// Slope of the edge: linear light per pixel, black to white being 1.
    pub strength: f64,
    /// Standard deviation of the edge's position on adjacent lines, in pixels: noise, roughness and
    /// texture together.
    pub noise: f64,
}

/// Minimum slope of an edge, in light per pixel.
const MIN_SLOPE: f64 = 0.008;
/// Number of adjacent lines on either side of the point.
const LINES: i32 = 5;
/// Spacing of those lines, in pixels.
const APART: f64 = 1.5;
/// Number of directions tried where none is given.
const DIRECTIONS: u32 = 16;

/// The strongest edge within `radius` pixels of a point: along `direction` where given (the
/// direction of measurement), else along any. `None` without an edge.
#[must_use]
pub fn snap(gray: &Gray, place: Point, direction: Option<Point>, radius: f64) -> Option<Snapped> {
    let radius = radius.clamp(1.0, 200.0);
    if !gray.contains(place, 0.0) {
        return None;
    }
    match direction.map(unit).filter(|way| way.length() > 0.5) {
        Some(way) => along(gray, place, way, radius),
        None => {
            let at = |index: u32| {
                let angle = std::f64::consts::PI * f64::from(index) / f64::from(DIRECTIONS);
                along(gray, place, Point::new(angle.cos(), angle.sin()), radius)
            };
            let best = (0..DIRECTIONS)
                .filter_map(at)
                .max_by(|a, b| a.strength.total_cmp(&b.strength))?;
            squared(gray, best)
        }
    }
}

/// Repeats the search from a first result, along the normal that its adjacent lines give.
fn squared(gray: &Gray, first: Snapped) -> Option<Snapped> {
    let mut best = first;
    for _ in 0..3 {
        let spots = beside(gray, best.place, best.across, 3.0);
        let slant = slant(&spots)?;
        let along_edge = Point::new(-best.across.y, best.across.x) + best.across * slant;
        let across = unit(Point::new(along_edge.y, -along_edge.x));
        best = along(gray, best.place, across, 3.0)?;
    }
    Some(best)
}

fn along(gray: &Gray, place: Point, way: Point, radius: f64) -> Option<Snapped> {
    // Averaged lines find the edge; single lines near it give its scatter.
    let light = profile(gray, place, way, radius + 3.0, 5.0);
    let first = strongest(&light).filter(|spot| spot.offset.abs() <= radius && spot.slope.abs() >= MIN_SLOPE)?;
    let middle = place + way * first.offset;
    let spots = beside(gray, middle, way, 3.0);
    if spots.len() < LINES as usize {
        return None;
    }
    let slant = slant(&spots)?;
    let mean = spots.iter().map(|(_, spot)| spot.offset).sum::<f64>() / spots.len() as f64;
    let shift = mean - slant * spots.iter().map(|(t, _)| t).sum::<f64>() / spots.len() as f64;
    let square: f64 = spots
        .iter()
        .map(|(t, spot)| (spot.offset - shift - slant * t).powi(2))
        .sum();
    Some(Snapped {
        place: middle + way * shift,
        across: way * first.slope.signum(),
        strength: first.slope.abs(),
        noise: (square / (spots.len() as f64 - 2.0)).sqrt(),
    })
}

/// The edge on each line adjacent to a point: the line's offset, and the edge.
fn beside(gray: &Gray, place: Point, way: Point, reach: f64) -> Vec<(f64, Spot)> {
    let across = Point::new(-way.y, way.x);
    let at = |index: i32| {
        let t = f64::from(index) * APART;
        let light = profile(gray, place + across * t, way, reach + 3.0, 1.0);
        strongest(&light)
            .filter(|spot| spot.offset.abs() <= reach)
            .map(|spot| (t, spot))
    };
    (-LINES..=LINES).filter_map(at).collect()
}

/// Shift of the edge along the line of search, per pixel across it.
fn slant(spots: &[(f64, Spot)]) -> Option<f64> {
    if spots.len() < 4 {
        return None;
    }
    let count = spots.len() as f64;
    let t_mean = spots.iter().map(|(t, _)| t).sum::<f64>() / count;
    let square: f64 = spots.iter().map(|(t, _)| (t - t_mean).powi(2)).sum();
    let product: f64 = spots.iter().map(|(t, spot)| (t - t_mean) * spot.offset).sum();
    (square > 0.0).then(|| (product / square).clamp(-2.0, 2.0))
}
