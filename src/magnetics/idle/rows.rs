//! The least squares of an idle test: its unknowns, its rows and their derivatives.

use nalgebra::{SMatrix, SVector};

use crate::magnetics::core::path::CorePath;
use crate::magnetics::core::steel::SteelKind;
use crate::magnetics::idle::Idle;
use crate::magnetics::idle::fit::IdleReading;
use crate::quantity::{Length, Measured, Quantity, Ratio};

/// The unknowns: face gap (m), steel position, field factor, loss factor; then, over what was
/// taken, turns, stack and volts.
pub(super) const UNKNOWNS: usize = 7;
pub(super) type Vector = [f64; UNKNOWNS];

/// The rows' derivatives to each unknown; none for one held fast.
pub(super) type Columns = [Option<Vec<f64>>; UNKNOWNS];

/// An idle test as rows to be squared: the readings, then what is held to a range.
pub(super) struct Rows<'a> {
    idle: &'a Idle,
    readings: &'a [IdleReading],
    /// Where the unknowns begin.
    pub(super) begun: Vector,
    /// Their standard uncertainties; zero: held fast (the gap is not held).
    pub(super) prior: Vector,
}

impl<'a> Rows<'a> {
    pub(super) fn new(idle: &'a Idle, readings: &'a [IdleReading]) -> Self {
        let (begun, prior) = unknowns(idle, readings);
        Self {
            idle,
            readings,
            begun,
            prior,
        }
    }

    /// Residuals over their standard uncertainties: readings first, then the ranges.
    pub(super) fn residuals(&self, x: &Vector) -> Option<Vec<f64>> {
        let model = with(self.idle, x);
        self.residuals_on(&model.path(), &model, x)
    }

    /// [`Rows::residuals`] on the path of the model's core.
    fn residuals_on(&self, path: &CorePath, model: &Idle, x: &Vector) -> Option<Vec<f64>> {
        let mut all = Vec::with_capacity(2 * self.readings.len() + UNKNOWNS);
        for reading in self.readings {
            let mut at_voltage = *model;
            at_voltage.voltage.value = reading.voltage.value * x[6];
            let (current, watts) = at_voltage.readings_on(path)?;
            all.push((current - reading.current.value).si() / reading.current.sigma_si());
            if let Some(power) = reading.power {
                all.push((watts - power.value).si() / power.sigma_si());
            }
        }
        let held = (1..UNKNOWNS).filter(|k| self.prior[*k] > 0.0);
        all.extend(held.map(|k| (x[k] - self.begun[k]) / self.prior[k]));
        Some(all)
    }

    /// The derivatives by central differences.
    pub(super) fn columns(&self, x: &Vector) -> Option<Columns> {
        let mut columns: Columns = [const { None }; UNKNOWNS];
        let here = with(self.idle, x);
        let path = here.path();
        // Most unknowns leave the steel as it is: its curves are made once for them.
        let residuals = |x: &Vector| {
            let model = with(self.idle, x);
            if model.steel == here.steel {
                self.residuals_on(&path.of_same_steel(&model.core, &model.gaps), &model, x)
            } else {
                self.residuals(x)
            }
        };
        for (k, column) in columns.iter_mut().enumerate() {
            if k > 0 && self.prior[k] <= 0.0 {
                continue;
            }
            let (up, down, width) = beside(x, k);
            let (up, down) = (residuals(&up)?, residuals(&down)?);
            *column = Some(up.iter().zip(&down).map(|(u, d)| (u - d) / width).collect());
        }
        Some(columns)
    }
}

/// Carries the derivatives along a step that changed the residuals by `change`: the least change of
/// theirs that explains it, each unknown measured in its [`STEPS`] (Broyden, Mathematics of
/// Computation 19 (1965), pages 577 to 593).
pub(super) fn follow(columns: &mut Columns, step: &Vector, change: &[f64]) {
    let mut missed = change.to_vec();
    let mut size = 0.0;
    for ((column, step), unit) in columns.iter().zip(step).zip(STEPS) {
        let Some(column) = column else { continue };
        missed.iter_mut().zip(column).for_each(|(m, c)| *m -= c * step);
        size += (step / unit).powi(2);
    }
    if size <= 0.0 {
        return;
    }
    for ((column, step), unit) in columns.iter_mut().zip(step).zip(STEPS) {
        let share = step / (unit * unit * size);
        let Some(column) = column else { continue };
        column.iter_mut().zip(&missed).for_each(|(c, m)| *c += m * share);
    }
}

