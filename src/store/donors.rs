//! Donors.

use rusqlite::{Connection, OptionalExtension};
use serde_json::json;

use super::edit::Edit;
use super::error::{StoreError, damaged};
use super::measurements;
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{Check, Donor, DonorId, Owner, Record};

/// A donor by its id.
pub(super) fn read(connection: &Connection, id: DonorId) -> Result<Record<DonorId, Donor>, StoreError> {
    let (meta, mut donor) = connection
        .prepare_cached("SELECT name, hertz, look, notes, created_ms, edited_ms, revision FROM donor WHERE id = ?1")?
        .query_row([blob(id.0)], |row| {
            let mut donor = json!({ "name": row.get::<_, String>("name")?, "notes": row.get::<_, String>("notes")? });
            donor["look"] = serde_json::from_str(&row.get::<_, String>("look")?).unwrap_or_default();
            if let Some(hertz) = row.get::<_, Option<u32>>("hertz")? {
                donor["hertz"] = json!(hertz);
            }
            Ok((rows::meta(id, row)?, donor))
        })
        .optional()?
        .ok_or(StoreError::NotFound { what: "donor" })?;
    measurements::fill(connection, Owner::Donor(id), &mut donor)?;
    let body = serde_json::from_value(donor).map_err(|e| damaged("donor", e))?;
    Ok(Record { meta, body })
}

impl Edit<'_> {
    /// Adds a donor.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a number or text that is not accepted.
    pub fn insert_donor(&self, donor: &Donor) -> Result<DonorId, StoreError> {
        donor.check()?;
        let id = DonorId(self.new_id());
        self.transaction.execute(
            "INSERT INTO donor (id, name, hertz, look, notes, created_ms, edited_ms, revision)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?6, 1)",
            (
                blob(id.0),
                &donor.name,
                donor.hertz,
                rows::to_json(&donor.look)?,
                &donor.notes,
                self.now_ms,
            ),
        )?;
        self.save_readings(Owner::Donor(id), donor)?;
        Ok(id)
    }

    /// Changes a donor that has this revision, and gives its new revision.
    ///
    /// # Errors
    /// As [`Edit::insert_donor`]; [`StoreError::NotFound`]; [`StoreError::StaleRevision`].
    pub fn update_donor(&self, id: DonorId, revision: u32, donor: &Donor) -> Result<u32, StoreError> {
        donor.check()?;
        let next = rows::next_revision(self.transaction, "donor", id.0, revision)?;
        self.transaction.execute(
            "UPDATE donor SET name = ?2, hertz = ?3, look = ?4, notes = ?5, edited_ms = ?6, revision = ?7 WHERE id = ?1",
            (
                blob(id.0),
                &donor.name,
                donor.hertz,
                rows::to_json(&donor.look)?,
                &donor.notes,
                self.now_ms,
                next,
            ),
        )?;
        self.save_readings(Owner::Donor(id), donor)?;
        Ok(next)
    }

    /// Deletes a donor with its notes; cores that came from it stay.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn delete_donor(&self, id: DonorId) -> Result<(), StoreError> {
        rows::delete(self.transaction, "donor", id.0)
    }
}

impl Store {
    /// A donor by its id.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn donor(&self, id: DonorId) -> Result<Record<DonorId, Donor>, StoreError> {
        read(&self.connection, id)
    }

    /// All donors, newest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn donors(&self) -> Result<Vec<Record<DonorId, Donor>>, StoreError> {
        rows::ids(
            &self.connection,
            "SELECT id FROM donor ORDER BY created_ms DESC, id DESC",
            [],
        )?
        .into_iter()
        .map(|id| self.donor(DonorId(id)))
        .collect()
    }
}
