//! What is the winding's own in the guided procedure: presses, choices, and what must be done first.

use super::count::Counter;
use super::plan::WindPlan;
use super::step::{Closing, Fixing, PrimaryState, WindStep, closing_of, gates};
use crate::procedure::{self, Procedure, Run, Situation};
use crate::quantity::Length;
use crate::safety::{Gate, Moment, Place, Words};

/// The winding of one core: its plan, where it stands and everything that happened.
pub type Wind = Run<WindPlan>;
/// Something that a person did while winding.
pub type Event = procedure::Event<WindPlan>;
/// An event and when it happened.
pub type Entry = procedure::Entry<WindPlan>;
/// Whether the winding goes on.
pub type Phase = procedure::Phase<End>;
/// Why an event is refused.
pub type Refusal = procedure::Refusal<WindPlan>;

/// The end of the winding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum End {
    /// It is wound, closed and enclosed: the bench comes next.
    Wound,
}

/// An event that only the winding has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Act {
    /// Wound a turn.
    Turn,
    /// Takes the last press back.
    TakeBack,
    /// The layer is full before it has all its turns.
    EndLayer,
    /// Measured the whole first layer along the limb.
    FirstLayer(Length),
    /// Took the wire that is wound off the person's own.
    OffShelf,
    /// Measured the primary.
    Primary(PrimaryState),
    /// Chose how the core is closed.
    Closing(Closing),
    /// Chose how the winding is fixed.
    Fixing(Fixing),
    /// Joined both cores of a pair, the last joint of the new windings left open.
    PairJoined,
}

impl procedure::Act for Act {
    fn to_words(self) -> String {
        match self {
            Act::Turn => "turn".to_owned(),
            Act::TakeBack => "take-back".to_owned(),
            Act::EndLayer => "end-layer".to_owned(),
            Act::OffShelf => "off-shelf".to_owned(),
            Act::FirstLayer(width) => format!("first-layer {}", width.si()),
            Act::Primary(state) => format!("primary {}", state.word()),
            Act::Closing(closing) => format!("closing {}", closing.word()),
            Act::Fixing(fixing) => format!("fixing {}", fixing.word()),
            Act::PairJoined => "pair-joined".to_owned(),
        }
    }

    fn from_words(name: &str, words: &mut Words<'_>) -> Option<Self> {
        Some(match name {
            "turn" => Act::Turn,
            "take-back" => Act::TakeBack,
            "end-layer" => Act::EndLayer,
            "off-shelf" => Act::OffShelf,
            "first-layer" => Act::FirstLayer(words.quantity()?),
            "primary" => Act::Primary(PrimaryState::from_word(words.word()?)?),
            "closing" => Act::Closing(Closing::from_word(words.word()?)?),
            "fixing" => Act::Fixing(Fixing::from_word(words.word()?)?),
            "pair-joined" => Act::PairJoined,
            _ => return None,
        })
    }
}

/// A reason not to go on that only the winding has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// The primary was not measured.
    PrimaryNotMeasured,
    /// The primary is damaged.
    PrimaryDamaged,
    /// Turns are missing.
    TurnsMissing,
    /// All turns are wound.
    AllWound,
    /// There is no press to take back.
    NothingToTakeBack,
    /// No layer is under way.
    NoLayer,
    /// The first layer is not finished.
    FirstLayerFirst,
    /// How the core is closed and the winding fixed is not chosen.
    NotChosen,
    /// The wire was taken off the shelf already.
    OffShelfAlready,
    /// A weld across the gap of a choke or a ballast.
    WeldOverGap,
    /// The cores of a pair are not joined.
    PairNotJoined,
}

impl procedure::Reason for Reason {
    fn key(self) -> &'static str {
        match self {
            Reason::PrimaryNotMeasured => "refusal-primary-not-measured",
            Reason::PrimaryDamaged => "refusal-primary-damaged",
            Reason::TurnsMissing => "refusal-turns-missing",
            Reason::AllWound => "refusal-all-wound",
            Reason::NothingToTakeBack => "refusal-nothing-to-take-back",
            Reason::NoLayer => "refusal-no-layer",
            Reason::FirstLayerFirst => "refusal-first-layer-first",
            Reason::NotChosen => "refusal-not-chosen",
            Reason::OffShelfAlready => "refusal-off-shelf-already",
            Reason::WeldOverGap => "refusal-weld-over-gap",
            Reason::PairNotJoined => "refusal-pair-not-joined",
        }
    }
}

