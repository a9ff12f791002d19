//! A file that is there whole or not at all.

use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::Path;

use super::error::ExchangeError;

/// Whether a file that is there already may be replaced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Existing {
    /// Nothing is written then.
    Refuse,
    /// The new file takes its place, with the permissions of the old one.
    Replace,
}

/// Writes a file: under another name in the same folder, synced, then renamed into place. What
/// was there before stays until then, and stays if anything fails. A new file can be read by its owner
/// alone. Links, folders and devices are never written to.
///
/// # Errors
/// What `work` returns; [`ExchangeError::Exists`], [`ExchangeError::NotAFile`], [`ExchangeError::Disk`].
pub fn write_whole<T, E: From<ExchangeError>>(
    path: &Path,
    existing: Existing,
    work: impl FnOnce(&mut BufWriter<File>) -> Result<T, E>,
) -> Result<T, E> {
    let failed = |source| {
        E::from(ExchangeError::Disk {
            path: path.display().to_string(),
            source,
        })
    };
    let old = look(path, existing)?;
    let mut half = path.as_os_str().to_owned();
    half.push(".unfinished");
    let half = Path::new(&half);
    // What a run that was killed has left; a link there is removed, never followed.
    let _ = fs::remove_file(half);
    let written = create_private(half).map_err(failed).and_then(|file| {
        if let Some(permissions) = old {
            file.set_permissions(permissions).map_err(failed)?;
        }
        let mut out = BufWriter::with_capacity(1 << 18, file);
        let done = work(&mut out)?;
        out.flush().map_err(failed)?;
        out.get_ref().sync_all().map_err(failed)?;
        look(path, existing)?;
        fs::rename(half, path).map_err(failed)?;
        Ok(done)
    });
    match written {
        Ok(done) => {
            sync_folder(path);
            Ok(done)
        }
        Err(error) => {
            let _ = fs::remove_file(half);
            Err(error)
        }
    }
}

/// The permissions of the file that is there, where it may be replaced.
fn look(path: &Path, existing: Existing) -> Result<Option<fs::Permissions>, ExchangeError> {
    let named = || path.display().to_string();
    let there = match fs::symlink_metadata(path) {
        Ok(there) => there,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(None),
        Err(source) => return Err(ExchangeError::Disk { path: named(), source }),
    };
    let kind = if there.is_symlink() {
        "a link"
    } else if there.is_dir() {
        "a folder"
    } else if !there.is_file() {
        "a device"
    } else if existing == Existing::Refuse {
        return Err(ExchangeError::Exists { path: named() });
    } else {
        return Ok(Some(there.permissions()));
    };
    Err(ExchangeError::NotAFile { path: named(), kind })
}

/// Makes a new file that its owner alone can read, where none is.
///
/// # Errors
/// [`std::io::Error`] where the disk refuses, or a file, link or folder of that name is there.
pub fn create_private(path: &Path) -> std::io::Result<File> {
    let mut options = File::options();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}

/// The new name is on the disk too. Not every file system can do this, and then it does it by
/// itself.
fn sync_folder(path: &Path) {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    if let Ok(folder) = File::open(folder.unwrap_or(Path::new("."))) {
        let _ = folder.sync_all();
    }
}
