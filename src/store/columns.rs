//! Which column of which table holds each field of a record that travels.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use rusqlite::types::{ToSql, ToSqlOutput, Value as Sql, ValueRef};
use rusqlite::{Connection, OptionalExtension, params_from_iter};
use serde_json::{Map, Value, json};
use uuid::Uuid;

use super::error::{StoreError, damaged};
use super::rows::blob;
use crate::merge::{Kind, Known, owner_of};

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

/// What a row is to say: what is known of a record, but for some fields.
#[derive(Debug, Clone)]
pub(super) struct Saying<'a> {
    known: &'a Known,
    but: Vec<(&'a str, Option<&'a Value>)>,
}

impl<'a> Saying<'a> {
    /// What is known, as it is.
    pub(super) fn of(known: &'a Known) -> Self {
        Saying { known, but: Vec::new() }
    }

    /// Another value of a field, or none.
    pub(super) fn but(&mut self, field: &'a str, value: Option<&'a Value>) {
        self.but.retain(|(other, _)| *other != field);
        self.but.push((field, value));
    }

    /// A field's value.
    pub(super) fn get(&self, field: &str) -> Option<&'a Value> {
        let other = self.but.iter().find(|(other, _)| *other == field);
        other.map_or_else(|| self.known.shown(field), |(_, value)| *value)
    }

    /// The fields whose name begins with a prefix, in order.
    fn under(&self, prefix: &'a str) -> impl Iterator<Item = (&'a str, &'a Value)> {
        self.known
            .values_under(prefix)
            .filter_map(|(field, _)| Some((field, self.get(field)?)))
    }
}

fn cell<'a>(key: &'static str, hold: Hold, values: &Saying<'a>) -> Cell<'a> {
    let value = values.get(key);
    match hold {
        Hold::Plain => match value {
            Some(Value::String(plain)) => Cell::Text(plain),
            Some(Value::Number(number)) => match number.as_i64() {
                Some(whole) => Cell::Whole(whole),
                None => number.as_f64().map_or(Cell::Nothing, Cell::Real),
            },
            _ => Cell::Nothing,
        },
        Hold::Flag => Cell::Whole(i64::from(value == Some(&Value::Bool(true)))),
        Hold::Id => id_cell(value),
        Hold::Json => match value {
            None | Some(Value::Null) => Cell::Nothing,
            Some(part) => Cell::Made(part.to_string()),
        },
        Hold::Parts { empty } => {
            let parts: BTreeMap<&str, &Value> = values
                .under(key)
                .filter(|(_, value)| !value.is_null())
                .map(|(field, value)| (&field[key.len()..], value))
                .collect();
            match (parts.is_empty(), empty) {
                (true, None) => Cell::Nothing,
                (true, Some(none)) => Cell::Text(none),
                _ => Cell::Made(json!(parts).to_string()),
            }
        }
    }
}

/// What is there of a row that is to be written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Before {
    /// Nothing: the record is not known here.
    Nothing,
    /// Perhaps a row, which is written over.
    Perhaps,
}

/// The statement that writes a record's row.
fn writing(kind: Kind, table: &str, columns: &[Column], before: Before) -> String {
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
    let over = match before {
        Before::Nothing => String::new(),
        Before::Perhaps => format!(" ON CONFLICT (id) DO UPDATE SET {}{more_set}", set.join(", ")),
    };
    format!(
        "INSERT INTO {table} (id, {}{more_names}) VALUES (?1, {}{more_values}){over}",
        names.join(", "),
        places.join(", "),
    )
}

/// Each kind's statement that writes a row; made once, since an arrival writes a million.
fn writing_of(kind: Kind, before: Before) -> &'static str {
    static MADE: OnceLock<Vec<[String; 2]>> = OnceLock::new();
    let made = MADE.get_or_init(|| {
        Kind::ALL
            .into_iter()
            .map(|kind| {
                [Before::Nothing, Before::Perhaps].map(|before| {
                    columns(kind).map_or_else(String::new, |(table, columns)| writing(kind, table, columns, before))
                })
            })
            .collect()
    });
    &made[kind as usize][before as usize]
}

/// Writes a record's row from the values shown. What holds of its readings is set too.
pub(super) fn write(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
    values: &Saying<'_>,
    before: Before,
) -> Result<(), StoreError> {
    let Some((_, columns)) = columns(kind) else {
        return Ok(());
    };
    let mut cells = Vec::with_capacity(columns.len() + OWNERS.len() + 1);
    cells.push(Cell::Id(blob(id)));
    cells.extend(columns.iter().map(|(key, _, hold)| cell(key, *hold, values)));
    if kind == Kind::Job {
        let goal_use = values
            .get("goal")
            .and_then(|goal| goal.get("use"))
            .and_then(Value::as_str);
        cells.push(Cell::Text(goal_use.unwrap_or_default()));
    }
    if kind == Kind::CorePhoto && cells[3] == Cell::Nothing {
        cells[3] = Cell::Text("{}");
    }
    if has_owner(kind) {
        let owner = values.get("owner").and_then(|owner| owner.as_object());
        for (word, _) in OWNERS {
            cells.push(id_cell(owner.and_then(|owner| owner.get(word))));
        }
    }
    connection
        .prepare_cached(writing_of(kind, before))?
        .execute(params_from_iter(cells))?;
    if let Some(column) = reads_column(kind) {
        hold_readings(connection, column, id, values, before)?;
    }
    Ok(())
}

/// What holds of an owner's readings: those that are here are marked, those to come are noted.
fn hold_readings(
    connection: &Connection,
    column: &str,
    owner: Uuid,
    values: &Saying<'_>,
    before: Before,
) -> Result<(), StoreError> {
    const PREFIX: &str = "reading.";
    if before == Before::Perhaps {
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
        if before == Before::Nothing || mark.execute([blob(id), blob(owner)])? == 0 {
            note.execute([blob(id)])?;
        }
    }
    Ok(())
}

/// The records that must be here for this one to be shown: its owner, the core of a job.
pub(super) fn needs(kind: Kind, values: &Saying<'_>) -> Option<(Kind, Uuid)> {
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