/// What the winding records.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facts {
    /// Turns, layers and what was measured of them.
    pub counter: Counter,
    /// Whether the wire was taken off the person's own.
    pub off_shelf: bool,
    /// What the measurements say of the primary.
    pub primary: Option<PrimaryState>,
    /// How the core is closed.
    pub closing: Option<Closing>,
    /// How the winding is fixed.
    pub fixing: Option<Fixing>,
    /// Whether both cores of a pair are joined.
    pub pair_joined: bool,
}

impl Procedure for WindPlan {
    type Step = WindStep;
    type Facts = Facts;
    type Act = Act;
    type End = End;
    type Reason = Reason;

    const FIRST: WindStep = WindStep::Prepare;

    fn place(&self, facts: &Facts, step: WindStep) -> Place {
        step.place(closing_of(self.is_coil(), facts.closing), facts.fixing)
    }

    fn gates(&self, facts: &Facts, step: WindStep) -> Vec<Gate> {
        gates(step, closing_of(self.is_coil(), facts.closing), facts.fixing)
    }

    fn applies(&self, _: &Facts, step: WindStep) -> bool {
        match step {
            WindStep::PrimaryBack => self.primary_back,
            WindStep::ShuntsBack => self.shunts,
            WindStep::Close => self.core_opened,
            WindStep::ProvePrimary | WindStep::Barrier => !self.is_coil(),
            WindStep::CutShims => self.is_coil(),
            WindStep::JoinPair => self.pair.is_some(),
            _ => true,
        }
    }

    fn complete(&self, facts: &Facts, step: WindStep) -> Result<(), Reason> {
        match step {
            WindStep::ProvePrimary => match facts.primary {
                None => Err(Reason::PrimaryNotMeasured),
                Some(PrimaryState::Damaged) => Err(Reason::PrimaryDamaged),
                Some(PrimaryState::Whole) => Ok(()),
            },
            WindStep::WindTurns if facts.counter.turns() < self.turns => Err(Reason::TurnsMissing),
            WindStep::Choose if facts.fixing.is_none() || (self.core_opened && facts.closing.is_none()) => {
                Err(Reason::NotChosen)
            }
            WindStep::JoinPair if !facts.pair_joined => Err(Reason::PairNotJoined),
            _ => Ok(()),
        }
    }

    fn act(&mut self, situation: &mut Situation<Self>, act: Act, _: Moment) -> Result<(), Refusal> {
        let asked_at = match act {
            Act::Turn | Act::TakeBack | Act::EndLayer | Act::FirstLayer(_) => WindStep::WindTurns,
            Act::OffShelf => WindStep::LeadOut,
            Act::Primary(_) => WindStep::ProvePrimary,
            Act::Closing(_) | Act::Fixing(_) => WindStep::Choose,
            Act::PairJoined => WindStep::JoinPair,
        };
        if situation.position != asked_at {
            return Err(Refusal::NotAskedHere);
        }
        let facts = &mut situation.facts;
        let counter = &mut facts.counter;
        let unless = |done: bool, reason| if done { Ok(()) } else { Err(Refusal::Own(reason)) };
        match act {
            Act::Turn => {
                unless(counter.turns() < self.turns, Reason::AllWound)?;
                counter.press(self);
                Ok(())
            }
            Act::TakeBack => unless(counter.take_back(self), Reason::NothingToTakeBack),
            Act::EndLayer => unless(counter.end_layer(self), Reason::NoLayer),
            Act::FirstLayer(width) => {
                if !(width.mm() >= 0.1 && width <= self.breadth * 2.0) {
                    return Err(Refusal::OutOfRange {
                        range: "from 0.1 mm to twice the room along the limb",
                    });
                }
                unless(counter.measure(self, width), Reason::FirstLayerFirst)
            }
            Act::OffShelf => {
                unless(!facts.off_shelf, Reason::OffShelfAlready)?;
                facts.off_shelf = true;
                Ok(())
            }
            Act::Primary(state) => {
                facts.primary = Some(state);
                Ok(())
            }
            Act::Closing(Closing::Weld) if self.is_coil() => Err(Refusal::Own(Reason::WeldOverGap)),
            Act::Closing(closing) => {
                facts.closing = Some(closing);
                Ok(())
            }
            Act::Fixing(fixing) => {
                facts.fixing = Some(fixing);
                Ok(())
            }
            Act::PairJoined => {
                facts.pair_joined = true;
                Ok(())
            }
        }
    }

    fn finish(&self, situation: &mut Situation<Self>) -> End {
        situation.passes.clear();
        End::Wound
    }

    fn resume(&self, _: &mut Facts) -> bool {
        true
    }
}
