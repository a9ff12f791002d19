//! A step of an operation: one row that was added, changed or removed, and the values that it had before.

use rusqlite::types::Value as Sql;
use rusqlite::{Connection, params_from_iter};

use super::{KEPT_WITH_OWNER, TABLES};
use crate::store::error::{StoreError, damaged};

/// What was done to a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Action {
    Added,
    Changed,
    Removed,
}

impl Action {
    const ALL: [Action; 3] = [Action::Added, Action::Changed, Action::Removed];

    /// The word that the data file keeps.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Action::Added => "added",
            Action::Changed => "changed",
            Action::Removed => "removed",
        }
    }

    /// Whether operations do this to the rows of a table; only such steps are restored.
    fn is_recorded_for(self, table: &str) -> bool {
        TABLES.contains(&table)
            || self == Action::Removed && KEPT_WITH_OWNER.contains(&table)
            || self == Action::Changed && (table == "ledger" || table == "core_photo")
    }
}

/// One step of an operation, as the data file has it.
#[derive(Debug)]
pub(super) struct Step {
    table: String,
    action: Action,
    /// The kind of a row of the ledger, which has its key with the id.
    kind: Option<i64>,
    row: Sql,
    /// Column and earlier value: of a changed row those that differed, of a removed one all.
    values: Vec<(String, Sql)>,
}

/// The steps of an operation, the last one first.
pub(super) fn of(connection: &Connection, operation: i64) -> Result<Vec<Step>, StoreError> {
    let mut values =
        connection.prepare_cached("SELECT name, value FROM operation_value WHERE step_id = ?1 ORDER BY name")?;
    let mut steps = connection.prepare_cached(
        "SELECT id, \"table\", action, kind, row_id FROM operation_step WHERE operation_id = ?1 ORDER BY id DESC",
    )?;
    let mut rows = steps.query([operation])?;
    let mut found = Vec::new();
    while let Some(row) = rows.next()? {
        let word: String = row.get(2)?;
        let action = Action::ALL
            .into_iter()
            .find(|action| action.word() == word)
            .ok_or_else(|| damaged("undo", "a step does what is not known"))?;
        found.push(Step {
            table: row.get(1)?,
            action,
            kind: row.get(3)?,
            row: row.get(4)?,
            values: values
                .query_map([row.get::<_, i64>(0)?], |row| Ok((row.get(0)?, row.get(1)?)))?
                .collect::<Result<_, _>>()?,
        });
    }
    Ok(found)
}

/// The columns of a table, in its order.
pub(super) fn columns_of(connection: &Connection, table: &str) -> Result<Vec<String>, StoreError> {
    Ok(connection
        .prepare_cached("SELECT name FROM pragma_table_info(?1) ORDER BY cid")?
        .query_map([table], |row| row.get(0))?
        .collect::<Result<_, _>>()?)
}

impl Step {
    /// Makes the row as it was before the step.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] for a step that no operation has: another table, a column that is not there;
    /// [`StoreError::Disk`] and the like if the data file fails.
    pub(super) fn restore(&self, connection: &Connection) -> Result<(), StoreError> {
        let Step { table, action, .. } = self;
        let known = columns_of(connection, table)?;
        if !action.is_recorded_for(table) || self.values.iter().any(|(name, _)| !known.contains(name)) {
            return Err(damaged("undo", "a step changes something that no operation changes"));
        }
        let names = self.values.iter().map(|(name, _)| name.as_str());
        let values = self.values.iter().map(|(_, value)| value);
        let kind = self.kind.map(Sql::Integer);
        let key = std::iter::once(&self.row).chain(kind.as_ref());
        let this_row = if self.kind.is_some() {
            "id = ? AND kind = ?"
        } else {
            "id = ?"
        };
        let (statement, arguments): (String, Vec<&Sql>) = match action {
            Action::Added => (format!("DELETE FROM {table} WHERE {this_row}"), key.collect()),
            Action::Changed if self.values.is_empty() => return Ok(()),
            Action::Changed => {
                let set: Vec<String> = names.map(|name| format!("{name} = ?")).collect();
                (
                    format!("UPDATE {table} SET {} WHERE {this_row}", set.join(", ")),
                    values.chain(key).collect(),
                )
            }
            Action::Removed => {
                let names: Vec<&str> = names.collect();
                let places = vec!["?"; names.len()].join(", ");
                (
                    format!("INSERT INTO {table} ({}) VALUES ({places})", names.join(", ")),
                    values.collect(),
                )
            }
        };
        connection
            .prepare_cached(&statement)?
            .execute(params_from_iter(arguments))?;
        Ok(())
    }
}
