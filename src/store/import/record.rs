//! One record of an import: merged with what is known, its row made to follow.

use uuid::Uuid;

use super::{Importer, Tally, name_of};
use crate::merge::{Kind, RecordHistory, RecordLine, accept};
use crate::store::columns::{self, ExistingRow, RowValues};
use crate::store::error::{StoreError, damaged};
use crate::store::ledger::PendingRecord;
use crate::store::rows::blob;
use crate::store::{ledger, remote_histories};

const LISTED: usize = 100;

/// Before a record of more bytes than this, what waits is entered: little is kept in memory.
const LONG: usize = 1 << 16;

impl Importer<'_> {
    /// Takes in one record. The ledger keeps its history as this program writes it, so that nothing of the
    /// line's own layout takes room here or travels on.
    ///
    /// # Errors
    /// [`StoreError::Refused`]; [`StoreError::Disk`] and the like if the data file fails.
    pub fn take(&mut self, mut line: RecordLine) -> Result<(), StoreError> {
        accept(&mut line)?;
        let RecordLine { kind, id, known } = line;
        for stamp in known.seen().stamps() {
            // Only a clone of this device, such as its disk put back from a snapshot, had other
            // sessions than those known here, or came further in one of them.
            self.is_cloned |= stamp.device.machine() == self.own.device
                && (stamp.count > self.own.stamps || !self.own_sessions.contains(&stamp.device));
            self.own.follow(stamp);
        }
        self.own.changes += 1;
        let history = known.to_json();
        if kind != self.pending_kind || self.pending.len() == ledger::BATCH_ROWS || history.len() > LONG {
            self.flush()?;
        }
        self.pending_kind = kind;
        self.pending.push(PendingRecord {
            id,
            known,
            history,
            change: self.own.changes,
        });
        Ok(())
    }

    /// Writes the buffered records, all of one kind.
    pub(super) fn flush(&mut self) -> Result<(), StoreError> {
        let (kind, mut pending) = (self.pending_kind, std::mem::take(&mut self.pending));
        let written = self.inserter.begin(kind, self.arrival, &pending)?;
        if written == pending.len() {
            self.insert_new(kind, &pending)?;
        } else {
            for one in &pending {
                match ledger::read_with_change(self.connection, kind, one.id)? {
                    None => return Err(damaged("ledger", "a row that is there cannot be read")),
                    Some((_, change)) if change == one.change => self.insert_new(kind, std::slice::from_ref(one))?,
                    Some((old, _)) => self.merge_existing(kind, one.id, &old, &one.known)?,
                }
            }
        }
        pending.clear();
        self.pending = pending;
        Ok(())
    }

    /// Writes the rows of records that were not known here.
    fn insert_new(&mut self, kind: Kind, pending: &[PendingRecord]) -> Result<(), StoreError> {
        let mut rows = Vec::with_capacity(pending.len());
        for PendingRecord { id, known, .. } in pending {
            self.tally(kind).new += u64::from(!known.is_removed());
            if known.is_removed() {
                continue;
            }
            // Nothing belongs to these, so that their rows may wait for each other.
            let shown = if columns::has_owner(kind) {
                let values = RowValues::of(known);
                let shown = self.has_owner_here(kind, &values)?;
                rows.extend(shown.then_some((*id, values)));
                shown
            } else {
                self.write_row(kind, *id, known, ExistingRow::Absent)?
            };
            if !shown {
                self.connection
                    .prepare_cached("UPDATE ledger SET held = 1 WHERE kind = ?1 AND id = ?2")?
                    .execute((kind as u8, blob(*id)))?;
            }
        }
        columns::write_new(self.connection, kind, &rows)
    }

    fn merge_existing(
        &mut self,
        kind: Kind,
        id: Uuid,
        old: &RecordHistory,
        theirs: &RecordHistory,
    ) -> Result<(), StoreError> {
        let mut known = old.clone();
        if !known.merge_in(theirs) {
            self.summary.same += 1;
            return Ok(());
        }
        let mut held = false;
        match (old.is_removed(), known.is_removed()) {
            (true, true) => {}
            (false, true) => {
                // The row may have gone with its owner's.
                self.delete_row(kind, id)?;
                self.tally(kind).removed += 1;
                if matches!(kind, Kind::Donor | Kind::Job | Kind::Design | Kind::Stock) {
                    list(&mut self.summary.removed, kind, &known);
                }
            }
            _ => {
                held = !self.write_row(kind, id, &known, ExistingRow::Unknown)?;
                self.tally(kind).changed += 1;
            }
        }
        if !known.is_removed() && ledger::conflicts(kind, &known) > ledger::conflicts(kind, old) {
            list(&mut self.summary.conflicting, kind, &known);
        }
        self.save_history(kind, id, &known, held)
    }

    fn tally(&mut self, kind: Kind) -> &mut Tally {
        self.summary.tallies.entry(kind).or_default()
    }

    pub(super) fn save_history(
        &mut self,
        kind: Kind,
        id: Uuid,
        known: &RecordHistory,
        held: bool,
    ) -> Result<(), StoreError> {
        self.own.changes += 1;
        ledger::write(self.connection, kind, id, known, self.own.changes, held)
    }

    /// Makes the record's row follow what is known; false where its owner is not here.
    pub(super) fn write_row(
        &mut self,
        kind: Kind,
        id: Uuid,
        known: &RecordHistory,
        before: ExistingRow,
    ) -> Result<bool, StoreError> {
        let mut values = RowValues::of(known);
        if !self.has_owner_here(kind, &values)? {
            if before == ExistingRow::Unknown && columns::is_here(self.connection, kind, id)? {
                self.delete_row(kind, id)?;
            }
            return Ok(false);
        }
        columns::leave_out_gone(self.connection, kind, &mut values)?;
        match kind {
            Kind::Teardown | Kind::JobRun => {
                remote_histories::write(self.connection, self.own.device, kind, id, &values)?;
            }
            _ => columns::write(self.connection, kind, id, &values, before)?,
        }
        if kind.owns() || kind == Kind::Stock {
            self.connection
                .prepare_cached("INSERT OR IGNORE INTO temp.touched (kind, id) VALUES (?1, ?2)")?
                .execute((kind as u8, blob(id)))?;
        }
        Ok(true)
    }

    /// Whether what the record belongs to is here, where it must be.
    fn has_owner_here(&mut self, kind: Kind, values: &RowValues<'_>) -> Result<bool, StoreError> {
        if let Some(owner) = columns::needs(kind, values) {
            if self.owner != Some(owner) && !columns::is_here(self.connection, owner.0, owner.1)? {
                return Ok(false);
            }
            self.owner = Some(owner);
        }
        Ok(true)
    }

    /// Takes the record's row away, with what cannot be without it.
    fn delete_row(&mut self, kind: Kind, id: Uuid) -> Result<(), StoreError> {
        self.owner = None;
        self.owners_gone |= kind.owns();
        if kind == Kind::Core {
            self.connection
                .execute("DELETE FROM job WHERE core_id = ?1", [blob(id)])?;
        }
        self.connection
            .prepare_cached(&format!("DELETE FROM {} WHERE id = ?1", columns::table(kind)))?
            .execute([blob(id)])?;
        self.connection
            .prepare_cached("DELETE FROM temp.touched WHERE kind = ?1 AND id = ?2")?
            .execute((kind as u8, blob(id)))?;
        Ok(())
    }
}

fn list(names: &mut Vec<(Kind, String)>, kind: Kind, known: &RecordHistory) {
    if names.len() < LISTED {
        names.push((kind, name_of(kind, known)));
    }
}
