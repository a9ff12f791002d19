//! Undo: triggers on every table write the statement that takes a row's change back. To undo is
//! to run them backwards, while the same triggers write what redoes it.

use rusqlite::{Connection, OptionalExtension};

use super::columns;
use super::error::{StoreError, damaged};
use super::op::Op;
use crate::merge::Kind;

/// How many operations can be taken back.
pub(super) const KEPT: u32 = 100;

/// The tables that a person's operations change.
pub(super) const TABLES: &[(&str, &str)] = &[
    ("donor", "id"),
    ("core", "id"),
    ("job", "id"),
    ("design", "id"),
    ("note", "id"),
    ("measurement", "id"),
    ("stock", "id"),
    ("remote_history", "id"),
];

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
pub(super) const KEPT_WITH_OWNER: &[(&str, &str)] = &[
    ("photo", "id"),
    ("core_photo", "id"),
    ("teardown_entry", "id"),
    ("job_run", "id"),
    ("job_run_entry", "id"),
];

/// Which way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Direction {
    Undo,
    Redo,
}

/// Puts the triggers on this connection. They are temporary and made from today's columns, so
/// no migration has to think of them.
pub(super) fn watch(connection: &Connection) -> Result<(), StoreError> {
    connection.execute_batch(
        "CREATE TEMP TABLE recording (operation_id INTEGER NOT NULL, ledger INTEGER NOT NULL);
         INSERT INTO recording (operation_id, ledger) VALUES (0, 0);
         CREATE TEMP TRIGGER undo_ledger_update AFTER UPDATE ON main.ledger BEGIN
             INSERT INTO operation_step (operation_id, statement)
             SELECT operation_id, 'UPDATE ledger SET history = ' || quote(OLD.history) || ', change = ' || OLD.change
                 || ', conflicts = ' || OLD.conflicts || ', held = ' || OLD.held
                 || ' WHERE kind = ' || NEW.kind || ' AND id = ' || quote(NEW.id)
             FROM recording WHERE operation_id > 0 AND ledger = 1;
         END;
         CREATE TEMP TRIGGER undo_marks_update AFTER UPDATE OF marks ON main.core_photo BEGIN
             INSERT INTO operation_step (operation_id, statement)
             SELECT operation_id, 'UPDATE core_photo SET marks = ' || quote(OLD.marks) || ' WHERE id = ' || quote(OLD.id)
             FROM recording WHERE operation_id > 0 AND ledger = 1;
         END;",
    )?;
    for (table, key) in TABLES.iter().chain(KEPT_WITH_OWNER) {
        let owned = KEPT_WITH_OWNER.contains(&(*table, *key));
        let columns: Vec<String> = connection
            .prepare("SELECT name FROM pragma_table_info(?1) ORDER BY cid")?
            .query_map([table], |row| row.get(0))?
            .collect::<Result<_, _>>()?;
        let here = format!("' WHERE {key} = ' || quote(OLD.{key})");
        let set: Vec<String> = columns.iter().map(|c| format!("'{c} = ' || quote(OLD.{c})")).collect();
        let values: Vec<String> = columns.iter().map(|c| format!("quote(OLD.{c})")).collect();
        let (set, values) = (set.join(" || ', ' || "), values.join(" || ', ' || "));
        for (event, inverse) in [
            ("UPDATE", format!("'UPDATE {table} SET ' || {set} || {here}")),
            (
                "DELETE",
                format!(
                    "'INSERT INTO {table} ({}) VALUES (' || {values} || ')'",
                    columns.join(", ")
                ),
            ),
        ] {
            if owned && event != "DELETE" {
                continue;
            }
            connection.execute_batch(&format!(
                "CREATE TEMP TRIGGER undo_{table}_{event} AFTER {event} ON main.{table} BEGIN
                     INSERT INTO operation_step (operation_id, statement)
                     SELECT operation_id, {inverse} FROM recording WHERE operation_id > 0;
                 END;"
            ))?;
        }
    }
    watch_new_rows(connection)
}

