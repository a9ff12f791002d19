//! The load on a job's machine, as its heating takes it.

use super::{coil, primary_resistance};
use crate::app::basis::{Basis, Design};
use crate::job::{InsulationClass, JobFile};
use crate::magnetics::heat::Cycle;
use crate::magnetics::heat::duty::{DutyQuestion, Insulation, WELDING_CYCLE};
use crate::magnetics::heat::network::{Heating, Temperatures, ThermalInputs, WindingHeat};
use crate::magnetics::heat::thermal_class::ThermalClass;
use crate::magnetics::idle::IdleDrawEstimate;
use crate::quantity::{
    Current, Estimate, Input, Length, Mass, Measured, Origin, Quantity, Ratio, Temperature, TemperatureRise, Time,
    UncertainInputs, Velocity, Visitor,
};
use crate::rewind::goal::Goal;

/// Temperatures against time.
pub type History = Vec<(Time, Temperatures)>;

/// The class that the person named, else A, 105 °C: what paper and most unknown donors withstand.
/// Common practice, no source.
#[must_use]
pub fn class_of(class: Option<InsulationClass>) -> ThermalClass {
    match class.unwrap_or(InsulationClass::A) {
        InsulationClass::A => ThermalClass::A,
        InsulationClass::E => ThermalClass::E,
        InsulationClass::B => ThermalClass::B,
        InsulationClass::F => ThermalClass::F,
        InsulationClass::H => ThermalClass::H,
    }
}

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

fn inputs(file: &JobFile, answer: &Basis, design: &Design) -> ThermalInputs {
    let rebuild = &answer.problem.rebuild;
    let core = rebuild.core;
    let cold = Temperature::from_si(20.0);
    let primary_turn = core.turn_length(rebuild.primary.build.value / 2.0);
    let wound = coil(answer, design);
    let computed = |value: Length| Measured::exact(value, Origin::Computed);
    let winding = design.estimate.cold_resistance;
    let mut inputs = ThermalInputs::typical(
        core,
        WindingHeat {
            metal: rebuild.primary.metal,
            mass: Measured::exact(rebuild.primary.mass(primary_turn), Origin::Computed),
            resistance_20: primary_resistance(answer, cold),
            length: rebuild.primary.height,
            build: rebuild.primary.build,
        },
        WindingHeat {
            metal: design.candidate.winding.conductor.metal,
            mass: Measured::exact(wound.mass.max(Mass::from_si(1e-3)), Origin::Computed),
            resistance_20: Measured::new(winding.value, winding.plus_minus, Origin::Computed),
            length: computed(wound.breadth),
            build: computed(wound.build),
        },
    );
    let conditions = &file.conditions;
    if let Some(ambient) = conditions.ambient_c {
        inputs.ambient = ambient.measured(Temperature::from_si);
    }
    if let Some(fan) = conditions.fan_m_per_s {
        inputs.air_speed = fan.measured(Velocity::from_si);
    }
    inputs
}

/// What heats it at the goal's current, and in the pause: a spot welder is switched on its mains
/// side for each pulse and has none; the others idle on the mains.
pub(super) fn run(file: &JobFile, answer: &Basis, design: &Design) -> Option<Run> {
    let rebuild = &answer.problem.rebuild;
    let estimate = &design.estimate;
    let inputs = inputs(file, answer, design);
    let draw = IdleDrawEstimate::from_propagated(&super::idle::draw(file, answer)?);
    let loss = draw.core_loss.value;
    let class = class_of(file.conditions.insulation);
    let skin = estimate.ac_factor.value.si().max(1.0).sqrt();
    let at_best = DutyQuestion {
        on: Heating {
            primary: estimate.mains_current.value,
            // Skin effect heats like a larger current.
            winding: estimate.working_current.value * skin,
            core: loss,
        },
        pause: match answer.goal {
            Some(Goal::SpotWelder { .. }) => Heating::NONE,
            _ => Heating {
                primary: rebuild.idle_current.value,
                winding: Current::ZERO,
                core: loss,
            },
        },
        insulation: Insulation {
            primary: class,
            winding: class,
        },
        cool: inputs.ambient.value + TemperatureRise::from_si(10.0),
    };
    Some(Run {
        inputs,
        at_best,
        current: as_factor(estimate.working_current),
        core_loss: as_factor(draw.core_loss),
    })
}

/// Load, then pause, as the goal has them; a spot welder's pulses are averaged over a minute.
pub(super) fn cycle(goal: &Goal, question: &DutyQuestion) -> (Ratio, Cycle) {
    let requirements = goal.requirements();
    let duty = requirements.demand.duty;
    let (on, on_time, period) = match goal {
        Goal::SpotWelder { .. } => (
            question.on.averaged(duty, &question.pause),
            Time::from_minutes(10.0),
            Time::from_minutes(10.0),
        ),
        Goal::ArcFurnace { stretch, .. } => (question.on, *stretch, *stretch / duty.si().max(0.01)),
        _ => (question.on, WELDING_CYCLE * duty.si(), WELDING_CYCLE),
    };
    (
        duty,
        Cycle {
            on,
            pause: question.pause,
            on_time,
            period,
        },
    )
}
