//! Data files that were put back, emptied or copied, and who may read them.

use std::fs;
use std::path::Path;

use rusqlite::Connection;

use super::{file, fresh};
use crate::store::folder::FILE;
use crate::store::{Op, Store, StoreError, backups, restore_backup, verify_and_back_up};

const DAY: i64 = 86_400_000;

/// Puts an older data file in the place of the present one.
fn put_back(from: &Path, to: &Path) {
    for ending in ["-wal", "-shm"] {
        let _ = fs::remove_file(to.join(format!("{FILE}{ending}")));
    }
    fs::copy(from, to.join(FILE)).unwrap();
}

fn kept(folder: &Path) -> std::path::PathBuf {
    let kept = folder.join("kept-by-hand");
    fs::copy(folder.join(FILE), &kept).unwrap();
    kept
}

#[test]
fn a_data_file_put_back_by_hand_is_found() {
    let (folder, mut store) = fresh();
    store.import_job_file(&file(0)).unwrap();
    drop(store);
    let old = kept(folder.path());
    let mut store = Store::open(folder.path()).unwrap();
    assert!(store.is_at_home().unwrap(), "the same file, opened again");
    store.import_job_file(&file(1)).unwrap();
    let device = store.own().unwrap().device;
    drop(store);
    put_back(&old, folder.path());
    let mut store = Store::open(folder.path()).unwrap();
    assert!(!store.is_at_home().unwrap());
    store.adopt_copy("brought").unwrap();
    assert!(store.is_at_home().unwrap());
    assert_ne!(store.own().unwrap().device, device);
    drop(store);
    assert!(Store::open(folder.path()).unwrap().is_at_home().unwrap());
}

/// A file that was put back is judged when it is opened, and an alteration is reported by record and field.
#[test]
fn a_data_file_put_back_is_judged() {
    for (change, named) in [
        ("UPDATE job SET breaker_a = -5", "breaker_a"),
        ("UPDATE core SET rated_volts = 1e300", "rated_volts"),
        ("UPDATE job SET name = ''", "name"),
        ("UPDATE job SET goal = '{\"use\":\"time_machine\"}'", "goal"),
        ("UPDATE measurement SET value = -1 WHERE field = 'tongue_mm'", "value"),
        (
            "UPDATE measurement SET is_current = 0 WHERE field = 'tongue_mm'",
            "core",
        ),
        ("UPDATE stock SET length_m = -1", "length_m"),
    ] {
        let (folder, mut store) = fresh();
        store.import_job_file(&file(0)).unwrap();
        drop(store);
        let old = kept(folder.path());
        Connection::open(&old).unwrap().execute_batch(change).unwrap();
        let mut store = Store::open(folder.path()).unwrap();
        store.import_job_file(&file(1)).unwrap();
        drop(store);
        put_back(&old, folder.path());
        let error = Store::open(folder.path()).unwrap_err();
        assert!(matches!(error, StoreError::PutBack { .. }), "{change}: {error}");
        assert!(error.to_string().contains(named), "{change}: {error}");
    }
}

/// The steps of undo stand in the data file: what they bring back is judged too.
#[test]
fn what_undo_brings_back_is_judged() {
    let (_folder, mut store) = fresh();
    let id = store.import_job_file(&file(0)).unwrap();
    let job = store.job(id).unwrap();
    let mut changed = job.body.clone();
    changed.mains.circuit.breaker_a += 1.0;
    store
        .edit(Op::Note, |edit| edit.update(id, job.meta.revision, &changed))
        .unwrap();
    let altered = store
        .connection
        .execute("UPDATE operation_value SET value = -value WHERE name = 'breaker_a'", [])
        .unwrap();
    assert_eq!(altered, 1);
    let refused = store.undo().unwrap_err();
    assert!(matches!(refused, StoreError::PutBack { .. }), "{refused}");
    assert_eq!(store.job(id).unwrap().body, changed);
}

#[test]
fn an_emptied_data_file_is_no_empty_shelf() {
    let (folder, mut store) = fresh();
    store.import_job_file(&file(0)).unwrap();
    drop(store);
    fs::write(folder.path().join(FILE), "").unwrap();
    for opened in [Store::open(folder.path()), Store::open_read_only(folder.path())] {
        assert!(matches!(opened, Err(StoreError::Damaged { .. })), "{opened:?}");
    }
    assert_eq!(fs::metadata(folder.path().join(FILE)).unwrap().len(), 0);
    // A start that was cut off before anything was written is no damage.
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join(FILE), "").unwrap();
    assert_eq!(Store::open(folder.path()).unwrap().job_count().unwrap(), 0);
}

