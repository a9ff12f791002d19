//! Who changed what: after each operation the rows that it touched are compared with the ledger,
//! and what differs gets the stamp of this device. So undo and redo are changes like any other.

use std::collections::{BTreeMap, BTreeSet};

use rusqlite::{CachedStatement, Connection, OptionalExtension, ToSql};
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use uuid::Uuid;

use super::error::{StoreError, damaged};
use super::rows::blob;
use super::{columns, histories, ids};
use crate::merge::{Device, Kind, MAX_COUNT, MAX_FOLLOWED, RecordHistory, Stamp, hex};
use crate::photo::without_position;

/// This device.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LocalDevice {
    /// Its number.
    pub device: Device,
    /// What the person calls it.
    pub name: String,
    /// The number of this session: changes are stamped with device and session.
    session: u32,
    /// The highest count of a stamp that it gave or saw.
    pub(super) stamps: u64,
    /// How many changes the ledger has had.
    pub(super) changes: i64,
}

impl LocalDevice {
    /// Who writes now: this device in this session.
    pub(super) fn author(&self) -> Device {
        self.device.session(self.session)
    }

    /// The stamp of the next change. Where the counts have come to their end, the device begins again
    /// under a new number.
    pub(super) fn next_stamp(&mut self) -> Stamp {
        if self.stamps >= MAX_COUNT {
            self.device = new_device();
            self.stamps = 0;
        }
        self.stamps += 1;
        Stamp {
            count: self.stamps,
            device: self.author(),
        }
    }

    /// Makes the clock follow a foreign stamp, so that a later change has a higher count.
    pub(super) fn follow(&mut self, stamp: Stamp) {
        if stamp.count <= MAX_FOLLOWED {
            self.stamps = self.stamps.max(stamp.count);
        }
    }
}

/// A new device number: random.
pub(super) fn new_device() -> Device {
    Device(ids::random()).machine()
}

/// Gives this connection the number of its session.
pub(super) fn begin_session(connection: &Connection) -> Result<(), StoreError> {
    connection.execute_batch("CREATE TEMP TABLE session (number INTEGER NOT NULL)")?;
    // The upper half; 0 is the device without a session.
    let number = ((ids::random() >> 32) as u32).max(1);
    connection.execute("INSERT INTO temp.session (number) VALUES (?1)", [number])?;
    Ok(())
}

