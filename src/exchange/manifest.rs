//! What a shelf file says of itself.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::error::ExchangeError;
use crate::job::check_text;
use crate::merge::Device;

/// The version of the format that is written, and the newest that is read.
pub const FORMAT_VERSION: u32 = 1;

/// The ending of a shelf file's name.
pub const ENDING: &str = "curbshelf";

/// The device that made a file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Sender {
    /// Its number: 16 hexadecimal digits.
    #[schemars(with = "String", regex(pattern = r"^[0-9a-f]{16}$"))]
    pub device: Device,
    /// What its person calls it.
    #[schemars(length(max = 60))]
    pub name: String,
}

/// How much of the shelf is in a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Holds {
    /// All of it.
    All,
    /// Some jobs, with what belongs to them.
    Jobs,
    /// What changed after the sender made the file of this number.
    ChangesAfter(Uuid),
}

/// What a shelf file says of itself.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Manifest {
    /// The version of the format.
    pub curbcore_shelf: u32,
    /// When it was made, in milliseconds since 1970-01-01 UTC, by the sender's clock.
    pub made_ms: i64,
    /// Who made it.
    pub from: Sender,
    /// How much it holds.
    pub holds: Holds,
    /// Its own number, by which a later file of changes names it.
    pub file: Uuid,
    /// How many lines `records.jsonl` has.
    pub records: u64,
    /// How many files `photos/` has.
    pub photos: u64,
    /// The SHA-256 of `records.jsonl`, in hexadecimal digits. That of each photo is in its record.
    pub records_sha256: String,
}

impl Manifest {
    /// Reads a manifest.
    ///
    /// # Errors
    /// [`ExchangeError::Newer`], [`ExchangeError::Manifest`].
    pub fn parse(text: &str) -> Result<Self, ExchangeError> {
        #[derive(Deserialize)]
        struct Version {
            curbcore_shelf: u32,
        }
        let wrong = |error: serde_json::Error| ExchangeError::Manifest(error.to_string());
        let version: Version = serde_json::from_str(text).map_err(wrong)?;
        if version.curbcore_shelf > FORMAT_VERSION {
            return Err(ExchangeError::Newer {
                found: version.curbcore_shelf,
                known: FORMAT_VERSION,
            });
        }
        let manifest: Manifest = serde_json::from_str(text).map_err(wrong)?;
        check_text("from.name", &manifest.from.name, 60, false)
            .map_err(|error| ExchangeError::Manifest(error.to_string()))?;
        Ok(manifest)
    }
}
