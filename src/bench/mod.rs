//! Proving a rebuilt core, a guided procedure: stages, predictions, readings, causes.
//!
//! Begin at `procedure.rs`, which says what the tests add to [`crate::procedure`]; a [`Plan`] holds what
//! the design predicts, and the stages with their hazards are in `stage.rs`.

mod amounts;
mod causes;
mod plan;
mod procedure;
mod resistance;
mod stage;
mod task;
#[cfg(test)]
mod tests;

pub use amounts::{Amount, Direction, Reading};
pub use causes::Cause;
pub use plan::{Plan, PlanError, Prediction};
pub use procedure::{Act, Bench, End, Entry, Event, Line, Outcome, Outcomes, Phase, Reason, Refusal, Status};
pub use resistance::{WarmRun, resistance_at};
pub use stage::{Load, Stage, StageGuide};
pub use task::{GatedTask, SEAM_WELDING, TEST_TURN};
