//! Notes on donors, cores, jobs and designs.

use super::edit::Edit;
use super::error::StoreError;
use super::measurements::owner_column;
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{Check, Note, NoteId, Owner, Record};

impl Edit<'_> {
    /// Adds a note.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a text that is not accepted; [`StoreError::NotFound`] for an
    /// owner that is not there.
    pub fn insert_note(&self, note: &Note) -> Result<NoteId, StoreError> {
        note.check()?;
        let table = match note.owner {
            Owner::Donor(_) => "donor",
            Owner::Core(_) => "core",
            Owner::Job(_) => "job",
            Owner::Design(_) => "design",
        };
        let (column, owner, _) = owner_column(note.owner);
        rows::exists(self.transaction, table, owner)?;
        let id = NoteId(self.new_id());
        self.transaction.execute(
            &format!(
                "INSERT INTO note (id, {column}, text, created_ms, edited_ms, revision)
                 VALUES (?1, ?2, ?3, ?4, ?4, 1)"
            ),
            (blob(id.0), blob(owner), &note.text, self.now_ms),
        )?;
        Ok(id)
    }

    /// Changes the words of a note that has this revision, and gives its new revision. A note
    /// stays with its owner.
    ///
    /// # Errors
    /// As [`Edit::insert_note`]; [`StoreError::NotFound`]; [`StoreError::StaleRevision`].
    pub fn update_note(&self, id: NoteId, revision: u32, note: &Note) -> Result<u32, StoreError> {
        note.check()?;
        let next = rows::next_revision(self.transaction, "note", id.0, revision)?;
        self.transaction.execute(
            "UPDATE note SET text = ?2, edited_ms = ?3, revision = ?4 WHERE id = ?1",
            (blob(id.0), &note.text, self.now_ms, next),
        )?;
        Ok(next)
    }

    /// Deletes a note.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn delete_note(&self, id: NoteId) -> Result<(), StoreError> {
        rows::delete(self.transaction, "note", id.0)
    }
}

impl Store {
    /// The notes on something, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn notes_of(&self, owner: Owner) -> Result<Vec<Record<NoteId, Note>>, StoreError> {
        let (column, id, _) = owner_column(owner);
        Ok(self
            .connection
            .prepare_cached(&format!(
                "SELECT id, text, created_ms, edited_ms, revision FROM note WHERE {column} = ?1 ORDER BY created_ms, id"
            ))?
            .query_map([blob(id)], |row| {
                Ok(Record {
                    meta: rows::meta(NoteId(rows::id(row, "id")?), row)?,
                    body: Note {
                        owner,
                        text: row.get("text")?,
                    },
                })
            })?
            .collect::<Result<_, _>>()?)
    }
}
