//! A record's row from its fields.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use rusqlite::types::{ToSql, ToSqlOutput, ValueRef};
use rusqlite::{Connection, params_from_iter};
use serde_json::{Value, json};
use uuid::Uuid;

use super::{Column, ColumnEncoding, OWNERS, RowValues, columns, has_owner, has_revision, reads_column};
use crate::merge::Kind;
use crate::store::error::StoreError;
use crate::store::ledger::BATCH_ROWS;
use crate::store::rows::blob;

fn id_of(value: Option<&Value>) -> Option<Uuid> {
    value?.as_str()?.parse().ok()
}

/// A cell to be written; borrowed where it can be.
#[derive(Debug, Clone, PartialEq)]
enum Cell<'a> {
    Nothing,
    Whole(i64),
    Real(f64),
    Text(&'a str),
    Made(String),
    Id([u8; 16]),
}

impl ToSql for Cell<'_> {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(ToSqlOutput::Borrowed(match self {
            Cell::Nothing => ValueRef::Null,
            Cell::Whole(number) => ValueRef::Integer(*number),
            Cell::Real(number) => ValueRef::Real(*number),
            Cell::Text(text) => ValueRef::Text(text.as_bytes()),
            Cell::Made(text) => ValueRef::Text(text.as_bytes()),
            Cell::Id(bytes) => ValueRef::Blob(bytes),
        }))
    }
}

fn id_cell(value: Option<&Value>) -> Cell<'static> {
    id_of(value).map_or(Cell::Nothing, |id| Cell::Id(blob(id)))
}

fn cell<'a>(key: &'static str, hold: ColumnEncoding, values: &RowValues<'a>) -> Cell<'a> {
    let value = values.get(key);
    match hold {
        ColumnEncoding::Plain => match value {
            Some(Value::String(plain)) => Cell::Text(plain),
            Some(Value::Number(number)) => match number.as_i64() {
                Some(whole) => Cell::Whole(whole),
                None => number.as_f64().map_or(Cell::Nothing, Cell::Real),
            },
            _ => Cell::Nothing,
        },
        ColumnEncoding::Flag => Cell::Whole(i64::from(value == Some(&Value::Bool(true)))),
        ColumnEncoding::Id => id_cell(value),
        ColumnEncoding::Json => match value {
            None | Some(Value::Null) => Cell::Nothing,
            Some(part) => Cell::Made(part.to_string()),
        },
        ColumnEncoding::Parts => {
            let parts: BTreeMap<&str, &Value> = values
                .under(key)
                .into_iter()
                .filter(|(_, value)| !value.is_null())
                .map(|(field, value)| (&field[key.len()..], value))
                .collect();
            if parts.is_empty() {
                Cell::Text("{}")
            } else {
                Cell::Made(json!(parts).to_string())
            }
        }
    }
}

/// What is there of a row that is to be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::store) enum ExistingRow {
    /// Nothing: the record is not known here.
    Absent,
    /// Perhaps a row, which is written over.
    Unknown,
}

/// The statement that writes the rows of so many records.
fn writing(kind: Kind, table: &str, columns: &[Column], before: ExistingRow, rows: usize) -> String {
    let mut names: Vec<&str> = columns.iter().map(|column| column.name.as_str()).collect();
    if kind == Kind::Job {
        names.push("goal_use");
    }
    if has_owner(kind) {
        names.extend(OWNERS.map(|(_, column)| column));
    }
    let set: Vec<String> = names.iter().map(|name| format!("{name} = excluded.{name}")).collect();
    let (mut more_names, mut more_values, mut more_set) = ("", "", "");
    if has_revision(kind) {
        (more_names, more_values, more_set) = (", revision", ", 1", ", revision = revision + 1");
    } else if kind == Kind::Measurement {
        (more_names, more_values) = (
            ", is_current",
            ", EXISTS (SELECT 1 FROM temp.holding WHERE holding.id = ?ID)",
        );
    } else if kind.has_picture() {
        (more_names, more_values) = (", bytes", ", x''");
    }
    let over = match before {
        ExistingRow::Absent => String::new(),
        ExistingRow::Unknown => format!(" ON CONFLICT (id) DO UPDATE SET {}{more_set}", set.join(", ")),
    };
    let values: Vec<String> = (0..rows)
        .map(|row| {
            let id = 1 + row * (names.len() + 1);
            let places: Vec<String> = (0..=names.len()).map(|at| format!("?{}", id + at)).collect();
            let more = more_values.replace("?ID", &format!("?{id}"));
            format!("({}{more})", places.join(", "))
        })
        .collect();
    format!(
        "INSERT INTO {table} (id, {}{more_names}) VALUES {}{over}",
        names.join(", "),
        values.join(", "),
    )
}

