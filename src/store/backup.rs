//! Copies of the last good data file, and the way back to one.

use std::fs::{self, File};
use std::path::{Path, PathBuf};

use rusqlite::backup::Backup as Copying;
use rusqlite::{Connection, OpenFlags};

use super::disk;
use super::error::StoreError;
use super::folder::{self, FILE, Look};
use super::ledger;
use super::open::{Store, check_pages};

/// A copy of the data file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Backup {
    /// Where it is.
    pub path: PathBuf,
    /// When it was made, in milliseconds since 1970-01-01 UTC, as the machine's clock said then.
    pub made_ms: i64,
    /// Its place among all that were made: a clock may be wrong, this is not.
    number: u64,
}

/// How many are kept.
const KEPT: usize = 3;
/// A new one is made when the newest is older than this.
const EVERY_MS: i64 = 20 * 3_600_000;

fn failed(path: &Path) -> impl Fn(std::io::Error) -> StoreError + '_ {
    move |source| StoreError::Folder {
        path: path.to_owned(),
        source,
    }
}

/// The copies in a data folder, the last made first.
///
/// # Errors
/// [`StoreError::Folder`].
pub fn backups(folder: &Path) -> Result<Vec<Backup>, StoreError> {
    let place = folder.join(disk::COPIES);
    let entries = match fs::read_dir(&place) {
        Ok(entries) => entries,
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(failed(&place)(error)),
    };
    let mut found: Vec<Backup> = entries
        .filter_map(|entry| {
            let path = entry.ok()?.path();
            let name = path.file_name()?.to_str()?;
            let (number, made_ms) = name.strip_prefix("curbcore-")?.strip_suffix(".db")?.split_once('-')?;
            let (number, made_ms) = (number.parse().ok()?, made_ms.parse().ok()?);
            Some(Backup { path, made_ms, number })
        })
        .collect();
    found.sort_by_key(|backup| std::cmp::Reverse(backup.number));
    Ok(found)
}

/// Checks the data file of a folder, and where it is whole and the newest copy is a day old, makes
/// a new copy of it and lets the oldest beyond three go. Tells whether it made one. It only reads
/// the data file, so it may run beside the person's work.
///
/// # Errors
/// [`StoreError::Damaged`] (the copies are left as they are); [`StoreError::Disk`] and the like if the data file fails.
pub fn verify_and_back_up(folder: &Path, now_ms: i64) -> Result<bool, StoreError> {
    let store = Store::open_read_only(folder)?;
    store.verify()?;
    if store.changes()? == 0 {
        return Ok(false);
    }
    let old = backups(folder)?;
    if old
        .first()
        .is_some_and(|newest| (0..EVERY_MS).contains(&(now_ms - newest.made_ms)))
    {
        return Ok(false);
    }
    let place = folder.join(disk::COPIES);
    disk::make_private(&place)?;
    let number = old.first().map_or(1, |newest| newest.number.saturating_add(1));
    let path = place.join(format!("curbcore-{number}-{now_ms}.db"));
    let half = place.join("unfinished");
    let _ = fs::remove_file(&half);
    disk::make_file_private(&half)?;
    {
        let mut copy = Connection::open(&half)?;
        Copying::new(&store.connection, &mut copy)?.run_to_completion(1_000, std::time::Duration::ZERO, None)?;
        // The copy is one file, whatever the original has beside it.
        copy.pragma_update(None, "journal_mode", "DELETE")?;
    }
    File::open(&half)
        .and_then(|file| file.sync_all())
        .map_err(failed(&half))?;
    fs::rename(&half, &path).map_err(failed(&path))?;
    for gone in old.iter().skip(KEPT - 1) {
        let _ = fs::remove_file(&gone.path);
    }
    Ok(true)
}

/// Goes back to a copy. The data file that is there gets another name with today's date, in the same
/// folder; nothing is deleted or written over. The device gets a new number, since what it stamped after
/// the copy is not known to it any more.
///
/// # Errors
/// [`StoreError::InUseElsewhere`] while a store is open on the folder; [`StoreError::Damaged`] and
/// the like where the copy is not whole; [`StoreError::Folder`] if a file cannot be copied or renamed.
/// The data file is as it was then.
pub fn restore_backup(folder: &Path, backup: &Backup, now_ms: i64) -> Result<(), StoreError> {
    let _lock = disk::lock(folder)?;
    if folder::look(&backup.path)? == Look::New {
        return Err(StoreError::Damaged {
            detail: "the copy is empty".to_owned(),
        });
    }
    let fresh = folder.join("returning.db");
    let _ = fs::remove_file(&fresh);
    fs::copy(&backup.path, &fresh).map_err(failed(&fresh))?;
    disk::make_file_private(&fresh)?;
    {
        let copy = Connection::open_with_flags(&fresh, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
        check_pages(&copy)?;
        // What was done since is not in it: this is another device, and its place is not this one.
        copy.execute(
            "UPDATE own SET device = ?1, home = ''",
            [ledger::new_device().to_string()],
        )?;
    }
    File::open(&fresh)
        .and_then(|file| file.sync_all())
        .map_err(failed(&fresh))?;
    let aside = unused_name(folder, now_ms);
    for ending in ["", "-wal", "-shm"] {
        let here = folder.join(format!("{FILE}{ending}"));
        if here.exists() {
            let aside = folder.join(format!("{aside}{ending}"));
            fs::rename(&here, &aside).map_err(failed(&here))?;
        }
    }
    let place = folder.join(FILE);
    fs::rename(&fresh, &place).map_err(failed(&place))
}

/// A name for the present data file that no file has yet: with the date, and a number from the second
/// on that day.
fn unused_name(folder: &Path, now_ms: i64) -> String {
    let date = chrono::DateTime::from_timestamp_millis(now_ms).unwrap_or_default();
    let stem = format!("before-going-back-{}", date.format("%Y-%m-%d"));
    (1..=u32::MAX)
        .map(|number| match number {
            1 => format!("{stem}.db"),
            _ => format!("{stem}-{number}.db"),
        })
        .find(|name| {
            !["", "-wal", "-shm"]
                .iter()
                .any(|ending| folder.join(format!("{name}{ending}")).exists())
        })
        .unwrap_or(stem)
}
