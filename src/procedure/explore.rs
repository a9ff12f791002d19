//! What every procedure is put through: each state that there is, events at random, forged histories.
//!
//! A procedure joins by implementing [`Explored`] beside its tests, where it says apart from the code
//! under test what must hold at a step.

use std::collections::{HashSet, VecDeque};
use std::hash::Hash;

use proptest::prelude::*;
use proptest::sample::Index;

use super::{Entry, Event, Phase, Procedure, Run, Situation, advance, step_on};
use crate::safety::{Gate, Item, Lasts, Moment};
use crate::words::Word;

/// When explorations and walks begin.
pub(crate) const MORNING: Moment = Moment {
    unix_ms: 1_000_000_000,
    local_day: 20_000,
};

/// What the exploration has to know of a procedure.
pub(crate) trait Explored: Procedure {
    /// The part of the facts that decides what may happen next.
    type Key: Hash + Eq;

    fn key(facts: &Self::Facts) -> Self::Key;

    /// What must hold at a step: the gate of each hazard, and what must be recorded before. `held` says
    /// whether a gate counts.
    fn guarded(&self, facts: &Self::Facts, step: Self::Step, held: &dyn Fn(Gate) -> bool) -> bool;

    /// Its own events, as they can look.
    fn acts(&self) -> Vec<Self::Act>;

    /// What confirms an item.
    fn confirming(&self, toward: Self::Step, item: Item) -> Event<Self> {
        Event::Confirm { toward, item }
    }

    /// Any gates that stand before a step, whatever was recorded.
    fn all_gates(&self, step: Self::Step) -> Vec<Gate>;
}

/// What an event of each kind can look like, without the items.
fn moves<P: Explored>(plan: &P) -> Vec<Event<P>> {
    let mut events = vec![
        Event::Again,
        Event::Brought,
        Event::Finish,
        Event::CouldNot { item: Item::Trained },
    ];
    events.extend(plan.acts().into_iter().map(Event::Act));
    for &step in P::Step::ALL {
        events.extend([
            Event::Go(step),
            Event::Renew { toward: step },
            Event::Doubt { toward: step },
        ]);
    }
    events
}

/// What an event of each kind can look like.
pub(crate) fn events<P: Explored>(plan: &P) -> Vec<Event<P>> {
    let mut events = moves(plan);
    for &toward in P::Step::ALL {
        for gate in plan.all_gates(toward) {
            events.extend(gate.items().iter().map(|&item| Event::Confirm { toward, item }));
        }
    }
    events
}

/// The person may be at the step: each gate was confirmed this day.
pub(crate) fn is_allowed<P: Explored>(plan: &P, situation: &Situation<P>, step: P::Step, now: Moment) -> bool {
    let place = situation.place(plan, step);
    plan.guarded(&situation.facts, step, &|gate| situation.passes.held(gate, place, now))
}

/// The person may begin the step: each gate was confirmed for this stretch of work.
pub(crate) fn is_open<P: Explored>(plan: &P, situation: &Situation<P>, step: P::Step, now: Moment) -> bool {
    let place = situation.place(plan, step);
    plan.guarded(&situation.facts, step, &|gate| {
        situation.passes.passed(gate, place, now).is_some()
    })
}

/// What an exploration has seen.
pub(crate) struct Seen<P: Procedure> {
    /// The gates that were explored.
    pub guards: Vec<Gate>,
    /// The steps that can be reached.
    pub reached: HashSet<P::Step>,
    /// The phases.
    pub phases: HashSet<Phase<P::End>>,
    /// How many states.
    pub states: usize,
}

/// For each gate, every state that any sequence of events can reach on any days and with pauses, as
/// far as that gate decides: nobody is at a step whose hazard it guards unless it was confirmed this
/// day, nobody enters one unless it was confirmed for this stretch of work.
///
/// The other gates are granted before each event, and each thing that can happen because one of them
/// is missing (a fall back, another gate confirmed first) is tried as an event of its own. So each
/// exploration allows more than the procedure does, and what none of them reaches, no sequence of
/// events reaches. Another day and a pause of an hour are events, too.
pub(crate) fn explore<P: Explored>(plan: &P, start: &Situation<P>) -> Seen<P> {
    let of_procedure = |gate: &Gate| P::Step::ALL.iter().any(|&step| plan.all_gates(step).contains(gate));
    let mut seen = Seen {
        guards: Gate::ALL.iter().copied().filter(of_procedure).collect(),
        reached: HashSet::new(),
        phases: HashSet::new(),
        states: 0,
    };
    for guard in seen.guards.clone() {
        explore_gate(plan, start, guard, &mut seen);
    }
    seen
}

