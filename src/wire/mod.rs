//! Conductors: metals, wire sizes and the standards they come from.

mod catalogue;
mod conductor;
mod gauge;
mod metal;
mod tables;

pub use catalogue::{Catalogue, UnknownConductor, bare_diameter};
pub use conductor::{Conductor, Envelope, Family};
pub use gauge::{AwgSize, AwgSizeOutOfRange};
pub use metal::Metal;
