//! As much as the core gives: what holds it back, and what would give more.

use super::basis::{Basis, basis, own_wires, space};
use super::problem::problem;
use super::translate::transformer_goal;
use crate::job::{Goal, JobFile, Reading};
use crate::magnetics::circuit::mains::{OUTLETS, Outlet};
use crate::quantity::{Current, Origin};
use crate::rewind::goal::Target;
use crate::rewind::limits::Limit;
use crate::rewind::search::max_deliverable;

/// What would give more than the core gives now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Raise {
    /// A larger outlet for the same mains.
    Outlet(&'static Outlet),
    /// A fan.
    Fan,
    /// Half the time under load, or half the pulses.
    HalfTheDuty,
}

/// The most that the core gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Strongest {
    /// The current.
    pub current: Current,
    /// What holds it back.
    pub held_by: Option<Limit>,
    /// What would give more, and how much; none where nothing that is tried does.
    pub raise: Option<(Raise, Current)>,
}

/// Air of the fan that is tried, in m/s: a small axial fan blows 2 to 4. Common practice, no source.
pub(super) const FAN: f64 = 3.0;

/// A raise is told where it brings a twentieth more.
const WORTH: f64 = 1.05;

/// The most that a job's core gives and what holds it back; `None` where a number is the target that can
/// be had, and where nothing can be wound.
#[must_use]
pub fn strongest(file: &JobFile, answer: &Basis) -> Option<Strongest> {
    let (current, held_by) = match (answer.target, &answer.found.nearest) {
        (Target::AsMuch, _) => (
            answer.found.ranked.first()?.performance.working_current,
            answer.found.held_by,
        ),
        // Without a chosen winding the search has found the nearest in the same space.
        (Target::Number, Some((_, nearest))) if file.choice.is_none() => {
            (nearest.performance.working_current, answer.found.held_by)
        }
        (Target::Number, Some(_)) => most(file, answer)?,
        (Target::Number, None) => return None,
    };
    let tried: Vec<(Raise, JobFile)> = match held_by {
        Some(Limit::BranchCircuit) => with_outlets(file),
        Some(Limit::PrimaryHeat | Limit::WindingHeat) => cooler(file),
        _ => Vec::new(),
    };
    let raise = tried.into_iter().find_map(|(raise, file)| {
        let (more, _) = most(&file, answer)?;
        (more > current * WORTH).then_some((raise, more))
    });
    Some(Strongest {
        current,
        held_by,
        raise,
    })
}

/// The most of a job as it would be.
fn most(file: &JobFile, answer: &Basis) -> Option<(Current, Option<Limit>)> {
    let file = JobFile {
        choice: None,
        ..file.clone()
    };
    if file.conditions.pair.is_some() {
        let mut file = file;
        let goal = file.goal;
        file.conditions.want_as_much(&goal, true);
        let found = basis(&file).ok()?.found;
        return Some((found.ranked.first()?.performance.working_current, found.held_by));
    }
    let found = problem(&file);
    let goal = transformer_goal(&file.goal, &file.conditions)?;
    let own = own_wires(&file, &answer.catalogue);
    let most = max_deliverable(&found.rebuild, &goal, &space(&found, &file, &answer.catalogue, &own))?;
    Some((most.candidate.performance.working_current, most.held_by))
}

/// The larger outlets for the mains of a job, the smallest first.
pub(super) fn larger_outlets(file: &JobFile) -> Vec<&'static Outlet> {
    let mains = &file.mains;
    let larger = |outlet: &&Outlet| {
        (outlet.volts / mains.volts.value - 1.0).abs() < 0.11
            && (outlet.hertz - f64::from(mains.hertz)).abs() < 1.0
            && outlet.amps > mains.circuit.breaker_a
    };
    let mut outlets: Vec<&'static Outlet> = OUTLETS.iter().filter(larger).collect();
    outlets.sort_by(|a, b| a.amps.total_cmp(&b.amps));
    outlets
}

fn with_outlets(file: &JobFile) -> Vec<(Raise, JobFile)> {
    let on = |outlet: &'static Outlet| {
        let mut file = file.clone();
        file.mains.circuit.breaker_a = outlet.amps;
        outlet.word.clone_into(&mut file.mains.circuit.plug);
        (Raise::Outlet(outlet), file)
    };
    larger_outlets(file).into_iter().map(on).collect()
}

fn cooler(file: &JobFile) -> Vec<(Raise, JobFile)> {
    let mut list = Vec::new();
    if file.conditions.fan_m_per_s.is_none() {
        let mut fan = file.clone();
        fan.conditions.fan_m_per_s = Some(Reading::new(FAN, 1.0, Origin::Typical));
        list.push((Raise::Fan, fan));
    }
    let mut less = file.clone();
    match &mut less.goal {
        Goal::SpotWelder { pulses_per_minute, .. } => *pulses_per_minute /= 2.0,
        Goal::StickWelder { duty, .. }
        | Goal::ArcFurnace { duty, .. }
        | Goal::PlasmaCutter { duty, .. }
        | Goal::PlainSupply { duty, .. } => *duty /= 2.0,
        Goal::BatteryCharger { .. } | Goal::Choke { .. } | Goal::Ballast { .. } => return list,
    }
    list.push((Raise::HalfTheDuty, less));
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::start::demo_job;

    /// On a small breaker the outlet holds the core back, and a larger one gives what it is told to give.
    #[test]
    fn a_larger_outlet_gives_what_it_is_told_to_give() {
        let mut file = demo_job();
        let goal = file.goal;
        file.conditions.want_as_much(&goal, true);
        file.mains.circuit.breaker_a = 1.0;
        let found = strongest(&file, &basis(&file).unwrap()).unwrap();
        assert_eq!(found.held_by, Some(Limit::BranchCircuit), "{found:?}");
        let (raise, more) = found.raise.unwrap();
        let Raise::Outlet(outlet) = raise else {
            panic!("{raise:?}")
        };
        assert!(more > found.current * WORTH);
        file.mains.circuit.breaker_a = outlet.amps;
        outlet.word.clone_into(&mut file.mains.circuit.plug);
        let there = strongest(&file, &basis(&file).unwrap()).unwrap();
        assert_eq!(there.current, more);
    }

    /// A goal beyond any core is told what holds it back, never nothing.
    #[test]
    fn a_target_beyond_the_core_says_what_holds_it() {
        let mut file = demo_job();
        file.goal = crate::app::start::goal_of("stick_welder");
        if let Goal::StickWelder { arc_current_a, .. } = &mut file.goal {
            *arc_current_a = 200.0;
        }
        file.conditions.as_much.clear();
        let answer = basis(&file).unwrap();
        let found = strongest(&file, &answer).unwrap();
        assert_eq!(found.held_by, Some(Limit::PrimaryHeat), "{found:?}");
        let (_, nearest) = answer.found.nearest.as_ref().unwrap();
        assert_eq!(most(&file, &answer), Some((found.current, found.held_by)));
        assert_eq!(found.current, nearest.performance.working_current);
        assert!(found.raise.is_some_and(|(_, more)| more > found.current), "{found:?}");
    }
}
