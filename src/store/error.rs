//! What can go wrong with the disk and the tables.

use std::path::PathBuf;

use rusqlite::ErrorCode;

use crate::job::FieldError;

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
        "the data file is damaged ({detail}). It is left as it is: copy the folder to a safe place, then put back a backup or an exported file"
    )]
    Damaged {
        /// What is wrong with it.
        detail: String,
    },
    /// No room on the disk.
    #[error("the disk is full: nothing was saved. Make room and do it again")]
    DiskFull,
    /// The file or its folder can't be written.
    #[error("the data can only be read: nothing was saved. Check that the folder and its files can be written")]
    ReadOnly,
    /// The disk failed.
    #[error("the disk did not do it ({detail}): nothing was saved. Check the disk, then do it again")]
    Disk {
        /// What the system says.
        detail: String,
    },
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
    Conflict {
        /// Donor, core, ...
        what: &'static str,
        /// The revision that the change was made on.
        expected: u32,
        /// The revision in the store.
        found: u32,
    },
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
        reason: String,
    },
    /// To take an arrival back would lose what was done here since.
    #[error(
        "this cannot be taken back: since the file came in, photos, teardown steps or tests of this device were added to what it brought. Remove what you do not want one by one"
    )]
    WouldLose,
    /// Anything else the database says.
    #[error("the data file did not accept this ({0}); nothing was saved. Please report it")]
    Database(rusqlite::Error),
}

impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        let detail = error.to_string();
        match error.sqlite_error_code() {
            Some(ErrorCode::DiskFull) => StoreError::DiskFull,
            Some(ErrorCode::ReadOnly) => StoreError::ReadOnly,
            Some(ErrorCode::DatabaseCorrupt | ErrorCode::NotADatabase) => StoreError::Damaged { detail },
            Some(ErrorCode::SystemIoFailure | ErrorCode::CannotOpen | ErrorCode::DatabaseBusy) => {
                StoreError::Disk { detail }
            }
            _ => StoreError::Database(error),
        }
    }
}

/// Rows that do not make up a record.
pub(super) fn damaged(what: &str, error: impl std::fmt::Display) -> StoreError {
    StoreError::Damaged {
        detail: format!("{what}: {error}"),
    }
}
