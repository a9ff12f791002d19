//! The heat of a winding at the duty that its use asks: the full model, as the search judges by it and
//! as the job's own topic of heat tells it.

use super::goal::Goal;
use super::handwork::class_of;
use crate::magnetics::circuit::performance::{Performance, Rebuild};
use crate::magnetics::heat::Cycle;
use crate::magnetics::heat::duty::{DutyQuestion, Insulation, WELDING_CYCLE};
use crate::magnetics::heat::network::{Heating, Temperatures, ThermalInputs, WindingHeat};
use crate::magnetics::heat::thermal_class::ThermalClass;
use crate::magnetics::winding::Coil;
use crate::quantity::{
    Current, Length, Mass, Measured, Origin, Power, Ratio, Resistance, Temperature, TemperatureRise, Time, Velocity,
};
use crate::wire::{Conductor, Metal};

/// What the heat of a part depends on besides its core and its windings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatConditions {
    /// Air of the room; the usual one where nobody said.
    pub ambient: Option<Measured<Temperature>>,
    /// Speed of a fan's air; none without one.
    pub air_speed: Option<Measured<Velocity>>,
    /// Class of the insulation of both windings.
    pub class: ThermalClass,
    /// Loss in the core while it is energised.
    pub core_loss: Power,
}

impl Default for HeatConditions {
    /// A usual room, no fan, class A, and no loss in the core.
    fn default() -> Self {
        Self {
            ambient: None,
            air_speed: None,
            class: ThermalClass::A,
            core_loss: Power::ZERO,
        }
    }
}

/// The primary's resistance with its half-width, at a temperature.
#[must_use]
pub fn primary_resistance(rebuild: &Rebuild, at: Temperature) -> Measured<Resistance> {
    let primary = &rebuild.primary;
    let mean_turn = rebuild.core.turn_length(primary.build.value / 2.0);
    let value = primary.resistance_at(mean_turn, at);
    let relative = match &primary.resistance {
        Some((measured, _)) => measured.plus_minus.si() / measured.value.si(),
        None => {
            let turns = primary.turns.plus_minus.si() / primary.turns.value.si();
            // The section goes as the square of the diameter.
            turns.hypot(2.0 * primary.wire_diameter.plus_minus.si() / primary.wire_diameter.value.si())
        }
    };
    Measured::new(value, value * relative, Origin::Computed)
}

/// The part as the heat model takes it: `coil` wound of `metal` with a resistance at 20 °C.
#[must_use]
pub fn thermal_inputs(
    rebuild: &Rebuild,
    (coil, metal, resistance_20): (&Coil, Metal, Measured<Resistance>),
    conditions: &HeatConditions,
) -> ThermalInputs {
    let core = rebuild.core;
    let primary_turn = core.turn_length(rebuild.primary.build.value / 2.0);
    let computed = |value: Length| Measured::exact(value, Origin::Computed);
    let mut inputs = ThermalInputs::typical(
        core,
        WindingHeat {
            metal: rebuild.primary.metal,
            mass: Measured::exact(rebuild.primary.mass(primary_turn), Origin::Computed),
            resistance_20: primary_resistance(rebuild, Temperature::from_si(20.0)),
            length: rebuild.primary.height,
            build: rebuild.primary.build,
        },
        WindingHeat {
            metal,
            mass: Measured::exact(coil.mass.max(Mass::from_si(1e-3)), Origin::Computed),
            resistance_20,
            length: computed(coil.breadth),
            build: computed(coil.build),
        },
    );
    if let Some(ambient) = conditions.ambient {
        inputs.ambient = ambient;
    }
    if let Some(air_speed) = conditions.air_speed {
        inputs.air_speed = air_speed;
    }
    inputs
}

/// What heats the part: a spot welder is switched on its mains side for each pulse and has no pause on
/// the mains; the others idle. `mains` and `winding` are the currents under load, `skin` the winding's
/// resistance to alternating over direct current.
#[must_use]
pub fn question(
    goal: &Goal,
    (mains, winding, skin): (Current, Current, Ratio),
    idle: Current,
    (conditions, conductor): (&HeatConditions, &Conductor),
) -> DutyQuestion {
    let core = conditions.core_loss;
    DutyQuestion {
        on: Heating {
            primary: mains,
            // Skin effect heats like a larger current.
            winding: winding * skin.si().max(1.0).sqrt(),
            core,
        },
        pause: match goal {
            Goal::SpotWelder { .. } => Heating::NONE,
            _ => Heating {
                primary: idle,
                winding: Current::ZERO,
                core,
            },
        },
        insulation: Insulation {
            primary: conditions.class,
            winding: class_of(conductor, conditions.class),
        },
        cool: TemperatureRise::from_si(10.0),
    }
}

/// Load, then pause, as the goal has them; a spot welder's pulses are averaged over a minute.
#[must_use]
pub fn cycle(goal: &Goal, question: &DutyQuestion) -> (Ratio, Cycle) {
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

/// Margins of the hottest spots of primary and new winding to the limits of their insulation, at the end of
/// a load, with the goal's cycle repeated without end; negative above the limit. `None` for a thermal
/// runaway.
#[must_use]
pub fn margins(
    rebuild: &Rebuild,
    goal: &Goal,
    (coil, conductor): (&Coil, &Conductor),
    performance: &Performance,
    conditions: &HeatConditions,
) -> Option<[TemperatureRise; 2]> {
    let cold = Measured::exact(performance.cold_resistance, Origin::Computed);
    let inputs = thermal_inputs(rebuild, (coil, conductor.metal, cold), conditions);
    let currents = (
        performance.mains_current / rebuild.cores(),
        performance.winding_current,
        performance.ac_factor,
    );
    let question = question(goal, currents, rebuild.idle_current.value, (conditions, conductor));
    let hottest: Temperatures = match goal {
        Goal::SpotWelder { pulse, .. } => {
            let duty = goal.requirements().demand.duty.si();
            inputs.pulsed(&question, (*pulse, duty), coil.section, None)?
        }
        _ => {
            let (duty, cycle) = cycle(goal, &question);
            inputs.network().repeated_peak(&question, duty, cycle.period)?
        }
    };
    let zero = TemperatureRise::ZERO;
    Some(inputs.excesses(hottest, question.insulation).map(|over| zero - over))
}
