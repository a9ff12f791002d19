//! The transformer as a circuit: mains and their protection, leakage, shunts, and what the load gets.
//!
//! Begin with [`performance`]: the usual equivalent circuit of one winding under its load. Its leakage
//! comes from [`leakage`]. [`ShellCircuit`] (`shell.rs`, solved in `shell_solve.rs`) is the fuller
//! magnetic circuit with [`shunts`] between the coils; [`shunt_advice`] compares its curves. [`mains`],
//! [`protection`] and [`fuse`] are the outlet, its breaker, and the fuse to fit; [`cord`] and [`soft_start`]
//! lie between them and the primary.

pub mod cord;
pub mod fuse;
pub mod leakage;
pub mod mains;
pub mod performance;
pub mod protection;
mod shell;
mod shell_solve;
pub mod shunt_advice;
pub mod shunts;
pub mod soft_start;

pub use shell::*;
