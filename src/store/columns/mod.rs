//! Which column of which table holds each field of a record that travels: as the format has it.

mod read;
mod record;
mod values;
mod write;

use std::sync::OnceLock;

use rusqlite::Connection;
use uuid::Uuid;

use super::error::StoreError;
use super::rows::blob;
use crate::merge::{FieldShape, FieldSpec, Kind, owner_of};

pub(super) use read::{read, read_row};
pub(super) use record::{fields_of, json_of};
pub(super) use values::RowValues;
pub(super) use write::{ExistingRow, write, write_new, write_row};

/// How a column holds a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum ColumnEncoding {
    /// Text, number or nothing, as it is.
    Plain,
    /// 0 or 1.
    Flag,
    /// 16 bytes or nothing.
    Id,
    /// JSON text or nothing.
    Json,
    /// A JSON object; each key is a field of its own.
    Parts,
}

/// The column of a field of the format.
#[derive(Debug)]
struct Column {
    /// The field's key.
    key: &'static str,
    name: String,
    encoding: ColumnEncoding,
}

impl Column {
    /// The column of a field; none where something else holds it: readings and owners have rows and columns of
    /// their own, and the sum of a picture is in the ledger alone.
    fn of(field: &'static FieldSpec) -> Option<Self> {
        let key = field.key;
        let (name, encoding) = match field.shape {
            FieldShape::Owner => return None,
            FieldShape::Id(Kind::Measurement) => return None,
            _ if key == "sha256" => return None,
            FieldShape::Id(_) => (format!("{key}_id"), ColumnEncoding::Id),
            FieldShape::Flag => (key.to_owned(), ColumnEncoding::Flag),
            FieldShape::Part => match key.strip_suffix('.') {
                Some(parts) => (parts.to_owned(), ColumnEncoding::Parts),
                None => (key.to_owned(), ColumnEncoding::Json),
            },
            FieldShape::Text(_) | FieldShape::Whole | FieldShape::Number | FieldShape::Lines(_) => {
                (key.to_owned(), ColumnEncoding::Plain)
            }
        };
        Some(Self { key, name, encoding })
    }
}

const OWNERS: [(&str, &str); 4] = [
    ("donor", "donor_id"),
    ("core", "core_id"),
    ("job", "job_id"),
    ("design", "design_id"),
];

/// Table and columns of a kind, in the order of the format; none for histories, which `remote_history` holds.
/// A kind's table has its word for a name.
fn columns(kind: Kind) -> Option<(&'static str, &'static [Column])> {
    static MADE: OnceLock<Vec<Vec<Column>>> = OnceLock::new();
    if matches!(kind, Kind::Teardown | Kind::JobRun) {
        return None;
    }
    let of = |kind: Kind| kind.fields().iter().filter_map(Column::of).collect();
    let made = MADE.get_or_init(|| Kind::ALL.into_iter().map(of).collect());
    Some((kind.word(), &made[kind as usize]))
}

/// The table of a kind; that of the histories of other devices for those.
pub(super) fn table(kind: Kind) -> &'static str {
    columns(kind).map_or("remote_history", |(table, _)| table)
}

pub(super) const fn has_owner(kind: Kind) -> bool {
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

/// The records that must be here for this one to be shown: its owner, the core of a job.
pub(super) fn needs(kind: Kind, values: &RowValues<'_>) -> Option<(Kind, Uuid)> {
    let id = |key: &str| {
        values
            .get(key)
            .and_then(|v| v.as_str())
            .and_then(|text| text.parse().ok())
    };
    match kind {
        Kind::Job | Kind::CorePhoto => Some((Kind::Core, id("core")?)),
        Kind::Design | Kind::JobRun => Some((Kind::Job, id("job")?)),
        Kind::Photo | Kind::Teardown => Some((Kind::Donor, id("donor")?)),
        Kind::Measurement | Kind::Note => owner_of(values.get("owner")?),
        Kind::Donor | Kind::Core | Kind::Stock => None,
    }
}

/// Leaves out what a record's row cannot name, since it is not here: the donor of a core.
pub(super) fn leave_out_gone(
    connection: &Connection,
    kind: Kind,
    values: &mut RowValues<'_>,
) -> Result<(), StoreError> {
    if kind != Kind::Core {
        return Ok(());
    }
    let donor = values.get("donor").and_then(|id| id.as_str());
    if let Some(donor) = donor.and_then(|id| id.parse().ok())
        && !is_here(connection, Kind::Donor, donor)?
    {
        values.but("donor", None);
    }
    Ok(())
}

/// Whether a record has a row.
pub(super) fn is_here(connection: &Connection, kind: Kind, id: Uuid) -> Result<bool, StoreError> {
    Ok(connection
        .prepare_cached(&format!("SELECT 1 FROM {} WHERE id = ?1", table(kind)))?
        .exists([blob(id)])?)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The schema has the columns that the format asks for, with its types, and beside them no others than those
    /// of the store itself.
    #[test]
    fn the_schema_follows_the_format() {
        let mut connection = Connection::open_in_memory().unwrap();
        crate::store::migrations::migrate(&mut connection).unwrap();
        for kind in Kind::ALL {
            let Some((table, columns)) = columns(kind) else {
                continue;
            };
            let mut wanted: Vec<(String, &str, bool)> = columns
                .iter()
                .map(|column| {
                    let field = kind.fields().iter().find(|field| field.key == column.key).unwrap();
                    let sql = match column.encoding {
                        ColumnEncoding::Id => "BLOB",
                        ColumnEncoding::Flag => "INTEGER",
                        ColumnEncoding::Plain if field.shape == FieldShape::Whole => "INTEGER",
                        ColumnEncoding::Plain if field.shape == FieldShape::Number => "REAL",
                        ColumnEncoding::Plain | ColumnEncoding::Json | ColumnEncoding::Parts => "TEXT",
                    };
                    let may_be_null = field.optional && column.encoding != ColumnEncoding::Parts;
                    (column.name.clone(), sql, !may_be_null)
                })
                .collect();
            let mut own: Vec<(&str, &str, bool)> = vec![("id", "BLOB", true)];
            own.extend(has_revision(kind).then_some(("revision", "INTEGER", true)));
            own.extend((kind == Kind::Job).then_some(("goal_use", "TEXT", true)));
            own.extend((kind == Kind::Measurement).then_some(("is_current", "INTEGER", true)));
            own.extend(kind.has_picture().then_some(("bytes", "BLOB", true)));
            own.extend(
                OWNERS
                    .iter()
                    .filter(|_| has_owner(kind))
                    .map(|(_, column)| (*column, "BLOB", false)),
            );
            wanted.extend(own.into_iter().map(|(name, sql, must)| (name.to_owned(), sql, must)));
            wanted.sort();
            let mut found: Vec<(String, String, bool)> = connection
                .prepare("SELECT name, type, \"notnull\" FROM pragma_table_info(?1)")
                .unwrap()
                .query_map([table], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
                .unwrap()
                .collect::<Result<_, _>>()
                .unwrap();
            found.sort();
            let found: Vec<(String, &str, bool)> = found.iter().map(|(n, t, m)| (n.clone(), t.as_str(), *m)).collect();
            assert_eq!(found, wanted, "{table}");
        }
    }
}