/// The sessions of this device that stamped something, under this and former numbers.
pub(super) fn own_sessions(connection: &Connection) -> Result<BTreeSet<Device>, StoreError> {
    let sessions: Vec<String> = connection
        .prepare_cached("SELECT session FROM own_session")?
        .query_map([], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    sessions
        .iter()
        .map(|session| session.parse().map_err(|e| damaged("session", e)))
        .collect()
}

/// This device, from the store.
pub(super) fn own(connection: &Connection) -> Result<LocalDevice, StoreError> {
    let (device, name, stamps, changes, session) = connection
        .prepare_cached("SELECT device, name, stamps, changes, (SELECT number FROM temp.session) FROM own")?
        .query_row([], |row| {
            Ok((
                row.get::<_, String>(0)?,
                row.get(1)?,
                row.get::<_, i64>(2)?,
                row.get(3)?,
                row.get(4)?,
            ))
        })?;
    let device: Device = device.parse().map_err(|e| damaged("device", e))?;
    Ok(LocalDevice {
        device: device.machine(),
        session,
        name,
        stamps: u64::try_from(stamps).map_err(|e| damaged("stamps", e))?,
        changes,
    })
}

/// Saves this device's number and counters, and its session among its own.
pub(super) fn keep(connection: &Connection, own: &LocalDevice) -> Result<(), StoreError> {
    connection
        .prepare_cached("UPDATE own SET device = ?1, name = ?2, stamps = ?3, changes = ?4")?
        .execute((own.device.to_string(), &own.name, own.stamps.cast_signed(), own.changes))?;
    connection
        .prepare_cached("INSERT OR IGNORE INTO own_session (session) VALUES (?1)")?
        .execute([own.author().to_string()])?;
    Ok(())
}

/// A row of the ledger.
pub(super) fn read(connection: &Connection, kind: Kind, id: Uuid) -> Result<Option<RecordHistory>, StoreError> {
    Ok(read_with_change(connection, kind, id)?.map(|(known, _)| known))
}

/// A row of the ledger, and the change that wrote it.
pub(super) fn read_with_change(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
) -> Result<Option<(RecordHistory, i64)>, StoreError> {
    let row: Option<(String, i64)> = connection
        .prepare_cached("SELECT history, change FROM ledger WHERE kind = ?1 AND id = ?2")?
        .query_row((kind as u8, blob(id)), |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    row.map(|(text, change)| Ok((RecordHistory::parse(&text).map_err(|e| damaged("ledger", e))?, change)))
        .transpose()
}

/// A record that an arrival brings, not in the ledger yet. `history` is what is known, as JSON.
#[derive(Debug)]
pub(super) struct PendingRecord {
    pub(super) id: Uuid,
    pub(super) known: RecordHistory,
    pub(super) history: String,
    pub(super) change: i64,
}

/// How many rows one statement writes where many follow each other: a statement costs as much as
/// several rows.
pub(super) const BATCH_ROWS: usize = 64;

/// The statements that begin rows of the ledger; an arrival keeps them at hand for a million records.
pub(super) struct LedgerInserter<'t> {
    one: CachedStatement<'t>,
    many: CachedStatement<'t>,
}

impl<'t> LedgerInserter<'t> {
    pub(super) fn new(connection: &'t Connection) -> Result<Self, StoreError> {
        let of = |rows: usize| {
            let values = vec!["(?, ?, ?, ?, ?, 0, ?)"; rows].join(", ");
            connection.prepare_cached(&format!(
                "INSERT INTO ledger (kind, id, history, change, conflicts, held, arrived) VALUES {values}
                 ON CONFLICT (kind, id) DO NOTHING"
            ))
        };
        Ok(Self {
            one: of(1)?,
            many: of(BATCH_ROWS)?,
        })
    }

    /// Writes rows of the ledger where there are none yet, quickest for [`BATCH_ROWS`] of them; tells how
    /// many it wrote.
    pub(super) fn begin(&mut self, kind: Kind, arrival: i64, came: &[PendingRecord]) -> Result<usize, StoreError> {
        if came.len() == BATCH_ROWS {
            return begin(&mut self.many, kind, arrival, came);
        }
        let one = |row| begin(&mut self.one, kind, arrival, std::slice::from_ref(row));
        came.iter().map(one).sum()
    }
}

fn begin(
    statement: &mut CachedStatement<'_>,
    kind: Kind,
    arrival: i64,
    rows: &[PendingRecord],
) -> Result<usize, StoreError> {
    let mut place = 0;
    for row in rows {
        let cells: [&dyn ToSql; 6] = [
            &(kind as u8),
            &blob(row.id),
            &row.history,
            &row.change,
            &conflicts(kind, &row.known),
            &arrival,
        ];
        for cell in cells {
            place += 1;
            statement.raw_bind_parameter(place, cell)?;
        }
    }
    Ok(statement.raw_execute()?)
}

/// How many fields of a record have two values that a person chooses from. A history of teardown or
/// bench is what happened on one device: the later telling shows.
pub(super) fn conflicts(kind: Kind, known: &RecordHistory) -> u32 {
    match kind {
        Kind::Teardown | Kind::JobRun => 0,
        _ => u32::try_from(known.conflicts().count()).unwrap_or(u32::MAX),
    }
}

/// Writes a row of the ledger.
pub(super) fn write(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
    known: &RecordHistory,
    change: i64,
    held: bool,
) -> Result<(), StoreError> {
    connection
        .prepare_cached(
            "INSERT INTO ledger (kind, id, history, change, conflicts, held) VALUES (?1, ?2, ?3, ?4, ?5, ?6)
             ON CONFLICT (kind, id) DO UPDATE SET history = excluded.history, change = excluded.change,
                 conflicts = excluded.conflicts, held = excluded.held",
        )?
        .execute((
            kind as u8,
            blob(id),
            known.to_json(),
            change,
            conflicts(kind, known),
            held,
        ))?;
    Ok(())
}

/// The tables whose rows are records, and those whose rows are lines of one: the kind, the column
/// with the record's id.
const WATCHED: &[(&str, Kind, &str)] = &[
    ("donor", Kind::Donor, "id"),
    ("core", Kind::Core, "id"),
    ("job", Kind::Job, "id"),
    ("design", Kind::Design, "id"),
    ("stock", Kind::Stock, "id"),
    ("measurement", Kind::Measurement, "id"),
    ("measurement", Kind::Donor, "donor_id"),
    ("measurement", Kind::Core, "core_id"),
    ("measurement", Kind::Job, "job_id"),
    ("measurement", Kind::Design, "design_id"),
    ("note", Kind::Note, "id"),
    ("photo", Kind::Photo, "id"),
    ("core_photo", Kind::CorePhoto, "id"),
    ("teardown_entry", Kind::Teardown, "donor_id"),
    ("job_run", Kind::JobRun, "id"),
    ("job_run_entry", Kind::JobRun, "run_id"),
];

/// Puts triggers on this connection that note which records were touched.
pub(super) fn watch(connection: &Connection) -> Result<(), StoreError> {
    connection.execute_batch(
        "CREATE TEMP TABLE touched (kind INTEGER NOT NULL, id BLOB NOT NULL, PRIMARY KEY (kind, id)) WITHOUT ROWID;
         CREATE TEMP TABLE holding (id BLOB PRIMARY KEY NOT NULL) WITHOUT ROWID;",
    )?;
    watch_rows(connection)
}

/// Puts the triggers alone on this connection.
pub(super) fn watch_rows(connection: &Connection) -> Result<(), StoreError> {
    let tables: BTreeSet<&str> = WATCHED.iter().map(|(table, ..)| *table).collect();
    for table in tables {
        for (event, row) in [("INSERT", "NEW"), ("UPDATE", "NEW"), ("DELETE", "OLD")] {
            let notes: String = WATCHED
                .iter()
                .filter(|(watched, ..)| *watched == table)
                .map(|(_, kind, column)| {
                    format!(
                        "INSERT OR IGNORE INTO touched (kind, id)
                         SELECT {}, {row}.{column} WHERE {row}.{column} IS NOT NULL;",
                        *kind as u8
                    )
                })
                .collect();
            connection.execute_batch(&format!(
                "CREATE TEMP TRIGGER touch_{table}_{event} AFTER {event} ON main.{table} BEGIN {notes} END;"
            ))?;
        }
    }
    Ok(())
}

/// Makes sure that this device has a number, and that every record is in the ledger. `home` is
/// what a new file gets as its place.
pub(super) fn prepare(connection: &mut Connection, home: &str) -> Result<(), StoreError> {
    if connection.prepare("SELECT 1 FROM own")?.exists([])? {
        return Ok(());
    }
    let transaction = connection.transaction_with_behavior(rusqlite::TransactionBehavior::Immediate)?;
    transaction.execute(
        "INSERT INTO own (one, device, name, stamps, changes, home) VALUES (1, ?1, '', 0, 0, ?2)",
        [&new_device().to_string(), home],
    )?;
    for (table, kind, column) in WATCHED {
        transaction.execute(
            &format!(
                "INSERT OR IGNORE INTO touched (kind, id)
                 SELECT {}, {column} FROM {table} WHERE {column} IS NOT NULL",
                *kind as u8
            ),
            [],
        )?;
    }
    stamp(&transaction)?;
    transaction.commit()?;
    Ok(())
}

/// Compares what was touched with the ledger, and stamps what differs.
pub(super) fn stamp(connection: &Connection) -> Result<(), StoreError> {
    let mut own = own(connection)?;
    let changes = own.changes;
    let stamp = own.next_stamp();
    // In the order of kinds; a batch at a time, so that memory does not grow with a first run.
    loop {
        let batch: Vec<(u8, [u8; 16])> = connection
            .prepare_cached("SELECT kind, id FROM touched ORDER BY kind, id LIMIT 500")?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<_, _>>()?;
        if batch.is_empty() {
            break;
        }
        for (code, bytes) in batch {
            let kind = of_code(code)?;
            stamp_one(connection, &mut own, stamp, kind, Uuid::from_bytes(bytes))?;
            connection
                .prepare_cached("DELETE FROM touched WHERE kind = ?1 AND id = ?2")?
                .execute((code, bytes))?;
        }
    }
    if own.changes == changes {
        return Ok(());
    }
    keep(connection, &own)
}

pub(super) fn of_code(code: u8) -> Result<Kind, StoreError> {
    Kind::ALL
        .get(usize::from(code))
        .copied()
        .ok_or_else(|| damaged("ledger", "a kind that is not known"))
}

fn stamp_one(
    connection: &Connection,
    own: &mut LocalDevice,
    stamp: Stamp,
    kind: Kind,
    id: Uuid,
) -> Result<(), StoreError> {
    let (id, now) = match kind {
        Kind::Teardown => (
            histories::teardown_id(own.device, id),
            histories::teardown(connection, own, id)?,
        ),
        Kind::JobRun => (id, histories::job_run(connection, own, id)?),
        _ => (id, columns::read(connection, kind, id)?),
    };
    let old = read(connection, kind, id)?;
    let known = match (old, now) {
        (None, None) => return Ok(()),
        (None, Some(mut values)) => {
            add_picture(connection, kind, id, &mut values)?;
            RecordHistory::new(stamp, values)
        }
        (Some(known), None) if known.is_removed() => return Ok(()),
        (Some(mut known), None) => {
            known.remove(stamp);
            known
        }
        (Some(known), Some(values)) => match changed(connection, &known, stamp, values)? {
            Some(known) => known,
            None => return Ok(()),
        },
    };
    own.changes += 1;
    write(connection, kind, id, &known, own.changes, false)
}

/// The history with what differs now; none where nothing does.
fn changed(
    connection: &Connection,
    known: &RecordHistory,
    stamp: Stamp,
    values: BTreeMap<String, Value>,
) -> Result<Option<RecordHistory>, StoreError> {
    let mut next = known.clone();
    if known.is_removed() {
        next.write(stamp, crate::merge::REMOVED, json!(false));
    }
    let gone = known
        .values()
        .filter(|(field, value)| !values.contains_key(*field) && !value.is_null() && *field != "sha256");
    for (field, _) in gone {
        next.write(stamp, field, Value::Null);
    }
    for (field, value) in values {
        let shown = known.shown(&field).unwrap_or(&Value::Null);
        let same = *shown == value || field == "donor" && value.is_null() && is_gone(connection, shown)?;
        if !same {
            next.write(stamp, &field, value);
        }
    }
    Ok((next != *known).then_some(next))
}

/// Whether a donor that a core names is not here: the core's row names none then.
fn is_gone(connection: &Connection, donor: &Value) -> Result<bool, StoreError> {
    match donor.as_str().map(str::parse::<Uuid>) {
        Some(Ok(id)) => {
            let known = read(connection, Kind::Donor, id)?;
            Ok(known.is_none_or(|known| known.is_removed()))
        }
        _ => Ok(false),
    }
}

/// A picture never changes: its sum is taken once.
fn add_picture(
    connection: &Connection,
    kind: Kind,
    id: Uuid,
    values: &mut BTreeMap<String, Value>,
) -> Result<(), StoreError> {
    if kind.has_picture() {
        let bytes = picture(connection, kind, id)?.ok_or(StoreError::NotFound { what: "photo" })?;
        values.insert("sha256".to_owned(), json!(picture_sum(&bytes)));
    }
    Ok(())
}

/// The SHA-256 of a picture without its position data, as 64 hexadecimal digits: the same whether or
/// not those left the device with it.
pub(super) fn picture_sum(bytes: &[u8]) -> String {
    hex(&Sha256::digest(without_position(bytes)))
}

/// A picture's bytes; none where it is not here.
pub(super) fn picture(connection: &Connection, kind: Kind, id: Uuid) -> Result<Option<Vec<u8>>, StoreError> {
    Ok(connection
        .prepare_cached(&format!("SELECT bytes FROM {} WHERE id = ?1", columns::table(kind)))?
        .query_row([blob(id)], |row| row.get(0))
        .optional()?)
}
