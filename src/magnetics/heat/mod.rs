//! How warm it gets: primary, new winding and core as three lumps of heat in a room.
//!
//! Begin with [`network::ThermalInputs`], everything that the heating depends on, and the [`network`] that
//! follows. `temperatures.rs` (here as [`heat`](self)) gives steady state, history and time to a limit,
//! by the steps of `step.rs`; [`duty`] asks which load cycle an insulation class ([`thermal_class`])
//! withstands, `cycle.rs` finds the cycle that repeats itself. [`film`] is the surface to the air.

mod cycle;
pub mod duty;
pub mod film;
pub mod network;
mod step;
mod temperatures;
pub mod thermal_class;

pub use temperatures::*;
