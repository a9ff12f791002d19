//! What can be wrong with a shelf file.

use crate::merge::{Refused, WrongLine};

/// Why a shelf file cannot be read or written.
#[derive(Debug, thiserror::Error)]
pub enum ExchangeError {
    /// The disk says no.
    #[error("{path}: {source}. Check that the place exists and can be written, and that there is room")]
    Disk {
        /// Which file.
        path: String,
        /// What the system says.
        source: std::io::Error,
    },
    /// No zip, or a broken one. What the library for zip files says goes to the log alone.
    #[error("this is no shelf file of Curbcore, or it is cut off or broken. Copy it again from where it was made")]
    NotWhole(String),
    /// Made by a later version.
    #[error(
        "this shelf file has version {found}, this program knows version {known}. Update the program, then take it in"
    )]
    Newer {
        /// The file's version.
        found: u32,
        /// The newest known.
        known: u32,
    },
    /// More than is accepted.
    #[error("{what} is larger than a shelf file may have ({most}); nothing was taken in")]
    TooLarge {
        /// What.
        what: String,
        /// The limit.
        most: String,
    },
    /// Something in it that has no place in a shelf file.
    #[error("the shelf file has a part named \"{0}\", which no shelf file has; nothing was taken in")]
    Stranger(String),
    /// Two parts with the same name.
    #[error("the shelf file has two parts with one name; nothing was taken in")]
    Twice,
    /// The manifest does not say what it must.
    #[error("manifest.json: {0}")]
    Manifest(String),
    /// What the manifest says is not what is there.
    #[error("records.jsonl is not what manifest.json says ({0}): the file was changed or damaged on its way")]
    Altered(String),
    /// A line that is no record.
    #[error("records.jsonl, line {line}: {reason}")]
    Line {
        /// Which, from 1.
        line: u64,
        /// What is wrong.
        reason: WrongLine,
    },
    /// A record that is not accepted.
    #[error(transparent)]
    Refused(#[from] Refused),
    /// A passphrase is missing or wrong.
    #[error(
        "this shelf file is sealed{}", if *tried { ", and this is not its passphrase. Type it again" } else { ": type its passphrase, then choose it again" }
    )]
    Sealed {
        /// Whether one was tried.
        tried: bool,
    },
    /// It builds on one that is not here.
    #[error(
        "this file holds only what changed on \"{name}\" since an earlier one, and that one was not taken in here. Make a file with the whole shelf there"
    )]
    Gap {
        /// The device's name.
        name: String,
    },
}

impl From<zip::result::ZipError> for ExchangeError {
    fn from(error: zip::result::ZipError) -> Self {
        ExchangeError::NotWhole(error.to_string())
    }
}

impl From<std::io::Error> for ExchangeError {
    fn from(error: std::io::Error) -> Self {
        ExchangeError::NotWhole(error.to_string())
    }
}
