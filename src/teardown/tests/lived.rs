//! Single stories.

use super::*;

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
        item: Item::FirstTerminal,
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
    assert_eq!(state.confirmed(Step::Disconnect, Gate::Capacitor, now).len(), 4);
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
