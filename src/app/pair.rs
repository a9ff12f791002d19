//! The search for a winding that goes on two cores: both have the same conductor, their turns give the
//! same voltage, and what is offered keeps every limit on either.
//!
//! A core of a pair is solved as one of two like itself ([`Rebuild::together`]): what the part delivers
//! and draws is that of both, its heat and its winding its own.

use super::problem::Problem;
use crate::magnetics::circuit::performance::{OtherCore, Prepared, Rebuild};
use crate::magnetics::winding::Winding;
use crate::rewind::goal::{Goal, Target};
use crate::rewind::search::{Candidate, Found, SearchSpace, judge, search};

/// The goal with the current that a winding delivers.
#[must_use]
pub fn delivered(goal: &Goal, candidate: &Candidate) -> Goal {
    let p = &candidate.performance;
    let current = match *goal {
        // The load that was put on it takes this at its own voltage.
        Goal::PlainSupply { volts, .. } if p.working_voltage.si() > 0.0 => {
            p.working_current * (volts / p.working_voltage)
        }
        _ => p.working_current,
    };
    if current.si() > 0.0 {
        goal.scaled(current / goal.current())
    } else {
        *goal
    }
}

/// Both cores of a job, ready for the search.
pub(super) struct Both<'a> {
    pub(super) first: &'a Rebuild,
    pub(super) second: &'a Problem,
    /// Whether the second has the first one's measures.
    pub(super) alike: bool,
}

