//! Sync between devices by shelf files: export, preview, import, and the conflicts that a person settles.
//! Begin at [`Workspace::export_shelf`] and [`Workspace::import_shelf`].

pub mod copies;
mod export_file;
mod words;

use std::cell::Cell;
use std::io::Write;
use std::path::Path;

use uuid::Uuid;

use super::evaluation::evaluate;
use super::guard::guarded;
use super::now::now;
use super::voided::Voided;
use super::workspace::{Workspace, WorkspaceError};
use crate::exchange::{
    self, Bounds, ExchangeError, Existing, Holds, Incoming, Manifest, Packing, Passphrase, Sender, Table, Writer, seal,
    write_whole,
};
use crate::job::{CoreId, DonorId, JobFile, JobId, fields};
use crate::merge::{Device, Kind};
use crate::photo::without_position;
use crate::store::{Conflict, ExportScope, ImportMode, ImportSummary, JobSummary, Store};

pub use export_file::{ExportedFile, new_file_name};
use words::utc;
pub use words::{ValueLabel, ValueRow, ValueText, fork_label, local_time, side_rows, size_text, story};

/// The records that an export contains.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sending {
    /// The whole shelf.
    All,
    /// Some jobs, with what belongs to them.
    Jobs(Vec<JobId>),
    /// The changes since the last export for that device; all records the first time.
    NewFor(Device),
}

/// The settings of an export.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Export {
    /// Which records.
    pub sending: Sending,
    /// Whether photos keep their position data.
    pub keep_position: bool,
    /// Whether it may replace a file that is there.
    pub existing: Existing,
}

impl From<&Sending> for Export {
    fn from(sending: &Sending) -> Self {
        Self {
            sending: sending.clone(),
            keep_position: false,
            existing: Existing::Replace,
        }
    }
}

impl From<&Export> for Export {
    fn from(export: &Export) -> Self {
        export.clone()
    }
}

/// The effect of an import, or of its preview.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ImportResult {
    /// The file's manifest.
    pub manifest: Manifest,
    /// The file's unpacked size, in bytes.
    pub unpacked: u64,
    /// The changes to the data.
    pub arrival: ImportSummary,
    /// Of a preview: what would count no more of the jobs here.
    pub voided: Vec<Voided>,
}

/// The stage of a long operation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Stage {
    /// A key is computed from the passphrase.
    #[default]
    Key,
    /// Records are read or written.
    Records,
    /// Photos are read or written.
    Photos,
}

/// The progress of a long operation. Its receiver can cancel the operation.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Progress {
    /// The stage.
    pub stage: Stage,
    /// Records or photos done.
    pub done: u64,
    /// Of so many; 0 where that is not known.
    pub of: u64,
    cancelled: Cell<bool>,
}

impl Progress {
    /// Cancels the operation; its changes are rolled back.
    pub fn cancel(&self) {
        self.cancelled.set(true);
    }

    /// Reports progress.
    ///
    /// # Errors
    /// [`ExchangeError::Cancelled`] if the receiver cancels.
    fn report(told: &mut impl FnMut(&Progress), stage: Stage, done: u64, of: u64) -> Result<(), ExchangeError> {
        let progress = Progress {
            stage,
            done,
            of,
            cancelled: Cell::new(false),
        };
        told(&progress);
        if progress.cancelled.get() {
            return Err(ExchangeError::Cancelled);
        }
        Ok(())
    }
}

/// Exports, and again with the records unpacked where they would pack too tightly to be read.
fn in_some_packing<T>(mut attempt: impl FnMut(Packing) -> Result<T, WorkspaceError>) -> Result<T, WorkspaceError> {
    match attempt(Packing::Deflated) {
        Err(WorkspaceError::Exchange(ExchangeError::PackedTooTightly)) => attempt(Packing::Stored),
        done => done,
    }
}

/// Records between two progress reports.
const REPORT_EVERY: u64 = 500;

