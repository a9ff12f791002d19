//! The job file: reading and writing.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::check::{self, Check};
use super::choice::Choice;
use super::conditions::Conditions;
use super::core::Core;
use super::donor::Donor;
use super::file_error::JobFileError;
use super::goal::Goal;
use super::place::records;
use super::records::{Mains, StockWire};
use super::strict::Strict;

/// The format version that this program writes, and the newest that it reads.
pub const FORMAT_VERSION: u32 = 1;

/// The largest job file read, in bytes: 1 MiB.
pub const MAX_BYTES: usize = 1 << 20;

records! {
    /// A whole job in one document: the core, the outlet, the goal, and what is on the shelf.
    #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct JobFile {
        /// Format version.
        pub curbcore_job: u32,
        /// What the person calls the job.
        pub name: String,
        /// Anything else.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        pub note: String,
        /// Where the core came from.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub donor: Option<Donor>,
        /// The core as measured.
        pub core: Core,
        /// The outlet.
        pub mains: Mains,
        /// What the core shall become.
        pub goal: Goal,
        /// How it is run.
        #[serde(default, skip_serializing_if = "Conditions::is_usual")]
        pub conditions: Conditions,
        /// The winding chosen, once there is one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub choice: Option<Choice>,
        /// Wires that the person has.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        pub stock: Vec<StockWire>,
    }
}

/// Only the version, whatever else there is.
#[derive(Deserialize)]
struct Head {
    curbcore_job: Option<Value>,
}

impl JobFile {
    /// Reads a job file. The version is looked at first: of a newer file nothing else is judged.
    ///
    /// # Errors
    /// [`JobFileError`]: larger than [`MAX_BYTES`], not JSON (or nested deeper than 127), not a
    /// job file, a newer version, a key missing, unknown, twice or null, a wrong type or word,
    /// or a number or text outside the field table. Each names the field's path.
    ///
    /// ```
    /// use curbcore::job::{JobFile, JobFileError};
    /// let error = JobFile::parse(r#"{ "curbcore_job": 7, "what": "ever" }"#).unwrap_err();
    /// assert_eq!(error, JobFileError::Newer { found: 7, known: 1 });
    /// ```
    pub fn parse(text: &str) -> Result<Self, JobFileError> {
        if text.len() > MAX_BYTES {
            return Err(JobFileError::TooLarge {
                bytes: text.len(),
                most: MAX_BYTES,
            });
        }
        // A file from a text editor may start with a byte order mark.
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if let Ok(head) = serde_json::from_str::<Head>(text) {
            let version = head.curbcore_job.as_ref().and_then(Value::as_u64);
            match version {
                Some(found) if found > u64::from(FORMAT_VERSION) => {
                    return Err(JobFileError::Newer {
                        found,
                        known: FORMAT_VERSION,
                    });
                }
                Some(found) if found == u64::from(FORMAT_VERSION) => {}
                _ => return Err(JobFileError::NotAJobFile),
            }
        }
        let mut reader = serde_json::Deserializer::from_str(text);
        let Strict(mut document) =
            serde_path_to_error::deserialize(&mut reader).map_err(|e| JobFileError::from_reader(&e))?;
        reader.end().map_err(|e| JobFileError::Syntax {
            line: e.line(),
            column: e.column(),
            path: String::new(),
            message: "there is something after the end of the document".to_owned(),
        })?;
        if !document.is_object() {
            return Err(JobFileError::NotAJobFile);
        }
        check::fill_in(&mut document);
        let file: JobFile = serde_path_to_error::deserialize(document).map_err(|e| JobFileError::from_reader(&e))?;
        file.check()?;
        Ok(file)
    }

    /// The document as text: the same job always gives the same text.
    #[must_use]
    pub fn to_json(&self) -> String {
        // Structs of numbers, texts and words serialise without fail.
        let mut text = serde_json::to_string_pretty(self).unwrap_or_default();
        text.push('\n');
        text
    }
}
