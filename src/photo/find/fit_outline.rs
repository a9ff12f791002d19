//! A disc's outline to a fraction of a pixel, at full size.

use super::ellipse::Ellipse;
use super::gray::Gray;
use super::point::Point;
use super::sides::{profile, strongest};

/// An outline at full size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Outline {
    pub ellipse: Ellipse,
    /// Spread of the places about it, in pixels.
    pub rms: f64,
    /// The share of the places looked at that lie on it.
    pub share: f64,
    /// Median slope across it, in light per pixel.
    pub slope: f64,
}

/// Fits an ellipse to the strongest edges near a first one, at full size.
pub(super) fn fit_outline(gray: &Gray, first: Ellipse, reach: f64) -> Option<Outline> {
    const PLACES: usize = 180;
    let mut ellipse = first;
    let mut outline = None;
    for (reach, tolerance) in [(reach, 0.5 * reach), (2.5, 1.0), (2.5, 0.7)] {
        let mut spots = Vec::with_capacity(PLACES);
        for parameter in Ellipse::parameters(PLACES) {
            let (middle, normal) = (ellipse.place(parameter), ellipse.normal(parameter));
            if !gray.contains(middle, 1.0) {
                continue;
            }
            let light = profile(gray, middle, normal, reach + 3.0, 3.0);
            if let Some(spot) = strongest(&light).filter(|spot| spot.offset.abs() <= reach + 0.5) {
                spots.push((middle + normal * spot.offset, spot.slope));
            }
        }
        // Once freely, then only what lies near.
        let all: Vec<Point> = spots.iter().map(|(place, _)| *place).collect();
        let scale = |place: Point| 1.0 / place.distance(ellipse.centre).max(1.0);
        let mut fitted = Ellipse::fit(&all, ellipse.centre, scale)?;
        let mut kept = spots.clone();
        for width in [2.0 * tolerance, tolerance, tolerance] {
            kept = spots
                .iter()
                .copied()
                .filter(|(place, _)| fitted.outside(*place).abs() <= width)
                .collect();
            if kept.len() < PLACES / 4 {
                return None;
            }
            let near: Vec<Point> = kept.iter().map(|(place, _)| *place).collect();
            fitted = Ellipse::fit(&near, fitted.centre, scale)?;
        }
        ellipse = fitted;
        let square: f64 = kept.iter().map(|(place, _)| ellipse.outside(*place).powi(2)).sum();
        let mut steepness: Vec<f64> = kept.iter().map(|(_, slope)| *slope).collect();
        steepness.sort_by(f64::total_cmp);
        outline = Some(Outline {
            ellipse,
            rms: (square / kept.len() as f64).sqrt(),
            share: kept.len() as f64 / PLACES as f64,
            slope: steepness[steepness.len() / 2],
        });
    }
    outline
}
