//! Fields that were changed in two places to different things, and the person's choice.

use std::collections::BTreeMap;

use serde_json::Value;
use uuid::Uuid;

use super::columns::{ExistingRow, RowValues};
use super::error::StoreError;
use super::op::Op;
use super::open::Store;
use super::undo::With;
use super::validate::validate_record;
use super::{columns, import, ledger};
use crate::merge::{Device, Kind, validate_value};

/// One of the values.
#[derive(Debug, Clone, PartialEq)]
pub struct Side {
    /// Who wrote it: this device's name, another's, or its number where no name is known.
    pub device: String,
    /// Whether it was this device.
    pub is_own: bool,
    /// The value; for a reading, an object with value, `plus_minus` and origin.
    pub value: Value,
}

/// A field with more than one value.
#[derive(Debug, Clone, PartialEq)]
pub struct Conflict {
    /// Of what kind the record is.
    pub kind: Kind,
    /// Which record.
    pub id: Uuid,
    /// What the person calls it.
    pub name: String,
    /// The field's key.
    pub field: String,
    /// The values, that shown now last.
    pub sides: Vec<Side>,
}

impl Store {
    /// How many records have a field with two values.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn conflict_count(&self) -> Result<u32, StoreError> {
        Ok(self
            .connection
            .prepare_cached("SELECT count(*) FROM ledger WHERE conflicts > 0")?
            .query_row([], |row| row.get(0))?)
    }

    /// The fields that have two values, of up to `limit` records that are here.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn conflicts(&self, limit: u32) -> Result<Vec<Conflict>, StoreError> {
        let own = ledger::own(&self.connection)?;
        let sessions = ledger::own_sessions(&self.connection)?;
        let is_own = |device: Device| device.machine() == own.device || sessions.contains(&device);
        let names: BTreeMap<String, String> = self
            .connection
            .prepare_cached("SELECT device, name FROM peer")?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<_, _>>()?;
        let found: Vec<(u8, [u8; 16])> = self
            .connection
            .prepare_cached("SELECT kind, id FROM ledger WHERE conflicts > 0 AND held = 0 ORDER BY kind, id LIMIT ?1")?
            .query_map([limit], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<_, _>>()?;
        let called = |device: Device| {
            let number = device.machine().to_string();
            if is_own(device) {
                own.name.clone()
            } else {
                names
                    .get(&number)
                    .filter(|name| !name.is_empty())
                    .cloned()
                    .unwrap_or(number)
            }
        };
        let mut conflicts = Vec::new();
        for (code, bytes) in found {
            let (kind, id) = (ledger::of_code(code)?, Uuid::from_bytes(bytes));
            let Some(known) = ledger::read(&self.connection, kind, id)?.filter(|known| !known.is_removed()) else {
                continue;
            };
            for (field, entries) in known.conflicts() {
                let mut sides = Vec::new();
                for entry in entries {
                    sides.push(Side {
                        device: called(entry.stamp.device),
                        is_own: is_own(entry.stamp.device),
                        value: self.telling(field, &entry.value)?,
                    });
                }
                conflicts.push(Conflict {
                    kind,
                    id,
                    name: import::name_of(kind, &known),
                    field: field.to_owned(),
                    sides,
                });
            }
        }
        Ok(conflicts)
    }

    /// A value as a person can read it: a reading instead of its id.
    fn telling(&self, field: &str, value: &Value) -> Result<Value, StoreError> {
        let id = value.as_str().filter(|_| field.starts_with("reading.")).map(str::parse);
        let Some(Ok(id)) = id else { return Ok(value.clone()) };
        let read = columns::read(&self.connection, Kind::Measurement, id)?;
        Ok(read.map_or(Value::Null, |mut values| {
            values.retain(|key, _| matches!(key.as_str(), "value" | "plus_minus" | "origin"));
            values.into_iter().collect::<serde_json::Map<_, _>>().into()
        }))
    }

    /// Settles a field with two values: the one at `side` of [`Conflict::sides`] holds from now on, here
    /// and wherever this is carried to.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] where it was settled meanwhile; [`StoreError::Unreadable`] where the
    /// value is not accepted, [`StoreError::OwnerGone`] where what it belongs to was removed;
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn resolve_conflict(&mut self, kind: Kind, id: Uuid, field: &str, side: usize) -> Result<(), StoreError> {
        let with = With {
            ledger: true,
            arrival: None,
        };
        self.edit_with(Op::Settle, with, |edit| {
            let connection = edit.transaction;
            let gone = StoreError::NotFound { what: "choice" };
            let mut known = ledger::read(connection, kind, id)?.ok_or(gone)?;
            let value = known
                .conflicts()
                .find(|(conflicting, _)| *conflicting == field)
                .and_then(|(_, entries)| entries.get(side))
                .map(|entry| entry.value.clone())
                .ok_or(StoreError::NotFound { what: "choice" })?;
            let row = kind.field(field).ok_or(StoreError::NotFound { what: "choice" })?;
            validate_value(row, field, &value).map_err(|reason| StoreError::Unreadable {
                what: format!("{} {id}, {field}", kind.word()),
                reason,
            })?;
            let mut own = ledger::own(connection)?;
            own.changes += 1;
            let stamp = own.next_stamp();
            known.write(stamp, field, value);
            if kind.field("edited_ms").is_some() {
                known.write(stamp, "edited_ms", Value::from(edit.now_ms));
            }
            ledger::write(connection, kind, id, &known, own.changes, false)?;
            ledger::keep(connection, &own)?;
            connection.execute("DELETE FROM temp.holding", [])?;
            let mut values = RowValues::of(&known);
            if let Some((owner, id)) = columns::needs(kind, &values)
                && !columns::is_here(connection, owner, id)?
            {
                return Err(StoreError::OwnerGone { what: owner.word() });
            }
            columns::leave_out_gone(connection, kind, &mut values)?;
            columns::write(connection, kind, id, &values, ExistingRow::Unknown)?;
            validate_record(connection, kind, id)
        })
    }
}
