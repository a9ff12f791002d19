//! What is recorded, and the job file: one JSON document that a stranger can write by hand.
//!
//! The types here are plain numbers with the unit in their key name; the physics has types of
//! its own, so that a formula can change without breaking a file. Every numeric key has one row
//! in [`fields::ALL`] (label, range, usual ±, how to measure it); the file, the screens and the
//! command line all check with that row. This room has no clock, disk or random numbers: ids
//! and times come in as arguments.

mod check;
mod choice;
mod conditions;
mod core;
mod donor;
pub mod fields;
mod file;
mod file_error;
mod goal;
mod look;
mod meta;
mod photo_marks;
mod place;
mod reading;
mod records;
mod schema;
mod strict;
#[cfg(test)]
pub(crate) mod tests;
mod value;

pub use check::{Check, LeafReading, check_text, leaf_readings, put_at, put_reading};
pub use choice::{Choice, Pinned, Placement, WireMetal};
pub use conditions::{
    Conditions, EarlierUse, IdleTest, InsulationClass, Joining, LaminationGrade, PairChoice, RectifierKind,
};
pub use core::{Core, Primary, PrimaryMetal, TurnsTest};
pub use donor::Donor;
pub use fields::{Field, FieldError};
pub use file::{FORMAT_VERSION, JobFile, MAX_BYTES};
pub use file_error::JobFileError;
pub use goal::{Goal, Use, User};
pub use look::{Damage, Look, OvenKind, Rust, Sign};
pub use meta::{CoreId, DesignId, DonorId, JobId, MeasurementId, Meta, NoteId, Owner, PhotoId, Record, RunId, StockId};
pub use photo_marks::{DimensionMark, PhotoFound, PhotoMarks, PhotoReference, Place};
pub use place::{Entered, Held, Places};
pub use reading::Reading;
pub use records::{Circuit, Design, Job, Mains, Measurement, Note, ShelfCore, StockWire};
pub use schema::job_schema;
pub use value::{ValueError, check_as, check_at, check_look};
