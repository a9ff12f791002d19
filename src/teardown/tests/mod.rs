//! The safety of the state machine: explored whole, tried at random, and read back from forgeries.

mod explored;
mod lived;

use super::guide::gates;
use super::state::Situation;
use super::*;
use crate::quantity::{Length, Mass, Voltage};
use crate::safety::{Gate, Hazard, Item, Lasts, Moment, TouchLimit};
use crate::wire::Metal;

const MORNING: Moment = Moment {
    unix_ms: 1_000_000_000,
    local_day: 20_000,
};

fn proof(volts: f64) -> Proof {
    let reading = Voltage::from_si(volts);
    Proof {
        between: reading,
        first_to_chassis: reading,
        second_to_chassis: Voltage::from_si(0.0),
        limit: TouchLimit::default(),
    }
}

/// What an event of each kind can look like.
pub(super) fn events() -> Vec<Event> {
    let mut events = vec![
        Event::PluggedIn,
        Event::Again,
        Event::Brought,
        Event::Finish,
        Event::CouldNot { item: Item::Trained },
        Event::Prove(proof(3.0)),
        Event::Prove(proof(700.0)),
        Event::Found(Finding::Supply(Supply::Transformer)),
        Event::Found(Finding::Supply(Supply::Inverter)),
        Event::Found(Finding::WindingAtBack(Winding::Primary)),
        Event::Found(Finding::Shunts(ShuntFate::Keep)),
    ];
    events.extend(Way::ALL.iter().map(|&way| Event::Found(Finding::Way(way))));
    events.extend(Step::ALL.iter().map(|&step| Event::Go(step)));
    for &toward in Step::ALL {
        events.extend([Event::Renew { toward }, Event::Doubt { toward }]);
        for gate in gates(toward, None) {
            events.extend(gate.items().iter().map(|&item| Event::Confirm { toward, item }));
        }
    }
    events
}

/// Every hazard of the step has its gate, held at `now`: said in full and apart from the code under
/// test. The capacitor is safe, the plug is out, or the step has no such hazard.
fn guarded(situation: &Situation, step: Step, held: impl Fn(Gate) -> bool) -> bool {
    step.guide(&situation.findings)
        .hazards
        .iter()
        .all(|&hazard| match hazard {
            Hazard::ChargedCapacitor if matches!(step, Step::Open | Step::CapacitorSafe) => held(Gate::CapacitorTool),
            Hazard::ChargedCapacitor => held(Gate::Capacitor),
            other => held(other.gate()),
        })
}

/// The person may be at the step: each gate was confirmed this day.
fn is_allowed(situation: &Situation, step: Step, now: Moment) -> bool {
    guarded(situation, step, |gate| {
        situation.passes.held(gate, situation.place(step), now)
    })
}

/// The person may begin the step: each gate was confirmed for this stretch of work.
fn is_open(situation: &Situation, step: Step, now: Moment) -> bool {
    guarded(situation, step, |gate| {
        situation.passes.passed(gate, situation.place(step), now).is_some()
    })
}

/// How many times a button is held in a history.
fn holds(entries: &[Entry]) -> usize {
    entries
        .iter()
        .filter(|entry| {
            matches!(
                entry.event,
                Event::Confirm { .. } | Event::Prove(_) | Event::Renew { .. }
            )
        })
        .count()
}

/// A whole teardown, as somebody careful does it in one day.
pub(super) fn whole(way: Way) -> Teardown {
    let mut state = Teardown::start();
    let mut at = MORNING;
    let happen = |state: &mut Teardown, at: &mut Moment, event| {
        at.unix_ms += 1000;
        *state = advance(state, Entry { at: *at, event }).unwrap_or_else(|e| panic!("{event:?}: {e}"));
    };
    loop {
        let here = state.step(at);
        let wanted = match here {
            Step::Open => vec![Finding::Supply(Supply::Transformer)],
            Step::Disconnect => vec![Finding::WireCount(4), Finding::Terminals(5)],
            Step::Unbolt => vec![Finding::TransformerMass(Mass::from_si(4.2))],
            Step::Inspect => vec![
                Finding::WindingAtBack(Winding::Primary),
                Finding::PrimaryMetal(Metal::Aluminium),
                Finding::SeamThickness(Length::from_mm(1.5)),
            ],
            Step::ChooseWay => vec![Finding::Way(way), Finding::Shunts(ShuntFate::LeaveOut)],
            _ => vec![],
        };
        for finding in wanted {
            happen(&mut state, &mut at, Event::Found(finding));
        }
        let Some(toward) = here.next(state.findings()) else {
            break;
        };
        if !state.repeated(toward, at).is_empty() {
            happen(&mut state, &mut at, Event::Renew { toward });
        }
        while let Some(gate) = state.gate_before(toward, at) {
            for &item in gate.items() {
                let event = match item {
                    Item::ProvedByMeter => Event::Prove(proof(2.0)),
                    item => Event::Confirm { toward, item },
                };
                happen(&mut state, &mut at, event);
            }
        }
        happen(&mut state, &mut at, Event::Go(toward));
    }
    happen(&mut state, &mut at, Event::Finish);
    state
}
