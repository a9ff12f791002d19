//! Curbcore: from a scrapped microwave oven's transformer to a winding that suits its new use.
//!
//! The rooms and who may call whom are in DEVELOPERS.md; `tests/house/layering.rs` holds them to it.

pub mod app;
pub mod bench;
pub mod exchange;
pub mod job;
pub mod magnetics;
pub mod merge;
pub mod photo;
pub mod quantity;
pub mod report;
pub mod rewind;
pub mod safety;
pub mod sizeup;
pub mod store;
pub mod teardown;
pub mod text;
#[cfg(feature = "ui")]
pub mod ui;
pub mod wire;
pub mod words;