/// Confirms every gate before the steps as far as `here` and before `toward`, except for one.
fn grant<P: Explored>(plan: &P, situation: &mut Situation<P>, toward: P::Step, guard: Gate) {
    let here = situation.position;
    let behind = P::Step::ALL.iter().copied().filter(|&step| step < here);
    for step in behind.chain([here, toward]) {
        let place = situation.place(plan, step);
        for gate in situation.gates(plan, step) {
            if gate != guard && situation.passes.passed(gate, place, MORNING).is_none() {
                for &item in gate.items() {
                    situation.passes.confirm(gate, item, place, MORNING).unwrap();
                }
            }
        }
    }
}

fn explore_gate<P: Explored>(plan: &P, start: &Situation<P>, guard: Gate, seen: &mut Seen<P>) {
    let events = moves(plan);
    let tomorrow = Moment {
        local_day: MORNING.local_day + 1,
        ..MORNING
    };
    let happens = |before: &Situation<P>, event| step_on(&mut plan.clone(), before, Entry { at: MORNING, event });
    let shut = |s: &Situation<P>, step| s.passes.passed(guard, s.place(plan, step), MORNING).is_none();
    let mut known = HashSet::new();
    let mut queue = VecDeque::from([start.clone()]);
    while let Some(situation) = queue.pop_front() {
        let here = situation.position;
        let mut after = Vec::new();
        for &event in &events {
            let mut before = situation.clone();
            let toward = match event {
                Event::Go(step) => step,
                _ => here,
            };
            grant(plan, &mut before, toward, guard);
            let Ok(next) = happens(&before, event) else {
                continue;
            };
            if let Event::Go(step) = event {
                let open = plan.guarded(&before.facts, step, &|gate| gate != guard || !shut(&before, step));
                assert!(open, "{guard:?}: {before:?} to {step:?}");
            }
            after.push(next);
        }
        for &toward in P::Step::ALL {
            // The gate confirmed whole. Half of it opens nothing and is forgotten with the next gate.
            let mut state = situation.clone();
            grant(plan, &mut state, toward, guard);
            for &item in guard.items() {
                let Ok(next) = happens(&state, plan.confirming(toward, item)) else {
                    break;
                };
                if guard.items().last() == Some(&item) {
                    after.push(next.clone());
                } else {
                    let opened = |&&step: &&P::Step| shut(&state, step) && !shut(&next, step);
                    assert_eq!(P::Step::ALL.iter().find(opened), None, "half of {guard:?}: {next:?}");
                }
                state = next;
            }
            // Another gate confirmed toward a step.
            let mut turned = situation.clone();
            turned
                .passes
                .turn_toward(situation.place(plan, toward), situation.place(plan, here));
            after.push(turned);
            // A fall back because of another gate.
            if toward < here && plan.applies(&situation.facts, toward) {
                let mut fallen = situation.clone();
                fallen.position = toward;
                fallen.passes.arrive(situation.place(plan, toward));
                let held = fallen.passes.held(guard, fallen.place(plan, toward), MORNING);
                if held || !fallen.gates(plan, toward).contains(&guard) {
                    after.push(fallen);
                }
            }
        }
        let mut paused = situation.clone();
        paused.passes.end_stretch();
        assert!(guard.lasts() != Lasts::Stretch || P::Step::ALL.iter().all(|&step| shut(&paused, step)));
        after.push(paused);
        let mut overnight = situation.clone();
        overnight.settle(plan, tomorrow);
        let outlives = overnight.passes.held(guard, overnight.place(plan, here), tomorrow);
        assert!(
            !outlives || guard.lasts() == Lasts::UntilReopened,
            "{guard:?} outlives the day"
        );
        after.push(overnight);
        for mut next in after {
            next.passes.only(guard, MORNING);
            let held = next.passes.held(guard, next.place(plan, next.position), MORNING);
            let guarded = plan.guarded(&next.facts, next.position, &|gate| gate != guard || held);
            assert!(guarded, "{guard:?}: {next:?}");
            if known.insert((next.position, next.phase, P::key(&next.facts), next.passes.clone())) {
                seen.reached.insert(next.position);
                seen.phases.insert(next.phase);
                queue.push_back(next);
            }
        }
    }
    seen.states += known.len();
}

