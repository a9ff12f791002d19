//! Wires on the shelf.

use super::edit::Edit;
use super::error::StoreError;
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{Check, Record, StockId, StockWire};

impl Edit<'_> {
    /// Adds a wire.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a number or text that is not accepted.
    pub fn insert_stock(&self, wire: &StockWire) -> Result<StockId, StoreError> {
        wire.check()?;
        let id = StockId(self.new_id());
        self.transaction.execute(
            "INSERT INTO stock (id, conductor, length_m, price_per_m, created_ms, edited_ms, revision)
             VALUES (?1, ?2, ?3, ?4, ?5, ?5, 1)",
            (
                blob(id.0),
                &wire.conductor,
                wire.length_m,
                wire.price_per_m,
                self.now_ms,
            ),
        )?;
        Ok(id)
    }

    /// Changes a wire that has this revision, and gives its new revision.
    ///
    /// # Errors
    /// As [`Edit::insert_stock`]; [`StoreError::NotFound`]; [`StoreError::StaleRevision`].
    pub fn update_stock(&self, id: StockId, revision: u32, wire: &StockWire) -> Result<u32, StoreError> {
        wire.check()?;
        let next = rows::next_revision(self.transaction, "stock", id.0, revision)?;
        self.transaction.execute(
            "UPDATE stock SET conductor = ?2, length_m = ?3, price_per_m = ?4, edited_ms = ?5, revision = ?6
             WHERE id = ?1",
            (
                blob(id.0),
                &wire.conductor,
                wire.length_m,
                wire.price_per_m,
                self.now_ms,
                next,
            ),
        )?;
        Ok(next)
    }

    /// Deletes a wire.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn delete_stock(&self, id: StockId) -> Result<(), StoreError> {
        rows::delete(self.transaction, "stock", id.0)
    }
}

impl Store {
    /// All wires on the shelf, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn stock(&self) -> Result<Vec<Record<StockId, StockWire>>, StoreError> {
        Ok(self
            .connection
            .prepare_cached(
                "SELECT id, conductor, length_m, price_per_m, created_ms, edited_ms, revision FROM stock
                 ORDER BY created_ms, id",
            )?
            .query_map([], |row| {
                Ok(Record {
                    meta: rows::meta(StockId(rows::id(row, "id")?), row)?,
                    body: StockWire {
                        conductor: row.get("conductor")?,
                        length_m: row.get("length_m")?,
                        price_per_m: row.get("price_per_m")?,
                    },
                })
            })?
            .collect::<Result<_, _>>()?)
    }
}
