//! Millimetres from a photo: an object of known size in the picture gives the scale.
//!
//! Pure: bytes and points in, lengths with their ± out. The person's path through it is
//! [`picture`] (decode) → [`find`] (the reference) → [`scale`] (pixels to millimetres) →
//! [`measure`] (lengths with their ±), with [`snap`] and [`suggest`] to help the hand.

mod board;
pub mod by_hand;
mod candidate;
pub mod coin;
mod coin_face;
mod conic;
mod discs;
mod edges;
mod ellipse;
mod exif;
pub mod find;
mod find_disc;
mod find_lattice;
mod find_rectangle;
mod fit_rectangle;
mod found;
mod frame;
mod gray;
pub mod homography;
mod hull;
pub mod lens;
pub mod line;
mod maps;
pub mod marks;
pub mod measure;
mod outline;
mod perspective;
pub mod picture;
mod point;
pub mod pose;
mod position;
mod quads;
pub mod quality;
pub mod reference;
mod regions;
mod saddles;
pub mod scale;
mod scale_flat;
mod scale_round;
mod segments;
mod sides;
pub mod snap;
pub mod suggest;
pub mod target;
#[cfg(test)]
mod tests;
mod things;
mod upright;
mod warning;

pub use by_hand::rectangle_by_hand;
pub use coin::Coin;
pub use found::Found;
pub use frame::Frame;
pub use gray::Gray;
pub use lens::{Lens, LensError};
pub use marks::{Dimension, DimensionReading, Mark, Marks, Span};
pub use measure::{Gap, MeasureError, PhotoLength};
pub use picture::{Photo, PictureError};
pub use point::Point;
pub use pose::Focal;
pub use position::without_position;
pub use reference::{Paper, Reference, ReferenceError, Shape};
pub use scale::{Options, Scale, ScaleError};
pub use target::{Captions, Sheet, target_svg};
pub use warning::Warning;
