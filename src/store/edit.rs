//! One operation in progress.

use rusqlite::Transaction;
use uuid::Uuid;

use super::ids;

/// One operation in progress: all writing is by its methods. If the operation fails, none of it
/// has happened.
#[derive(Debug)]
pub struct Edit<'t> {
    pub(super) transaction: &'t Transaction<'t>,
    pub(super) now_ms: i64,
}

impl<'t> Edit<'t> {
    pub(super) fn new(transaction: &'t Transaction<'t>, now_ms: i64) -> Self {
        Self { transaction, now_ms }
    }

    /// A new id; later ones sort later.
    pub(super) fn new_id(&self) -> Uuid {
        ids::new_id(self.now_ms)
    }
}
