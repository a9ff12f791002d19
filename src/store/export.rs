//! What leaves for another device: the ledger's lines, the pictures, and who has what.

use std::collections::BTreeSet;

use serde_json::Value;
use uuid::Uuid;

use super::clock::Clock;
use super::columns::RowValues;
use super::error::{StoreError, damaged};
use super::ledger::{self, LocalDevice};
use super::open::Store;
use super::{columns, ids, rows};
use crate::job::{JobId, check_text};
use crate::merge::{Device, Kind, RecordHistory, line_of};

/// What is to leave.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ExportScope {
    /// The whole shelf.
    All,
    /// These jobs with their cores, donors and all that belongs to them.
    Jobs(Vec<JobId>),
    /// What the ledger noted after this change.
    Since(i64),
}

/// How many files of a device are remembered.
const FILES_KEPT: u32 = 200;

/// Another device.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Peer {
    /// Its number.
    pub device: Device,
    /// What it is called.
    pub name: String,
    /// Up to which of our changes a file was made for it; 0 for none.
    pub sent: i64,
    /// The number of that file.
    pub sent_file: Option<Uuid>,
}

impl Store {
    /// This device.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn own(&self) -> Result<LocalDevice, StoreError> {
        ledger::own(&self.connection)
    }

    /// How many changes the ledger has had: the end of what leaves now.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn changes(&self) -> Result<i64, StoreError> {
        Ok(self.own()?.changes)
    }

    /// Names this device.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a name of more than 60 characters; [`StoreError::Disk`] and the like if the data file fails.
    pub fn name_device(&mut self, name: &str) -> Result<(), StoreError> {
        check_text("device name", name, 60, false)?;
        self.write(|connection| {
            connection.execute("UPDATE own SET name = ?1", [name.trim()])?;
            Ok(())
        })
    }

    /// The devices that files came from, by name.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn peers(&self) -> Result<Vec<Peer>, StoreError> {
        let rows: Vec<(String, String, i64, Option<String>)> = self
            .connection
            .prepare_cached("SELECT device, name, sent, sent_file FROM peer ORDER BY name, device")?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?)))?
            .collect::<Result<_, _>>()?;
        rows.into_iter()
            .map(|(device, name, sent, file)| {
                Ok(Peer {
                    device: device.parse().map_err(|e| damaged("peer", e))?,
                    name,
                    sent,
                    sent_file: file
                        .map(|file| file.parse())
                        .transpose()
                        .map_err(|e| damaged("peer", e))?,
                })
            })
            .collect()
    }

    /// A device that a file came from; none where none came from it.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn peer(&self, device: Device) -> Result<Option<Peer>, StoreError> {
        let device = device.machine();
        Ok(self.peers()?.into_iter().find(|peer| peer.device == device))
    }

    /// Notes that a file was made for a device, up to a change.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn note_sent(&mut self, device: Device, changes: i64, file: Uuid) -> Result<(), StoreError> {
        let device = device.machine();
        self.write(|connection| {
            connection.execute(
                "UPDATE peer SET sent = ?2, sent_file = ?3 WHERE device = ?1",
                (device.to_string(), changes, file.to_string()),
            )?;
            Ok(())
        })
    }

    /// Notes what was taken in from a device: a file by its number, or none where the file held a part
    /// only.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn record_received(&mut self, device: Device, name: &str, file: Option<Uuid>) -> Result<(), StoreError> {
        let device = device.machine().to_string();
        self.write(|connection| {
            connection.execute(
                "INSERT INTO peer (device, name, sent) VALUES (?1, ?2, 0)
                 ON CONFLICT (device) DO UPDATE SET name = excluded.name",
                (&device, name),
            )?;
            let Some(file) = file else { return Ok(()) };
            connection.execute(
                "INSERT OR REPLACE INTO received (device, file) VALUES (?1, ?2)",
                (&device, file.to_string()),
            )?;
            connection.execute(
                "DELETE FROM received WHERE device = ?1 AND id NOT IN (
                     SELECT id FROM received WHERE device = ?1 ORDER BY id DESC LIMIT ?2
                 )",
                (&device, FILES_KEPT),
            )?;
            Ok(())
        })
    }

    /// Whether a file of a device was taken in, and still counts: those that came before a file that was
    /// taken back do not.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn has_received(&self, device: Device, file: Uuid) -> Result<bool, StoreError> {
        Ok(self
            .connection
            .prepare_cached("SELECT 1 FROM received WHERE device = ?1 AND file = ?2")?
            .exists((device.machine().to_string(), file.to_string()))?)
    }

    /// A number for a new file.
    #[must_use]
    pub fn new_file() -> Uuid {
        ids::new_id(Clock::System.now_ms())
    }

    /// Hands over every line that is to leave, in the order of the file; each ends with a line feed.
    ///
    /// # Errors
    /// What `each` returns; [`StoreError::Disk`] and the like if the data file fails.
    pub fn export<E: From<StoreError>>(
        &self,
        which: &ExportScope,
        mut each: impl FnMut(Kind, Uuid, &str) -> Result<(), E>,
    ) -> Result<(), E> {
        let chosen = match which {
            ExportScope::Jobs(jobs) => Some(self.around(jobs)?),
            _ => None,
        };
        let since = if let ExportScope::Since(change) = which {
            *change
        } else {
            -1
        };
        let failed = |error: rusqlite::Error| E::from(StoreError::from(error));
        let mut statement = self
            .connection
            .prepare_cached("SELECT kind, id, history FROM ledger WHERE change > ?1 ORDER BY kind, id")
            .map_err(failed)?;
        let mut rows = statement.query([since]).map_err(failed)?;
        while let Some(row) = rows.next().map_err(failed)? {
            let kind = ledger::of_code(row.get(0).map_err(failed)?)?;
            let id = rows::id(row, "id").map_err(failed)?;
            if chosen.as_ref().is_some_and(|chosen| !chosen.contains(&(kind, id))) {
                continue;
            }
            let history = row
                .get_ref(2)
                .map_err(failed)?
                .as_str()
                .map_err(|e| damaged("ledger", e))?;
            let mut line = line_of(kind, id, history);
            line.push('\n');
            each(kind, id, &line)?;
        }
        Ok(())
    }

    /// The picture of a photo; none where it is not here.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn picture(&self, kind: Kind, id: Uuid) -> Result<Option<Vec<u8>>, StoreError> {
        if !kind.has_picture() {
            return Ok(None);
        }
        ledger::picture(&self.connection, kind, id)
    }

    /// Jobs with their cores and donors, and all that belongs to any of them.
    fn around(&self, jobs: &[JobId]) -> Result<BTreeSet<(Kind, Uuid)>, StoreError> {
        let mut chosen = BTreeSet::new();
        let link = |known: &RecordHistory, field: &str| {
            known
                .shown(field)
                .and_then(Value::as_str)
                .and_then(|id| id.parse::<Uuid>().ok())
        };
        for job in jobs {
            let known =
                ledger::read(&self.connection, Kind::Job, job.0)?.ok_or(StoreError::NotFound { what: "job" })?;
            chosen.insert((Kind::Job, job.0));
            let Some(core) = link(&known, "core") else { continue };
            chosen.insert((Kind::Core, core));
            let core = ledger::read(&self.connection, Kind::Core, core)?;
            if let Some(donor) = core.and_then(|core| link(&core, "donor")) {
                chosen.insert((Kind::Donor, donor));
            }
        }
        let mut statement = self
            .connection
            .prepare_cached("SELECT kind, id, history FROM ledger WHERE kind NOT IN (0, 1, 2) ORDER BY kind, id")?;
        let mut rows = statement.query([])?;
        while let Some(row) = rows.next()? {
            let kind = ledger::of_code(row.get(0)?)?;
            let known = RecordHistory::parse(row.get_ref(2)?.as_str().map_err(|e| damaged("ledger", e))?)
                .map_err(|e| damaged("ledger", e))?;
            if columns::needs(kind, &RowValues::of(&known)).is_some_and(|owner| chosen.contains(&owner)) {
                chosen.insert((kind, rows::id(row, "id")?));
            }
        }
        Ok(chosen)
    }
}
