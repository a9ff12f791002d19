//! Every state there is, and forged histories.

use std::collections::{HashSet, VecDeque};

use proptest::prelude::*;

use super::super::advance::step_on;
use super::*;

/// Every state that any sequence of events can reach, on any days, with pauses, with one reading a
/// stage. Another day, a pause of an hour and a doubt are tried as for the teardown; what outlives
/// the day (the old winding is out, the core is together) is not compared with a date.
#[test]
fn no_sequence_of_events_reaches_mains_without_gates_and_earlier_tests() {
    let mut predictions = full();
    predictions.retain(|p| p.of == 0 || p.stage == Stage::ShortCircuit);
    explore(&Plan::new(predictions).unwrap(), Stage::ShortCircuit);
}

/// The same for a core that feeds a battery: its own gate too.
#[test]
fn no_sequence_of_events_charges_a_battery_without_its_gate() {
    let mut predictions = full();
    predictions.retain(|p| p.of == 0);
    predictions.push(prediction(Stage::Loaded, 1, 10.0, 12.0, 14.0));
    explore(&Plan::new(predictions).unwrap().under(Load::Battery), Stage::Loaded);
}

/// The same for a plasma torch, whose voltage is there as soon as mains is.
#[test]
fn no_sequence_of_events_reaches_a_torchs_voltage_without_its_gate() {
    let mut predictions = full();
    predictions.retain(|p| p.of == 0);
    explore(&Plan::new(predictions).unwrap().under(Load::Plasma), Stage::MainsIdle);
}

/// A furnace's gate stands where a battery's does, which is explored above.
#[test]
fn a_furnace_asks_where_a_battery_asks() {
    for &stage in Stage::ALL {
        let own = |load: Load, gate| stage.gates_under(load).iter().position(|&g| g == gate);
        assert_eq!(
            own(Load::Furnace, Gate::Furnace),
            own(Load::Battery, Gate::Battery),
            "{stage:?}"
        );
    }
    assert!(Stage::Loaded.gates_under(Load::Furnace).contains(&Gate::Furnace));
}

/// The same for a choke: no rated current before its resistance, insulation and impedance.
#[test]
fn no_sequence_of_events_feeds_a_choke_without_gates_and_earlier_tests() {
    let predictions = vec![
        prediction(Stage::Continuity, 1, 0.09, 0.10, 0.11),
        prediction(Stage::Insulation, 1, 2e6, 1e8, f64::INFINITY),
        prediction(Stage::Impedance, 1, 0.3, 0.4, 0.5),
        prediction(Stage::RatedCurrent, 1, 0.1, 0.11, 0.13),
    ];
    explore(&Plan::new(predictions).unwrap(), Stage::RatedCurrent);
}

fn explore(plan: &Plan, last: Stage) {
    let mut events = events(plan);
    // Items are confirmed below.
    events.retain(|event| !matches!(event, Event::Confirm { .. }));
    let tomorrow = Moment {
        local_day: NOON.local_day + 1,
        ..NOON
    };
    let (mut seen, mut reached) = (HashSet::new(), HashSet::new());
    let mut queue = VecDeque::from([(Situation::start(), true)]);
    let mut commissioned = false;
    while let Some((situation, further)) = queue.pop_front() {
        let mut overnight = situation.clone();
        overnight.settle(plan, tomorrow);
        let mut paused = situation.clone();
        paused.passes.end_stretch();
        // Half a gate opens nothing and is forgotten with the next gate: from every state each gate
        // within reach is confirmed whole, and what lies between is checked and left.
        let mut whole = Vec::new();
        for &toward in Stage::ALL {
            let (mut state, gate) = (situation.clone(), situation.missing(plan, toward, NOON));
            let items = gate.map_or(&[][..], Gate::items);
            for &item in items {
                let event = Event::Confirm { toward, item };
                let Ok(next) = step_on(&state, plan, Entry { at: NOON, event }) else {
                    break;
                };
                assert!(is_allowed(&next, plan, next.position, NOON), "{next:?}");
                if items.last() == Some(&item) {
                    whole.push((next.clone(), false));
                } else {
                    for &stage in Stage::ALL {
                        let shut = |s: &Situation| s.missing(plan, stage, NOON).is_some();
                        assert!(!shut(&state) || shut(&next), "half a gate opens {stage:?}: {next:?}");
                    }
                }
                state = next;
            }
        }
        let entries = events.iter().map(|&event| Entry { at: NOON, event });
        let after = entries.filter_map(|entry| {
            let next = step_on(&situation, plan, entry).ok()?;
            if let Event::Go(stage) = entry.event {
                assert!(is_open(&situation, plan, stage, NOON), "{situation:?} to {stage:?}");
            }
            Some((next, matches!(entry.event, Event::Doubt { .. })))
        });
        for (next, doubted) in after.chain(whole).chain([(overnight, false), (paused, false)]) {
            let results: Vec<_> = next
                .outcomes
                .iter()
                .map(|(&of, outcome)| (of, outcome.status))
                .collect();
            if further && seen.insert((next.position, next.phase, results, next.passes.clone(), doubted)) {
                queue.push_back((next.clone(), !doubted));
            }
            for now in [NOON, tomorrow] {
                assert!(is_allowed(&next, plan, next.stage_at(plan, now), now), "{next:?}");
            }
            assert!(is_allowed(&next, plan, next.position, NOON), "{next:?}");
            reached.insert(next.position);
            commissioned |= next.phase == Phase::Commissioned;
        }
    }
    assert!(reached.contains(&last) && commissioned);
    println!("{} states", seen.len());
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
