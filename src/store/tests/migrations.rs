//! Files of every former version come up to today's, with what is in them.
//!
//! `fixtures/vNNNN.sql` is a file of version N as SQL, frozen when the version was released:
//! tables and rows. `fixtures/vNNNN.json` is the job file that its newest job makes.

use rusqlite::Connection;

use super::fresh;
use crate::job::JobFile;
use crate::store::Store;
use crate::store::folder::{APPLICATION_ID, FILE};
use crate::store::migrations::VERSION;

const FIXTURES: &[(&str, &str)] = &[
    (include_str!("fixtures/v0001.sql"), include_str!("fixtures/v0001.json")),
    (include_str!("fixtures/v0002.sql"), include_str!("fixtures/v0002.json")),
    (include_str!("fixtures/v0003.sql"), include_str!("fixtures/v0003.json")),
    (include_str!("fixtures/v0004.sql"), include_str!("fixtures/v0004.json")),
    (include_str!("fixtures/v0005.sql"), include_str!("fixtures/v0005.json")),
];

/// Tables and indexes, as SQLite keeps their text.
fn schema(connection: &Connection) -> Vec<String> {
    connection
        .prepare("SELECT type || ' ' || name || ': ' || sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY 1")
        .unwrap()
        .query_map([], |row| row.get(0))
        .unwrap()
        .map(Result::unwrap)
        .collect()
}

#[test]
fn every_version_has_a_fixture() {
    assert_eq!(FIXTURES.len(), VERSION as usize);
}

#[test]
fn old_files_come_up_to_date() {
    let (_fresh_folder, newest) = fresh();
    for (index, (sql, json)) in FIXTURES.iter().enumerate() {
        let folder = tempfile::tempdir().unwrap();
        let old = Connection::open(folder.path().join(FILE)).unwrap();
        old.pragma_update(None, "application_id", APPLICATION_ID).unwrap();
        old.execute_batch(sql).unwrap();
        old.pragma_update(None, "user_version", index as u32 + 1).unwrap();
        old.close().unwrap();
        let store = Store::open(folder.path()).unwrap();
        assert_eq!(
            schema(&store.connection),
            schema(&newest.connection),
            "version {}",
            index + 1
        );
        store.verify().unwrap();
        let job = store.job_summaries(1, None).unwrap()[0].id;
        let expected = JobFile::parse(json).unwrap();
        assert_eq!(store.load_job_file(job).unwrap(), expected);
        assert!(!store.donors().unwrap().is_empty() && !store.designs_of(job).unwrap().is_empty());
    }
}

/// Prints today's tables with some rows as SQL, and the job file they make: what to freeze
/// as the next fixture when a version is released.
#[test]
#[ignore = "run by hand with --nocapture to freeze a version"]
fn freeze() {
    let (_folder, mut store) = fresh();
    let job = store.import_job_file(&super::file(1)).unwrap();
    let file = store.load_job_file(job).unwrap();
    store
        .edit("Rows of every kind", |edit| {
            let choice = file.choice.clone().unwrap();
            let (name, note) = ("Kept".to_owned(), "Compare.".to_owned());
            let design = edit.insert_design(&crate::job::Design {
                job,
                name,
                choice,
                note,
            })?;
            let (owner, text) = (crate::job::Owner::Design(design), "It's a note.".to_owned());
            edit.insert_note(&crate::job::Note { owner, text })
        })
        .unwrap();
    store.set(crate::store::Setting::Theme, "dark").unwrap();
    println!("---- sql");
    let parts = schema(&store.connection);
    for kind in ["table ", "index ", "trigger "] {
        // The search's own tables come with it.
        let own = |line: &&String| line.starts_with(kind) && !line.starts_with("table job_words_");
        for line in parts.iter().filter(own) {
            println!("{};", line.split_once(": ").unwrap().1);
        }
    }
    for table in crate::store::undo::TABLES
        .iter()
        .chain(crate::store::undo::KEPT_WITH_OWNER)
        .map(|(table, _)| *table)
        .chain(["setting", "own", "ledger"])
    {
        let columns: Vec<String> = store
            .connection
            .prepare("SELECT name FROM pragma_table_info(?1)")
            .unwrap()
            .query_map([table], |row| row.get(0))
            .unwrap()
            .map(Result::unwrap)
            .collect();
        let values = columns
            .iter()
            .map(|c| format!("quote({c})"))
            .collect::<Vec<_>>()
            .join(" || ', ' || ");
        let mut rows = store
            .connection
            .prepare(&format!("SELECT {values} FROM {table}"))
            .unwrap();
        let rows = rows.query_map([], |row| row.get::<_, String>(0)).unwrap();
        rows.for_each(|row| {
            println!(
                "INSERT INTO {table} ({}) VALUES ({});",
                columns.join(", "),
                row.unwrap()
            );
        });
    }
    println!("---- json\n{}---- end", file.to_json());
}
