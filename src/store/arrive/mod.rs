//! Taking in what another device knows: each record is merged with what is known here, and its
//! row follows. All or nothing, and one step of undo.

mod held;
mod picture;
mod take;

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{Connection, Transaction, TransactionBehavior};
use serde_json::Value;
use uuid::Uuid;

use super::error::{StoreError, damaged};
use super::ledger::{self, Beginning, Came, Own};
use super::open::{Store, mark};
use super::undo::{self, With};
use crate::merge::{Device, Kind, Known};

/// Whether an arrival is to stay, or only to be looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// Nothing is kept: what it would do is told.
    Look,
    /// It is kept.
    Keep,
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

/// What an arrival does, or would do.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Arrival {
    /// By kind.
    pub tallies: BTreeMap<Kind, Tally>,
    /// Records that were known here as they came.
    pub same: u64,
    /// Records that now have a field with two values, by kind and name; the first hundred.
    pub forked: Vec<(Kind, String)>,
    /// What was here and is removed by it, by kind and name; the first hundred.
    pub removed: Vec<(Kind, String)>,
    /// Records kept back, since what they belong to was removed.
    pub held: u64,
}

impl Arrival {
    /// Whether it brings nothing new.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.tallies.is_empty()
    }
}

/// KiB of pages in memory during an arrival, and else.
const ARRIVING_CACHE: i32 = 88_000;
const USUAL_CACHE: i32 = 2_000;

/// An arrival in progress.
pub struct Arriving<'t> {
    pub(super) connection: &'t Connection,
    beginning: Beginning<'t>,
    /// What came last, of one kind, and is not entered yet.
    came: Vec<Came>,
    came_kind: Kind,
    own: Own,
    arrival: i64,
    told: Arrival,
    mode: Mode,
    owner: Option<(Kind, Uuid)>,
    owners_gone: bool,
    twin: bool,
    own_sessions: BTreeSet<Device>,
}

impl Store {
    /// Takes in records as `work` hands them over, in the order of their kinds: as one operation
    /// called `name`, or, for [`Mode::Look`], only to see what it would do.
    ///
    /// # Errors
    /// What `work` returns; [`StoreError::Refused`] or [`StoreError::Unreadable`] with the record
    /// and field; what the disk says. Nothing is taken in then.
    pub fn arrive<E: From<StoreError>>(
        &mut self,
        name: &str,
        mode: Mode,
        work: impl FnOnce(&mut Arriving<'_>) -> Result<(), E>,
    ) -> Result<Arrival, E> {
        self.writable()?;
        // A large arrival touches many pages again and again; they stay in memory meanwhile.
        self.cache(ARRIVING_CACHE)?;
        let done = self.arrive_within(name, mode, work);
        self.cache(USUAL_CACHE)?;
        done
    }

    fn cache(&self, kib: i32) -> Result<(), StoreError> {
        Ok(self.connection.pragma_update(None, "cache_size", -kib)?)
    }

    fn arrive_within<E: From<StoreError>>(
        &mut self,
        name: &str,
        mode: Mode,
        work: impl FnOnce(&mut Arriving<'_>) -> Result<(), E>,
    ) -> Result<Arrival, E> {
        let transaction = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(StoreError::from)?;
        let told = arrive(&transaction, name, mode, work)?;
        match mode {
            Mode::Keep => {
                let mark = mark(&transaction)?;
                transaction.commit().map_err(StoreError::from)?;
                self.keep_mark(mark);
            }
            Mode::Look => transaction.rollback().map_err(StoreError::from)?,
        }
        Ok(told)
    }
}

fn arrive<E: From<StoreError>>(
    transaction: &Transaction<'_>,
    name: &str,
    mode: Mode,
    work: impl FnOnce(&mut Arriving<'_>) -> Result<(), E>,
) -> Result<Arrival, E> {
    let mut own = ledger::own(transaction)?;
    own.changes += 1;
    let arrival = own.changes;
    let with = With {
        ledger: true,
        arrival: Some(arrival),
    };
    let operation = undo::begin(transaction, name, with)?;
    transaction
        .execute_batch("PRAGMA defer_foreign_keys = ON; DELETE FROM temp.touched; DELETE FROM temp.holding;")
        .map_err(StoreError::from)?;
    let mut arriving = Arriving {
        connection: transaction,
        beginning: Beginning::new(transaction)?,
        came: Vec::new(),
        came_kind: Kind::Donor,
        own,
        arrival,
        told: Arrival::default(),
        mode,
        owner: None,
        owners_gone: false,
        twin: false,
        own_sessions: ledger::own_sessions(transaction)?,
    };
    let told = undo::in_bulk(transaction, || {
        work(&mut arriving)?;
        Ok::<_, E>(arriving.finish()?)
    })?;
    undo::end(transaction, operation)?;
    transaction
        .execute(
            "UPDATE operation SET arrival_stamps = (SELECT stamps FROM own) WHERE id = ?1",
            [operation],
        )
        .map_err(StoreError::from)?;
    if told.is_nothing() {
        transaction
            .execute("DELETE FROM operation WHERE id = ?1", [operation])
            .map_err(StoreError::from)?;
    }
    Ok(told)
}

impl Arriving<'_> {
    fn finish(mut self) -> Result<Arrival, StoreError> {
        self.enter()?;
        if self.owners_gone {
            self.hold_orphans()?;
        }
        self.let_go_of_held()?;
        self.judge()?;
        if self.mode == Mode::Keep {
            self.hold_without_picture()?;
        }
        self.told.held = self
            .connection
            .query_row("SELECT count(*) FROM ledger WHERE held = 1", [], |row| {
                row.get::<_, i64>(0).map(i64::cast_unsigned)
            })?;
        if self.twin {
            self.own.device = ledger::new_device();
            // What was confirmed by hand may have been confirmed on the other one.
            self.connection.execute("UPDATE own SET home = ''", [])?;
        }
        self.connection
            .execute_batch("DELETE FROM temp.touched; DELETE FROM temp.holding;")?;
        ledger::keep(self.connection, &self.own)?;
        Ok(self.told)
    }
}

/// What a person calls a record.
pub(super) fn name_of(kind: Kind, known: &Known) -> String {
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
        ("bench_run", "job_id", Kind::Job),
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
    let kinds = [Kind::Photo, Kind::CorePhoto, Kind::Teardown, Kind::BenchRun];
    for kind in kinds {
        let rows: Vec<String> = connection
            .prepare_cached(
                "SELECT history FROM ledger WHERE kind = ?1 AND (arrived = ?2 OR EXISTS (
                     SELECT 1 FROM operation_step WHERE operation_id = ?3
                     AND statement LIKE '% WHERE kind = ' || ?1 || ' AND id = ' || quote(ledger.id)
                 ))",
            )?
            .query_map((kind as u8, arrival, operation), |row| row.get(0))?
            .collect::<Result<_, _>>()?;
        for history in rows {
            let known = Known::parse(&history).map_err(|e| damaged("ledger", e))?;
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
