//! Proving a rebuilt core: stages, predictions, readings, and one function that moves on.
//!
//! A [`Bench`] can't be built at a later stage: [`advance`] is the only way on, and a stored one
//! is read back through it by [`Bench::replay`].

mod advance;
mod amounts;
mod causes;
mod line;
mod plan;
mod resistance;
mod stage;
mod state;
mod task;
#[cfg(test)]
mod tests;

pub use advance::{Entry, Event, Refusal, advance};
pub use amounts::{Amount, Direction, Reading};
pub use causes::Cause;
pub use plan::{Plan, PlanError, Prediction};
pub use resistance::{WarmRun, resistance_at};
pub use stage::{Load, Stage, StageGuide};
pub use state::{Bench, Line, Outcome, Phase, ReplayError, Status};
pub use task::{GatedTask, SEAM_WELDING, TEST_TURN};
