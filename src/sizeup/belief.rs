//! A straight line that is believed more or less, and learns.

/// A line `y = a + b x` with a Gaussian belief over a and b and a known scatter of y around it.
///
/// Learning is Bayesian linear regression with a conjugate prior, one point at a time (Bishop,
/// Pattern Recognition and Machine Learning, section 3.3.1; from memory).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    mean: [f64; 2],
    covariance: [[f64; 2]; 2],
    scatter: f64,
}

impl Line {
    /// A prior: value at x = 0 and slope, each with its standard deviation, and the scatter.
    pub(super) const fn prior(at_zero: (f64, f64), slope: (f64, f64), scatter: f64) -> Self {
        Self {
            mean: [at_zero.0, slope.0],
            covariance: [[at_zero.1 * at_zero.1, 0.0], [0.0, slope.1 * slope.1]],
            scatter,
        }
    }

    /// The belief after one more point.
    pub(super) fn learn(&self, x: f64, y: f64) -> Self {
        let [[p00, p01], [p10, p11]] = self.covariance;
        let (g0, g1) = (p00 + p01 * x, p10 + p11 * x);
        let variance = g0 + g1 * x + self.scatter * self.scatter;
        let missed = y - self.mean[0] - self.mean[1] * x;
        Self {
            mean: [
                self.mean[0] + g0 / variance * missed,
                self.mean[1] + g1 / variance * missed,
            ],
            covariance: [
                [p00 - g0 * g0 / variance, p01 - g0 * g1 / variance],
                [p10 - g1 * g0 / variance, p11 - g1 * g1 / variance],
            ],
            scatter: self.scatter,
        }
    }

    /// Mean and standard deviation of y at an x that is itself uncertain by `x_deviation`.
    pub(super) fn predict(&self, x: f64, x_deviation: f64) -> (f64, f64) {
        let [[p00, p01], [p10, p11]] = self.covariance;
        let of_line = p00 + x * (p01 + p10) + x * x * p11;
        let of_x = self.mean[1] * x_deviation;
        let variance = of_line + self.scatter * self.scatter + of_x * of_x;
        (self.mean[0] + self.mean[1] * x, variance.sqrt())
    }
}

/// Two independent opinions about one value, each a mean and a standard deviation.
pub(super) fn combine(a: (f64, f64), b: (f64, f64)) -> (f64, f64) {
    let (wa, wb) = (a.1.powi(-2), b.1.powi(-2));
    ((a.0 * wa + b.0 * wb) / (wa + wb), (wa + wb).powf(-0.5))
}

/// The chance that a standard normal variable is below `z` (Abramowitz and Stegun, 26.2.17,
/// error below 7.5e-8; from memory).
pub(super) fn normal_below(z: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.231_641_9 * z.abs());
    let series = [
        0.319_381_530,
        -0.356_563_782,
        1.781_477_937,
        -1.821_255_978,
        1.330_274_429,
    ];
    let sum = series.iter().rev().fold(0.0, |acc, c| (acc + c) * t);
    let above = (-z * z / 2.0).exp() / std::f64::consts::TAU.sqrt() * sum;
    if z < 0.0 { above } else { 1.0 - above }
}

/// Density of a normal variable, up to the factor that cancels in a ratio.
pub(super) fn normal_weight(x: f64, mean: f64, deviation: f64) -> f64 {
    (-((x - mean) / deviation).powi(2) / 2.0).exp() / deviation
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the closed form (P⁻¹ + XᵀX/s²)⁻¹ (P⁻¹m + Xᵀy/s²), solved with numpy 2.4.6 beside.
    #[test]
    fn learning_agrees_with_the_closed_form() {
        let prior = Line::prior((1.28, 0.15), (0.75, 0.10), 0.12);
        let points = [(0.1, 1.52), (0.4, 1.61), (-0.2, 1.05)];
        let got = points.iter().fold(prior, |line, &(x, y)| line.learn(x, y));
        let (mean, deviation) = got.predict(0.3, 0.0);
        let expected = NUMPY;
        for (name, got, expected) in [
            ("a", got.mean[0], expected[0]),
            ("b", got.mean[1], expected[1]),
            ("mean at 0.3", mean, expected[2]),
            ("deviation at 0.3", deviation, expected[3]),
        ] {
            assert!((got - expected).abs() < 1e-9, "{name}: {got} {expected}");
        }
    }

    const NUMPY: [f64; 4] = [
        1.309_817_444_219_066_9,
        0.771_548_343_475_321_2,
        1.541_281_947_261_663_2,
        0.137_023_709_471_768_62,
    ];

    /// Table of the normal distribution, any statistics text.
    #[test]
    fn normal_table() {
        for (z, p) in [
            (0.0, 0.5),
            (1.0, 0.841_345),
            (1.96, 0.975_002),
            (-1.0, 0.158_655),
            (3.0, 0.998_650),
        ] {
            assert!((normal_below(z) - p).abs() < 1e-6, "{z}");
        }
    }
}
