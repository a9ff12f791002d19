//! Single stories.

use super::*;

#[test]
fn a_good_core_is_commissioned() {
    let state = whole();
    assert_eq!(state.phase(), Phase::Ended(End::Commissioned));
    assert!(
        state
            .record()
            .iter()
            .all(|l| l.outcome.is_some_and(|o| o.status == Status::InBand))
    );
    assert_eq!(Bench::replay(state.plan().clone(), state.history()), Ok(state.clone()));
    let reopened = Event::Act(Act::Reopened { fixed: None });
    let at = Moment {
        unix_ms: NOON.unix_ms + 20_000_000,
        ..NOON
    };
    let again = advance(&state, Entry { at, event: reopened }).unwrap();
    assert_eq!(again.step(at), Stage::Reassembly);
    assert_eq!(
        again.gate_before(Stage::Reassembly, at),
        Some(Gate::Hands),
        "asked again"
    );
    assert_eq!(again.gate_before(Stage::Continuity, at), Some(Gate::OldWindingOut));
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
fn a_reading_outside_its_band_blocks_until_explained_or_fixed() {
    let (state, at) = at_stage(Stage::Continuity);
    let happen = |state: &Bench, event| advance(state, Entry { at, event });
    let state = happen(
        &state,
        Event::Act(Act::Read {
            of: 1,
            reading: cold(0.01),
        }),
    )
    .unwrap();
    let state = happen(
        &state,
        Event::Act(Act::Read {
            of: 0,
            reading: cold(2.5),
        }),
    )
    .unwrap();
    let blocked = Err(Refusal::Own(Reason::OutsideBand { of: 0 }));
    assert_eq!(happen(&state, Event::Go(Stage::Insulation)), blocked);
    let no = Event::Act(Act::Explain {
        of: 0,
        cause: Cause::ShortedTurn,
    });
    assert_eq!(happen(&state, no), Err(Refusal::Own(Reason::NoExplanation)));
    let explained = happen(
        &state,
        Event::Act(Act::Explain {
            of: 0,
            cause: Cause::MeterLeads,
        }),
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
        Event::Act(Act::Read {
            of: 0,
            reading: cold(2.1),
        }),
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
    let bright = Event::Act(Act::Read {
        of: 0,
        reading: Reading::Current(Current::from_si(0.4)),
    });
    let state = advance(&state, Entry { at, event: bright }).unwrap();
    assert_eq!(
        Stage::LampIdle.causes(Direction::TooHigh).first(),
        Some(&Cause::ShortedTurn)
    );
    for &cause in Cause::ALL {
        let event = Event::Act(Act::Explain { of: 0, cause });
        assert_eq!(
            advance(&state, Entry { at, event }),
            Err(Refusal::Own(Reason::NoExplanation)),
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
        let event = Event::Act(Act::Read { of: 0, reading });
        assert!(
            matches!(advance(&state, Entry { at, event }), Err(Refusal::OutOfRange { .. })),
            "{reading:?}"
        );
    }
    let open = Event::Act(Act::Read {
        of: 0,
        reading: cold(f64::INFINITY),
    });
    let state = advance(&state, Entry { at, event: open }).unwrap();
    let status = state.record()[0].outcome.unwrap().status;
    assert_eq!(status, Status::Outside(Direction::TooHigh));
}
