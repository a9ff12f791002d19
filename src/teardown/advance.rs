//! The one function that moves a teardown.

use super::findings::{Field, Finding, Supply};
use super::state::{End, Phase, Situation, Teardown};
use super::step::Step;
use crate::quantity::Voltage;
use crate::safety::{ConfirmError, Disturbance, Gate, Item, Moment, TouchLimit};

/// Readings that prove the capacitor, with a meter and probe rated for its voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Proof {
    /// Between the two terminals.
    pub between: Voltage,
    /// From the first terminal to the oven chassis.
    pub first_to_chassis: Voltage,
    /// From the second terminal to the oven chassis.
    pub second_to_chassis: Voltage,
    /// The limit that they must all lie below.
    pub limit: TouchLimit,
}

impl Proof {
    fn readings(&self) -> [Voltage; 3] {
        [self.between, self.first_to_chassis, self.second_to_chassis]
    }
}

/// Something that a person did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Event {
    /// Held one item of the first missing gate before `toward`. Never used for
    /// [`Item::ProvedByMeter`], which needs its readings.
    Confirm {
        /// The step that the gate stands before.
        toward: Step,
        /// The item.
        item: Item,
    },
    /// Held once that everything confirmed earlier the same day, at the gates before `toward`, is
    /// still true.
    Renew {
        /// The step that the gates stand before.
        toward: Step,
    },
    /// Not all of it is still true: those gates are confirmed item by item again.
    Doubt {
        /// The step that the gates stand before.
        toward: Step,
    },
    /// Measured the capacitor after discharging it. Readings that are not all below the limit
    /// send the person back to discharging.
    Prove(Proof),
    /// "I could not do this."
    CouldNot {
        /// The item.
        item: Item,
    },
    /// Went to a step: the next one, or any earlier one.
    Go(Step),
    /// Finished the last step.
    Finish,
    /// Recorded something at the step.
    Found(Finding),
    /// The donor was plugged in again.
    PluggedIn,
    /// Takes the work up again after a stop or an end. Nothing that was confirmed counts.
    Again,
    /// The records came here as a copy, from another device or an earlier day: what was done since
    /// is not in them. Nothing that was confirmed counts.
    Brought,
}

/// An event and when it happened: what a teardown's history is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// When.
    pub at: Moment,
    /// What.
    pub event: Event,
}

/// Why an event is refused. The state stays as it was.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// A gate stands before the step.
    #[error("stop: a gate stands before this step; confirm its items one by one")]
    GateNeeded {
        /// The step.
        toward: Step,
        /// The first gate missing.
        gate: Gate,
    },
    /// The step can't be reached from here in one go.
    #[error("only the next step or an earlier one can be opened; take the steps in order")]
    NotFromHere {
        /// The step where the person stands.
        standing: Step,
    },
    /// Something must be recorded first.
    #[error("record what was found before going on")]
    MustRecord(Field),
    /// The step does not ask for this.
    #[error("this is not recorded at this step; go to the step that asks for it")]
    NotAskedHere(Field),
    /// A number lies outside its range.
    #[error("that number can't be right; the range is {range}")]
    OutOfRange {
        /// The field.
        field: Field,
        /// The range.
        range: &'static str,
    },
    /// The item does not come now.
    #[error(transparent)]
    Item(#[from] ConfirmError),
    /// The capacitor is proved by readings, not by a press.
    #[error("enter the three readings; a press alone does not prove the capacitor")]
    NeedsReadings,
    /// A reading is not a number.
    #[error("a reading is missing; measure between the terminals and from each to the oven chassis")]
    NoReading,
    /// The capacitor's gate is passed at the capacitor, nowhere else.
    #[error("stop: go to the capacitor and discharge, prove and short it there")]
    OnlyAtCapacitor,
    /// The work is stopped.
    #[error("this donor is stopped; take it up again first")]
    Stopped,
    /// The teardown is at its end.
    #[error("this teardown is finished; take it up again first")]
    Finished,
    /// There is nothing to take up again.
    #[error("this teardown is going on already")]
    GoingOn,
}

impl Refusal {
    /// The id of its text. `refusal-out-of-range` takes the range as `range`.
    #[must_use]
    pub const fn key(&self) -> &'static str {
        match self {
            Refusal::GateNeeded { .. } => "refusal-gate-needed",
            Refusal::NotFromHere { .. } => "refusal-not-from-here",
            Refusal::MustRecord(_) => "refusal-must-record",
            Refusal::NotAskedHere(_) => "refusal-not-asked-here",
            Refusal::OutOfRange { .. } => "refusal-out-of-range",
            Refusal::Item(error) => error.key(),
            Refusal::NeedsReadings => "refusal-needs-readings",
            Refusal::NoReading => "refusal-no-reading",
            Refusal::OnlyAtCapacitor => "refusal-only-at-capacitor",
            Refusal::Stopped => "refusal-stopped",
            Refusal::Finished => "refusal-finished",
            Refusal::GoingOn => "refusal-going-on",
        }
    }
}

/// What becomes of a teardown when something happens.
///
/// Pure: the same history always leads to the same state. First everything that has expired at
/// the event's moment is dropped, and the person falls back to the latest step whose gates hold.
///
/// # Errors
/// A [`Refusal`] that says what is missing; the state is unchanged.
pub fn advance(state: &Teardown, entry: Entry) -> Result<Teardown, Refusal> {
    let situation = step_on(&state.situation, entry)?;
    let mut log = state.log.clone();
    log.push(entry);
    Ok(Teardown { situation, log })
}

