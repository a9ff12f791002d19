//! Stored photos of a core, and the transfer of their lengths into a job.

use crate::app::workspace::{Workspace, WorkspaceError};
use crate::job::{JobFile, JobId, PhotoId, PhotoMarks, Reading, fields};
use crate::store::{CorePhoto, Op};

/// What a photo is for on which the core is measured.
pub const MEASURED: &str = "measure";

impl Workspace {
    /// The photos of a job's core that are for something: [`MEASURED`], or a step of the work.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn core_photos(&self, job: JobId, what: &str) -> Result<Vec<CorePhoto>, WorkspaceError> {
        let mut photos = self.store.core_photos(self.store.job(job)?.body.core)?;
        photos.retain(|photo| photo.what == what);
        Ok(photos)
    }

    /// Keeps a photo with a job's core.
    ///
    /// # Errors
    /// Not a JPEG or PNG, or too large; nothing is saved then.
    pub fn add_core_photo(&mut self, job: JobId, what: &str, bytes: &[u8]) -> Result<PhotoId, WorkspaceError> {
        let core = self.store.job(job)?.body.core;
        Ok(self.store.add_core_photo(core, what, bytes)?)
    }

    /// Keeps what was marked on a photo.
    ///
    /// # Errors
    /// The photo is gone; [`WorkspaceError::Store`].
    pub fn set_marks(&mut self, id: PhotoId, marks: &PhotoMarks) -> Result<(), WorkspaceError> {
        Ok(self.store.set_marks(id, marks)?)
    }

    /// Puts lengths from a photo into a job's core, as one step of undo.
    ///
    /// # Errors
    /// Names the first that is outside its range; nothing is changed then.
    pub fn take_lengths(&mut self, job: JobId, rows: &[(&'static str, Reading)]) -> Result<(), WorkspaceError> {
        for (path, reading) in rows {
            let field = fields::find(path).ok_or_else(|| WorkspaceError::UnknownField((*path).to_owned()))?;
            field.check(field.label, reading.value, reading.plus_minus)?;
        }
        self.change(job, Op::Lengths, |file: &mut JobFile| {
            for (path, reading) in rows {
                let core = &mut file.core;
                match *path {
                    "core.tongue_mm" => core.tongue_mm = *reading,
                    "core.stack_mm" => core.stack_mm = *reading,
                    "core.window_width_mm" => core.window_width_mm = *reading,
                    "core.window_height_mm" => core.window_height_mm = *reading,
                    "core.outer_limb_mm" => core.outer_limb_mm = Some(*reading),
                    _ => core.yoke_mm = Some(*reading),
                }
            }
            Ok(())
        })
    }
}
