//! Values read, with their history. The readings of donors, cores and outlets live here too:
//! the current row of each field is what the record holds.

use rusqlite::{Connection, Row};
use uuid::Uuid;

use super::edit::Edit;
use super::error::{StoreError, damaged};
use super::open::Store;
use super::records::read;
use super::rows::{self, blob};
use crate::job::fields::{self, Field, FieldError, Shape};
use crate::job::{LeafReading, Measurement, MeasurementId, Meta, Owner, Reading, Record, check_text};

/// Value, ± and the origin's word, as the row has them.
type Parts = (f64, f64, String);

/// The column that holds an owner, its id, and its root in a job file.
pub(super) fn owner_column(owner: Owner) -> (&'static str, Uuid, &'static str) {
    match owner {
        Owner::Donor(id) => ("donor_id", id.0, "donor"),
        Owner::Core(id) => ("core_id", id.0, "core"),
        Owner::Job(id) => ("job_id", id.0, "mains"),
        Owner::Design(id) => ("design_id", id.0, "design"),
    }
}

/// The table's row for a field of the owner's record, if it is one.
fn record_field(owner: Owner, field: &str) -> Option<&'static Field> {
    let (_, _, root) = owner_column(owner);
    fields::find(&format!("{root}.{field}")).filter(|found| found.shape == Shape::Reading)
}

fn reading(row: &Row<'_>) -> rusqlite::Result<Parts> {
    Ok((row.get("value")?, row.get("plus_minus")?, row.get("origin")?))
}

fn whole((value, plus_minus, origin): Parts) -> Result<Reading, StoreError> {
    Reading::from_parts(value, plus_minus, &origin).ok_or_else(|| damaged("measurement", "its origin is not known"))
}

/// The current readings of an owner's record, by field.
pub(super) fn current(connection: &Connection, owner: Owner) -> Result<Vec<LeafReading>, StoreError> {
    let (column, id, _) = owner_column(owner);
    let mut rows: Vec<(String, [u8; 16], Parts)> = connection
        .prepare_cached(&format!(
            "SELECT field, id, value, plus_minus, origin FROM measurement WHERE {column} = ?1 AND is_current = 1"
        ))?
        .query_map([blob(id)], |row| Ok((row.get("field")?, row.get("id")?, reading(row)?)))?
        .collect::<Result<_, _>>()?;
    // Some twenty rows: SQLite's sorting costs more than reading them.
    rows.sort_by(|(field, id, _), (other, other_id, _)| (field, id).cmp(&(other, other_id)));
    rows.into_iter()
        .filter(|(field, ..)| record_field(owner, field).is_some())
        .map(|(field, _, parts)| {
            Ok(LeafReading {
                field,
                reading: whole(parts)?,
            })
        })
        .collect()
}

