//! The physics: pure functions over quantities, each beside its source.

pub mod core;
pub mod gap;
pub mod idle;
pub mod idle_fit;
pub mod inductor;
pub mod inductor_design;
pub mod inrush;
mod log_curve;
pub mod path;
pub mod steel;
pub mod steel_grades;
