//! A place put by hand moves to the edge that was meant.

use super::gray::Gray;
use super::point::Point;
use super::segments::unit;
use super::sides::{Spot, profile, strongest};

/// A place on an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Snapped {
    /// Where the edge is, in pixels.
    pub place: Point,
    /// The direction across the edge, of length 1, towards its brighter side.
    pub across: Point,
    /// How steep the edge is: linear light per pixel, black to white being 1.
    pub strength: f64,
    /// Spread (one standard deviation) of where lines beside each other meet the edge, in pixels:
    /// noise, roughness and texture together.
    pub noise: f64,
}

/// Weakest edge that is snapped to, in light per pixel.
const LEAST_SLOPE: f64 = 0.008;
/// Lines beside each other that must agree, to either side of the place.
const LINES: i32 = 5;
/// Steps between those lines, in pixels.
const APART: f64 = 1.5;
/// Directions tried where none is given.
const DIRECTIONS: u32 = 16;

/// The strongest edge within `radius` pixels of a place: along `direction` where one is given (the
/// way that is measured), else in any direction. `None` where there is no edge.
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

/// Across an edge its slope is steepest: once more, from the place found and in the direction
/// that the lines beside each other give.
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
    // Several lines at once find the edge; one by one, near it, they tell how sure it is.
    let light = profile(gray, place, way, radius + 3.0, 5.0);
    let first = strongest(&light).filter(|spot| spot.offset.abs() <= radius && spot.slope.abs() >= LEAST_SLOPE)?;
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

/// The edge on each of the lines beside a place: how far beside, and where.
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

/// How much the edge moves along the way for one pixel beside it.
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