pub(super) fn step_on(before: &Situation, Entry { at, event }: Entry) -> Result<Situation, Refusal> {
    let mut situation = before.clone();
    situation.settle(at);
    match (situation.phase, event) {
        (Phase::Working, Event::Again) => return Err(Refusal::GoingOn),
        (Phase::Stopped { .. } | Phase::Ended(_), Event::Again) => {
            situation.phase = Phase::Working;
            situation.passes.clear();
            if situation.findings.supply == Some(Supply::Inverter) {
                situation.findings.supply = None;
            }
        }
        (_, Event::Brought) => situation.passes.clear(),
        (Phase::Stopped { .. }, _) => return Err(Refusal::Stopped),
        (Phase::Ended(_), _) => return Err(Refusal::Finished),
        (Phase::Working, Event::Confirm { toward, item }) => confirm(&mut situation, toward, item, at)?,
        (Phase::Working, Event::Renew { toward }) => {
            before_hand(&situation, toward)?;
            let (gates, place) = (situation.gates(toward), situation.place(toward));
            situation.passes.turn_toward(place, situation.place(situation.position));
            situation.passes.renew(&gates, place, at)?;
        }
        (Phase::Working, Event::Doubt { toward }) => {
            before_hand(&situation, toward)?;
            let (gates, place) = (situation.gates(toward), situation.place(toward));
            situation.passes.doubt(&gates, place, at)?;
        }
        (Phase::Working, Event::Prove(proof)) => prove(&mut situation, &proof, at)?,
        (Phase::Working, Event::CouldNot { item }) => {
            situation.phase = Phase::Stopped { item };
            situation.passes.clear();
        }
        (Phase::Working, Event::Go(step)) => go(&mut situation, step, at)?,
        (Phase::Working, Event::Finish) => {
            if situation.position != Step::Store {
                return Err(Refusal::NotFromHere {
                    standing: situation.position,
                });
            }
            situation.phase = Phase::Ended(End::Stored);
            situation.passes.clear();
        }
        (Phase::Working, Event::Found(finding)) => found(&mut situation, finding)?,
        (Phase::Working, Event::PluggedIn) => {
            situation.passes.disturb(Disturbance::PluggedIn);
            situation.failed_proof = None;
        }
    }
    situation.settle(at);
    Ok(situation)
}

/// The next step and every earlier one that applies.
fn reachable(situation: &Situation, step: Step) -> Result<(), Refusal> {
    let standing = situation.position;
    let ahead = standing.next(&situation.findings) == Some(step);
    if step.applies(&situation.findings) && (ahead || step < standing) {
        Ok(())
    } else {
        Err(Refusal::NotFromHere { standing })
    }
}

/// The gates before the step where the person is, or before one within reach.
fn before_hand(situation: &Situation, toward: Step) -> Result<(), Refusal> {
    if toward == situation.position {
        Ok(())
    } else {
        reachable(situation, toward)
    }
}

/// Takes an item of the first gate that is missing before `toward`.
fn take_item(situation: &mut Situation, toward: Step, item: Item, at: Moment) -> Result<(), Refusal> {
    before_hand(situation, toward)?;
    let missing = situation.missing(toward, at).ok_or(ConfirmError::NotThisGate)?;
    if missing == Gate::Capacitor && situation.position != Step::CapacitorSafe {
        return Err(Refusal::OnlyAtCapacitor);
    }
    let (place, standing) = (situation.place(toward), situation.place(situation.position));
    situation.passes.turn_toward(place, standing);
    situation.passes.confirm(missing, item, place, at)?;
    Ok(())
}

fn confirm(situation: &mut Situation, toward: Step, item: Item, at: Moment) -> Result<(), Refusal> {
    if item == Item::ProvedByMeter {
        return Err(Refusal::NeedsReadings);
    }
    take_item(situation, toward, item, at)
}

fn prove(situation: &mut Situation, proof: &Proof, at: Moment) -> Result<(), Refusal> {
    if situation.position != Step::CapacitorSafe {
        return Err(Refusal::OnlyAtCapacitor);
    }
    let readings = proof.readings();
    if readings.iter().any(|reading| !reading.is_finite()) {
        return Err(Refusal::NoReading);
    }
    let toward = Step::Disconnect;
    if readings.iter().all(|&reading| proof.limit.holds(reading)) {
        take_item(situation, toward, Item::ProvedByMeter, at)?;
        situation.failed_proof = None;
    } else {
        situation.passes.disturb(Disturbance::StillCharged);
        situation.failed_proof = readings.into_iter().map(Voltage::abs).reduce(Voltage::max);
    }
    Ok(())
}

fn go(situation: &mut Situation, step: Step, at: Moment) -> Result<(), Refusal> {
    reachable(situation, step)?;
    if step > situation.position {
        let must = situation.position.guide(&situation.findings).must_record;
        if let Some(&field) = must.iter().find(|&&field| !situation.findings.has(field)) {
            return Err(Refusal::MustRecord(field));
        }
    }
    if let Some(gate) = situation.missing(step, at) {
        return Err(Refusal::GateNeeded { toward: step, gate });
    }
    situation.position = step;
    situation.reached = situation.reached.max(step);
    situation.passes.arrive(situation.place(step));
    Ok(())
}

fn found(situation: &mut Situation, finding: Finding) -> Result<(), Refusal> {
    let field = finding.field();
    if !situation.position.guide(&situation.findings).records.contains(&field) {
        return Err(Refusal::NotAskedHere(field));
    }
    if let Some(range) = finding.out_of_range() {
        return Err(Refusal::OutOfRange { field, range });
    }
    situation.findings.take(finding);
    if situation.findings.supply == Some(Supply::Inverter) {
        situation.phase = Phase::Ended(End::NoCore);
        situation.passes.clear();
    }
    Ok(())
}
