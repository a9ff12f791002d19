//! Turns, layers, wire and room against what a hand computes.

use super::*;
use crate::procedure::advance;
use crate::procedure::explore::MORNING;

/// Stands at the turns with nothing wound.
fn at_the_turns(plan: WindPlan) -> Wind {
    let done = crate::procedure::explore::walk(plan, |wind, step| match step {
        WindStep::ProvePrimary => WHOLE.to_vec(),
        WindStep::WindTurns => turns_of(wind.plan()),
        WindStep::Choose => vec![Act::Closing(Closing::Bolts), Act::Fixing(Fixing::Tape)],
        _ => vec![],
    });
    let go = Event::Go(WindStep::WindTurns);
    let at = done.history().iter().position(|entry| entry.event == go).unwrap();
    Wind::replay(*done.plan(), &done.history()[..=at]).unwrap()
}

/// Every press of a winding.
fn turns_of(plan: &WindPlan) -> Vec<Act> {
    let mut presses = vec![Act::Turn; plan.turns as usize];
    if plan.tapped {
        presses.insert(plan.turns as usize / 2, Act::LeadTapOut);
    }
    presses
}

fn happen(wind: &Wind, act: Act) -> Result<Wind, Refusal> {
    let at = wind.history().last().map_or(MORNING, |entry| entry.at);
    let event = Event::Act(act);
    advance(wind, Entry { at, event })
}

fn press(wind: &Wind, times: u32) -> Wind {
    (0..times).fold(wind.clone(), |wind, _| happen(&wind, Act::Turn).unwrap())
}

#[test]
fn turns_are_counted_by_layer_and_in_all() {
    let wind = at_the_turns(plan());
    let counter = |wind: &Wind| wind.facts().counter.clone();
    assert_eq!(counter(&wind).place(&plan()), (0, 0));
    assert_eq!(counter(&wind).left_in_layer(&plan()), 3);
    let wind = press(&wind, 3);
    assert!(counter(&wind).is_full(&plan()), "three go in a layer");
    assert_eq!(
        counter(&wind).place(&plan()),
        (1, 0),
        "the next one begins the second layer"
    );
    let wind = press(&wind, 4);
    assert_eq!(counter(&wind).layers(), [3, 3, 1]);
    assert_eq!(counter(&wind).left_in_layer(&plan()), 0, "none is left to wind");
    assert_eq!(counter(&wind).turns(), 7);
    assert_eq!(happen(&wind, Act::Turn), Err(Refusal::Own(Reason::AllWound)));
}

/// Whatever was pressed, as many presses taken back lead to where it began.
#[test]
fn every_press_can_be_taken_back() {
    let start = at_the_turns(plan());
    let mut wind = press(&start, 2);
    wind = happen(&wind, Act::EndLayer).unwrap();
    assert!(wind.facts().counter.is_full(&plan()), "two fill this layer");
    wind = press(&wind, 4);
    assert_eq!(wind.facts().counter.layers(), [2, 3, 1]);
    let mut seen = Vec::new();
    for _ in 0..7 {
        seen.push(wind.facts().counter.turns());
        wind = happen(&wind, Act::TakeBack).unwrap();
    }
    assert_eq!(seen, [6, 5, 4, 3, 2, 2, 1], "the early end is a press of its own");
    assert_eq!(wind.facts().counter, start.facts().counter);
    assert_eq!(
        happen(&wind, Act::TakeBack),
        Err(Refusal::Own(Reason::NothingToTakeBack))
    );
}

#[test]
fn nobody_goes_on_with_turns_missing() {
    let wind = press(&at_the_turns(plan()), 6);
    let at = wind.history().last().unwrap().at;
    let event = Event::Go(WindStep::LeadOut);
    assert_eq!(
        advance(&wind, Entry { at, event }),
        Err(Refusal::Own(Reason::TurnsMissing))
    );
}

/// The handbook's formula for a full winding on a rectangular limb: turns times the mean turn, which lies
/// at the middle of the build, `2(a + b) + 2π(c + build/2)` (any transformer handbook, M).
#[test]
fn wire_by_layers_is_turns_times_the_mean_turn() {
    let plan = WindPlan { turns: 9, ..plan() };
    let wind = press(&at_the_turns(plan), 9);
    let build = plan.build_of(3);
    assert!(
        (build.mm() - 15.2).abs() < 1e-9,
        "three layers of 5 mm, two films of 0.1 mm"
    );
    let mean_turn = 160.0 + std::f64::consts::TAU * (1.0 + 15.2 / 2.0);
    let wanted = 9.0 * mean_turn + 200.0;
    let used = wind.facts().counter.wire_used(&plan).mm();
    assert!((used - wanted).abs() < 1e-6, "{used} {wanted}");
    let left = wind.facts().counter.wire_left(&plan).mm();
    assert!((left - 200.0).abs() < 1e-6, "the second lead-out: {left}");
    let begun = press(&at_the_turns(plan), 4).facts().counter.clone();
    let all = begun.wire_used(&plan) + begun.wire_left(&plan);
    assert!((all.mm() - wanted - 200.0).abs() < 1e-6, "{all:?}");
}

