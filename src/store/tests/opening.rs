//! Which files are opened, and which are refused and left as they are.

use std::fs;
use std::path::Path;

use rusqlite::Connection;

use super::{file, fresh};
use crate::store::folder::FILE;
use crate::store::migrations::VERSION;
use crate::store::{Op, Store, StoreError};

/// Opens, expects a refusal, and checks that no byte of the file has changed.
fn refused(folder: &Path) -> StoreError {
    let path = folder.join(FILE);
    let before = fs::read(&path).unwrap();
    let reading = Store::open_read_only(folder).unwrap_err();
    let error = Store::open(folder).unwrap_err();
    assert_eq!(
        std::mem::discriminant(&reading),
        std::mem::discriminant(&error),
        "{reading} / {error}"
    );
    assert!(fs::read(&path).unwrap() == before, "the file was changed: {error}");
    error
}

fn closed_store() -> tempfile::TempDir {
    let (folder, mut store) = fresh();
    for which in 0..8 {
        store.import_job_file(&file(which)).unwrap();
    }
    folder
}

#[test]
fn opens_again() {
    let folder = closed_store();
    for _ in 0..3 {
        let store = Store::open(folder.path()).unwrap();
        assert_eq!(store.job_count().unwrap(), 8);
        store.verify().unwrap();
    }
    assert_eq!(Store::open_read_only(folder.path()).unwrap().job_count().unwrap(), 8);
}

#[test]
fn pragmas_are_set() {
    let folder = tempfile::tempdir().unwrap();
    let store = Store::open(folder.path()).unwrap();
    let get = |name: &str| -> String {
        store
            .connection
            .query_row(
                &format!("SELECT CAST(value AS TEXT) FROM (SELECT {name} AS value FROM pragma_{name})"),
                [],
                |row| row.get(0),
            )
            .unwrap()
    };
    assert_eq!(get("journal_mode"), "wal");
    // 2 is FULL (SQLite, PRAGMA synchronous).
    assert_eq!(get("synchronous"), "2");
    assert_eq!(get("foreign_keys"), "1");
}

#[test]
fn one_writer() {
    let (folder, mut store) = fresh();
    store.import_job_file(&file(0)).unwrap();
    assert!(matches!(
        Store::open(folder.path()),
        Err(StoreError::InUseElsewhere { .. })
    ));
    let mut reader = Store::open_read_only(folder.path()).unwrap();
    assert_eq!(reader.job_count().unwrap(), 1);
    assert!(matches!(reader.edit(Op::Note, |_| Ok(())), Err(StoreError::ReadOnly)));
    assert!(matches!(reader.undo(), Err(StoreError::ReadOnly)));
    drop(store);
    Store::open(folder.path()).unwrap();
}

#[test]
fn nothing_there() {
    let folder = tempfile::tempdir().unwrap();
    assert!(matches!(
        Store::open_read_only(folder.path()),
        Err(StoreError::Nothing { .. })
    ));
    let deep = folder.path().join("a/b/c");
    assert_eq!(Store::open(&deep).unwrap().job_count().unwrap(), 0);
    let in_the_way = folder.path().join("file");
    fs::write(&in_the_way, "x").unwrap();
    assert!(matches!(Store::open(&in_the_way), Err(StoreError::Folder { .. })));
}

#[test]
fn newer_version_in_the_file() {
    let folder = closed_store();
    let connection = Connection::open(folder.path().join(FILE)).unwrap();
    connection.pragma_update(None, "user_version", VERSION + 1).unwrap();
    connection.close().unwrap();
    let error = refused(folder.path());
    assert!(matches!(error, StoreError::Newer { found, known } if found == VERSION + 1 && known == VERSION));
    let text = error.to_string();
    assert!(
        text.contains(&VERSION.to_string()) && text.contains(&(VERSION + 1).to_string()),
        "{text}"
    );
}

