//! Which column of which table holds each field of a record that travels.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use rusqlite::types::{ToSqlOutput, Value as Sql, ValueRef};
use rusqlite::{Connection, OptionalExtension, params_from_iter};
use serde_json::{Map, Value, json};
use uuid::Uuid;

use super::error::{StoreError, damaged};
use super::rows::blob;
use crate::merge::{Kind, owner_of};

/// How a column holds a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Hold {
    /// Text, number or nothing, as it is.
    Plain,
    /// 0 or 1.
    Flag,
    /// 16 bytes or nothing.
    Id,
    /// JSON text or nothing.
    Json,
    /// A JSON object; each key is a field of its own. Nothing for an empty one, or `{}`.
    Parts { empty: Option<&'static str> },
}

/// One field: its key, its column.
type Column = (&'static str, &'static str, Hold);

const TIMES: [Column; 2] = [
    ("created_ms", "created_ms", Hold::Plain),
    ("edited_ms", "edited_ms", Hold::Plain),
];
const DONOR: &[Column] = &[
    ("name", "name", Hold::Plain),
    ("hertz", "hertz", Hold::Plain),
    ("look.", "look", Hold::Parts { empty: None }),
    ("notes", "notes", Hold::Plain),
    TIMES[0],
    TIMES[1],
];
const CORE: &[Column] = &[
    ("donor", "donor_id", Hold::Id),
    ("shunts_kept", "shunts_kept", Hold::Flag),
    ("primary_metal", "primary_metal", Hold::Plain),
    ("rated_volts", "rated_volts", Hold::Plain),
    ("rated_hertz", "rated_hertz", Hold::Plain),
    TIMES[0],
    TIMES[1],
];
const JOB: &[Column] = &[
    ("name", "name", Hold::Plain),
    ("core", "core_id", Hold::Id),
    ("mains_hertz", "mains_hertz", Hold::Plain),
    ("breaker_a", "breaker_a", Hold::Plain),
    ("plug", "plug", Hold::Plain),
    ("goal", "goal", Hold::Json),
    ("conditions.", "conditions", Hold::Parts { empty: Some("{}") }),
    ("choice", "choice", Hold::Json),
    ("note", "note", Hold::Plain),
    TIMES[0],
    TIMES[1],
];
const DESIGN: &[Column] = &[
    ("job", "job_id", Hold::Id),
    ("name", "name", Hold::Plain),
    ("choice", "choice", Hold::Json),
    ("note", "note", Hold::Plain),
    TIMES[0],
    TIMES[1],
];
const STOCK: &[Column] = &[
    ("conductor", "conductor", Hold::Plain),
    ("length_m", "length_m", Hold::Plain),
    ("price_per_m", "price_per_m", Hold::Plain),
    TIMES[0],
    TIMES[1],
];
const MEASUREMENT: &[Column] = &[
    ("field", "field", Hold::Plain),
    ("value", "value", Hold::Plain),
    ("plus_minus", "plus_minus", Hold::Plain),
    ("origin", "origin", Hold::Plain),
    TIMES[0],
];
const NOTE: &[Column] = &[("text", "text", Hold::Plain), TIMES[0], TIMES[1]];
const PHOTO: &[Column] = &[
    ("donor", "donor_id", Hold::Id),
    ("what", "what", Hold::Plain),
    ("kind", "kind", Hold::Plain),
    TIMES[0],
];
const CORE_PHOTO: &[Column] = &[
    ("core", "core_id", Hold::Id),
    ("kind", "kind", Hold::Plain),
    ("marks", "marks", Hold::Json),
    TIMES[0],
];

const OWNERS: [(&str, &str); 4] = [
    ("donor", "donor_id"),
    ("core", "core_id"),
    ("job", "job_id"),
    ("design", "design_id"),
];

/// Table and columns of a kind; none for histories, which `carried` holds.
fn columns(kind: Kind) -> Option<(&'static str, &'static [Column])> {
    Some(match kind {
        Kind::Donor => ("donor", DONOR),
        Kind::Core => ("core", CORE),
        Kind::Job => ("job", JOB),
        Kind::Design => ("design", DESIGN),
        Kind::Stock => ("stock", STOCK),
        Kind::Measurement => ("measurement", MEASUREMENT),
        Kind::Note => ("note", NOTE),
        Kind::Photo => ("photo", PHOTO),
        Kind::CorePhoto => ("core_photo", CORE_PHOTO),
        Kind::Teardown | Kind::BenchRun => return None,
    })
}

/// The table of a kind; that of the histories of other devices for those.
pub(super) fn table(kind: Kind) -> &'static str {
    columns(kind).map_or("carried", |(table, _)| table)
}

const fn has_owner(kind: Kind) -> bool {
    matches!(kind, Kind::Measurement | Kind::Note)
}

const fn has_revision(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Donor | Kind::Core | Kind::Job | Kind::Design | Kind::Stock | Kind::Note
    )
}

