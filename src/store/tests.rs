//! The store: opening, what is let in, data put back, records, undo.

mod doors;
mod opening;
mod put_back;
mod records;
mod undo;

use rusqlite::Connection;

use super::{Clock, Store};
use crate::job::tests::documents::full;
use crate::job::{Goal, JobFile};

/// A store in a new folder, with a clock that the tests can foresee. It does not wait for the
/// disk, which no test here could tell.
fn fresh() -> (tempfile::TempDir, Store) {
    let folder = tempfile::tempdir().unwrap();
    let store = Store::open_with_clock(folder.path(), Clock::Steps(1_700_000_000_000)).unwrap();
    store.connection.pragma_update(None, "synchronous", "OFF").unwrap();
    (folder, store)
}

/// A job file with every key, for one of the uses.
fn file(which: usize) -> JobFile {
    JobFile::parse(&full(Goal::USES[which % Goal::USES.len()]).to_string()).unwrap()
}

/// Everything in the tables that operations change, row by row.
fn dump(connection: &Connection) -> String {
    let mut text = String::new();
    for table in super::undo::TABLES {
        let columns: Vec<String> = connection
            .prepare("SELECT name FROM pragma_table_info(?1)")
            .unwrap()
            .query_map([table], |row| row.get(0))
            .unwrap()
            .map(Result::unwrap)
            .collect();
        let row = columns
            .iter()
            .map(|c| format!("quote({c})"))
            .collect::<Vec<_>>()
            .join(" || ',' || ");
        let mut statement = connection
            .prepare(&format!("SELECT {row} FROM {table} ORDER BY id"))
            .unwrap();
        let rows = statement.query_map([], |row| row.get::<_, String>(0)).unwrap();
        rows.for_each(|row| text += &format!("{table}: {}\n", row.unwrap()));
    }
    text
}
