//! Cores beside one another for a use, two of them as a pair, and one core for every use: the most
//! that a winding on each delivers, worked out as everywhere else.

use super::basis::{basis, design, space};
use super::behaviour::inductor::{Trouble, inductor};
use super::listing::winding_title;
use super::problem::problem;
use super::start::goal_of;
use super::translate::{Assumed, joined, transformer_goal};
use super::workspace::{Workspace, WorkspaceError};
use crate::job::{Conditions, Goal as Recorded, JobFile, JobId, Joining, PairChoice};
use crate::magnetics::circuit::performance::Rebuild;
use crate::magnetics::pairs::Joined;
use crate::quantity::{Current, Estimate};
use crate::rewind::goal::Goal;
use crate::rewind::limits::Limit;
use crate::rewind::search::max_deliverable;
use crate::wire::Catalogue;
use crate::words::Message;

/// A core on the shelf, by the newest job that has it.
#[derive(Debug, Clone, PartialEq)]
pub struct OnShelf {
    /// The job.
    pub job: JobId,
    /// Its file.
    pub file: JobFile,
}

/// The most that a core delivers for a use.
#[derive(Debug, Clone, PartialEq)]
pub struct Offer {
    /// Amperes at the load, with the range of the winding that gives them.
    pub current: Estimate<Current>,
    /// The winding.
    pub winding: Message,
    /// What keeps it from more.
    pub held_by: Option<Limit>,
    /// True where the core's main measures or its turns are assumed.
    pub assumed: bool,
}

/// How an offer meets what is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Meets {
    /// Its whole range reaches it.
    Surely,
    /// Its range holds it.
    Perhaps,
    /// It stays below.
    Not,
}

/// How a current with its range meets another.
#[must_use]
pub fn meets(current: &Estimate<Current>, wanted: Current) -> Meets {
    if current.value - current.plus_minus >= wanted {
        Meets::Surely
    } else if current.value + current.plus_minus >= wanted {
        Meets::Perhaps
    } else {
        Meets::Not
    }
}

/// Whether two offers are about the same: their ranges have a part in common.
#[must_use]
pub fn alike(one: &Estimate<Current>, other: &Estimate<Current>) -> bool {
    (one.value - other.value).si().abs() <= (one.plus_minus + other.plus_minus).si()
}

/// A core, or two of them, for the use.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Places in the list that was given: one core, or the two of a pair.
    pub cores: (usize, Option<usize>),
    /// How the windings of a pair are joined.
    pub windings: Option<Joining>,
    /// What it delivers; none where no winding does.
    pub offer: Option<Offer>,
}

/// Cores and pairs for a use, best first, and what is wanted of them.
#[derive(Debug, Clone, PartialEq)]
pub struct ForUse {
    /// The wanted current.
    pub wanted: Current,
    /// The rows.
    pub rows: Vec<Row>,
}

/// Most cores that are tried as pairs: those that deliver most alone.
pub const PAIRED: usize = 4;

/// Cores for a use. `None` for a choke or a ballast, which has no windings to compare.
#[must_use]
pub fn for_use(cores: &[OnShelf], wanted: &Recorded) -> Option<ForUse> {
    ranked(
        cores,
        cores.iter().map(|core| alone(&core.file, wanted)).collect(),
        wanted,
    )
}

/// The most of one core for a use; `None` where no winding does, or as in [`for_use`].
#[must_use]
pub fn alone(file: &JobFile, wanted: &Recorded) -> Option<Offer> {
    offer(
        file,
        &transformer_goal(wanted, &file.conditions)?,
        None,
        &Catalogue::standard(),
    )
}

/// Cores and pairs of them, best first, from what each delivers alone, in the cores' order. `None` as
/// in [`for_use`].
#[must_use]
pub fn ranked(cores: &[OnShelf], alone: Vec<Option<Offer>>, wanted: &Recorded) -> Option<ForUse> {
    let goal = transformer_goal(wanted, &Conditions::default())?;
    let mut rows: Vec<Row> = alone
        .into_iter()
        .enumerate()
        .map(|(place, offer)| Row {
            cores: (place, None),
            windings: None,
            offer,
        })
        .collect();
    sort(&mut rows);
    let best: Vec<usize> = rows.iter().take(PAIRED).map(|row| row.cores.0).collect();
    rows.extend(pairs(cores, &best, &goal, &Catalogue::standard()));
    sort(&mut rows);
    Some(ForUse {
        wanted: goal.current(),
        rows,
    })
}

