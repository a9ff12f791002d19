//! A record's fields from its row.

use std::collections::BTreeMap;

use rusqlite::types::Value as Sql;
use rusqlite::{Connection, OptionalExtension};
use serde_json::{Map, Value, json};
use uuid::Uuid;

use super::{ColumnEncoding, OWNERS, columns, has_owner, reads_column};
use crate::merge::Kind;
use crate::store::error::{StoreError, damaged};
use crate::store::rows::blob;

/// The fields of a record as its row has them, and which readings hold; none where there is no row.
pub(in crate::store) fn read(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
) -> Result<Option<BTreeMap<String, Value>>, StoreError> {
    let Some(mut values) = read_row(connection, kind, id)? else {
        return Ok(None);
    };
    if let Some(column) = reads_column(kind) {
        let mut statement = connection.prepare_cached(&format!(
            "SELECT field, id FROM measurement WHERE {column} = ?1 AND is_current = 1"
        ))?;
        let mut rows = statement.query([blob(id)])?;
        while let Some(row) = rows.next()? {
            let reading = Uuid::from_bytes(row.get(1)?);
            values.insert(
                format!("reading.{}", row.get::<_, String>(0)?),
                json!(reading.to_string()),
            );
        }
    }
    Ok(Some(values))
}

/// The fields of a record as its row has them; none where there is no row.
pub(in crate::store) fn read_row(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
) -> Result<Option<BTreeMap<String, Value>>, StoreError> {
    let Some((table, columns)) = columns(kind) else {
        return Ok(None);
    };
    let mut names: Vec<&str> = columns.iter().map(|column| column.name.as_str()).collect();
    if has_owner(kind) {
        names.extend(OWNERS.map(|(_, column)| column));
    }
    let found = connection
        .prepare_cached(&format!("SELECT {} FROM {table} WHERE id = ?1", names.join(", ")))?
        .query_row([blob(id)], |row| {
            let cells: rusqlite::Result<Vec<Sql>> = (0..names.len()).map(|at| row.get(at)).collect();
            cells
        })
        .optional()?;
    let Some(cells) = found else { return Ok(None) };
    let mut values = BTreeMap::new();
    for (column, cell) in columns.iter().zip(&cells) {
        field(column.key, column.encoding, cell, &mut values)?;
    }
    if has_owner(kind) {
        for ((word, _), cell) in OWNERS.iter().zip(&cells[columns.len()..]) {
            if let Sql::Blob(bytes) = cell {
                let id = Uuid::from_slice(bytes).map_err(|e| damaged("owner", e))?;
                values.insert("owner".to_owned(), json!({ *word: id.to_string() }));
            }
        }
    }
    Ok(Some(values))
}

fn field(key: &str, hold: ColumnEncoding, cell: &Sql, values: &mut BTreeMap<String, Value>) -> Result<(), StoreError> {
    let value = match (hold, cell) {
        (ColumnEncoding::Flag, Sql::Integer(flag)) => json!(*flag != 0),
        (ColumnEncoding::Id, Sql::Blob(bytes)) => {
            json!(Uuid::from_slice(bytes).map_err(|e| damaged(key, e))?.to_string())
        }
        (ColumnEncoding::Json, Sql::Text(text)) => serde_json::from_str(text).map_err(|e| damaged(key, e))?,
        (ColumnEncoding::Parts, Sql::Text(text)) => {
            let parts: Map<String, Value> = serde_json::from_str(text).map_err(|e| damaged(key, e))?;
            values.extend(parts.into_iter().map(|(part, value)| (format!("{key}{part}"), value)));
            return Ok(());
        }
        (ColumnEncoding::Parts, _) => return Ok(()),
        (_, Sql::Integer(number)) => json!(number),
        (_, Sql::Real(number)) => json!(number),
        (_, Sql::Text(text)) => json!(text),
        _ => Value::Null,
    };
    values.insert(key.to_owned(), value);
    Ok(())
}
