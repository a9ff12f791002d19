//! Whether what arrived makes up records that the program can read, within their ranges.

use std::collections::BTreeMap;

use rusqlite::Connection;
use serde_json::{Value, json};
use uuid::Uuid;

use super::columns::{ExistingRow, RowValues};
use super::error::{StoreError, damaged};
use super::import::Importer;
use super::{columns, histories, ledger, records, remote_histories, rows, undo};
use crate::job::{Check, CoreId, DesignId, DonorId, JobId, StockId, ValueError};
use crate::merge::{Device, Kind, RecordHistory, RecordLine, Refused, Stamp, accept};

impl Importer<'_> {
    /// Reads every record that the arrival touched as the program reads it, and judges it.
    pub(super) fn validate_value(&mut self) -> Result<(), StoreError> {
        let mut last = (0_u8, [0_u8; 16]);
        loop {
            let batch: Vec<(u8, [u8; 16])> = self
                .connection
                .prepare_cached(
                    "SELECT kind, id FROM temp.touched WHERE (kind, id) > (?1, ?2) ORDER BY kind, id LIMIT 500",
                )?
                .query_map((last.0, last.1), |row| Ok((row.get(0)?, row.get(1)?)))?
                .collect::<Result<_, _>>()?;
            let Some(end) = batch.last() else { return Ok(()) };
            last = *end;
            for (code, bytes) in batch {
                let (kind, id) = (ledger::of_code(code)?, Uuid::from_bytes(bytes));
                if validate_record(self.connection, kind, id).is_err() {
                    self.repair_readings(kind, id)?;
                    validate_record(self.connection, kind, id)?;
                }
            }
        }
    }

    /// Where the reading that should hold was removed on another device, the other one holds.
    fn repair_readings(&self, kind: Kind, id: Uuid) -> Result<(), StoreError> {
        let Some(known) = ledger::read(self.connection, kind, id)? else {
            return Ok(());
        };
        let mut values = RowValues::of(&known);
        for (field, entries) in known.conflicts().filter(|(field, _)| field.starts_with("reading.")) {
            for entry in entries {
                let reading = entry.value.as_str().and_then(|text| text.parse().ok());
                if let Some(reading) = reading
                    && columns::is_here(self.connection, Kind::Measurement, reading)?
                {
                    values.but(field, Some(&entry.value));
                }
            }
        }
        columns::leave_out_gone(self.connection, kind, &mut values)?;
        columns::write(self.connection, kind, id, &values, ExistingRow::Unknown)
    }
}

/// Reads a record as the program reads it, and judges it.
///
/// # Errors
/// [`StoreError::Unreadable`] with the record and what is wrong; [`StoreError::Disk`] and the like if the data file fails.
pub(super) fn validate_record(connection: &Connection, kind: Kind, id: Uuid) -> Result<(), StoreError> {
    let judged = match kind {
        Kind::Donor => records::read(connection, DonorId(id)).and_then(|donor| Ok(donor.body.check()?)),
        Kind::Core => records::read(connection, CoreId(id)).and_then(|core| Ok(core.body.check()?)),
        Kind::Job => records::read(connection, JobId(id)).and_then(|job| Ok(job.body.check()?)),
        Kind::Design => records::read(connection, DesignId(id)).and_then(|design| Ok(design.body.check()?)),
        Kind::Stock => records::read(connection, StockId(id)).and_then(|wire| Ok(wire.body.check()?)),
        _ => Ok(()),
    };
    judged.map_err(|error| match error {
        StoreError::Damaged { detail } => StoreError::Unreadable {
            what: format!("{} {id}", kind.word()),
            reason: ValueError::Unreadable(detail),
        },
        StoreError::Field(field) => StoreError::Unreadable {
            what: format!("{} {id}", kind.word()),
            reason: field.into(),
        },
        other => other,
    })
}