/// The most of a core for a goal, alone or as one of two like it.
fn offer(file: &JobFile, goal: &Goal, together: Option<Joined>, catalogue: &Catalogue) -> Option<Offer> {
    let mut alone = file.clone();
    alone.choice = None;
    alone.conditions.pair = None;
    let found = problem(&alone);
    let rebuild = Rebuild {
        together,
        ..found.rebuild
    };
    let most = max_deliverable(&rebuild, goal, &space(&found, file, catalogue, &[]))?;
    let winding = winding_title(&most.candidate, catalogue, false);
    let design = design(&rebuild, &goal.scaled(most.part), most.candidate, false, catalogue)?;
    let current = design.estimate.working_current;
    Some(Offer {
        current,
        winding,
        held_by: most.held_by,
        assumed: found
            .assumed
            .iter()
            .any(|a| matches!(a, Assumed::CoreMeasures | Assumed::PrimaryTurns)),
    })
}

/// Pairs: each core gives what it would beside another like it, so that the weaker one sets what both
/// deliver. Joined as gives more; in series where both ways give about the same, since then the same
/// current flows in both windings.
fn pairs(cores: &[OnShelf], best: &[usize], goal: &Goal, catalogue: &Catalogue) -> Vec<Row> {
    let of = |place: usize, joining: Joining| offer(&cores[place].file, goal, Some(joined(joining)), catalogue);
    let ways = [Joining::Series, Joining::Parallel];
    let each: Vec<(usize, [Option<Offer>; 2])> = best
        .iter()
        .map(|&place| (place, ways.map(|way| of(place, way))))
        .collect();
    let mut rows = Vec::new();
    for (at, (one, first)) in each.iter().enumerate() {
        for (other, second) in &each[at + 1..] {
            let together = |way: usize| Some(weaker(first[way].as_ref()?, second[way].as_ref()?));
            let (series, parallel) = (together(0), together(1));
            let more = |a: &Offer, b: &Offer| a.current.value > b.current.value * MORE;
            let (windings, offer) = match (series, parallel) {
                (Some(series), Some(parallel)) if more(&parallel, &series) => (Joining::Parallel, parallel),
                (Some(series), _) => (Joining::Series, series),
                (None, Some(parallel)) => (Joining::Parallel, parallel),
                (None, None) => continue,
            };
            rows.push(Row {
                cores: (*one, Some(*other)),
                windings: Some(windings),
                offer: Some(offer),
            });
        }
    }
    rows
}

/// How much more windings in parallel have to give to be joined so.
const MORE: f64 = 1.03;

/// What two cores give together: the weaker one's.
fn weaker(first: &Offer, second: &Offer) -> Offer {
    let weaker = if first.current.value <= second.current.value {
        first
    } else {
        second
    };
    Offer {
        assumed: first.assumed || second.assumed,
        ..weaker.clone()
    }
}

/// Most current first; one core before two that deliver the same.
fn sort(rows: &mut [Row]) {
    let amps = |row: &Row| row.offer.as_ref().map_or(-1.0, |offer| offer.current.value.si());
    rows.sort_by(|a, b| {
        amps(b)
            .total_cmp(&amps(a))
            .then(a.cores.1.is_some().cmp(&b.cores.1.is_some()))
            .then(a.cores.cmp(&b.cores))
    });
}

