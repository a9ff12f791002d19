//! What can be wrong with a shelf file.

use crate::merge::{LineError, Refused};
use crate::words::{Explain, Message};

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
    /// The disk says no in the middle of the work.
    #[error("the disk stopped the work ({0}); nothing was changed. Check the disk and its free space, then try again")]
    Stopped(std::io::Error),
    /// A file of that name is there already.
    #[error("{path} exists already; nothing was written. Choose another name, or allow it with --replace")]
    Exists {
        /// Which file.
        path: String,
    },
    /// Not a plain file: a link, a folder or a device.
    #[error("{path} is {kind}, not a file; nothing was written. Name a file")]
    NotAFile {
        /// Which.
        path: String,
        /// What it is.
        kind: &'static str,
    },
    /// The person stopped the work.
    #[error("cancelled; nothing was changed")]
    Cancelled,
    /// A file of another kind.
    #[error(
        "this is no shelf file, {seems}. Choose a file that Curbcore made on the other device; the name ends with .curbshelf"
    )]
    NotAShelf {
        /// What it seems to be.
        seems: &'static str,
    },
    /// A shelf file that is cut off or damaged.
    #[error("this shelf file is cut off or damaged ({0}); nothing was imported. Copy it again from the other device")]
    NotWhole(String),
    /// A sealed file that takes too much work and memory to open.
    #[error(
        "this sealed file asks for more memory and time than a shelf file does (work factor {found}, at most {most}). Make it again with Curbcore on the other device"
    )]
    TooMuchWork {
        /// What it asks for, as a power of two.
        found: u8,
        /// The most that is done.
        most: u8,
    },
    /// A device that no file came from.
    #[error(
        "no file from device {device} was imported here, so that what is new for it is not known. Import a file from it first, or make a file with the whole shelf"
    )]
    UnknownDevice {
        /// Its number.
        device: crate::merge::Device,
    },
    /// Made by a later version.
    #[error(
        "this shelf file has version {found}, this program knows version {known}. Update the program, then import the file"
    )]
    Newer {
        /// The file's version.
        found: u32,
        /// The newest known.
        known: u32,
    },
    /// More than is accepted.
    #[error("{what} is larger than a shelf file may have ({most}); nothing was imported")]
    TooLarge {
        /// What.
        what: String,
        /// The limit.
        most: String,
    },
    /// Something in it that has no place in a shelf file.
    #[error("the shelf file has a part named \"{0}\", which no shelf file has; nothing was imported")]
    Stranger(String),
    /// Two parts with the same name.
    #[error("the shelf file has two parts with one name; nothing was imported")]
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
        reason: LineError,
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
        "this file holds only what changed on \"{name}\" since an earlier one, and that one was not imported here. Make a file with the whole shelf there"
    )]
    Gap {
        /// The device's name.
        name: String,
    },
}

/// What is wrong with a zip file, in words of our own: the library's speak of its insides.
impl From<zip::result::ZipError> for ExchangeError {
    fn from(error: zip::result::ZipError) -> Self {
        use zip::result::ZipError;
        match error {
            ZipError::Io(error) => error.into(),
            ZipError::FileNotFound => ExchangeError::NotWhole("a part of it is missing".to_owned()),
            _ => ExchangeError::NotWhole("its list of parts cannot be read".to_owned()),
        }
    }
}

/// Errors of reading that the bytes themselves caused are damage; the others are the disk's.
impl From<std::io::Error> for ExchangeError {
    fn from(error: std::io::Error) -> Self {
        use std::io::ErrorKind::{InvalidData, InvalidInput, Other, UnexpectedEof};
        match error.kind() {
            UnexpectedEof => ExchangeError::NotWhole("its end is missing".to_owned()),
            InvalidData | InvalidInput | Other => ExchangeError::NotWhole("a part of it was changed".to_owned()),
            _ => ExchangeError::Stopped(error),
        }
    }
}

impl Explain for ExchangeError {
    fn message(&self) -> Message {
        match self {
            ExchangeError::Disk { path, source } => {
                Message::new("refused-file").with("path", path).with("system", source)
            }
            ExchangeError::Stopped(source) => Message::new("refused-disk-stopped").with("system", source),
            ExchangeError::Exists { path } => Message::new("refused-exists").with("path", path),
            ExchangeError::NotAFile { path, .. } => Message::new("refused-not-a-file").with("path", path),
            ExchangeError::Cancelled => Message::new("refused-cancelled"),
            ExchangeError::NotAShelf { .. } => Message::new("refused-no-shelf"),
            ExchangeError::NotWhole(_) => Message::new("refused-not-whole"),
            ExchangeError::TooMuchWork { found, most } => Message::new("refused-too-much-work")
                .with("found", found)
                .with("most", most),
            ExchangeError::UnknownDevice { device } => Message::new("refused-unknown-device").with("device", device),
            ExchangeError::Newer { found, known } => Message::new("refused-shelf-newer")
                .with("found", found)
                .with("known", known),
            ExchangeError::TooLarge { most, .. } => Message::new("refused-shelf-large").with("most", most),
            ExchangeError::Stranger(part) => Message::new("refused-stranger").with("part", part),
            ExchangeError::Twice => Message::new("refused-shelf-twice"),
            ExchangeError::Manifest(_) => Message::new("refused-manifest"),
            ExchangeError::Altered(_) => Message::new("refused-altered"),
            ExchangeError::Line { line, .. } => Message::new("refused-line").with("line", line),
            ExchangeError::Refused(error) => error.message(),
            ExchangeError::Sealed { tried: false } => Message::new("refused-sealed"),
            ExchangeError::Sealed { tried: true } => Message::new("refused-passphrase"),
            ExchangeError::Gap { name } => Message::new("refused-gap").with("name", name),
        }
    }
}
