//! The core on its mains with nothing on the secondary: no-load current, switching on, the first test.
//!
//! Begin with [`Idle`] (`current.rs`): the current and power at a voltage. [`fit`] goes the other way,
//! from measured amperes and watts to gaps and steel, by the least squares of `rows.rs`; `forecast.rs`
//! carries what was found to the core's own mains. [`inrush`] is the first peak after switching on,
//! [`series_lamp`] the first test behind a lamp.

mod current;
pub mod fit;
mod forecast;
pub mod inrush;
mod rows;
pub mod series_lamp;

pub use current::*;
