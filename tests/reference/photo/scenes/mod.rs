//! Rendered photos: a bench with an E-I core, an object of known size and what lies about, seen by
//! a camera whose every number is known. Shares no code with the program that measures in them.

pub mod camera;
mod cores;
pub mod layout;
pub mod objects;
pub mod paint;
mod plan;
pub mod random;
pub mod render;
pub mod studio;

pub use plan::Plan;
