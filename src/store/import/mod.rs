//! Importing what another device knows: each record is merged with what is known here, and its
//! row follows. All or nothing, and one step of undo.

mod held;
mod picture;
mod record;

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, Transaction, TransactionBehavior};
use serde_json::Value;
use uuid::Uuid;

use super::columns::ExistingRow;
use super::error::{StoreError, damaged};
use super::ledger::{self, LedgerInserter, LocalDevice, PendingRecord};
use super::op::Op;
use super::open::{Store, mark};
use super::rows;
use super::undo::{self, With};
use crate::merge::{Device, Kind, RecordHistory};

/// Whether an import is committed or only previewed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ImportMode {
    /// Rolls back: the summary says what the import would do.
    Preview,
    /// Commits.
    Commit,
}

/// How many records of a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// Not known here before.
    pub new: u64,
    /// Known here, and now with something newer.
    pub changed: u64,
    /// Removed there, and so here.
    pub removed: u64,
}

/// What an import changes, or would change.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ImportSummary {
    /// By kind.
    pub tallies: BTreeMap<Kind, Tally>,
    /// Records that were already known in the same state.
    pub same: u64,
    /// Records that now have a field with two values, by kind and name; the first hundred.
    pub conflicting: Vec<(Kind, String)>,
    /// What was here and is removed by it, by kind and name; the first hundred.
    pub removed: Vec<(Kind, String)>,
    /// Records kept back, since what they belong to was removed.
    pub held: u64,
}

impl ImportSummary {
    /// Whether it brings nothing new.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.tallies.is_empty()
    }
}

/// KiB of pages in memory during an import, and otherwise.
const ARRIVING_CACHE: i32 = 88_000;
const USUAL_CACHE: i32 = 2_000;

/// An import in progress.
pub struct Importer<'t> {
    pub(super) connection: &'t Connection,
    inserter: LedgerInserter<'t>,
    /// Buffered records of one kind, not yet written.
    pending: Vec<PendingRecord>,
    pending_kind: Kind,
    /// How many records were written.
    flushed: usize,
    own: LocalDevice,
    arrival: i64,
    summary: ImportSummary,
    mode: ImportMode,
    owner: Option<(Kind, Uuid)>,
    owners_gone: bool,
    is_cloned: bool,
    own_sessions: BTreeSet<Device>,
}