/// Judges every row as if it came from elsewhere: the data file was put back, by hand or from a copy.
///
/// # Errors
/// [`StoreError::PutBack`] with the first record that is not accepted, [`StoreError::Damaged`] where
/// the ledger cannot be read.
pub(super) fn validate_all(connection: &Connection) -> Result<(), StoreError> {
    for run in rows::ids(connection, "SELECT id FROM job_run", [])? {
        validate_row(connection, Kind::JobRun, run)?;
    }
    for donor in rows::ids(connection, "SELECT DISTINCT donor_id FROM teardown_entry", [])? {
        validate_row(connection, Kind::Teardown, donor)?;
    }
    for id in rows::ids(connection, "SELECT id FROM remote_history", [])? {
        validate_remote(connection, id)?;
    }
    for kind in Kind::ALL {
        let table = columns::table(kind);
        if table != "remote_history" {
            for id in rows::ids(connection, &format!("SELECT id FROM {table}"), [])? {
                validate_row(connection, kind, id)?;
            }
        }
        for id in rows::ids(connection, "SELECT id FROM ledger WHERE kind = ?1", [kind as u8])? {
            validate_history(connection, kind, id)?;
        }
    }
    Ok(())
}

/// Judges what undo and redo bring back: the rows, which the ledger's triggers noted in `temp.touched`,
/// and the histories, noted in `temp.restored`. All of it stands in the data file, where it may have been
/// altered.
///
/// # Errors
/// [`StoreError::PutBack`] with the first record that is not accepted.
pub(super) fn validate_touched(connection: &Connection) -> Result<(), StoreError> {
    let noted = |table: &str| -> Result<Vec<(i64, [u8; 16])>, StoreError> {
        Ok(connection
            .prepare_cached(&format!("SELECT kind, id FROM temp.{table} ORDER BY kind, id"))?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<_, _>>()?)
    };
    let kind_of = |code: i64| ledger::of_code(u8::try_from(code).map_err(|e| damaged("kind", e))?);
    for (code, bytes) in noted("touched")? {
        validate_row(connection, kind_of(code)?, Uuid::from_bytes(bytes))?;
    }
    for (code, bytes) in noted("restored")? {
        let id = Uuid::from_bytes(bytes);
        match code {
            undo::REMOTE => validate_remote(connection, id)?,
            _ => validate_history(connection, kind_of(code)?, id)?,
        }
    }
    connection.execute("DELETE FROM temp.restored", [])?;
    Ok(())
}

/// Judges what the ledger knows of a record.
fn validate_history(connection: &Connection, kind: Kind, id: Uuid) -> Result<(), StoreError> {
    match ledger::read(connection, kind, id)? {
        Some(known) => accept(&mut RecordLine { kind, id, known }).map(drop).map_err(put_back),
        None => Ok(()),
    }
}

/// Judges a history of another device.
fn validate_remote(connection: &Connection, id: Uuid) -> Result<(), StoreError> {
    match remote_histories::values(connection, id)? {
        Some((kind, values)) => validate_values(kind, id, values),
        None => Ok(()),
    }
}

fn put_back(refused: Refused) -> StoreError {
    StoreError::PutBack {
        what: format!("{} {}, {}", refused.kind.word(), refused.id, refused.field),
        reason: refused.reason,
    }
}

fn validate_row(connection: &Connection, kind: Kind, id: Uuid) -> Result<(), StoreError> {
    let found = match kind {
        // Of this device; the donor's id stands for its teardown.
        Kind::Teardown => histories::teardown(connection, &ledger::own(connection)?, id)?,
        Kind::JobRun => histories::job_run(connection, &ledger::own(connection)?, id)?,
        _ => columns::read(connection, kind, id)?,
    };
    let Some(mut values) = found else { return Ok(()) };
    if kind.has_picture() {
        values.insert("sha256".to_owned(), json!(""));
    }
    validate_values(kind, id, values)?;
    validate_record(connection, kind, id).map_err(|error| match error {
        StoreError::Unreadable { what, reason } => StoreError::PutBack { what, reason },
        other => other,
    })
}

fn validate_values(kind: Kind, id: Uuid, values: BTreeMap<String, Value>) -> Result<(), StoreError> {
    let known = RecordHistory::new(FIRST, values);
    accept(&mut RecordLine { kind, id, known }).map_err(put_back)?;
    Ok(())
}

/// A stamp for values that are only judged.
const FIRST: Stamp = Stamp {
    count: 1,
    device: Device(0),
};
