//! Taking a donor apart: steps, what each needs, and one function that moves between them.
//!
//! A [`Teardown`] can't be built at a later step: it starts at the first one and [`advance`] is
//! the only way on. A stored one is read back by [`Teardown::replay`], which takes its history
//! through the same function.

mod advance;
mod discharge;
mod findings;
mod guide;
mod line;
mod state;
mod step;
#[cfg(test)]
mod tests;
mod warm;

pub use advance::{Entry, Event, Proof, Refusal, advance};
pub use discharge::{Bleeder, Discharge, DischargeError, HvCapacitor, ResistorTool, ToolDuty};
pub use findings::{Field, Finding, Findings, Note, Part, ShuntFate, Supply, Way, Winding};
pub use guide::{StepGuide, Tool};
pub use state::{End, Phase, ReplayError, Teardown};
pub use step::Step;
pub use warm::{Air, Warming, WarmingError, WarmingTime, surface_of_core};
