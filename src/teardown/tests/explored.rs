//! Every state there is, events at random, and forged histories.

use std::collections::{HashSet, VecDeque};

use proptest::prelude::*;

use super::super::advance::step_on;
use super::*;
use crate::safety::Passes;

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
    let (mut seen, mut tried) = (HashSet::new(), HashSet::new());
    let mut queue = VecDeque::from([Situation::start()]);
    let (mut reached, mut ends) = (HashSet::new(), HashSet::new());
    while let Some(situation) = queue.pop_front() {
        let mut overnight = situation.clone();
        overnight.settle(tomorrow);
        assert_eq!(overnight.passes, Passes::default(), "nothing outlives the day");
        // Confirming toward a step out of reach is tried once at each step: it looks at nothing else.
        let first = tried.insert((situation.position, situation.phase));
        let in_reach = |event: &Event| match *event {
            Event::Confirm { toward, .. } => {
                first || situation.position.next(&situation.findings).is_none_or(|n| toward <= n)
            }
            _ => true,
        };
        let entries = events
            .iter()
            .filter(|e| in_reach(e))
            .map(|&event| Entry { at: MORNING, event });
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
