//! Ellipses, the pictures of discs: geometry, least-squares fit, and the fit to an edge at full size.

use std::f64::consts::TAU;

use nalgebra::{SMatrix, SVector};

use crate::photo::geometry::Point;
use crate::photo::image::Gray;
use crate::photo::image::profile::{profile, strongest};

/// An ellipse by its centre, half axes (the longer first) and the angle of the long one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Ellipse {
    pub centre: Point,
    pub half_axes: (f64, f64),
    pub angle: f64,
}

impl Ellipse {
    /// The point at a parameter of 0 to 2π.
    pub fn place(&self, parameter: f64) -> Point {
        let (sine, cosine) = parameter.sin_cos();
        self.turned(self.half_axes.0 * cosine, self.half_axes.1 * sine) + self.centre
    }

    /// The outward unit normal at a parameter.
    pub fn normal(&self, parameter: f64) -> Point {
        let (sine, cosine) = parameter.sin_cos();
        let outward = self.turned(cosine / self.half_axes.0, sine / self.half_axes.1);
        outward * (1.0 / outward.length())
    }

    /// `count` evenly spaced parameters.
    pub fn parameters(count: usize) -> impl Iterator<Item = f64> {
        (0..count).map(move |index| TAU * index as f64 / count as f64)
    }

    /// Approximate signed distance of a point outside the ellipse, in pixels (Sampson's first-order
    /// distance).
    pub fn outside(&self, place: Point) -> f64 {
        self.gauge()(place)
    }

    /// [`outside`](Self::outside) as a closure for many points; sine and cosine are computed once.
    pub fn gauge(&self) -> impl Fn(Point) -> f64 + use<> {
        let (sine, cosine) = self.angle.sin_cos();
        let (centre, (a, b)) = (self.centre, self.half_axes);
        move |place| {
            let from = place - centre;
            let (x, y) = (
                (from.x * cosine + from.y * sine) / a,
                (from.y * cosine - from.x * sine) / b,
            );
            let slope = 2.0 * ((x / a).powi(2) + (y / b).powi(2)).sqrt();
            if slope > 0.0 { (x * x + y * y - 1.0) / slope } else { -b }
        }
    }

    /// The mean of the half axes.
    pub fn radius(&self) -> f64 {
        f64::midpoint(self.half_axes.0, self.half_axes.1)
    }

    /// The short half axis over the long one.
    pub fn flatness(&self) -> f64 {
        self.half_axes.1 / self.half_axes.0
    }

    fn turned(&self, along: f64, across: f64) -> Point {
        let (sine, cosine) = self.angle.sin_cos();
        Point::new(along * cosine - across * sine, along * sine + across * cosine)
    }

    /// Least-squares ellipse through points around `inside`, by the conic
    /// A x² + B xy + C y² + D x + E y = 1 about that inner point, a form that every ellipse around
    /// it has. `weights` is one over each point's distance scale, or 1. `None` for fewer than five
    /// points or another conic.
    pub fn fit(places: &[Point], inside: Point, weights: impl Fn(Point) -> f64) -> Option<Self> {
        if places.len() < 5 {
            return None;
        }
        let count = places.len() as f64;
        let size = places.iter().map(|place| place.distance(inside)).sum::<f64>() / count;
        if !(size > 0.0 && size.is_finite()) {
            return None;
        }
        let mut normal = SMatrix::<f64, 5, 5>::zeros();
        let mut right = SVector::<f64, 5>::zeros();
        for &place in places {
            let at = (place - inside) * (1.0 / size);
            let row = SVector::<f64, 5>::from([at.x * at.x, at.x * at.y, at.y * at.y, at.x, at.y]);
            let weight = weights(place).powi(2);
            normal += row * row.transpose() * weight;
            right += row * weight;
        }
        let conic = normal.lu().solve(&right)?;
        Self::of_conic(conic.as_slice(), inside, size)
    }

    /// The ellipse A x² + B xy + C y² + D x + E y = 1 in units of `size` about `origin`.
    fn of_conic(conic: &[f64], origin: Point, size: f64) -> Option<Self> {
        let &[a, b, c, d, e] = conic else {
            return None;
        };
        let discriminant = 4.0 * a * c - b * b;
        if !(discriminant > 1e-9 && discriminant.is_finite()) {
            return None;
        }
        let x = (b * e - 2.0 * c * d) / discriminant;
        let y = (b * d - 2.0 * a * e) / discriminant;
        // About the centre: A x² + B xy + C y² = 1 − (D x + E y)/2.
        let level = 1.0 - f64::midpoint(d * x, e * y);
        let spread = (a - c).hypot(b);
        let (most, least) = ((a + c + spread) / 2.0 / level, (a + c - spread) / 2.0 / level);
        if !(least > 0.0 && most.is_finite()) {
            return None;
        }
        // The long axis lies along the smaller coefficient.
        let angle = 0.5 * (-b).atan2(c - a);
        Some(Self {
            centre: origin + Point::new(x, y) * size,
            half_axes: (size / least.sqrt(), size / most.sqrt()),
            angle,
        })
    }
}

/// An ellipse fitted to an edge at full size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct FittedEllipse {
    pub ellipse: Ellipse,
    /// Root mean square distance of the edge points, in pixels.
    pub rms: f64,
    /// Share of the sampled positions whose edge lies on the ellipse.
    pub share: f64,
    /// Median slope across it, in light per pixel.
    pub slope: f64,
}

/// Fits an ellipse to the strongest edges within `reach` pixels of a first estimate, at full size.
pub(crate) fn fit_outline(gray: &Gray, first: Ellipse, reach: f64) -> Option<FittedEllipse> {
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
        // First over all edges, then over inliers.
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
        outline = Some(FittedEllipse {
            ellipse,
            rms: (square / kept.len() as f64).sqrt(),
            share: kept.len() as f64 / PLACES as f64,
            slope: steepness[steepness.len() / 2],
        });
    }
    outline
}
