//! What it would take to reach a target that is beyond the core: a second core, a larger outlet, a fan,
//! less time under load, or several of these; and the nearest that the core gives as it is.

use super::basis::{basis, own_wires, space};
use super::compare::OnShelf;
use super::problem::problem;
use super::strongest::{FAN, larger_outlets};
use super::translate::transformer_goal;
use crate::job::{Core, Goal, JobFile, Joining, PairChoice, Reading};
use crate::magnetics::circuit::mains::Outlet;
use crate::quantity::{Current, Origin};
use crate::rewind::limits;
use crate::rewind::search::max_deliverable;
use crate::wire::Catalogue;

/// One change of a job.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    /// The target is the nearest that can be had.
    Nearest(Current),
    /// A second core.
    Pair(PairChoice),
    /// The windings of the pair are joined so.
    Joined(Joining),
    /// One core again.
    OneCore,
    /// A larger outlet for the same mains.
    Outlet(&'static Outlet),
    /// A fan.
    Fan,
    /// The load is on for this part of the time; of a spot welder, so many pulses a minute.
    Duty(f64),
}

impl Step {
    /// Makes the change.
    pub fn apply(&self, file: &mut JobFile) {
        // A winding that was chosen was chosen for what the job was.
        file.choice = None;
        match self {
            Step::Nearest(current) => set_current(&mut file.goal, current.si()),
            Step::Pair(pair) => file.conditions.pair = Some(pair.clone()),
            Step::Joined(windings) => {
                if let Some(pair) = &mut file.conditions.pair {
                    pair.windings = *windings;
                }
            }
            Step::OneCore => file.conditions.pair = None,
            Step::Outlet(outlet) => {
                file.mains.circuit.breaker_a = outlet.amps;
                outlet.word.clone_into(&mut file.mains.circuit.plug);
            }
            Step::Fan => file.conditions.fan_m_per_s = Some(Reading::new(FAN, 1.0, Origin::Typical)),
            Step::Duty(duty) => set_duty(&mut file.goal, *duty),
        }
    }
}

fn set_current(goal: &mut Goal, amps: f64) {
    match goal {
        Goal::SpotWelder { weld_current_a: at, .. }
        | Goal::StickWelder { arc_current_a: at, .. }
        | Goal::ArcFurnace { current_a: at, .. }
        | Goal::PlasmaCutter { cut_current_a: at, .. }
        | Goal::BatteryCharger {
            charge_current_a: at, ..
        }
        | Goal::PlainSupply { amps: at, .. } => *at = amps,
        Goal::Choke { .. } | Goal::Ballast { .. } => {}
    }
}

/// The part of the time that a goal's load is on; of a spot welder its pulses a minute.
fn duty_of(goal: &Goal) -> Option<f64> {
    match *goal {
        Goal::SpotWelder { pulses_per_minute, .. } => Some(pulses_per_minute),
        Goal::StickWelder { duty, .. }
        | Goal::ArcFurnace { duty, .. }
        | Goal::PlasmaCutter { duty, .. }
        | Goal::PlainSupply { duty, .. } => Some(duty),
        Goal::BatteryCharger { .. } | Goal::Choke { .. } | Goal::Ballast { .. } => None,
    }
}

fn set_duty(goal: &mut Goal, to: f64) {
    match goal {
        Goal::SpotWelder { pulses_per_minute, .. } => *pulses_per_minute = to,
        Goal::StickWelder { duty, .. }
        | Goal::ArcFurnace { duty, .. }
        | Goal::PlasmaCutter { duty, .. }
        | Goal::PlainSupply { duty, .. } => *duty = to,
        Goal::BatteryCharger { .. } | Goal::Choke { .. } | Goal::Ballast { .. } => {}
    }
}

/// Changes of a job, and the most that it then gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Reach {
    /// What to change, one after the other.
    pub steps: Vec<Step>,
    /// The most current then.
    pub gives: Current,
    /// Whether that reaches the target.
    pub reaches: bool,
}

/// The uses that one core seldom serves.
#[must_use]
pub const fn wants_two(goal: &Goal) -> bool {
    matches!(
        goal,
        Goal::StickWelder { .. } | Goal::ArcFurnace { .. } | Goal::PlasmaCutter { .. }
    )
}

