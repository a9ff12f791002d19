//! The physics: pure functions over quantities, each beside its source.

pub mod core;
pub mod induction;
pub mod mains;
pub mod performance;
pub mod primary;
pub mod skin;
pub mod winding;