/// Steps of the differences by each unknown.
const STEPS: Vector = [1e-6, 0.01, 0.01, 0.01, 0.002, 0.002, 0.002];

/// The unknowns with one of them a step up and a step down, and how far apart those are.
pub(super) fn beside(x: &Vector, k: usize) -> (Vector, Vector, f64) {
    let (mut up, mut down) = (*x, *x);
    up[k] += STEPS[k];
    down[k] -= STEPS[k];
    let (up, down) = (clamped(up), clamped(down));
    (up, down, up[k] - down[k])
}

/// `JᵀJ`; an unknown that is held fast gets a unit diagonal.
pub(super) fn normal(columns: &Columns) -> [Vector; UNKNOWNS] {
    std::array::from_fn(|i| {
        std::array::from_fn(|j| match (&columns[i], &columns[j]) {
            (Some(a), Some(b)) => dot(a, b),
            _ => f64::from(u8::from(i == j)),
        })
    })
}

/// Jᵀr.
pub(super) fn gradient(columns: &Columns, residuals: &[f64]) -> Vector {
    std::array::from_fn(|i| columns[i].as_ref().map_or(0.0, |column| dot(column, residuals)))
}

pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// A relative standard uncertainty.
fn relative<Q: Quantity>(measured: &Measured<Q>) -> f64 {
    measured.sigma_si() / measured.value.si()
}

/// The unknowns' starting values and standard uncertainties (zero: held fast).
fn unknowns(idle: &Idle, readings: &[IdleReading]) -> (Vector, Vector) {
    let position = match idle.steel.kind {
        SteelKind::Unknown(position) => (position.value.si(), position.sigma_si()),
        SteelKind::Grade(_) => (0.0, 0.0),
    };
    let core = &idle.core;
    let (face, field, loss) = (idle.gaps.face, idle.steel.field_factor, idle.steel.loss_factor);
    (
        [
            face.value.si(),
            position.0,
            field.value.si(),
            loss.value.si(),
            1.0,
            1.0,
            1.0,
        ],
        [
            face.sigma_si(),
            position.1,
            field.sigma_si(),
            loss.sigma_si(),
            relative(&idle.turns),
            relative(&core.stack)
                .hypot(relative(&core.tongue))
                .hypot(relative(&core.stacking_factor)),
            readings.iter().map(|r| relative(&r.voltage)).fold(0.0, f64::max),
        ],
    )
}

/// The core with the unknowns put in, the voltmeter's gain excepted.
pub(super) fn with(idle: &Idle, x: &Vector) -> Idle {
    let mut copy = *idle;
    copy.gaps.face.value = Length::from_si(x[0]);
    if let SteelKind::Unknown(position) = &mut copy.steel.kind {
        position.value = Ratio::from_si(x[1]);
    }
    copy.steel.field_factor.value = Ratio::from_si(x[2]);
    copy.steel.loss_factor.value = Ratio::from_si(x[3]);
    copy.turns.value = idle.turns.value * x[4];
    copy.core.stack.value = idle.core.stack.value * x[5];
    copy
}

/// No negative gap, no position outside the band, no factor below a quarter.
pub(super) fn clamped(x: Vector) -> Vector {
    let [gap, position, factors @ ..] = x;
    let [field, loss, turns, stack, volts] = factors.map(|factor: f64| factor.max(0.25));
    [
        gap.max(0.0),
        position.clamp(-1.0, 1.0),
        field,
        loss,
        turns,
        stack,
        volts,
    ]
}

/// Solves a symmetric positive system after scaling to a unit diagonal; `None` where the rows leave it
/// undetermined.
pub(super) fn solve(normal: &[Vector; UNKNOWNS], right: Vector) -> Option<Vector> {
    let scale: Vector = std::array::from_fn(|k| normal[k][k].sqrt());
    if scale.iter().any(|s| s.is_nan() || *s <= 0.0) {
        return None;
    }
    let scaled = SMatrix::<f64, UNKNOWNS, UNKNOWNS>::from_fn(|i, j| normal[i][j] / (scale[i] * scale[j]));
    let factor = scaled.cholesky()?;
    // The diagonal of the factor squared is what elimination would divide by.
    if factor.l_dirty().diagonal().iter().any(|d| d * d < 1e-12) {
        return None;
    }
    let solved = factor.solve(&SVector::from_fn(|i, _| right[i] / scale[i]));
    Some(std::array::from_fn(|k| solved[k] / scale[k]))
}