impl Both<'_> {
    /// The second core's winding for one of the first: the same conductors, turns for the same voltage;
    /// one turn beside them where those break a limit.
    pub(super) fn beside(
        &self,
        first: &Candidate,
        goal: &Goal,
        space: &SearchSpace<'_>,
        all_there_is: bool,
    ) -> Option<Candidate> {
        if self.alike {
            return Some(*first);
        }
        let goal = if all_there_is { delivered(goal, first) } else { *goal };
        let space = SearchSpace {
            target: Target::Number,
            heat: self.second.heat,
            ..space.clone()
        };
        let volts = |rebuild: &Rebuild| Prepared::new(rebuild).volts_per_turn();
        let same = f64::from(first.winding.turns) * (volts(self.first) / volts(&self.second.rebuild));
        let nearest = same.round().clamp(1.0, 5000.0) as u32;
        let at = |turns: u32| {
            let winding = Winding { turns, ..first.winding };
            judge(&self.second.rebuild, &goal, &space, winding)
        };
        let found = at(nearest);
        if found.is_some_and(|found| found.broken.is_empty()) {
            return found;
        }
        let kept = [nearest + 1, nearest.saturating_sub(1).max(1)]
            .into_iter()
            .find_map(|turns| {
                let found = at(turns)?;
                found.broken.is_empty().then_some(found)
            });
        kept.or(found)
    }

    /// A winding of the first core as it is with the second one's beside it, and that one; `None` where the
    /// second takes none. What both deliver follows from both impedances.
    pub(super) fn joined(
        &self,
        first: &Candidate,
        goal: &Goal,
        space: &SearchSpace<'_>,
        all_there_is: bool,
    ) -> Option<(Candidate, Candidate)> {
        let beside = self.beside(first, goal, space, all_there_is)?;
        if self.alike {
            return Some((*first, beside));
        }
        let goal = if all_there_is { delivered(goal, first) } else { *goal };
        let numbered = SearchSpace {
            target: Target::Number,
            ..space.clone()
        };
        let [of_first, of_second] = self.cores(&first.winding, &beside.winding);
        let joined = judge(&of_first, &goal, &numbered, first.winding)?;
        let numbered = SearchSpace {
            heat: self.second.heat,
            ..numbered
        };
        let beside = judge(&of_second, &goal, &numbered, beside.winding)?;
        let joined = Candidate {
            score: first.score,
            held_by: first.held_by,
            ..joined
        };
        Some((joined.with_second(&beside, space), beside))
    }

    /// Both cores, each with the other's winding beside its own; alike ones as they are.
    pub(super) fn cores(&self, first: &Winding, second: &Winding) -> [Rebuild; 2] {
        let with = |core: &Rebuild, other: (&Rebuild, &Winding)| Rebuild {
            other: OtherCore::of(other.0, other.1).filter(|_| !self.alike),
            ..*core
        };
        let of_second = &self.second.rebuild;
        [
            with(self.first, (of_second, second)),
            with(of_second, (self.first, first)),
        ]
    }

    /// Searches both cores for one goal: what is offered keeps every limit on either.
    pub(super) fn search(&self, goal: &Goal, space: &SearchSpace<'_>) -> Found {
        let first = search(self.first, goal, space);
        if self.alike {
            return first;
        }
        let of_second = SearchSpace {
            heat: self.second.heat,
            ..space.clone()
        };
        if first.ranked.is_empty() {
            return first;
        }
        let second = search(&self.second.rebuild, goal, &of_second);
        let Some(weaker) = second.ranked.first() else {
            // What it can give of the number is what the pair can give.
            return Found {
                ranked: Vec::new(),
                nearest: second.nearest,
                held_by: second.held_by,
                ..first
            };
        };
        let amps = |c: &Candidate| c.performance.working_current;
        let strongest = first.ranked.first().map_or(amps(weaker), amps);
        let (mut found, goal, held_by) = match space.target {
            // The weaker core holds the pair: both are wound for what it gives, a fiftieth less so that a
            // round number of turns reaches it.
            Target::AsMuch if amps(weaker) < strongest => {
                let goal = delivered(goal, weaker).scaled(0.98);
                let numbered = SearchSpace {
                    target: Target::Number,
                    ..space.clone()
                };
                (search(self.first, &goal, &numbered), goal, second.held_by)
            }
            _ => (first, *goal, None),
        };
        if held_by.is_some() {
            found.held_by = held_by;
        }
        let all_there_is = space.target == Target::AsMuch;
        let mut kept: Vec<Candidate> = Vec::with_capacity(found.ranked.len());
        let (mut moved, mut first_moved) = (false, false);
        for candidate in found.ranked {
            let Some((with_second, beside)) = self.joined(&candidate, &goal, space, all_there_is) else {
                continue;
            };
            match with_second.broken.first().or_else(|| beside.broken.first()) {
                None => {
                    moved |= with_second.group != candidate.group;
                    first_moved |= kept.is_empty() && moved;
                    kept.push(with_second);
                }
                Some(limit) => match found.dropped.iter_mut().find(|(other, _)| *other == limit) {
                    Some((_, count)) => *count += 1,
                    None => found.dropped.push((limit, 1)),
                },
            }
        }
        // Own wire that is long enough for one core alone is no own wire of the pair.
        if moved && let Some(listed) = kept.get_mut(usize::from(!first_moved)..) {
            listed.sort_by_key(|candidate| candidate.group);
        }
        found.ranked = kept;
        if found.ranked.is_empty() && found.nearest.is_none() {
            found.nearest = second.ranked.first().map(|c| (amps(c) / goal.current(), *c));
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use crate::app::basis::{Basis, basis};
    use crate::app::bench::{SECOND_PRIMARY, SECOND_WINDING, plan_of};
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of};
    use crate::bench::Stage;
    use crate::job::{JobFile, Joining, PairChoice};
    use crate::magnetics::circuit::protection::Tripping;

    /// The demo's core as a stick welder with a second core whose stack and primary wire are `stack` of its
    /// own.
    fn stick(windings: Option<Joining>, stack: f64) -> JobFile {
        let mut file = demo_job();
        file.choice = None;
        file.goal = goal_of("stick_welder");
        let goal = file.goal;
        file.conditions.want_as_much(&goal, true);
        let mut core = file.core.clone();
        core.stack_mm.value *= stack;
        core.primary.test_turn = None;
        core.primary.old_secondary = None;
        core.primary.resistance_ohm = None;
        if let Some(wire) = &mut core.primary.wire_diameter_mm {
            wire.value *= stack;
        }
        if let Some(turns) = core.primary.counted_turns.as_mut().filter(|_| stack != 1.0) {
            turns.value = (turns.value / stack).round();
        }
        file.conditions.pair = windings.map(|windings| PairChoice {
            name: "the other".into(),
            core: Box::new(if stack == 1.0 { file.core.clone() } else { core }),
            windings,
        });
        file
    }

    /// Two cores carry twice the heat of one (arithmetic), on the same branch circuit, and the open-circuit
    /// voltage of the use holds for both together.
    #[test]
    fn two_cores_give_more_than_one_on_the_same_outlet() {
        let amps = |answer: &Basis| answer.design.as_ref().unwrap().estimate.working_current.value;
        let one = amps(&basis(&stick(None, 1.0)).unwrap());
        for windings in Joining::ALL {
            let answer = basis(&stick(Some(*windings), 1.0)).unwrap();
            let two = amps(&answer);
            assert!(two > one * 1.5, "{windings:?}: {two:?} of {one:?}");
            let design = answer.design.as_ref().unwrap();
            assert!(design.candidate.broken.is_empty());
            let required = answer.goal.unwrap().requirements();
            let draw = required.draw(design.estimate.mains_current.value);
            assert_ne!(
                answer.problem.rebuild.mains.protection.verdict_on(&draw),
                Tripping::Trips
            );
            let most = required.open_circuit_most.unwrap().volts;
            assert!(design.estimate.open_circuit.value <= most);
            assert!(design.estimate.open_circuit.value >= required.open_circuit_least.unwrap());
        }
    }

    /// In series each winding gives half the voltage at the whole current, in parallel the whole voltage at
    /// half of it (Kirchhoff's laws).
    #[test]
    fn windings_share_voltage_or_current() {
        for (windings, volts, current) in [(Joining::Series, 2.0, 1.0), (Joining::Parallel, 1.0, 0.5)] {
            let answer = basis(&stick(Some(windings), 1.0)).unwrap();
            let design = answer.design.as_ref().unwrap();
            let rebuild = &answer.problem.rebuild;
            let turns = f64::from(design.candidate.winding.turns);
            let one = rebuild.mains.voltage.value * (turns / rebuild.primary.turns.value.si());
            let estimate = &design.estimate;
            assert!((estimate.open_circuit.value / one / volts - 1.0).abs() < 1e-9);
            assert!((estimate.winding_current.value / estimate.working_current.value / current - 1.0).abs() < 1e-9);
            // Both primaries together draw the load's current and twice the no-load current, at some angle.
            let (load, idle) = (estimate.primary_current.value * 2.0, rebuild.idle_current.value * 2.0);
            assert!(estimate.mains_current.value > load && estimate.mains_current.value <= load + idle);
        }
    }

    /// A smaller second core holds the pair down, its turns give the first one's voltage, and neither winding
    /// is told to break a limit.
    #[test]
    fn a_smaller_second_core_holds_the_pair() {
        let amps = |answer: &Basis| answer.design.as_ref().unwrap().estimate.working_current.value;
        let alike = basis(&stick(Some(Joining::Series), 1.0)).unwrap();
        let unlike = basis(&stick(Some(Joining::Series), 0.8)).unwrap();
        assert!(amps(&unlike) < amps(&alike), "{:?} {:?}", amps(&unlike), amps(&alike));
        let volts = |answer: &Basis| {
            let turns = f64::from(answer.design.as_ref().unwrap().candidate.winding.turns);
            turns / answer.problem.rebuild.primary.turns.value.si()
        };
        let second = unlike.of_second().unwrap();
        assert!((volts(&second) / volts(&unlike) - 1.0).abs() < 0.1);
        let candidate = second.design.as_ref().unwrap().candidate;
        assert!(candidate.broken.is_empty(), "{:?}", candidate.broken);
    }

    /// Kirchhoff's and Ohm's laws for unlike cores in series: into a dead short flows the sum of both e.m.f.s
    /// over the sum of both impedances and the mains loop's; either core of the pair has the same answer, and
    /// the same cores the other way round too. Alike cores are the case of two equal ones.
    #[test]
    fn unlike_cores_have_one_circuit() {
        use crate::magnetics::circuit::performance::OtherCore;
        let answer = basis(&stick(Some(Joining::Series), 0.8)).unwrap();
        let second = answer.of_second().unwrap();
        let of = |basis: &Basis| basis.design.as_ref().unwrap().estimate;
        let alone = |basis: &Basis| {
            let winding = basis.design.as_ref().unwrap().candidate.winding;
            OtherCore::of(&basis.problem.rebuild, &winding).unwrap()
        };
        let (one, other) = (alone(&answer), alone(&second));
        assert!(
            (one.reactance.value / other.reactance.value - 1.0).abs() > 0.02,
            "they are unlike"
        );
        let loop_of = answer.problem.rebuild.supply_resistance.value.si() * (one.ratio + other.ratio).powi(2);
        let resistance = (one.resistance.value + other.resistance.value).si() + loop_of;
        let reactance = (one.reactance.value + other.reactance.value).si();
        let short = (one.emf + other.emf).si() / resistance.hypot(reactance);
        for basis in [&answer, &second] {
            let estimate = of(basis);
            assert!(
                (estimate.short_circuit.value.si() / short - 1.0).abs() < 1e-9,
                "{estimate:?}"
            );
            assert!((estimate.leakage_reactance.value.si() / reactance - 1.0).abs() < 1e-9);
            assert!((estimate.total_resistance.value.si() / resistance - 1.0).abs() < 1e-9);
            assert!(estimate.short_circuit.plus_minus.si() > 0.0);
        }
        let reactors = [&answer, &second].map(|basis| of(basis).series_reactance.value.si());
        assert!(
            (reactors[0] - reactors[1]).abs() <= 0.02 * reactors[0].abs() + 1e-9,
            "{reactors:?}"
        );
        // Both primaries together take what the mains give.
        let primaries = [&answer, &second].map(|basis| of(basis).primary_current.value.si());
        let load = of(&answer).working_current.value.si() * (one.ratio + other.ratio);
        assert!(
            (primaries.iter().sum::<f64>() / load - 1.0).abs() < 1e-6,
            "{primaries:?} {load}"
        );
    }

    /// The wire of the list is that of both cores, so that own wire for one core is no own wire of a pair
    /// (arithmetic).
    #[test]
    fn own_wire_is_counted_for_both_cores() {
        use crate::rewind::handwork::Group;
        let one = basis(&stick(Some(Joining::Series), 1.0)).unwrap();
        let best = *one.found.ranked.first().unwrap();
        for stack in [1.0, 0.8] {
            let mut file = stick(Some(Joining::Series), stack);
            for (part, own) in [(0.7, false), (1.3, true)] {
                file.stock = vec![crate::job::StockWire {
                    conductor: one.catalogue.name(&best.winding.conductor).to_owned(),
                    length_m: best.wire.si() * part,
                    price_per_m: None,
                }];
                let answer = basis(&file).unwrap();
                let same = |c: &&crate::rewind::search::Candidate| c.winding.conductor == best.winding.conductor;
                if let Some(found) = answer.found.ranked.iter().find(same) {
                    assert_eq!(found.group == Group::Own, own, "{stack} {part}: {found:?}");
                }
            }
        }
    }

    /// The bench tests either core by itself and the phasing of both.
    #[test]
    fn a_pair_has_tests_of_its_own() {
        let file = stick(Some(Joining::Series), 0.8);
        let answer = evaluate(&file).unwrap();
        let plan = plan_of(&file, &answer).unwrap().unwrap();
        for (stage, of) in [
            (Stage::Continuity, SECOND_PRIMARY),
            (Stage::Continuity, SECOND_WINDING),
            (Stage::Insulation, SECOND_WINDING),
            (Stage::RatioPolarity, SECOND_WINDING),
            (Stage::LampIdle, SECOND_PRIMARY),
            (Stage::MainsIdle, SECOND_PRIMARY),
        ] {
            assert!(plan.of_stage(stage).any(|p| p.of == of), "{stage:?} {of}");
        }
        assert_eq!(plan.of_stage(Stage::PairPhasing).count(), 1);
    }
}