/// The newer version stands only in the write-ahead log, as after a crash.
#[test]
fn newer_version_in_the_log() {
    let folder = closed_store();
    let connection = Connection::open(folder.path().join(FILE)).unwrap();
    connection.pragma_update(None, "wal_autocheckpoint", 0).unwrap();
    connection.pragma_update(None, "user_version", VERSION + 1).unwrap();
    let crashed = tempfile::tempdir().unwrap();
    let log = format!("{FILE}-wal");
    for name in [FILE, log.as_str()] {
        fs::copy(folder.path().join(name), crashed.path().join(name)).unwrap();
    }
    drop(connection);
    let before = fs::read(crashed.path().join(&log)).unwrap();
    assert!(matches!(refused(crashed.path()), StoreError::Newer { .. }));
    assert!(
        fs::read(crashed.path().join(&log)).unwrap() == before,
        "the log was changed"
    );
}

#[test]
fn not_ours() {
    let folder = tempfile::tempdir().unwrap();
    let connection = Connection::open(folder.path().join(FILE)).unwrap();
    connection
        .execute_batch("CREATE TABLE other (x); INSERT INTO other VALUES (1);")
        .unwrap();
    connection.close().unwrap();
    assert!(matches!(refused(folder.path()), StoreError::NotOurs { .. }));
}

#[test]
fn damaged() {
    let whole = fs::read(closed_store().path().join(FILE)).unwrap();
    for bytes in [
        b"hello".to_vec(),
        vec![0x5a; 5000],
        whole[..50].to_vec(),
        whole[..8192].to_vec(),
        whole[..whole.len() - 8192].to_vec(),
        whole[..whole.len() - 1].to_vec(),
    ] {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join(FILE), &bytes).unwrap();
        let error = refused(folder.path());
        assert!(
            matches!(error, StoreError::Damaged { .. }),
            "{} bytes: {error}",
            bytes.len()
        );
    }
}

/// Bytes spoilt inside the file are found by the full check, or at the latest by reading.
#[test]
fn spoilt_inside() {
    let folder = closed_store();
    let path = folder.path().join(FILE);
    let mut bytes = fs::read(&path).unwrap();
    bytes[8192..].iter_mut().for_each(|byte| *byte ^= 0xa5);
    fs::write(&path, bytes).unwrap();
    let read = Store::open(folder.path()).and_then(|store| store.verify());
    assert!(matches!(read, Err(StoreError::Damaged { .. })), "{read:?}");
}

/// SQLite's codes become what the person can do about it.
#[test]
fn codes_become_advice() {
    use rusqlite::ffi;
    for (code, expected) in [
        (ffi::SQLITE_FULL, "disk is full"),
        (ffi::SQLITE_READONLY, "can only be read"),
        (ffi::SQLITE_CORRUPT, "damaged"),
        (ffi::SQLITE_NOTADB, "damaged"),
        (ffi::SQLITE_IOERR, "Check the disk"),
    ] {
        let error = StoreError::from(rusqlite::Error::SqliteFailure(ffi::Error::new(code), None));
        assert!(error.to_string().contains(expected), "{code}: {error}");
    }
}

/// A disk that is full in the middle of an operation leaves the store as it was.
#[test]
fn full_in_the_middle() {
    let (_folder, mut store) = fresh();
    store.import_job_file(&file(0)).unwrap();
    let before = super::dump(&store.connection);
    let pages: u32 = store
        .connection
        .query_row("PRAGMA page_count", [], |row| row.get(0))
        .unwrap();
    store
        .connection
        .pragma_update(None, "max_page_count", pages + 2)
        .unwrap();
    let error = store
        .edit(Op::Note, |edit| {
            (1..200).try_for_each(|which| edit.insert_job_file(&file(which)).map(|_| ()))
        })
        .unwrap_err();
    assert!(matches!(error, StoreError::DiskFull), "{error}");
    assert_eq!(super::dump(&store.connection), before);
    assert_eq!(store.undo_op().unwrap(), Some(Op::ImportJobFile));
}
