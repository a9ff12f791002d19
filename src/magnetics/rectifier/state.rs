//! The rectifier between two switchings: a linear circuit of two states with a sinusoidal
//! source, solved in closed form.
//!
//! The state is the winding's current `ac` and `y`, which is the capacitor's voltage or the
//! current on the direct side. In every conduction state the circuit obeys
//! `x' = A x + b + g Ê sin ωt`, with the solution
//! `x(t) = xc + Im(X e^jωt) + e^A(t−t0) (x0 − xc − Im(X e^jωt0))`,
//! `A xc = −b`, `(jω − A) X = g Ê`. The 2 × 2 exponential is
//! `e^mt (cosh qt + (A − m) sinh(qt)/q)`, `m = tr A/2`, `q² = m² − det A` (any text on linear
//! systems; this is Sylvester's formula).

use crate::magnetics::numeric::linear::{Complex, imaginary, real};

/// A time in seconds from the upward zero of the source, and where in its period it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Instant {
    pub time: f64,
    /// sin ωt.
    pub sin: f64,
    /// cos ωt.
    pub cos: f64,
}

/// Which diodes conduct.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Mode {
    /// None.
    Off,
    /// Those of the positive half wave.
    Positive,
    /// Those of the negative half wave.
    Negative,
    /// All: the current passes from one pair to the other while the leakage holds it up.
    Overlap,
}

impl Mode {
    /// +1 or −1 for the half wave that conducts; 0 for neither or both.
    pub(super) const fn sign(self) -> f64 {
        match self {
            Mode::Positive => 1.0,
            Mode::Negative => -1.0,
            Mode::Off | Mode::Overlap => 0.0,
        }
    }
    /// The same state half a period later.
    pub(super) const fn mirrored(self) -> Self {
        match self {
            Mode::Positive => Mode::Negative,
            Mode::Negative => Mode::Positive,
            other => other,
        }
    }
    pub(super) const fn of_sign(sign: f64) -> Self {
        if sign >= 0.0 { Mode::Positive } else { Mode::Negative }
    }
}

/// What hangs on the direct side, in SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum DirectSide {
    /// Electromotive force and resistance, no inductance.
    Stiff { emf: f64, resistance: f64 },
    /// The same behind a choke.
    Choked { emf: f64, resistance: f64, inductance: f64 },
    /// Capacitor beside a resistor.
    Reservoir { capacitance: f64, resistance: f64 },
}

/// The whole circuit, in SI units. `threshold` and `slope` belong to the whole path of the
/// current (two diodes in a bridge; one diode and one half winding with a centre tap).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Circuit {
    pub peak: f64,
    pub omega: f64,
    pub resistance: f64,
    pub inductance: f64,
    pub threshold: f64,
    pub slope: f64,
    pub side: DirectSide,
}

type Matrix = [[f64; 2]; 2];

/// How what is free dies away: q of Sylvester's formula.
#[derive(Debug, Clone, Copy)]
enum Decay {
    /// q is zero.
    Double,
    /// Two rates.
    Real(f64),
    /// One rate, swinging.
    Imaginary(f64),
}

/// The closed form of one conduction state.
#[derive(Debug, Clone, Copy)]
pub(super) struct Linear {
    a: Matrix,
    mean: f64,
    decay: Decay,
    constant: [f64; 2],
    phasor: [Complex; 2],
}

/// A solution of [`Linear`] through a given point.
#[derive(Debug, Clone, Copy)]
pub(super) struct Path {
    linear: Linear,
    start: f64,
    free: [f64; 2],
}

