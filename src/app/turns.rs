//! One turn more or less: what the winding in hand becomes.

use super::basis::{Basis, own_wires, space};
use crate::job::JobFile;
use crate::magnetics::winding::Winding;
use crate::quantity::Current;
use crate::rewind::limits::Limit;
use crate::rewind::search::{Candidate, judge_in};

/// A winding with one turn more or less; with a tap, one more or less in each half.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Neighbour {
    /// Its turns.
    pub turns: u32,
    /// What it delivers, or what it breaks.
    pub gives: Result<Current, Limit>,
}

/// The turns of the winding in hand, and what is on either side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurnsAround {
    /// Turns in hand.
    pub turns: u32,
    /// One step down; none at the fewest.
    pub fewer: Option<Neighbour>,
    /// One step up.
    pub more: Option<Neighbour>,
    /// The turns around those in hand that keep every limit with the same conductor, at most
    /// [`FARTHEST`] away; none where the ones in hand do not.
    pub sensible: Option<(u32, u32)>,
}

/// How far from the turns in hand the sensible range is looked for.
pub const FARTHEST: u32 = 6;

/// The most turns that a choice takes.
const MOST_TURNS: u32 = 5000;

/// What is on either side of the winding in hand; `None` without a design.
#[must_use]
pub fn turns_around(file: &JobFile, answer: &Basis) -> Option<TurnsAround> {
    let design = answer.design.as_ref()?;
    let goal = super::translate::transformer_goal(&file.goal, &file.conditions)?;
    let own = own_wires(file, &answer.catalogue);
    let space = space(&answer.problem, file, &answer.catalogue, &own);
    let winding = design.candidate.winding;
    let at = |turns: u32| -> Option<Candidate> {
        let winding = Winding { turns, ..winding };
        judge_in(&answer.found, &answer.problem.rebuild, &goal, &space, winding)
    };
    let neighbour = |turns: u32| {
        let found = at(turns);
        let gives = match found {
            Some(found) => match found.broken.first() {
                None => Ok(found.performance.working_current),
                Some(limit) => Err(limit),
            },
            None => Err(Limit::ConductorTooWide),
        };
        Neighbour { turns, gives }
    };
    let turns = winding.turns;
    // Both halves of a tapped winding have as many turns.
    let step = if space.tapped { 2 } else { 1 };
    let keeps = |turns: u32| at(turns).is_some_and(|found| found.broken.is_empty());
    let sensible = design.candidate.broken.is_empty().then(|| {
        let least = (1..=FARTHEST / step)
            .map_while(|n| turns.checked_sub(n * step))
            .take_while(|t| *t > 0 && keeps(*t));
        let most = (1..=FARTHEST / step)
            .map(|n| turns + n * step)
            .take_while(|t| keeps(*t));
        (least.last().unwrap_or(turns), most.last().unwrap_or(turns))
    });
    Some(TurnsAround {
        turns,
        fewer: (turns > step).then(|| neighbour(turns - step)),
        more: (turns + step <= MOST_TURNS).then(|| neighbour(turns + step)),
        sensible,
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

    /// The stepper tells what the next step then shows.
    #[test]
    fn a_step_gives_what_was_told() {
        let mut file = demo_job();
        let answer = basis(&file).unwrap();
        let around = turns_around(&file, &answer).unwrap();
        let design = answer.design.as_ref().unwrap();
        let choice = as_choice(&design.candidate, &answer.problem.rebuild, &answer.catalogue);
        for neighbour in [around.fewer, around.more].into_iter().flatten() {
            file.choice = Some(crate::job::Choice {
                turns: neighbour.turns,
                ..choice.clone()
            });
            let there = basis(&file).unwrap().design.unwrap();
            match neighbour.gives {
                Ok(current) => assert_eq!(there.candidate.performance.working_current, current),
                Err(limit) => assert_eq!(there.candidate.broken.first(), Some(limit)),
            }
        }
        let (least, most) = around.sensible.unwrap();
        assert!(least <= around.turns && around.turns <= most);
        // Somewhere it ends: a spot welder's core does not take ten turns of a thick cable.
        assert!(around.more.is_some_and(|more| more.gives.is_err()) || most > around.turns);
    }
}
