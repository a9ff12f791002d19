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
pub mod shim_stack;
pub mod shunts;
#[cfg(test)]
mod spread;

use super::basis::{Basis, Design};
use super::problem::Problem;
use crate::magnetics::circuit::performance::Prepared;
use crate::magnetics::idle::Idle;
use crate::magnetics::winding::Coil;
use crate::quantity::{Measured, Resistance, Temperature};

/// The core as the person's idle test found it, where the model explains that test.
pub(super) fn found_by_test(problem: &Problem) -> Option<&Idle> {
    let test = problem.idle_test.as_ref()?.as_ref().ok()?;
    test.carried().map(|_| &test.fit.idle)
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
