//! A job as a printable page and as machine-readable JSON, and its drawings.

pub mod behaviour;
mod circuit_parts;
pub mod conflicts;
pub mod draw;
mod inputs;
mod json;
mod materials;
mod numbers;
mod page;
mod target;

pub use circuit_parts::{CircuitLine, circuit_lines, needed_text, outlet_line, state_fuse};
pub use draw::{core_picture, oven_becomes, oven_picture, stage_drawing, step_drawing};
pub use inputs::{InputShown, widened_by};
pub use json::json;
pub use materials::materials;
pub use numbers::{Shown, show};
pub use page::{drawings, page, voltage_drawing, wiring};
pub use target::target_page;
