//! The rectifier's periodic state, found directly.
//!
//! One half period is walked from switching to switching on the closed form of
//! `state.rs`; the state at its end, mirrored, must be the state at its start.
//! Newton's method on that condition (single shooting; Aprille and Trick, 1972) replaces the
//! long wait for a transient to die away.

use crate::magnetics::numeric::bracket::Bracket;
use crate::magnetics::rectifier::state::{Circuit, DirectSide, Instant, Linear, Mode, Path};

/// Steps over a half period at which switchings are looked for.
const GRID: usize = 48;
/// More switchings than this in a half period: no such circuit does that.
const MOST_SWITCHINGS: usize = 24;
const MOST_ROUNDS: usize = 400;
const TOLERANCE: f64 = 1e-9;

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct State {
    pub mode: Mode,
    pub x: [f64; 2],
}

/// A stretch of time with one solution: from, to, the solution, which diodes conduct.
pub(super) struct Stretch {
    pub from: Instant,
    pub to: Instant,
    pub path: Path,
    pub mode: Mode,
}

/// The four linear circuits and the steps of the grid, made once.
pub(super) struct Walker<'a> {
    pub circuit: &'a Circuit,
    grid: [Instant; GRID + 1],
    off: Linear,
    positive: Linear,
    negative: Linear,
    overlap: Linear,
}

impl<'a> Walker<'a> {
    pub(super) fn new(circuit: &'a Circuit) -> Self {
        let step = std::f64::consts::PI / circuit.omega / GRID as f64;
        Self {
            circuit,
            grid: std::array::from_fn(|k| circuit.instant(step * k as f64)),
            off: circuit.linear(Mode::Off),
            positive: circuit.linear(Mode::Positive),
            negative: circuit.linear(Mode::Negative),
            overlap: circuit.linear(Mode::Overlap),
        }
    }

    fn path(&self, state: State, at: Instant) -> Path {
        match state.mode {
            Mode::Off => self.off,
            Mode::Positive => self.positive,
            Mode::Negative => self.negative,
            Mode::Overlap => self.overlap,
        }
        .through(at, state.x)
    }

    /// What must stay positive for the mode to last, and the mode that follows where it does not.
    fn guards(&self, mode: Mode, at: Instant, x: [f64; 2]) -> [(f64, Mode); 2] {
        let [ac, y] = x;
        match mode {
            Mode::Off => {
                let against = self.circuit.back_voltage(y) + self.circuit.threshold;
                let source = self.circuit.source(at);
                [(against - source, Mode::Positive), (against + source, Mode::Negative)]
            }
            Mode::Overlap => [(y - ac, Mode::Positive), (y + ac, Mode::Negative)],
            Mode::Positive | Mode::Negative => [
                (mode.sign() * ac, Mode::Off),
                (self.circuit.blocking(mode, at, x), Mode::Overlap),
            ],
        }
    }

    /// The state just after a switching to `mode`.
    fn entered(&self, mode: Mode, at: Instant, x: [f64; 2]) -> State {
        let choked = matches!(self.circuit.side, DirectSide::Choked { .. });
        let reservoir = matches!(self.circuit.side, DirectSide::Reservoir { .. });
        match mode {
            Mode::Off => {
                // Nothing flows; but the other half wave may already be waiting.
                let y = if reservoir { x[1] } else { 0.0 };
                let source = self.circuit.source(at);
                let against = self.circuit.back_voltage(y) + self.circuit.threshold;
                let mode = if source.abs() > against {
                    Mode::of_sign(source)
                } else {
                    Mode::Off
                };
                State { mode, x: [0.0, y] }
            }
            Mode::Positive | Mode::Negative if choked => State {
                mode,
                x: [mode.sign() * x[1].max(0.0), x[1].max(0.0)],
            },
            Mode::Positive | Mode::Negative => State {
                mode,
                x: [0.0, if reservoir { x[1] } else { 0.0 }],
            },
            Mode::Overlap => State { mode, x },
        }
    }

    /// Walks from `from` over half a period, showing each stretch (of up to so many steps of the grid);
    /// returns the mirrored end.
    fn half(&self, steps: usize, from: State, mut show: impl FnMut(Stretch)) -> Option<State> {
        let mut state = from;
        let [mut here, ..] = self.grid;
        let mut shown = here;
        let mut path = self.path(state, here);
        let mut switchings = 0;
        for (next, &to) in self.grid.iter().enumerate().skip(1) {
            while here.time < to.time {
                let x = path.at(to);
                let broken = self
                    .guards(state.mode, to, x)
                    .into_iter()
                    .enumerate()
                    .find(|(_, g)| g.0 < 0.0);
                let Some((which, _)) = broken else {
                    if next % steps == 0 || next == GRID {
                        show(Stretch {
                            from: shown,
                            to,
                            path,
                            mode: state.mode,
                        });
                        shown = to;
                    }
                    here = to;
                    state.x = x;
                    break;
                };
                // Whichever guard breaks first within the step.
                let mut first = (self.crossing(&path, state.mode, which, here, to), which);
                for other in 0..2 {
                    if other != which && self.guards(state.mode, first.0, path.at(first.0))[other].0 < 0.0 {
                        first = (self.crossing(&path, state.mode, other, here, first.0), other);
                    }
                }
                let (at, which) = first;
                switchings += 1;
                if switchings > MOST_SWITCHINGS {
                    return None;
                }
                show(Stretch {
                    from: shown,
                    to: at,
                    path,
                    mode: state.mode,
                });
                let x = path.at(at);
                let follows = self.guards(state.mode, at, x)[which].1;
                state = self.entered(follows, at, x);
                (here, shown) = (at, at);
                path = self.path(state, at);
            }
        }
        state.x.iter().all(|v| v.is_finite()).then_some(State {
            mode: state.mode.mirrored(),
            x: [-state.x[0], state.x[1]],
        })
    }

