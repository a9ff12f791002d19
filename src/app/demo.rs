//! The demo on the shelf: one invented donor with its job, put there and taken away as one.

use super::start;
use super::workspace::{Workspace, WorkspaceError};
use crate::job::{DonorId, JobId};
use crate::store::{Op, Setting, StoreError};

/// The demo's job and donor; none for the one that was removed by hand.
pub type DemoIds = (Option<JobId>, Option<DonorId>);

/// None instead of the error for a record that does not exist.
fn if_there<T>(read: Result<T, StoreError>) -> Result<Option<T>, StoreError> {
    match read {
        Ok(found) => Ok(Some(found)),
        Err(StoreError::NotFound { .. }) => Ok(None),
        Err(error) => Err(error),
    }
}

impl Workspace {
    /// Puts the demo's donor and job on the shelf.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn open_demo(&mut self) -> Result<JobId, WorkspaceError> {
        let job = self
            .store
            .edit(Op::OpenDemo, |edit| edit.insert_job_file(&start::demo_job()))?;
        if let Some(donor) = self.store.donor_of(job)? {
            self.store.set(Setting::Demo, &format!("{job} {donor}"))?;
        }
        Ok(job)
    }

    /// The demo's job and donor, while either is on the shelf.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where either cannot be read.
    pub fn demo(&self) -> Result<Option<DemoIds>, WorkspaceError> {
        let kept = self.store.setting(Setting::Demo)?.unwrap_or_default();
        let Some((Ok(job), Ok(donor))) = kept.split_once(' ').map(|(job, donor)| (job.parse(), donor.parse())) else {
            return Ok(None);
        };
        let (job, donor) = (JobId(job), DonorId(donor));
        let job = if_there(self.store.job(job))?.map(|_| job);
        let donor = if_there(self.store.donor(donor))?.map(|_| donor);
        Ok((job.is_some() || donor.is_some()).then_some((job, donor)))
    }

    /// Takes the demo off the shelf: its job, its core where no other job uses it, its donor. One
    /// step of undo; nothing where it is not there.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn remove_demo(&mut self) -> Result<(), WorkspaceError> {
        let Some((job, donor)) = self.demo()? else {
            return Ok(());
        };
        self.remove_both(Op::RemoveDemo, job, donor)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_demo_comes_and_goes_as_one() {
        let folder = tempfile::tempdir().unwrap();
        let mut workspace = Workspace::open(folder.path()).unwrap();
        assert_eq!(workspace.demo().unwrap(), None);
        workspace.remove_demo().unwrap();
        let job = workspace.open_demo().unwrap();
        let donor = workspace.store().donor_of(job).unwrap();
        assert_eq!(workspace.demo().unwrap(), Some((Some(job), donor)));
        workspace.remove_demo().unwrap();
        assert_eq!(workspace.demo().unwrap(), None);
        assert!(workspace.store().donors().unwrap().is_empty() && workspace.store().job_count().unwrap() == 0);
        workspace.undo().unwrap();
        assert_eq!(workspace.demo().unwrap(), Some((Some(job), donor)));
        // Half of it may have been taken away by hand.
        workspace.remove_job(job).unwrap();
        assert_eq!(workspace.demo().unwrap(), Some((None, donor)));
        workspace.remove_demo().unwrap();
        assert!(workspace.store().donors().unwrap().is_empty());
    }
}
