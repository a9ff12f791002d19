//! Photos kept with a donor. They are added and go with their donor; nothing changes one.

use rusqlite::OptionalExtension;

use super::error::StoreError;
use super::ids;
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{DonorId, PhotoId, check_text};

/// The largest photo kept, in bytes: 16 MiB.
pub const MAX_PHOTO_BYTES: usize = crate::merge::LARGEST_PICTURE;

/// A photo, without its bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Photo {
    /// Which photo.
    pub id: PhotoId,
    /// What it shows, such as `label` or the word of a step.
    pub what: String,
    /// Its media type: `image/jpeg` or `image/png`.
    pub kind: String,
}

/// The media type of a picture by its first bytes; none where it is neither JPEG nor PNG.
pub(super) fn kind_of(bytes: &[u8]) -> Option<&'static str> {
    if bytes.starts_with(&[0xff, 0xd8, 0xff]) {
        Some("image/jpeg")
    } else if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        Some("image/png")
    } else {
        None
    }
}

/// The media type of a photo that is kept, with what it shows.
///
/// # Errors
/// [`StoreError::Field`] where `what` is blank or too long; [`StoreError::Photo`] where the picture is neither
/// JPEG nor PNG or has more than [`MAX_PHOTO_BYTES`].
pub(super) fn accepted_kind(what: &str, bytes: &[u8]) -> Result<&'static str, StoreError> {
    check_text("photo", what, 200, true)?;
    kind_of(bytes)
        .filter(|_| bytes.len() <= MAX_PHOTO_BYTES)
        .ok_or(StoreError::Photo {
            most_mib: MAX_PHOTO_BYTES >> 20,
        })
}

impl Store {
    /// Keeps a photo with a donor.
    ///
    /// # Errors
    /// [`StoreError::Field`] where `what` is blank or too long; [`StoreError::Photo`] where it is neither JPEG nor PNG or has more than
    /// [`MAX_PHOTO_BYTES`]; [`StoreError::NotFound`]; [`StoreError::Disk`] and the like if the data file fails.
    pub fn add_photo(&mut self, donor: DonorId, what: &str, bytes: &[u8]) -> Result<PhotoId, StoreError> {
        let kind = accepted_kind(what, bytes)?;
        let now_ms = self.now_ms();
        let id = ids::new_id(now_ms);
        self.write(|connection| {
            rows::exists(connection, "donor", donor.0)?;
            connection.execute(
                "INSERT INTO photo (id, donor_id, what, kind, bytes, created_ms) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
                (blob(id), blob(donor.0), what, kind, bytes, now_ms),
            )?;
            Ok(PhotoId(id))
        })
    }

    /// The photos of a donor, oldest first, without their bytes.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn photos(&self, donor: DonorId) -> Result<Vec<Photo>, StoreError> {
        Ok(self
            .connection
            .prepare_cached("SELECT id, what, kind FROM photo WHERE donor_id = ?1 ORDER BY created_ms, id")?
            .query_map([blob(donor.0)], |row| {
                Ok(Photo {
                    id: PhotoId(rows::id(row, "id")?),
                    what: row.get("what")?,
                    kind: row.get("kind")?,
                })
            })?
            .collect::<Result<_, _>>()?)
    }

    /// The bytes of a photo.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn photo_bytes(&self, id: PhotoId) -> Result<Vec<u8>, StoreError> {
        self.connection
            .prepare_cached("SELECT bytes FROM photo WHERE id = ?1")?
            .query_row([blob(id.0)], |row| row.get(0))
            .optional()?
            .ok_or(StoreError::NotFound { what: "photo" })
    }
}
