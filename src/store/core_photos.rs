//! Photos kept with a core, with what was marked on them. They are added and go with their core;
//! the marks may be set again.

use rusqlite::OptionalExtension;

use super::error::StoreError;
use super::ids;
use super::open::Store;
use super::photos::accepted_kind;
use super::rows::{self, blob};
use crate::job::{Check, CoreId, PhotoId, PhotoMarks};

/// A photo of a core, without its bytes.
#[derive(Debug, Clone, PartialEq)]
pub struct CorePhoto {
    /// Which photo.
    pub id: PhotoId,
    /// What it is for: to measure on, or the step of the work that it shows.
    pub what: String,
    /// Its media type: `image/jpeg` or `image/png`.
    pub kind: String,
    /// What was marked on it; none where nothing was.
    pub marks: Option<PhotoMarks>,
}

impl Store {
    /// Keeps a photo with a core.
    ///
    /// # Errors
    /// [`StoreError::Field`] where `what` is blank or too long; [`StoreError::Photo`] where it is neither JPEG nor PNG or has more than
    /// [`MAX_PHOTO_BYTES`](crate::store::MAX_PHOTO_BYTES); [`StoreError::NotFound`]; [`StoreError::Disk`] and the like if the data file fails.
    pub fn add_core_photo(&mut self, core: CoreId, what: &str, bytes: &[u8]) -> Result<PhotoId, StoreError> {
        let kind = accepted_kind(what, bytes)?;
        let now_ms = self.now_ms();
        let id = ids::new_id(now_ms);
        self.write(|connection| {
            rows::exists(connection, "core", core.0)?;
            connection.execute(
                "INSERT INTO core_photo (id, core_id, what, kind, bytes, created_ms) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
                (blob(id), blob(core.0), what, kind, bytes, now_ms),
            )?;
            Ok(PhotoId(id))
        })
    }

    /// Keeps what was marked on a photo of a core; it is on the disk when this returns.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a number or text that is not accepted; [`StoreError::NotFound`];
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn set_marks(&mut self, photo: PhotoId, marks: &PhotoMarks) -> Result<(), StoreError> {
        marks.check()?;
        let marks = rows::to_json(marks)?;
        self.write(|connection| {
            let changed =
                connection.execute("UPDATE core_photo SET marks = ?2 WHERE id = ?1", (blob(photo.0), marks))?;
            match changed {
                0 => Err(StoreError::NotFound { what: "photo" }),
                _ => Ok(()),
            }
        })
    }

    /// The photos of a core, oldest first, without their bytes.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn core_photos(&self, core: CoreId) -> Result<Vec<CorePhoto>, StoreError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT id, what, kind, marks FROM core_photo WHERE core_id = ?1 ORDER BY created_ms, id",
        )?;
        let rows = statement.query_map([blob(core.0)], |row| {
            Ok((
                rows::id(row, "id")?,
                row.get::<_, String>("what")?,
                row.get::<_, String>("kind")?,
                row.get::<_, Option<String>>("marks")?,
            ))
        })?;
        rows.map(|row| {
            let (id, what, kind, marks) = row?;
            // Marks that cannot be read are set again; the photo and the others still show.
            let marks = marks.and_then(|text| {
                let marks = rows::from_json("marks of a photo", &text);
                marks.inspect_err(|error| tracing::error!("photo {id}: {error}")).ok()
            });
            Ok(CorePhoto {
                id: PhotoId(id),
                what,
                kind,
                marks,
            })
        })
        .collect()
    }

    /// The bytes of a core's photo.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn core_photo_bytes(&self, id: PhotoId) -> Result<Vec<u8>, StoreError> {
        self.connection
            .prepare_cached("SELECT bytes FROM core_photo WHERE id = ?1")?
            .query_row([blob(id.0)], |row| row.get(0))
            .optional()?
            .ok_or(StoreError::NotFound { what: "photo" })
    }
}
