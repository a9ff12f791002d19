//! The bench explored whole, tried at random, and read back from forgeries.

use std::collections::{HashSet, VecDeque};

use proptest::prelude::*;

use super::advance::step_on;
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
        Stage::Loaded => Reading::Voltage(Voltage::from_si(si)),
        Stage::TemperatureRise => Reading::Warm(WarmRun {
            cold: Resistance::from_si(1.0),
            cold_at: Temperature::from_si(20.0),
            hot: Resistance::from_si(1.0 + si / 254.5),
            air: Temperature::from_si(20.0),
            metal: Metal::Copper,
        }),
        _ => Reading::Current(Current::from_si(si)),
    }
}

pub(super) fn events(plan: &Plan) -> Vec<Event> {
    let mut events = vec![
        Event::Again,
        Event::Finish,
        Event::Reopened {
            mended: Some(Cause::ShortedTurn),
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
        events.push(Event::Go(stage));
        for gate in stage.gates() {
            events.extend(gate.items().iter().map(|&item| Event::Confirm { toward: stage, item }));
        }
    }
    events
}

/// What must hold wherever the person stands: the stage's gates, and every earlier reading
/// inside its band or explained. On mains also that the old winding is out, said apart.
fn is_allowed(situation: &Situation, plan: &Plan, stage: Stage, now: Moment) -> bool {
    let held = |gate: Gate| situation.passes.passed(gate, stage.place(), now).is_some();
    let gates = stage.guide().hazards.iter().all(|hazard| held(hazard.gate()));
    let built = !stage.takes_readings() || (held(Gate::OldWindingOut) && held(Gate::Reassembly));
    let tested = plan.predictions().iter().filter(|p| p.stage < stage).all(|p| {
        let status = situation.outcomes.get(&(p.stage, p.of)).map(|outcome| outcome.status);
        matches!(status, Some(Status::InBand | Status::Explained(..)))
    });
    gates && built && tested
}

/// Every state that any sequence of events can reach, on any days, with one reading a stage.
/// Another day is tried as an event of its own, as for the teardown; what outlives the day (the
/// old winding is out, the core is together) is not compared with a date.
#[test]
fn no_sequence_of_events_reaches_mains_without_gates_and_earlier_tests() {
    let mut predictions = full();
    predictions.retain(|p| p.of == 0 || p.stage == Stage::ShortCircuit);
    let plan = Plan::new(predictions).unwrap();
    let events = events(&plan);
    let tomorrow = Moment {
        local_day: NOON.local_day + 1,
        ..NOON
    };
    let (mut seen, mut reached) = (HashSet::new(), HashSet::new());
    let mut queue = VecDeque::from([Situation::start()]);
    let mut commissioned = false;
    while let Some(situation) = queue.pop_front() {
        let mut overnight = situation.clone();
        overnight.settle(&plan, tomorrow);
        let entries = events.iter().map(|&event| Entry { at: NOON, event });
        let after = entries.filter_map(|entry| step_on(&situation, &plan, entry).ok());
        for next in after.chain([overnight]) {
            let results: Vec<_> = next
                .outcomes
                .iter()
                .map(|(&of, outcome)| (of, outcome.status))
                .collect();
            if seen.insert((next.position, next.phase, results, next.passes.clone())) {
                for now in [NOON, tomorrow] {
                    assert!(is_allowed(&next, &plan, next.stage_at(&plan, now), now), "{next:?}");
                }
                assert!(is_allowed(&next, &plan, next.position, NOON), "{next:?}");
                reached.insert(next.position);
                commissioned |= next.phase == Phase::Commissioned;
                queue.push_back(next);
            }
        }
    }
    assert!(reached.contains(&Stage::ShortCircuit) && commissioned);
    println!("{} states", seen.len());
}

/// A core tested from start to end in one day, every reading in its band.
pub(super) fn whole() -> Bench {
    let plan = Plan::new(full()).unwrap();
    let mut state = Bench::start(plan.clone());
    let mut at = NOON;
    let mut happen = |state: &mut Bench, event| {
        at.unix_ms += 1000;
        *state = advance(state, Entry { at, event }).unwrap_or_else(|e| panic!("{event:?}: {e}"));
    };
    let end = Moment {
        unix_ms: NOON.unix_ms + 10_000_000,
        ..NOON
    };
    loop {
        let here = state.stage(end);
        for prediction in plan.of_stage(here) {
            happen(
                &mut state,
                Event::Read {
                    of: prediction.of,
                    reading: reading(prediction, 1.0),
                },
            );
        }
        let Some(toward) = here.next(&plan) else { break };
        while let Some(gate) = state.gate_before(toward, end) {
            for &item in gate.items() {
                happen(&mut state, Event::Confirm { toward, item });
            }
        }
        happen(&mut state, Event::Go(toward));
    }
    happen(&mut state, Event::Finish);
    state
}

#[test]
fn a_good_core_is_commissioned() {
    let state = whole();
    assert_eq!(state.phase(), Phase::Commissioned);
    assert!(
        state
            .record()
            .iter()
            .all(|l| l.outcome.is_some_and(|o| o.status == Status::InBand))
    );
    assert_eq!(Bench::replay(state.plan().clone(), state.history()), Ok(state.clone()));
    let reopened = Event::Reopened { mended: None };
    let at = Moment {
        unix_ms: NOON.unix_ms + 20_000_000,
        ..NOON
    };
    let again = advance(&state, Entry { at, event: reopened }).unwrap();
    assert_eq!(again.stage(at), Stage::Prepare);
    assert!(again.record().iter().all(|line| line.outcome.is_none()));
}

/// Stands at a stage of a good core, just after going there.
fn at_stage(stage: Stage) -> (Bench, Moment) {
    let done = whole();
    let index = done.history().iter().position(|e| e.event == Event::Go(stage)).unwrap();
    let at = done.history()[index].at;
    (
        Bench::replay(done.plan().clone(), &done.history()[..=index]).unwrap(),
        at,
    )
}

#[test]
fn a_reading_outside_its_band_blocks_until_explained_or_mended() {
    let (state, at) = at_stage(Stage::Continuity);
    let happen = |state: &Bench, event| advance(state, Entry { at, event });
    let state = happen(
        &state,
        Event::Read {
            of: 1,
            reading: cold(0.01),
        },
    )
    .unwrap();
    let state = happen(
        &state,
        Event::Read {
            of: 0,
            reading: cold(2.5),
        },
    )
    .unwrap();
    let blocked = Err(Refusal::OutsideBand { of: 0 });
    assert_eq!(happen(&state, Event::Go(Stage::Insulation)), blocked);
    let no = Event::Explain {
        of: 0,
        cause: Cause::ShortedTurn,
    };
    assert_eq!(happen(&state, no), Err(Refusal::NoExplanation));
    let explained = happen(
        &state,
        Event::Explain {
            of: 0,
            cause: Cause::MeterLeads,
        },
    )
    .unwrap();
    let next = happen(&explained, Event::Go(Stage::Insulation));
    assert!(matches!(
        next,
        Err(Refusal::GateNeeded {
            gate: Gate::InsulationTester,
            ..
        })
    ));
    let read_again = happen(
        &state,
        Event::Read {
            of: 0,
            reading: cold(2.1),
        },
    )
    .unwrap();
    assert!(matches!(
        happen(&read_again, Event::Go(Stage::Insulation)),
        Err(Refusal::GateNeeded { .. })
    ));
}

#[test]
fn a_bright_lamp_is_never_explained_away() {
    let (state, at) = at_stage(Stage::LampIdle);
    let bright = Event::Read {
        of: 0,
        reading: Reading::Current(Current::from_si(0.4)),
    };
    let state = advance(&state, Entry { at, event: bright }).unwrap();
    assert_eq!(
        Stage::LampIdle.causes(Direction::TooHigh).first(),
        Some(&Cause::ShortedTurn)
    );
    for &cause in Cause::ALL {
        let event = Event::Explain { of: 0, cause };
        assert_eq!(
            advance(&state, Entry { at, event }),
            Err(Refusal::NoExplanation),
            "{cause:?}"
        );
    }
}

#[test]
fn every_direction_that_can_happen_has_causes() {
    for prediction in Plan::new(full()).unwrap().predictions() {
        for factor in [-1.0, 0.001, 1.0, 1000.0] {
            let amount = amount(prediction.stage, prediction.value.si() * factor);
            if let Some(direction) = prediction.outside(amount) {
                assert!(
                    !prediction.stage.causes(direction).is_empty(),
                    "{prediction:?} {direction:?}"
                );
            }
        }
    }
    assert!(!Stage::Loaded.causes(Direction::TooLow).is_empty());
    for &cause in Cause::ALL {
        let named = Stage::ALL
            .iter()
            .any(|s| Direction::ALL.iter().any(|&d| s.causes(d).contains(&cause)));
        assert!(named, "{cause:?} is the cause of nothing");
    }
}

#[test]
fn plans_that_leave_a_stage_out_are_refused() {
    for stage in [
        Stage::Continuity,
        Stage::Insulation,
        Stage::RatioPolarity,
        Stage::LampIdle,
        Stage::MainsIdle,
    ] {
        let mut predictions = full();
        predictions.retain(|p| p.stage != stage);
        let got = Plan::new(predictions);
        assert_eq!(got, Err(PlanError::Missing(stage)));
    }
    let mut twice = full();
    twice.push(twice[0]);
    assert!(matches!(Plan::new(twice), Err(PlanError::Twice { .. })));
    let mut band = full();
    band[0].low = amount(Stage::Continuity, f64::NAN);
    assert!(matches!(Plan::new(band), Err(PlanError::Band { .. })));
    // A choke never sees mains: two tests are enough.
    assert!(Plan::new(vec![full()[0], full()[2]]).is_ok());
}

#[test]
fn unusable_readings_are_refused() {
    let (state, at) = at_stage(Stage::Continuity);
    for reading in [
        cold(f64::NAN),
        cold(-1.0),
        Reading::Current(Current::from_si(1.0)),
        Reading::Insulation(Resistance::from_si(2.0)),
    ] {
        let event = Event::Read { of: 0, reading };
        assert!(
            matches!(advance(&state, Entry { at, event }), Err(Refusal::Unusable { .. })),
            "{reading:?}"
        );
    }
    let open = Event::Read {
        of: 0,
        reading: cold(f64::INFINITY),
    };
    let state = advance(&state, Entry { at, event: open }).unwrap();
    let status = state.record()[0].outcome.unwrap().status;
    assert_eq!(status, Status::Outside(Direction::TooHigh));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn forged_histories_stand_nowhere_without_gates(
        kind in 0usize..5, first in any::<prop::sample::Index>(), second in any::<prop::sample::Index>(), event in any::<prop::sample::Index>(),
    ) {
        let done = whole();
        let plan = done.plan().clone();
        let mut log = done.history().to_vec();
        let (i, j) = (first.index(log.len()), second.index(log.len()));
        match kind {
            0 => drop(log.remove(i)),
            1 => log.swap(i, j),
            2 => log[i].at.local_day += 1,
            3 => { let all = events(&plan); log[i].event = all[event.index(all.len())]; }
            _ => drop(log.drain(i.min(j)..i.max(j))),
        }
        let mut situation = Situation::start();
        for entry in &log {
            match step_on(&situation, &plan, *entry) {
                Ok(next) => situation = next,
                Err(_) => break,
            }
            prop_assert!(is_allowed(&situation, &plan, situation.position, entry.at));
        }
    }

    #[test]
    fn a_history_without_one_confirmation_or_reading_is_refused(pick in any::<prop::sample::Index>()) {
        let done = whole();
        let mut log = done.history().to_vec();
        let needed: Vec<usize> = (0..log.len())
            .filter(|&i| matches!(log[i].event, Event::Confirm { .. } | Event::Read { .. }))
            .collect();
        log.remove(needed[pick.index(needed.len())]);
        prop_assert!(Bench::replay(done.plan().clone(), &log).is_err());
    }
}
