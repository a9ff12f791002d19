//! What is the bench's own in the guided procedure: readings against a plan, causes, a reopened core.

use std::collections::BTreeMap;

use super::amounts::{Amount, Direction, Reading};
use super::causes::Cause;
use super::plan::{Plan, Prediction};
use super::resistance::WarmRun;
use super::stage::Stage;
use crate::procedure::{self, Procedure, Run, Situation};
use crate::quantity::Current;
use crate::safety::{Disturbance, Gate, Moment, Place, Words};
use crate::wire::Metal;

/// The tests of one rebuilt core: its plan, where it stands and everything that happened.
pub type Bench = Run<Plan>;
/// Something that a person did at the bench.
pub type Event = procedure::Event<Plan>;
/// An event and when it happened.
pub type Entry = procedure::Entry<Plan>;
/// Whether the tests go on.
pub type Phase = procedure::Phase<End>;
/// Why an event is refused.
pub type Refusal = procedure::Refusal<Plan>;

/// The end of the tests.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum End {
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

/// The last reading of each prediction, by stage and winding.
pub type Outcomes = BTreeMap<(Stage, u8), Outcome>;

/// A line of the commissioning record.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// What was predicted.
    pub prediction: Prediction,
    /// What was read, if it was.
    pub outcome: Option<Outcome>,
}

impl Run<Plan> {
    /// The commissioning record: every prediction with its last reading.
    #[must_use]
    pub fn record(&self) -> Vec<Line> {
        let line = |&prediction: &Prediction| Line {
            prediction,
            outcome: self.facts().get(&(prediction.stage, prediction.of)).copied(),
        };
        self.plan().predictions().iter().map(line).collect()
    }
}

/// An event that only the bench has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Act {
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
}

/// A reason not to go on that only the bench has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// A reading is missing.
    NotRead {
        /// The winding.
        of: u8,
    },
    /// A reading lies outside its band.
    OutsideBand {
        /// The winding.
        of: u8,
    },
    /// The cause doesn't explain the reading.
    NoExplanation,
}

impl procedure::Reason for Reason {
    fn key(self) -> &'static str {
        match self {
            Reason::NotRead { .. } => "refusal-not-read",
            Reason::OutsideBand { .. } => "refusal-outside-band",
            Reason::NoExplanation => "refusal-no-explanation",
        }
    }
}

impl Procedure for Plan {
    type Step = Stage;
    type Facts = Outcomes;
    type Act = Act;
    type End = End;
    type Reason = Reason;

    const FIRST: Stage = Stage::Prepare;

    fn place(&self, _: &Outcomes, stage: Stage) -> Place {
        stage.place()
    }

    fn gates(&self, _: &Outcomes, stage: Stage) -> Vec<Gate> {
        stage.gates_under(self.load())
    }

    fn applies(&self, _: &Outcomes, stage: Stage) -> bool {
        !stage.takes_readings() || self.of_stage(stage).next().is_some()
    }

    /// Every prediction of the stage was read, and lies in its band or is explained.
    fn complete(&self, outcomes: &Outcomes, stage: Stage) -> Result<(), Reason> {
        for &Prediction { of, .. } in self.of_stage(stage) {
            match outcomes.get(&(stage, of)).map(|outcome| outcome.status) {
                None => return Err(Reason::NotRead { of }),
                Some(Status::Outside(_)) => return Err(Reason::OutsideBand { of }),
                Some(Status::InBand | Status::Explained(..)) => {}
            }
        }
        Ok(())
    }

    fn act(&mut self, situation: &mut Situation<Self>, act: Act, at: Moment) -> Result<(), Refusal> {
        match act {
            Act::Read { of, reading } => self.read(situation, of, reading, at),
            Act::Explain { of, cause } => explain(situation, of, cause),
            Act::Reopened { .. } => {
                situation.passes.disturb(Disturbance::Reopened);
                situation.facts.clear();
                Ok(())
            }
            Act::Lamp { value, low, high } => {
                if situation.position > Stage::LampIdle || self.of_stage(Stage::LampIdle).next().is_none() {
                    return Err(Refusal::NotAskedHere);
                }
                let [value, low, high] = [value, low, high].map(Amount::Current);
                *self = self.with_lamp(value, low, high).map_err(|_| Refusal::OutOfRange {
                    range: "a current of 0 A or more with its band",
                })?;
                situation.facts.retain(|(stage, _), _| *stage != Stage::LampIdle);
                Ok(())
            }
        }
    }

