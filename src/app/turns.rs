//! One turn more or less: what the winding in hand becomes.

use super::basis::{Basis, own_wires, space};
use super::pair::Both;
use super::problem::Problem;
use super::translate::pair_of;
use crate::job::JobFile;
use crate::magnetics::circuit::performance::Rebuild;
use crate::magnetics::winding::Winding;
use crate::quantity::Current;
use crate::rewind::goal::Target;
use crate::rewind::limits::Limit;
use crate::rewind::search::judge_in;

/// A winding with one turn more or less; with a tap, one more or less in each half.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Neighbour {
    /// Its turns.
    pub turns: u32,
    /// What it delivers, or what it breaks.
    pub gives: Result<Current, Limit>,
}

/// The turns of the winding in hand, and what is on either side.
#[derive(Debug, Clone, PartialEq)]
pub struct TurnsAround {
    /// Turns in hand.
    pub turns: u32,
    /// The turns around those in hand, at most [`SHOWN`] steps away on either side, fewest first, the ones
    /// in hand among them.
    pub steps: Vec<Neighbour>,
    /// The turns around those in hand that keep every limit with the same conductor, at most [`FARTHEST`]
    /// away; none where the ones in hand do not.
    pub sensible: Option<(u32, u32)>,
    /// The first turns below that range, and what they break; none where nothing within [`FARTHEST`] does.
    pub below: Option<(u32, Limit)>,
    /// The first turns above it, and what they break.
    pub above: Option<(u32, Limit)>,
}

impl TurnsAround {
    /// The step below the turns in hand; none at the fewest.
    #[must_use]
    pub fn fewer(&self) -> Option<&Neighbour> {
        self.steps.iter().rev().find(|step| step.turns < self.turns)
    }

    /// The step above the turns in hand; none at the most.
    #[must_use]
    pub fn more(&self) -> Option<&Neighbour> {
        self.steps.iter().find(|step| step.turns > self.turns)
    }

    /// Whether so many turns keep every limit, as far as that was looked at.
    #[must_use]
    pub fn is_sensible(&self, turns: u32) -> bool {
        self.sensible
            .is_some_and(|(least, most)| (least..=most).contains(&turns))
    }
}

/// How far from the turns in hand the sensible range is looked for.
pub const FARTHEST: u32 = 6;

/// How many steps are shown on either side.
pub const SHOWN: u32 = 3;

/// The most turns that a choice takes.
const MOST_TURNS: u32 = 5000;

