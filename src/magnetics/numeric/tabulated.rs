//! A function tabulated once in cubic pieces, for many evaluations.

/// An odd rising function as cubic pieces that meet its values and slopes (Hermite's
/// interpolation, any text on numerical analysis), straight on beyond the last.
#[derive(Debug, Clone)]
pub(crate) struct TabulatedCurve {
    step: f64,
    knots: Vec<(f64, f64)>,
}

/// Number of pieces.
const PIECES: usize = 512;

impl TabulatedCurve {
    /// Tabulates a function from 0 to `most`; it gives its value and its slope.
    pub(crate) fn through(most: f64, function: impl Fn(f64) -> (f64, f64)) -> Self {
        let step = most / PIECES as f64;
        Self {
            step,
            knots: (0..=PIECES).map(|k| function(k as f64 * step)).collect(),
        }
    }

    /// Value and slope.
    pub(crate) fn at(&self, x: f64) -> (f64, f64) {
        let place = x.abs() / self.step;
        let below = place as usize;
        let (value, slope) = match (self.knots.get(below), self.knots.get(below.saturating_add(1))) {
            (Some(&(y0, d0)), Some(&(y1, d1))) => {
                let t = place - below as f64;
                let (d0, d1) = (d0 * self.step, d1 * self.step);
                let rise = y1 - y0;
                let (a, b) = (d0 - rise, rise - d1);
                let s = 1.0 - t;
                (
                    s * y0 + t * y1 + t * s * (a * s + b * t),
                    (rise + (s - t) * (a * s + b * t) + t * s * (b - a)) / self.step,
                )
            }
            _ => self.knots.last().map_or((f64::NAN, f64::NAN), |&(y, d)| {
                (y + d * (x.abs() - self.step * (self.knots.len() - 1) as f64), d)
            }),
        };
        (value.copysign(x), slope)
    }
}
