//! The file that carries jobs between devices, and tables for other programs.
//!
//! A shelf file is a zip with `manifest.json`, `records.jsonl` (one record a line, see
//! [`crate::merge::RecordLine`]), and `photos/` as they are. It is written beside its place, synced and
//! renamed; it is read as a stream, and nothing in it is believed.

mod bounds;
mod error;
mod manifest;
mod reader;
mod schema;
mod sealed;
mod tables;
#[cfg(test)]
mod tests;
mod whole;
mod writer;

pub use bounds::Bounds;
pub use error::ExchangeError;
pub use manifest::{ENDING, FORMAT_VERSION, Holds, Manifest, Sender};
pub use reader::Reader;
pub use schema::{manifest_schema, record_schema};
pub use sealed::{Incoming, Passphrase, Source, open, seal};
pub use tables::{Table, table};
pub use whole::{Existing, create_private, write_whole};
pub use writer::{Packing, Writer};