/// Which row to take: of the single cores that surely reach the wanted current the one with least to
/// spare, so that a larger one is kept for more; else such a pair; measured cores before those with
/// assumed measures; else what comes nearest.
#[must_use]
pub fn advised(found: &ForUse) -> Option<&Row> {
    let sure = |row: &&Row| {
        let offer = row.offer.as_ref();
        offer.is_some_and(|offer| meets(&offer.current, found.wanted) == Meets::Surely)
    };
    let measured = |row: &&Row| row.offer.as_ref().is_some_and(|offer| !offer.assumed);
    let alone = |row: &&Row| row.cores.1.is_none();
    let least = |fits: &dyn Fn(&&Row) -> bool| found.rows.iter().rev().find(fits);
    least(&|row| sure(row) && measured(row) && alone(row))
        .or_else(|| least(&|row| sure(row) && measured(row)))
        .or_else(|| least(&|row| sure(row) && alone(row)))
        .or_else(|| least(&sure))
        .or_else(|| found.rows.iter().find(|row| row.offer.is_some()))
}

/// What one core does for one use.
#[derive(Debug, Clone, PartialEq)]
pub enum UseOffer {
    /// The most current, and what is usual for the use.
    Winding {
        /// The wanted current.
        wanted: Current,
        /// The most; none where no winding does.
        offer: Option<Offer>,
    },
    /// A choke or ballast of the use's size can be made.
    Choke,
    /// It cannot, or its numbers give no answer.
    NoChoke(Trouble),
}

/// One core for every use: the job's own target for its own use, usual targets for the others.
#[must_use]
pub fn for_every_use(file: &JobFile) -> Vec<(&'static str, UseOffer)> {
    let catalogue = Catalogue::standard();
    Recorded::USES
        .iter()
        .map(|&word| {
            let goal = if file.goal.word() == word {
                file.goal
            } else {
                goal_of(word)
            };
            let offered = match transformer_goal(&goal, &file.conditions) {
                Some(goal) => UseOffer::Winding {
                    wanted: goal.current(),
                    offer: offer(file, &goal, None, &catalogue),
                },
                None => choke(file, goal),
            };
            (word, offered)
        })
        .collect()
}

fn choke(file: &JobFile, goal: Recorded) -> UseOffer {
    let file = JobFile {
        goal,
        choice: None,
        ..file.clone()
    };
    match basis(&file).ok().and_then(|answer| inductor(&file, &answer)) {
        Some(Ok(_)) => UseOffer::Choke,
        Some(Err(trouble)) => UseOffer::NoChoke(trouble),
        None => UseOffer::NoChoke(Trouble::NoAnswer),
    }
}

impl Row {
    /// The second core that this row puts beside its first.
    #[must_use]
    pub fn pair(&self, cores: &[OnShelf]) -> Option<PairChoice> {
        let second = &cores.get(self.cores.1?)?.file;
        Some(PairChoice {
            name: second.name.clone(),
            core: Box::new(second.core.clone()),
            windings: self.windings?,
        })
    }
}

impl Workspace {
    /// The cores on the shelf, each by its newest job, newest first; at most `limit` jobs are looked
    /// at.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn cores_on_shelf(&self, limit: u32) -> Result<Vec<OnShelf>, WorkspaceError> {
        let mut seen = std::collections::BTreeSet::new();
        let mut cores = Vec::new();
        for summary in self.store.job_summaries(limit, None)? {
            let core = self.store.job(summary.id)?.body.core;
            if seen.insert(core) {
                let file = self.store.job_file(summary.id)?;
                cores.push(OnShelf { job: summary.id, file });
            }
        }
        Ok(cores)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::start::demo_job;

    fn shelf(stacks: &[f64]) -> Vec<OnShelf> {
        let core = |(at, stack): (usize, &f64)| {
            let mut file = demo_job();
            file.core.stack_mm.value = *stack;
            // The same volts per turn in each: turns go against the stack.
            file.core.primary.test_turn = None;
            file.core.primary.counted_turns.as_mut().unwrap().value = 119.0 * 69.5 / stack;
            OnShelf {
                job: JobId(uuid::Uuid::from_u128(at as u128)),
                file,
            }
        };
        stacks.iter().enumerate().map(core).collect()
    }