/// Each kind's statement that writes one row, or [`BATCH_ROWS`] new ones of a kind that nothing belongs
/// to; made once, since an arrival writes a million.
fn writing_of(kind: Kind, before: ExistingRow, rows: usize) -> &'static str {
    const FORMS: [(ExistingRow, usize); 3] = [
        (ExistingRow::Absent, 1),
        (ExistingRow::Unknown, 1),
        (ExistingRow::Absent, BATCH_ROWS),
    ];
    static MADE: OnceLock<Vec<[String; 3]>> = OnceLock::new();
    let made = MADE.get_or_init(|| {
        Kind::ALL
            .into_iter()
            .map(|kind| {
                FORMS.map(|(before, rows)| match columns(kind) {
                    Some((table, columns)) if rows == 1 || has_owner(kind) => {
                        writing(kind, table, columns, before, rows)
                    }
                    _ => String::new(),
                })
            })
            .collect()
    });
    let form = if rows == 1 { before as usize } else { 2 };
    &made[kind as usize][form]
}

/// Adds the cells of a record's row.
fn fill<'a>(cells: &mut Vec<Cell<'a>>, kind: Kind, columns: &[Column], id: Uuid, values: &RowValues<'a>) {
    cells.push(Cell::Id(blob(id)));
    cells.extend(columns.iter().map(|column| cell(column.key, column.encoding, values)));
    if kind == Kind::Job {
        let goal_use = values
            .get("goal")
            .and_then(|goal| goal.get("use"))
            .and_then(Value::as_str);
        cells.push(Cell::Text(goal_use.unwrap_or_default()));
    }
    if has_owner(kind) {
        let owner = values.get("owner").and_then(|owner| owner.as_object());
        for (word, _) in OWNERS {
            cells.push(id_cell(owner.and_then(|owner| owner.get(word))));
        }
    }
}

/// Writes a record's row from the values shown. What holds of its readings is set too.
pub(in crate::store) fn write(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
    values: &RowValues<'_>,
    before: ExistingRow,
) -> Result<(), StoreError> {
    write_row(connection, kind, id, values, before)?;
    match reads_column(kind) {
        Some(column) => hold_readings(connection, column, id, values, before),
        None => Ok(()),
    }
}

/// Writes a record's row from the values shown, and leaves its readings as they are.
pub(in crate::store) fn write_row(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
    values: &RowValues<'_>,
    before: ExistingRow,
) -> Result<(), StoreError> {
    let Some((_, columns)) = columns(kind) else {
        return Ok(());
    };
    let mut cells = Vec::with_capacity(columns.len() + OWNERS.len() + 1);
    fill(&mut cells, kind, columns, id, values);
    connection
        .prepare_cached(writing_of(kind, before, 1))?
        .execute(params_from_iter(cells))?;
    Ok(())
}

/// Writes the rows of records that are not known here, of a kind that nothing belongs to: quickest
/// for [`BATCH_ROWS`] of them.
pub(in crate::store) fn write_new(
    connection: &Connection,
    kind: Kind,
    records: &[(Uuid, RowValues<'_>)],
) -> Result<(), StoreError> {
    let Some((_, columns)) = columns(kind) else {
        return Ok(());
    };
    if records.len() != BATCH_ROWS {
        return records
            .iter()
            .try_for_each(|(id, values)| write(connection, kind, *id, values, ExistingRow::Absent));
    }
    let mut cells = Vec::with_capacity(BATCH_ROWS * (columns.len() + OWNERS.len() + 1));
    for (id, values) in records {
        fill(&mut cells, kind, columns, *id, values);
    }
    connection
        .prepare_cached(writing_of(kind, ExistingRow::Absent, BATCH_ROWS))?
        .execute(params_from_iter(cells))?;
    Ok(())
}

/// What holds of an owner's readings: those that are here are marked, those to come are noted.
fn hold_readings(
    connection: &Connection,
    column: &str,
    owner: Uuid,
    values: &RowValues<'_>,
    before: ExistingRow,
) -> Result<(), StoreError> {
    const PREFIX: &str = "reading.";
    if before == ExistingRow::Unknown {
        connection
            .prepare_cached(&format!(
                "UPDATE measurement SET is_current = 0 WHERE {column} = ?1 AND is_current = 1"
            ))?
            .execute([blob(owner)])?;
    }
    let mut mark = connection.prepare_cached(&format!(
        "UPDATE measurement SET is_current = 1 WHERE id = ?1 AND {column} = ?2"
    ))?;
    let mut note = connection.prepare_cached("INSERT OR IGNORE INTO temp.holding (id) VALUES (?1)")?;
    for (_, value) in values.under(PREFIX) {
        let Some(id) = id_of(Some(value)) else { continue };
        // A reading without its owner has no row.
        if before == ExistingRow::Absent || mark.execute([blob(id), blob(owner)])? == 0 {
            note.execute([blob(id)])?;
        }
    }
    Ok(())
}
