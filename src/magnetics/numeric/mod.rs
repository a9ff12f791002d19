//! Numerical tools that no formula of the trade owns: a bracketed zero, smooth curves through points, phasors
//! and small systems of equations.

pub mod bracket;
pub(super) mod linear;
pub mod log_curve;
pub mod tabulated;