/// The column of `measurement` that names an owner of this kind.
const fn reads_column(kind: Kind) -> Option<&'static str> {
    match kind {
        Kind::Donor => Some("donor_id"),
        Kind::Core => Some("core_id"),
        Kind::Job => Some("job_id"),
        Kind::Design => Some("design_id"),
        _ => None,
    }
}

/// The fields of a record as its row has them; none where there is no row.
pub(super) fn read(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
) -> Result<Option<BTreeMap<String, Value>>, StoreError> {
    let Some((table, columns)) = columns(kind) else {
        return Ok(None);
    };
    let mut names: Vec<&str> = columns.iter().map(|(_, column, _)| *column).collect();
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
    for ((key, _, hold), cell) in columns.iter().zip(&cells) {
        field(key, *hold, cell, &mut values)?;
    }
    if has_owner(kind) {
        for ((word, _), cell) in OWNERS.iter().zip(&cells[columns.len()..]) {
            if let Sql::Blob(bytes) = cell {
                let id = Uuid::from_slice(bytes).map_err(|e| damaged("owner", e))?;
                values.insert("owner".to_owned(), json!({ *word: id.to_string() }));
            }
        }
    }
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

fn field(key: &str, hold: Hold, cell: &Sql, values: &mut BTreeMap<String, Value>) -> Result<(), StoreError> {
    let value = match (hold, cell) {
        (Hold::Flag, Sql::Integer(flag)) => json!(*flag != 0),
        (Hold::Id, Sql::Blob(bytes)) => {
            json!(Uuid::from_slice(bytes).map_err(|e| damaged(key, e))?.to_string())
        }
        (Hold::Json, Sql::Text(text)) => serde_json::from_str(text).map_err(|e| damaged(key, e))?,
        (Hold::Parts { .. }, Sql::Text(text)) => {
            let parts: Map<String, Value> = serde_json::from_str(text).map_err(|e| damaged(key, e))?;
            values.extend(parts.into_iter().map(|(part, value)| (format!("{key}{part}"), value)));
            return Ok(());
        }
        (Hold::Parts { .. }, _) => return Ok(()),
        (_, Sql::Integer(number)) => json!(number),
        (_, Sql::Real(number)) => json!(number),
        (_, Sql::Text(text)) => json!(text),
        _ => Value::Null,
    };
    values.insert(key.to_owned(), value);
    Ok(())
}

fn id_of(value: Option<&Value>) -> Option<Uuid> {
    value?.as_str()?.parse().ok()
}

fn id_cell(value: Option<&Value>) -> Cell<'static> {
    id_of(value).map_or(NOTHING, |id| Cell::Owned(Sql::Blob(id.as_bytes().to_vec())))
}

/// A cell to be written; borrowed where it can be.
type Cell<'a> = ToSqlOutput<'a>;
const NOTHING: Cell<'static> = Cell::Owned(Sql::Null);

fn text(text: &str) -> Cell<'_> {
    Cell::Borrowed(ValueRef::Text(text.as_bytes()))
}

fn cell<'a>(key: &str, hold: Hold, values: &BTreeMap<&str, &'a Value>) -> Cell<'a> {
    let value = values.get(key).copied();
    match hold {
        Hold::Plain => match value {
            Some(Value::String(plain)) => text(plain),
            Some(Value::Number(number)) => match number.as_i64() {
                Some(whole) => Cell::Owned(Sql::Integer(whole)),
                None => number.as_f64().map_or(NOTHING, |number| Cell::Owned(Sql::Real(number))),
            },
            _ => NOTHING,
        },
        Hold::Flag => Cell::Owned(Sql::Integer(i64::from(value == Some(&Value::Bool(true))))),
        Hold::Id => id_cell(value),
        Hold::Json => match value {
            None | Some(Value::Null) => NOTHING,
            Some(part) => Cell::Owned(Sql::Text(part.to_string())),
        },
        Hold::Parts { empty } => {
            let parts: Map<String, Value> = values
                .range(key..)
                .take_while(|(field, _)| field.starts_with(key))
                .filter(|(_, value)| !value.is_null())
                .map(|(field, value)| (field[key.len()..].to_owned(), (*value).clone()))
                .collect();
            match (parts.is_empty(), empty) {
                (true, None) => NOTHING,
                (true, Some(none)) => text(none),
                _ => Cell::Owned(Sql::Text(Value::Object(parts).to_string())),
            }
        }
    }
}