/// A second core: what it is called, and its measures.
#[derive(Debug, Clone, PartialEq)]
pub struct Spare {
    /// What it is called.
    pub name: String,
    /// Its measures.
    pub core: Core,
}

impl From<&OnShelf> for Spare {
    fn from(on_shelf: &OnShelf) -> Self {
        Self {
            name: on_shelf.file.name.clone(),
            core: on_shelf.file.core.clone(),
        }
    }
}

/// The most current of a job as it stands, by a search for all there is; `None` where nothing can be
/// wound.
#[must_use]
pub fn most_of(file: &JobFile) -> Option<Current> {
    let mut file = file.clone();
    file.choice = None;
    let goal = file.goal;
    file.conditions.want_as_much(&goal, true);
    if file.conditions.pair.is_some() {
        let found = basis(&file).ok()?;
        return Some(found.found.ranked.first()?.performance.working_current);
    }
    let catalogue = Catalogue::standard();
    let found = problem(&file);
    let goal = transformer_goal(&file.goal, &file.conditions)?;
    let own = own_wires(&file, &catalogue);
    let most = max_deliverable(&found.rebuild, &goal, &space(&found, &file, &catalogue, &own))?;
    Some(most.candidate.performance.working_current)
}

/// Which way the windings of a pair are best joined; the primaries always lie side by side on the mains.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JoinAdvice {
    /// The way.
    pub best: Joining,
    /// The most that the pair gives so.
    pub gives: Current,
    /// The most that it gives the other way; `None` where nothing can be wound for that.
    pub other: Option<Current>,
    /// Why.
    pub why: JoinReason,
}

/// Why windings are best joined one way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JoinReason {
    /// Nothing that keeps every limit can be wound for the other way.
    OnlyWay,
    /// It gives more.
    GivesMore,
    /// Both ways give about the same, and in series the same current flows in both windings.
    SameCurrent,
}

/// How a job's core and a spare one are best joined: as gives more; in series where both give about the
/// same, since then the same current flows in both. `None` where nothing can be wound either way.
#[must_use]
pub fn join_advice(file: &JobFile, spare: &Spare) -> Option<JoinAdvice> {
    let at = |windings: Joining| {
        let mut file = file.clone();
        Step::Pair(paired(spare, windings)).apply(&mut file);
        most_of(&file)
    };
    let advice = |best, gives, other, why| JoinAdvice {
        best,
        gives,
        other,
        why,
    };
    Some(match (at(Joining::Series), at(Joining::Parallel)) {
        (None, None) => return None,
        (Some(series), None) => advice(Joining::Series, series, None, JoinReason::OnlyWay),
        (None, Some(parallel)) => advice(Joining::Parallel, parallel, None, JoinReason::OnlyWay),
        (Some(series), Some(parallel)) if parallel > series * WORTH => {
            advice(Joining::Parallel, parallel, Some(series), JoinReason::GivesMore)
        }
        (Some(series), Some(parallel)) => {
            let why = if series > parallel * WORTH {
                JoinReason::GivesMore
            } else {
                JoinReason::SameCurrent
            };
            advice(Joining::Series, series, Some(parallel), why)
        }
    })
}

fn paired(spare: &Spare, windings: Joining) -> PairChoice {
    PairChoice {
        name: spare.name.clone(),
        core: Box::new(spare.core.clone()),
        windings,
    }
}

/// A job's core with a spare one beside it, joined by [`join_advice`], with the most that the pair gives.
#[must_use]
pub fn joined_best(file: &JobFile, spare: &Spare) -> Option<(PairChoice, Current)> {
    let advice = join_advice(file, spare)?;
    Some((paired(spare, advice.best), advice.gives))
}

/// What is told of changes brings at least this much more.
const WORTH: f64 = 1.03;
/// The most spare cores that are tried.
const TRIED: usize = 3;
/// Parts of the time under load that are tried, of what the job has now.
const LESS: [f64; 6] = [0.75, 0.5, 0.35, 0.25, 0.15, 0.1];

