//! Histories of teardown and bench, line by line. They are no part of undo: nothing but living
//! through a history again decides where it stands.

use rusqlite::{Connection, OptionalExtension};

use super::edit::Edit;
use super::error::StoreError;
use super::op::Op;
use super::open::Store;
use super::rows::{self, blob};
use super::{histories, ids, undo};
use crate::job::{DonorId, JobId, RunId, check_text};
use crate::merge::{Kind, LONGEST_HISTORY, LONGEST_LINE, validate_value};

/// A history that lines are added to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum History {
    /// The teardown of a donor.
    Teardown(DonorId),
    /// A winding or a run of bench tests.
    Job(RunId),
}

/// A procedure that belongs to a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JobProcedure {
    /// The winding.
    Wind,
    /// The winding of the second core of a pair.
    WindSecond,
    /// The bench tests.
    Bench,
}

impl JobProcedure {
    /// The word that is stored.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            JobProcedure::Wind => "wind",
            JobProcedure::WindSecond => "wind-second",
            JobProcedure::Bench => "bench",
        }
    }
}

/// One winding, or one run of the bench tests, of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JobRun {
    /// Which run.
    pub id: RunId,
    /// What was fixed when it began, as JSON.
    pub plan: String,
    /// When it began, in milliseconds since 1970-01-01 UTC.
    pub created_ms: i64,
    /// What happened, oldest first.
    pub lines: Vec<String>,
}

impl Store {
    /// What happened in a donor's teardown, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn teardown_lines(&self, donor: DonorId) -> Result<Vec<String>, StoreError> {
        histories::teardown_lines(&self.connection, donor.0)
    }

    /// The newest run of one of a job's procedures, if there is one.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn job_run(&self, job: JobId, procedure: JobProcedure) -> Result<Option<JobRun>, StoreError> {
        let found = self
            .connection
            .prepare_cached(
                "SELECT id, plan, created_ms FROM job_run WHERE job_id = ?1 AND procedure = ?2
                 ORDER BY created_ms DESC, id DESC LIMIT 1",
            )?
            .query_row((blob(job.0), procedure.word()), |row| {
                Ok((rows::id(row, "id")?, row.get("plan")?, row.get("created_ms")?))
            })
            .optional()?;
        let Some((id, plan, created_ms)) = found else {
            return Ok(None);
        };
        Ok(Some(JobRun {
            id: RunId(id),
            plan,
            created_ms,
            lines: histories::job_run_lines(&self.connection, id)?,
        }))
    }

    /// The jobs with a run of one of their procedures.
    ///
    /// # Errors
    /// [`StoreError::Disk`] and the like if the data file fails.
    pub fn jobs_with_runs(&self) -> Result<Vec<JobId>, StoreError> {
        let mut query = self
            .connection
            .prepare_cached("SELECT DISTINCT job_id FROM job_run ORDER BY job_id")?;
        let found = query.query_map([], |row| Ok(JobId(rows::id(row, "job_id")?)))?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// Begins a run of one of a job's procedures. Earlier runs stay.
    ///
    /// # Errors
    /// [`StoreError::NotFound`]; [`StoreError::Disk`] and the like if the data file fails.
    pub fn begin_job_run(&mut self, job: JobId, procedure: JobProcedure, plan: &str) -> Result<RunId, StoreError> {
        let row = Kind::JobRun
            .field("plan")
            .ok_or(StoreError::NotFound { what: "plan" })?;
        validate_value(row, "plan", &rows::from_json("plan", plan)?).map_err(|reason| StoreError::Unreadable {
            what: "plan".to_owned(),
            reason,
        })?;
        let now_ms = self.now_ms();
        let id = ids::new_id(now_ms);
        self.write(|connection| {
            rows::exists(connection, "job", job.0)?;
            connection.execute(
                "INSERT INTO job_run (id, job_id, procedure, plan, created_ms) VALUES (?1, ?2, ?3, ?4, ?5)",
                (blob(id), blob(job.0), procedure.word(), plan, now_ms),
            )?;
            Ok(RunId(id))
        })
    }

    /// Adds one line to a history; it is on the disk when this returns.
    ///
    /// # Errors
    /// [`StoreError::NotFound`]; [`StoreError::HistoryFull`]; [`StoreError::Disk`] and the like if the data
    /// file fails.
    pub fn add_line(&mut self, to: History, line: &str) -> Result<(), StoreError> {
        self.write(|connection| add_line(connection, to, line))
    }

    /// Changes records and adds the line of a history that says so, all or nothing; as an operation that can
    /// be undone where `op` names it, which leaves the line.
    ///
    /// # Errors
    /// The error of `work`; as [`Store::add_line`].
    pub fn add_line_with<E: From<StoreError>>(
        &mut self,
        to: History,
        op: Option<Op>,
        work: impl FnOnce(&Edit<'_>) -> Result<String, E>,
    ) -> Result<(), E> {
        let now_ms = self.now_ms();
        self.write(|transaction| {
            let begun = op.map(|op| undo::begin(transaction, op, undo::With::default()));
            let operation = begun.transpose()?;
            let line = work(&Edit::new(transaction, now_ms))?;
            if let Some(operation) = operation {
                undo::end(transaction, operation)?;
            }
            Ok(add_line(transaction, to, &line)?)
        })
    }

    /// Whether the data lie where they were last written, and are not a copy from another device
    /// or an earlier day.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn is_at_home(&self) -> Result<bool, StoreError> {
        let home: String = self
            .connection
            .query_row("SELECT home FROM own", [], |row| row.get(0))?;
        Ok(!self.was_put_back() && self.home().is_none_or(|here| here == home))
    }

    /// Settles data that came as a copy: every teardown and every run gets `line`, which says so,
    /// the device gets a new number, and what was done before can't be taken back, since that
    /// could bring a history back without its line.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn adopt_copy(&mut self, line: &str) -> Result<(), StoreError> {
        let home = self.home();
        let settled = self.write(|connection| {
            connection.execute(
                "INSERT INTO teardown_entry (donor_id, line) SELECT DISTINCT donor_id, ?1 FROM teardown_entry",
                [line],
            )?;
            connection.execute(
                "INSERT INTO job_run_entry (run_id, line) SELECT DISTINCT run_id, ?1 FROM job_run_entry",
                [line],
            )?;
            connection.execute("DELETE FROM operation", [])?;
            connection.execute(
                "UPDATE own SET device = ?1, home = ?2",
                (super::ledger::new_device().to_string(), home),
            )?;
            Ok(())
        });
        if settled.is_ok() {
            self.is_settled()?;
        }
        settled
    }
}