/// Puts the triggers for new rows on this connection.
fn watch_new_rows(connection: &Connection) -> Result<(), StoreError> {
    for (table, key) in TABLES {
        connection.execute_batch(&format!(
            "CREATE TEMP TRIGGER undo_{table}_INSERT AFTER INSERT ON main.{table} BEGIN
                 INSERT INTO operation_step (operation_id, statement)
                 SELECT operation_id, 'DELETE FROM {table} WHERE {key} = ' || quote(NEW.{key})
                 FROM recording WHERE operation_id > 0;
             END;"
        ))?;
    }
    Ok(())
}

/// Does work during which new rows are not recorded one by one, and nothing is stamped: an
/// arrival brings a million rows, and forgets them by its number.
pub(super) fn in_bulk<T, E: From<StoreError>>(
    connection: &Connection,
    work: impl FnOnce() -> Result<T, E>,
) -> Result<T, E> {
    unwatch_rows(connection)?;
    // Where the work fails, so does the transaction, and the triggers are back with it.
    let done = work()?;
    watch_new_rows(connection)?;
    super::ledger::watch_rows(connection)?;
    Ok(done)
}

/// Takes away what [`watch_new_rows`] and the ledger's `watch_rows` put there.
fn unwatch_rows(connection: &Connection) -> Result<(), StoreError> {
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

fn record(connection: &Connection, operation: i64, with: With) -> Result<(), StoreError> {
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
    record(connection, operation, with)?;
    Ok(operation)
}

/// Ends an operation; one that changed nothing is forgotten, and so is the oldest beyond [`KEPT`].
pub(super) fn end(connection: &Connection, operation: i64) -> Result<(), StoreError> {
    record(connection, 0, With::default())?;
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

/// Runs the next operation's statements backwards, and keeps what takes that back in turn.
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
    let statements = steps(connection, operation)?;
    connection.execute("DELETE FROM operation_step WHERE operation_id = ?1", [operation])?;
    record(connection, operation, with)?;
    run(connection, &statements)?;
    record(connection, 0, With::default())?;
    connection.execute(
        "UPDATE operation SET undone = ?2 WHERE id = ?1",
        (operation, direction == Direction::Undo),
    )?;
    Ok(Some(op))
}

fn steps(connection: &Connection, operation: i64) -> Result<Vec<String>, StoreError> {
    Ok(connection
        .prepare("SELECT statement FROM operation_step WHERE operation_id = ?1 ORDER BY id DESC")?
        .query_map([operation], |row| row.get(0))?
        .collect::<Result<_, _>>()?)
}

fn run(connection: &Connection, statements: &[String]) -> Result<(), StoreError> {
    for statement in statements {
        if !is_ours(statement) {
            return Err(damaged("undo", "a step changes something that no operation changes"));
        }
        connection.execute(statement, [])?;
    }
    Ok(())
}

/// Takes an arrival back: what it brought is forgotten, what it changed is as before. It leaves
/// the list of operations, since taking the file in again is how it is done again.
fn take_back(connection: &Connection, operation: i64, arrival: i64) -> Result<(), StoreError> {
    super::import::refuse_to_lose(connection, operation, arrival)?;
    in_bulk(connection, || -> Result<(), StoreError> {
        forget(connection, operation, arrival)
    })?;
    // What was undone before may build on what came in, so it cannot be done again.
    connection.execute("DELETE FROM operation WHERE id = ?1 OR undone = 1", [operation])?;
    Ok(())
}

fn forget(connection: &Connection, operation: i64, arrival: i64) -> Result<(), StoreError> {
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
    run(connection, &steps(connection, operation)?)
}

/// Whether a statement starts as the triggers write them. (One call runs one statement, so
/// nothing can follow it.)
fn is_ours(statement: &str) -> bool {
    if statement.starts_with("UPDATE ledger SET history = ") {
        return true;
    }
    TABLES.iter().chain(KEPT_WITH_OWNER).any(|(table, key)| {
        statement.starts_with(&format!("DELETE FROM {table} WHERE {key} = "))
            || statement.starts_with(&format!("UPDATE {table} SET "))
            || statement.starts_with(&format!("INSERT INTO {table} ("))
    })
}
