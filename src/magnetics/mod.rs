//! The physics: pure functions over quantities, each beside its source.

pub mod charger;
pub mod circuit;
mod complex;
pub mod core;
pub mod diode;
pub mod duty;
pub mod film;
pub mod heat;
pub mod heat_network;
pub mod leakage;
pub mod pair_checks;
pub mod pairs;
pub mod rectifier;
mod rectifier_answer;
mod rectifier_circuit;
mod rectifier_cycle;
mod rectifier_state;
mod rectifier_sums;
pub mod short_time;
pub mod shunt_advice;
pub mod shunts;
pub mod thermal_class;
