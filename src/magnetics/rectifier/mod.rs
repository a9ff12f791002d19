//! Behind diodes: a reservoir, an arc with a choke, or a lead-acid battery on a rectifier.
//!
//! Begin with [`Rectifier`] (`steady.rs`) and what it answers (`answer.rs`). The periodic state is found in
//! `cycle.rs`, which walks from switching to switching on the closed form of `state.rs`; `circuit.rs` makes
//! that circuit from the quantities, `sums.rs` the means of its waveforms. [`diode`] puts a straight
//! line for a diode's law; [`charger`] follows a battery from flat to full, [`charger_course`] with ±.

mod answer;
pub mod charger;
pub mod charger_course;
mod circuit;
mod cycle;
pub mod diode;
mod state;
mod steady;
mod sums;

pub use steady::*;
