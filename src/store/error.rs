//! What can go wrong with the disk and the tables.

use std::path::PathBuf;

use rusqlite::ErrorCode;

use crate::job::{FieldError, ValueError};
use crate::words::{Explain, Message};

/// Why the store could not do it. A write that fails has changed nothing.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// No folder can be found for the data.
    #[error("no data folder is known on this machine; name one in the environment variable CURBCORE_DATA")]
    NoFolder,
    /// The folder or a file in it can't be made or read.
    #[error("cannot use {}: {source}. Check that the folder exists, is yours, and can be written", .path.display())]
    Folder {
        /// Which.
        path: PathBuf,
        /// What the system says.
        source: std::io::Error,
    },
    /// Another window or program has the store open for writing.
    #[error("{} is open in another window of this program; close that one first", .path.display())]
    InUseElsewhere {
        /// The folder.
        path: PathBuf,
    },
    /// The browser gives the page no place for its data.
    #[error("this browser gives Curbcore no place for your data ({detail})")]
    Browser {
        /// What the browser says.
        detail: String,
    },
    /// Nothing has been saved in this folder yet.
    #[error("{} does not exist: nothing has been saved in this folder yet", .path.display())]
    Nothing {
        /// The file looked for.
        path: PathBuf,
    },
    /// From a newer program.
    #[error(
        "the data file has version {found}, this program knows version {known}; update the program. The file is left as it is"
    )]
    Newer {
        /// The file's version.
        found: u32,
        /// The newest version known here.
        known: u32,
    },
    /// From an older program, and opened only for reading.
    #[error(
        "the data file has version {found}, this program needs version {known}; start the program once to bring it up to date"
    )]
    Older {
        /// The file's version.
        found: u32,
        /// The version needed.
        known: u32,
    },
    /// A file of another program.
    #[error("{} belongs to another program; it is left as it is. Name another folder in CURBCORE_DATA", .path.display())]
    NotOurs {
        /// The file.
        path: PathBuf,
    },
    /// Not readable as a data file.
    #[error(
        "the data file is damaged ({detail}). It is left as it is: copy the folder to a safe place, then restore a copy or import a file"
    )]
    Damaged {
        /// What is wrong with it.
        detail: String,
    },
    /// A data file with a value that this program never writes: it was altered, or put back from
    /// elsewhere.
    #[error(
        "the data file was altered outside this program, and holds a value that is not accepted ({what}: {reason}). It is left as it is: restore a copy from a day when it was whole"
    )]
    PutBack {
        /// Which record.
        what: String,
        /// What is wrong with it.
        reason: ValueError,
    },
    /// No room on the disk.
    #[error("the disk is full: nothing was saved. Make room and do it again")]
    DiskFull,
    /// The file or its folder can't be written.
    #[error("the data can only be read: nothing was saved. Check that the folder and its files can be written")]
    ReadOnly,
    /// The disk failed.
    #[error("the disk did not read or write the data file: nothing was saved. Check the disk, then do it again")]
    Disk,
    /// Another program holds the data file.
    #[error("another program is using the data file: nothing was saved. Close it, then do it again")]
    Busy,
    /// There is no such record.
    #[error("this {what} does not exist any more")]
    NotFound {
        /// Donor, core, ...
        what: &'static str,
    },
    /// Somebody changed the record in between.
    #[error(
        "this {what} was changed meanwhile (revision {found}, you changed revision {expected}); look at it again, then repeat your change"
    )]
    StaleRevision {
        /// Donor, core, ...
        what: &'static str,
        /// The revision that the change was made on.
        expected: u32,
        /// The revision in the store.
        found: u32,
    },
    /// A history as long as a file can carry.
    #[error("this history is full: nothing was saved. Begin the work again from its first step")]
    HistoryFull,
    /// A core that jobs need.
    #[error("{jobs} job(s) use this core; delete them first")]
    CoreInUse {
        /// How many.
        jobs: u32,
    },
    /// A number or text that is not accepted.
    #[error(transparent)]
    Field(#[from] FieldError),
    /// Not a photo that can be kept.
    #[error(
        "this is no JPEG or PNG picture of at most {most_mib} MiB; nothing was saved. Take the photo again, smaller"
    )]
    Photo {
        /// The most that is kept.
        most_mib: usize,
    },
    /// A measurement of something that is not measured on its own.
    #[error("a value for {field} cannot be taken alone; fill in what belongs with it")]
    Incomplete {
        /// The field.
        field: String,
    },
    /// A record from elsewhere that is not accepted.
    #[error(transparent)]
    Refused(#[from] crate::merge::Refused),
    /// A record from elsewhere that does not make up one of ours.
    #[error("{what} cannot be used: {reason}")]
    Unreadable {
        /// Which record.
        what: String,
        /// Why.
        reason: ValueError,
    },
    /// To take an arrival back would lose what was done here since.
    #[error(
        "this import cannot be undone: photos, teardown steps or tests were added to its records since. Remove what you do not want one by one"
    )]
    WouldLose,
    /// A value that names a record that was removed.
    #[error("the {what} that this value belongs to was removed; choose the other value")]
    OwnerGone {
        /// Donor, core, ...
        what: &'static str,
    },
    /// A change that does not fit the other records, which only a fault of the program can make.
    #[error(
        "this change does not fit the other records, and nothing was saved. Start the app again and repeat it; if it fails again, report it with the log"
    )]
    DoesNotFit,
    /// Anything else that the database says, which only a fault of the program can cause.
    #[error(
        "the data file did not do what the program asked, and nothing was saved. Start the app again; if it fails again, report it with the log"
    )]
    Database,
}

