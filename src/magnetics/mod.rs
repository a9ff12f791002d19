//! The physics: pure functions over quantities, each beside its source.

pub mod core;
pub mod gap;
pub mod idle;
pub mod idle_fit;
pub mod induction;
pub mod inductor;
pub mod inductor_design;
pub mod inrush;
mod log_curve;
pub mod mains;
pub mod path;
pub mod performance;
pub mod primary;
pub mod skin;
pub mod steel;
pub mod steel_grades;
pub mod winding;
