//! What measured idle current and watts tell about a core: its gaps and its steel.

use super::idle::Idle;
use super::steel::SteelKind;
use crate::quantity::{Current, Estimate, Length, Measured, Origin, Power, Quantity, Ratio, Voltage};

/// One row of an idle test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IdleReading {
    /// Voltage at the winding, r.m.s. Its ± is taken as the voltmeter's gain, off by the same
    /// part in every reading.
    pub voltage: Measured<Voltage>,
    /// Current, r.m.s.
    pub current: Measured<Current>,
    /// Watts, where a wattmeter was at hand.
    pub power: Option<Measured<Power>>,
}

/// Whether the readings told more than was assumed before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Told {
    /// The range is less than 0.7 of the one assumed.
    Yes,
    /// It is not: any value of the assumed range explains the readings about as well.
    No,
}

/// Gap and steel that explain an idle test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct IdleFit {
    /// Gap at each of the three faces, beside any shim.
    pub face_gap: Estimate<Length>,
    /// Whether the readings tell the gap.
    pub gap_told: Told,
    /// Position in the band of steels, where the steel is unknown (else 0 ± 0).
    pub steel_position: Estimate<Ratio>,
    /// Whether the readings tell the steel.
    pub steel_told: Told,
    /// The core with what was found put in, with the ranges found; its stack stands for the
    /// whole net area.
    pub idle: Idle,
    /// Root mean square of the residuals in standard uncertainties; well above 2, the model
    /// doesn't fit (shorted turns, a wrong turns count, an unclosed core).
    pub misfit: f64,
    pub(super) at: Vector,
}

/// Why an idle test can't be read.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum IdleFitError {
    /// One voltage can't tell gap from steel.
    #[error("{0} reading(s) given; take the idle current at two or more voltages, some 20 % apart")]
    TooFewReadings(usize),
    /// A reading is zero, negative, not a number or has no uncertainty.
    #[error("reading {0} is not usable; voltage, current, watts and their ± must all be above zero")]
    UnusableReading(usize),
    /// The model has no answer for this core.
    #[error(
        "the core's measures give no idle current; check that every length, the turns and the voltage are above zero"
    )]
    NoModel,
}

/// The unknowns: face gap (m), steel position, field factor, loss factor; then, over what was
/// taken, turns, stack and volts.
pub(super) const UNKNOWNS: usize = 7;
pub(super) type Vector = [f64; UNKNOWNS];

/// Fits face gap, steel position, the sample's field and loss factors, turns, net area and the
/// voltmeter's gain to an idle test.
///
/// Least squares by Gauss–Newton with a halved step where it would climb; every unknown starts
/// from what `idle` holds and is held to it by its ± (a Bayesian prior; the gap is not held).
/// The ranges are the inverse normal matrix's, k = 2 (JCGM 100:2008 annex H.3 for the method of
/// least squares). The last three set the flux density, `B ∝ V / (N A)`: in the knee a hundredth of
/// it is some tenth of the current. The stack stands for tongue and stacking factor, their relative ±
/// joined to its own. The other measures and the resistance are taken as exact here.
///
/// # Errors
/// [`IdleFitError::TooFewReadings`] below two, [`IdleFitError::UnusableReading`] (counted from
/// 1), [`IdleFitError::NoModel`].
pub fn fit_idle(idle: &Idle, readings: &[IdleReading]) -> Result<IdleFit, IdleFitError> {
    if readings.len() < 2 {
        return Err(IdleFitError::TooFewReadings(readings.len()));
    }
    if let Some(bad) = readings.iter().position(|reading| !usable(reading)) {
        return Err(IdleFitError::UnusableReading(bad + 1));
    }
    let start = *idle;
    let (mut at, prior) = unknowns(&start, readings);
    let cost = |x: &Vector| residuals(&start, readings, x, &prior).map(|r| r.iter().map(|v| v * v).sum::<f64>());
    let mut best = cost(&at).ok_or(IdleFitError::NoModel)?;
    for _ in 0..60 {
        let (normal, gradient) = normal_equations(&start, readings, &at, &prior).ok_or(IdleFitError::NoModel)?;
        let Some(step) = solve(normal, gradient) else { break };
        let mut scale = 1.0;
        let mut moved = None;
        while scale > 1e-4 {
            let trial = clamped(std::array::from_fn(|k| at[k] - scale * step[k]));
            match cost(&trial) {
                Some(lower) if lower < best => {
                    moved = Some((trial, lower));
                    break;
                }
                _ => scale *= 0.5,
            }
        }
        let Some((trial, lower)) = moved else { break };
        let gain = best - lower;
        (at, best) = (trial, lower);
        if gain < 1e-9 * (1.0 + best) {
            break;
        }
    }
    let (normal, _) = normal_equations(&start, readings, &at, &prior).ok_or(IdleFitError::NoModel)?;
    let sigma: Vector = std::array::from_fn(|k| {
        let unit = std::array::from_fn(|j| if j == k { 1.0 } else { 0.0 });
        solve(normal, unit).map_or(f64::INFINITY, |column| column[k].max(0.0).sqrt())
    });
    Ok(found(&start, readings, at, sigma, &prior))
}

