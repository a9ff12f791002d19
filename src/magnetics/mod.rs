//! The physics: pure functions over quantities, each beside its source.

pub mod core;