#[test]
fn an_empty_copy_is_not_gone_back_to() {
    let (folder, mut store) = fresh();
    store.import_job_file(&file(0)).unwrap();
    drop(store);
    assert!(verify_and_back_up(folder.path(), DAY).unwrap());
    let copy = backups(folder.path()).unwrap()[0].clone();
    fs::write(&copy.path, "").unwrap();
    let refused = restore_backup(folder.path(), &copy, DAY);
    assert!(matches!(refused, Err(StoreError::Damaged { .. })), "{refused:?}");
    assert_eq!(Store::open(folder.path()).unwrap().job_count().unwrap(), 1);
}

/// A clock that was in the future once does not make the later copies older ones.
#[test]
fn copies_are_kept_in_the_order_in_which_they_were_made() {
    let (folder, mut store) = fresh();
    let made = |store: &mut Store, which: usize, now_ms: i64| {
        store.import_job_file(&file(which)).unwrap();
        verify_and_back_up(folder.path(), now_ms).unwrap()
    };
    for (which, now_ms) in [40_000 * DAY, 40_001 * DAY, 40_002 * DAY].into_iter().enumerate() {
        assert!(made(&mut store, which, now_ms));
    }
    for (which, now_ms) in [20_000 * DAY, 20_001 * DAY, 20_002 * DAY].into_iter().enumerate() {
        assert!(made(&mut store, which + 3, now_ms));
        let newest = &backups(folder.path()).unwrap()[0];
        assert_eq!(newest.made_ms, now_ms);
        assert!(!verify_and_back_up(folder.path(), now_ms + 1).unwrap(), "one a day");
    }
    let kept: Vec<i64> = backups(folder.path())
        .unwrap()
        .iter()
        .map(|copy| copy.made_ms / DAY)
        .collect();
    assert_eq!(kept, [20_002, 20_001, 20_000]);
}

/// Going back twice leaves both files that were there.
#[test]
fn going_back_writes_over_nothing() {
    let (folder, mut store) = fresh();
    store.import_job_file(&file(0)).unwrap();
    drop(store);
    assert!(verify_and_back_up(folder.path(), 20_000 * DAY).unwrap());
    let copy = backups(folder.path()).unwrap()[0].clone();
    let mut counts = Vec::new();
    for more in 1..4 {
        let mut store = Store::open(folder.path()).unwrap();
        for which in 0..more {
            store.import_job_file(&file(which)).unwrap();
        }
        counts.push(store.job_count().unwrap());
        drop(store);
        restore_backup(folder.path(), &copy, 20_001 * DAY).unwrap();
        assert_eq!(Store::open(folder.path()).unwrap().job_count().unwrap(), 1);
    }
    // 20,001 days after 1970-01-01 is 2024-10-05.
    for (name, count) in [
        ("before-going-back-2024-10-05.db", counts[0]),
        ("before-going-back-2024-10-05-2.db", counts[1]),
        ("before-going-back-2024-10-05-3.db", counts[2]),
    ] {
        let aside = Connection::open(folder.path().join(name)).unwrap();
        let jobs: u32 = aside
            .query_row("SELECT count(*) FROM job", [], |row| row.get(0))
            .unwrap();
        assert_eq!(jobs, count, "{name}");
    }
}

#[cfg(unix)]
#[test]
fn nobody_else_can_read_the_data() {
    use std::os::unix::fs::PermissionsExt;
    let above = tempfile::tempdir().unwrap();
    let folder = above.path().join("a/data");
    let mut store = Store::open(&folder).unwrap();
    store.import_job_file(&file(0)).unwrap();
    verify_and_back_up(&folder, DAY).unwrap();
    let copy = backups(&folder).unwrap()[0].clone();
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let all = |folder: &Path| {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let expected = if path.is_dir() { 0o700 } else { 0o600 };
            assert_eq!(mode(&path), expected, "{}", path.display());
        }
        assert_eq!(mode(folder), 0o700, "{}", folder.display());
    };
    all(&folder);
    all(&folder.join("backups"));
    drop(store);
    restore_backup(&folder, &copy, DAY).unwrap();
    all(&folder);
    // What an earlier program or a copying hand left open is closed.
    for name in [FILE, "curbcore.lock"] {
        fs::set_permissions(folder.join(name), fs::Permissions::from_mode(0o644)).unwrap();
    }
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o755)).unwrap();
    let _store = Store::open(&folder).unwrap();
    all(&folder);
}
