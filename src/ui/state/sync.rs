//! What the app does with other devices: files out and in, two values, good copies.

use std::path::{Path, PathBuf};

use uuid::Uuid;

use super::super::words::{explain, tell};
use super::asked::Pending;
use super::data::WorkspaceState;
use super::{AppState, Unread};
use crate::app::guard::guarded;
use crate::app::materials::materials_table;
use crate::app::sync::{Sending, copies};
use crate::app::workspace::Workspace;
use crate::exchange::table;
use crate::job::JobId;
use crate::merge::Kind;
use crate::store::{Backup, JobProcedure, RemoteHistory, StoreError};

impl AppState {
    /// Moves the workspace out for a longer piece of work; until it is restored, the UI is blocked.
    pub fn take_workspace(&mut self) -> Option<Workspace> {
        match std::mem::replace(&mut self.workspace, WorkspaceState::Busy) {
            WorkspaceState::Open(workspace) => Some(*workspace),
            other => {
                self.workspace = other;
                None
            }
        }
    }

    /// Restores the workspace after a longer piece of work.
    pub fn restore_workspace(&mut self, workspace: Workspace) {
        self.workspace = WorkspaceState::Open(Box::new(workspace));
        self.reload();
        self.list_again();
    }

    /// Whether the workspace is out for a longer piece of work.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        matches!(self.workspace, WorkspaceState::Busy)
    }

    /// Names this device.
    pub fn name_device(&mut self, name: &str) {
        self.with_workspace(|workspace| workspace.name_device(name));
    }

    /// Everything, or the job in hand, or what is new for a device.
    #[must_use]
    pub fn sending(&self, word: &str) -> Sending {
        match (word, self.job_id()) {
            ("job", Some(id)) => Sending::Jobs(vec![id]),
            (number, _) => number.parse().map_or(Sending::All, Sending::NewFor),
        }
    }

    /// Settles one, or asks first where tests or a winding would count no more.
    pub fn settle(&mut self, kind: Kind, id: Uuid, field: &str, side: usize) {
        let field = field.to_owned();
        self.carry_out_or_tell(Pending::Settle { kind, id, field, side });
    }

    /// Tells that the check of the data found it damaged, or that no copy could be made. Where it is
    /// damaged, nothing more is done with it.
    pub fn checked(&mut self, found: &Result<bool, StoreError>) {
        match found {
            Ok(_) => {}
            Err(error @ StoreError::Damaged { .. }) => {
                self.workspace = WorkspaceState::Failed(explain(error));
            }
            Err(error) => {
                tracing::warn!("no copy was made: {error}");
                self.notice = Some(explain(error));
            }
        }
    }

    /// Saves the job's drawings; gives the folder.
    pub fn save_drawings(&mut self) -> Option<PathBuf> {
        let unit = self.unit();
        let answer = self.answer()?.ok()?;
        let drawings = guarded(|| crate::report::drawings(answer, unit)).ok()?;
        let files: Vec<(String, String)> = drawings
            .into_iter()
            .map(|(name, svg)| (format!("{name}.svg"), svg))
            .collect();
        self.save_files(self.job_id()?, &files)
    }

    /// Saves the job's tables; gives the folder.
    pub fn save_tables(&mut self) -> Option<PathBuf> {
        let id = self.job_id()?;
        let measured = self.with_workspace(|workspace| workspace.measurements_table(id))?;
        let mut files = vec![("measurements.csv".to_owned(), table(&measured))];
        if let Some(Ok(answer)) = self.answer() {
            let texts = crate::text::Texts::english().ok()?;
            let materials = guarded(|| crate::report::materials(answer, &texts)).ok()?;
            if !materials.is_empty() {
                files.push(("materials.csv".to_owned(), table(&materials_table(&materials, &texts))));
            }
        }
        self.save_files(self.job_id()?, &files)
    }

    pub(super) fn save_files(&mut self, job: JobId, files: &[(String, String)]) -> Option<PathBuf> {
        match crate::app::save_files(&self.folder, job, files) {
            Ok(place) => Some(place),
            Err(message) => {
                self.notice = Some(tell(&message));
                None
            }
        }
    }

    /// What was done in the donor's teardown on other devices.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn remote_teardowns(&self) -> Result<Vec<RemoteHistory>, Unread> {
        let Some(donor) = self.donor else { return Ok(Vec::new()) };
        self.query(|data| data.store().remote_teardowns(donor))
    }

    /// What was done in one of the job's procedures on other devices.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn remote_job_runs(&self, procedure: JobProcedure) -> Result<Vec<RemoteHistory>, Unread> {
        let Some(job) = self.job_id() else {
            return Ok(Vec::new());
        };
        self.query(|data| data.store().remote_job_runs(job, procedure))
    }

    /// The folder of the data.
    #[must_use]
    pub fn folder(&self) -> PathBuf {
        self.folder.clone()
    }

    /// The last good copies of the data.
    #[must_use]
    pub fn copies(&self) -> Vec<Backup> {
        copies::of(&self.folder)
    }

    /// Goes back to a copy, and opens it.
    pub fn restore_backup(&mut self, copy: &Backup) {
        self.workspace = WorkspaceState::Busy;
        let gone_back = copies::go_back(&self.folder, copy);
        let folder: &Path = &self.folder.clone();
        *self = AppState::open(folder);
        if let Err(error) = gone_back {
            self.notice = Some(explain(&error));
        }
    }
}
