//! What the store needs of a file system besides SQLite's own files (in a browser: `web`).

use std::fs::{File, OpenOptions};
use std::io::Read;
use std::path::{Path, PathBuf};

use super::error::StoreError;

const LOCK: &str = "curbcore.lock";

/// The folder's lock.
pub(super) type Lock = File;

/// The platform's folder for application data.
#[cfg(not(target_os = "android"))]
pub(super) fn own_folder() -> Option<PathBuf> {
    directories::ProjectDirs::from("", "", "Curbcore").map(|dirs| dirs.data_dir().to_owned())
}

/// The app's own storage: Android names a process after its package.
#[cfg(target_os = "android")]
pub(super) fn own_folder() -> Option<PathBuf> {
    let process = std::fs::read_to_string("/proc/self/cmdline").ok()?;
    android_folder(rustix::process::getuid().as_raw(), &process)
}

/// The storage of an app on Android, by its process's number of a user and its name: each person of
/// the phone, and a work profile, has a hundred thousand of those numbers and a folder of its own
/// (Android 10, `UserHandle.PER_USER_RANGE` and `Environment.getDataUserCePackageDirectory`).
#[cfg(any(target_os = "android", test))]
fn android_folder(uid: u32, process: &str) -> Option<PathBuf> {
    let package = process
        .split(['\0', ':'])
        .next()
        .filter(|package| package.contains('.') && !package.contains('/'))?;
    let person = uid / 100_000;
    Some(PathBuf::from(format!("/data/user/{person}/{package}/files")))
}

/// Makes the folder where it is not there, and takes its lock for as long as the file lives.
pub(super) fn lock(folder: &Path) -> Result<Lock, StoreError> {
    std::fs::create_dir_all(folder).map_err(|source| StoreError::Folder {
        path: folder.to_owned(),
        source,
    })?;
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
    match take(&file) {
        Ok(true) => Ok(file),
        Ok(false) => Err(StoreError::InUseElsewhere {
            path: folder.to_owned(),
        }),
        Err(source) => Err(failed(source)),
    }
}

/// Locks the file against every other holder, without waiting; false where it is locked already.
/// By the system's own call: the standard library refuses `File::try_lock` on Android up to Rust
/// 1.97 (rust-lang/rust#148325).
#[cfg(unix)]
fn take(file: &File) -> std::io::Result<bool> {
    use rustix::fs::{FlockOperation, flock};
    match flock(file, FlockOperation::NonBlockingLockExclusive) {
        Ok(()) => Ok(true),
        Err(rustix::io::Errno::WOULDBLOCK) => Ok(false),
        Err(error) => Err(error.into()),
    }
}

/// Locks the file against every other holder, without waiting; false where it is locked already.
#[cfg(not(unix))]
fn take(file: &File) -> std::io::Result<bool> {
    match file.try_lock() {
        Ok(()) => Ok(true),
        Err(std::fs::TryLockError::WouldBlock) => Ok(false),
        Err(std::fs::TryLockError::Error(error)) => Err(error),
    }
}

/// What tells this folder from a copy of it: when the lock's file was made. Where a file system
/// doesn't tell, the file's number in it.
pub(super) fn home(lock: &Lock) -> String {
    let Ok(told) = lock.metadata() else {
        return String::new();
    };
    let made = told.created().ok();
    if let Some(made) = made.and_then(|at| at.duration_since(std::time::UNIX_EPOCH).ok()) {
        return format!("made {}", made.as_nanos());
    }
    #[cfg(unix)]
    return format!("number {}", std::os::unix::fs::MetadataExt::ino(&told));
    #[cfg(not(unix))]
    String::new()
}

/// The file's first bytes and its length; none where there is no file, or an empty one.
pub(super) fn first_bytes(path: &Path) -> Result<Option<([u8; 100], u64)>, StoreError> {
    let failed = |source| StoreError::Folder {
        path: path.to_owned(),
        source,
    };
    let mut file = match File::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(failed(error)),
    };
    let length = file.metadata().map_err(failed)?.len();
    let mut header = [0_u8; 100];
    if length >= header.len() as u64 {
        file.read_exact(&mut header).map_err(failed)?;
    }
    Ok((length > 0).then_some((header, length)))
}

/// Whether a write-ahead log with something in it lies beside the file.
pub(super) fn has_log(path: &Path) -> bool {
    let mut log = path.as_os_str().to_owned();
    log.push("-wal");
    std::fs::metadata(log).is_ok_and(|log| log.len() > 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_person_of_a_phone_has_a_folder() {
        let folder = |uid, process| android_folder(uid, process).map(|folder| folder.display().to_string());
        assert_eq!(
            folder(10_123, "io.curbcore.app\0\0\0").as_deref(),
            Some("/data/user/0/io.curbcore.app/files")
        );
        // A second person, and a process beside the first one.
        assert_eq!(
            folder(1_010_123, "io.curbcore.app:web\0").as_deref(),
            Some("/data/user/10/io.curbcore.app/files")
        );
        assert_eq!(folder(0, "/usr/bin/curbcore\0"), None);
        assert_eq!(folder(0, ""), None);
    }
}
