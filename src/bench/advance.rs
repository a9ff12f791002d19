//! The one function that moves the bench.

use super::amounts::{Amount, Reading};
use super::causes::Cause;
use super::plan::Plan;
use super::stage::Stage;
use super::state::{Bench, Outcome, Phase, Situation, Status};
use crate::quantity::Current;
use crate::safety::{ConfirmError, Disturbance, Gate, Item, Moment};

/// Something that a person did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Event {
    /// Held one item of the first missing gate before `toward`.
    Confirm {
        /// The stage that the gate stands before.
        toward: Stage,
        /// The item.
        item: Item,
    },
    /// Held once that everything confirmed earlier the same day, at the gates before `toward`, is
    /// still true.
    Renew {
        /// The stage that the gates stand before.
        toward: Stage,
    },
    /// Not all of it is still true: those gates are confirmed item by item again.
    Doubt {
        /// The stage that the gates stand before.
        toward: Stage,
    },
    /// "I could not do this."
    CouldNot {
        /// The item.
        item: Item,
    },
    /// Went to a stage: the next one, or any earlier one.
    Go(Stage),
    /// Took a reading; it replaces an earlier one of the same prediction.
    Read {
        /// The winding.
        of: u8,
        /// The reading.
        reading: Reading,
    },
    /// Named the measurement's own fault as the cause of a reading outside its band.
    Explain {
        /// The winding.
        of: u8,
        /// The cause.
        cause: Cause,
    },
    /// Opened or changed the core or its wiring, to fix this or for another reason: every
    /// test begins again.
    Reopened {
        /// What was fixed, if something was.
        fixed: Option<Cause>,
    },
    /// Took another lamp for the series test: its current is predicted anew, and what was read
    /// through the old one is dropped.
    Lamp {
        /// The predicted current.
        value: Current,
        /// The low end of its band.
        low: Current,
        /// The high end.
        high: Current,
    },
    /// Finished the last stage.
    Finish,
    /// Takes the tests up again after a stop.
    Again,
    /// The records came here as a copy, from another device or an earlier day: the core may have
    /// been changed since. Nothing that was confirmed counts, and tests not finished begin again.
    Brought,
}

/// An event and when it happened.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// When.
    pub at: Moment,
    /// What.
    pub event: Event,
}

/// Why an event is refused. The state stays as it was. Its own message is the id of the text that a
/// person reads.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// A gate stands before the stage.
    #[error("refusal-gate-needed")]
    GateNeeded {
        /// The stage.
        toward: Stage,
        /// The first gate missing.
        gate: Gate,
    },
    /// The stage can't be reached from here in one go.
    #[error("refusal-not-from-here")]
    NotFromHere {
        /// The stage where the person stands.
        standing: Stage,
    },
    /// A reading is missing.
    #[error("refusal-not-read")]
    NotRead {
        /// The winding.
        of: u8,
    },
    /// A reading lies outside its band.
    #[error("refusal-outside-band")]
    OutsideBand {
        /// The winding.
        of: u8,
    },
    /// The stage predicts no such reading.
    #[error("refusal-not-asked-here")]
    NotAskedHere,
    /// The reading can't be right.
    #[error("refusal-out-of-range")]
    Unusable {
        /// What is wanted.
        range: &'static str,
    },
    /// The cause doesn't explain the reading.
    #[error("refusal-no-explanation")]
    NoExplanation,
    /// The item does not come now.
    #[error(transparent)]
    Item(#[from] ConfirmError),
    /// The tests are stopped.
    #[error("refusal-stopped")]
    Stopped,
    /// The core is commissioned.
    #[error("refusal-finished")]
    Finished,
    /// There is nothing to take up again.
    #[error("refusal-going-on")]
    GoingOn,
}

impl Refusal {
    /// The id of its text. `refusal-out-of-range` takes the range as `range`.
    #[must_use]
    pub const fn key(&self) -> &'static str {
        match self {
            Refusal::GateNeeded { .. } => "refusal-gate-needed",
            Refusal::NotFromHere { .. } => "refusal-not-from-here",
            Refusal::NotRead { .. } => "refusal-not-read",
            Refusal::OutsideBand { .. } => "refusal-outside-band",
            Refusal::NotAskedHere => "refusal-not-asked-here",
            Refusal::Unusable { .. } => "refusal-out-of-range",
            Refusal::NoExplanation => "refusal-no-explanation",
            Refusal::Item(error) => error.key(),
            Refusal::Stopped => "refusal-stopped",
            Refusal::Finished => "refusal-finished",
            Refusal::GoingOn => "refusal-going-on",
        }
    }
}

/// What becomes of the tests when something happens.
///
/// Pure, as the teardown's function is: what has expired is dropped first, and the person falls
/// back to the latest stage whose gates hold.
///
/// # Errors
/// A [`Refusal`] that says what is missing; the state is unchanged.
pub fn advance(state: &Bench, entry: Entry) -> Result<Bench, Refusal> {
    let situation = step_on(&state.situation, &state.plan, entry)?;
    let plan = match entry.event {
        Event::Lamp { value, low, high } => {
            let [value, low, high] = [value, low, high].map(Amount::Current);
            let fault = |_| Refusal::Unusable {
                range: "a current of 0 A or more with its band",
            };
            state.plan.with_lamp(value, low, high).map_err(fault)?
        }
        _ => state.plan.clone(),
    };
    let mut log = state.log.clone();
    log.push(entry);
    Ok(Bench { plan, situation, log })
}

