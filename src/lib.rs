//! Curbcore: from a scrapped microwave oven's transformer to a winding that suits its new use.
//!
//! The rooms and who may call whom are in DEVELOPERS.md; `tests/layering.rs` holds them to it.

pub mod bench;
pub mod magnetics;
pub mod quantity;
pub mod safety;
pub mod sizeup;
pub mod teardown;
pub mod text;
pub mod wire;
pub mod words;