impl Store {
    /// Takes in records as `work` hands them over, in the order of their kinds: as one operation,
    /// or, for [`ImportMode::Preview`], only to see what it would do.
    ///
    /// # Errors
    /// What `work` returns; [`StoreError::Refused`] or [`StoreError::Unreadable`] with the record
    /// and field; [`StoreError::Disk`] and the like if the data file fails. Nothing is taken in then.
    pub fn import<E: From<StoreError>>(
        &mut self,
        mode: ImportMode,
        work: impl FnOnce(&mut Importer<'_>) -> Result<(), E>,
    ) -> Result<ImportSummary, E> {
        self.writable()?;
        // A large arrival touches many pages again and again; they stay in memory meanwhile.
        self.cache(ARRIVING_CACHE)?;
        let done = self.import_within(mode, work);
        self.cache(USUAL_CACHE)?;
        done
    }

    fn cache(&self, kib: i32) -> Result<(), StoreError> {
        Ok(self.connection.pragma_update(None, "cache_size", -kib)?)
    }

    fn import_within<E: From<StoreError>>(
        &mut self,
        mode: ImportMode,
        work: impl FnOnce(&mut Importer<'_>) -> Result<(), E>,
    ) -> Result<ImportSummary, E> {
        let transaction =
            Transaction::new_unchecked(&self.connection, TransactionBehavior::Immediate).map_err(StoreError::from)?;
        let summary = run_import(&transaction, mode, work)?;
        match mode {
            ImportMode::Commit => {
                let mark = mark(&transaction)?;
                transaction.commit().map_err(StoreError::from)?;
                self.keep_mark(mark);
            }
            ImportMode::Preview => {
                let looked_at = self.preview.as_ref().map_or(&[][..], |preview| &preview.jobs);
                let after = self.read_jobs(looked_at)?;
                transaction.rollback().map_err(StoreError::from)?;
                self.previewed(after);
            }
        }
        Ok(summary)
    }
}

fn run_import<E: From<StoreError>>(
    transaction: &Transaction<'_>,
    mode: ImportMode,
    work: impl FnOnce(&mut Importer<'_>) -> Result<(), E>,
) -> Result<ImportSummary, E> {
    let mut own = ledger::own(transaction)?;
    own.changes += 1;
    let arrival = own.changes;
    let with = With {
        ledger: true,
        arrival: Some(arrival),
    };
    let operation = undo::begin(transaction, Op::Import, with)?;
    transaction
        .execute_batch("PRAGMA defer_foreign_keys = ON; DELETE FROM temp.touched; DELETE FROM temp.holding;")
        .map_err(StoreError::from)?;
    let mut importer = Importer {
        connection: transaction,
        inserter: LedgerInserter::new(transaction)?,
        pending: Vec::new(),
        pending_kind: Kind::Donor,
        flushed: 0,
        own,
        arrival,
        summary: ImportSummary::default(),
        mode,
        owner: None,
        owners_gone: false,
        is_cloned: false,
        own_sessions: ledger::own_sessions(transaction)?,
    };
    let summary = undo::in_bulk(transaction, || {
        work(&mut importer)?;
        Ok::<_, E>(importer.finish()?)
    })?;
    undo::end(transaction, operation)?;
    transaction
        .execute(
            "UPDATE operation SET arrival_stamps = (SELECT stamps FROM own) WHERE id = ?1",
            [operation],
        )
        .map_err(StoreError::from)?;
    if summary.is_nothing() {
        transaction
            .execute("DELETE FROM operation WHERE id = ?1", [operation])
            .map_err(StoreError::from)?;
    }
    Ok(summary)
}

impl Importer<'_> {
    fn finish(mut self) -> Result<ImportSummary, StoreError> {
        self.flush()?;
        if self.owners_gone {
            self.hold_orphans()?;
        }
        self.release_held()?;
        self.validate_value()?;
        if self.mode == ImportMode::Commit {
            self.hold_without_picture()?;
        }
        self.summary.held = self
            .connection
            .query_row("SELECT count(*) FROM ledger WHERE held = 1", [], |row| {
                row.get::<_, i64>(0).map(i64::cast_unsigned)
            })?;
        if self.is_cloned {
            self.begin_anew()?;
        }
        self.connection
            .execute_batch("DELETE FROM temp.touched; DELETE FROM temp.holding;")?;
        ledger::keep(self.connection, &self.own)?;
        Ok(self.summary)
    }
}

impl Importer<'_> {
    /// A clone of this device goes on under its number: this one takes a new number, and what happened at
    /// the former one's teardowns and benches is shown as on another device.
    fn begin_anew(&mut self) -> Result<(), StoreError> {
        let former = std::mem::replace(&mut self.own.device, ledger::new_device());
        // What was confirmed by hand may have been confirmed on the other one.
        self.connection.execute("UPDATE own SET home = ''", [])?;
        for kind in [Kind::Teardown, Kind::JobRun] {
            let ids = rows::ids(
                self.connection,
                "SELECT id FROM ledger WHERE kind = ?1 AND json_extract(history, '$.values.device') = ?2",
                (kind as u8, former.to_string()),
            )?;
            for id in ids {
                if let Some(known) = ledger::read(self.connection, kind, id)?.filter(|known| !known.is_removed()) {
                    self.write_row(kind, id, &known, ExistingRow::Unknown)?;
                }
            }
        }
        Ok(())
    }
}

/// What a person calls a record.
pub(super) fn name_of(kind: Kind, known: &RecordHistory) -> String {
    let key = match kind {
        Kind::Stock => "conductor",
        Kind::Note => "text",
        Kind::Measurement => "field",
        Kind::Photo => "what",
        _ => "name",
    };
    let name = known.shown(key).and_then(Value::as_str).unwrap_or_default();
    name.chars().take(200).collect()
}

/// An arrival is not taken back while something of this device hangs on what it brought, or was written
/// into it since, and would go with it for good.
///
/// # Errors
/// [`StoreError::WouldLose`].
pub(super) fn refuse_to_lose(connection: &Connection, operation: i64, arrival: i64) -> Result<(), StoreError> {
    const HANGING: [(&str, &str, Kind); 4] = [
        ("teardown_entry", "donor_id", Kind::Donor),
        ("job_run", "job_id", Kind::Job),
        ("photo", "donor_id", Kind::Donor),
        ("core_photo", "core_id", Kind::Core),
    ];
    for (table, owner, kind) in HANGING {
        let came_with_it = match table {
            "photo" | "core_photo" => format!(
                "AND NOT EXISTS (SELECT 1 FROM ledger WHERE kind = {} AND id = t.id AND arrived = ?1)",
                if table == "photo" { Kind::Photo } else { Kind::CorePhoto } as u8
            ),
            _ => String::new(),
        };
        let hangs = connection
            .prepare(&format!(
                "SELECT 1 FROM {table} AS t
                 WHERE {owner} IN (SELECT id FROM ledger WHERE kind = ?2 AND arrived = ?1) {came_with_it} LIMIT 1"
            ))?
            .exists((arrival, kind as u8))?;
        if hangs {
            return Err(StoreError::WouldLose);
        }
    }
    if was_written_since(connection, operation, arrival)? {
        return Err(StoreError::WouldLose);
    }
    Ok(())
}

/// Whether this device wrote something into a photo or a history that the arrival brought or changed,
/// after it: marks on a photo are no step of undo, so they would go with it.
fn was_written_since(connection: &Connection, operation: i64, arrival: i64) -> Result<bool, StoreError> {
    let stamps: i64 = connection.query_row(
        "SELECT coalesce(arrival_stamps, 0) FROM operation WHERE id = ?1",
        [operation],
        |row| row.get(0),
    )?;
    let own = ledger::own_sessions(connection)?;
    let kinds = [Kind::Photo, Kind::CorePhoto, Kind::Teardown, Kind::JobRun];
    for kind in kinds {
        let rows: Vec<String> = connection
            .prepare_cached(
                "SELECT history FROM ledger WHERE kind = ?1 AND (arrived = ?2 OR EXISTS (
                     SELECT 1 FROM operation_step AS step WHERE step.operation_id = ?3
                     AND step.kind = ?1 AND step.row_id = ledger.id
                 ))",
            )?
            .query_map((kind as u8, arrival, operation), |row| row.get(0))?
            .collect::<Result<_, _>>()?;
        for history in rows {
            let known = RecordHistory::parse(&history).map_err(|e| damaged("ledger", e))?;
            let written = known.values().any(|(field, _)| {
                known
                    .entries(field)
                    .iter()
                    .any(|entry| own.contains(&entry.stamp.device) && entry.stamp.count.cast_signed() > stamps)
            });
            if written {
                return Ok(true);
            }
        }
    }
    Ok(false)
}
