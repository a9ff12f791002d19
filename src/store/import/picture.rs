//! The picture of a photo that arrives.

use serde_json::Value;
use uuid::Uuid;

use super::{ImportMode, Importer};
use crate::job::ValueError;
use crate::merge::Kind;
use crate::store::columns::{self, ExistingRow};
use crate::store::error::StoreError;
use crate::store::ledger;
use crate::store::photos::{MAX_PHOTO_BYTES, kind_of};
use crate::store::rows::blob;

impl Importer<'_> {
    /// Takes in the picture of a photo whose record came before.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`] where it is not the picture that its record means;
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn picture(&mut self, kind: Kind, id: Uuid, bytes: &[u8]) -> Result<(), StoreError> {
        let wrong = |reason: ValueError| StoreError::Unreadable {
            what: format!("the picture of {} {id}", kind.word()),
            reason,
        };
        self.flush()?;
        if !kind.has_picture() {
            return Err(wrong(ValueError::NoPicture));
        }
        let Some(known) = ledger::read(self.connection, kind, id)? else {
            return Err(wrong(ValueError::NoPicture));
        };
        let is_complete = self
            .connection
            .prepare_cached(&format!(
                "SELECT 1 FROM {} WHERE id = ?1 AND length(bytes) > 0",
                columns::table(kind)
            ))?
            .exists([blob(id)])?;
        if is_complete {
            // It never changes, whatever comes under its number.
            return Ok(());
        }
        let says = |field: &str| known.shown(field).and_then(Value::as_str).unwrap_or_default();
        if bytes.len() > MAX_PHOTO_BYTES {
            return Err(wrong(ValueError::LargePicture(MAX_PHOTO_BYTES >> 20)));
        }
        if kind_of(bytes) != Some(says("kind")) {
            return Err(wrong(ValueError::OtherPicture));
        }
        if ledger::picture_sum(bytes) != says("sha256") {
            return Err(wrong(ValueError::OtherPicture));
        }
        if known.is_removed() || self.mode == ImportMode::Preview {
            return Ok(());
        }
        if !columns::is_here(self.connection, kind, id)? {
            // It was kept back for want of its picture, or of its owner.
            if !self.write_row(kind, id, &known, ExistingRow::Unknown)? {
                return Ok(());
            }
            self.save_history(kind, id, &known, false)?;
        }
        self.connection
            .prepare_cached(&format!(
                "UPDATE {} SET bytes = ?2 WHERE id = ?1 AND length(bytes) = 0",
                columns::table(kind)
            ))?
            .execute((blob(id), bytes))?;
        Ok(())
    }
}
