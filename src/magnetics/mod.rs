//! The physics: pure functions over quantities, each beside its source.

pub mod core;
pub mod gap;
mod log_curve;
pub mod path;
pub mod steel;
pub mod steel_grades;