impl Workspace {
    /// Writes a shelf file. An existing file is replaced only when the new one is complete.
    ///
    /// # Errors
    /// [`WorkspaceError::Exchange`], [`WorkspaceError::Store`]; no half a file is left.
    pub fn export_shelf(
        &mut self,
        path: &Path,
        export: impl Into<Export>,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<Manifest, WorkspaceError> {
        let export = export.into();
        let mut told = told;
        let (manifest, until) = in_some_packing(|packing| {
            write_whole(path, export.existing, |out| {
                self.write_export(out, &export, passphrase, packing, &mut told)
            })
        })?;
        self.note_sent(&export.sending, &manifest, until)?;
        Ok(manifest)
    }

    /// Records how far a device has been sent changes, where its next export begins.
    fn note_sent(&mut self, sending: &Sending, made: &Manifest, until: i64) -> Result<(), WorkspaceError> {
        if let Sending::NewFor(device) = sending {
            self.store.note_sent(*device, until, made.file)?;
        }
        Ok(())
    }

    /// Writes the shelf file to `out`; returns also the number of the last change in it.
    fn write_export(
        &self,
        out: &mut impl Write,
        export: &Export,
        passphrase: Option<&Passphrase>,
        packing: Packing,
        mut told: impl FnMut(&Progress),
    ) -> Result<(Manifest, i64), WorkspaceError> {
        if passphrase.is_some() {
            Progress::report(&mut told, Stage::Key, 0, 0)?;
        }
        let own = self.store.own()?;
        let (until, file) = (self.store.changes()?, Store::new_file());
        let (which, holds) = match &export.sending {
            Sending::All => (ExportScope::All, Holds::All),
            Sending::Jobs(jobs) => (ExportScope::Jobs(jobs.clone()), Holds::Jobs),
            Sending::NewFor(device) => {
                let unknown = ExchangeError::UnknownDevice { device: *device };
                let peer = self.store.peer(*device)?.ok_or(unknown)?;
                match peer.sent_file {
                    None => (ExportScope::All, Holds::All),
                    Some(before) => (ExportScope::Since(peer.sent), Holds::ChangesAfter(before)),
                }
            }
        };
        let store = &self.store;
        let keep_position = export.keep_position;
        let mut fill = |out: &mut dyn Write| -> Result<Manifest, WorkspaceError> {
            Progress::report(&mut told, Stage::Records, 0, 0)?;
            let mut writer = Writer::with(out, packing, Bounds::SHELF)?;
            let mut pictures = Vec::new();
            let mut done = 0;
            store.export(&which, |kind, id, line| -> Result<(), WorkspaceError> {
                writer.record(line)?;
                if kind.has_picture() {
                    pictures.push((kind, id));
                }
                done += 1;
                if done % REPORT_EVERY == 0 {
                    Progress::report(&mut told, Stage::Records, done, 0)?;
                }
                Ok(())
            })?;
            let of = pictures.len() as u64;
            for (done, (kind, id)) in (0..).zip(pictures) {
                Progress::report(&mut told, Stage::Photos, done, of)?;
                if let Some(bytes) = store.picture(kind, id)? {
                    let bytes = if keep_position {
                        bytes.into()
                    } else {
                        without_position(&bytes)
                    };
                    writer.photo(kind, id, &bytes)?;
                }
            }
            let from = Sender {
                device: own.device,
                name: own.name.clone(),
            };
            Ok(writer.finish(from, holds, file, now().unix_ms)?.1)
        };
        let Some(passphrase) = passphrase else {
            return Ok((fill(out)?, until));
        };
        let mut sealed = seal(out, passphrase)?;
        let manifest = fill(&mut sealed)?;
        sealed.finish().map_err(ExchangeError::from)?;
        Ok((manifest, until))
    }

    /// Computes the effect of an import without changing the data.
    ///
    /// # Errors
    /// [`WorkspaceError::Exchange`], [`WorkspaceError::Store`].
    pub fn preview_shelf(
        &mut self,
        from: impl Into<Incoming>,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<ImportResult, WorkspaceError> {
        let judged = |data: &Workspace, job: JobId, file: &JobFile| {
            let answer = guarded(|| evaluate(file)).ok()?.ok()?;
            guarded(|| answer.from_teardown(data.core_findings(job))).ok()
        };
        let read = |data: &mut Workspace| data.read_shelf(from.into(), passphrase, ImportMode::Preview, told);
        let (mut seen, voided) = self.preview_voided(read, &judged)?;
        seen.voided = voided;
        Ok(seen)
    }

    /// Imports a shelf file, in one transaction and one step of undo.
    ///
    /// # Errors
    /// [`WorkspaceError::Exchange`], [`WorkspaceError::Store`].
    pub fn import_shelf(
        &mut self,
        from: impl Into<Incoming>,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<ImportResult, WorkspaceError> {
        let parcel = self.read_shelf(from.into(), passphrase, ImportMode::Commit, told)?;
        let manifest = &parcel.manifest;
        if manifest.from.device != self.store.own()?.device {
            let file = match manifest.holds {
                Holds::Jobs => None,
                Holds::All | Holds::ChangesAfter(_) => Some(manifest.file),
            };
            self.store
                .record_received(manifest.from.device, &manifest.from.name, file)?;
        }
        Ok(parcel)
    }

    fn read_shelf(
        &mut self,
        from: Incoming,
        passphrase: Option<&Passphrase>,
        mode: ImportMode,
        mut told: impl FnMut(&Progress),
    ) -> Result<ImportResult, WorkspaceError> {
        Progress::report(&mut told, Stage::Key, 0, 0)?;
        let mut reader = exchange::open(from, passphrase)?;
        let manifest = reader.manifest().clone();
        if let Holds::ChangesAfter(before) = manifest.holds
            && !self.store.has_received(manifest.from.device, before)?
        {
            return Err(ExchangeError::Gap {
                name: manifest.from.name.clone(),
            }
            .into());
        }
        let (unpacked, of, photos) = (reader.unpacked(), manifest.records, manifest.photos);
        Progress::report(&mut told, Stage::Records, 0, of)?;
        let arrival = self.store.import(mode, |importer| -> Result<(), WorkspaceError> {
            let mut done = 0;
            reader.records(|line| -> Result<(), WorkspaceError> {
                importer.take(line)?;
                done += 1;
                if done % REPORT_EVERY == 0 {
                    Progress::report(&mut told, Stage::Records, done, of)?;
                }
                Ok(())
            })?;
            let mut done = 0;
            reader.photos(|kind, id, bytes| -> Result<(), WorkspaceError> {
                Progress::report(&mut told, Stage::Photos, done, photos)?;
                done += 1;
                Ok(importer.picture(kind, id, bytes)?)
            })
        })?;
        Ok(ImportResult {
            manifest,
            unpacked,
            arrival,
            voided: Vec::new(),
        })
    }

    /// Names this device.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] for a name of more than 60 characters.
    pub fn name_device(&mut self, name: &str) -> Result<(), WorkspaceError> {
        Ok(self.store.name_device(name)?)
    }

    /// What the person calls the oven or core that a conflict is about: a core has the name of its job.
    fn name_in_conflict(&self, conflict: &Conflict) -> String {
        if conflict.kind != Kind::Core {
            return conflict.name.clone();
        }
        let of_core = |job: &JobSummary| {
            self.store
                .job(job.id)
                .is_ok_and(|record| record.body.core.0 == conflict.id)
        };
        let jobs = self.store.job_summaries(u32::MAX, None).unwrap_or_default();
        jobs.into_iter().find(of_core).map_or_else(String::new, |job| job.name)
    }

    /// The conflicts of up to `limit` records, each with what the person calls the oven or core that it is about.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`].
    pub fn named_conflicts(&self, limit: u32) -> Result<Vec<(String, Conflict)>, WorkspaceError> {
        let all = self.store.conflicts(limit)?.into_iter();
        Ok(all
            .map(|conflict| (self.name_in_conflict(&conflict), self.with_names(conflict)))
            .collect())
    }

    /// A conflict whose values name the oven or core that they point at, in place of its id.
    fn with_names(&self, mut conflict: Conflict) -> Conflict {
        let to = match (conflict.kind, conflict.field.as_str()) {
            (Kind::Core, "donor") => Kind::Donor,
            (Kind::Job, "core") => Kind::Core,
            _ => return conflict,
        };
        for side in &mut conflict.sides {
            let id = side.value.as_str().and_then(|id| id.parse::<Uuid>().ok());
            if let Some(name) = id.and_then(|id| self.name_of(to, id)) {
                side.value = serde_json::Value::String(name);
            }
        }
        conflict
    }

    /// The name of an oven; of a core that of its oven, else of a job that uses it.
    fn name_of(&self, kind: Kind, id: Uuid) -> Option<String> {
        if kind == Kind::Donor {
            return Some(self.store.donor(DonorId(id)).ok()?.body.name);
        }
        let core = self.store.core(CoreId(id)).ok()?.body;
        let oven = core.donor.and_then(|donor| self.name_of(Kind::Donor, donor.0));
        let jobs = || self.store.job_summaries(u32::MAX, None).unwrap_or_default();
        let uses = |job: &JobSummary| self.store.job(job.id).is_ok_and(|record| record.body.core.0 == id);
        oven.or_else(|| jobs().into_iter().find(uses).map(|job| job.name))
    }

    /// The conflicts of a job, its core, and the oven that it came from.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`].
    pub fn conflicts_of(&self, job: Option<JobId>, donor: Option<DonorId>) -> Result<Vec<Conflict>, WorkspaceError> {
        if self.store.conflict_count()? == 0 {
            return Ok(Vec::new());
        }
        let core = job
            .map(|job| self.store.job(job))
            .transpose()?
            .map(|record| record.body.core);
        let concerns = |conflict: &Conflict| match conflict.kind {
            Kind::Job => job.is_some_and(|job| job.0 == conflict.id),
            Kind::Core => core.is_some_and(|core| core.0 == conflict.id),
            Kind::Donor => donor.is_some_and(|donor| donor.0 == conflict.id),
            _ => false,
        };
        let found = self.store.conflicts(u32::MAX)?.into_iter().filter(concerns);
        Ok(found.map(|conflict| self.with_names(conflict)).collect())
    }

    /// Settles a conflict.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`].
    pub fn resolve_conflict(&mut self, kind: Kind, id: Uuid, field: &str, side: usize) -> Result<(), WorkspaceError> {
        Ok(self.store.resolve_conflict(kind, id, field, side)?)
    }

    /// What a job's core, mains and donor were measured as, then and now, as a table.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`].
    pub fn measurements_table(&self, id: JobId) -> Result<Table, WorkspaceError> {
        use crate::job::Owner;
        let job = self.store.job(id)?.body;
        let donor = self.store.core(job.core)?.body.donor;
        let mut owners = vec![("core", Owner::Core(job.core)), ("mains", Owner::Job(id))];
        owners.extend(donor.map(|donor| ("donor", Owner::Donor(donor))));
        let head = ["what", "value", "plus_minus", "unit", "origin", "measured_utc"];
        let mut rows = Vec::new();
        for (root, owner) in owners {
            for measured in self.store.measurements(owner, None)? {
                let (field, reading) = (&measured.body.field, measured.body.reading);
                let row = fields::find(&format!("{root}.{field}"));
                rows.push(vec![
                    row.map_or_else(|| field.clone(), |row| row.label.to_owned()),
                    reading.value.to_string(),
                    reading.plus_minus.to_string(),
                    row.map_or("", |row| row.kind.symbol()).to_owned(),
                    reading.origin.word().to_owned(),
                    utc(measured.meta.created_ms),
                ]);
            }
        }
        Ok(Table {
            head: head.map(str::to_owned).to_vec(),
            rows,
        })
    }
}
