//! Undo: triggers on every table write the statement that takes a row's change back. To undo is
//! to run them backwards, while the same triggers write what redoes it.

use rusqlite::{Connection, OptionalExtension};

use super::error::{StoreError, damaged};

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
];

/// Histories and photos: nothing that a person can undo writes them, but to take back the
/// removal of what they belong to brings them back as they were. A gate is not passed by this:
/// its history says when it was, and that is judged anew.
pub(super) const KEPT_WITH_OWNER: &[(&str, &str)] = &[
    ("photo", "id"),
    ("core_photo", "id"),
    ("teardown_entry", "id"),
    ("bench_run", "id"),
    ("bench_entry", "id"),
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
        "CREATE TEMP TABLE recording (operation_id INTEGER NOT NULL);
         INSERT INTO recording (operation_id) VALUES (0);",
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
            (
                "INSERT",
                format!("'DELETE FROM {table} WHERE {key} = ' || quote(NEW.{key})"),
            ),
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
    Ok(())
}

fn record(connection: &Connection, operation: i64) -> Result<(), StoreError> {
    connection.execute("UPDATE recording SET operation_id = ?1", [operation])?;
    Ok(())
}

/// Starts an operation; what had been undone can't be redone any more.
pub(super) fn begin(connection: &Connection, name: &str) -> Result<i64, StoreError> {
    connection.execute("DELETE FROM operation WHERE undone = 1", [])?;
    connection.execute("INSERT INTO operation (name, undone) VALUES (?1, 0)", [name])?;
    let operation = connection.last_insert_rowid();
    record(connection, operation)?;
    Ok(operation)
}

/// Ends an operation; one that changed nothing is forgotten, and so is the oldest beyond [`KEPT`].
pub(super) fn end(connection: &Connection, operation: i64) -> Result<(), StoreError> {
    record(connection, 0)?;
    connection.execute(
        "DELETE FROM operation WHERE id = ?1
         AND NOT EXISTS (SELECT 1 FROM operation_step WHERE operation_id = ?1)",
        [operation],
    )?;
    connection.execute(
        "DELETE FROM operation WHERE id NOT IN (SELECT id FROM operation ORDER BY id DESC LIMIT ?1)",
        [KEPT],
    )?;
    Ok(())
}

/// The operation that is next in a direction, with its name.
pub(super) fn next(connection: &Connection, direction: Direction) -> Result<Option<(i64, String)>, StoreError> {
    let query = match direction {
        Direction::Undo => "SELECT id, name FROM operation WHERE undone = 0 ORDER BY id DESC LIMIT 1",
        Direction::Redo => "SELECT id, name FROM operation WHERE undone = 1 ORDER BY id LIMIT 1",
    };
    Ok(connection
        .query_row(query, [], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?)
}

/// Runs the next operation's statements backwards, and keeps what takes that back in turn.
pub(super) fn replay(connection: &Connection, direction: Direction) -> Result<Option<String>, StoreError> {
    let Some((operation, name)) = next(connection, direction)? else {
        return Ok(None);
    };
    let statements: Vec<String> = connection
        .prepare("SELECT statement FROM operation_step WHERE operation_id = ?1 ORDER BY id DESC")?
        .query_map([operation], |row| row.get(0))?
        .collect::<Result<_, _>>()?;
    connection.execute("DELETE FROM operation_step WHERE operation_id = ?1", [operation])?;
    // A row may come back before the one that it refers to.
    connection.execute_batch("PRAGMA defer_foreign_keys = ON")?;
    record(connection, operation)?;
    for statement in &statements {
        if !is_ours(statement) {
            return Err(damaged("undo", "a step changes something that no operation changes"));
        }
        connection.execute(statement, [])?;
    }
    record(connection, 0)?;
    connection.execute(
        "UPDATE operation SET undone = ?2 WHERE id = ?1",
        (operation, direction == Direction::Undo),
    )?;
    Ok(Some(name))
}

/// Whether a statement starts as the triggers write them. (One call runs one statement, so
/// nothing can follow it.)
fn is_ours(statement: &str) -> bool {
    TABLES.iter().chain(KEPT_WITH_OWNER).any(|(table, key)| {
        statement.starts_with(&format!("DELETE FROM {table} WHERE {key} = "))
            || statement.starts_with(&format!("UPDATE {table} SET "))
            || statement.starts_with(&format!("INSERT INTO {table} ("))
    })
}
