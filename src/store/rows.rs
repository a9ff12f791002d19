//! What all tables have in common.

use rusqlite::{Connection, Row};
use serde::Serialize;
use serde::de::DeserializeOwned;
use uuid::Uuid;

use super::error::{StoreError, damaged};

/// An id as it is stored.
pub(super) fn blob(id: Uuid) -> [u8; 16] {
    *id.as_bytes()
}

/// An id out of a row.
pub(super) fn id(row: &Row<'_>, column: &str) -> rusqlite::Result<Uuid> {
    Ok(Uuid::from_bytes(row.get(column)?))
}

/// A part of a record as JSON text.
pub(super) fn to_json(part: &impl Serialize) -> Result<String, StoreError> {
    serde_json::to_string(part).map_err(|e| damaged("writing", e))
}

/// A part of a record from JSON text.
pub(super) fn from_json<T: DeserializeOwned>(what: &str, text: &str) -> Result<T, StoreError> {
    serde_json::from_str(text).map_err(|e| damaged(what, e))
}

/// The ids that a query gives in its first column.
pub(super) fn ids(
    connection: &Connection,
    query: &str,
    arguments: impl rusqlite::Params,
) -> Result<Vec<Uuid>, StoreError> {
    Ok(connection
        .prepare_cached(query)?
        .query_map(arguments, |row| Ok(Uuid::from_bytes(row.get(0)?)))?
        .collect::<Result<_, _>>()?)
}

/// Makes sure that a record is there.
///
/// # Errors
/// [`StoreError::NotFound`].
pub(super) fn exists(connection: &Connection, table: &'static str, id: Uuid) -> Result<(), StoreError> {
    let there = connection
        .prepare_cached(&format!("SELECT 1 FROM {table} WHERE id = ?1"))?
        .exists([blob(id)])?;
    if there {
        Ok(())
    } else {
        Err(StoreError::NotFound { what: table })
    }
}
