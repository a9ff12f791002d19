//! Millimetres from a photo: an object of known size in the picture gives the scale.
//!
//! Pure: bytes and points in, lengths with their ± out. The person's path through it is
//! [`picture`] (decode) → [`find`] (the reference) → [`scale`] (pixels to millimetres) →
//! [`measure`] (lengths with their ±), with [`snap`] and [`suggest`] to help the hand.

pub mod coin;
mod found;
mod frame;
pub mod homography;
mod point;
pub mod pose;
pub mod reference;
pub mod target;
#[cfg(test)]
mod tests;

pub use coin::Coin;
pub use found::Found;
pub use frame::Frame;
pub use point::Point;
pub use reference::{Paper, Reference, ReferenceError, Shape};
pub use target::{Captions, Sheet, target_svg};
