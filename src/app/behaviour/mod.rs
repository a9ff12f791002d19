//! What a rebuilt core really does: at its knee, with gaps, with shunts, warm, behind diodes, as a
//! choke, beside a second one. One question each; a screen asks only for what is open on it.

pub mod direct_current;
pub mod heat;
mod heat_band;
mod heat_run;
pub mod idle;
pub mod inductor;
pub mod inrush;
pub mod pairs;
pub mod shunts;

use super::basis::{Basis, Design};
use crate::magnetics::circuit::ShellCircuit;
use crate::magnetics::circuit::performance::Prepared;
use crate::magnetics::idle::Idle;
use crate::magnetics::winding::Coil;
use crate::quantity::{Estimate, Measured, Propagated, Quantity, Resistance, Temperature, VarianceShare};

/// One number of an answer, as screens, page and file show it.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// Its name in a file, unit left out.
    pub name: &'static str,
    /// The id of its text.
    pub text: &'static str,
    /// Value and half-width (k = 2) in the SI unit.
    pub si: (f64, f64),
    /// The SI unit's symbol.
    pub si_unit: &'static str,
    /// What a person reads counts in this many of the SI unit ...
    pub shown_in: f64,
    /// ... with this symbol.
    pub unit: &'static str,
    /// What widens it, most first.
    pub variance_shares: Vec<VarianceShare>,
}

/// Which field of an answer is shown: its name, the id of its text, and what it is counted in.
pub(super) type Row = (&'static str, &'static str, f64, &'static str);

/// The core as the person's idle test found it, where the model explains that test.
pub(super) fn found_by_test(answer: &Basis) -> Option<&Idle> {
    let test = answer.problem.idle_test.as_ref()?.as_ref().ok()?;
    test.carried().map(|_| &test.fit.idle)
}

/// The numbers of propagated answers that `rows` ask for, in their order.
pub(super) fn numbers<const M: usize>(
    fields: &'static [&'static str],
    units: &'static [&'static str],
    answers: &Propagated<M>,
    rows: &[Row],
) -> Vec<Number> {
    debug_assert!(rows.iter().all(|row| fields.contains(&row.0)), "{rows:?} of {fields:?}");
    rows.iter()
        .filter_map(|&(field, text, shown_in, unit)| {
            let index = fields.iter().position(|name| *name == field)?;
            Some(Number {
                name: fields[index],
                text,
                si: (*answers.value.get(index)?, 2.0 * answers.sigma.get(index)?),
                si_unit: units[index],
                shown_in,
                unit,
                variance_shares: crate::quantity::widening_inputs(answers, index),
            })
        })
        .collect()
}

/// A single number that was not propagated with others.
pub(super) fn single<Q: Quantity>(row: Row, estimate: Estimate<Q>) -> Number {
    let (name, text, shown_in, unit) = row;
    Number {
        name,
        text,
        si: (estimate.value.si(), estimate.plus_minus.si()),
        si_unit: Q::UNIT,
        shown_in,
        unit,
        variance_shares: Vec::new(),
    }
}

/// A number without a range: a count or a limit.
pub(super) fn exact<Q: Quantity>(row: Row, value: Q) -> Number {
    single(
        row,
        Estimate {
            value,
            plus_minus: Q::from_si(0.0),
        },
    )
}

/// The chosen winding wound on its core, leads included.
pub(super) fn coil(answer: &Basis, design: &Design) -> Coil {
    let rebuild = &answer.problem.rebuild;
    let space = Prepared::new(rebuild).space;
    Coil::wind(
        &rebuild.core,
        &space,
        &design.candidate.winding,
        &design.candidate.layers,
        rebuild.insulation.interlayer,
        rebuild.leads.value,
    )
}

/// The primary's resistance with its half-width, at a temperature.
pub(super) fn primary_resistance(answer: &Basis, at: Temperature) -> Measured<Resistance> {
    crate::rewind::heat::primary_resistance(&answer.problem.rebuild, at)
}

/// A curve of the output: amperes and volts from no load to the short circuit.
pub type OutputCurve = Vec<(crate::quantity::Current, crate::quantity::Voltage)>;

pub(super) fn output_curve(circuit: &ShellCircuit<'_>) -> OutputCurve {
    circuit.curve(17).iter().map(|p| (p.current, p.voltage)).collect()
}
