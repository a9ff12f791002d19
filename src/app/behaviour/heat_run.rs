//! The load on a job's machine, as its heating takes it.

use super::coil;
use crate::app::basis::{Basis, Design};
pub use crate::app::translate::class_of;
use crate::job::JobFile;
use crate::magnetics::heat::duty::DutyQuestion;
use crate::magnetics::heat::network::{Heating, Temperatures, ThermalInputs};
use crate::magnetics::idle::IdleDrawEstimate;
use crate::quantity::{Estimate, Input, Measured, Origin, Quantity, Ratio, Time, UncertainInputs, Visitor};
pub(super) use crate::rewind::heat::cycle;
use crate::rewind::heat::{question, thermal_inputs};

/// Temperatures against time.
pub type History = Vec<(Time, Temperatures)>;

/// A load on a job's machine, with what of it is uncertain enough to matter: surfaces, contacts,
/// room, hot spot, the windings' resistances, the load's current and the loss in the core. The
/// core's measures together move the answers by about a tenth of these.
#[derive(Debug, Clone, Copy)]
pub(super) struct Run {
    pub(super) inputs: ThermalInputs,
    pub(super) at_best: DutyQuestion,
    pub(super) current: Measured<Ratio>,
    core_loss: Measured<Ratio>,
}

impl Run {
    /// The load, its currents and core loss as far off as they stand.
    pub(super) fn question(&self) -> DutyQuestion {
        let (current, loss) = (self.current.value.si(), self.core_loss.value.si());
        let DutyQuestion { on, pause, .. } = self.at_best;
        DutyQuestion {
            on: Heating {
                primary: on.primary * current,
                winding: on.winding * current,
                core: on.core * loss,
            },
            pause: Heating {
                core: pause.core * loss,
                ..pause
            },
            ..self.at_best
        }
    }
}

impl Run {
    /// Walks what moves the mean temperatures.
    pub(super) fn visit_mean(&mut self, visitor: &mut Visitor<'_>) {
        let inputs = &mut self.inputs;
        inputs.primary.resistance_20.visit(Input::PrimaryResistance, visitor);
        inputs.winding.resistance_20.visit(Input::WindingResistance, visitor);
        inputs.contact.visit(Input::ContactWithTheCore, visitor);
        inputs.film_scale.visit(Input::CoolingByTheAir, visitor);
        inputs.ambient.visit(Input::AirOfTheRoom, visitor);
        inputs.air_speed.visit(Input::AirSpeed, visitor);
        self.current.visit(Input::LoadCurrent, visitor);
        self.core_loss.visit(Input::CoreLoss, visitor);
    }
}

impl UncertainInputs for Run {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.visit_mean(visitor);
        self.inputs.hot_spot.visit(Input::HotSpot, visitor);
    }
}

/// One, as far off as a number is off its value.
fn as_factor<Q: Quantity>(estimate: Estimate<Q>) -> Measured<Ratio> {
    let (value, half) = (estimate.value.si(), estimate.plus_minus.si());
    let relative = if value > 0.0 { half / value } else { 0.0 };
    Measured::new(Ratio::from_si(1.0), Ratio::from_si(relative), Origin::Computed)
}

/// What heats it at the goal's current, and in the pause, as the search judged it.
pub(super) fn run(file: &JobFile, answer: &Basis, design: &Design) -> Option<Run> {
    let rebuild = &answer.problem.rebuild;
    let estimate = &design.estimate;
    let conditions = &answer.problem.heat;
    let conductor = &design.candidate.winding.conductor;
    let winding = estimate.cold_resistance;
    let resistance = Measured::new(winding.value, winding.plus_minus, Origin::Computed);
    let inputs = thermal_inputs(
        rebuild,
        (&coil(answer, design), conductor.metal, resistance),
        conditions,
    );
    let draw = IdleDrawEstimate::from_propagated(&super::idle::draw(file, answer)?);
    let currents = (
        estimate.mains_current.value / rebuild.cores(),
        estimate.winding_current.value,
        estimate.ac_factor.value,
    );
    let at_best = question(
        answer.goal.as_ref()?,
        currents,
        rebuild.idle_current.value,
        (conditions, conductor),
    );
    Some(Run {
        inputs,
        at_best,
        current: as_factor(estimate.winding_current),
        core_loss: as_factor(draw.core_loss),
    })
}
