//! Winding it: from a bare core to a part that is ready for the bench, a guided procedure.
//!
//! Begin at `procedure.rs`, which says what this work adds to [`crate::procedure`]. A [`WindPlan`] holds
//! what the chosen design asks for when the work begins; the steps with their hazards are in `step.rs`,
//! and `count.rs` counts turns, layers, wire and room from presses alone. No step gives mains to the part.

mod count;
mod plan;
mod procedure;
mod step;
#[cfg(test)]
mod tests;

pub use count::{Counter, Forecast};
pub use plan::{CoreOfPair, PairJoints, PairPart, PlanFault, PrimaryBand, WindKind, WindPlan};
pub use procedure::{Act, End, Entry, Event, Facts, Phase, PrimaryReadings, Reason, Refusal, Wind};
pub use step::{Closing, Fixing, WindStep, WindStepGuide};