    fn reopens(act: Act) -> bool {
        matches!(act, Act::Reopened { .. })
    }

    fn finish(&self, _: &mut Situation<Self>) -> End {
        End::Commissioned
    }

    /// The core may have been changed since: tests not finished begin again.
    fn brought(&self, situation: &mut Situation<Self>) {
        if situation.phase != Phase::Ended(End::Commissioned) {
            situation.facts.clear();
        }
    }
}

impl Plan {
    fn read(&self, situation: &mut Situation<Self>, of: u8, reading: Reading, at: Moment) -> Result<(), Refusal> {
        let stage = situation.position;
        let prediction = self.find(stage, of).ok_or(Refusal::NotAskedHere)?;
        if let Some(range) = reading.fault(stage) {
            return Err(Refusal::OutOfRange { range });
        }
        let amount = reading.amount();
        let status = prediction.outside(amount).map_or(Status::InBand, Status::Outside);
        situation.facts.insert(
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
}

fn explain(situation: &mut Situation<Plan>, of: u8, cause: Cause) -> Result<(), Refusal> {
    let stage = situation.position;
    let outcome = situation
        .facts
        .get_mut(&(stage, of))
        .ok_or(Refusal::Own(Reason::NotRead { of }))?;
    match outcome.status {
        Status::Outside(direction) if cause.explains(stage, direction) => {
            outcome.status = Status::Explained(direction, cause);
            Ok(())
        }
        _ => Err(Refusal::Own(Reason::NoExplanation)),
    }
}

impl procedure::Act for Act {
    fn to_words(self) -> String {
        match self {
            Act::Read { of, reading } => format!("read {of} {}", reading_words(reading)),
            Act::Explain { of, cause } => format!("explain {of} {}", cause.word()),
            Act::Reopened { fixed } => format!("reopened {}", fixed.map_or("nothing", Cause::word)),
            Act::Lamp { value, low, high } => format!("lamp {} {} {}", value.si(), low.si(), high.si()),
        }
    }

    fn from_words(name: &str, words: &mut Words<'_>) -> Option<Self> {
        Some(match name {
            "read" => Act::Read {
                of: words.parse()?,
                reading: reading(words)?,
            },
            "explain" => Act::Explain {
                of: words.parse()?,
                cause: Cause::from_word(words.word()?)?,
            },
            "reopened" => Act::Reopened {
                fixed: match words.word()? {
                    "nothing" => None,
                    cause => Some(Cause::from_word(cause)?),
                },
            },
            "lamp" => Act::Lamp {
                value: words.quantity()?,
                low: words.quantity()?,
                high: words.quantity()?,
            },
            _ => return None,
        })
    }
}

fn reading_words(reading: Reading) -> String {
    match reading {
        Reading::Winding { resistance, at, metal } => {
            format!("winding {} {} {}", resistance.si(), at.si(), metal.word())
        }
        Reading::Insulation(value) => format!("insulation {}", value.si()),
        Reading::Ratio(value) => format!("ratio {}", value.si()),
        Reading::Impedance { volts, amps } => format!("impedance {} {}", volts.si(), amps.si()),
        Reading::Current(value) => format!("current {}", value.si()),
        Reading::Voltage(value) => format!("voltage {}", value.si()),
        Reading::Warm(run) => format!(
            "warm {} {} {} {} {} {}",
            run.cold.si(),
            run.cold_at.si(),
            run.hot.si(),
            run.air.si(),
            run.current.si(),
            run.metal.word()
        ),
    }
}

fn reading(words: &mut Words<'_>) -> Option<Reading> {
    Some(match words.word()? {
        "winding" => Reading::Winding {
            resistance: words.quantity()?,
            at: words.quantity()?,
            metal: Metal::from_word(words.word()?)?,
        },
        "insulation" => Reading::Insulation(words.quantity()?),
        "ratio" => Reading::Ratio(words.quantity()?),
        "impedance" => Reading::Impedance {
            volts: words.quantity()?,
            amps: words.quantity()?,
        },
        "current" => Reading::Current(words.quantity()?),
        "voltage" => Reading::Voltage(words.quantity()?),
        "warm" => Reading::Warm(WarmRun {
            cold: words.quantity()?,
            cold_at: words.quantity()?,
            hot: words.quantity()?,
            air: words.quantity()?,
            current: words.quantity()?,
            metal: Metal::from_word(words.word()?)?,
        }),
        _ => return None,
    })
}