/// What it would take to reach the number that a job wants, the least change first: never empty where
/// anything can be wound, as the job is or with one of the changes. `like_this` is what a second core like the job's own is called.
#[must_use]
pub fn what_it_takes(file: &JobFile, spares: &[Spare], like_this: &str) -> Vec<Reach> {
    let mut file = file.clone();
    file.choice = None;
    let goal = file.goal;
    file.conditions.want_as_much(&goal, false);
    let Some(wanted) = transformer_goal(&file.goal, &file.conditions).map(|goal| goal.current()) else {
        return Vec::new();
    };
    // Nothing, where the core runs too hot by itself or has no room: then every change that gives some helps.
    let now = most_of(&file);
    let with = |steps: &[Step]| {
        let mut file = file.clone();
        for step in steps {
            step.apply(&mut file);
        }
        file
    };
    let giving = |steps: Vec<Step>, gives: Current| Reach {
        reaches: gives >= wanted * (1.0 - limits::SHORT_OF_TARGET.si()),
        steps,
        gives,
    };
    let tried = |steps: Vec<Step>| {
        let gives = most_of(&with(&steps))?;
        Some(giving(steps, gives))
    };
    let nearest = |now: Current| Reach {
        steps: vec![Step::Nearest(rounded_down(now))],
        gives: now,
        reaches: true,
    };
    let mut list: Vec<Reach> = now.map(nearest).into_iter().collect();
    let outlets: Vec<Step> = larger_outlets(&file).into_iter().map(Step::Outlet).collect();
    let mut single: Vec<Reach> = Vec::new();
    // The smallest outlet that reaches it, else the largest.
    single.extend(until_reached(
        outlets.iter().filter_map(|step| tried(vec![step.clone()])),
    ));
    if file.conditions.fan_m_per_s.is_none() {
        single.extend(tried(vec![Step::Fan]));
    }
    let less = |before: &[Step]| {
        let duty = duty_of(&file.goal)?;
        let at = |part: f64| {
            let step = Step::Duty(tidy(duty * part));
            tried([before, &[step]].concat())
        };
        until_reached(LESS.into_iter().filter_map(at))
    };
    single.extend(less(&[]));
    let mut pairs: Vec<Reach> = Vec::new();
    if file.conditions.pair.is_none() {
        let own = Spare {
            name: like_this.to_owned(),
            core: file.core.clone(),
        };
        let on_shelf = spares.iter().take(TRIED);
        // One like this is looked for where the shelf has no other.
        let spares: Vec<&Spare> = if spares.is_empty() {
            vec![&own]
        } else {
            on_shelf.collect()
        };
        for spare in spares {
            let joined = joined_best(&file, spare);
            pairs.extend(joined.map(|(pair, gives)| giving(vec![Step::Pair(pair)], gives)));
        }
        pairs.sort_by(|a, b| b.gives.si().total_cmp(&a.gives.si()));
    }
    let helps = |reach: &Reach| reach.reaches || now.is_none_or(|now| reach.gives > now * WORTH);
    let reaching = |list: &[Reach]| list.iter().any(|reach| reach.reaches);
    let mut several: Vec<Reach> = Vec::new();
    if !reaching(&single) && !reaching(&pairs) {
        // Everything at once, then with less time under load.
        let mut steps: Vec<Step> = Vec::new();
        steps.extend(pairs.first().into_iter().flat_map(|reach| reach.steps.clone()));
        steps.extend(outlets.last().cloned());
        let together = tried(steps.clone()).filter(|_| steps.len() > 1);
        match together {
            Some(reach) if reach.reaches => several.push(reach),
            together => several.extend(less(&steps).or(together)),
        }
    }
    list.extend(pairs.into_iter().chain(single).chain(several).filter(helps));
    list.dedup_by(|a, b| a.steps == b.steps);
    // What reaches the target comes first, the nearest last of it.
    list[usize::from(now.is_some())..].sort_by_key(|reach| !reach.reaches);
    list
}

/// The first that reaches the target, else the last; what follows the first is not tried.
fn until_reached(tries: impl Iterator<Item = Reach>) -> Option<Reach> {
    let mut last = None;
    for reach in tries {
        let done = reach.reaches;
        last = Some(reach);
        if done {
            break;
        }
    }
    last
}

