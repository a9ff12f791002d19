//! The one evaluation of a job at one revision: screen, page, JSON and command line read it.

use std::ops::Deref;
use std::sync::OnceLock;

use super::basis::{Basis, basis};
use super::behaviour::direct_current::{DirectAnswer, direct_current};
use super::behaviour::heat::{HeatAnswer, heat};
use super::behaviour::idle::{IdleAnswer, idle};
use super::behaviour::inductor::{InductorAnswer, Trouble, inductor};
use super::behaviour::inrush::{InrushAnswer, inrush};
use super::behaviour::pairs::{PairingAnswer, pair};
use super::behaviour::shunts::{ShuntAnswer, shunts};
use super::circuit_parts::{CircuitParts, circuit_parts};
use super::design_state::{DesignState, design_state};
use super::strongest::{Strongest, strongest};
use super::summary::{Summary, summary};
use super::translate::of_second_core;
use super::turns::{TurnsAround, turns_around};
use crate::job::JobFile;
use crate::teardown::{Findings, Part, Way};
use crate::wire::UnknownConductor;

/// A job and all that is computed about it.
///
/// The basis (problem, search, design) is computed at once, each topic when it is first asked for, and
/// then kept. A topic is `None` where the job's numbers give none. No number here depends on anything but
/// the job file, so an evaluation serves until it changes.
/// What the teardown found decides texts alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Evaluation {
    file: JobFile,
    basis: Basis,
    findings: Option<Findings>,
    topics: Topics,
}

/// The topics that were asked for.
#[derive(Debug, Clone, Default, PartialEq)]
struct Topics {
    summary: OnceLock<Summary>,
    heat: OnceLock<Option<HeatAnswer>>,
    idle: OnceLock<Option<IdleAnswer>>,
    inrush: OnceLock<Option<InrushAnswer>>,
    shunts: OnceLock<Option<ShuntAnswer>>,
    direct: OnceLock<Option<DirectAnswer>>,
    inductor: OnceLock<Option<Result<InductorAnswer, Trouble>>>,
    pair: OnceLock<Option<PairingAnswer>>,
    strongest: OnceLock<Option<Strongest>>,
    turns: OnceLock<Option<TurnsAround>>,
    circuit: OnceLock<Option<CircuitParts>>,
}

/// Evaluates a job.
///
/// # Errors
/// [`UnknownConductor`] where the chosen winding or the shelf names a conductor that is not in the
/// catalogue.
///
/// ```
/// use curbcore::app::{evaluation::evaluate, start::demo_job};
/// let evaluation = evaluate(&demo_job())?;
/// let design = evaluation.design.as_ref().expect("a winding fits the demo's core");
/// assert!(design.estimate.working_current.value.si() > 300.0);
/// assert!(evaluation.heat().is_some());
/// # Ok::<(), curbcore::wire::UnknownConductor>(())
/// ```
pub fn evaluate(file: &JobFile) -> Result<Evaluation, UnknownConductor> {
    Ok(Evaluation {
        file: file.clone(),
        basis: basis(file)?,
        findings: None,
        topics: Topics::default(),
    })
}

impl Deref for Evaluation {
    type Target = Basis;

    fn deref(&self) -> &Basis {
        &self.basis
    }
}

impl Evaluation {
    /// The job.
    #[must_use]
    pub fn file(&self) -> &JobFile {
        &self.file
    }

    /// The evaluation as it is of the second core by itself; its oven's teardown is not known here.
    #[must_use]
    pub fn of_second(&self) -> Option<Evaluation> {
        let mut file = of_second_core(&self.file)?;
        file.conditions.pair = None;
        Some(Evaluation {
            file,
            basis: self.basis.of_second()?,
            findings: None,
            topics: Topics::default(),
        })
    }

    /// The same with what the teardown of the core's oven found.
    #[must_use]
    pub fn from_teardown(mut self, findings: Option<Findings>) -> Self {
        self.findings = findings;
        self
    }

    /// True where the core was opened at its seam, false where it was kept whole; `None` where nothing
    /// says so.
    #[must_use]
    pub fn core_opened(&self) -> Option<bool> {
        // A gap left at the seam is one that was opened.
        let measured = self.file.core.seam_gap_mm.is_some().then_some(true);
        measured.or_else(|| self.findings.as_ref()?.way.map(|way| way != Way::DriveOut))
    }

    /// True where the primary came off the core and goes back on, false where it stayed; `None` where
    /// nothing says so.
    #[must_use]
    pub fn primary_came_off(&self) -> Option<bool> {
        let findings = self.findings.as_ref()?;
        findings.way?;
        findings.at_back?;
        Some(findings.pull_order().contains(&Part::Primary))
    }