pub(super) fn step_on(before: &Situation, plan: &Plan, Entry { at, event }: Entry) -> Result<Situation, Refusal> {
    let mut situation = before.clone();
    situation.settle(plan, at);
    match (situation.phase, event) {
        (Phase::Working, Event::Again) => return Err(Refusal::GoingOn),
        (Phase::Working | Phase::Commissioned, Event::Reopened { .. }) => {
            situation.phase = Phase::Working;
            situation.passes.disturb(Disturbance::Reopened);
            situation.outcomes.clear();
        }
        (phase, Event::Brought) => {
            situation.passes.clear();
            if phase != Phase::Commissioned {
                situation.outcomes.clear();
            }
        }
        (Phase::Stopped { .. }, Event::Again) => {
            situation.phase = Phase::Working;
            situation.passes.clear();
        }
        (Phase::Stopped { .. }, _) => return Err(Refusal::Stopped),
        (Phase::Commissioned, _) => return Err(Refusal::Finished),
        (Phase::Working, Event::Confirm { toward, item }) => {
            before_hand(&situation, plan, toward)?;
            let gate = situation.missing(plan, toward, at).ok_or(ConfirmError::NotThisGate)?;
            situation.passes.turn_toward(toward.place(), situation.position.place());
            situation.passes.confirm(gate, item, toward.place(), at)?;
        }
        (Phase::Working, Event::Renew { toward }) => {
            before_hand(&situation, plan, toward)?;
            situation.passes.turn_toward(toward.place(), situation.position.place());
            situation
                .passes
                .renew(&toward.gates_under(plan.load()), toward.place(), at)?;
        }
        (Phase::Working, Event::Doubt { toward }) => {
            before_hand(&situation, plan, toward)?;
            situation
                .passes
                .doubt(&toward.gates_under(plan.load()), toward.place(), at)?;
        }
        (Phase::Working, Event::CouldNot { item }) => {
            situation.phase = Phase::Stopped { item };
            situation.passes.clear();
        }
        (Phase::Working, Event::Go(stage)) => go(&mut situation, plan, stage, at)?,
        (Phase::Working, Event::Read { of, reading }) => read(&mut situation, plan, of, reading, at)?,
        (Phase::Working, Event::Explain { of, cause }) => explain(&mut situation, of, cause)?,
        (Phase::Working, Event::Lamp { .. }) => {
            if situation.position > Stage::LampIdle || plan.of_stage(Stage::LampIdle).next().is_none() {
                return Err(Refusal::NotAskedHere);
            }
            situation.outcomes.retain(|(stage, _), _| *stage != Stage::LampIdle);
        }
        (Phase::Working, Event::Finish) => {
            if situation.position.next(plan).is_some() {
                return Err(Refusal::NotFromHere {
                    standing: situation.position,
                });
            }
            stage_passed(&situation, plan)?;
            situation.phase = Phase::Commissioned;
        }
    }
    situation.settle(plan, at);
    Ok(situation)
}

fn reachable(situation: &Situation, plan: &Plan, stage: Stage) -> Result<(), Refusal> {
    let standing = situation.position;
    if stage.applies(plan) && (standing.next(plan) == Some(stage) || stage < standing) {
        Ok(())
    } else {
        Err(Refusal::NotFromHere { standing })
    }
}

/// The gates before the stage where the person is, or before one within reach.
fn before_hand(situation: &Situation, plan: &Plan, toward: Stage) -> Result<(), Refusal> {
    if toward == situation.position {
        Ok(())
    } else {
        reachable(situation, plan, toward)
    }
}

/// Every prediction of the stage was read, and lies in its band or is explained.
fn stage_passed(situation: &Situation, plan: &Plan) -> Result<(), Refusal> {
    for prediction in plan.of_stage(situation.position) {
        let of = prediction.of;
        match situation
            .outcomes
            .get(&(situation.position, of))
            .map(|outcome| outcome.status)
        {
            None => return Err(Refusal::NotRead { of }),
            Some(Status::Outside(_)) => return Err(Refusal::OutsideBand { of }),
            Some(Status::InBand | Status::Explained(..)) => {}
        }
    }
    Ok(())
}

fn go(situation: &mut Situation, plan: &Plan, stage: Stage, at: Moment) -> Result<(), Refusal> {
    reachable(situation, plan, stage)?;
    if stage > situation.position {
        stage_passed(situation, plan)?;
    }
    if let Some(gate) = situation.missing(plan, stage, at) {
        return Err(Refusal::GateNeeded { toward: stage, gate });
    }
    situation.position = stage;
    situation.passes.arrive(stage.place());
    Ok(())
}

fn read(situation: &mut Situation, plan: &Plan, of: u8, reading: Reading, at: Moment) -> Result<(), Refusal> {
    let stage = situation.position;
    let prediction = plan.find(stage, of).ok_or(Refusal::NotAskedHere)?;
    if let Some(range) = reading.fault(stage) {
        return Err(Refusal::Unusable { range });
    }
    let amount = reading.amount();
    let status = prediction.outside(amount).map_or(Status::InBand, Status::Outside);
    situation.outcomes.insert(
        (stage, of),
        Outcome {
            reading,
            amount,
            status,
            at,
        },
    );
    Ok(())
}

fn explain(situation: &mut Situation, of: u8, cause: Cause) -> Result<(), Refusal> {
    let stage = situation.position;
    let outcome = situation
        .outcomes
        .get_mut(&(stage, of))
        .ok_or(Refusal::NotRead { of })?;
    match outcome.status {
        Status::Outside(direction) if cause.explains(stage, direction) => {
            outcome.status = Status::Explained(direction, cause);
            Ok(())
        }
        _ => Err(Refusal::NoExplanation),
    }
}
