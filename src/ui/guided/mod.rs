//! What every guided procedure shows in the same way. Begin at `screen.rs`.

mod carried;
mod gate;
mod progress;
mod screen;
mod task;
mod whole_path;

pub use carried::FromElsewhere;
pub use gate::{GateScreen, RenewFirst, RepeatedScreen, Stopped, passed_at};
pub use progress::{Actions, Caution, Hazards, Progress};
pub use screen::{Content, GuidedScreen, Labels, why};
pub use task::BehindGates;
pub use whole_path::{Needed, PathRow, WholePath, path_of};

/// Starts a new step at its top.
pub fn to_top() {
    dioxus::prelude::document::eval("window.scrollTo(0, 0)");
}
