//! Guided work: an order of steps, gates before those that can hurt, and a history of what was done.
//!
//! Begin at [`Procedure`], the data of one guided work: its steps, the gates and the place of each, what
//! must be recorded before going on, and the events that only this work has. A [`Run`] is one such work
//! under way. It can't be built at a later step: it starts at the first one and [`advance`] is the only
//! way on. A stored one is read back by [`Run::replay`], which takes its history ([`Entry`], a line each)
//! through the same function. `explore.rs` holds the tests that every procedure is put through: no
//! sequence of events reaches a step without the gates of its hazards.

mod event;
#[cfg(test)]
pub(crate) mod explore;
mod run;

use std::fmt::Debug;
use std::hash::Hash;

pub use event::{Entry, Event, Refusal};
#[cfg(test)]
pub(crate) use run::step_on;
pub use run::{Phase, ReplayError, Run, Situation, advance};

use crate::safety::{Gate, Item, Moment, Place, Words};
use crate::words::Word;

/// An event that only one procedure has, as it is stored.
pub trait Act: Copy + PartialEq + Debug + 'static {
    /// The act as words for a line; SI units.
    fn to_words(self) -> String;
    /// The act whose first word is `name`.
    fn from_words(name: &str, words: &mut Words<'_>) -> Option<Self>;
}

/// A reason of one procedure's own not to go on.
pub trait Reason: Copy + PartialEq + Debug + 'static {
    /// The id of its text.
    fn key(self) -> &'static str;
}

/// One guided work as data. The value is what was fixed when the work began, such as the predictions
/// that the tests compare with.
pub trait Procedure: Clone + PartialEq + Debug + 'static {
    /// The steps, in order.
    type Step: Word;
    /// What was recorded on the way.
    type Facts: Clone + PartialEq + Debug + Default;
    /// The events that only this procedure has.
    type Act: Act;
    /// The ways in which the work ends.
    type End: Copy + Eq + Hash + Debug;
    /// The reasons of its own not to go on.
    type Reason: Reason;

    /// The step where the work begins. It has no gates.
    const FIRST: Self::Step;

    /// Where gates are passed for a step.
    fn place(&self, facts: &Self::Facts, step: Self::Step) -> Place;

    /// The gates before a step.
    fn gates(&self, facts: &Self::Facts, step: Self::Step) -> Vec<Gate>;

    /// True if the work goes through a step.
    fn applies(&self, facts: &Self::Facts, step: Self::Step) -> bool;

    /// Whether a step has all that must be recorded before going on.
    ///
    /// # Errors
    /// The first thing that is missing.
    fn complete(&self, facts: &Self::Facts, step: Self::Step) -> Result<(), Self::Reason>;

    /// Whether a press confirms an item at the step where the person is.
    ///
    /// # Errors
    /// The reason why something else is needed.
    fn may_press(&self, _here: Self::Step, _gate: Gate, _item: Item) -> Result<(), Self::Reason> {
        Ok(())
    }

    /// Takes an event of its own.
    ///
    /// # Errors
    /// A [`Refusal`] where it cannot happen here.
    fn act(&mut self, situation: &mut Situation<Self>, act: Self::Act, at: Moment) -> Result<(), Refusal<Self>>;

    /// True for an act that opens a finished work again.
    fn reopens(_act: Self::Act) -> bool {
        false
    }

    /// Finishes the last step.
    fn finish(&self, situation: &mut Situation<Self>) -> Self::End;

    /// Takes a finished work up again where that is possible; false where it stays finished.
    fn resume(&self, _facts: &mut Self::Facts) -> bool {
        false
    }

    /// Drops what does not count in records that came as a copy. Gates never do.
    fn brought(&self, _situation: &mut Situation<Self>) {}
}