/// What is on either side of the winding in hand, on both cores of a pair; `None` without a design.
#[must_use]
pub fn turns_around(file: &JobFile, answer: &Basis) -> Option<TurnsAround> {
    let design = answer.design.as_ref()?;
    let goal = super::translate::transformer_goal(&file.goal, &file.conditions)?;
    let own = own_wires(file, &answer.catalogue);
    let space = space(&answer.problem, file, &answer.catalogue, &own);
    let winding = design.candidate.winding;
    // Each number of turns has its own beside it.
    let alone = |rebuild: &Rebuild| Rebuild {
        other: None,
        ..*rebuild
    };
    let first = &alone(&answer.problem.rebuild);
    let second = answer.second.as_ref().map(|second| Problem {
        rebuild: alone(&second.problem.rebuild),
        ..second.problem.clone()
    });
    let both = second.as_ref().map(|second| Both {
        first,
        second,
        alike: pair_of(file).is_some_and(|pair| *pair.core == file.core),
    });
    let gives = |turns: u32| -> Result<Current, Limit> {
        let winding = Winding { turns, ..winding };
        let found = judge_in(&answer.found, first, &goal, &space, winding);
        let found = found.ok_or(Limit::ConductorTooWide)?;
        let joined = both
            .as_ref()
            .and_then(|both| both.joined(&found, &goal, &space, space.target == Target::AsMuch));
        let (found, beside) = joined.map_or((found, None), |(found, beside)| (found, Some(beside)));
        let broken = found
            .broken
            .first()
            .or_else(|| beside.and_then(|beside| beside.broken.first()));
        broken.map_or(Ok(found.performance.working_current), Err)
    };
    let turns = winding.turns;
    // Both halves of a tapped winding have as many turns.
    let step = if space.tapped { 2 } else { 1 };
    let far = (FARTHEST / step).max(1);
    let down = (1..=far).filter_map(|n| turns.checked_sub(n * step)).filter(|t| *t > 0);
    let up = (1..=far).map(|n| turns + n * step).filter(|t| *t <= MOST_TURNS);
    let keeps = design.candidate.broken.is_empty();
    let outwards = |way: &mut dyn Iterator<Item = u32>| {
        let (mut end, mut broken, mut seen) = (turns, None, Vec::new());
        for (n, turns) in way.enumerate() {
            if broken.is_some() && n >= SHOWN as usize {
                break;
            }
            let gives = gives(turns);
            match gives {
                Ok(_) if broken.is_none() => end = turns,
                Err(limit) if broken.is_none() => broken = Some((turns, limit)),
                Ok(_) | Err(_) => {}
            }
            if n < SHOWN as usize {
                seen.push(Neighbour { turns, gives });
            }
        }
        (end, broken, seen)
    };
    let (least, below, mut steps) = outwards(&mut { down });
    let (most, above, after) = outwards(&mut { up });
    steps.reverse();
    steps.push(Neighbour {
        turns,
        gives: design
            .candidate
            .broken
            .first()
            .map_or(Ok(design.candidate.performance.working_current), Err),
    });
    steps.extend(after);
    Some(TurnsAround {
        turns,
        steps,
        sensible: keeps.then_some((least, most)),
        below: below.filter(|_| keeps),
        above: above.filter(|_| keeps),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::{as_choice, basis};
    use crate::app::start::demo_job;

    /// A winding of the list is, once chosen, what the list said; for a load that is held down too.
    #[test]
    fn a_chosen_winding_is_what_the_list_said() {
        for word in ["spot_welder", "stick_welder", "battery_charger", "plain_supply"] {
            let mut file = demo_job();
            if file.goal.word() != word {
                file.goal = crate::app::start::goal_of(word);
            }
            let goal = file.goal;
            file.conditions.want_as_much(&goal, true);
            let answer = basis(&file).unwrap();
            for listed in answer.found.ranked.iter().take(4) {
                file.choice = Some(as_choice(listed, &answer.problem.rebuild, &answer.catalogue));
                let design = basis(&file).unwrap().design.unwrap();
                assert!(design.candidate.broken.is_empty(), "{word}: {:?}", design.candidate);
                let (told, shown) = (
                    listed.performance.working_current,
                    design.estimate.working_current.value,
                );
                assert!((told / shown - 1.0).abs() < 1e-9, "{word}: {told:?} {shown:?}");
            }
        }
    }

    /// The stepper tells what each step then shows, of one core and of two unlike ones; the range that is
    /// marked keeps every limit, and what breaks beside it does.
    #[test]
    fn a_step_gives_what_was_told() {
        let mut pair = demo_job();
        pair.choice = None;
        pair.goal = crate::app::start::goal_of("stick_welder");
        let goal = pair.goal;
        pair.conditions.want_as_much(&goal, true);
        let mut core = pair.core.clone();
        core.window_height_mm.value *= 0.95;
        pair.conditions.pair = Some(crate::job::PairChoice {
            name: "the other".into(),
            core: Box::new(core),
            windings: crate::job::Joining::Series,
        });
        for mut file in [demo_job(), pair] {
            let answer = basis(&file).unwrap();
            let around = turns_around(&file, &answer).unwrap();
            let design = answer.design.as_ref().unwrap();
            let choice = as_choice(&design.candidate, &answer.problem.rebuild, &answer.catalogue);
            let mut at = |turns: u32| {
                file.choice = Some(crate::job::Choice {
                    turns,
                    ..choice.clone()
                });
                basis(&file).unwrap().design.unwrap().candidate
            };
            assert_eq!(around.steps.iter().filter(|step| step.turns == around.turns).count(), 1);
            assert!(around.steps.windows(2).all(|two| two[0].turns < two[1].turns));
            for neighbour in &around.steps {
                let there = at(neighbour.turns);
                match neighbour.gives {
                    Ok(current) => {
                        assert!((there.performance.working_current / current - 1.0).abs() < 1e-9);
                        assert!(there.broken.is_empty(), "{neighbour:?}: {:?}", there.broken);
                    }
                    Err(_) => assert!(!there.broken.is_empty(), "{neighbour:?}"),
                }
            }
            let (least, most) = around.sensible.unwrap();
            assert!(least <= around.turns && around.turns <= most);
            assert!(around.is_sensible(least) && !around.is_sensible(most + 1));
            for (end, outside) in [(least, around.below), (most, around.above)] {
                assert!(at(end).broken.is_empty(), "{end}");
                if let Some((turns, limit)) = outside {
                    assert_eq!(turns.abs_diff(end), 1);
                    assert!(at(turns).broken.has(limit), "{turns} turns: {limit:?}");
                }
            }
            // Somewhere it ends: no core takes six turns more of a thick cable.
            assert!(around.above.is_some(), "{around:?}");
        }
    }
}
