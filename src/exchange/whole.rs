//! A file that is there whole or not at all.

use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::Path;

use super::error::ExchangeError;

/// Writes a file: under another name in the same folder, synced, then renamed into place. What
/// was there before stays until then, and stays if anything fails.
///
/// # Errors
/// What `work` returns; [`ExchangeError::Disk`].
pub fn write_whole<T, E: From<ExchangeError>>(
    path: &Path,
    work: impl FnOnce(&mut BufWriter<File>) -> Result<T, E>,
) -> Result<T, E> {
    let failed = |source| {
        E::from(ExchangeError::Disk {
            path: path.display().to_string(),
            source,
        })
    };
    let mut half = path.as_os_str().to_owned();
    half.push(".unfinished");
    let half = Path::new(&half);
    let written = File::create(half).map_err(failed).and_then(|file| {
        let mut out = BufWriter::with_capacity(1 << 18, file);
        let done = work(&mut out)?;
        out.flush().map_err(failed)?;
        out.get_ref().sync_all().map_err(failed)?;
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

/// The new name is on the disk too. Not every file system can do this, and then it does it by
/// itself.
fn sync_folder(path: &Path) {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    if let Ok(folder) = File::open(folder.unwrap_or(Path::new("."))) {
        let _ = folder.sync_all();
    }
}
