//! Units as types, values with their uncertainty, and numbers as people write them.
//!
//! Everything that can be measured or computed is a newtype over `f64` in its SI unit
//! ([`Length`] holds metres). The products that physics allows are spelled out in
//! `units.rs`; any other product of two quantities does not compile.

mod estimates;
mod input;
mod number;
mod text;
mod uncertain;
mod units;

pub use estimates::estimates;
pub use input::Input;
pub use number::{DIGITS, Number, NumberKind, numbers};
pub use text::{
    LengthUnit, NumberError, format_significant, format_with_spread, number_and_unit, parse_length, parse_number,
};
pub use uncertain::{
    Estimate, InputValue, Measured, Origin, Propagated, UncertainInputs, VarianceShare, Visited, Visitor, WIDEST,
    propagate, widening_inputs, widest_inputs,
};
pub use units::*;
