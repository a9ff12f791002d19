//! The photos of the core in hand.

use super::{AppState, Unread};
use crate::job::{PhotoId, PhotoMarks, Reading};
use crate::store::CorePhoto;

impl AppState {
    /// The photos of the job's core that are for something.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn core_photos(&self, what: &str) -> Result<Vec<CorePhoto>, Unread> {
        let Some(id) = self.job_id() else { return Ok(Vec::new()) };
        self.query(|data| data.core_photos(id, what))
    }

    /// Keeps a photo with the job's core.
    pub fn add_core_photo(&mut self, what: &str, bytes: &[u8]) -> Option<PhotoId> {
        let id = self.job_id()?;
        self.with_workspace(|workspace| workspace.add_core_photo(id, what, bytes))
    }

    /// Keeps what was marked on a photo.
    pub fn set_marks(&mut self, photo: PhotoId, marks: &PhotoMarks) {
        self.with_workspace(|workspace| workspace.set_marks(photo, marks));
    }

    /// Puts lengths from a photo into the job's core.
    pub fn take_lengths(&mut self, rows: &[(&'static str, Reading)]) {
        self.change(|workspace, id| workspace.take_lengths(id, rows));
    }
}
