//! The triggers that record an operation's steps. They are temporary and made from today's columns, so
//! no migration has to think of them.

use rusqlite::Connection;

use super::step::{Action, columns_of};
use super::{KEPT_WITH_OWNER, TABLES};
use crate::store::error::StoreError;

/// The condition of a trigger that rests during [`super::in_bulk`].
pub(in crate::store) const UNLESS_BULK: &str = "WHEN (SELECT bulk FROM recording) = 0";

/// The condition of a trigger that records any operation.
const IN_OPERATION: &str = "WHEN (SELECT operation_id FROM recording) > 0";

/// The condition of a trigger that records an operation which changes the ledger by hand.
const WITH_LEDGER: &str = "WHEN (SELECT operation_id > 0 AND ledger = 1 FROM recording)";

/// Puts the triggers on this connection.
pub(in crate::store) fn watch(connection: &Connection) -> Result<(), StoreError> {
    connection.execute_batch(
        "CREATE TEMP TABLE recording (operation_id INTEGER NOT NULL, ledger INTEGER NOT NULL, bulk INTEGER NOT NULL,
             restoring INTEGER NOT NULL);
         INSERT INTO recording (operation_id, ledger, bulk, restoring) VALUES (0, 0, 0, 0);
         CREATE TEMP TABLE restored (kind INTEGER NOT NULL, id BLOB NOT NULL, PRIMARY KEY (kind, id)) WITHOUT ROWID;
         CREATE TEMP TRIGGER restored_ledger AFTER UPDATE ON main.ledger WHEN (SELECT restoring FROM recording) BEGIN
             INSERT OR IGNORE INTO restored (kind, id) VALUES (NEW.kind, NEW.id);
         END;
         CREATE TEMP TRIGGER restored_remote_new AFTER INSERT ON main.remote_history
         WHEN (SELECT restoring FROM recording) BEGIN
             INSERT OR IGNORE INTO restored (kind, id) VALUES (-1, NEW.id);
         END;
         CREATE TEMP TRIGGER restored_remote AFTER UPDATE ON main.remote_history
         WHEN (SELECT restoring FROM recording) BEGIN
             INSERT OR IGNORE INTO restored (kind, id) VALUES (-1, NEW.id);
         END;",
    )?;
    for table in TABLES {
        watch_table(connection, table, Action::Changed, IN_OPERATION)?;
        watch_table(connection, table, Action::Removed, IN_OPERATION)?;
    }
    for table in KEPT_WITH_OWNER {
        watch_table(connection, table, Action::Removed, IN_OPERATION)?;
    }
    watch_table(connection, "ledger", Action::Changed, WITH_LEDGER)?;
    watch_table(connection, "core_photo", Action::Changed, WITH_LEDGER)?;
    watch_new_rows(connection)
}

/// Puts the triggers for new rows on this connection.
pub(super) fn watch_new_rows(connection: &Connection) -> Result<(), StoreError> {
    TABLES
        .iter()
        .try_for_each(|table| watch_table(connection, table, Action::Added, UNLESS_BULK_IN_OPERATION))
}

/// The condition of a trigger that records new rows.
const UNLESS_BULK_IN_OPERATION: &str = "WHEN (SELECT bulk = 0 AND operation_id > 0 FROM recording)";

/// Puts the trigger on a table that records one way of changing a row: a step, and the values that the row
/// had; of a changed row those that differ.
fn watch_table(connection: &Connection, table: &str, action: Action, when: &str) -> Result<(), StoreError> {
    let (event, row) = match action {
        Action::Added => ("INSERT", "NEW"),
        Action::Changed => ("UPDATE", "OLD"),
        Action::Removed => ("DELETE", "OLD"),
    };
    let kind = if table == "ledger" { "OLD.kind" } else { "NULL" };
    let values: String = columns_of(connection, table)?
        .iter()
        .map(|column| {
            let value = format!(
                "INSERT INTO operation_value (step_id, name, value) SELECT last_insert_rowid(), '{column}', OLD.{column} "
            );
            match action {
                Action::Added => String::new(),
Action::Changed => value + &format!("WHERE OLD.{column} IS NOT NEW.{column};"),
                Action::Removed => format!("{value};"),
            }
        })
        .collect();
    connection.execute_batch(&format!(
        "CREATE TEMP TRIGGER undo_{table}_{event} AFTER {event} ON main.{table} {when} BEGIN
             INSERT INTO operation_step (operation_id, \"table\", action, kind, row_id)
             SELECT operation_id, '{table}', '{word}', {kind}, {row}.id FROM recording;
             {values}
         END;",
        word = action.word(),
    ))?;
    Ok(())
}
