//! Taking in what another device knows: each record is merged with what is known here, and its
//! row follows. All or nothing, and one step of undo.

use std::collections::BTreeMap;

use rusqlite::{CachedStatement, Connection, Transaction, TransactionBehavior};
use serde_json::Value;
use uuid::Uuid;

use super::columns::{Before, Saying};
use super::error::{StoreError, damaged};
use super::ledger::{self, Own};
use super::open::Store;
use super::photos::{MAX_PHOTO_BYTES, kind_of};
use super::rows::blob;
use super::undo::{self, With};
use super::{carried, columns};
use crate::merge::{Kind, Known, Line, accept};

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

const LISTED: usize = 100;
/// KiB of pages in memory during an arrival, and else.
const ARRIVING_CACHE: i32 = 64_000;
const USUAL_CACHE: i32 = 2_000;

/// An arrival in progress.
pub struct Arriving<'t> {
    pub(super) connection: &'t Connection,
    beginning: CachedStatement<'t>,
    own: Own,
    arrival: i64,
    told: Arrival,
    mode: Mode,
    owner: Option<(Kind, Uuid)>,
    owners_gone: bool,
    twin: bool,
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
            Mode::Keep => transaction.commit().map_err(StoreError::from)?,
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
        beginning: ledger::beginning(transaction)?,
        own,
        arrival,
        told: Arrival::default(),
        mode,
        owner: None,
        owners_gone: false,
        twin: false,
    };
    let told = undo::in_bulk(transaction, || {
        work(&mut arriving)?;
        Ok::<_, E>(arriving.finish()?)
    })?;
    undo::end(transaction, operation)?;
    if told.is_nothing() {
        transaction
            .execute("DELETE FROM operation WHERE id = ?1", [operation])
            .map_err(StoreError::from)?;
    }
    Ok(told)
}

