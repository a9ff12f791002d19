//! Lines and curves through points, and where a small drawing stands on the sheet.

use std::fmt::Write;

/// A point on the sheet: right and down.
pub type Point = (f64, f64);

/// A line of straight and curved pieces, in absolute coordinates.
#[derive(Debug, Clone, PartialEq)]
pub struct Trace(String);

impl Trace {
    /// Begins at a point.
    #[must_use]
    pub fn at(start: Point) -> Self {
        Self(format!("M{:.1} {:.1}", start.0, start.1))
    }

    /// A straight line through points.
    #[must_use]
    pub fn through(points: &[Point]) -> Self {
        let mut points = points.iter();
        let mut trace = Self::at(points.next().copied().unwrap_or_default());
        for point in points {
            trace = trace.to(*point);
        }
        trace
    }

    /// Part of a circle, angles in degrees from the right, clockwise as seen.
    #[must_use]
    pub fn arc(middle: Point, radius: f64, from: f64, to: f64) -> Self {
        let on = |degrees: f64| {
            let (sin, cos) = degrees.to_radians().sin_cos();
            (middle.0 + radius * cos, middle.1 + radius * sin)
        };
        // A quadratic piece of at most 30 degrees is off by less than 0.1 % of the radius.
        let pieces = ((to - from).abs() / 30.0).ceil().max(1.0);
        let step = (to - from) / pieces;
        let reach = radius / (step / 2.0).to_radians().cos();
        let mut trace = Self::at(on(from));
        let mut angle = from;
        while (to - angle) * step.signum() > 1e-6 {
            let (sin, cos) = (angle + step / 2.0).to_radians().sin_cos();
            trace = trace.bend((middle.0 + reach * cos, middle.1 + reach * sin), on(angle + step));
            angle += step;
        }
        trace
    }

    /// On to a point, straight.
    #[must_use]
    pub fn to(mut self, end: Point) -> Self {
        let _ = write!(self.0, "L{:.1} {:.1}", end.0, end.1);
        self
    }

    /// On to a point, bent towards `by`.
    #[must_use]
    pub fn bend(mut self, by: Point, end: Point) -> Self {
        let _ = write!(self.0, "Q{:.1} {:.1} {:.1} {:.1}", by.0, by.1, end.0, end.1);
        self
    }

    /// On to a point, leaving towards `leave` and arriving from `arrive`.
    #[must_use]
    pub fn curve(mut self, leave: Point, arrive: Point, end: Point) -> Self {
        let _ = write!(
            self.0,
            "C{:.1} {:.1} {:.1} {:.1} {:.1} {:.1}",
            leave.0, leave.1, arrive.0, arrive.1, end.0, end.1
        );
        self
    }

    /// Back to the beginning.
    #[must_use]
    pub fn close(mut self) -> Self {
        self.0.push('Z');
        self
    }

    pub(super) fn data(&self) -> &str {
        &self.0
    }
}

/// Where a small drawing stands: its own (0, 0), how it is turned, its size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pose {
    at: Point,
    sin: f64,
    cos: f64,
    size: f64,
    mirror: f64,
}

impl Pose {
    /// Upright, in its own size.
    #[must_use]
    pub fn at(x: f64, y: f64) -> Self {
        Self {
            at: (x, y),
            sin: 0.0,
            cos: 1.0,
            size: 1.0,
            mirror: 1.0,
        }
    }

    /// Turned clockwise by degrees.
    #[must_use]
    pub fn turned(self, degrees: f64) -> Self {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Self { sin, cos, ..self }
    }

    /// In another size.
    #[must_use]
    pub fn sized(self, size: f64) -> Self {
        Self { size, ..self }
    }

    /// Left and right exchanged, before it is turned.
    #[must_use]
    pub fn mirrored(self) -> Self {
        Self {
            mirror: -self.mirror,
            ..self
        }
    }

    /// The size.
    #[must_use]
    pub fn size(self) -> f64 {
        self.size
    }

    /// A point of the small drawing, on the sheet.
    #[must_use]
    pub fn put(self, x: f64, y: f64) -> Point {
        let (x, y) = (x * self.size * self.mirror, y * self.size);
        (
            self.at.0 + x * self.cos - y * self.sin,
            self.at.1 + x * self.sin + y * self.cos,
        )
    }

    /// A straight line through points of the small drawing.
    #[must_use]
    pub fn line(self, points: &[Point]) -> Trace {
        let points: Vec<Point> = points.iter().map(|p| self.put(p.0, p.1)).collect();
        Trace::through(&points)
    }

    /// A closed area with corners at points of the small drawing.
    #[must_use]
    pub fn area(self, points: &[Point]) -> Trace {
        self.line(points).close()
    }

    /// A rectangle of the small drawing.
    #[must_use]
    pub fn block(self, x: f64, y: f64, width: f64, height: f64) -> Trace {
        self.area(&[(x, y), (x + width, y), (x + width, y + height), (x, y + height)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_turned_drawing_turns_clockwise() {
        let (x, y) = Pose::at(10.0, 10.0).turned(90.0).sized(2.0).put(3.0, 0.0);
        assert!((x - 10.0).abs() < 1e-9 && (y - 16.0).abs() < 1e-9, "{x} {y}");
        let (x, y) = Pose::at(10.0, 10.0).mirrored().put(3.0, 1.0);
        assert!((x - 7.0).abs() < 1e-9 && (y - 11.0).abs() < 1e-9, "{x} {y}");
    }

    #[test]
    fn an_arc_ends_where_it_should() {
        let half = Trace::arc((0.0, 0.0), 10.0, 180.0, 0.0);
        assert!(half.data().starts_with("M-10.0 0.0"), "{}", half.data());
        assert!(half.data().ends_with(" 10.0 0.0") || half.data().ends_with(" 10.0 -0.0"));
    }
}
