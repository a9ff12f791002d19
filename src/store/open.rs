//! Opening: look, lock, prepare, migrate, watch.

use std::path::Path;

use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior};

use super::clock::Clock;
use super::disk::{self, Lock, Mark};
use super::documents::Preview;
use super::edit::Edit;
use super::error::StoreError;
use super::folder::{self, APPLICATION_ID, FILE, Look};
use super::op::Op;
use super::{ledger, migrations, undo, validate};
use crate::job::{JobFile, JobId};

/// Bytes of a new file's pages. The ledger's rows are some hundred bytes long: a page of SQLite's
/// usual size holds few of them, and the tree grows deep.
const PAGE_BYTES: u32 = 8192;

/// The open data file.
#[derive(Debug)]
pub struct Store {
    pub(super) connection: Connection,
    clock: Clock,
    /// Held for as long as the store is open for writing; none when it is only read.
    lock: Option<Lock>,
    /// Whether the data file is another one than was last written here.
    put_back: bool,
    /// How far the data had come when that was last noted.
    mark: Option<Mark>,
    /// The change that is made out only to see what becomes of jobs.
    pub(super) preview: Option<Preview>,
}

impl Store {
    /// Opens the store in a folder, making both where they do not exist, with the machine's clock.
    ///
    /// # Errors
    /// As [`Store::open_with_clock`].
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        Self::open_with_clock(folder, Clock::System)
    }

    /// Opens the store in a folder for reading and writing.
    ///
    /// # Errors
    /// [`StoreError::Folder`] if the folder can't be made or written,
    /// [`StoreError::InUseElsewhere`] while another store is open for writing on it,
    /// [`StoreError::Newer`], [`StoreError::NotOurs`] or [`StoreError::Damaged`] for a file that
    /// is left untouched, byte for byte.
    pub fn open_with_clock(folder: &Path, clock: Clock) -> Result<Self, StoreError> {
        let lock = disk::lock(folder)?;
        let path = folder.join(FILE);
        let look = folder::look(&path)?;
        if look == Look::Ours && disk::has_log(&path) {
            // The log may hold a newer version than the file's header; SQLite knows.
            let reader = Connection::open_with_flags(&path, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
            refuse_newer(&reader)?;
        }
        disk::prepare_file(&path)?;
        let mut connection = Connection::open(&path)?;
        if look == Look::New {
            // Before the write-ahead log begins, so that the file itself carries it at once.
            connection.pragma_update(None, "page_size", PAGE_BYTES)?;
            connection.pragma_update(None, "application_id", APPLICATION_ID)?;
        }
        prepare(&connection)?;
        migrations::migrate(&mut connection)?;
        undo::watch(&connection)?;
        ledger::watch(&connection)?;
        ledger::begin_session(&connection)?;
        let home = disk::home(&lock);
        ledger::prepare(&mut connection, if look == Look::New { &home } else { "" })?;
        let mut store = Self {
            connection,
            clock,
            lock: Some(lock),
            put_back: false,
            mark: None,
            preview: None,
        };
        let mark = mark(&store.connection)?;
        store.put_back = look == Look::Ours && store.lock.as_ref().is_some_and(|lock| disk::was_put_back(lock, mark));
        if store.put_back || !store.is_at_home()? {
            store.verify()?;
        }
        if !store.put_back {
            store.keep_mark(mark);
        }
        Ok(store)
    }

    /// Opens the store in a folder for reading, beside a writer if there is one.
    ///
    /// # Errors
    /// [`StoreError::Nothing`] if there is no data file, [`StoreError::Older`] if it first has to
    /// be brought up to date, else as [`Store::open_with_clock`].
    pub fn open_read_only(folder: &Path) -> Result<Self, StoreError> {
        let path = folder.join(FILE);
        if folder::look(&path)? == Look::New {
            return Err(StoreError::Nothing { path });
        }
        let connection = Connection::open_with_flags(&path, OpenFlags::SQLITE_OPEN_READ_ONLY)?;
        connection.busy_timeout(std::time::Duration::from_secs(5))?;
        connection.pragma_update(None, "temp_store", "MEMORY")?;
        ledger::begin_session(&connection)?;
        refuse_newer(&connection)?;
        let found = migrations::version(&connection)?;
        if found < migrations::VERSION {
            return Err(StoreError::Older {
                found,
                known: migrations::VERSION,
            });
        }
        Ok(Self {
            connection,
            clock: Clock::System,
            lock: None,
            put_back: false,
            mark: None,
            preview: None,
        })
    }

    /// Does one thing that the person asked for, all or nothing; `op` is what an undo button names.
    ///
    /// # Errors
    /// The error of `work`, or [`StoreError::Disk`] and the like if the data file fails; nothing is changed.
    pub fn edit<T>(&mut self, op: Op, work: impl FnOnce(&Edit<'_>) -> Result<T, StoreError>) -> Result<T, StoreError> {
        self.edit_with(op, undo::With::default(), work)
    }

    pub(super) fn edit_with<T>(
        &mut self,
        op: Op,
        with: undo::With,
        work: impl FnOnce(&Edit<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let now_ms = self.now_ms();
        self.write(|transaction| {
            let operation = undo::begin(transaction, op, with)?;
            let done = work(&Edit::new(transaction, now_ms))?;
            undo::end(transaction, operation)?;
            Ok(done)
        })
    }

    /// Writes something, all or nothing, and stamps what it changed. By itself it is no part of undo. Within
    /// a preview it is rolled back ([`Store::begin_preview`]).
    pub(super) fn write<T, E: From<StoreError>>(
        &mut self,
        work: impl FnOnce(&Transaction<'_>) -> Result<T, E>,
    ) -> Result<T, E> {
        self.writable()?;
        let transaction =
            Transaction::new_unchecked(&self.connection, TransactionBehavior::Immediate).map_err(StoreError::from)?;
        let done = work(&transaction)?;
        ledger::stamp(&transaction)?;
        if let Some(preview) = &self.preview {
            let after = self.read_jobs(&preview.jobs)?;
            transaction.rollback().map_err(StoreError::from)?;
            self.previewed(after);
            return Ok(done);
        }
        let mark = mark(&transaction)?;
        transaction.commit().map_err(StoreError::from)?;
        self.keep_mark(mark);
        Ok(done)
    }

    /// Keeps the documents that a preview gave.
    pub(super) fn previewed(&mut self, after: Vec<(JobId, Option<JobFile>)>) {
        if let Some(preview) = &mut self.preview {
            preview.after = after;
        }
    }

    /// Notes how far the data have come, beside the data file.
    pub(super) fn keep_mark(&mut self, mark: Mark) {
        if let Some(lock) = &self.lock
            && self.mark != Some(mark)
            && !self.put_back
        {
            disk::set_mark(lock, mark);
            self.mark = Some(mark);
        }
    }

    /// Whether the data file is another one than was last written here.
    pub(super) fn was_put_back(&self) -> bool {
        self.put_back
    }

    /// From now on the data file that was put back is the one of this place.
    pub(super) fn is_settled(&mut self) -> Result<(), StoreError> {
        self.put_back = false;
        let mark = mark(&self.connection)?;
        self.keep_mark(mark);
        Ok(())
    }

    /// Takes back the last operation, and tells which it was; none if there is nothing to take back.
    /// Records get their former revision and times back too.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails;
    /// nothing is changed then.
    pub fn undo(&mut self) -> Result<Option<Op>, StoreError> {
        self.replay(undo::Direction::Undo)
    }

    /// Does the last operation taken back again, and tells which it was; none if there is none.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails;
    /// nothing is changed then.
    pub fn redo(&mut self) -> Result<Option<Op>, StoreError> {
        self.replay(undo::Direction::Redo)
    }

    pub(super) fn writable(&self) -> Result<(), StoreError> {
        match self.lock {
            Some(_) => Ok(()),
            None => Err(StoreError::ReadOnly),
        }
    }

    /// What tells this folder from a copy; none for a store that is only read.
    pub(super) fn home(&self) -> Option<String> {
        self.lock.as_ref().map(disk::home)
    }

    pub(super) fn now_ms(&mut self) -> i64 {
        self.clock.now_ms()
    }

    fn replay(&mut self, direction: undo::Direction) -> Result<Option<Op>, StoreError> {
        self.write(|transaction| undo::replay(transaction, direction))
    }

    /// The operation that [`Store::undo`] would take back.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn undo_op(&self) -> Result<Option<Op>, StoreError> {
        Ok(undo::next(&self.connection, undo::Direction::Undo)?.map(|(_, op)| op))
    }

    /// The operation that [`Store::redo`] would do again.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn redo_op(&self) -> Result<Option<Op>, StoreError> {
        Ok(undo::next(&self.connection, undo::Direction::Redo)?.map(|(_, op)| op))
    }

    /// Reads the whole file, its references and every value in it; slow for a large one.
    ///
    /// # Errors
    /// [`StoreError::Damaged`] with the first flaw, [`StoreError::PutBack`] with the first value that
    /// is not accepted.
    pub fn verify(&self) -> Result<(), StoreError> {
        check_pages(&self.connection)?;
        let mut statement = self.connection.prepare("PRAGMA foreign_key_check")?;
        if statement.exists([])? {
            return Err(StoreError::Damaged {
                detail: "a record refers to one that is not there".to_owned(),
            });
        }
        validate::validate_all(&self.connection)
    }
}

/// How far the data have come.
pub(super) fn mark(connection: &Connection) -> Result<Mark, StoreError> {
    let own = ledger::own(connection)?;
    Ok(Mark {
        device: own.device,
        changes: own.changes,
    })
}

/// Reads every page of a file.
///
/// # Errors
/// [`StoreError::Damaged`] with the first flaw.
pub(super) fn check_pages(connection: &Connection) -> Result<(), StoreError> {
    let found: String = connection.query_row("PRAGMA integrity_check(1)", [], |row| row.get(0))?;
    if found == "ok" {
        return Ok(());
    }
    tracing::error!("the check of the data file says: {found}");
    Err(StoreError::Damaged {
        detail: "the check of its pages failed".to_owned(),
    })
}

/// What must be set outside a transaction.
fn prepare(connection: &Connection) -> Result<(), StoreError> {
    connection.busy_timeout(std::time::Duration::from_secs(5))?;
    // More than there are statements in the code: one that falls out is compiled again each time.
    connection.set_prepared_statement_cache_capacity(200);
    // A browser keeps whole commits (see `web`); a log beside the file would be one more file.
    let journal = if cfg!(target_family = "wasm") { "MEMORY" } else { "WAL" };
    connection.pragma_update(None, "journal_mode", journal)?;
    connection.pragma_update(None, "synchronous", "FULL")?;
    connection.pragma_update(None, "foreign_keys", "ON")?;
    // What a statement may have to take back stays in memory, and a phone has no folder for
    // temporary files.
    connection.pragma_update(None, "temp_store", "MEMORY")?;
    Ok(())
}

fn refuse_newer(connection: &Connection) -> Result<(), StoreError> {
    let found = migrations::version(connection)?;
    if found > migrations::VERSION {
        return Err(StoreError::Newer {
            found,
            known: migrations::VERSION,
        });
    }
    Ok(())
}
