//! The data folder, and a look at the file before SQLite touches it.

use std::path::{Path, PathBuf};

use super::disk;
use super::error::StoreError;
use super::migrations::VERSION;

/// The data file's name in the folder.
pub(super) const FILE: &str = "curbcore.db";

/// `PRAGMA application_id` of our files: the letters "CURB".
pub(super) const APPLICATION_ID: i32 = 0x4355_5242;

/// The folder for the data: `CURBCORE_DATA` where it is set and not empty, else the platform's
/// folder for application data.
///
/// # Errors
/// [`StoreError::NoFolder`] where neither is known.
pub fn data_folder() -> Result<PathBuf, StoreError> {
    if let Some(named) = std::env::var_os("CURBCORE_DATA").filter(|named| !named.is_empty()) {
        return Ok(PathBuf::from(named));
    }
    disk::own_folder().ok_or(StoreError::NoFolder)
}

/// Makes a folder, with those above it, that only its owner can look into.
///
/// # Errors
/// [`StoreError::Folder`].
pub fn private_folder(folder: &Path) -> Result<(), StoreError> {
    disk::make_private(folder)
}

/// Closes the files in a folder to everybody but their owner.
///
/// # Errors
/// [`StoreError::Folder`].
pub fn private_files(folder: &Path) -> Result<(), StoreError> {
    disk::close_files(folder)
}

/// What the file's first bytes tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Look {
    /// There is no file, or one that nothing was ever written into.
    New,
    /// One of ours.
    Ours,
}

/// Looks at the file's header and length, without SQLite and without writing (the header's
/// layout is the SQLite file format, section 1.3).
///
/// # Errors
/// [`StoreError::Damaged`], [`StoreError::NotOurs`], [`StoreError::Newer`].
pub(super) fn look(path: &Path) -> Result<Look, StoreError> {
    let damaged = |detail: &str| StoreError::Damaged {
        detail: detail.to_owned(),
    };
    let Some((header, length)) = disk::first_bytes(path)? else {
        return Ok(Look::New);
    };
    if length == 0 {
        // An empty file was made and never written, unless there were data here.
        return match path.parent() {
            Some(folder) if disk::had_data(folder) || disk::has_copies(folder) => Err(damaged("it is empty")),
            _ => Ok(Look::New),
        };
    }
    if length < header.len() as u64 {
        return Err(damaged("it is cut off inside its header"));
    }
    if !header.starts_with(b"SQLite format 3\0") {
        return Err(damaged("its header is not that of a data file"));
    }
    let four = |at: usize| {
        let mut bytes = [0_u8; 4];
        bytes.copy_from_slice(&header[at..at + 4]);
        u32::from_be_bytes(bytes)
    };
    if four(68) != APPLICATION_ID.cast_unsigned() {
        return Err(StoreError::NotOurs { path: path.to_owned() });
    }
    if four(60) > VERSION {
        return Err(StoreError::Newer {
            found: four(60),
            known: VERSION,
        });
    }
    let page = match u64::from(four(16) >> 16) {
        1 => 65_536,
        size => size,
    };
    // While a write-ahead log is there, the file may lag behind its header.
    if !disk::has_log(path) && u64::from(four(28)) * page > length {
        return Err(damaged("it is cut off: pages are missing at its end"));
    }
    Ok(Look::Ours)
}