/// Somebody careful goes from the first step to the end in one day; `found` is what they record at a step.
pub(crate) fn walk<P: Explored>(plan: P, found: impl Fn(&Run<P>, P::Step) -> Vec<P::Act>) -> Run<P> {
    let mut run = Run::start(plan);
    let mut at = MORNING;
    let mut happen = |run: &mut Run<P>, event: Event<P>| {
        at.unix_ms += 1000;
        *run = advance(run, Entry { at, event }).unwrap_or_else(|refusal| panic!("{event:?}: {refusal}"));
        at
    };
    let mut now = MORNING;
    loop {
        let here = run.step(now);
        for act in found(&run, here) {
            now = happen(&mut run, Event::Act(act));
        }
        let Some(toward) = run.next(here) else {
            break;
        };
        if !run.repeated(toward, now).is_empty() {
            now = happen(&mut run, Event::Renew { toward });
        }
        while let Some(gate) = run.gate_before(toward, now) {
            for &item in gate.items() {
                let event = run.plan().confirming(toward, item);
                now = happen(&mut run, event);
            }
        }
        now = happen(&mut run, Event::Go(toward));
    }
    happen(&mut run, Event::Finish);
    run
}

/// How a history is forged: an entry left out, doubled, swapped, moved to another day or replaced, or a
/// stretch of it left out.
pub(crate) fn forgery() -> impl Strategy<Value = (usize, Index, Index, Index)> {
    (0usize..6, any::<Index>(), any::<Index>(), any::<Index>())
}

/// Lives through a forged history as far as it is taken; nobody stands anywhere without gates.
pub(crate) fn live_forged<P: Explored>(
    run: &Run<P>,
    (kind, first, second, event): (usize, Index, Index, Index),
) -> Result<(), TestCaseError> {
    let all = events(run.plan());
    let mut log = run.history().to_vec();
    let (i, j) = (first.index(log.len()), second.index(log.len()));
    match kind {
        0 => drop(log.remove(i)),
        1 => log.insert(i, log[j]),
        2 => log.swap(i, j),
        3 => log[i].at.local_day += 1,
        4 => log[i].event = all[event.index(all.len())],
        _ => drop(log.drain(i.min(j)..i.max(j))),
    }
    let mut plan = run.plan().clone();
    let mut situation = Situation::start();
    for entry in log {
        match step_on(&mut plan, &situation, entry) {
            Ok(next) => situation = next,
            Err(_) => break,
        }
        prop_assert!(is_allowed(&plan, &situation, situation.position, entry.at));
    }
    Ok(())
}

/// Without one of the entries that `needed` picks, a history is refused.
pub(crate) fn refused_without<P: Explored>(
    run: &Run<P>,
    pick: Index,
    needed: impl Fn(&Event<P>) -> bool,
) -> Result<(), TestCaseError> {
    let mut log = run.history().to_vec();
    let places: Vec<usize> = (0..log.len()).filter(|&i| needed(&log[i].event)).collect();
    log.remove(places[pick.index(places.len())]);
    prop_assert!(Run::replay(run.plan().clone(), &log).is_err());
    Ok(())
}

/// Events at random moments: which one, milliseconds after [`MORNING`], days after.
pub(crate) fn moments() -> impl Strategy<Value = Vec<(Index, i64, i32)>> {
    prop::collection::vec((any::<Index>(), -5_000_000i64..90_000_000, 0i32..3), 1..300)
}

/// Lives through events at random; nobody stands or goes anywhere without gates.
pub(crate) fn live_random<P: Explored>(plan: &P, picks: Vec<(Index, i64, i32)>) -> Result<(), TestCaseError> {
    let events = events(plan);
    let mut plan = plan.clone();
    let mut situation = Situation::start();
    for (pick, ms, day) in picks {
        let at = Moment {
            unix_ms: MORNING.unix_ms + ms,
            local_day: MORNING.local_day + day,
        };
        let event = events[pick.index(events.len())];
        if let Ok(next) = step_on(&mut plan, &situation, Entry { at, event }) {
            prop_assert!(is_allowed(&plan, &next, next.position, at));
            if let Event::Go(step) = event {
                prop_assert!(is_open(&plan, &next, step, at));
            }
            situation = next;
        }
    }
    Ok(())
}

/// A whole history survives being stored, and so does an event of each kind.
pub(crate) fn survives_being_stored<P: Explored>(run: &Run<P>) {
    let lines: Vec<String> = run.history().iter().map(Entry::to_line).collect();
    let back: Vec<Entry<P>> = lines.iter().map(|line| Entry::from_line(line).unwrap()).collect();
    assert_eq!(Run::replay(run.plan().clone(), &back).as_ref(), Ok(run));
    let at = Moment {
        unix_ms: -5,
        local_day: 3,
    };
    for event in events(run.plan()) {
        let entry = Entry { at, event };
        assert_eq!(Entry::from_line(&entry.to_line()), Ok(entry));
    }
}

/// Any text is either refused or is a line that is written the same way.
pub(crate) fn read_or_refused<P: Explored>(line: &str) -> Result<(), TestCaseError> {
    if let Ok(entry) = Entry::<P>::from_line(line) {
        prop_assert_eq!(Entry::from_line(&entry.to_line()), Ok(entry));
    }
    Ok(())
}
