//! The numbered steps from an empty file to today's tables.

use rusqlite::{Connection, TransactionBehavior};

use super::error::StoreError;

/// Step `n` (from 1) makes version `n` of version `n - 1`.
const STEPS: &[&str] = &[include_str!("0001_first.sql")];

/// The version that this program writes, and the newest that it opens.
pub(super) const VERSION: u32 = STEPS.len() as u32;

/// The version of an open file.
pub(super) fn version(connection: &Connection) -> Result<u32, StoreError> {
    Ok(connection.query_row("PRAGMA user_version", [], |row| row.get(0))?)
}

/// Brings the file to [`VERSION`]: all steps and the version in one transaction. After a step
/// nothing can be undone any more, because the old steps are of old tables.
///
/// # Errors
/// [`StoreError::Newer`] for a file from a newer program; nothing is written then.
pub(super) fn migrate(connection: &mut Connection) -> Result<(), StoreError> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let found = version(&transaction)?;
    if found > VERSION {
        return Err(StoreError::Newer { found, known: VERSION });
    }
    if found < VERSION {
        for step in STEPS.iter().skip(found as usize) {
            transaction.execute_batch(step)?;
        }
        transaction.execute("DELETE FROM operation", [])?;
        transaction.pragma_update(None, "user_version", VERSION)?;
    }
    transaction.commit()?;
    Ok(())
}
