//! The list of jobs.

use rusqlite::Row;

use super::error::StoreError;
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{DonorId, JobId};

/// What a list of jobs shows of each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobSummary {
    /// Which job.
    pub id: JobId,
    /// What the person calls it.
    pub name: String,
    /// The word of its use, such as `spot_welder`.
    pub goal_use: String,
    /// When it was last changed, in milliseconds since 1970-01-01 UTC.
    pub edited_ms: i64,
}

impl JobSummary {
    /// Out of a row with its columns.
    pub(super) fn of(row: &Row<'_>) -> rusqlite::Result<Self> {
        Ok(Self {
            id: JobId(rows::id(row, "id")?),
            name: row.get("name")?,
            goal_use: row.get("goal_use")?,
            edited_ms: row.get("edited_ms")?,
        })
    }

    /// The place in the list after this job.
    #[must_use]
    pub fn cursor(&self) -> Cursor {
        Cursor {
            edited_ms: self.edited_ms,
            id: self.id,
        }
    }
}

/// A place in the list of jobs; see [`JobSummary::cursor`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cursor {
    edited_ms: i64,
    id: JobId,
}

impl Store {
    /// How many jobs there are.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn job_count(&self) -> Result<u32, StoreError> {
        Ok(self
            .connection
            .query_row("SELECT count(*) FROM job", [], |row| row.get(0))?)
    }

    /// Up to `limit` jobs, the last changed first, after a place in the list (from its start for
    /// none). Reads the index alone.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn job_summaries(&self, limit: u32, after: Option<Cursor>) -> Result<Vec<JobSummary>, StoreError> {
        let (edited_ms, id) = after.map_or((i64::MAX, [0xff; 16]), |at| (at.edited_ms, blob(at.id.0)));
        Ok(self
            .connection
            .prepare_cached(
                "SELECT id, name, goal_use, edited_ms FROM job
                 WHERE (edited_ms, id) < (?1, ?2) ORDER BY edited_ms DESC, id DESC LIMIT ?3",
            )?
            .query_map((edited_ms, id, limit), JobSummary::of)?
            .collect::<Result<_, _>>()?)
    }

    /// The jobs whose core came from a donor, the last changed first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn jobs_from(&self, donor: DonorId) -> Result<Vec<JobId>, StoreError> {
        let found = rows::ids(
            &self.connection,
            "SELECT job.id FROM job JOIN core ON core.id = job.core_id
             WHERE core.donor_id = ?1 ORDER BY job.edited_ms DESC, job.id DESC",
            [blob(donor.0)],
        )?;
        Ok(found.into_iter().map(JobId).collect())
    }

    /// The donor that a job's core came from, if it is known.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn donor_of(&self, job: JobId) -> Result<Option<DonorId>, StoreError> {
        Ok(self.core(self.job(job)?.body.core)?.body.donor)
    }
}
