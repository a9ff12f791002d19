//! The laminated core: its measures, its steel, its gaps, and the flux that a voltage drives in it.
//!
//! Begin with [`EiCore`] (`shell.rs`), what is measured on the E-I lamination. [`induction`] has the
//! EMF equation, from volts and turns to flux density. [`steel`] gives field strength and loss at
//! a flux density, from the listed grades in [`steel_grades`]; [`gap`] the air gaps and their
//! fringing; [`path`] puts steel and gaps in series as one magnetic path.

pub mod gap;
pub mod induction;
pub mod path;
mod shell;
pub mod steel;
pub mod steel_grades;

pub use shell::*;