/// A first layer of 3 turns that measures 36 mm: 12 mm a turn, so 2 in the 33 mm there are. Of 7 turns
/// 4 are left, in 2 more layers: 3 × 5 mm + 2 × 0.1 mm = 15.2 mm. With 5 mm less room it does not fit.
#[test]
fn the_measured_width_corrects_the_rest_and_warns() {
    let wind = at_the_turns(plan());
    let early = Act::FirstLayer(Length::from_mm(36.0));
    assert_eq!(happen(&wind, early), Err(Refusal::Own(Reason::FirstLayerFirst)));
    let wind = press(&wind, 3);
    let wide = happen(&wind, early).unwrap();
    let forecast = wide.facts().counter.forecast(&plan());
    assert_eq!((forecast.per_layer, forecast.layers), (2, 3));
    assert!(
        (forecast.build.mm() - 15.2).abs() < 1e-9 && forecast.fits(),
        "{forecast:?}"
    );
    let tight = WindPlan {
        build: Length::from_mm(15.0),
        ..plan()
    };
    let forecast = wide.facts().counter.forecast(&tight);
    assert!(
        !forecast.fits() && (forecast.spare.mm() + 0.2).abs() < 1e-9,
        "{forecast:?}"
    );
    let next = press(&wide, 3);
    assert_eq!(next.facts().counter.layers(), [3, 2, 1]);
    for width in [0.0, -3.0, f64::NAN, 700.0] {
        let refused = happen(&wind, Act::FirstLayer(Length::from_mm(width)));
        assert!(matches!(refused, Err(Refusal::OutOfRange { .. })), "{width}");
    }
}

/// Eight turns with a centre tap are two halves of four: the count stops there until both ends are led out,
/// the next turn lies beside the last one, and the wire has four ends of 100 mm.
#[test]
fn a_tap_stands_between_equal_halves() {
    let plan = WindPlan {
        turns: 8,
        tapped: true,
        ..plan()
    }
    .checked()
    .unwrap();
    let start = at_the_turns(plan);
    assert_eq!(happen(&start, Act::LeadTapOut), Err(Refusal::Own(Reason::NoTap)));
    let half = press(&start, 4);
    let counter = |wind: &Wind| wind.facts().counter.clone();
    assert!(counter(&half).is_at_tap(&plan));
    assert_eq!(counter(&half).left_in_layer(&plan), 0);
    assert_eq!(happen(&half, Act::Turn), Err(Refusal::Own(Reason::TapFirst)));
    let all = counter(&half).wire_used(&plan) + counter(&half).wire_left(&plan);
    let tapped = happen(&half, Act::LeadTapOut).unwrap();
    let ends = counter(&tapped).wire_used(&plan) - counter(&half).wire_used(&plan);
    assert!((ends.mm() - 200.0).abs() < 1e-9, "both ends at the tap: {ends:?}");
    assert_eq!(happen(&tapped, Act::LeadTapOut), Err(Refusal::Own(Reason::NoTap)));
    let wound = press(&tapped, 4);
    assert_eq!(counter(&wound).layers(), [3, 3, 2]);
    let turns: f64 = [3.0, 3.0, 2.0]
        .iter()
        .zip(0..)
        .map(|(n, k)| n * plan.turn_length(k).mm())
        .sum();
    assert!((counter(&wound).wire_used(&plan).mm() - turns - 300.0).abs() < 1e-6);
    assert!((all.mm() - turns - 400.0).abs() < 1e-6);
    let back = happen(&tapped, Act::TakeBack).unwrap();
    assert_eq!(counter(&back), counter(&half), "the tap is a press of its own");
    let whole = (0..9).fold(wound, |wind, _| happen(&wind, Act::TakeBack).unwrap());
    assert_eq!(counter(&whole), counter(&start));
}

/// Nobody winds on a primary that two readings do not prove whole.
#[test]
fn a_primary_is_proved_by_both_readings() {
    let ohms = Resistance::from_si;
    let read = |resistance, insulation| PrimaryReadings { resistance, insulation };
    let good = (Some(ohms(2.1)), Some(ohms(f64::INFINITY)));
    assert_eq!(read(good.0, good.1).prove(&BAND), Ok(()));
    for missing in [read(None, good.1), read(good.0, None)] {
        assert_eq!(missing.prove(&BAND), Err(Reason::PrimaryNotMeasured));
    }
    for damaged in [
        read(Some(ohms(1.7)), good.1),
        read(Some(ohms(f64::INFINITY)), good.1),
        read(good.0, Some(ohms(2.4e6))),
    ] {
        assert_eq!(damaged.prove(&BAND), Err(Reason::PrimaryDamaged), "{damaged:?}");
    }
}

/// Photos and notes belong to the step where they were kept.
#[test]
fn photos_and_notes_are_kept_with_their_step() {
    let wind = at_the_turns(plan());
    let wind = happen(&happen(&wind, Act::Photo(7)).unwrap(), Act::Note(8)).unwrap();
    assert_eq!(wind.facts().photos, [(WindStep::WindTurns, 7)]);
    assert_eq!(wind.facts().notes, [(WindStep::WindTurns, 8)]);
}

#[test]
fn plans_that_are_none_are_refused() {
    for wrong in [
        WindPlan { turns: 0, ..plan() },
        WindPlan {
            turns: 1_000_000,
            ..plan()
        },
        WindPlan {
            turns_per_layer: 0,
            ..plan()
        },
        WindPlan {
            turn_width: Length::ZERO,
            ..plan()
        },
        WindPlan {
            breadth: Length::from_mm(f64::NAN),
            ..plan()
        },
        WindPlan {
            build: Length::from_mm(-1.0),
            ..plan()
        },
        WindPlan {
            primary: None,
            ..plan()
        },
        WindPlan {
            primary: Some(PrimaryBand {
                high: Resistance::from_si(1.0),
                ..BAND
            }),
            ..plan()
        },
        WindPlan { tapped: true, ..plan() },
    ] {
        assert!(wrong.checked().is_err(), "{wrong:?}");
    }
}