/// What the database says is for the log alone: a person can do nothing with its words.
impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        tracing::error!("the database says: {error}");
        let unreadable = || StoreError::Damaged {
            detail: "a part of it cannot be read".to_owned(),
        };
        if let rusqlite::Error::FromSqlConversionFailure(..)
        | rusqlite::Error::IntegralValueOutOfRange(..)
        | rusqlite::Error::Utf8Error(..)
        | rusqlite::Error::InvalidColumnType(..) = error
        {
            return unreadable();
        }
        match error.sqlite_error_code() {
            Some(ErrorCode::DiskFull) => StoreError::DiskFull,
            Some(ErrorCode::ReadOnly) => StoreError::ReadOnly,
            Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase) => unreadable(),
            Some(ErrorCode::SystemIoFailure | ErrorCode::CannotOpen) => StoreError::Disk,
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => StoreError::Busy,
            Some(ErrorCode::ConstraintViolation | ErrorCode::TypeMismatch) => StoreError::DoesNotFit,
            _ => StoreError::Database,
        }
    }
}

/// Rows that do not make up a record.
pub(super) fn damaged(what: &str, error: impl std::fmt::Display) -> StoreError {
    StoreError::Damaged {
        detail: format!("{what}: {error}"),
    }
}

impl Explain for StoreError {
    fn message(&self) -> Message {
        let at = |key: &'static str, path: &std::path::Path| Message::new(key).with("path", path.display());
        let about = |key: &'static str, what: &str| {
            Message::new(key).within("what", Message::new(format!("refused-what-{what}")))
        };
        match self {
            StoreError::NoFolder => Message::new("refused-no-folder"),
            StoreError::Folder { path, source } => at("refused-folder", path).with("system", source),
            StoreError::InUseElsewhere { path } => at("refused-in-use", path),
            StoreError::Browser { detail } => Message::new("refused-browser").with("detail", detail),
            StoreError::Nothing { path } => at("refused-nothing", path),
            StoreError::Newer { found, known } => Message::new("refused-data-newer")
                .with("found", found)
                .with("known", known),
            StoreError::Older { found, known } => Message::new("refused-data-older")
                .with("found", found)
                .with("known", known),
            StoreError::NotOurs { path } => at("refused-not-ours", path),
            StoreError::Damaged { .. } => Message::new("refused-data-damaged"),
            StoreError::PutBack { what, reason } => Message::new("refused-put-back")
                .with("what", what)
                .within("reason", reason.message()),
            StoreError::DiskFull => Message::new("refused-disk-full"),
            StoreError::ReadOnly => Message::new("refused-read-only"),
            StoreError::Disk => Message::new("refused-disk"),
            StoreError::Busy => Message::new("refused-data-busy"),
            StoreError::NotFound { what } => about("refused-gone", what),
            StoreError::StaleRevision { what, .. } => about("refused-stale", what),
            StoreError::HistoryFull => Message::new("refused-history-full"),
            StoreError::CoreInUse { jobs } => Message::new("refused-core-in-use").number("jobs", f64::from(*jobs)),
            StoreError::Field(error) => error.message(),
            StoreError::Photo { most_mib } => Message::new("refused-photo").with("most", most_mib),
            StoreError::Incomplete { field } => Message::new("refused-incomplete").with("field", field),
            StoreError::Refused(error) => error.message(),
            StoreError::Unreadable { what, reason } => Message::new("refused-unreadable")
                .with("what", what)
                .within("reason", reason.message()),
            StoreError::WouldLose => Message::new("refused-would-lose"),
            StoreError::OwnerGone { what } => about("refused-owner-gone", what),
            StoreError::DoesNotFit => Message::new("refused-does-not-fit"),
            StoreError::Database => Message::new("refused-database"),
        }
    }
}
