//! The last good copies of a folder's data, and the way back to one.

use std::path::Path;

use super::super::now::now;
use crate::store::{Backup, Store, StoreError, backups, restore_backup, verify_and_back_up};

/// Checks the data file, and makes a copy of it where the newest is a day old; beside the
/// person's work.
///
/// # Errors
/// [`StoreError::Damaged`] with what is wrong with it; [`StoreError::Disk`].
pub fn check(folder: &Path) -> Result<bool, StoreError> {
    verify_and_back_up(folder, now().unix_ms)
}

/// Reads all the data of a folder and checks that they are whole. Nothing is changed.
///
/// # Errors
/// [`StoreError::Damaged`] with what is wrong; [`StoreError`] where the data cannot be opened.
pub fn verify(folder: &Path) -> Result<(), StoreError> {
    Store::open_read_only(folder)?.verify()
}

/// The copies, the newest first.
#[must_use]
pub fn of(folder: &Path) -> Vec<Backup> {
    backups(folder).unwrap_or_default()
}

/// Goes back to a copy; the present data file stays in the folder, under a name with today's date.
///
/// # Errors
/// [`StoreError`].
pub fn go_back(folder: &Path, copy: &Backup) -> Result<(), StoreError> {
    restore_backup(folder, copy, now().unix_ms)
}
