//! The bench explored whole, tried at random, and read back from forgeries.

mod explored;
mod lived;

use super::state::Situation;
use super::*;
use crate::quantity::{Current, Ratio, Resistance, Temperature, TemperatureRise, Voltage};
use crate::safety::{Gate, Item, Moment};
use crate::wire::Metal;

const NOON: Moment = Moment {
    unix_ms: 5_000_000_000,
    local_day: 20_100,
};

fn amount(stage: Stage, si: f64) -> Amount {
    match stage {
        Stage::RatioPolarity => Amount::Ratio(Ratio::from_si(si)),
        Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit => Amount::Current(Current::from_si(si)),
        Stage::Loaded => Amount::Voltage(Voltage::from_si(si)),
        Stage::TemperatureRise => Amount::Rise(TemperatureRise::from_si(si)),
        _ => Amount::Resistance(Resistance::from_si(si)),
    }
}

fn prediction(stage: Stage, of: u8, low: f64, value: f64, high: f64) -> Prediction {
    let [low, value, high] = [low, value, high].map(|si| amount(stage, si));
    Prediction {
        stage,
        of,
        value,
        low,
        high,
    }
}

fn full() -> Vec<Prediction> {
    vec![
        prediction(Stage::Continuity, 0, 1.8, 2.0, 2.2),
        prediction(Stage::Continuity, 1, 0.009, 0.010, 0.011),
        prediction(Stage::Insulation, 0, 2e6, 1e8, f64::INFINITY),
        prediction(Stage::RatioPolarity, 1, 0.049, 0.05, 0.051),
        prediction(Stage::LampIdle, 0, 0.05, 0.1, 0.2),
        prediction(Stage::MainsIdle, 0, 0.5, 1.0, 2.0),
        prediction(Stage::ShortCircuit, 1, 300.0, 400.0, 500.0),
        prediction(Stage::TemperatureRise, 1, 20.0, 60.0, 80.0),
    ]
}

fn cold(ohms: f64) -> Reading {
    Reading::Winding {
        resistance: Resistance::from_si(ohms),
        at: Temperature::from_si(20.0),
        metal: Metal::Copper,
    }
}

/// A reading of a stage: inside its band, or `factor` times what was predicted.
fn reading(of: &Prediction, factor: f64) -> Reading {
    let si = of.value.si() * factor;
    match of.stage {
        Stage::Continuity => cold(si),
        Stage::Insulation => Reading::Insulation(Resistance::from_si(si)),
        Stage::RatioPolarity => Reading::Ratio(Ratio::from_si(si)),
        Stage::Impedance | Stage::RatedCurrent => Reading::Impedance {
            volts: Voltage::from_si(si),
            amps: Current::from_si(1.0),
        },
        Stage::Loaded => Reading::Voltage(Voltage::from_si(si)),
        Stage::TemperatureRise => Reading::Warm(WarmRun {
            cold: Resistance::from_si(1.0),
            cold_at: Temperature::from_si(20.0),
            hot: Resistance::from_si(1.0 + si / 254.5),
            air: Temperature::from_si(20.0),
            current: Current::from_si(5.0),
            metal: Metal::Copper,
        }),
        _ => Reading::Current(Current::from_si(si)),
    }
}

pub(super) fn events(plan: &Plan) -> Vec<Event> {
    let mut events = vec![
        Event::Again,
        Event::Brought,
        Event::Finish,
        Event::Reopened {
            fixed: Some(Cause::ShortedTurn),
        },
        Event::CouldNot { item: Item::SeamHeld },
        Event::Explain {
            of: 0,
            cause: Cause::MeterLeads,
        },
        Event::Explain {
            of: 0,
            cause: Cause::ShortedTurn,
        },
        Event::Explain {
            of: 1,
            cause: Cause::ThinLeads,
        },
    ];
    for prediction in plan.predictions() {
        for factor in [1.0, 0.01] {
            events.push(Event::Read {
                of: prediction.of,
                reading: reading(prediction, factor),
            });
        }
    }
    for &stage in Stage::ALL {
        events.extend([
            Event::Go(stage),
            Event::Renew { toward: stage },
            Event::Doubt { toward: stage },
        ]);
        for gate in stage.gates_under(plan.load()) {
            events.extend(gate.items().iter().map(|&item| Event::Confirm { toward: stage, item }));
        }
    }
    events
}

/// What must hold wherever the person is: the stage's gates, and every earlier reading inside its
/// band or explained. On mains also that the old winding is out, said apart.
fn is_allowed(situation: &Situation, plan: &Plan, stage: Stage, now: Moment) -> bool {
    guarded(situation, plan, stage, |gate| {
        situation.passes.held(gate, stage.place(), now)
    })
}

/// What must hold to begin a stage: the same, with each gate confirmed for this stretch of work.
fn is_open(situation: &Situation, plan: &Plan, stage: Stage, now: Moment) -> bool {
    guarded(situation, plan, stage, |gate| {
        situation.passes.passed(gate, stage.place(), now).is_some()
    })
}

fn guarded(situation: &Situation, plan: &Plan, stage: Stage, held: impl Fn(Gate) -> bool) -> bool {
    let gates = stage
        .hazards_under(plan.load())
        .iter()
        .all(|hazard| held(hazard.gate()));
    let built = !stage.takes_readings() || (held(Gate::OldWindingOut) && held(Gate::Reassembly));
    let tested = plan.predictions().iter().filter(|p| p.stage < stage).all(|p| {
        let status = situation.outcomes.get(&(p.stage, p.of)).map(|outcome| outcome.status);
        matches!(status, Some(Status::InBand | Status::Explained(..)))
    });
    gates && built && tested
}

/// A core tested from start to end in one day, every reading in its band.
pub(super) fn whole() -> Bench {
    let plan = Plan::new(full()).unwrap();
    let mut state = Bench::start(plan.clone());
    let mut at = NOON;
    let happen = |state: &mut Bench, at: &mut Moment, event| {
        at.unix_ms += 1000;
        *state = advance(state, Entry { at: *at, event }).unwrap_or_else(|e| panic!("{event:?}: {e}"));
    };
    loop {
        let here = state.stage(at);
        for prediction in plan.of_stage(here) {
            happen(
                &mut state,
                &mut at,
                Event::Read {
                    of: prediction.of,
                    reading: reading(prediction, 1.0),
                },
            );
        }
        let Some(toward) = here.next(&plan) else { break };
        if !state.repeated(toward, at).is_empty() {
            happen(&mut state, &mut at, Event::Renew { toward });
        }
        while let Some(gate) = state.gate_before(toward, at) {
            for &item in gate.items() {
                happen(&mut state, &mut at, Event::Confirm { toward, item });
            }
        }
        happen(&mut state, &mut at, Event::Go(toward));
    }
    happen(&mut state, &mut at, Event::Finish);
    state
}
