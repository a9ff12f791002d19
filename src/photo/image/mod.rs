//! Pixels: a photo's file decoded to grey, its gradients, its edges to a fraction of a pixel, and
//! whether it is sharp and lit well enough.
//!
//! Begin at [`Photo::decode`] in [`picture`]. A [`Photo`] holds the picture twice: at full size,
//! where edges are located, and reduced to at most [`WORKING_SIDE`] pixels, where objects are
//! searched. `edges` gives gradients and ridge pixels of the reduced picture for the search;
//! `profile` locates one edge along a short line at full size. [`without_position`] removes from a file
//! where it was taken.

pub(crate) mod edges;
mod exif;
mod gray;
pub mod picture;
mod position;
pub(crate) mod profile;
pub(crate) mod quality;
mod small;

pub use gray::Gray;
pub use picture::{Photo, PictureError, WORKING_SIDE};
pub use position::without_position;
pub use quality::{Flaw, Quality};
pub use small::small_picture;
