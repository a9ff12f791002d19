//! How hot, how long, how often.

use super::{Number, Row, coil, exact, numbers, primary_resistance};
use crate::app::answer::{Answer, Design};
use crate::job::{InsulationClass, JobFile};
use crate::magnetics::duty::{DutyAnswer, DutyQuestion, Insulation, NEVER, WELDING_CYCLE, current_at_duty};
use crate::magnetics::heat::{Cycle, RUNAWAY};
use crate::magnetics::heat_network::{Heating, Temperatures, ThermalInputs, WindingHeat};
use crate::magnetics::short_time::adiabatic_temperature;
use crate::magnetics::thermal_class::ThermalClass;
use crate::quantity::{
    Current, Estimate, Length, Mass, Measured, Origin, Ratio, Temperature, TemperatureRise, Time, UncertainInputs,
    Velocity, first_order,
};
use crate::rewind::goal::Goal;

const ROWS: &[Row] = &[
    ("time_to_limit", "ui-time-to-limit", 60.0, "min"),
    ("permitted_duty", "ui-permitted-duty", 0.01, "%"),
    ("winding_steady", "ui-winding-steady", 1.0, "°C"),
    ("primary_steady", "ui-primary-steady", 1.0, "°C"),
    ("core_steady", "ui-core-steady", 1.0, "°C"),
    ("cooling_time", "ui-cooling-time", 60.0, "min"),
];

/// Temperatures against time.
pub type History = Vec<(Time, Temperatures)>;

/// How the job's machine warms.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatAnswer {
    /// Its numbers at the goal's current, without a pause.
    pub numbers: Vec<Number>,
    /// True where the load may stay on for ever.
    pub never_hot: bool,
    /// True where it would burn out if the load stayed on: there is no steady temperature.
    pub burns_out: bool,
    /// Where the doubt reaches from some minutes to never: the time at the low end of the cooling.
    pub time_at_least: Option<Time>,
    /// True where even the idle transformer passes its limit.
    pub hot_idle: bool,
    /// Numbers of the goal's own cycle: duty wanted, welds a minute, temperature after a pulse.
    pub cycle: Vec<Number>,
    /// True where the wanted duty is above the low end of the permitted one.
    pub duty_in_doubt: bool,
    /// An hour of the goal's cycle from cold.
    pub history: History,
    /// What the hottest spots may reach.
    pub limit: Temperature,
}

/// The class that the person named, else A, 105 °C: what paper and most unknown donors bear.
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

/// What of [`ThermalInputs`] is uncertain enough to matter: surfaces, contacts, room, hot spot and
/// the windings' resistances. The core's measures move the answers by less than a tenth of these.
#[derive(Clone)]
struct Uncertain(ThermalInputs);

