//! What the store needs of a file system besides SQLite's own files (in a browser: `web`).

use std::fs::{File, OpenOptions};
use std::io::{Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::error::StoreError;
use crate::merge::Device;

const LOCK: &str = "curbcore.lock";

/// The folder of the copies, in the data folder.
pub(super) const COPIES: &str = "backups";

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

fn failed(path: &Path) -> impl Fn(std::io::Error) -> StoreError + '_ {
    move |source| StoreError::Folder {
        path: path.to_owned(),
        source,
    }
}

/// Makes a folder, with those above it, that only its owner can look into. One that is there already
/// is closed to others too, if it is empty or holds this program's lock.
pub(super) fn make_private(folder: &Path) -> Result<(), StoreError> {
    let mut builder = std::fs::DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder).map_err(failed(folder))?;
    #[cfg(unix)]
    if folder.join(LOCK).exists() || std::fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_none()) {
        use std::os::unix::fs::PermissionsExt;
        // A folder of somebody else stays as it is; its files are private all the same.
        let _ = std::fs::set_permissions(folder, std::fs::Permissions::from_mode(0o700));
    }
    Ok(())
}

/// Options for writing a file that only its owner can read.
pub(super) fn private_options() -> OpenOptions {
    let mut options = OpenOptions::new();
    options.create(true).write(true).truncate(false);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options
}

/// Makes a file, empty where it is not there, that only its owner can read.
pub(super) fn make_file_private(path: &Path) -> Result<(), StoreError> {
    let file = private_options().open(path).map_err(failed(path))?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let _ = file.set_permissions(std::fs::Permissions::from_mode(0o600));
    }
    drop(file);
    Ok(())
}

/// Closes the files in a folder to everybody but their owner.
pub(super) fn close_files(folder: &Path) -> Result<(), StoreError> {
    for entry in std::fs::read_dir(folder).map_err(failed(folder))? {
        let path = entry.map_err(failed(folder))?.path();
        if path.is_file() {
            make_file_private(&path)?;
        }
    }
    Ok(())
}

/// Makes the data file where it is not there, and closes it and what SQLite keeps beside it to
/// others.
pub(super) fn prepare_file(path: &Path) -> Result<(), StoreError> {
    make_file_private(path)?;
    for ending in ["-wal", "-shm"] {
        let mut beside = path.as_os_str().to_owned();
        beside.push(ending);
        let beside = PathBuf::from(beside);
        if beside.exists() {
            make_file_private(&beside)?;
        }
    }
    Ok(())
}

/// Makes the folder where it is not there, and takes its lock for as long as the file lives.
pub(super) fn lock(folder: &Path) -> Result<Lock, StoreError> {
    make_private(folder)?;
    let path = folder.join(LOCK);
    let file = private_options().read(true).open(&path).map_err(failed(&path))?;
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let _ = file.set_permissions(std::fs::Permissions::from_mode(0o600));
    }
    match take(&file) {
        Ok(true) => Ok(file),
        Ok(false) => Err(StoreError::InUseElsewhere {
            path: folder.to_owned(),
        }),
        Err(source) => Err(failed(&path)(source)),
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

/// How far the data of a folder had come when they were last written: the device, and its count of
/// changes. It is kept in the lock's file, so that a data file that was put back by hand is found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Mark {
    pub(super) device: Device,
    pub(super) changes: i64,
}

fn read_mark(mut file: &File) -> Option<Mark> {
    let mut text = String::new();
    file.seek(SeekFrom::Start(0)).ok()?;
    file.take(100).read_to_string(&mut text).ok()?;
    let (device, changes) = text.trim_end().split_once(' ')?;
    Some(Mark {
        device: device.parse().ok()?,
        changes: changes.parse().ok()?,
    })
}

/// Whether the data file is another one than was last written here: older, or of another device.
pub(super) fn was_put_back(lock: &Lock, found: Mark) -> bool {
    read_mark(lock).is_none_or(|mark| mark.device != found.device || found.changes < mark.changes)
}

/// Notes how far the data have come. Where that fails, a data file that is put back may not be found;
/// the change itself is saved.
pub(super) fn set_mark(mut lock: &Lock, mark: Mark) {
    // Always as long: it is written over in place.
    let text = format!("{} {:020}\n", mark.device, mark.changes);
    let written = lock
        .seek(SeekFrom::Start(0))
        .and_then(|_| lock.write_all(text.as_bytes()));
    if let Err(error) = written {
        tracing::warn!("the mark of the data was not written: {error}");
    }
}

/// Whether copies of the data lie in a folder.
pub(super) fn has_copies(folder: &Path) -> bool {
    std::fs::read_dir(folder.join(COPIES)).is_ok_and(|mut entries| entries.next().is_some())
}

/// Whether data were ever written in a folder.
pub(super) fn had_data(folder: &Path) -> bool {
    File::open(folder.join(LOCK)).is_ok_and(|lock| read_mark(&lock).is_some())
}

/// What tells this folder from a copy of it: when the lock's file was made. Where a file system
/// doesn't tell, the file's number in it.
pub(super) fn home(lock: &Lock) -> String {
    let Ok(metadata) = lock.metadata() else {
        return String::new();
    };
    let made = metadata.created().ok();
    if let Some(made) = made.and_then(|at| at.duration_since(std::time::UNIX_EPOCH).ok()) {
        return format!("made {}", made.as_nanos());
    }
    #[cfg(unix)]
    return format!("number {}", std::os::unix::fs::MetadataExt::ino(&metadata));
    #[cfg(not(unix))]
    String::new()
}

/// The file's first bytes and its length; none where there is no file.
pub(super) fn first_bytes(path: &Path) -> Result<Option<([u8; 100], u64)>, StoreError> {
    let mut file = match File::open(path) {
        Ok(file) => file,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(None),
        Err(error) => return Err(failed(path)(error)),
    };
    let length = file.metadata().map_err(failed(path))?.len();
    let mut header = [0_u8; 100];
    if length >= header.len() as u64 {
        file.read_exact(&mut header).map_err(failed(path))?;
    }
    Ok(Some((header, length)))
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