    /// Where a guard passes zero: regula falsi with the Illinois rule, which keeps the bracket.
    fn crossing(&self, path: &Path, mode: Mode, which: usize, from: Instant, to: Instant) -> Instant {
        let guard = |at: Instant| self.guards(mode, at, path.at(at))[which].0;
        let mut bracket = Bracket::new((from.time, guard(from).max(0.0)), (to.time, guard(to)));
        for _ in 0..60 {
            if bracket.width() <= 1e-13 * to.time {
                break;
            }
            // A guard that starts at zero (the mode has just begun) gives no slope: halve.
            let t = if bracket.at_low > 0.0 {
                bracket.on_line()
            } else {
                bracket.middle()
            };
            let value = guard(self.circuit.instant(t));
            bracket.narrow(t, value, value > 0.0);
            if value == 0.0 {
                break;
            }
        }
        self.circuit.instant(bracket.high)
    }

    /// The numbers that are free in a state, and the state from them.
    fn free(&self, state: State) -> Vec<f64> {
        let [ac, y] = state.x;
        match (self.circuit.side, state.mode) {
            (DirectSide::Reservoir { .. }, Mode::Off) => vec![y],
            (DirectSide::Reservoir { .. }, _) | (DirectSide::Choked { .. }, Mode::Overlap) => vec![ac, y],
            (_, Mode::Off) => Vec::new(),
            _ => vec![y],
        }
    }

    fn with_free(&self, mode: Mode, free: &[f64]) -> State {
        let reservoir = matches!(self.circuit.side, DirectSide::Reservoir { .. });
        let x = match free {
            [ac, y] => [*ac, *y],
            [y] if reservoir => [0.0, *y],
            [y] => [mode.sign() * y, *y],
            _ => [0.0, 0.0],
        };
        State { mode, x }
    }

    fn allowed(state: State) -> bool {
        let [ac, y] = state.x;
        let sign = match state.mode {
            Mode::Positive | Mode::Negative => state.mode.sign() * ac >= 0.0,
            Mode::Overlap => ac.abs() <= y,
            Mode::Off => true,
        };
        sign && y >= 0.0 && ac.is_finite() && y.is_finite()
    }

    /// The half period from the upward zero crossing of the source that repeats, mirrored, without end:
    /// its stretches, of up to so many steps of the grid.
    pub(super) fn periodic(&self, steps: usize, guess: State) -> Option<Vec<Stretch>> {
        let mut state = guess;
        let mut stretches = Vec::with_capacity(GRID / steps.max(1) + 4);
        for _ in 0..MOST_ROUNDS {
            stretches.clear();
            let end = self.half(steps, state, |stretch| stretches.push(stretch))?;
            if end.mode == state.mode {
                let scale = end.x.iter().chain(&state.x).fold(1e-9, |a: f64, v| a.max(v.abs()));
                let miss = (0..2).fold(0.0_f64, |a, k| a.max((end.x[k] - state.x[k]).abs()));
                if miss <= TOLERANCE * scale {
                    return Some(stretches);
                }
                if let Some(better) = self.newton(state, end, scale) {
                    state = better;
                    continue;
                }
            }
            state = end;
        }
        None
    }

    fn newton(&self, state: State, end: State, scale: f64) -> Option<State> {
        let start = self.free(state);
        let n = start.len();
        let residual: Vec<f64> = self.free(end).iter().zip(&start).map(|(e, s)| e - s).collect();
        // Columns of d(end − start)/d start, by forward difference.
        let mut columns = Vec::with_capacity(n);
        for k in 0..n {
            let mut moved = start.clone();
            // Away from zero, so that a current keeps its sign.
            let h = 1e-6 * scale * if moved[k] < 0.0 { -1.0 } else { 1.0 };
            moved[k] += h;
            let other = self.half(GRID, self.with_free(state.mode, &moved), |_| ())?;
            if other.mode != end.mode {
                return None;
            }
            let slope: Vec<f64> = self
                .free(other)
                .iter()
                .zip(self.free(end))
                .enumerate()
                .map(|(row, (o, e))| (o - e) / h - if row == k { 1.0 } else { 0.0 })
                .collect();
            columns.push(slope);
        }
        let step = match (columns.as_slice(), residual.as_slice()) {
            ([c], [r]) => vec![-r / c[0]],
            ([c, d], [r, q]) => {
                let det = c[0] * d[1] - d[0] * c[1];
                vec![-(r * d[1] - d[0] * q) / det, -(c[0] * q - r * c[1]) / det]
            }
            _ => return None,
        };
        let moved: Vec<f64> = start.iter().zip(step).map(|(s, d)| s + d).collect();
        let better = self.with_free(state.mode, &moved);
        Self::allowed(better).then_some(better)
    }
}