/// A current that a person would type, not above what can be had: two digits below 100 A, three above.
fn rounded_down(current: Current) -> Current {
    let amps = current.si();
    let step = if amps <= 0.0 {
        1.0
    } else {
        10f64.powf(amps.log10().floor() - 1.0) / if amps >= 100.0 { 10.0 } else { 1.0 }
    };
    Current::from_si((amps / step).floor() * step)
}

/// A part of the time, or pulses a minute, as a person would say it: two digits.
fn tidy(duty: f64) -> f64 {
    let step = 10f64.powf(duty.max(1e-6).log10().floor() - 1.0);
    (duty / step).round() * step
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::start::{demo_job, goal_of};

    /// A target beyond any core is told what it takes, never nothing; each change that is told to reach it
    /// does, and the nearest that can be had can be had.
    #[test]
    fn what_is_told_to_reach_the_target_reaches_it() {
        for amps in [60.0, 400.0] {
            let mut file = demo_job();
            file.choice = None;
            file.goal = goal_of("stick_welder");
            set_current(&mut file.goal, amps);
            file.conditions.as_much.clear();
            assert!(basis(&file).unwrap().found.ranked.is_empty());
            let list = what_it_takes(&file, &[], "another");
            assert!(list.len() > 1, "{amps} A: {list:?}");
            assert!(
                list.iter().any(|reach| matches!(reach.steps[0], Step::Pair(_))),
                "{list:?}"
            );
            for reach in list.iter().filter(|reach| reach.reaches) {
                let mut changed = file.clone();
                for step in &reach.steps {
                    step.apply(&mut changed);
                }
                let found = basis(&changed).unwrap();
                assert!(!found.found.ranked.is_empty(), "{amps} A: {:?}", reach.steps);
            }
        }
    }

    /// A core that runs too hot by itself gives nothing in still air: what it takes is told nevertheless.
    #[test]
    fn a_core_that_gives_nothing_is_told_what_it_takes() {
        let mut file = demo_job();
        file.choice = None;
        file.core.stack_mm.value = 60.0;
        file.goal = goal_of("stick_welder");
        set_current(&mut file.goal, 8.0);
        file.conditions.as_much.clear();
        assert_eq!(most_of(&file), None);
        let list = what_it_takes(&file, &[], "another");
        let fan = list.iter().find(|reach| reach.steps == [Step::Fan]);
        assert!(fan.is_some_and(|reach| reach.reaches), "{list:?}");
    }

    /// The way that is recommended gives no less than the other, each as it is found with the pair joined so.
    #[test]
    fn the_recommended_joining_gives_no_less() {
        for (word, stack) in [("stick_welder", 1.0), ("stick_welder", 0.85), ("arc_furnace", 1.0)] {
            let mut file = demo_job();
            file.choice = None;
            file.goal = goal_of(word);
            let mut core = file.core.clone();
            core.window_height_mm.value *= stack;
            let spare = Spare {
                name: "the other".into(),
                core,
            };
            let advice = join_advice(&file, &spare).unwrap();
            let at = |windings: Joining| {
                let mut file = file.clone();
                Step::Pair(paired(&spare, windings)).apply(&mut file);
                most_of(&file)
            };
            let other = match advice.best {
                Joining::Series => Joining::Parallel,
                Joining::Parallel => Joining::Series,
            };
            assert_eq!(at(advice.best), Some(advice.gives), "{word}");
            assert_eq!(at(other), advice.other, "{word}");
            assert!(
                advice.other.is_none_or(|other| advice.gives * WORTH >= other),
                "{word}: {advice:?}"
            );
            assert_eq!(advice.other.is_none(), advice.why == JoinReason::OnlyWay);
            assert_eq!(joined_best(&file, &spare).unwrap().0.windings, advice.best);
        }
    }

    #[test]
    fn a_target_is_rounded_down() {
        for (amps, rounded) in [(23.47, 23.0), (118.9, 118.0), (8.27, 8.2), (1154.6, 1150.0)] {
            let found = rounded_down(Current::from_si(amps)).si();
            assert!((found - rounded).abs() < 1e-9, "{amps}: {found}");
        }
    }
}
