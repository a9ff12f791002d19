//! Rendered photos from the file to the lengths, against what is true in them.

#![allow(clippy::unwrap_used)]

#[path = "photo/core_series.rs"]
mod core_series;
#[path = "photo/live.rs"]
mod live;
#[path = "photo/rendered.rs"]
mod rendered;
#[path = "photo/scenes/mod.rs"]
mod scenes;
#[path = "photo/series.rs"]
mod series;
#[path = "photo/stack.rs"]
mod stack;
