//! What a person can do, as plain functions over store and core: one use case each, no widgets.

pub mod basis;
pub mod behaviour;
pub mod bench;
pub mod cards;
pub mod circuit_parts;
pub mod coil_materials;
pub mod compare;
pub mod core_lengths;
mod demo;
pub mod design_state;
pub mod donors;
pub mod evaluation;
pub mod guard;
pub mod guided;
pub mod idle_test;
pub mod listing;
pub mod materials;
pub mod next_step;
pub mod now;
mod page_file;
mod pair;
pub mod photo;
pub mod problem;
pub mod reach;
pub mod repair;
pub mod start;
pub mod strongest;
pub mod summary;
pub mod sync;
pub mod teardown;
pub mod translate;
pub mod turns;
pub mod verdict;
pub mod wind;
pub mod workspace;

pub use page_file::{files_in, save_files, save_page};
