//! What all tables have in common.

use rusqlite::{Connection, OptionalExtension, Row};
use serde::Serialize;
use serde::de::DeserializeOwned;
use uuid::Uuid;

use super::error::{StoreError, damaged};
use crate::job::Meta;

/// An id as it is stored.
pub(super) fn blob(id: Uuid) -> [u8; 16] {
    *id.as_bytes()
}

/// An id out of a row.
pub(super) fn id(row: &Row<'_>, column: &str) -> rusqlite::Result<Uuid> {
    Ok(Uuid::from_bytes(row.get(column)?))
}

/// Times and revision out of a row.
pub(super) fn meta<I>(id: I, row: &Row<'_>) -> rusqlite::Result<Meta<I>> {
    Ok(Meta {
        id,
        created_ms: row.get("created_ms")?,
        edited_ms: row.get("edited_ms")?,
        revision: row.get("revision")?,
    })
}

/// The revision that a change of a record makes.
///
/// # Errors
/// [`StoreError::NotFound`], and [`StoreError::StaleRevision`] unless the record still has the
/// revision that the change was made on.
pub(super) fn next_revision(
    connection: &Connection,
    table: &'static str,
    id: Uuid,
    expected: u32,
) -> Result<u32, StoreError> {
    let found: u32 = connection
        .query_row(
            &format!("SELECT revision FROM {table} WHERE id = ?1"),
            [blob(id)],
            |row| row.get(0),
        )
        .optional()?
        .ok_or(StoreError::NotFound { what: table })?;
    if found != expected {
        return Err(StoreError::StaleRevision {
            what: table,
            expected,
            found,
        });
    }
    Ok(found.saturating_add(1))
}

/// Deletes a record.
///
/// # Errors
/// [`StoreError::NotFound`].
pub(super) fn delete(connection: &Connection, table: &'static str, id: Uuid) -> Result<(), StoreError> {
    match connection.execute(&format!("DELETE FROM {table} WHERE id = ?1"), [blob(id)])? {
        0 => Err(StoreError::NotFound { what: table }),
        _ => Ok(()),
    }
}

/// A part of a record as JSON text.
pub(super) fn to_json(part: &impl Serialize) -> Result<String, StoreError> {
    serde_json::to_string(part).map_err(|e| damaged("writing", e))
}

/// A part of a record from JSON text.
pub(super) fn from_json<T: DeserializeOwned>(what: &str, text: &str) -> Result<T, StoreError> {
    serde_json::from_str(text).map_err(|e| damaged(what, e))
}

/// The word that an enum is written as.
pub(super) fn word(part: &impl Serialize) -> Result<String, StoreError> {
    from_json("word", &to_json(part)?)
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
