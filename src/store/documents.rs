//! Job files in and out.

use super::edit::Edit;
use super::error::StoreError;
use super::op::Op;
use super::open::Store;
use crate::job::{Check, CoreId, FORMAT_VERSION, Job, JobFile, JobId, Meta, Record, ShelfCore};

/// A job as a document, with the records that it was read from.
#[derive(Debug, Clone, PartialEq)]
pub struct StoredJob {
    /// The job's id and revision.
    pub meta: Meta<JobId>,
    /// Its core.
    pub core: Record<CoreId, ShelfCore>,
    /// The document.
    pub file: JobFile,
}

/// A change that is made out and rolled back: the jobs that are looked at, and their documents after it.
#[derive(Debug)]
pub(super) struct Preview {
    pub(super) jobs: Vec<JobId>,
    pub(super) after: Vec<(JobId, Option<JobFile>)>,
}

impl Edit<'_> {
    /// Adds a job file's donor, core and job as new records. Of its wires, those whose conductor
    /// is not on the shelf yet are put there.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a number or text that is not accepted.
    pub fn insert_job_file(&self, file: &JobFile) -> Result<JobId, StoreError> {
        file.check()?;
        let donor = file.donor.as_ref().map(|donor| self.insert(donor)).transpose()?;
        let core = self.insert(&ShelfCore {
            donor,
            core: file.core.clone(),
        })?;
        let on_shelf: Vec<String> = self
            .transaction
            .prepare("SELECT conductor FROM stock")?
            .query_map([], |row| row.get(0))?
            .collect::<Result<_, _>>()?;
        for wire in file.stock.iter().filter(|wire| !on_shelf.contains(&wire.conductor)) {
            self.insert(wire)?;
        }
        self.insert(&Job {
            name: file.name.clone(),
            core,
            mains: file.mains.clone(),
            goal: file.goal,
            conditions: file.conditions.clone(),
            choice: file.choice.clone(),
            note: file.note.clone(),
        })
    }
}

impl Store {
    /// Takes a job file in, as one operation; see [`Edit::insert_job_file`].
    ///
    /// # Errors
    /// As [`Edit::insert_job_file`]; nothing is taken in then.
    pub fn import_job_file(&mut self, file: &JobFile) -> Result<JobId, StoreError> {
        self.edit(Op::ImportJobFile, |edit| edit.insert_job_file(file))
    }

    /// A job with its core, its donor and all wires on the shelf, as one document.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn job_file(&self, id: JobId) -> Result<JobFile, StoreError> {
        Ok(self.load_job(id)?.file)
    }

    /// As [`Store::job_file`], with the records to change.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn load_job(&self, id: JobId) -> Result<StoredJob, StoreError> {
        // One moment for all the reading, whatever a writer does meanwhile.
        let moment = self.connection.unchecked_transaction()?;
        let stored = self.read_job(id)?;
        moment.commit()?;
        Ok(stored)
    }

    /// Reads a job within the transaction that is open.
    fn read_job(&self, id: JobId) -> Result<StoredJob, StoreError> {
        let Record { meta, body: job } = self.job(id)?;
        let core = self.core(job.core)?;
        let shelf = core.body.clone();
        let file = JobFile {
            curbcore_job: FORMAT_VERSION,
            name: job.name,
            note: job.note,
            donor: shelf
                .donor
                .map(|donor| self.donor(donor))
                .transpose()?
                .map(|donor| donor.body),
            core: shelf.core,
            mains: job.mains,
            goal: job.goal,
            conditions: job.conditions,
            choice: job.choice,
            stock: self.stock()?.into_iter().map(|wire| wire.body).collect(),
        };
        Ok(StoredJob { meta, core, file })
    }

    /// The documents of jobs within the transaction that is open; none for a job that is not there.
    pub(super) fn read_jobs(&self, jobs: &[JobId]) -> Result<Vec<(JobId, Option<JobFile>)>, StoreError> {
        let read = |id: &JobId| match self.read_job(*id) {
            Ok(stored) => Ok((*id, Some(stored.file))),
            Err(StoreError::NotFound { .. }) => Ok((*id, None)),
            Err(error) => Err(error),
        };
        jobs.iter().map(read).collect()
    }

    /// From now on what is written is rolled back, until [`Store::end_preview`] gives the documents of these jobs
    /// as the last change would leave them.
    pub fn begin_preview(&mut self, jobs: &[JobId]) {
        self.preview = Some(Preview {
            jobs: jobs.to_vec(),
            after: Vec::new(),
        });
    }

    /// Ends a preview: what is written is kept again. A job that would be gone has no document.
    pub fn end_preview(&mut self) -> Vec<(JobId, Option<JobFile>)> {
        self.preview.take().map(|preview| preview.after).unwrap_or_default()
    }
}
