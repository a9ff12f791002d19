//! A job that could not be evaluated, or that the app stopped over: what is known of it, and what can be
//! done.

use std::path::PathBuf;

use super::{AppState, Screen};
use crate::app::repair::SetBack;
use crate::job::JobId;

/// Why a job cannot be evaluated.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Trouble {
    /// A value that the evaluation cannot use, as a sentence.
    Value(String),
    /// A fault of the program, with its message.
    Fault(String),
    /// It cannot be read, as a sentence.
    Unreadable(String),
    /// The app stopped while it opened the job.
    Interrupted,
}

impl Trouble {
    /// The id of its text, and what goes into it.
    #[must_use]
    pub fn text(&self) -> (&'static str, &str) {
        match self {
            Trouble::Value(what) => ("ui-trouble-value", what),
            Trouble::Fault(what) => ("ui-trouble-fault", what),
            Trouble::Unreadable(what) => ("ui-trouble-unreadable", what),
            Trouble::Interrupted => ("ui-trouble-interrupted", ""),
        }
    }
}

/// A job that the shelf names as one in trouble.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Troubled {
    /// Which.
    pub job: JobId,
    /// What the person calls it.
    pub name: String,
    /// Why.
    pub why: Trouble,
}

impl AppState {
    /// The job in trouble: one that could not be opened, or the one in hand.
    #[must_use]
    pub fn troubled(&self) -> Option<Troubled> {
        let in_hand = || {
            let open = self.open.as_ref()?;
            Some(Troubled {
                job: open.id,
                name: open.file.name.clone(),
                why: open.answer.as_ref().err()?.clone(),
            })
        };
        self.troubled.clone().or_else(in_hand)
    }

    /// Leaves a job on the shelf, which says why; nothing to say of one that is gone.
    pub(super) fn in_trouble(&mut self, job: JobId, why: Trouble) {
        self.open = None;
        let name = match self.query(|data| data.job_name(job)) {
            Ok(Some(name)) => name,
            Ok(None) => return,
            // The shelf says that its jobs cannot be read; the trouble stands without a name.
            Err(_) => String::new(),
        };
        tracing::warn!("job {job} stays on the shelf: {why:?}");
        self.troubled = Some(Troubled { job, name, why });
    }

    /// Leaves the job in trouble as it is.
    pub fn leave_trouble(&mut self) {
        self.troubled = None;
    }

    /// Sets the job in trouble back until it can be evaluated, and opens it at Measure; tells the last
    /// part that was set back.
    pub fn repair(&mut self) -> Option<SetBack> {
        let job = self.troubled()?.job;
        let evaluate = self.evaluate;
        let part = self
            .with_workspace(|workspace| workspace.repair_job(job, |file| super::evaluated(evaluate, file).is_ok()))??;
        self.troubled = None;
        self.open_job(job, Screen::Measure);
        Some(part)
    }

    /// Saves the job in trouble as a job file; gives the folder.
    pub fn save_troubled(&mut self) -> Option<PathBuf> {
        let job = self.troubled()?.job;
        let file = self.with_workspace(|workspace| Ok(workspace.store().job_file(job)?))?;
        self.save_files(job, &[("job.json".to_owned(), file.to_json())])
    }

    /// Removes the job in trouble; undo brings it back.
    pub fn remove_troubled(&mut self) {
        if let Some(troubled) = self.troubled() {
            self.troubled = None;
            self.remove_job(troubled.job);
            self.go(Screen::Home);
        }
    }

    /// Opens the job in trouble all the same.
    pub fn open_troubled(&mut self) {
        if let Some(troubled) = self.troubled.take() {
            self.open_job(troubled.job, Screen::Measure);
        }
    }
}