/// The statement that writes a record's row, new or over the old one.
fn writing(kind: Kind, table: &str, columns: &[Column]) -> String {
    let mut names: Vec<&str> = columns.iter().map(|(_, column, _)| *column).collect();
    if kind == Kind::Job {
        names.push("goal_use");
    }
    if has_owner(kind) {
        names.extend(OWNERS.map(|(_, column)| column));
    }
    let set: Vec<String> = names.iter().map(|name| format!("{name} = excluded.{name}")).collect();
    let places: Vec<String> = (0..names.len()).map(|at| format!("?{}", at + 2)).collect();
    let (mut more_names, mut more_values, mut more_set) = ("", "", "");
    if has_revision(kind) {
        (more_names, more_values, more_set) = (", revision", ", 1", ", revision = revision + 1");
    } else if kind == Kind::Measurement {
        (more_names, more_values) = (
            ", is_current",
            ", EXISTS (SELECT 1 FROM temp.holding WHERE holding.id = ?1)",
        );
    } else if kind.has_picture() {
        (more_names, more_values) = (", bytes", ", x''");
    }
    format!(
        "INSERT INTO {table} (id, {}{more_names}) VALUES (?1, {}{more_values})
         ON CONFLICT (id) DO UPDATE SET {}{more_set}",
        names.join(", "),
        places.join(", "),
        set.join(", "),
    )
}

/// Each kind's statement that writes a row; made once, since an arrival writes a million.
fn writing_of(kind: Kind) -> &'static str {
    static MADE: OnceLock<Vec<String>> = OnceLock::new();
    let made = MADE.get_or_init(|| {
        Kind::ALL
            .into_iter()
            .map(|kind| columns(kind).map_or_else(String::new, |(table, columns)| writing(kind, table, columns)))
            .collect()
    });
    &made[kind as usize]
}

/// Writes a record's row, new or over the old one, from the values shown. What holds of its
/// readings is set too.
pub(super) fn write(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
    values: &BTreeMap<&str, &Value>,
) -> Result<(), StoreError> {
    let Some((_, columns)) = columns(kind) else {
        return Ok(());
    };
    let mut cells = Vec::with_capacity(columns.len() + OWNERS.len() + 1);
    let key = blob(id);
    cells.push(Cell::Borrowed(ValueRef::Blob(&key)));
    cells.extend(columns.iter().map(|(key, _, hold)| cell(key, *hold, values)));
    if kind == Kind::Job {
        let goal_use = values
            .get("goal")
            .and_then(|goal| goal.get("use"))
            .and_then(Value::as_str);
        cells.push(text(goal_use.unwrap_or_default()));
    }
    if kind == Kind::CorePhoto && cells[3] == NOTHING {
        cells[3] = text("{}");
    }
    if has_owner(kind) {
        let owner = values.get("owner").and_then(|owner| owner.as_object());
        for (word, _) in OWNERS {
            cells.push(id_cell(owner.and_then(|owner| owner.get(word))));
        }
    }
    connection
        .prepare_cached(writing_of(kind))?
        .execute(params_from_iter(cells))?;
    if let Some(column) = reads_column(kind) {
        hold_readings(connection, column, id, values)?;
    }
    Ok(())
}

/// What holds of an owner's readings: those that are here are marked, those to come are noted.
fn hold_readings(
    connection: &Connection,
    column: &str,
    owner: Uuid,
    values: &BTreeMap<&str, &Value>,
) -> Result<(), StoreError> {
    const PREFIX: &str = "reading.";
    connection
        .prepare_cached(&format!(
            "UPDATE measurement SET is_current = 0 WHERE {column} = ?1 AND is_current = 1"
        ))?
        .execute([blob(owner)])?;
    let mut mark = connection.prepare_cached("UPDATE measurement SET is_current = 1 WHERE id = ?1")?;
    let mut note = connection.prepare_cached("INSERT OR IGNORE INTO temp.holding (id) VALUES (?1)")?;
    for (_, value) in values.range(PREFIX..).take_while(|(key, _)| key.starts_with(PREFIX)) {
        let Some(id) = id_of(Some(value)) else { continue };
        if mark.execute([blob(id)])? == 0 {
            note.execute([blob(id)])?;
        }
    }
    Ok(())
}

/// The records that must be here for this one to be shown: its owner, the core of a job.
pub(super) fn needs(kind: Kind, values: &BTreeMap<&str, &Value>) -> Option<(Kind, Uuid)> {
    let id = |key: &str| {
        values
            .get(key)
            .and_then(|v| v.as_str())
            .and_then(|text| text.parse().ok())
    };
    match kind {
        Kind::Job | Kind::CorePhoto => Some((Kind::Core, id("core")?)),
        Kind::Design | Kind::BenchRun => Some((Kind::Job, id("job")?)),
        Kind::Photo | Kind::Teardown => Some((Kind::Donor, id("donor")?)),
        Kind::Measurement | Kind::Note => owner_of(values.get("owner")?),
        Kind::Donor | Kind::Core | Kind::Stock => None,
    }
}

/// Whether a record has a row.
pub(super) fn is_here(connection: &Connection, kind: Kind, id: Uuid) -> Result<bool, StoreError> {
    Ok(connection
        .prepare_cached(&format!("SELECT 1 FROM {} WHERE id = ?1", table(kind)))?
        .exists([blob(id)])?)
}