fn usable(reading: &IdleReading) -> bool {
    let good =
        |value: f64, plus_minus: f64| value > 0.0 && value.is_finite() && plus_minus > 0.0 && plus_minus.is_finite();
    let voltage = &reading.voltage;
    good(voltage.value.si(), 1.0)
        && voltage.sigma_si() >= 0.0
        && voltage.sigma_si().is_finite()
        && good(reading.current.value.si(), reading.current.plus_minus.si())
        && reading.power.is_none_or(|p| good(p.value.si(), p.plus_minus.si()))
}

/// A relative standard uncertainty.
fn relative<Q: Quantity>(measured: &Measured<Q>) -> f64 {
    measured.sigma_si() / measured.value.si()
}

/// The unknowns' starting values and standard uncertainties (zero: held fast).
pub(super) fn unknowns(idle: &Idle, readings: &[IdleReading]) -> (Vector, Vector) {
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
fn clamped(x: Vector) -> Vector {
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

/// Residuals over their standard uncertainties: readings first, then the priors.
fn residuals(idle: &Idle, readings: &[IdleReading], x: &Vector, prior: &Vector) -> Option<Vec<f64>> {
    let model = with(idle, x);
    let (begun, _) = unknowns(idle, readings);
    let mut all = Vec::with_capacity(2 * readings.len() + UNKNOWNS);
    let path = model.path();
    for reading in readings {
        let mut at_voltage = model;
        at_voltage.voltage.value = reading.voltage.value * x[6];
        let draw = at_voltage.draw_on(&path)?;
        all.push((draw.current - reading.current.value).si() / reading.current.sigma_si());
        if let Some(power) = reading.power {
            all.push((draw.power - power.value).si() / power.sigma_si());
        }
    }
    for k in 1..UNKNOWNS {
        if prior[k] > 0.0 {
            all.push((x[k] - begun[k]) / prior[k]);
        }
    }
    Some(all)
}

/// Steps of the differences by each unknown.
pub(super) const STEPS: Vector = [1e-6, 0.01, 0.01, 0.01, 0.002, 0.002, 0.002];

/// The residuals' derivatives to each unknown, by central differences; none for one held fast.
pub(super) fn jacobian(
    idle: &Idle,
    readings: &[IdleReading],
    x: &Vector,
    prior: &Vector,
) -> Option<[Option<Vec<f64>>; UNKNOWNS]> {
    let mut columns: [Option<Vec<f64>>; UNKNOWNS] = [const { None }; UNKNOWNS];
    for (k, column) in columns.iter_mut().enumerate() {
        if k > 0 && prior[k] <= 0.0 {
            continue;
        }
        let (up, down, width) = beside(x, k);
        let (up, down) = (
            residuals(idle, readings, &up, prior)?,
            residuals(idle, readings, &down, prior)?,
        );
        *column = Some(up.iter().zip(&down).map(|(u, d)| (u - d) / width).collect());
    }
    Some(columns)
}

/// The unknowns with one of them a step up and a step down, and how far apart those are.
pub(super) fn beside(x: &Vector, k: usize) -> (Vector, Vector, f64) {
    let (mut up, mut down) = (*x, *x);
    up[k] += STEPS[k];
    down[k] -= STEPS[k];
    let (up, down) = (clamped(up), clamped(down));
    (up, down, up[k] - down[k])
}

/// JᵀJ; an unknown that is held fast gets a unit diagonal.
pub(super) fn normal(columns: &[Option<Vec<f64>>; UNKNOWNS]) -> [Vector; UNKNOWNS] {
    std::array::from_fn(|i| {
        std::array::from_fn(|j| match (&columns[i], &columns[j]) {
            (Some(a), Some(b)) => dot(a, b),
            _ => f64::from(u8::from(i == j)),
        })
    })
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// JᵀJ and Jᵀr.
fn normal_equations(
    idle: &Idle,
    readings: &[IdleReading],
    x: &Vector,
    prior: &Vector,
) -> Option<([Vector; UNKNOWNS], Vector)> {
    let here = residuals(idle, readings, x, prior)?;
    let columns = jacobian(idle, readings, x, prior)?;
    let gradient = std::array::from_fn(|i| columns[i].as_ref().map_or(0.0, |column| dot(column, &here)));
    Some((normal(&columns), gradient))
}

/// Solves a symmetric positive system by elimination after scaling to a unit diagonal.
#[allow(clippy::needless_range_loop)] // two rows of one matrix at once
pub(super) fn solve(normal: [Vector; UNKNOWNS], right: Vector) -> Option<Vector> {
    let scale: Vector = std::array::from_fn(|k| normal[k][k].sqrt());
    if scale.iter().any(|s| s.is_nan() || *s <= 0.0) {
        return None;
    }
    let mut a: [Vector; UNKNOWNS] =
        std::array::from_fn(|i| std::array::from_fn(|j| normal[i][j] / (scale[i] * scale[j])));
    let mut b: Vector = std::array::from_fn(|i| right[i] / scale[i]);
    for k in 0..UNKNOWNS {
        if a[k][k] < 1e-12 {
            return None;
        }
        for i in k + 1..UNKNOWNS {
            let factor = a[i][k] / a[k][k];
            for j in k..UNKNOWNS {
                a[i][j] -= factor * a[k][j];
            }
            b[i] -= factor * b[k];
        }
    }
    for k in (0..UNKNOWNS).rev() {
        let known: f64 = (k + 1..UNKNOWNS).map(|j| a[k][j] * b[j]).sum();
        b[k] = (b[k] - known) / a[k][k];
    }
    Some(std::array::from_fn(|k| b[k] / scale[k]))
}

fn found(start: &Idle, readings: &[IdleReading], x: Vector, sigma: Vector, prior: &Vector) -> IdleFit {
    // A gap that came without a range is told when it is known to a third of itself.
    let assumed = |k: usize| if prior[k] > 0.0 { prior[k] } else { x[k] / 2.0 };
    let told = |k: usize| {
        if sigma[k] < 0.7 * assumed(k) {
            Told::Yes
        } else {
            Told::No
        }
    };
    let wide = |k: usize| if prior[k] > 0.0 { 2.0 * sigma[k] } else { 0.0 };
    let ratio = |k: usize| Measured::new(Ratio::from_si(x[k]), Ratio::from_si(wide(k)), Origin::Computed);
    let mut idle = *start;
    idle.gaps.face = Measured::new(Length::from_si(x[0]), Length::from_si(2.0 * sigma[0]), Origin::Computed);
    if let SteelKind::Unknown(position) = &mut idle.steel.kind {
        *position = ratio(1);
    }
    idle.steel.field_factor = ratio(2);
    idle.steel.loss_factor = ratio(3);
    let (turns, stack) = (start.turns.value, start.core.stack.value);
    idle.turns = Measured::new(turns * x[4], turns * wide(4), Origin::Computed);
    idle.core.stack = Measured::new(stack * x[5], stack * wide(5), Origin::Computed);
    let misfit = residuals(start, readings, &x, prior).map_or(f64::NAN, |r| {
        (r.iter().map(|v| v * v).sum::<f64>() / r.len() as f64).sqrt()
    });
    IdleFit {
        face_gap: Estimate {
            value: Length::from_si(x[0]),
            plus_minus: Length::from_si(2.0 * sigma[0]),
        },
        gap_told: told(0),
        steel_position: Estimate {
            value: Ratio::from_si(x[1]),
            plus_minus: Ratio::from_si(wide(1)),
        },
        steel_told: told(1),
        idle,
        misfit,
        at: x,
    }
}
