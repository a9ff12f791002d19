//! Undo: an operation is a list of steps, each the change of one row with its earlier values. To undo is
//! to put those back, last step first, while the same triggers write the steps that redo it.

mod record;
mod step;

use rusqlite::{Connection, OptionalExtension};

use super::error::{StoreError, damaged};
use super::op::Op;
use super::{columns, validate};
use crate::merge::Kind;

pub(super) use record::{UNLESS_BULK, watch};
use step::Step;

/// How many operations can be taken back.
pub(super) const KEPT: u32 = 100;

/// The tables that a person's operations change; each row has its `id`.
pub(super) const TABLES: &[&str] = &[
    "donor",
    "core",
    "job",
    "design",
    "note",
    "measurement",
    "stock",
    "remote_history",
];

/// The place of a kind in `temp.restored` for a row of `remote_history`.
pub(super) const REMOTE: i64 = -1;

/// What an operation has besides its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct With {
    /// It changes the ledger by hand, and to undo it brings the ledger back.
    pub(super) ledger: bool,
    /// It takes a file in: the number of the arrival. New rows are not recorded one by one.
    pub(super) arrival: Option<i64>,
}

/// Histories and photos: nothing that a person can undo writes them, but to take back the
/// removal of what they belong to brings them back as they were. A gate is not passed by this:
/// its history says when it was, and that is judged anew.
const KEPT_WITH_OWNER: &[&str] = &["photo", "core_photo", "teardown_entry", "job_run", "job_run_entry"];

/// Which way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Direction {
    Undo,
    Redo,
}

/// From so many rows on, triggers that rest cost more than to drop them and to make them again: those are
/// changes of the schema, after which every statement is compiled again.
pub(super) const MANY_ROWS: usize = 4_000;

/// Does work during which new rows are not recorded one by one, and nothing is stamped: an
/// arrival brings a million rows, and forgets them by its number. Work with [`MANY_ROWS`] or more calls
/// [`unwatch_rows`].
pub(super) fn in_bulk<T, E: From<StoreError>>(
    connection: &Connection,
    work: impl FnOnce() -> Result<T, E>,
) -> Result<T, E> {
    let rest = |rests: bool| -> Result<(), StoreError> {
        connection
            .prepare_cached("UPDATE recording SET bulk = ?1")?
            .execute([rests])?;
        Ok(())
    };
    rest(true)?;
    // Where the work fails, so does the transaction, and all is with it as before.
    let done = work()?;
    rest(false)?;
    let is_watched = connection
        .prepare_cached("SELECT 1 FROM sqlite_temp_schema WHERE name = 'undo_job_INSERT'")
        .and_then(|mut statement| statement.exists([]))
        .map_err(StoreError::from)?;
    if !is_watched {
        record::watch_new_rows(connection)?;
        super::ledger::watch_rows(connection)?;
    }
    Ok(done)
}

