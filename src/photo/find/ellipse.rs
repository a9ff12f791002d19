//! An ellipse in a picture: what a disc looks like from anywhere.

use std::f64::consts::TAU;

use nalgebra::{SMatrix, SVector};

use super::point::Point;

/// An ellipse by its centre, half axes (the longer first) and the angle of the long one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Ellipse {
    pub centre: Point,
    pub half_axes: (f64, f64),
    pub angle: f64,
}

impl Ellipse {
    /// Where it is at a parameter of 0 to 2π.
    pub fn place(&self, parameter: f64) -> Point {
        let (sine, cosine) = parameter.sin_cos();
        self.turned(self.half_axes.0 * cosine, self.half_axes.1 * sine) + self.centre
    }

    /// Outward there, of length 1.
    pub fn normal(&self, parameter: f64) -> Point {
        let (sine, cosine) = parameter.sin_cos();
        let outward = self.turned(cosine / self.half_axes.0, sine / self.half_axes.1);
        outward * (1.0 / outward.length())
    }

    /// `count` parameters around it.
    pub fn parameters(count: usize) -> impl Iterator<Item = f64> {
        (0..count).map(move |index| TAU * index as f64 / count as f64)
    }

    /// About how far a place lies outside it, in pixels (Sampson's first-order distance).
    pub fn outside(&self, place: Point) -> f64 {
        self.gauge()(place)
    }

    /// The same for many places: the angle's sine and cosine are worked out once.
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

    /// The mean of its half axes.
    pub fn radius(&self) -> f64 {
        f64::midpoint(self.half_axes.0, self.half_axes.1)
    }

    /// The short half axis as a part of the long one.
    pub fn flatness(&self) -> f64 {
        self.half_axes.1 / self.half_axes.0
    }

    fn turned(&self, along: f64, across: f64) -> Point {
        let (sine, cosine) = self.angle.sin_cos();
        Point::new(along * cosine - across * sine, along * sine + across * cosine)
    }

    /// The ellipse that fits places around `inside` best: least squares of the conic
    /// A x² + B xy + C y² + D x + E y = 1 about that inner place, which no ellipse around it can
    /// fail to have; `weights` as one over each place's distance scale, or all 1.
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

    /// From A x² + B xy + C y² + D x + E y = 1 in units of `size` about `origin`.
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
        // About its centre: A x² + B xy + C y² = 1 − (D x + E y)/2.
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
