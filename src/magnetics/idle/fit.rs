//! What measured no-load current and watts tell about a core: its gaps and its steel.

use crate::magnetics::core::steel::SteelKind;
use crate::magnetics::idle::Idle;
use crate::magnetics::idle::rows::{Columns, Rows, UNKNOWNS, Vector, clamped, dot, follow, gradient, normal, solve};
use crate::quantity::{Current, Estimate, Length, Measured, Origin, Power, Ratio, Voltage};
use crate::words::{Explain, Message};

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
pub enum Determined {
    /// The range is less than 0.7 of the one assumed.
    Yes,
    /// It is not: any value of the assumed range explains the readings about as well.
    No,
}

/// Gap and steel that explain an idle test.
#[derive(Debug, Clone, PartialEq)]
pub struct IdleFit {
    /// Gap at each of the three faces, beside any shim.
    pub face_gap: Estimate<Length>,
    /// Whether the readings tell the gap.
    pub gap_determined: Determined,
    /// Position in the band of steels, where the steel is unknown (else 0 ± 0).
    pub steel_position: Estimate<Ratio>,
    /// Whether the readings tell the steel.
    pub steel_determined: Determined,
    /// The core with what was found put in, with the ranges found; its stack stands for the
    /// whole net area.
    pub idle: Idle,
    /// Root mean square of the residuals in standard uncertainties; well above 2, the model
    /// doesn't fit (shorted turns, a wrong turns count, an unclosed core).
    pub misfit: f64,
    pub(super) at: Vector,
    pub(super) columns: Columns,
}

/// Why an idle test can't be read.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum IdleFitError {
    /// One voltage can't tell gap from steel.
    #[error("{0} reading(s) given; take the no-load current at two or more voltages, about 20 % apart")]
    TooFewReadings(usize),
    /// A reading is zero, negative, not a number or has no uncertainty.
    #[error("reading {0} is not usable; voltage, current, watts and their ± must all be above zero")]
    UnusableReading(usize),
    /// The model has no answer for this core.
    #[error(
        "the core's measures give no no-load current; check that every length, the turns and the voltage are above zero"
    )]
    NoModel,
}

impl Explain for IdleFitError {
    fn message(&self) -> Message {
        match self {
            IdleFitError::TooFewReadings(_) => Message::new("refused-fit-few"),
            IdleFitError::UnusableReading(at) => Message::new("refused-fit-reading").with("at", at),
            IdleFitError::NoModel => Message::new("refused-fit-none"),
        }
    }
}

impl IdleFitError {
    /// The word that files use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            IdleFitError::TooFewReadings(_) => "too_few_readings",
            IdleFitError::UnusableReading(_) => "unusable_reading",
            IdleFitError::NoModel => "no_model",
        }
    }
}

/// Fits face gap, steel position, the sample's field and loss factors, turns, net area and the
/// voltmeter's gain to an idle test.
///
/// Least squares by Gauss–Newton with a halved step where it would climb, the derivatives carried
/// along by Broyden's rule and taken anew before the end; every unknown starts
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
    let rows = Rows::new(idle, readings);
    let mut at = rows.begun;
    let mut here = rows.residuals(&at).ok_or(IdleFitError::NoModel)?;
    let mut columns = rows.columns(&at).ok_or(IdleFitError::NoModel)?;
    let mut fresh = true;
    for _ in 0..60 {
        let cost = dot(&here, &here);
        let lower = step(&columns, &at, &here).and_then(|step| lower(&rows, &at, step, cost));
        let gain = match lower {
            Some((trial, there)) => {
                let gain = cost - dot(&there, &there);
                let step = std::array::from_fn(|k| trial[k] - at[k]);
                let change: Vec<f64> = there.iter().zip(&here).map(|(t, h)| t - h).collect();
                if !fresh || gain >= SETTLED * (1.0 + cost) {
                    follow(&mut columns, &step, &change);
                }
                (at, here) = (trial, there);
                gain
            }
            None => 0.0,
        };
        let settled = gain < SETTLED * (1.0 + cost);
        if settled && fresh {
            break;
        }
        fresh = settled;
        if settled {
            columns = rows.columns(&at).ok_or(IdleFitError::NoModel)?;
        }
    }
    let matrix = normal(&columns);
    let sigma: Vector = std::array::from_fn(|k| {
        let unit = std::array::from_fn(|j| if j == k { 1.0 } else { 0.0 });
        solve(&matrix, unit).map_or(f64::INFINITY, |column| column[k].max(0.0).sqrt())
    });
    let misfit = (dot(&here, &here) / here.len() as f64).sqrt();
    Ok(found(idle, &rows, (at, columns), sigma, misfit))
}

/// The sum of squares has settled where a step lowers it by less than this part.
const SETTLED: f64 = 1e-5;

/// The step of Gauss and Newton; an unknown that stands at its bound and would go beyond it stays.
fn step(columns: &Columns, at: &Vector, residuals: &[f64]) -> Option<Vector> {
    let (mut matrix, mut right) = (normal(columns), gradient(columns, residuals));
    // Each round holds one more unknown; after as many rounds as there are none is left to hold.
    for _ in 0..=UNKNOWNS {
        let step = solve(&matrix, right)?;
        // A hair's breadth along: what clamping brings back is at its bound.
        let along: Vector = std::array::from_fn(|k| at[k] - 1e-9 * step[k]);
        let back = clamped(along);
        let Some(held) = (0..UNKNOWNS).find(|k| back[*k] != along[*k]) else {
            return Some(step);
        };
        for row in &mut matrix {
            row[held] = 0.0;
        }
        matrix[held] = [0.0; UNKNOWNS];
        (matrix[held][held], right[held]) = (1.0, 0.0);
    }
    None
}

/// The first point on the way of a step, halved until it is so, that lies lower; with its residuals.
fn lower(rows: &Rows, at: &Vector, step: Vector, cost: f64) -> Option<(Vector, Vec<f64>)> {
    let mut scale = 1.0;
    while scale > 1e-4 {
        let trial = clamped(std::array::from_fn(|k| at[k] - scale * step[k]));
        if let Some(there) = rows.residuals(&trial).filter(|there| dot(there, there) < cost) {
            return Some((trial, there));
        }
        scale *= 0.5;
    }
    None
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

fn found(start: &Idle, rows: &Rows, (x, columns): (Vector, Columns), sigma: Vector, misfit: f64) -> IdleFit {
    let prior = &rows.prior;
    // A gap that came without a range is told when it is known to a third of itself.
    let assumed = |k: usize| if prior[k] > 0.0 { prior[k] } else { x[k] / 2.0 };
    let told = |k: usize| {
        if sigma[k] < 0.7 * assumed(k) {
            Determined::Yes
        } else {
            Determined::No
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
    IdleFit {
        face_gap: Estimate {
            value: Length::from_si(x[0]),
            plus_minus: Length::from_si(2.0 * sigma[0]),
        },
        gap_determined: told(0),
        steel_position: Estimate {
            value: Ratio::from_si(x[1]),
            plus_minus: Ratio::from_si(wide(1)),
        },
        steel_determined: told(1),
        idle,
        misfit,
        at: x,
        columns,
    }
}
