//! Every state there is, events at random, and forged histories.

use std::collections::{HashSet, VecDeque};

use proptest::prelude::*;

use super::super::advance::step_on;
use super::*;

/// For each gate, every state that any sequence of events can reach on any days and with pauses, as
/// far as that gate decides: nobody is at a step whose hazard it guards unless it was confirmed this
/// day, nobody enters one unless it was confirmed for this stretch of work.
///
/// The other gates are granted before each event, and each thing that can happen because one of them
/// is missing (a fall back, another gate confirmed first) is tried as an event of its own. So each
/// exploration allows more than the teardown does, and what none of them reaches, no sequence of
/// events reaches. Another day and a pause of an hour are events, too.
#[test]
fn no_sequence_of_events_reaches_a_hazard_without_its_gates() {
    let (mut reached, mut ends, mut states) = (HashSet::new(), HashSet::new(), 0);
    let of_teardown = |gate: &Gate| {
        let ways = Way::ALL.iter().copied().map(Some).chain([None]);
        ways.flat_map(|way| Step::ALL.iter().flat_map(move |&step| gates(step, way)))
            .any(|other| other == *gate)
    };
    let guards: Vec<Gate> = Gate::ALL.iter().copied().filter(of_teardown).collect();
    assert_eq!(guards.len(), 12, "{guards:?}");
    for guard in guards {
        states += explore(guard, &mut reached, &mut ends);
    }
    assert_eq!(reached.len(), Step::ALL.len(), "every step can be reached");
    assert!(ends.contains(&Phase::Ended(End::Stored)) && ends.contains(&Phase::Ended(End::NoCore)));
    println!("{states} states");
}

/// What is recorded decides no gate, except for the way.
fn recorded() -> Situation {
    let mut situation = Situation::start();
    situation.findings.supply = Some(Supply::Transformer);
    situation.findings.at_back = Some(Winding::Primary);
    situation.findings.shunts = Some(ShuntFate::Keep);
    situation
}

/// Confirms every gate before a step, except for one.
fn grant(situation: &mut Situation, step: Step, guard: Gate) {
    let place = situation.place(step);
    for gate in situation.gates(step) {
        if gate != guard && situation.passes.passed(gate, place, MORNING).is_none() {
            for &item in gate.items() {
                situation.passes.confirm(gate, item, place, MORNING).unwrap();
            }
        }
    }
}

fn explore(guard: Gate, reached: &mut HashSet<Step>, ends: &mut HashSet<Phase>) -> usize {
    let mut events = events();
    // For the gates an abrasive disc is a grinder. Items are confirmed below.
    events.retain(|event| {
        !matches!(
            event,
            Event::Confirm { .. }
                | Event::Found(Finding::Way(Way::Abrasive) | Finding::WindingAtBack(_) | Finding::Shunts(_))
        )
    });
    let tomorrow = Moment {
        local_day: MORNING.local_day + 1,
        ..MORNING
    };
    let shut = |s: &Situation, step: Step| s.passes.passed(guard, s.place(step), MORNING).is_none();
    let mut seen = HashSet::new();
    let mut queue = VecDeque::from([recorded()]);
    while let Some(situation) = queue.pop_front() {
        let here = situation.position;
        let mut after = Vec::new();
        for &event in &events {
            let mut before = situation.clone();
            grant(&mut before, here, guard);
            if let Event::Go(step) = event {
                grant(&mut before, step, guard);
            }
            let Ok(next) = step_on(&before, Entry { at: MORNING, event }) else {
                continue;
            };
            if let Event::Go(step) = event {
                let open = guarded(&before, step, |gate| gate != guard || !shut(&before, step));
                assert!(open, "{guard:?}: {before:?} to {step:?}");
            }
            after.push(next);
        }
        for &toward in Step::ALL {
            // The gate confirmed whole. Half of it opens nothing and is forgotten with the next gate.
            let mut state = situation.clone();
            grant(&mut state, here, guard);
            grant(&mut state, toward, guard);
            for &item in guard.items() {
                let event = match item {
                    Item::ProvedByMeter => Event::Prove(proof(3.0)),
                    item => Event::Confirm { toward, item },
                };
                let Ok(next) = step_on(&state, Entry { at: MORNING, event }) else {
                    break;
                };
                if guard.items().last() == Some(&item) {
                    after.push(next.clone());
                } else {
                    let opened = |&&step: &&Step| shut(&state, step) && !shut(&next, step);
                    assert_eq!(Step::ALL.iter().find(opened), None, "half of {guard:?}: {next:?}");
                }
                state = next;
            }
            // Another gate confirmed toward a step.
            let mut turned = situation.clone();
            turned
                .passes
                .turn_toward(situation.place(toward), situation.place(here));
            after.push(turned);
            // A fall back because of another gate.
            if toward < here && toward.applies(&situation.findings) {
                let mut fallen = situation.clone();
                fallen.position = toward;
                fallen.passes.arrive(situation.place(toward));
                if fallen
                    .gates(toward)
                    .iter()
                    .all(|&gate| gate != guard || fallen.passes.held(gate, fallen.place(toward), MORNING))
                {
                    after.push(fallen);
                }
            }
        }
        let mut paused = situation.clone();
        paused.passes.end_stretch();
        assert!(guard.lasts() != Lasts::Stretch || Step::ALL.iter().all(|&step| shut(&paused, step)));
        after.push(paused);
        let mut overnight = situation.clone();
        overnight.settle(tomorrow);
        assert!(
            !overnight.passes.held(guard, overnight.place(here), tomorrow),
            "outlives the day"
        );
        after.push(overnight);
        for mut next in after {
            next.passes.only(guard, MORNING);
            let held = next.passes.held(guard, next.place(next.position), MORNING);
            assert!(
                guarded(&next, next.position, |gate| gate != guard || held),
                "{guard:?}: {next:?}"
            );
            let found = (next.findings.supply, next.findings.way);
            if seen.insert((next.position, next.phase, found, next.passes.clone())) {
                reached.insert(next.position);
                ends.insert(next.phase);
                queue.push_back(next);
            }
        }
    }
    seen.len()
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
                if let Event::Go(step) = event {
                    prop_assert!(is_open(&situation, step, at));
                }
                situation = next;
            }
        }
    }
}
