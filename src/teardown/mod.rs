//! Taking a donor apart, a guided procedure: steps, what each needs, asks for and risks.
//!
//! Begin at `procedure.rs`, which says what a teardown adds to [`crate::procedure`]; the steps are in
//! `step.rs` and what each shows in `guide.rs`. Two calculators inform and open no gate: the capacitor's
//! discharge and the warming of the core.

mod discharge;
mod findings;
mod guide;
mod procedure;
mod step;
#[cfg(test)]
mod tests;
mod warm;

pub use discharge::{Bleeder, Discharge, DischargeError, HvCapacitor, ResistorTool, ToolDuty};
pub use findings::{Field, Finding, Findings, Note, Part, ShuntFate, Supply, Way, Winding};
pub use guide::{StepGuide, Tool};
pub use procedure::{Act, End, Entry, Event, Facts, Phase, Proof, Reason, Refusal, Teardown, TeardownProcedure};
pub use step::Step;
pub use warm::{Air, Warming, WarmingError, WarmingTime, surface_of_core};
