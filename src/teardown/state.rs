//! Where a teardown stands.

use super::advance::{Entry, Refusal, advance};
use super::findings::Findings;
use super::guide::gates;
use super::step::Step;
use crate::quantity::Voltage;
use crate::safety::{Gate, Item, Moment, Passes, Place};
use crate::words::words;

words! {
    /// How a teardown ended.
    pub enum End, "end" {
        /// The core is measured and put away.
        Stored = "stored",
        /// There is no iron core in this donor.
        NoCore = "no-core",
    }
}

/// Whether the work goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Phase {
    /// Going on.
    Working,
    /// Stopped: this item could not be done. Its text says what to do next.
    Stopped {
        /// The item that could not be done.
        item: Item,
    },
    /// At an end.
    Ended(End),
}

/// The part of a teardown that decides what may happen next.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Situation {
    pub(super) position: Step,
    pub(super) reached: Step,
    pub(super) phase: Phase,
    pub(super) findings: Findings,
    pub(super) passes: Passes,
    pub(super) failed_proof: Option<Voltage>,
}

impl Situation {
    pub(super) fn start() -> Self {
        Self {
            position: Step::Prepare,
            reached: Step::Prepare,
            phase: Phase::Working,
            findings: Findings::default(),
            passes: Passes::default(),
            failed_proof: None,
        }
    }

    /// The gates before a step.
    pub(super) fn gates(&self, step: Step) -> Vec<Gate> {
        gates(step, self.findings.way)
    }

    pub(super) fn place(&self, step: Step) -> Place {
        step.place(self.findings.way)
    }

    pub(super) fn missing(&self, step: Step, now: Moment) -> Option<Gate> {
        self.passes.missing(&self.gates(step), self.place(step), now)
    }

    /// True if the person may stay at a step: its gates were passed and count, though some may have to
    /// be renewed before the work goes on.
    pub(super) fn held(&self, step: Step, now: Moment) -> bool {
        self.gates(step)
            .into_iter()
            .all(|gate| self.passes.held(gate, self.place(step), now))
    }

    /// The latest step, not after the position, where the person may stay at `now`.
    pub(super) fn step_at(&self, now: Moment) -> Step {
        let mut step = self.position;
        while !self.held(step, now) {
            match step.previous(&self.findings) {
                Some(previous) => step = previous,
                None => break,
            }
        }
        step
    }

    /// Drops what no longer counts and falls back to where the person may stand.
    pub(super) fn settle(&mut self, now: Moment) {
        self.passes.expire(now);
        let step = self.step_at(now);
        if step != self.position {
            self.position = step;
            self.passes.arrive(self.place(step));
        }
    }
}

/// One donor's teardown: where it stands and everything that happened.
///
/// Made by [`Teardown::start`] and moved by [`advance`] alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Teardown {
    pub(super) situation: Situation,
    pub(super) log: Vec<Entry>,
}

/// A stored history that can't have happened.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error(
    "the stored teardown is damaged at entry {at}: {refusal}. Start this donor again from the first step, or from the entries before that one"
)]
pub struct ReplayError {
    /// Index of the entry that was refused.
    pub at: usize,
    /// Why.
    pub refusal: Refusal,
}

impl Teardown {
    /// A donor that nobody has touched yet.
    #[must_use]
    pub fn start() -> Self {
        Self {
            situation: Situation::start(),
            log: Vec::new(),
        }
    }

    /// A stored teardown, by living through its history again.
    ///
    /// # Errors
    /// [`ReplayError`] at the first entry that [`advance`] refuses: the history was edited,
    /// shortened in the middle or forged.
    pub fn replay(entries: &[Entry]) -> Result<Self, ReplayError> {
        entries
            .iter()
            .enumerate()
            .try_fold(Self::start(), |state, (at, entry)| {
                advance(&state, *entry).map_err(|refusal| ReplayError { at, refusal })
            })
    }

    /// Everything that happened, to be stored.
    #[must_use]
    pub fn history(&self) -> &[Entry] {
        &self.log
    }

    /// The step where the person may stand at `now`. With the gates of the last step expired it
    /// is an earlier one.
    #[must_use]
    pub fn step(&self, now: Moment) -> Step {
        self.situation.step_at(now)
    }

    /// The furthest step ever reached: what lies before it was done once.
    #[must_use]
    pub fn reached(&self) -> Step {
        self.situation.reached
    }

    /// Whether the work goes on.
    #[must_use]
    pub fn phase(&self) -> Phase {
        self.situation.phase
    }

    /// What was found.
    #[must_use]
    pub fn findings(&self) -> &Findings {
        &self.situation.findings
    }

    /// The first gate before a step at `now`. Before the step where the person is, it is one to be
    /// renewed before the work goes on.
    #[must_use]
    pub fn gate_before(&self, step: Step, now: Moment) -> Option<Gate> {
        self.situation.missing(step, now)
    }

    /// The items of a gate before a step that are confirmed at `now`.
    #[must_use]
    pub fn confirmed(&self, step: Step, gate: Gate, now: Moment) -> &'static [Item] {
        self.situation.passes.confirmed(gate, self.situation.place(step), now)
    }

    /// When a gate before a step was passed, if the pass still counts at `now`.
    #[must_use]
    pub fn passed(&self, step: Step, gate: Gate, now: Moment) -> Option<Moment> {
        self.situation.passes.passed(gate, self.situation.place(step), now)
    }

    /// The gates before a step that were confirmed earlier the same day, with the moment: one hold
    /// renews them all.
    #[must_use]
    pub fn repeated(&self, step: Step, now: Moment) -> Vec<(Gate, Moment)> {
        let situation = &self.situation;
        situation
            .passes
            .repeated(&situation.gates(step), situation.place(step), now)
    }

    /// The largest voltage of the last try to prove the capacitor, if it was too high: it must
    /// be discharged again from the first item.
    #[must_use]
    pub fn failed_proof(&self) -> Option<Voltage> {
        self.situation.failed_proof
    }
}
