//! Every state there is, and forged histories.

use std::collections::{HashSet, VecDeque};

use proptest::prelude::*;

use super::super::advance::step_on;
use super::*;

/// Every state that any sequence of events can reach, on any days, with one reading a stage.
/// Another day is tried as an event of its own, as for the teardown; what outlives the day (the
/// old winding is out, the core is together) is not compared with a date.
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
    let events = events(plan);
    let tomorrow = Moment {
        local_day: NOON.local_day + 1,
        ..NOON
    };
    let (mut seen, mut tried, mut reached) = (HashSet::new(), HashSet::new(), HashSet::new());
    let mut queue = VecDeque::from([Situation::start()]);
    let mut commissioned = false;
    while let Some(situation) = queue.pop_front() {
        let mut overnight = situation.clone();
        overnight.settle(plan, tomorrow);
        // Confirming toward a stage out of reach is tried once at each stage: it looks at nothing else.
        let first = tried.insert((situation.position, situation.phase));
        let in_reach = |event: &Event| match *event {
            Event::Confirm { toward, .. } => first || situation.position.next(plan).is_none_or(|n| toward <= n),
            _ => true,
        };
        let entries = events
            .iter()
            .filter(|e| in_reach(e))
            .map(|&event| Entry { at: NOON, event });
        let after = entries.filter_map(|entry| step_on(&situation, plan, entry).ok());
        for next in after.chain([overnight]) {
            let results: Vec<_> = next
                .outcomes
                .iter()
                .map(|(&of, outcome)| (of, outcome.status))
                .collect();
            if seen.insert((next.position, next.phase, results, next.passes.clone())) {
                for now in [NOON, tomorrow] {
                    assert!(is_allowed(&next, plan, next.stage_at(plan, now), now), "{next:?}");
                }
                assert!(is_allowed(&next, plan, next.position, NOON), "{next:?}");
                reached.insert(next.position);
                commissioned |= next.phase == Phase::Commissioned;
                queue.push_back(next);
            }
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
