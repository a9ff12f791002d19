//! The safety of the state machine: explored whole, tried at random, and read back from forgeries.

mod explored;
mod lived;

use super::guide::gates;
use super::state::Situation;
use super::*;
use crate::quantity::{Length, Mass, Voltage};
use crate::safety::{Gate, Hazard, Item, Moment, TouchLimit};
use crate::wire::Metal;

const MORNING: Moment = Moment {
    unix_ms: 1_000_000_000,
    local_day: 20_000,
};

fn proof(volts: f64) -> Proof {
    let reading = Voltage::from_si(volts);
    Proof {
        between: reading,
        first_to_case: reading,
        second_to_case: Voltage::from_si(0.0),
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
        for gate in gates(toward, None) {
            events.extend(gate.items().iter().map(|&item| Event::Confirm { toward, item }));
        }
    }
    events
}

/// The capacitor is safe, the plug is out, or the step has no such hazard: said in full and
/// apart from the code under test.
fn is_allowed(situation: &Situation, step: Step, now: Moment) -> bool {
    let held = |gate| situation.passes.passed(gate, step.place(), now).is_some();
    step.guide(&situation.findings)
        .hazards
        .iter()
        .all(|&hazard| match hazard {
            Hazard::ChargedCapacitor if matches!(step, Step::Open | Step::CapacitorSafe) => held(Gate::CapacitorTool),
            Hazard::ChargedCapacitor => held(Gate::Capacitor),
            other => held(other.gate()),
        })
}

/// A whole teardown, as somebody careful does it in one day.
pub(super) fn whole(way: Way) -> Teardown {
    let mut state = Teardown::start();
    let mut at = MORNING;
    let mut happen = |state: &mut Teardown, event| {
        at.unix_ms += 1000;
        *state = advance(state, Entry { at, event }).unwrap_or_else(|e| panic!("{event:?}: {e}"));
    };
    loop {
        let here = state.step(MORNING_END);
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
            happen(&mut state, Event::Found(finding));
        }
        let Some(toward) = here.next(state.findings()) else {
            break;
        };
        while let Some(gate) = state.gate_before(toward, MORNING_END) {
            for &item in gate.items() {
                let event = match item {
                    Item::ProvedByMeter => Event::Prove(proof(2.0)),
                    item => Event::Confirm { toward, item },
                };
                happen(&mut state, event);
            }
        }
        happen(&mut state, Event::Go(toward));
    }
    happen(&mut state, Event::Finish);
    state
}

const MORNING_END: Moment = Moment {
    unix_ms: MORNING.unix_ms + 10_000_000,
    local_day: MORNING.local_day,
};