/// Takes away what [`record::watch_new_rows`] and the ledger's `watch_rows` put there.
pub(super) fn unwatch_rows(connection: &Connection) -> Result<(), StoreError> {
    let names: Vec<String> = connection
        .prepare("SELECT name FROM sqlite_temp_schema WHERE type = 'trigger'")?
        .query_map([], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    for name in names
        .iter()
        .filter(|name| name.starts_with("touch_") || name.ends_with("_INSERT"))
    {
        connection.execute_batch(&format!("DROP TRIGGER temp.{name}"))?;
    }
    Ok(())
}

fn set_recording(connection: &Connection, operation: i64, with: With) -> Result<(), StoreError> {
    connection.execute(
        "UPDATE recording SET operation_id = ?1, ledger = ?2",
        (operation, with.ledger),
    )?;
    Ok(())
}

/// Starts an operation; what had been undone can't be redone any more.
pub(super) fn begin(connection: &Connection, op: Op, with: With) -> Result<i64, StoreError> {
    connection.execute("DELETE FROM operation WHERE undone = 1", [])?;
    connection.execute(
        "INSERT INTO operation (name, undone, with_ledger, arrival) VALUES (?1, 0, ?2, ?3)",
        (op.word(), with.ledger, with.arrival),
    )?;
    let operation = connection.last_insert_rowid();
    set_recording(connection, operation, with)?;
    Ok(operation)
}

/// Ends an operation; one that changed nothing is forgotten, and so is the oldest beyond [`KEPT`].
pub(super) fn end(connection: &Connection, operation: i64) -> Result<(), StoreError> {
    set_recording(connection, 0, With::default())?;
    connection.execute(
        "DELETE FROM operation WHERE id = ?1 AND arrival IS NULL
         AND NOT EXISTS (SELECT 1 FROM operation_step WHERE operation_id = ?1)",
        [operation],
    )?;
    connection.execute(
        "DELETE FROM operation WHERE id NOT IN (SELECT id FROM operation ORDER BY id DESC LIMIT ?1)",
        [KEPT],
    )?;
    Ok(())
}

/// The operation that is next in a direction, with its number.
pub(super) fn next(connection: &Connection, direction: Direction) -> Result<Option<(i64, Op)>, StoreError> {
    let query = match direction {
        Direction::Undo => "SELECT id, name FROM operation WHERE undone = 0 ORDER BY id DESC LIMIT 1",
        Direction::Redo => "SELECT id, name FROM operation WHERE undone = 1 ORDER BY id LIMIT 1",
    };
    let found: Option<(i64, String)> = connection
        .query_row(query, [], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    found
        .map(|(operation, word)| {
            let op = Op::from_word(&word).ok_or_else(|| damaged("undo", "an operation that is not known"))?;
            Ok((operation, op))
        })
        .transpose()
}

/// Restores what the next operation's steps hold, last step first, and keeps what takes that back in turn.
pub(super) fn replay(connection: &Connection, direction: Direction) -> Result<Option<Op>, StoreError> {
    let Some((operation, op)) = next(connection, direction)? else {
        return Ok(None);
    };
    let with = connection.query_row(
        "SELECT with_ledger, arrival FROM operation WHERE id = ?1",
        [operation],
        |row| {
            Ok(With {
                ledger: row.get(0)?,
                arrival: row.get(1)?,
            })
        },
    )?;
    // A row may come back before the one that it refers to.
    connection.execute_batch("PRAGMA defer_foreign_keys = ON")?;
    if let Some(arrival) = with.arrival {
        take_back(connection, operation, arrival)?;
        return Ok(Some(op));
    }
    let steps = step::of(connection, operation)?;
    connection.execute("DELETE FROM operation_step WHERE operation_id = ?1", [operation])?;
    set_recording(connection, operation, with)?;
    restore(connection, &steps)?;
    set_recording(connection, 0, With::default())?;
    validate::validate_touched(connection)?;
    connection.execute(
        "UPDATE operation SET undone = ?2 WHERE id = ?1",
        (operation, direction == Direction::Undo),
    )?;
    Ok(Some(op))
}

/// Restores what steps hold, and notes the histories that they bring back in `temp.restored`; the rows are
/// noted in `temp.touched` by the ledger's triggers.
fn restore(connection: &Connection, steps: &[Step]) -> Result<(), StoreError> {
    connection
        .prepare_cached("UPDATE recording SET restoring = 1")?
        .execute([])?;
    for step in steps {
        step.restore(connection)?;
    }
    connection
        .prepare_cached("UPDATE recording SET restoring = 0")?
        .execute([])?;
    Ok(())
}

/// Takes an arrival back: what it brought is forgotten, what it changed is as before. It leaves
/// the list of operations, since taking the file in again is how it is done again.
fn take_back(connection: &Connection, operation: i64, arrival: i64) -> Result<(), StoreError> {
    super::import::refuse_to_lose(connection, operation, arrival)?;
    let rows: i64 = connection
        .prepare_cached("SELECT count(*) FROM ledger WHERE arrived = ?1")?
        .query_row([arrival], |row| row.get(0))?;
    in_bulk(connection, || {
        if rows >= MANY_ROWS as i64 {
            unwatch_rows(connection)?;
        }
        forget(connection, arrival)
    })?;
    // What comes back is noted and judged as in any other operation, but not stamped.
    restore(connection, &step::of(connection, operation)?)?;
    validate::validate_touched(connection)?;
    connection.execute("DELETE FROM temp.touched", [])?;
    // What was undone before may build on what came in, so it cannot be done again.
    connection.execute("DELETE FROM operation WHERE id = ?1 OR undone = 1", [operation])?;
    Ok(())
}

fn forget(connection: &Connection, arrival: i64) -> Result<(), StoreError> {
    for kind in Kind::ALL.into_iter().rev() {
        connection.execute(
            &format!(
                "DELETE FROM {} WHERE id IN (SELECT id FROM ledger WHERE kind = ?1 AND arrived = ?2)",
                columns::table(kind)
            ),
            (kind as u8, arrival),
        )?;
    }
    connection.execute("DELETE FROM ledger WHERE arrived = ?1", [arrival])?;
    // A file of changes builds on what was forgotten now: its sender is asked for the whole shelf.
    connection.execute("DELETE FROM received", [])?;
    Ok(())
}
