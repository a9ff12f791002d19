//! Records that are kept back until what they belong to is here.

use uuid::Uuid;

use super::Importer;
use crate::merge::Kind;
use crate::store::columns::{self, ExistingRow};
use crate::store::error::StoreError;
use crate::store::ledger;

impl Importer<'_> {
    /// Keeps back the photos whose pictures did not come: the sender has none of them either.
    pub(super) fn hold_without_picture(&self) -> Result<(), StoreError> {
        for kind in [Kind::Photo, Kind::CorePhoto] {
            let table = columns::table(kind);
            self.connection.execute(
                &format!("UPDATE ledger SET held = 1 WHERE kind = ?1 AND id IN (SELECT id FROM {table} WHERE length(bytes) = 0)"),
                [kind as u8],
            )?;
            self.connection
                .execute(&format!("DELETE FROM {table} WHERE length(bytes) = 0"), [])?;
        }
        Ok(())
    }

    /// Marks the records whose rows went away with their owner's.
    pub(super) fn hold_orphans(&self) -> Result<(), StoreError> {
        for kind in Kind::ALL {
            if kind.stands_alone() {
                continue;
            }
            let beside = match kind {
                // Those of this device have their lines in tables of their own.
                Kind::Teardown => "AND json_extract(history, '$.values.device') <> (SELECT device FROM own)",
                Kind::JobRun => "AND NOT EXISTS (SELECT 1 FROM job_run WHERE job_run.id = ledger.id)",
                _ => "",
            };
            self.connection.execute(
                &format!(
                    "UPDATE ledger SET held = 1 WHERE kind = ?1 AND held = 0
                     AND json_extract(history, '$.values.removed') IS NOT 1
                     AND NOT EXISTS (SELECT 1 FROM {} AS t WHERE t.id = ledger.id) {beside}",
                    columns::table(kind)
                ),
                [kind as u8],
            )?;
        }
        Ok(())
    }

    /// Shows held records whose owner is here now.
    pub(super) fn release_held(&mut self) -> Result<(), StoreError> {
        let held: Vec<(u8, [u8; 16])> = self
            .connection
            .prepare("SELECT kind, id FROM ledger WHERE held = 1 ORDER BY kind, id")?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<_, _>>()?;
        for (code, bytes) in held {
            let (kind, id) = (ledger::of_code(code)?, Uuid::from_bytes(bytes));
            let Some(known) = ledger::read(self.connection, kind, id)? else {
                continue;
            };
            // A photo waits for its picture.
            if known.is_removed() || !kind.has_picture() && self.write_row(kind, id, &known, ExistingRow::Unknown)? {
                self.save_history(kind, id, &known, false)?;
            }
        }
        Ok(())
    }
}
