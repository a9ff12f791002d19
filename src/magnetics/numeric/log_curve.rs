//! A rising curve through listed points, smooth and without overshoot.

/// A curve y(x) through points, both rising and positive, interpolated as ln y against ln x by
/// the monotone cubic of Fritsch and Butland (the PCHIP of numerical libraries): in each
/// interval a cubic Hermite polynomial whose slope at a point is the weighted harmonic mean of
/// the neighbouring chords, at an end a three-point one-sided slope limited to keep the shape.
///
/// Below the first point y falls as a power of x with the exponent given; above the last point
/// it is for the caller to go on ([`LogCurve::last`]).
///
/// Sources: F. N. Fritsch and J. Butland, A method for constructing local monotone piecewise
/// cubic interpolants, SIAM J. Sci. Stat. Comput. 5 (1984) 300; the end slopes as in C. Moler,
/// Numerical Computing with MATLAB, chapter 3.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LogCurve {
    ln_x: Vec<f64>,
    ln_y: Vec<f64>,
    slope: Vec<f64>,
    low_exponent: f64,
    last: (f64, f64),
}

impl LogCurve {
    /// A curve through `(x, y)` points, which must rise in both and number three or more; a
    /// point that doesn't rise is passed over, so that the curve always does.
    pub(crate) fn through(points: impl Iterator<Item = (f64, f64)>, low_exponent: f64) -> Self {
        let (mut ln_x, mut ln_y) = (Vec::new(), Vec::new());
        for (x, y) in points {
            let (x, y) = (x.ln(), y.ln());
            let rises = match (ln_x.last(), ln_y.last()) {
                (Some(before_x), Some(before_y)) => x > *before_x && y > *before_y,
                _ => x.is_finite() && y.is_finite(),
            };
            if rises {
                ln_x.push(x);
                ln_y.push(y);
            }
        }
        let slope = monotone_slopes(&ln_x, &ln_y);
        let last = match (ln_x.last(), ln_y.last()) {
            (Some(x), Some(y)) => (x.exp(), y.exp()),
            _ => (0.0, 0.0),
        };
        Self {
            ln_x,
            ln_y,
            slope,
            low_exponent,
            last,
        }
    }

    /// The last point.
    pub(crate) fn last(&self) -> (f64, f64) {
        self.last
    }

    /// The value and the slope dy/dx at `x`, which must not be above the last point (there the
    /// last cubic would go on); zero for `x` at or below zero, not a number where `x` is none. A
    /// curve of fewer than two points is the power law alone.
    pub(crate) fn at(&self, x: f64) -> (f64, f64) {
        if x.is_nan() {
            return (f64::NAN, f64::NAN);
        }
        let (Some(first_x), Some(first_y)) = (self.ln_x.first(), self.ln_y.first()) else {
            return (0.0, 0.0);
        };
        if x <= 0.0 {
            // The limit of the power law: a finite slope only where the exponent is one.
            let slope = if self.low_exponent == 1.0 {
                (first_y - first_x).exp()
            } else {
                0.0
            };
            return (0.0, slope);
        }
        let ln_x = x.ln();
        let (ln_y, exponent) = if ln_x <= *first_x || self.ln_x.len() < 2 {
            (first_y + self.low_exponent * (ln_x - first_x), self.low_exponent)
        } else {
            let after = self
                .ln_x
                .partition_point(|point| *point < ln_x)
                .min(self.ln_x.len() - 1);
            self.hermite(after - 1, ln_x)
        };
        let y = ln_y.exp();
        (y, exponent * y / x)
    }

    /// Cubic Hermite value and slope in the interval that begins at point `i`.
    fn hermite(&self, i: usize, at: f64) -> (f64, f64) {
        let width = self.ln_x[i + 1] - self.ln_x[i];
        let t = (at - self.ln_x[i]) / width;
        let chord = (self.ln_y[i + 1] - self.ln_y[i]) / width;
        let (s0, s1) = (self.slope[i], self.slope[i + 1]);
        let (c, b) = (3.0 * chord - 2.0 * s0 - s1, s0 + s1 - 2.0 * chord);
        let value = self.ln_y[i] + width * t * (s0 + t * (c + t * b));
        (value, s0 + t * (2.0 * c + 3.0 * t * b))
    }
}

/// Slopes of the monotone cubic at each point; chords are all positive here.
fn monotone_slopes(x: &[f64], y: &[f64]) -> Vec<f64> {
    let widths: Vec<f64> = x.windows(2).map(|pair| pair[1] - pair[0]).collect();
    let chords: Vec<f64> = y
        .windows(2)
        .zip(&widths)
        .map(|(pair, width)| (pair[1] - pair[0]) / width)
        .collect();
    let (Some(first), Some(last)) = (chords.first(), chords.last()) else {
        return vec![0.0; x.len()];
    };
    if chords.len() == 1 {
        return vec![*first, *last];
    }
    let end = |w0: f64, w1: f64, c0: f64, c1: f64| {
        let slope = ((2.0 * w0 + w1) * c0 - w0 * c1) / (w0 + w1);
        slope.max(0.0)
    };
    let n = chords.len();
    let mut slopes = Vec::with_capacity(x.len());
    slopes.push(end(widths[0], widths[1], chords[0], chords[1]));
    for i in 1..n {
        let (w1, w2) = (2.0 * widths[i] + widths[i - 1], widths[i] + 2.0 * widths[i - 1]);
        slopes.push((w1 + w2) / (w1 / chords[i - 1] + w2 / chords[i]));
    }
    slopes.push(end(widths[n - 1], widths[n - 2], chords[n - 1], chords[n - 2]));
    slopes
}
