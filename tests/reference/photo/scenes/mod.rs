//! Rendered photos: a bench with an E-I core, an object of known size and what lies about, seen by
//! a camera whose every number is known. Shares no code with the program that measures in them.

mod camera;
mod film;
mod layout;
mod paint;
mod plan;
mod random;
mod things;

pub use plan::Plan;