    /// The most is a winding that passes every limit; a quarter more is for flat conductors at best, and
    /// half as much again for none.
    #[test]
    fn the_most_is_on_the_edge() {
        let file = demo_job();
        let goal = transformer_goal(&file.goal, &file.conditions).unwrap();
        let catalogue = Catalogue::standard();
        let rebuild = problem(&file).rebuild;
        let space = crate::rewind::search::SearchSpace::all(catalogue.conductors());
        let found = max_deliverable(&rebuild, &goal, &space).unwrap();
        let at = |part: f64| crate::rewind::search::search(&rebuild, &goal.scaled(part), &space);
        assert!(!at(found.part).ranked.is_empty());
        let rest = |c: &crate::rewind::search::Candidate| c.group == crate::rewind::handwork::Group::Rest;
        assert!(at(found.part * 1.25).ranked.iter().all(rest));
        assert!(at(found.part * 1.5).ranked.is_empty());
        assert!(found.part > 1.0 && found.held_by.is_some(), "{found:?}");
    }

    /// A row says what the job itself would answer.
    #[test]
    fn a_row_is_the_jobs_own_answer() {
        let cores = shelf(&[69.5]);
        let found = for_use(&cores, &cores[0].file.goal).unwrap();
        let offer = found.rows[0].offer.as_ref().unwrap();
        let mut file = cores[0].file.clone();
        let Recorded::SpotWelder { weld_current_a, .. } = &mut file.goal else {
            panic!("a welder");
        };
        *weld_current_a = offer.current.value.si();
        let own = basis(&file).unwrap().design.unwrap();
        let current = own.estimate.working_current;
        assert!(
            (current.value.si() / offer.current.value.si() - 1.0).abs() < 0.05,
            "{current:?}"
        );
    }

    /// More iron delivers more; two cores deliver more than one where the outlet allows it.
    #[test]
    fn cores_come_by_what_they_deliver() {
        let mut cores = shelf(&[50.0, 76.0, 63.0]);
        for core in &mut cores {
            core.file.mains.circuit.breaker_a = 60.0;
            // No more heat than the leads' resistance lets through decides.
            if let Recorded::SpotWelder { pulses_per_minute, .. } = &mut core.file.goal {
                *pulses_per_minute = 1.0;
            }
        }
        let found = for_use(&cores, &cores[0].file.goal).unwrap();
        let alone: Vec<usize> = found
            .rows
            .iter()
            .filter(|row| row.cores.1.is_none())
            .map(|row| row.cores.0)
            .collect();
        assert_eq!(alone, [1, 2, 0]);
        assert_eq!(found.rows.len(), 6);
        assert!(found.rows[0].cores.1.is_some(), "{:?}", found.rows[0]);
        assert_eq!(for_use(&cores, &goal_of("choke")), None);
    }

    /// A core that nobody measured is not advised before one that was.
    #[test]
    fn a_measured_core_is_advised_first() {
        let mut cores = shelf(&[90.0, 50.0]);
        let of = |cores: &[OnShelf]| advised(&for_use(cores, &cores[0].file.goal).unwrap()).unwrap().cores;
        assert_eq!(of(&cores), (1, None));
        cores[1].file.core.primary.counted_turns = None;
        assert_eq!(of(&cores), (0, None));
    }

    #[test]
    fn a_range_decides_what_is_sure() {
        let amps = |value: f64, half: f64| Estimate {
            value: Current::from_si(value),
            plus_minus: Current::from_si(half),
        };
        let wanted = Current::from_si(400.0);
        assert_eq!(meets(&amps(450.0, 30.0), wanted), Meets::Surely);
        assert_eq!(meets(&amps(420.0, 30.0), wanted), Meets::Perhaps);
        assert_eq!(meets(&amps(380.0, 30.0), wanted), Meets::Perhaps);
        assert_eq!(meets(&amps(350.0, 30.0), wanted), Meets::Not);
        assert!(alike(&amps(400.0, 30.0), &amps(450.0, 30.0)));
        assert!(!alike(&amps(400.0, 10.0), &amps(450.0, 10.0)));
    }

    #[test]
    fn a_core_is_tried_for_every_use() {
        let found = for_every_use(&demo_job());
        assert_eq!(found.len(), Recorded::USES.len());
        let of = |word: &str| &found.iter().find(|(w, _)| *w == word).unwrap().1;
        assert!(matches!(of("spot_welder"), UseOffer::Winding { offer: Some(_), .. }));
        assert!(matches!(of("choke"), UseOffer::Choke | UseOffer::NoChoke(_)));
    }
}