impl Linear {
    fn new(a: Matrix, b: [f64; 2], g: [f64; 2], circuit: &Circuit) -> Self {
        let trace = a[0][0] + a[1][1];
        let det = a[0][0] * a[1][1] - a[0][1] * a[1][0];
        let constant = [
            -(a[1][1] * b[0] - a[0][1] * b[1]) / det,
            -(a[0][0] * b[1] - a[1][0] * b[0]) / det,
        ];
        let jw = imaginary(circuit.omega);
        let m = [
            [jw - real(a[0][0]), real(-a[0][1])],
            [real(-a[1][0]), jw - real(a[1][1])],
        ];
        let drive = g.map(|v| real(v * circuit.peak));
        let detc = m[0][0] * m[1][1] - m[0][1] * m[1][0];
        let phasor = [
            (m[1][1] * drive[0] - m[0][1] * drive[1]) / detc,
            (m[0][0] * drive[1] - m[1][0] * drive[0]) / detc,
        ];
        let square = trace * trace / 4.0 - det;
        Self {
            a,
            mean: trace / 2.0,
            decay: match square {
                0.0 => Decay::Double,
                s if s > 0.0 => Decay::Real(s.sqrt()),
                s => Decay::Imaginary((-s).sqrt()),
            },
            constant,
            phasor,
        }
    }

    fn forced(&self, at: Instant) -> [f64; 2] {
        [0, 1].map(|k| self.constant[k] + self.phasor[k].re * at.sin + self.phasor[k].im * at.cos)
    }

    pub(super) fn through(self, start: Instant, x: [f64; 2]) -> Path {
        let forced = self.forced(start);
        Path {
            linear: self,
            start: start.time,
            free: [x[0] - forced[0], x[1] - forced[1]],
        }
    }
}

impl Path {
    /// The state at an instant.
    pub(super) fn at(&self, at: Instant) -> [f64; 2] {
        let Linear { a, mean, decay, .. } = self.linear;
        let forced = self.linear.forced(at);
        if self.free == [0.0; 2] {
            return forced;
        }
        let dt = at.time - self.start;
        let (cosh, sinh_over_q) = match decay {
            Decay::Double => {
                let size = (mean * dt).exp();
                (size, size * dt)
            }
            Decay::Real(q) => {
                let (fast, slow) = (((mean - q) * dt).exp(), ((mean + q) * dt).exp());
                let ratio = if q * dt < 1e-6 {
                    (mean * dt).exp() * dt
                } else {
                    (slow - fast) / (2.0 * q)
                };
                (f64::midpoint(slow, fast), ratio)
            }
            Decay::Imaginary(q) => {
                let size = (mean * dt).exp();
                let (sin, cos) = (q * dt).sin_cos();
                (size * cos, size * if q * dt < 1e-6 { dt } else { sin / q })
            }
        };
        let [f0, f1] = self.free;
        [
            forced[0] + cosh * f0 + sinh_over_q * ((a[0][0] - mean) * f0 + a[0][1] * f1),
            forced[1] + cosh * f1 + sinh_over_q * (a[1][0] * f0 + (a[1][1] - mean) * f1),
        ]
    }
}

impl Circuit {
    /// The instant at a time in seconds.
    pub(super) fn instant(&self, time: f64) -> Instant {
        let (sin, cos) = (self.omega * time).sin_cos();
        Instant { time, sin, cos }
    }

    /// Source voltage at an instant.
    pub(super) fn source(&self, at: Instant) -> f64 {
        self.peak * at.sin
    }

    /// What the direct side holds against the diodes while nothing flows.
    pub(super) fn back_voltage(&self, y: f64) -> f64 {
        match self.side {
            DirectSide::Stiff { emf, .. } | DirectSide::Choked { emf, .. } => emf,
            DirectSide::Reservoir { .. } => y,
        }
    }

    /// Current on the direct side.
    pub(super) fn direct_current(&self, x: [f64; 2]) -> f64 {
        match self.side {
            DirectSide::Choked { .. } => x[1],
            DirectSide::Stiff { .. } | DirectSide::Reservoir { .. } => x[0].abs(),
        }
    }

    /// Voltage at the load's terminals, behind the choke if there is one.
    pub(super) fn load_voltage(&self, x: [f64; 2]) -> f64 {
        match self.side {
            DirectSide::Stiff { emf, resistance } | DirectSide::Choked { emf, resistance, .. } => {
                emf + resistance * self.direct_current(x)
            }
            DirectSide::Reservoir { .. } => x[1],
        }
    }

