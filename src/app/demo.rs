//! The demo on the shelf: one invented donor with its job, put there and taken away as one.

use super::start;
use super::workspace::{Workspace, WorkspaceError};
use crate::job::{DonorId, JobId};
use crate::store::{Setting, StoreError};

impl Workspace {
    /// Puts the demo's donor and job on the shelf.
    ///
    /// # Errors
    /// What the disk says.
    pub fn open_demo(&mut self) -> Result<JobId, WorkspaceError> {
        let job = self
            .store
            .edit("ui-undo-demo", |edit| edit.insert_job_file(&start::demo_job()))?;
        if let Some(donor) = self.store.donor_of(job)? {
            self.store.set(Setting::Demo, &format!("{job} {donor}"))?;
        }
        Ok(job)
    }

    /// The demo's job and donor, while either is on the shelf.
    #[must_use]
    pub fn demo(&self) -> Option<(Option<JobId>, Option<DonorId>)> {
        let kept = self.store.setting(Setting::Demo).ok().flatten()?;
        let (job, donor) = kept.split_once(' ')?;
        let job = JobId(job.parse().ok()?);
        let donor = DonorId(donor.parse().ok()?);
        let job = self.store.job(job).ok().map(|_| job);
        let donor = self.store.donor(donor).ok().map(|_| donor);
        (job.is_some() || donor.is_some()).then_some((job, donor))
    }

    /// Takes the demo off the shelf: its job, its core where no other job uses it, its donor. One
    /// step of undo; nothing where it is not there.
    ///
    /// # Errors
    /// What the disk says.
    pub fn remove_demo(&mut self) -> Result<(), WorkspaceError> {
        let Some((job, donor)) = self.demo() else { return Ok(()) };
        let core = match job {
            Some(job) => Some(self.store.job(job)?.body.core),
            None => None,
        };
        self.store.edit("ui-undo-remove-demo", |edit| {
            if let Some(job) = job {
                edit.delete_job(job)?;
            }
            if let Some(core) = core {
                match edit.delete_core(core) {
                    Ok(()) | Err(StoreError::CoreInUse { .. }) => {}
                    Err(error) => return Err(error),
                }
            }
            donor.map_or(Ok(()), |donor| edit.delete_donor(donor))
        })?;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_demo_comes_and_goes_as_one() {
        let folder = tempfile::tempdir().unwrap();
        let mut workspace = Workspace::open(folder.path()).unwrap();
        assert_eq!(workspace.demo(), None);
        workspace.remove_demo().unwrap();
        let job = workspace.open_demo().unwrap();
        let donor = workspace.donor_of(job).unwrap();
        assert_eq!(workspace.demo(), Some((Some(job), donor)));
        workspace.remove_demo().unwrap();
        assert_eq!(workspace.demo(), None);
        assert!(workspace.donors().unwrap().is_empty() && workspace.job_count().unwrap() == 0);
        workspace.undo().unwrap();
        assert_eq!(workspace.demo(), Some((Some(job), donor)));
        // Half of it may have been taken away by hand.
        workspace.remove_job(job).unwrap();
        assert_eq!(workspace.demo(), Some((None, donor)));
        workspace.remove_demo().unwrap();
        assert!(workspace.donors().unwrap().is_empty());
    }
}