impl Edit<'_> {
    /// Forgets what happened in a donor's teardown, so that it begins at the first step.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn forget_teardown(&self, donor: DonorId) -> Result<(), StoreError> {
        self.transaction
            .execute("DELETE FROM teardown_entry WHERE donor_id = ?1", [blob(donor.0)])?;
        Ok(())
    }
}

/// Adds one line to a history.
fn add_line(connection: &Connection, to: History, line: &str) -> Result<(), StoreError> {
    check_text("history", line, LONGEST_LINE, false)?;
    // Each line has two quotes and a comma in a file.
    let (table, owner, length, insert) = match to {
        History::Teardown(donor) => (
            "donor",
            donor.0,
            "SELECT coalesce(sum(octet_length(line) + 3), 0) FROM teardown_entry WHERE donor_id = ?1",
            "INSERT INTO teardown_entry (donor_id, line) VALUES (?1, ?2)",
        ),
        History::Job(run) => (
            "job_run",
            run.0,
            "SELECT coalesce(sum(octet_length(line) + 3), 0) FROM job_run_entry WHERE run_id = ?1",
            "INSERT INTO job_run_entry (run_id, line) VALUES (?1, ?2)",
        ),
    };
    rows::exists(connection, table, owner)?;
    let length: u32 = connection
        .prepare_cached(length)?
        .query_row([blob(owner)], |row| row.get(0))?;
    if length as usize + line.len() > LONGEST_HISTORY {
        return Err(StoreError::HistoryFull);
    }
    connection.execute(insert, (blob(owner), line))?;
    Ok(())
}
