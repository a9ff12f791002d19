//! The photos of the core in hand.

use super::AppState;
use crate::job::{PhotoId, PhotoMarks, Reading};
use crate::store::CorePhoto;

impl AppState {
    /// The photos of the job's core.
    #[must_use]
    pub fn core_photos(&self) -> Vec<CorePhoto> {
        let (Ok(workspace), Some(id)) = (&self.workspace, self.job_id()) else {
            return Vec::new();
        };
        workspace.core_photos(id).unwrap_or_default()
    }

    /// A photo's bytes.
    #[must_use]
    pub fn core_photo_bytes(&self, id: PhotoId) -> Option<Vec<u8>> {
        self.workspace.as_ref().ok()?.core_photo_bytes(id).ok()
    }

    /// Keeps a photo with the job's core.
    pub fn add_core_photo(&mut self, bytes: &[u8]) -> Option<PhotoId> {
        let id = self.job_id()?;
        self.with_workspace(|workspace| workspace.add_core_photo(id, bytes))
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
