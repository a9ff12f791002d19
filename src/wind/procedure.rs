//! What is the winding's own in the guided procedure: presses, choices, and what must be done first.

use super::count::Counter;
use super::plan::{PairPart, PrimaryBand, WindPlan};
use super::step::{Closing, Fixing, WindStep, closing_of, gates};
use crate::procedure::{self, Procedure, Run, Situation};
use crate::quantity::{Length, Resistance};
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
    /// It is wound and closed, and enclosed unless it is the second core of a pair.
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
    /// Led the tap out between the two halves.
    LeadTapOut,
    /// Took the wire that is wound off the person's own: this wire, so much of it.
    OffShelf {
        /// The wire, by its id in the store.
        wire: u128,
        /// How much.
        takes: Length,
    },
    /// Put that wire back on the shelf.
    BackOnShelf,
    /// Measured the primary's resistance, as it is at 20 °C.
    PrimaryResistance(Resistance),
    /// Measured the insulation from the primary to the core; infinite if the tester shows more than its range.
    PrimaryInsulation(Resistance),
    /// Kept a photo of the step, by its id in the store.
    Photo(u128),
    /// Kept a note on the step, by its id in the store.
    Note(u128),
    /// Chose how the core is closed.
    Closing(Closing),
    /// Chose how the winding is fixed.
    Fixing(Fixing),
    /// Joined the second core of a pair, wound in this run of its own (its id in the store), the last joint of
    /// the new windings left open.
    PairJoined(u128),
}

impl procedure::Act for Act {
    fn to_words(self) -> String {
        match self {
            Act::Turn => "turn".to_owned(),
            Act::TakeBack => "take-back".to_owned(),
            Act::EndLayer => "end-layer".to_owned(),
            Act::LeadTapOut => "tap".to_owned(),
            Act::OffShelf { wire, takes } => format!("off-shelf {wire} {}", takes.si()),
            Act::BackOnShelf => "back-on-shelf".to_owned(),
            Act::FirstLayer(width) => format!("first-layer {}", width.si()),
            Act::PrimaryResistance(value) => format!("primary-resistance {}", value.si()),
            Act::PrimaryInsulation(value) => format!("primary-insulation {}", value.si()),
            Act::Photo(id) => format!("photo {id}"),
            Act::Note(id) => format!("note {id}"),
            Act::Closing(closing) => format!("closing {}", closing.word()),
            Act::Fixing(fixing) => format!("fixing {}", fixing.word()),
            Act::PairJoined(run) => format!("pair-joined {run}"),
        }
    }

    fn from_words(name: &str, words: &mut Words<'_>) -> Option<Self> {
        Some(match name {
            "turn" => Act::Turn,
            "take-back" => Act::TakeBack,
            "end-layer" => Act::EndLayer,
            "tap" => Act::LeadTapOut,
            "off-shelf" => Act::OffShelf {
                wire: words.parse()?,
                takes: words.quantity()?,
            },
            "back-on-shelf" => Act::BackOnShelf,
            "first-layer" => Act::FirstLayer(words.quantity()?),
            "primary-resistance" => Act::PrimaryResistance(words.quantity()?),
            "primary-insulation" => Act::PrimaryInsulation(words.quantity()?),
            "photo" => Act::Photo(words.parse()?),
            "note" => Act::Note(words.parse()?),
            "closing" => Act::Closing(Closing::from_word(words.word()?)?),
            "fixing" => Act::Fixing(Fixing::from_word(words.word()?)?),
            "pair-joined" => Act::PairJoined(words.parse()?),
            _ => return None,
        })
    }
}

/// A reason not to go on that only the winding has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// The primary was not measured.
    PrimaryNotMeasured,
    /// The primary's resistance or its insulation is not as it should be.
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
    /// The tap comes before the next turn.
    TapFirst,
    /// There is no tap to lead out here.
    NoTap,
    /// The wire was taken off the shelf already.
    OffShelfAlready,
    /// No wire was taken off the shelf.
    NotOffShelf,
    /// A weld across the gap of a choke or a ballast.
    WeldOverGap,
    /// The cores of a pair are not joined.
    PairNotJoined,
    /// The second core of a pair is not wound, or not as the design has it now.
    SecondNotWound,
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
            Reason::TapFirst => "refusal-tap-first",
            Reason::NoTap => "refusal-no-tap",
            Reason::NotOffShelf => "refusal-not-off-shelf",
            Reason::OffShelfAlready => "refusal-off-shelf-already",
            Reason::WeldOverGap => "refusal-weld-over-gap",
            Reason::PairNotJoined => "refusal-pair-not-joined",
            Reason::SecondNotWound => "refusal-second-not-wound",
        }
    }
}

