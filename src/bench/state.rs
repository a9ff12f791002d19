//! Where the bench stands, and the record that it leaves.

use std::collections::BTreeMap;

use super::advance::{Entry, Refusal, advance};
use super::amounts::{Amount, Direction, Reading};
use super::causes::Cause;
use super::plan::{Plan, Prediction};
use super::stage::Stage;
use crate::safety::{Gate, Item, Moment, Passes};

/// Whether the tests go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Phase {
    /// Going on.
    Working,
    /// Stopped: this item could not be done.
    Stopped {
        /// The item.
        item: Item,
    },
    /// Every stage passed.
    Commissioned,
}

/// How a reading compares with its band.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Status {
    /// Inside.
    InBand,
    /// Outside: nothing goes on until it is explained, fixed or read again.
    Outside(Direction),
    /// Outside, and the measurement is why.
    Explained(Direction, Cause),
}

/// The last reading of one prediction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// The reading as taken.
    pub reading: Reading,
    /// The amount compared.
    pub amount: Amount,
    /// How it compares.
    pub status: Status,
    /// When it was taken.
    pub at: Moment,
}

/// A line of the commissioning record.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// What was predicted.
    pub prediction: Prediction,
    /// What was read, if it was.
    pub outcome: Option<Outcome>,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Situation {
    pub(super) position: Stage,
    pub(super) phase: Phase,
    pub(super) passes: Passes,
    pub(super) outcomes: BTreeMap<(Stage, u8), Outcome>,
}

impl Situation {
    pub(super) fn start() -> Self {
        Self {
            position: Stage::Prepare,
            phase: Phase::Working,
            passes: Passes::default(),
            outcomes: BTreeMap::new(),
        }
    }

    pub(super) fn missing(&self, plan: &Plan, stage: Stage, now: Moment) -> Option<Gate> {
        self.passes.missing(&stage.gates_under(plan.load()), stage.place(), now)
    }

    /// True if the person may stay at a stage: its gates were passed and count, though some may have to
    /// be renewed before the work goes on.
    pub(super) fn held(&self, plan: &Plan, stage: Stage, now: Moment) -> bool {
        stage
            .gates_under(plan.load())
            .into_iter()
            .all(|gate| self.passes.held(gate, stage.place(), now))
    }

    /// The latest stage, not after the position, where the person may stay at `now`.
    pub(super) fn stage_at(&self, plan: &Plan, now: Moment) -> Stage {
        let mut stage = self.position;
        while !self.held(plan, stage, now) {
            match stage.previous(plan) {
                Some(previous) => stage = previous,
                None => break,
            }
        }
        stage
    }

    pub(super) fn settle(&mut self, plan: &Plan, now: Moment) {
        self.passes.expire(now);
        let stage = self.stage_at(plan, now);
        if stage != self.position {
            self.position = stage;
            self.passes.arrive(stage.place());
        }
    }
}

/// The tests of one rebuilt core: its plan, where it stands and everything that happened.
#[derive(Debug, Clone, PartialEq)]
pub struct Bench {
    pub(super) plan: Plan,
    pub(super) situation: Situation,
    pub(super) log: Vec<Entry>,
}

/// A stored history that can't have happened.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("the stored tests are damaged at entry {at}: {refusal}. Test this core again from the start")]
pub struct ReplayError {
    /// Index of the entry that was refused.
    pub at: usize,
    /// Why.
    pub refusal: Refusal,
}

impl Bench {
    /// A core that was not tested yet.
    #[must_use]
    pub fn start(plan: Plan) -> Self {
        Self {
            plan,
            situation: Situation::start(),
            log: Vec::new(),
        }
    }

    /// Stored tests, by living through their history again with the same plan.
    ///
    /// # Errors
    /// [`ReplayError`] at the first entry that [`advance`] refuses.
    pub fn replay(plan: Plan, entries: &[Entry]) -> Result<Self, ReplayError> {
        entries
            .iter()
            .enumerate()
            .try_fold(Self::start(plan), |state, (at, entry)| {
                advance(&state, *entry).map_err(|refusal| ReplayError { at, refusal })
            })
    }

    /// Everything that happened, to be stored.
    #[must_use]
    pub fn history(&self) -> &[Entry] {
        &self.log
    }

    /// What the design predicts.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        &self.plan
    }

    /// The stage where the person may stand at `now`.
    #[must_use]
    pub fn stage(&self, now: Moment) -> Stage {
        self.situation.stage_at(&self.plan, now)
    }

    /// Whether the tests go on.
    #[must_use]
    pub fn phase(&self) -> Phase {
        self.situation.phase
    }

    /// The first gate that stands before a stage at `now`.
    #[must_use]
    pub fn gate_before(&self, stage: Stage, now: Moment) -> Option<Gate> {
        self.situation.missing(&self.plan, stage, now)
    }

    /// The items of a gate before a stage that are confirmed at `now`.
    #[must_use]
    pub fn confirmed(&self, stage: Stage, gate: Gate, now: Moment) -> &'static [Item] {
        self.situation.passes.confirmed(gate, stage.place(), now)
    }

    /// The gates before a stage that were confirmed earlier the same day, with the moment: one hold
    /// renews them all.
    #[must_use]
    pub fn repeated(&self, stage: Stage, now: Moment) -> Vec<(Gate, Moment)> {
        let gates = stage.gates_under(self.plan.load());
        self.situation.passes.repeated(&gates, stage.place(), now)
    }

    /// The commissioning record: every prediction with its last reading.
    #[must_use]
    pub fn record(&self) -> Vec<Line> {
        let outcomes = &self.situation.outcomes;
        self.plan
            .predictions()
            .iter()
            .map(|&prediction| Line {
                prediction,
                outcome: outcomes.get(&(prediction.stage, prediction.of)).copied(),
            })
            .collect()
    }
}
