//! Numerical tools that no formula of the trade owns: a bracketed zero, smooth curves through points.

pub mod bracket;
pub(super) mod complex;
pub mod log_curve;
pub mod tabulated;
