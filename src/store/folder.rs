//! The data folder, its lock, and a look at the file before SQLite touches it.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::Read;
use std::path::{Path, PathBuf};

use super::error::StoreError;
use super::migrations::VERSION;

/// The data file's name in the folder.
pub(super) const FILE: &str = "curbcore.db";
const LOCK: &str = "curbcore.lock";

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
    directories::ProjectDirs::from("", "", "Curbcore")
        .map(|dirs| dirs.data_dir().to_owned())
        .ok_or(StoreError::NoFolder)
}

/// Takes the folder's lock, for as long as the file lives.
pub(super) fn lock(folder: &Path) -> Result<File, StoreError> {
    let path = folder.join(LOCK);
    let failed = |source| StoreError::Folder {
        path: path.clone(),
        source,
    };
    let file = OpenOptions::new()
        .create(true)
        .write(true)
        .truncate(false)
        .open(&path)
        .map_err(failed)?;
    match file.try_lock() {
        Ok(()) => Ok(file),
        Err(TryLockError::WouldBlock) => Err(StoreError::InUseElsewhere {
            path: folder.to_owned(),
        }),
        Err(TryLockError::Error(source)) => Err(failed(source)),
    }
}

/// What the file's first bytes tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Look {
    /// There is no file, or an empty one.
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
    let failed = |source| StoreError::Folder {
        path: path.to_owned(),
        source,
    };
    let damaged = |detail: &str| StoreError::Damaged {
        detail: detail.to_owned(),
    };
    let mut file = match File::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Look::New),
        Err(error) => return Err(failed(error)),
    };
    let length = file.metadata().map_err(failed)?.len();
    if length == 0 {
        return Ok(Look::New);
    }
    let mut header = [0_u8; 100];
    if length < header.len() as u64 {
        return Err(damaged("it is cut off inside its header"));
    }
    file.read_exact(&mut header).map_err(failed)?;
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
    if !has_log(path) && u64::from(four(28)) * page > length {
        return Err(damaged("it is cut off: pages are missing at its end"));
    }
    Ok(Look::Ours)
}

/// Whether a write-ahead log with something in it lies beside the file.
pub(super) fn has_log(path: &Path) -> bool {
    let mut log = path.as_os_str().to_owned();
    log.push("-wal");
    std::fs::metadata(log).is_ok_and(|log| log.len() > 0)
}
