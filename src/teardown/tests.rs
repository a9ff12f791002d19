//! The safety of the state machine: explored whole, tried at random, and read back from forgeries.

use std::collections::{HashSet, VecDeque};

use proptest::prelude::*;

use super::advance::step_on;
use super::guide::gates;
use super::state::Situation;
use super::*;
use crate::quantity::{Length, Mass, Voltage};
use crate::safety::{Gate, Hazard, Item, Moment, Passes, TouchLimit};
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

/// Every state that any sequence of events can reach, on any days: none stands at a step whose
/// gates do not hold, and no way leads round a gate.
///
/// Another day is tried as an event of its own. That loses nothing: whatever happens first
/// drops what has expired, and then no confirmation is left that carries a date.
#[test]
fn no_sequence_of_events_reaches_a_hazard_without_its_gates() {
    let mut events = events();
    // For the gates an abrasive disc is a grinder.
    events.retain(|&event| event != Event::Found(Finding::Way(Way::Abrasive)));
    let tomorrow = Moment {
        local_day: MORNING.local_day + 1,
        ..MORNING
    };
    let mut seen = HashSet::new();
    let mut queue = VecDeque::from([Situation::start()]);
    let (mut reached, mut ends) = (HashSet::new(), HashSet::new());
    while let Some(situation) = queue.pop_front() {
        let mut overnight = situation.clone();
        overnight.settle(tomorrow);
        assert_eq!(overnight.passes, Passes::default(), "nothing outlives the day");
        let entries = events.iter().map(|&event| Entry { at: MORNING, event });
        let after = entries.filter_map(|entry| step_on(&situation, entry).ok());
        for next in after.chain([overnight]) {
            let f = &next.findings;
            let found = (f.supply, f.at_back, f.way, f.shunts);
            if seen.insert((next.position, next.phase, found, next.passes.clone())) {
                for now in [MORNING, tomorrow] {
                    assert!(is_allowed(&next, next.step_at(now), now), "{next:?}");
                }
                assert!(is_allowed(&next, next.position, MORNING), "{next:?}");
                reached.insert(next.position);
                ends.insert(next.phase);
                queue.push_back(next);
            }
        }
    }
    assert_eq!(reached.len(), Step::ALL.len(), "every step can be reached");
    assert!(ends.contains(&Phase::Ended(End::Stored)) && ends.contains(&Phase::Ended(End::NoCore)));
    println!("{} states", seen.len());
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

#[test]
fn a_careful_person_gets_through() {
    for &way in Way::ALL {
        let state = whole(way);
        assert_eq!(state.phase(), Phase::Ended(End::Stored));
        let split = state
            .history()
            .iter()
            .any(|entry| entry.event == Event::Go(Step::Split));
        assert_eq!(split, way != Way::DriveOut);
        assert!(state.findings().notes().contains(&Note::AluminiumPrimary));
        assert!(state.findings().notes().contains(&Note::PrimaryAtBack));
        assert_eq!(Teardown::replay(state.history()), Ok(state));
    }
}

#[test]
fn a_gate_passed_for_one_day_and_one_plug() {
    let done = whole(Way::Hacksaw);
    let at_disconnect = done
        .history()
        .iter()
        .position(|e| e.event == Event::Go(Step::Disconnect))
        .unwrap();
    let state = Teardown::replay(&done.history()[..=at_disconnect]).unwrap();
    let now = done.history()[at_disconnect].at;
    assert_eq!(state.step(now), Step::Disconnect);
    let tomorrow = Moment {
        unix_ms: now.unix_ms + 43_200_000,
        local_day: now.local_day + 1,
    };
    assert_eq!(
        state.step(tomorrow),
        Step::Unplug,
        "everything is confirmed again tomorrow"
    );
    assert_eq!(state.reached(), Step::Disconnect);
    let state = advance(
        &state,
        Entry {
            at: now,
            event: Event::PluggedIn,
        },
    )
    .unwrap();
    assert_eq!(state.step(now), Step::Unplug);
    // The capacitor's gate can only be passed at the capacitor.
    let early = Event::Confirm {
        toward: Step::Open,
        item: Item::TerminalToTerminal,
    };
    assert!(advance(&state, Entry { at: now, event: early }).is_err());
}

#[test]
fn a_charged_capacitor_goes_back_to_discharging() {
    let done = whole(Way::Hacksaw);
    let proved = done
        .history()
        .iter()
        .position(|e| matches!(e.event, Event::Prove(_)))
        .unwrap();
    let state = Teardown::replay(&done.history()[..proved]).unwrap();
    let now = done.history()[proved].at;
    assert_eq!(state.confirmed(Step::Disconnect, Gate::Capacitor, now).len(), 3);
    let state = advance(
        &state,
        Entry {
            at: now,
            event: Event::Prove(proof(-700.0)),
        },
    )
    .unwrap();
    assert_eq!(state.failed_proof(), Some(Voltage::from_si(700.0)));
    assert!(state.confirmed(Step::Disconnect, Gate::Capacitor, now).is_empty());
    let press = Event::Confirm {
        toward: Step::Disconnect,
        item: Item::ProvedByMeter,
    };
    assert_eq!(
        advance(&state, Entry { at: now, event: press }),
        Err(Refusal::NeedsReadings)
    );
    // Waiting changes nothing.
    let later = Moment {
        unix_ms: now.unix_ms + 36_000_000,
        ..now
    };
    assert_eq!(state.gate_before(Step::Disconnect, later), Some(Gate::Capacitor));
}

#[test]
fn could_not_stops_and_nothing_counts_after() {
    let done = whole(Way::Hacksaw);
    let opened = done
        .history()
        .iter()
        .position(|e| e.event == Event::Go(Step::Open))
        .unwrap();
    let state = Teardown::replay(&done.history()[..=opened]).unwrap();
    let at = done.history()[opened].at;
    let event = Event::CouldNot {
        item: Item::ResistorTool,
    };
    let stopped = advance(&state, Entry { at, event }).unwrap();
    assert_eq!(
        stopped.phase(),
        Phase::Stopped {
            item: Item::ResistorTool
        }
    );
    let go = Entry {
        at,
        event: Event::Go(Step::CapacitorSafe),
    };
    assert_eq!(advance(&stopped, go), Err(Refusal::Stopped));
    let again = advance(
        &stopped,
        Entry {
            at,
            event: Event::Again,
        },
    )
    .unwrap();
    assert_eq!(again.step(at), Step::Unplug);
}

#[test]
fn an_inverter_ends_it() {
    let done = whole(Way::Hacksaw);
    let opened = done
        .history()
        .iter()
        .position(|e| e.event == Event::Go(Step::Open))
        .unwrap();
    let state = Teardown::replay(&done.history()[..=opened]).unwrap();
    let at = done.history()[opened].at;
    let state = advance(
        &state,
        Entry {
            at,
            event: Event::Found(Finding::Supply(Supply::Inverter)),
        },
    )
    .unwrap();
    assert_eq!(state.phase(), Phase::Ended(End::NoCore));
    assert_eq!(state.findings().notes(), [Note::InverterNoCore]);
}

#[test]
fn every_step_with_a_hazard_has_a_gate_for_it() {
    for &step in Step::ALL {
        for &way in Way::ALL {
            let guide = step.guide(&Findings {
                way: Some(way),
                ..Findings::default()
            });
            for hazard in &guide.hazards {
                let covered = guide.gates.contains(&hazard.gate())
                    || hazard.stand_in().is_some_and(|gate| guide.gates.contains(&gate));
                assert!(covered, "{step:?} {hazard:?}");
                assert!(
                    hazard.arises().contains(&crate::safety::Arises::Teardown),
                    "{step:?} {hazard:?}"
                );
            }
        }
    }
}

/// Stored histories with one entry left out, doubled, swapped, moved to another day or replaced:
/// either refused, or they still stand nowhere without gates.
fn forged() -> impl Strategy<Value = Vec<Entry>> {
    let all = events();
    let kinds = (
        0usize..6,
        any::<prop::sample::Index>(),
        any::<prop::sample::Index>(),
        0..all.len(),
        0usize..4,
    );
    kinds.prop_map(move |(kind, first, second, event, way)| {
        let mut log = whole(Way::ALL[way]).history().to_vec();
        let (i, j) = (first.index(log.len()), second.index(log.len()));
        match kind {
            0 => drop(log.remove(i)),
            1 => log.insert(i, log[j]),
            2 => log.swap(i, j),
            3 => log[i].at.local_day += 1,
            4 => log[i].event = all[event],
            _ => drop(log.drain(i.min(j)..i.max(j))),
        }
        log
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn forged_histories_stand_nowhere_without_gates(log in forged()) {
        let mut situation = Situation::start();
        for entry in &log {
            match step_on(&situation, *entry) {
                Ok(next) => situation = next,
                Err(_) => break,
            }
            prop_assert!(is_allowed(&situation, situation.position, entry.at));
        }
    }

    #[test]
    fn a_history_without_one_confirmation_is_refused(pick in any::<prop::sample::Index>(), way in 0usize..4) {
        let mut log = whole(Way::ALL[way]).history().to_vec();
        let needed: Vec<usize> = (0..log.len())
            .filter(|&i| matches!(log[i].event, Event::Confirm { .. } | Event::Prove(_)))
            .collect();
        log.remove(needed[pick.index(needed.len())]);
        prop_assert!(Teardown::replay(&log).is_err());
    }

    #[test]
    fn random_events_at_random_moments(picks in prop::collection::vec((any::<prop::sample::Index>(), -5_000_000i64..90_000_000, 0i32..3), 1..300)) {
        let events = events();
        let mut situation = Situation::start();
        for (pick, ms, day) in picks {
            let at = Moment { unix_ms: MORNING.unix_ms + ms, local_day: MORNING.local_day + day };
            let event = events[pick.index(events.len())];
            if let Ok(next) = step_on(&situation, Entry { at, event }) {
                prop_assert!(is_allowed(&next, next.position, at));
                situation = next;
            }
        }
    }
}