/// What was measured of the primary.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct PrimaryReadings {
    /// Its resistance at 20 °C.
    pub resistance: Option<Resistance>,
    /// Its insulation to the core.
    pub insulation: Option<Resistance>,
}

impl PrimaryReadings {
    /// Whether both readings say that the primary is whole.
    ///
    /// # Errors
    /// [`Reason::PrimaryNotMeasured`] while one is missing, [`Reason::PrimaryDamaged`] where one is outside its
    /// band.
    pub fn prove(&self, band: &PrimaryBand) -> Result<(), Reason> {
        let (Some(resistance), Some(insulation)) = (self.resistance, self.insulation) else {
            return Err(Reason::PrimaryNotMeasured);
        };
        if resistance >= band.low && resistance <= band.high && insulation >= band.insulation {
            Ok(())
        } else {
            Err(Reason::PrimaryDamaged)
        }
    }
}

/// What the winding records.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Facts {
    /// Turns, layers and what was measured of them.
    pub counter: Counter,
    /// The wire that was taken off the person's own, by its id in the store, and how much of it.
    pub off_shelf: Option<(u128, Length)>,
    /// What was measured of the primary.
    pub primary: PrimaryReadings,
    /// Photos kept at a step, by their id in the store.
    pub photos: Vec<(WindStep, u128)>,
    /// Notes kept at a step, by their id in the store.
    pub notes: Vec<(WindStep, u128)>,
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
            WindStep::JoinPair => self.joints().is_some(),
            // The second core of a pair is enclosed with the first.
            WindStep::Enclose => self.pair != Some(PairPart::Second),
            _ => true,
        }
    }

    fn complete(&self, facts: &Facts, step: WindStep) -> Result<(), Reason> {
        match step {
            WindStep::ProvePrimary => self.primary.map_or(Ok(()), |band| facts.primary.prove(&band)),
            WindStep::WindTurns if facts.counter.turns() < self.turns => Err(Reason::TurnsMissing),
            WindStep::Choose if facts.fixing.is_none() || (self.core_opened && facts.closing.is_none()) => {
                Err(Reason::NotChosen)
            }
            WindStep::JoinPair if !facts.pair_joined => Err(Reason::PairNotJoined),
            _ => Ok(()),
        }
    }

    fn act(&mut self, situation: &mut Situation<Self>, act: Act, _: Moment) -> Result<(), Refusal> {
        let standing = situation.position;
        let asked_at = match act {
            Act::Turn | Act::TakeBack | Act::EndLayer | Act::LeadTapOut | Act::FirstLayer(_) => WindStep::WindTurns,
            Act::OffShelf { .. } | Act::BackOnShelf => WindStep::LeadOut,
            Act::PrimaryResistance(_) | Act::PrimaryInsulation(_) => WindStep::ProvePrimary,
            Act::Closing(_) | Act::Fixing(_) => WindStep::Choose,
            Act::PairJoined(_) => WindStep::JoinPair,
            // A record of whichever step it is.
            Act::Photo(_) | Act::Note(_) => standing,
        };
        if standing != asked_at {
            return Err(Refusal::NotAskedHere);
        }
        let facts = &mut situation.facts;
        let counter = &mut facts.counter;
        let unless = |done: bool, reason| if done { Ok(()) } else { Err(Refusal::Own(reason)) };
        match act {
            Act::Turn => {
                unless(counter.turns() < self.turns, Reason::AllWound)?;
                unless(!counter.is_at_tap(self), Reason::TapFirst)?;
                counter.press(self);
                Ok(())
            }
            Act::LeadTapOut => unless(counter.lead_tap_out(self), Reason::NoTap),
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
            Act::OffShelf { wire, takes } => {
                unless(facts.off_shelf.is_none(), Reason::OffShelfAlready)?;
                if !(takes.si() > 0.0 && takes.si() <= 1e5) {
                    return Err(Refusal::OutOfRange { range: "0 to 100 km" });
                }
                facts.off_shelf = Some((wire, takes));
                Ok(())
            }
            Act::BackOnShelf => unless(facts.off_shelf.take().is_some(), Reason::NotOffShelf),
            Act::PrimaryResistance(value) => {
                facts.primary.resistance = Some(readable(value)?);
                Ok(())
            }
            Act::PrimaryInsulation(value) => {
                facts.primary.insulation = Some(readable(value)?);
                Ok(())
            }
            Act::Photo(id) => {
                facts.photos.push((standing, id));
                Ok(())
            }
            Act::Note(id) => {
                facts.notes.push((standing, id));
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
            Act::PairJoined(_) => {
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

/// A resistance that an instrument can show: infinite for more than its range.
fn readable(value: Resistance) -> Result<Resistance, Refusal> {
    if value.si() >= 0.0 {
        Ok(value)
    } else {
        Err(Refusal::OutOfRange { range: "0 Ω or more" })
    }
}
