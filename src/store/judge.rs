//! Whether what arrived makes up records that the program can read, within their ranges.

use rusqlite::Connection;
use serde_json::Value;
use uuid::Uuid;

use super::arrive::Arriving;
use super::columns::{Before, Saying};
use super::error::{StoreError, damaged};
use super::{columns, cores, designs, donors, jobs, ledger};
use crate::job::{Check, CoreId, DesignId, DonorId, JobId, StockWire};
use crate::merge::Kind;

impl Arriving<'_> {
    /// Reads every record that the arrival touched as the program reads it, and judges it.
    pub(super) fn judge(&mut self) -> Result<(), StoreError> {
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
                if judge_one(self.connection, kind, id).is_err() {
                    self.repair_readings(kind, id)?;
                    judge_one(self.connection, kind, id)?;
                }
            }
        }
    }

    /// Where the reading that should hold was removed on another device, the other one holds.
    fn repair_readings(&self, kind: Kind, id: Uuid) -> Result<(), StoreError> {
        let Some(known) = ledger::read(self.connection, kind, id)? else {
            return Ok(());
        };
        let mut values = Saying::of(&known);
        for (field, entries) in known.forks().filter(|(field, _)| field.starts_with("reading.")) {
            for entry in entries {
                let reading = entry.value.as_str().and_then(|text| text.parse().ok());
                if let Some(reading) = reading
                    && columns::is_here(self.connection, Kind::Measurement, reading)?
                {
                    values.but(field, Some(&entry.value));
                }
            }
        }
        columns::write(self.connection, kind, id, &values, Before::Perhaps)
    }
}

fn judge_one(connection: &Connection, kind: Kind, id: Uuid) -> Result<(), StoreError> {
    let judged = match kind {
        Kind::Donor => donors::read(connection, DonorId(id)).and_then(|donor| Ok(donor.body.check()?)),
        Kind::Core => cores::read(connection, CoreId(id)).and_then(|core| Ok(core.body.check()?)),
        Kind::Job => jobs::read(connection, JobId(id)).and_then(|job| Ok(job.body.check()?)),
        Kind::Design => designs::read(connection, DesignId(id)).and_then(|design| Ok(design.body.check()?)),
        Kind::Stock => stock(connection, id).and_then(|wire| Ok(wire.check()?)),
        _ => Ok(()),
    };
    judged.map_err(|error| match error {
        StoreError::Damaged { detail } => StoreError::Unreadable {
            what: format!("{} {id}", kind.word()),
            reason: detail,
        },
        StoreError::Field(field) => StoreError::Unreadable {
            what: format!("{} {id}", kind.word()),
            reason: field.to_string(),
        },
        other => other,
    })
}

fn stock(connection: &Connection, id: Uuid) -> Result<StockWire, StoreError> {
    let values = columns::read(connection, Kind::Stock, id)?.ok_or(StoreError::NotFound { what: "wire" })?;
    let number = |key: &str| values.get(key).and_then(Value::as_f64);
    Ok(StockWire {
        conductor: values
            .get("conductor")
            .and_then(Value::as_str)
            .ok_or_else(|| damaged("stock", "it has no conductor"))?
            .to_owned(),
        length_m: number("length_m").ok_or_else(|| damaged("stock", "it has no length"))?,
        price_per_m: number("price_per_m"),
    })
}