    /// What the measures of the core say by themselves.
    #[must_use]
    pub fn summary(&self) -> &Summary {
        self.topics.summary.get_or_init(|| summary(&self.basis))
    }

    /// How it warms, and how long and how often it may be loaded.
    #[must_use]
    pub fn heat(&self) -> Option<&HeatAnswer> {
        let topic = &self.topics.heat;
        topic.get_or_init(|| heat(&self.file, &self.basis)).as_ref()
    }

    /// The no-load current.
    #[must_use]
    pub fn idle(&self) -> Option<&IdleAnswer> {
        // A choke or a ballast leaves no primary in the core.
        self.goal?;
        let topic = &self.topics.idle;
        topic.get_or_init(|| idle(&self.file, &self.basis)).as_ref()
    }

    /// The first peak when it is switched on, and the breakers that hold it.
    #[must_use]
    pub fn inrush(&self) -> Option<&InrushAnswer> {
        self.goal?;
        let topic = &self.topics.inrush;
        topic.get_or_init(|| inrush(&self.file, &self.basis)).as_ref()
    }

    /// The output with and without magnetic shunts.
    #[must_use]
    pub fn shunts(&self) -> Option<&ShuntAnswer> {
        let topic = &self.topics.shunts;
        topic.get_or_init(|| shunts(&self.file, &self.basis)).as_ref()
    }

    /// The direct current behind diodes.
    #[must_use]
    pub fn direct_current(&self) -> Option<&DirectAnswer> {
        let topic = &self.topics.direct;
        topic.get_or_init(|| direct_current(&self.file, &self.basis)).as_ref()
    }

    /// The core as a choke or a ballast, or why none can be made; `None` for another use.
    #[must_use]
    pub fn inductor(&self) -> Option<&Result<InductorAnswer, Trouble>> {
        let topic = &self.topics.inductor;
        topic.get_or_init(|| inductor(&self.file, &self.basis)).as_ref()
    }

    /// The most that the core gives where that is the target, or the nearest to a target beyond it; what
    /// holds it back, and what would give more.
    #[must_use]
    pub fn strongest(&self) -> Option<&Strongest> {
        let topic = &self.topics.strongest;
        topic.get_or_init(|| strongest(&self.file, &self.basis)).as_ref()
    }

    /// The winding in hand with one turn more or less.
    #[must_use]
    pub fn turns_around(&self) -> Option<&TurnsAround> {
        let topic = &self.topics.turns;
        topic.get_or_init(|| turns_around(&self.file, &self.basis)).as_ref()
    }

    /// The circuit round the winding or the coil; `None` without one.
    #[must_use]
    pub fn circuit_parts(&self) -> Option<&CircuitParts> {
        let topic = &self.topics.circuit;
        let coil = || self.inductor().and_then(|found| found.as_ref().ok());
        topic
            .get_or_init(|| circuit_parts(&self.file, &self.basis, self.direct_current(), coil()))
            .as_ref()
    }

    /// The state of the winding or the coil; `None` without one.
    #[must_use]
    pub fn design_state(&self) -> Option<DesignState> {
        let broken = match (&self.design, self.inductor()) {
            (Some(design), _) => design.candidate.broken,
            (None, Some(Ok(coil))) => coil.broken(),
            (None, _) => return None,
        };
        Some(design_state(broken, self.circuit_parts()))
    }

    /// Both cores of the design together.
    #[must_use]
    pub fn pair(&self) -> Option<&PairingAnswer> {
        let topic = &self.topics.pair;
        topic.get_or_init(|| pair(&self.basis)).as_ref()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::start::{demo_job, goal_of};

    /// The first question computes, the second reads: the same object, at the same place.
    #[test]
    fn a_topic_is_computed_once() {
        let evaluation = evaluate(&demo_job()).unwrap();
        assert!(evaluation.topics.heat.get().is_none(), "nothing that nobody asked for");
        let first: *const HeatAnswer = evaluation.heat().unwrap();
        assert!(std::ptr::eq(first, evaluation.heat().unwrap()));
        assert!(evaluation.topics.inrush.get().is_none());
        let kept = evaluation.clone();
        assert!(kept.topics.heat.get().is_some(), "a copy keeps what was computed");
        assert_eq!(evaluation.heat(), heat(&demo_job(), &evaluation).as_ref());
    }

    #[test]
    fn a_choke_has_its_own_topic_alone() {
        let mut file = demo_job();
        file.goal = goal_of("choke");
        let evaluation = evaluate(&file).unwrap();
        assert!(evaluation.inductor().is_some_and(Result::is_ok));
        assert!(evaluation.heat().is_none() && evaluation.pair().is_none());
        // The primary is out of the core: its no-load current and first peak are nobody's.
        assert!(evaluation.idle().is_none() && evaluation.inrush().is_none());
    }
}
