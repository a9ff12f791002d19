//! Conductors: metals, wire sizes and the standards they come from.

mod metal;

pub use metal::Metal;