impl Arriving<'_> {
    /// Takes in one record.
    ///
    /// # Errors
    /// [`StoreError::Refused`]; what the disk says.
    pub fn take(&mut self, mut line: Line) -> Result<(), StoreError> {
        accept(&mut line)?;
        let Line { kind, id, known } = line;
        for stamp in known.seen().stamps() {
            // Only a twin, such as a copy of the folder, can know more of this device than it.
            self.twin |= stamp.device == self.own.device && stamp.count > self.own.stamps;
            self.own.stamps = self.own.stamps.max(stamp.count);
        }
        self.own.changes += 1;
        if ledger::begin(&mut self.beginning, kind, id, &known, self.own.changes, self.arrival)? {
            return self.bring(kind, id, &known);
        }
        match ledger::read(self.connection, kind, id)? {
            None => Err(damaged("ledger", "a row that is there cannot be read")),
            Some(old) => self.join(kind, id, &old, &known),
        }
    }

    fn bring(&mut self, kind: Kind, id: Uuid, known: &Known) -> Result<(), StoreError> {
        self.tell(kind).new += u64::from(!known.is_removed());
        if !known.is_removed() && !self.show(kind, id, known, Before::Nothing)? {
            self.connection
                .prepare_cached("UPDATE ledger SET held = 1 WHERE kind = ?1 AND id = ?2")?
                .execute((kind as u8, blob(id)))?;
        }
        Ok(())
    }

    fn join(&mut self, kind: Kind, id: Uuid, old: &Known, theirs: &Known) -> Result<(), StoreError> {
        let mut known = old.clone();
        if !known.take_in(theirs) {
            self.told.same += 1;
            return Ok(());
        }
        let mut held = false;
        match (old.is_removed(), known.is_removed()) {
            (true, true) => {}
            (false, true) => {
                // The row may have gone with its owner's.
                self.hide(kind, id)?;
                self.tell(kind).removed += 1;
                if matches!(kind, Kind::Donor | Kind::Job | Kind::Design | Kind::Stock) {
                    list(&mut self.told.removed, kind, &known);
                }
            }
            _ => {
                held = !self.show(kind, id, &known, Before::Perhaps)?;
                self.tell(kind).changed += 1;
            }
        }
        if !known.is_removed() && known.forks().count() > old.forks().count() {
            list(&mut self.told.forked, kind, &known);
        }
        self.settle(kind, id, &known, held)
    }

    fn tell(&mut self, kind: Kind) -> &mut Tally {
        self.told.tallies.entry(kind).or_default()
    }

    fn settle(&mut self, kind: Kind, id: Uuid, known: &Known, held: bool) -> Result<(), StoreError> {
        self.own.changes += 1;
        ledger::write(self.connection, kind, id, known, self.own.changes, held)
    }

    /// Makes the record's row follow what is known; false where its owner is not here.
    fn show(&mut self, kind: Kind, id: Uuid, known: &Known, before: Before) -> Result<bool, StoreError> {
        let mut values = Saying::of(known);
        if let Some(owner) = columns::needs(kind, &values) {
            if self.owner != Some(owner) && !columns::is_here(self.connection, owner.0, owner.1)? {
                if before == Before::Perhaps && columns::is_here(self.connection, kind, id)? {
                    self.hide(kind, id)?;
                }
                return Ok(false);
            }
            self.owner = Some(owner);
        }
        if kind == Kind::Core {
            let donor = values
                .get("donor")
                .and_then(|id| id.as_str())
                .and_then(|id| id.parse().ok());
            if let Some(donor) = donor
                && !columns::is_here(self.connection, Kind::Donor, donor)?
            {
                values.but("donor", None);
            }
        }
        match kind {
            Kind::Teardown | Kind::BenchRun => carried::write(self.connection, self.own.device, kind, id, &values)?,
            _ => columns::write(self.connection, kind, id, &values, before)?,
        }
        if kind.owns() || kind == Kind::Stock {
            self.connection
                .prepare_cached("INSERT OR IGNORE INTO temp.touched (kind, id) VALUES (?1, ?2)")?
                .execute((kind as u8, blob(id)))?;
        }
        Ok(true)
    }

    /// Takes the record's row away, with what cannot be without it.
    fn hide(&mut self, kind: Kind, id: Uuid) -> Result<(), StoreError> {
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

    /// Takes in the picture of a photo whose record came before.
    ///
    /// # Errors
    /// [`StoreError::Unreadable`] where it is not the picture that its record means; what the
    /// disk says.
    pub fn picture(&mut self, kind: Kind, id: Uuid, bytes: &[u8]) -> Result<(), StoreError> {
        let wrong = |reason: &str| StoreError::Unreadable {
            what: format!("the picture of {} {id}", kind.word()),
            reason: reason.to_owned(),
        };
        if !kind.has_picture() {
            return Err(wrong("such a record has none"));
        }
        let Some(known) = ledger::read(self.connection, kind, id)? else {
            return Err(wrong("the file has no record of it"));
        };
        let says = |field: &str| known.shown(field).and_then(Value::as_str).unwrap_or_default();
        if bytes.len() > MAX_PHOTO_BYTES {
            return Err(wrong("it is larger than 16 MiB"));
        }
        if kind_of(bytes) != Some(says("kind")) {
            return Err(wrong("it is no picture of the kind that its record names"));
        }
        if ledger::sum(bytes) != says("sha256") {
            return Err(wrong("its SHA-256 is not the one in its record"));
        }
        if known.is_removed() {
            return Ok(());
        }
        if !columns::is_here(self.connection, kind, id)? {
            // It was kept back for want of its picture, or of its owner.
            if !self.show(kind, id, &known, Before::Perhaps)? {
                return Ok(());
            }
            self.settle(kind, id, &known, false)?;
        }
        self.connection
            .prepare_cached(&format!(
                "UPDATE {} SET bytes = ?2 WHERE id = ?1 AND length(bytes) = 0",
                columns::table(kind)
            ))?
            .execute((blob(id), bytes))?;
        Ok(())
    }

    /// Keeps back the photos whose pictures did not come: the sender has none of them either.
    fn hold_without_picture(&self) -> Result<(), StoreError> {
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

    fn finish(mut self) -> Result<Arrival, StoreError> {
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
        }
        self.connection
            .execute_batch("DELETE FROM temp.touched; DELETE FROM temp.holding;")?;
        ledger::keep(self.connection, &self.own)?;
        Ok(self.told)
    }

    /// Marks the records whose rows went away with their owner's.
    fn hold_orphans(&self) -> Result<(), StoreError> {
        for kind in Kind::ALL {
            if kind.stands_alone() {
                continue;
            }
            let beside = match kind {
                // Those of this device have their lines in tables of their own.
                Kind::Teardown => "AND json_extract(history, '$.values.device') <> (SELECT device FROM own)",
                Kind::BenchRun => "AND NOT EXISTS (SELECT 1 FROM bench_run WHERE bench_run.id = ledger.id)",
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
    fn let_go_of_held(&mut self) -> Result<(), StoreError> {
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
            if known.is_removed() || !kind.has_picture() && self.show(kind, id, &known, Before::Perhaps)? {
                self.settle(kind, id, &known, false)?;
            }
        }
        Ok(())
    }
}

fn list(names: &mut Vec<(Kind, String)>, kind: Kind, known: &Known) {
    if names.len() < LISTED {
        names.push((kind, name_of(kind, known)));
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

/// An arrival is not taken back while something of this device hangs on what it brought and would
/// go with it for good.
///
/// # Errors
/// [`StoreError::WouldLose`].
pub(super) fn refuse_to_lose(connection: &Connection, arrival: i64) -> Result<(), StoreError> {
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
    Ok(())
}
