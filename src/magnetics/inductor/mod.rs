//! A core gapped and wound as an inductor: choke or ballast.
//!
//! Begin with [`Inductor`] (`wound.rs`), what a wound and gapped core does; [`design`] finds turns and gap
//! for an inductance at a current, [`heat`] how warm it gets.

pub mod design;
pub mod heat;
mod wound;

pub use wound::*;
