//! What a person did, how it is stored, and why it is refused.

use std::fmt;

use super::{Act, Procedure, Reason};
use crate::safety::{ConfirmError, Gate, Item, LineError, Moment, Words};
use crate::words::Word;

/// Something that a person did.
#[derive(Debug, Clone, PartialEq)]
pub enum Event<P: Procedure> {
    /// Held one item of the first missing gate before `toward`.
    Confirm {
        /// The step that the gate stands before.
        toward: P::Step,
        /// The item.
        item: Item,
    },
    /// Held once that everything confirmed earlier the same day, at the gates before `toward`, is
    /// still true.
    Renew {
        /// The step that the gates stand before.
        toward: P::Step,
    },
    /// Not all of it is still true: those gates are confirmed item by item again.
    Doubt {
        /// The step that the gates stand before.
        toward: P::Step,
    },
    /// "I could not do this."
    CouldNot {
        /// The item.
        item: Item,
    },
    /// Went to a step: the next one, or any earlier one.
    Go(P::Step),
    /// An event of this procedure's own.
    Act(P::Act),
    /// Finished the last step.
    Finish,
    /// Takes the work up again after a stop or an end. Nothing that was confirmed counts.
    Again,
    /// The records came here as a copy, from another device or an earlier day: what was done since
    /// is not in them. Nothing that was confirmed counts.
    Brought,
}

impl<P: Procedure> Copy for Event<P> {}

/// An event and when it happened: what a history is made of.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry<P: Procedure> {
    /// When.
    pub at: Moment,
    /// What.
    pub event: Event<P>,
}

impl<P: Procedure> Copy for Entry<P> {}

impl<P: Procedure> Entry<P> {
    /// The entry as one line: moment, event, and what belongs to it; SI units.
    #[must_use]
    pub fn to_line(&self) -> String {
        let event = match self.event {
            Event::Confirm { toward, item } => format!("confirm {} {}", toward.word(), item.word()),
            Event::Renew { toward } => format!("renew {}", toward.word()),
            Event::Doubt { toward } => format!("doubt {}", toward.word()),
            Event::CouldNot { item } => format!("could-not {}", item.word()),
            Event::Go(step) => format!("go {}", step.word()),
            Event::Act(act) => act.to_words(),
            Event::Finish => "finish".to_owned(),
            Event::Again => "again".to_owned(),
            Event::Brought => "brought".to_owned(),
        };
        format!("{} {event}", self.at.words())
    }

    /// The entry that a line holds. Whether it can have happened is for
    /// [`Run::replay`](super::Run::replay) to say.
    ///
    /// # Errors
    /// [`LineError`] for a line that [`Entry::to_line`] never writes.
    pub fn from_line(line: &str) -> Result<Self, LineError> {
        read(line).ok_or_else(|| LineError::of(line))
    }
}

fn read<P: Procedure>(line: &str) -> Option<Entry<P>> {
    let mut words = Words::of(line);
    let at = words.moment()?;
    let name = words.word()?;
    let step = |words: &mut Words<'_>| P::Step::from_word(words.word()?);
    let item = |words: &mut Words<'_>| Item::from_word(words.word()?);
    let event = match name {
        "confirm" => Event::Confirm {
            toward: step(&mut words)?,
            item: item(&mut words)?,
        },
        "renew" => Event::Renew {
            toward: step(&mut words)?,
        },
        "doubt" => Event::Doubt {
            toward: step(&mut words)?,
        },
        "could-not" => Event::CouldNot {
            item: item(&mut words)?,
        },
        "go" => Event::Go(step(&mut words)?),
        "finish" => Event::Finish,
        "again" => Event::Again,
        "brought" => Event::Brought,
        name => Event::Act(P::Act::from_words(name, &mut words)?),
    };
    words.end(Entry { at, event })
}

/// Why an event is refused. The state stays as it was. Its own message is the id of the text that a
/// person reads.
#[derive(Debug, Clone, PartialEq)]
pub enum Refusal<P: Procedure> {
    /// A gate stands before the step.
    GateNeeded {
        /// The step.
        toward: P::Step,
        /// The first gate missing.
        gate: Gate,
    },
    /// The step can't be reached from here in one go.
    NotFromHere {
        /// The step where the person stands.
        standing: P::Step,
    },
    /// This is not recorded at the step.
    NotAskedHere,
    /// A number lies outside its range.
    OutOfRange {
        /// The range, as the person reads it.
        range: &'static str,
    },
    /// A reason of this procedure's own.
    Own(P::Reason),
    /// The item does not come now.
    Item(ConfirmError),
    /// The work is stopped.
    Stopped,
    /// The work is at its end.
    Finished,
    /// There is nothing to take up again.
    GoingOn,
}

impl<P: Procedure> Copy for Refusal<P> {}

impl<P: Procedure> Refusal<P> {
    /// The id of its text. `refusal-out-of-range` takes the range as `range`.
    #[must_use]
    pub fn key(&self) -> &'static str {
        match self {
            Refusal::GateNeeded { .. } => "refusal-gate-needed",
            Refusal::NotFromHere { .. } => "refusal-not-from-here",
            Refusal::NotAskedHere => "refusal-not-asked-here",
            Refusal::OutOfRange { .. } => "refusal-out-of-range",
            Refusal::Own(reason) => reason.key(),
            Refusal::Item(error) => error.key(),
            Refusal::Stopped => "refusal-stopped",
            Refusal::Finished => "refusal-finished",
            Refusal::GoingOn => "refusal-going-on",
        }
    }

    /// The range that goes into its text; empty where there is none.
    #[must_use]
    pub const fn range(&self) -> &'static str {
        match self {
            Refusal::OutOfRange { range } => range,
            _ => "",
        }
    }
}

impl<P: Procedure> From<ConfirmError> for Refusal<P> {
    fn from(error: ConfirmError) -> Self {
        Refusal::Item(error)
    }
}

impl<P: Procedure> fmt::Display for Refusal<P> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.key())
    }
}

impl<P: Procedure> std::error::Error for Refusal<P> {}
