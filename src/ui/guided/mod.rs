//! What teardown and bench have in common: the gate over the whole screen, the stop.

mod carried;
mod gate;
mod progress;
mod task;

pub use carried::FromElsewhere;
pub use gate::{GateScreen, RenewFirst, RepeatedScreen, Stopped, passed_at};
pub use progress::{Actions, Caution, Hazards, Progress};
pub use task::BehindGates;

/// Starts a new step at its top.
pub fn to_top() {
    dioxus::prelude::document::eval("window.scrollTo(0, 0)");
}
