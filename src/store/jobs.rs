//! Jobs, and the list of them.

use rusqlite::{Connection, OptionalExtension, Row};
use serde_json::json;

use super::edit::Edit;
use super::error::{StoreError, damaged};
use super::measurements;
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{Check, CoreId, DonorId, Job, JobId, Owner, Record};

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

/// A job by its id.
pub(super) fn read(connection: &Connection, id: JobId) -> Result<Record<JobId, Job>, StoreError> {
    let (meta, core, mut mains, name, goal, conditions, choice, note) = connection
        .prepare_cached(
            "SELECT name, core_id, mains_hertz, breaker_a, plug, goal, conditions, choice, note, created_ms, edited_ms, revision
             FROM job WHERE id = ?1",
        )?
        .query_row([blob(id.0)], |row| {
            let mains = json!({
                "hertz": row.get::<_, u32>("mains_hertz")?,
                "circuit": { "breaker_a": row.get::<_, f64>("breaker_a")?, "plug": row.get::<_, String>("plug")? },
            });
            Ok((
                rows::meta(id, row)?,
                CoreId(rows::id(row, "core_id")?),
                mains,
                row.get("name")?,
                row.get::<_, String>("goal")?,
                row.get::<_, String>("conditions")?,
                row.get::<_, Option<String>>("choice")?,
                row.get("note")?,
            ))
        })
        .optional()?
        .ok_or(StoreError::NotFound { what: "job" })?;
    measurements::fill(connection, Owner::Job(id), &mut mains)?;
    Ok(Record {
        meta,
        body: Job {
            name,
            core,
            mains: serde_json::from_value(mains).map_err(|e| damaged("mains", e))?,
            goal: rows::from_json("goal", &goal)?,
            conditions: rows::from_json("conditions", &conditions)?,
            choice: choice.map(|text| rows::from_json("choice", &text)).transpose()?,
            note,
        },
    })
}

impl Edit<'_> {
    /// Adds a job.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a number or text that is not accepted; [`StoreError::NotFound`]
    /// for a core that is not there.
    pub fn insert_job(&self, job: &Job) -> Result<JobId, StoreError> {
        job.check()?;
        rows::exists(self.transaction, "core", job.core.0)?;
        let id = JobId(self.new_id());
        self.transaction.execute(
            "INSERT INTO job (id, name, core_id, mains_hertz, breaker_a, plug, goal_use, goal, conditions, choice, note,
                 created_ms, edited_ms, revision)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?12, 1)",
            (
                blob(id.0),
                &job.name,
                blob(job.core.0),
                job.mains.hertz,
                job.mains.circuit.breaker_a,
                &job.mains.circuit.plug,
                job.goal.word(),
                rows::to_json(&job.goal)?,
                rows::to_json(&job.conditions)?,
                job.choice.as_ref().map(rows::to_json).transpose()?,
                &job.note,
                self.now_ms,
            ),
        )?;
        self.save_readings(Owner::Job(id), &job.mains)?;
        Ok(id)
    }

    /// Changes a job that has this revision, and gives its new revision.
    ///
    /// # Errors
    /// As [`Edit::insert_job`]; [`StoreError::NotFound`]; [`StoreError::StaleRevision`].
    pub fn update_job(&self, id: JobId, revision: u32, job: &Job) -> Result<u32, StoreError> {
        job.check()?;
        rows::exists(self.transaction, "core", job.core.0)?;
        let next = rows::next_revision(self.transaction, "job", id.0, revision)?;
        self.transaction.execute(
            "UPDATE job SET name = ?2, core_id = ?3, mains_hertz = ?4, breaker_a = ?5, plug = ?6, goal_use = ?7,
                 goal = ?8, conditions = ?9, choice = ?10, note = ?11, edited_ms = ?12, revision = ?13
             WHERE id = ?1",
            (
                blob(id.0),
                &job.name,
                blob(job.core.0),
                job.mains.hertz,
                job.mains.circuit.breaker_a,
                &job.mains.circuit.plug,
                job.goal.word(),
                rows::to_json(&job.goal)?,
                rows::to_json(&job.conditions)?,
                job.choice.as_ref().map(rows::to_json).transpose()?,
                &job.note,
                self.now_ms,
                next,
            ),
        )?;
        self.save_readings(Owner::Job(id), &job.mains)?;
        Ok(next)
    }

    /// Deletes a job with its designs, notes and measurements; its core stays.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn delete_job(&self, id: JobId) -> Result<(), StoreError> {
        rows::delete(self.transaction, "job", id.0)
    }
}

impl Store {
    /// A job by its id.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn job(&self, id: JobId) -> Result<Record<JobId, Job>, StoreError> {
        read(&self.connection, id)
    }

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
