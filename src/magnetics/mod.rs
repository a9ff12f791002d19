//! The physics: pure functions over quantities, each beside its source.

pub mod charger;
mod complex;
pub mod core;
pub mod diode;
pub mod rectifier;
mod rectifier_cycle;
mod rectifier_state;
mod rectifier_sums;
