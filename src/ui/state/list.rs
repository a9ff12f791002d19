//! The jobs listed, and what is looked for among them.

use super::{AppState, PAGE_OF_JOBS, Unread};
use crate::app::workspace::WorkspaceError;
use crate::store::{Cursor, JobSummary};

/// The jobs listed so far.
#[derive(Debug, Default)]
pub(super) struct JobList {
    jobs: Vec<JobSummary>,
    /// How many there are in all.
    count: u32,
}

impl AppState {
    /// The jobs listed so far, and how many there are.
    ///
    /// # Errors
    /// [`Unread`] where the list could not be read.
    pub fn jobs(&self) -> Result<(&[JobSummary], u32), Unread> {
        let list = self.listed.as_ref().map_err(Clone::clone)?;
        Ok((&list.jobs, list.count))
    }

    /// Lists some more jobs.
    pub fn list_more(&mut self) {
        let Ok(list) = &self.listed else { return };
        let after: Option<Cursor> = list.jobs.last().map(JobSummary::cursor);
        match (
            self.query(|data| data.store().job_summaries(PAGE_OF_JOBS, after)),
            &mut self.listed,
        ) {
            (Ok(more), Ok(list)) => list.jobs.extend(more),
            (Err(why), listed) => *listed = Err(why),
            (Ok(_), Err(_)) => {}
        }
        self.list_cards();
    }

    /// The words that are looked for among the jobs.
    #[must_use]
    pub fn wanted(&self) -> &str {
        &self.wanted
    }

    /// Lists the jobs that have these words; all for none.
    pub fn want(&mut self, words: &str) {
        words.trim().clone_into(&mut self.wanted);
        self.list_again();
    }

    pub(super) fn list_again(&mut self) {
        self.listed = self.query(|data| {
            let count = data.store().job_count()?;
            let jobs = match self.wanted.as_str() {
                "" => data.store().job_summaries(PAGE_OF_JOBS, None)?,
                words => data.store().search_jobs(words, PAGE_OF_JOBS)?,
            };
            Ok::<_, WorkspaceError>(JobList { jobs, count })
        });
        self.list_cards();
    }
}
