//! Cores.

use rusqlite::{Connection, OptionalExtension};
use serde_json::json;

use super::edit::Edit;
use super::error::{StoreError, damaged};
use super::measurements;
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{Check, CoreId, DonorId, Owner, Record, ShelfCore};

/// A core by its id.
pub(super) fn read(connection: &Connection, id: CoreId) -> Result<Record<CoreId, ShelfCore>, StoreError> {
    let (meta, donor, mut core) = connection
        .prepare_cached(
            "SELECT donor_id, shunts_kept, primary_metal, rated_volts, rated_hertz, created_ms, edited_ms, revision
             FROM core WHERE id = ?1",
        )?
        .query_row([blob(id.0)], |row| {
            let donor = row.get::<_, Option<[u8; 16]>>("donor_id")?;
            let core = json!({
                "shunts_kept": row.get::<_, bool>("shunts_kept")?,
                "primary": {
                    "metal": row.get::<_, String>("primary_metal")?,
                    "rated_volts": row.get::<_, f64>("rated_volts")?,
                    "rated_hertz": row.get::<_, u32>("rated_hertz")?,
                },
            });
            Ok((rows::meta(id, row)?, donor, core))
        })
        .optional()?
        .ok_or(StoreError::NotFound { what: "core" })?;
    measurements::fill(connection, Owner::Core(id), &mut core)?;
    Ok(Record {
        meta,
        body: ShelfCore {
            donor: donor.map(|bytes| DonorId(uuid::Uuid::from_bytes(bytes))),
            core: serde_json::from_value(core).map_err(|e| damaged("core", e))?,
        },
    })
}

impl Edit<'_> {
    /// Adds a core.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a number that is not accepted; [`StoreError::NotFound`] for a
    /// donor that is not there.
    pub fn insert_core(&self, shelf: &ShelfCore) -> Result<CoreId, StoreError> {
        shelf.check()?;
        self.donor_exists(shelf)?;
        let id = CoreId(self.new_id());
        let primary = &shelf.core.primary;
        self.transaction.execute(
            "INSERT INTO core (id, donor_id, shunts_kept, primary_metal, rated_volts, rated_hertz,
                 created_ms, edited_ms, revision)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?7, 1)",
            (
                blob(id.0),
                shelf.donor.map(|donor| blob(donor.0)),
                shelf.core.shunts_kept,
                rows::word(&primary.metal)?,
                primary.rated_volts,
                primary.rated_hertz,
                self.now_ms,
            ),
        )?;
        self.save_readings(Owner::Core(id), &shelf.core)?;
        Ok(id)
    }

    /// Changes a core that has this revision, and gives its new revision.
    ///
    /// # Errors
    /// As [`Edit::insert_core`]; [`StoreError::NotFound`]; [`StoreError::StaleRevision`].
    pub fn update_core(&self, id: CoreId, revision: u32, shelf: &ShelfCore) -> Result<u32, StoreError> {
        shelf.check()?;
        self.donor_exists(shelf)?;
        let next = rows::next_revision(self.transaction, "core", id.0, revision)?;
        let primary = &shelf.core.primary;
        self.transaction.execute(
            "UPDATE core SET donor_id = ?2, shunts_kept = ?3, primary_metal = ?4, rated_volts = ?5,
                 rated_hertz = ?6, edited_ms = ?7, revision = ?8
             WHERE id = ?1",
            (
                blob(id.0),
                shelf.donor.map(|donor| blob(donor.0)),
                shelf.core.shunts_kept,
                rows::word(&primary.metal)?,
                primary.rated_volts,
                primary.rated_hertz,
                self.now_ms,
                next,
            ),
        )?;
        self.save_readings(Owner::Core(id), &shelf.core)?;
        Ok(next)
    }

    /// Deletes a core with its notes and measurements.
    ///
    /// # Errors
    /// [`StoreError::CoreInUse`] while jobs use it; [`StoreError::NotFound`].
    pub fn delete_core(&self, id: CoreId) -> Result<(), StoreError> {
        let jobs: u32 =
            self.transaction
                .query_row("SELECT count(*) FROM job WHERE core_id = ?1", [blob(id.0)], |row| {
                    row.get(0)
                })?;
        if jobs > 0 {
            return Err(StoreError::CoreInUse { jobs });
        }
        rows::delete(self.transaction, "core", id.0)
    }

    fn donor_exists(&self, shelf: &ShelfCore) -> Result<(), StoreError> {
        shelf
            .donor
            .map_or(Ok(()), |donor| rows::exists(self.transaction, "donor", donor.0))
    }
}

impl Store {
    /// A core by its id.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn core(&self, id: CoreId) -> Result<Record<CoreId, ShelfCore>, StoreError> {
        read(&self.connection, id)
    }

    /// All cores, newest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn cores(&self) -> Result<Vec<Record<CoreId, ShelfCore>>, StoreError> {
        rows::ids(
            &self.connection,
            "SELECT id FROM core ORDER BY created_ms DESC, id DESC",
            [],
        )?
        .into_iter()
        .map(|id| self.core(CoreId(id)))
        .collect()
    }
}
