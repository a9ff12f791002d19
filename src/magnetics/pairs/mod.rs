//! Two donors joined on one load.
//!
//! Begin with [`Pair`] (`joined.rs`): currents of each, shared and circulating. [`checks`] says which ends
//! meet, and what to check before the last joint is closed.

pub mod checks;
mod joined;

pub use joined::*;
