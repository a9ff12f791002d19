//! Which column of which table holds each field of a record that travels.

mod read;
mod write;

use rusqlite::Connection;
use uuid::Uuid;

use super::error::StoreError;
use super::rows::blob;
use crate::merge::{Kind, owner_of};

pub(super) use read::read;
pub(super) use write::{ExistingRow, RowValues, write, write_new};

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
    /// A JSON object; each key is a field of its own. Nothing for an empty one, or `{}`.
    Parts { empty: Option<&'static str> },
}

/// One field: its key, its column.
type Column = (&'static str, &'static str, ColumnEncoding);

const TIMES: [Column; 2] = [
    ("created_ms", "created_ms", ColumnEncoding::Plain),
    ("edited_ms", "edited_ms", ColumnEncoding::Plain),
];
const DONOR: &[Column] = &[
    ("name", "name", ColumnEncoding::Plain),
    ("hertz", "hertz", ColumnEncoding::Plain),
    ("look.", "look", ColumnEncoding::Parts { empty: None }),
    ("notes", "notes", ColumnEncoding::Plain),
    TIMES[0],
    TIMES[1],
];
const CORE: &[Column] = &[
    ("donor", "donor_id", ColumnEncoding::Id),
    ("shunts_kept", "shunts_kept", ColumnEncoding::Flag),
    ("primary_metal", "primary_metal", ColumnEncoding::Plain),
    ("rated_volts", "rated_volts", ColumnEncoding::Plain),
    ("rated_hertz", "rated_hertz", ColumnEncoding::Plain),
    TIMES[0],
    TIMES[1],
];
const JOB: &[Column] = &[
    ("name", "name", ColumnEncoding::Plain),
    ("core", "core_id", ColumnEncoding::Id),
    ("mains_hertz", "mains_hertz", ColumnEncoding::Plain),
    ("breaker_a", "breaker_a", ColumnEncoding::Plain),
    ("plug", "plug", ColumnEncoding::Plain),
    ("goal", "goal", ColumnEncoding::Json),
    ("conditions.", "conditions", ColumnEncoding::Parts { empty: Some("{}") }),
    ("choice", "choice", ColumnEncoding::Json),
    ("note", "note", ColumnEncoding::Plain),
    TIMES[0],
    TIMES[1],
];
const DESIGN: &[Column] = &[
    ("job", "job_id", ColumnEncoding::Id),
    ("name", "name", ColumnEncoding::Plain),
    ("choice", "choice", ColumnEncoding::Json),
    ("note", "note", ColumnEncoding::Plain),
    TIMES[0],
    TIMES[1],
];
const STOCK: &[Column] = &[
    ("conductor", "conductor", ColumnEncoding::Plain),
    ("length_m", "length_m", ColumnEncoding::Plain),
    ("price_per_m", "price_per_m", ColumnEncoding::Plain),
    TIMES[0],
    TIMES[1],
];
const MEASUREMENT: &[Column] = &[
    ("field", "field", ColumnEncoding::Plain),
    ("value", "value", ColumnEncoding::Plain),
    ("plus_minus", "plus_minus", ColumnEncoding::Plain),
    ("origin", "origin", ColumnEncoding::Plain),
    TIMES[0],
];
const NOTE: &[Column] = &[("text", "text", ColumnEncoding::Plain), TIMES[0], TIMES[1]];
const PHOTO: &[Column] = &[
    ("donor", "donor_id", ColumnEncoding::Id),
    ("what", "what", ColumnEncoding::Plain),
    ("kind", "kind", ColumnEncoding::Plain),
    TIMES[0],
];
const CORE_PHOTO: &[Column] = &[
    ("core", "core_id", ColumnEncoding::Id),
    ("kind", "kind", ColumnEncoding::Plain),
    ("marks", "marks", ColumnEncoding::Json),
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
        Kind::Teardown | Kind::JobRun => return None,
    })
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
