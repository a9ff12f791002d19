//! Designs kept for comparison.

use rusqlite::{Connection, OptionalExtension};

use super::edit::Edit;
use super::error::StoreError;
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{Check, Design, DesignId, JobId, Record};

/// A design by its id.
pub(super) fn read(connection: &Connection, id: DesignId) -> Result<Record<DesignId, Design>, StoreError> {
    let (meta, job, name, choice, note) = connection
        .prepare_cached("SELECT job_id, name, choice, note, created_ms, edited_ms, revision FROM design WHERE id = ?1")?
        .query_row([blob(id.0)], |row| {
            Ok((
                rows::meta(id, row)?,
                JobId(rows::id(row, "job_id")?),
                row.get("name")?,
                row.get::<_, String>("choice")?,
                row.get("note")?,
            ))
        })
        .optional()?
        .ok_or(StoreError::NotFound { what: "design" })?;
    let choice = rows::from_json("choice", &choice)?;
    Ok(Record {
        meta,
        body: Design {
            job,
            name,
            choice,
            note,
        },
    })
}

impl Edit<'_> {
    /// Adds a design to a job.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a number or text that is not accepted; [`StoreError::NotFound`]
    /// for a job that is not there.
    pub fn insert_design(&self, design: &Design) -> Result<DesignId, StoreError> {
        design.check()?;
        rows::exists(self.transaction, "job", design.job.0)?;
        let id = DesignId(self.new_id());
        self.transaction.execute(
            "INSERT INTO design (id, job_id, name, choice, note, created_ms, edited_ms, revision)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?6, 1)",
            (
                blob(id.0),
                blob(design.job.0),
                &design.name,
                rows::to_json(&design.choice)?,
                &design.note,
                self.now_ms,
            ),
        )?;
        Ok(id)
    }

    /// Changes a design that has this revision, and gives its new revision.
    ///
    /// # Errors
    /// As [`Edit::insert_design`]; [`StoreError::NotFound`]; [`StoreError::StaleRevision`].
    pub fn update_design(&self, id: DesignId, revision: u32, design: &Design) -> Result<u32, StoreError> {
        design.check()?;
        rows::exists(self.transaction, "job", design.job.0)?;
        let next = rows::next_revision(self.transaction, "design", id.0, revision)?;
        self.transaction.execute(
            "UPDATE design SET job_id = ?2, name = ?3, choice = ?4, note = ?5, edited_ms = ?6, revision = ?7
             WHERE id = ?1",
            (
                blob(id.0),
                blob(design.job.0),
                &design.name,
                rows::to_json(&design.choice)?,
                &design.note,
                self.now_ms,
                next,
            ),
        )?;
        Ok(next)
    }

    /// Deletes a design with its notes and measurements.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn delete_design(&self, id: DesignId) -> Result<(), StoreError> {
        rows::delete(self.transaction, "design", id.0)
    }
}

impl Store {
    /// A design by its id.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn design(&self, id: DesignId) -> Result<Record<DesignId, Design>, StoreError> {
        read(&self.connection, id)
    }

    /// The designs of a job, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn designs_of(&self, job: JobId) -> Result<Vec<Record<DesignId, Design>>, StoreError> {
        rows::ids(
            &self.connection,
            "SELECT id FROM design WHERE job_id = ?1 ORDER BY created_ms, id",
            [blob(job.0)],
        )?
        .into_iter()
        .map(|id| self.design(DesignId(id)))
        .collect()
    }
}
