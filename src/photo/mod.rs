//! Millimetres from a photo: an object of known size in the picture gives the scale.
//!
//! Pure: bytes and points in, lengths with their ± out. The path of a photo goes through four
//! folders, in this order:
//!
//! 1. [`image`] decodes the file ([`Photo::decode`]) and finds edges in its pixels.
//! 2. [`find`] locates the object of known size ([`find::find_reference`]) and the parts of a core.
//! 3. [`scale`] maps pixels to millimetres on the measured face ([`Scale::new`]).
//! 4. [`measure`] reads lengths and angles with their ± ([`measure::distance`], [`Marks`]).
//!
//! [`live`] looks at the frames of a camera before a photo is taken, and says what to do next.
//! [`mod@reference`] lists the objects of known size, [`geometry`] holds points and lines. Places in a
//! picture are pixels of the full size, right and down from the centre of the upper left pixel.
//!
//! # Example
//!
//! A photo to millimetres. The picture shows a bright card of 85.6 × 53.98 mm on a dark ground, 5
//! pixels to the millimetre, and beside it a bright bar 40 mm long.
//!
//! ```
//! use curbcore::photo::find::{Trust, find_reference};
//! use curbcore::photo::measure::distance;
//! use curbcore::photo::scale::{Options, Scale};
//! use curbcore::photo::{Frame, Gray, Photo, Point, Reference};
//!
//! // In place of `Photo::decode(&bytes)?`, which takes a JPEG or PNG file.
//! let bright = |x: f64, y: f64| {
//!     // Distances to the card's nearest sides; its corners have a radius of 3.18 mm, 16 pixels.
//!     let (u, v) = ((x - 119.5).min(547.5 - x), (y - 149.5).min(419.5 - y));
//!     let card = u > 0.0 && v > 0.0 && (u > 16.0 || v > 16.0 || (16.0 - u).hypot(16.0 - v) < 16.0);
//!     let bar = (600.0..800.0).contains(&x) && (240.0..300.0).contains(&y);
//!     if card || bar { 210 } else { 60 }
//! };
//! let pixels = (0..900 * 600).map(|index| bright(f64::from(index % 900), f64::from(index / 900)));
//! let photo = Photo::from_gray(Gray::new(900, 600, pixels.collect()).unwrap())?;
//!
//! let card = find_reference(&photo, &Reference::Card)?;
//! assert_eq!(card.trust, Trust::Good);
//!
//! let frame = Frame::new(900.0, 600.0);
//! let scale = Scale::new(frame, &Reference::Card, &card.outline, &Options::default())?;
//! let bar = distance(&scale, Point::new(599.5, 270.0), Point::new(799.5, 270.0))?.length;
//! assert!((bar.value.mm() - 40.0).abs() < 0.2);
//! assert!((bar.value.mm() - 40.0).abs() <= bar.plus_minus.mm());
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

pub mod find;
pub mod geometry;
pub mod image;
pub mod live;
pub mod measure;
pub mod reference;
pub mod scale;
#[cfg(test)]
mod tests;

pub use find::{FoundReference, find_reference, find_reference_unless};
pub use geometry::{Frame, Point};
pub use image::{Gray, Photo, PictureError, small_picture, without_position};
pub use measure::{Dimension, DimensionReading, Gap, Mark, Marks, MeasureError, PhotoLength, Span};
pub use reference::{
    Captions, Coin, Paper, Reference, ReferenceError, ReferenceOutline, ReferenceShape, Sheet, target_svg,
};
pub use scale::{Focal, Lens, LensError, Options, Scale, ScaleError, ScaleWarning, rectangle_by_hand};

/// Whether the person has cancelled the work in progress; asked between its stages.
pub type Cancelled<'a> = &'a dyn Fn() -> bool;