    /// Voltage between the diodes and whatever follows them (the choke, if there is one).
    pub(super) fn bus_voltage(&self, mode: Mode, at: Instant, x: [f64; 2]) -> f64 {
        let y = x[1];
        match (self.side, mode) {
            (_, Mode::Off) => self.back_voltage(y),
            (_, Mode::Overlap) => -self.threshold - self.slope / 2.0 * y,
            (
                DirectSide::Choked {
                    emf,
                    resistance,
                    inductance,
                },
                _,
            ) => {
                let against = emf + (self.resistance + self.slope + resistance) * y + self.threshold;
                let rise = (mode.sign() * self.source(at) - against) / (self.inductance + inductance);
                emf + resistance * y + inductance * rise
            }
            _ => self.load_voltage(x),
        }
    }

    /// Positive while a choke leaves the other pair of diodes blocked; overlap begins at zero.
    pub(super) fn blocking(&self, mode: Mode, at: Instant, x: [f64; 2]) -> f64 {
        match self.side {
            DirectSide::Choked { .. } => self.bus_voltage(mode, at, x) + self.threshold + self.slope / 2.0 * x[1],
            _ => f64::INFINITY,
        }
    }

    /// The equations of a conduction state.
    ///
    /// In overlap the two legs carry `(y ± ac)/2`: the winding sees half the path's slope
    /// resistance, the direct side sees minus the threshold and half the slope.
    pub(super) fn linear(&self, mode: Mode) -> Linear {
        let s = mode.sign();
        let series = self.resistance + self.slope;
        // A current that is zero and stays so needs some equation: it decays at any rate.
        const IDLE: f64 = -1.0;
        let (a, b, g) = match (self.side, mode) {
            (
                DirectSide::Reservoir {
                    capacitance,
                    resistance,
                },
                Mode::Off,
            ) => (
                [[IDLE, 0.0], [0.0, -1.0 / (resistance * capacitance)]],
                [0.0; 2],
                [0.0; 2],
            ),
            (_, Mode::Off) => ([[IDLE, 0.0], [0.0, IDLE]], [0.0; 2], [0.0; 2]),
            (
                DirectSide::Reservoir {
                    capacitance,
                    resistance,
                },
                _,
            ) => (
                [
                    [-series / self.inductance, -s / self.inductance],
                    [s / capacitance, -1.0 / (resistance * capacitance)],
                ],
                [-s * self.threshold / self.inductance, 0.0],
                [1.0 / self.inductance, 0.0],
            ),
            (
                DirectSide::Choked {
                    emf,
                    resistance,
                    inductance,
                },
                Mode::Overlap,
            ) => (
                [
                    [-(self.resistance + self.slope / 2.0).max(1e-12) / self.inductance, 0.0],
                    [0.0, -(self.slope / 2.0 + resistance).max(1e-12) / inductance],
                ],
                [0.0, -(self.threshold + emf) / inductance],
                [1.0 / self.inductance, 0.0],
            ),
            (DirectSide::Stiff { emf, resistance }, _) => self.in_series(s, series + resistance, 0.0, emf),
            (
                DirectSide::Choked {
                    emf,
                    resistance,
                    inductance,
                },
                _,
            ) => self.in_series(s, series + resistance, inductance, emf),
        };
        Linear::new(a, b, g, self)
    }

    /// One loop: source, leakage, path, choke and load; both states are the same current.
    fn in_series(&self, s: f64, resistance: f64, choke: f64, emf: f64) -> (Matrix, [f64; 2], [f64; 2]) {
        let inductance = self.inductance + choke;
        let rate = -resistance / inductance;
        let against = (self.threshold + emf) / inductance;
        (
            [[rate, 0.0], [0.0, rate]],
            [-s * against, -against],
            [1.0 / inductance, s / inductance],
        )
    }
}
