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
        assert_eq!(Teardown::replay(TeardownProcedure, state.history()), Ok(state));
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
    let state = Teardown::replay(TeardownProcedure, &done.history()[..=at_disconnect]).unwrap();
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
            event: Event::Act(Act::PluggedIn),
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
        .position(|e| matches!(e.event, Event::Act(Act::Prove(_))))
        .unwrap();
    let state = Teardown::replay(TeardownProcedure, &done.history()[..proved]).unwrap();
    let now = done.history()[proved].at;
    assert_eq!(state.confirmed(Step::Disconnect, Gate::Capacitor, now).len(), 4);
    let state = advance(
        &state,
        Entry {
            at: now,
            event: Event::Act(Act::Prove(proof(-700.0))),
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
        Err(Refusal::Own(Reason::NeedsReadings))
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
    let state = Teardown::replay(TeardownProcedure, &done.history()[..=opened]).unwrap();
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
    let state = Teardown::replay(TeardownProcedure, &done.history()[..=opened]).unwrap();
    let at = done.history()[opened].at;
    let state = advance(
        &state,
        Entry {
            at,
            event: Event::Act(Act::Found(Finding::Supply(Supply::Inverter))),
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

/// From a closed oven to a clean core put away, a person holds a button at most thirty times with a
/// hand saw or with the core kept whole. A grinder has its own gate and sparks.
#[test]
fn a_teardown_takes_few_holds() {
    for (way, most) in [
        (Way::Hacksaw, 30),
        (Way::DriveOut, 30),
        (Way::Abrasive, 37),
        (Way::Grinder, 37),
    ] {
        let count = holds(whole(way).history());
        println!("{way:?}: {count} holds");
        assert!(count <= most, "{way:?}: {count} holds");
    }
}

/// Hard gates are asked whole: a teardown renews none of them.
#[test]
fn what_is_renewed_is_what_was_confirmed() {
    let done = whole(Way::Hacksaw);
    let renewed: Vec<Step> = done
        .history()
        .iter()
        .filter_map(|entry| match entry.event {
            Event::Renew { toward } => Some(toward),
            _ => None,
        })
        .collect();
    assert_eq!(renewed, [Step::Split, Step::Warm, Step::Remove, Step::Store]);
    for &item in Gate::ALL
        .iter()
        .filter(|g| g.lasts() != Lasts::Stretch)
        .flat_map(|g| g.items())
    {
        let times = done.history().iter().filter(|entry| match entry.event {
            Event::Confirm { item: held, .. } => held == item,
            Event::Act(Act::Prove(_)) => item == Item::ProvedByMeter,
            _ => false,
        });
        assert!(times.count() <= 1, "{item:?}");
    }
}

/// After an hour without an entry the person is where they were; what they wear is asked again with
/// one hold, what they found can be recorded at once. Doubt asks for every item.
#[test]
fn a_pause_of_an_hour_asks_again() {
    let done = whole(Way::Hacksaw);
    let at_split = done
        .history()
        .iter()
        .position(|e| e.event == Event::Go(Step::Split))
        .unwrap();
    let state = Teardown::replay(TeardownProcedure, &done.history()[..=at_split]).unwrap();
    let start = done.history()[at_split].at;
    let at = |ms: i64| Moment {
        unix_ms: start.unix_ms + ms,
        ..start
    };
    assert_eq!(state.gate_before(Step::Split, at(3_599_999)), None);
    let now = at(3_600_000);
    assert_eq!(state.step(now), Step::Split);
    let gates: Vec<Gate> = state
        .repeated(Step::Split, now)
        .into_iter()
        .map(|(gate, _)| gate)
        .collect();
    assert_eq!(
        gates,
        [Gate::OldInsulation, Gate::Hands, Gate::HeavyPart, Gate::Cutting]
    );
    let event = Event::Act(Act::Found(Finding::SeamThickness(Length::from_mm(2.0))));
    let noted = advance(&state, Entry { at: now, event }).unwrap();
    assert_eq!(noted.repeated(Step::Split, now).len(), 4, "an entry renews nothing");
    let toward = Step::Split;
    let renewed = advance(
        &noted,
        Entry {
            at: now,
            event: Event::Renew { toward },
        },
    )
    .unwrap();
    assert_eq!(renewed.gate_before(Step::Split, now), None);
    let doubted = advance(
        &noted,
        Entry {
            at: now,
            event: Event::Doubt { toward },
        },
    )
    .unwrap();
    assert_eq!(doubted.repeated(Step::Split, now), []);
    assert_eq!(doubted.step(now), Step::ChooseWay);
    assert_eq!(doubted.gate_before(Step::Split, now), Some(Gate::OldInsulation));
}