impl Edit<'_> {
    /// Writes the readings of a record: those that changed become current, those that
    /// are gone stay in the history only.
    pub(super) fn save_readings(&self, owner: Owner, new: &[LeafReading]) -> Result<(), StoreError> {
        let old = current(self.transaction, owner)?;
        for leaf in old.iter().filter(|leaf| !new.contains(leaf)) {
            self.supersede(owner, &leaf.field)?;
        }
        for leaf in new.iter().filter(|leaf| !old.contains(leaf)) {
            self.write_measurement(owner, &leaf.field, leaf.reading)?;
        }
        Ok(())
    }

    fn supersede(&self, owner: Owner, field: &str) -> Result<(), StoreError> {
        let (column, id, _) = owner_column(owner);
        self.transaction.execute(
            &format!("UPDATE measurement SET is_current = 0 WHERE {column} = ?1 AND field = ?2 AND is_current = 1"),
            (blob(id), field),
        )?;
        Ok(())
    }

    fn write_measurement(&self, owner: Owner, field: &str, reading: Reading) -> Result<MeasurementId, StoreError> {
        let (column, owner_id, _) = owner_column(owner);
        let id = self.new_id();
        self.transaction.execute(
            &format!(
                "INSERT INTO measurement (id, {column}, field, value, plus_minus, origin, is_current, created_ms)
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, 1, ?7)"
            ),
            (
                blob(id),
                blob(owner_id),
                field,
                reading.value,
                reading.plus_minus,
                reading.origin.word(),
                self.now_ms,
            ),
        )?;
        Ok(MeasurementId(id))
    }

    /// Adds a measurement; it becomes the current one of its field. For a field of the owner's
    /// record (such as `tongue_mm` of a core) the record changes with it, and its revision.
    /// Any other field, such as a bench result of a design, is kept beside the record.
    ///
    /// # Errors
    /// [`StoreError::NotFound`] without the owner; [`StoreError::Field`] for a number out of the
    /// table's range, not finite, or a ± below zero; [`StoreError::Incomplete`] for a field that
    /// only counts together with others that are not there yet.
    pub fn add_measurement(&self, measurement: &Measurement) -> Result<MeasurementId, StoreError> {
        let Measurement { owner, field, reading } = measurement;
        match record_field(*owner, field) {
            Some(row) => row.check(row.path, reading.value, reading.plus_minus)?,
            None => check_free(field, *reading)?,
        }
        self.touch(*owner)?;
        self.supersede(*owner, field)?;
        let id = self.write_measurement(*owner, field, *reading)?;
        let readable = match *owner {
            Owner::Donor(id) => read(self.transaction, id).map(|_| ()),
            Owner::Core(id) => read(self.transaction, id).map(|_| ()),
            Owner::Job(id) => read(self.transaction, id).map(|_| ()),
            Owner::Design(_) => Ok(()),
        };
        match readable {
            Err(StoreError::Damaged { .. }) => Err(StoreError::Incomplete { field: field.clone() }),
            other => other.map(|()| id),
        }
    }

    /// Counts a change of an owner that is made beside its own row.
    fn touch(&self, owner: Owner) -> Result<(), StoreError> {
        let (table, id) = match owner {
            Owner::Donor(id) => ("donor", id.0),
            Owner::Core(id) => ("core", id.0),
            Owner::Job(id) => ("job", id.0),
            Owner::Design(id) => ("design", id.0),
        };
        let changed = self.transaction.execute(
            &format!("UPDATE {table} SET edited_ms = ?2, revision = revision + 1 WHERE id = ?1"),
            (blob(id), self.now_ms),
        )?;
        match changed {
            0 => Err(StoreError::NotFound { what: table }),
            _ => Ok(()),
        }
    }
}

/// Checks a measurement that has no row in the field table.
fn check_free(field: &str, reading: Reading) -> Result<(), StoreError> {
    let path = || field.to_owned();
    let (min, max, unit) = (f64::MIN, f64::MAX, "");
    check_text("field", field, 80, true)?;
    if !reading.value.is_finite() {
        return Err(FieldError::NotFinite {
            path: path(),
            min,
            max,
            unit,
        }
        .into());
    }
    if !(reading.plus_minus >= 0.0 && reading.plus_minus.is_finite()) {
        return Err(FieldError::BadSpread {
            path: path(),
            plus_minus: reading.plus_minus,
            widest: max,
            unit,
        }
        .into());
    }
    Ok(())
}

impl Store {
    /// All measurements of an owner, or of one of its fields, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn measurements(
        &self,
        owner: Owner,
        field: Option<&str>,
    ) -> Result<Vec<Record<MeasurementId, Measurement>>, StoreError> {
        let (column, id, _) = owner_column(owner);
        let rows = self
            .connection
            .prepare_cached(&format!(
                "SELECT id, field, value, plus_minus, origin, created_ms FROM measurement
                 WHERE {column} = ?1 AND (?2 IS NULL OR field = ?2) ORDER BY created_ms, id"
            ))?
            .query_map((blob(id), field), |row| {
                let (id, field): (_, String) = (rows::id(row, "id")?, row.get("field")?);
                Ok((id, field, row.get::<_, i64>("created_ms")?, reading(row)?))
            })?
            .collect::<Result<Vec<_>, _>>()?;
        rows.into_iter()
            .map(|(id, field, created_ms, parts)| {
                Ok(Record {
                    meta: Meta::new(MeasurementId(id), created_ms),
                    body: Measurement {
                        owner,
                        field,
                        reading: whole(parts)?,
                    },
                })
            })
            .collect()
    }
}