impl UncertainInputs for Uncertain {
    fn visit(&mut self, visitor: &mut dyn FnMut(&'static str, &mut f64, f64)) {
        let inputs = &mut self.0;
        inputs.primary.resistance_20.visit("primary resistance", visitor);
        inputs.winding.resistance_20.visit("winding resistance", visitor);
        inputs.contact.visit("contact of coil and core", visitor);
        inputs.film_scale.visit("cooling by the air", visitor);
        inputs.ambient.visit("air of the room", visitor);
        inputs.air_speed.visit("fan", visitor);
        inputs.hot_spot.visit("hot spot", visitor);
    }
}

fn inputs(file: &JobFile, answer: &Answer, design: &Design) -> ThermalInputs {
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
fn question(file: &JobFile, answer: &Answer, design: &Design, inputs: &ThermalInputs) -> Option<DutyQuestion> {
    let rebuild = &answer.problem.rebuild;
    let loss = super::idle::idle_of(file, answer).draw()?.core_loss;
    let class = class_of(file.conditions.insulation);
    let skin = design.estimate.ac_factor.value.si().max(1.0).sqrt();
    let idle = rebuild.idle_current.value;
    Some(DutyQuestion {
        on: Heating {
            primary: Current::from_si(design.estimate.primary_current.value.si().hypot(idle.si())),
            // Skin effect heats like a larger current.
            winding: design.estimate.working_current.value * skin,
            core: loss,
        },
        pause: match answer.goal {
            Some(Goal::SpotWelder { .. }) => Heating::NONE,
            _ => Heating {
                primary: idle,
                winding: Current::ZERO,
                core: loss,
            },
        },
        insulation: Insulation {
            primary: class,
            winding: class,
        },
        cool: inputs.ambient.value + TemperatureRise::from_si(10.0),
    })
}

/// Load, then pause, as the goal has them; a spot welder's pulses are averaged over a minute.
fn cycle(goal: &Goal, question: &DutyQuestion) -> (Ratio, Cycle) {
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

/// How a job's design warms; none where its numbers give none.
#[must_use]
pub fn heat(file: &JobFile, answer: &Answer) -> Option<HeatAnswer> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let inputs = inputs(file, answer, design);
    let question = question(file, answer, design, &inputs)?;
    let propagated = first_order(&Uncertain(inputs), |Uncertain(inputs)| {
        let si = inputs.duty(&question).to_si();
        si.iter().all(|v| v.is_finite()).then_some(si)
    })?;
    let mut numbers = numbers(DutyAnswer::FIELDS, DutyAnswer::UNITS, &propagated, ROWS);
    let (duty, cycle) = cycle(goal, &question);
    let found = |name: &str| numbers.iter().find(|n| n.name == name).map_or((0.0, 0.0), |n| n.si);
    let permitted = found("permitted_duty");
    let cold = Temperatures::all(inputs.ambient.value);
    let history = inputs
        .network()
        .history(cold, &cycle, Time::from_minutes(60.0), Time::from_si(30.0))
        .into_iter()
        .map(|p| (p.time, p.temperatures))
        .collect();
    let (time, time_half) = found("time_to_limit");
    let never_hot = time >= NEVER.si();
    let burns_out = found("winding_steady").0 >= RUNAWAY.si();
    // A mean and a ± say nothing where the range ends at "never".
    let open_ended = !never_hot && time_half > time / 2.0;
    let time_at_least = open_ended.then(|| {
        let mut worse = inputs;
        worse.film_scale.value = worse.film_scale.value - worse.film_scale.plus_minus;
        worse.duty(&question).time_to_limit
    });
    numbers.retain(|n| match n.name {
        "time_to_limit" => !never_hot && !open_ended,
        "cooling_time" => n.si.0 < NEVER.si(),
        "winding_steady" | "primary_steady" | "core_steady" => !burns_out,
        _ => true,
    });
    Some(HeatAnswer {
        never_hot,
        burns_out,
        time_at_least,
        hot_idle: permitted.0 <= 0.0,
        cycle: own_cycle(goal, design, answer, &inputs, &question, duty),
        duty_in_doubt: duty.si() > permitted.0 - permitted.1,
        history,
        limit: question.insulation.winding.limit(),
        numbers,
    })
}

fn own_cycle(
    goal: &Goal,
    design: &Design,
    answer: &Answer,
    inputs: &ThermalInputs,
    question: &DutyQuestion,
    duty: Ratio,
) -> Vec<Number> {
    let mut rows = vec![
        exact(("wanted_duty", "ui-wanted-duty", 0.01, "%"), duty),
        exact(
            ("equivalent_current", "ui-equivalent-current", 1.0, "A"),
            current_at_duty(question.on.winding, duty, Ratio::from_si(1.0)),
        ),
    ];
    if let Goal::SpotWelder { pulse, .. } = goal {
        let section = coil(answer, design).section / f64::from(design.candidate.winding.turns.max(1));
        let section = section.min(
            design.candidate.winding.section(
                crate::magnetics::performance::Prepared::new(&answer.problem.rebuild)
                    .space
                    .breadth,
            ),
        );
        rows.push(exact(
            ("welds_a_minute", "ui-welds-a-minute", 1.0, ""),
            Ratio::from_si(inputs.pulses_a_minute(question, *pulse, section)),
        ));
        let after = adiabatic_temperature(
            inputs.winding.metal,
            question.on.winding / section,
            *pulse,
            inputs.ambient.value,
        );
        rows.push(exact(("after_one_pulse", "ui-after-pulse", 1.0, "°C"), after));
    }
    rows
}

/// Mean temperature rise of primary and new winding that the resistance method finds at the end of
/// a load run, at the goal's cycle for so long that it gets no warmer. Each with its half-width.
#[must_use]
pub fn rise_after_run(file: &JobFile, answer: &Answer, design: &Design) -> Option<[Estimate<TemperatureRise>; 2]> {
    let goal = answer.goal.as_ref()?;
    let inputs = inputs(file, answer, design);
    let question = question(file, answer, design, &inputs)?;
    let duty = goal.requirements().demand.duty;
    let heating = question.on.averaged(duty, &question.pause);
    let propagated = first_order(&Uncertain(inputs), |Uncertain(inputs)| {
        let t = inputs.network().steady(&heating)?;
        let rise = |at: Temperature| at.above(inputs.ambient.value).si();
        Some([rise(t.primary), rise(t.winding)])
    })?;
    let estimate = |k: usize| Estimate {
        value: TemperatureRise::from_si(propagated.value[k]),
        plus_minus: TemperatureRise::from_si(2.0 * propagated.sigma[k]),
    };
    Some([estimate(0), estimate(1)])
}
