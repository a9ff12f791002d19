//! The jobs listed, and what is looked for among them.

use super::{AppState, PAGE_OF_JOBS};
use crate::app::compare::OnShelf;
use crate::store::{Cursor, JobSummary};

impl AppState {
    /// The jobs listed so far, and how many there are.
    #[must_use]
    pub fn jobs(&self) -> (&[JobSummary], u32) {
        (&self.listed, self.count)
    }

    /// Lists some more jobs.
    pub fn list_more(&mut self) {
        let after: Option<Cursor> = self.listed.last().map(JobSummary::cursor);
        let Ok(workspace) = &self.workspace else { return };
        match workspace.jobs(PAGE_OF_JOBS, after) {
            Ok(more) => self.listed.extend(more),
            Err(error) => self.notice = Some(error.to_string()),
        }
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
        self.listed.clear();
        if !self.wanted.is_empty() {
            if let Ok(workspace) = &self.workspace {
                self.listed = workspace.search(&self.wanted, PAGE_OF_JOBS).unwrap_or_default();
            }
            return;
        }
        if let Ok(workspace) = &self.workspace {
            self.count = workspace.job_count().unwrap_or(0);
        }
        self.list_more();
    }

    /// The cores on the shelf, by the newest `limit` jobs.
    #[must_use]
    pub fn cores_on_shelf(&self, limit: u32) -> Vec<OnShelf> {
        self.workspace
            .as_ref()
            .ok()
            .and_then(|workspace| workspace.cores_on_shelf(limit).ok())
            .unwrap_or_default()
    }
}
