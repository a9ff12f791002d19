//! The person's jobs on this device: one method for each thing they can do.

mod change;
mod entry;
mod kept;

use std::path::Path;

pub use change::Proposed;
pub(super) use entry::read_entry;
pub use entry::{Entry, find_field, probably_meant, range_text, shown_number, unit_symbol};

use super::now::now;
use super::start;
use crate::app::circuit_parts::Reactor;
use crate::job::fields::Field;
use crate::job::{FieldError, JobFile, JobFileError, JobId};
use crate::magnetics::circuit::mains::{OUTLETS, Outlet};
use crate::procedure::{Entry as HistoryEntry, Event};
use crate::quantity::NumberError;
use crate::store::{Op, Setting, Store, StoreError};
use crate::teardown::TeardownProcedure;
use crate::wire::UnknownConductor;
use crate::words::{Explain, Message};

/// Why something could not be done; the message is for the person at the bench.
#[derive(Debug, thiserror::Error)]
pub enum WorkspaceError {
    /// The store.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A number outside its range.
    #[error("{0}")]
    Field(#[from] FieldError),
    /// A job file.
    #[error("{0}")]
    File(#[from] JobFileError),
    /// A shelf file that cannot be read or written.
    #[error(transparent)]
    Exchange(#[from] crate::exchange::ExchangeError),
    /// A conductor that the catalogue does not have.
    #[error(transparent)]
    Wire(#[from] UnknownConductor),
    /// Text that is not a number.
    #[error("{}: {reason}", .field.label)]
    Number {
        /// The field.
        field: &'static Field,
        /// What is wrong.
        reason: NumberError,
    },
    /// A value outside its range, named by its label.
    #[error("{} {shown} is out of range: {range}", .field.label)]
    Range {
        /// The field.
        field: &'static Field,
        /// What was entered.
        shown: String,
        /// The accepted range.
        range: String,
    },
    /// A ± that is negative or too wide.
    #[error("± of {} {shown} is out of range: 0 to {most}{}{unit}", .field.label, if unit.is_empty() { "" } else { " " })]
    Spread {
        /// The field.
        field: &'static Field,
        /// What was entered.
        shown: String,
        /// The widest accepted.
        most: String,
        /// The unit of both.
        unit: &'static str,
    },
    /// A stored history that cannot have happened.
    #[error("the stored history is damaged or missing: {0}")]
    History(Message),
    /// A number of a find that can't be right.
    #[error(transparent)]
    Sighting(#[from] crate::sizeup::SightingError),
    /// A field that is not in the table.
    #[error("there is no field \"{0}\"")]
    UnknownField(String),
}

impl Explain for WorkspaceError {
    fn message(&self) -> Message {
        let label = |field: &Field| Message::new(format!("{}.label", field.text()));
        match self {
            WorkspaceError::Store(error) => error.message(),
            WorkspaceError::Field(error) => error.message(),
            WorkspaceError::File(error) => error.message(),
            WorkspaceError::Exchange(error) => error.message(),
            WorkspaceError::Wire(error) => error.message(),
            WorkspaceError::Number { field, reason } => Message::new("refused-entry")
                .within("field", label(field))
                .within("reason", reason.message()),
            WorkspaceError::Range { field, shown, range } => Message::new("refused-entry-range")
                .within("field", label(field))
                .with("shown", shown)
                .with("range", range),
            WorkspaceError::Spread {
                field,
                shown,
                most,
                unit,
            } => Message::new("refused-entry-spread")
                .within("field", label(field))
                .with("shown", shown)
                .with("most", most)
                .with(
                    "unit",
                    if unit.is_empty() {
                        String::new()
                    } else {
                        format!(" {unit}")
                    },
                ),
            WorkspaceError::History(message) => message.clone(),
            WorkspaceError::Sighting(error) => error.message(),
            WorkspaceError::UnknownField(path) => Message::new("refused-no-field").with("path", path),
        }
    }
}

/// What becomes of a change of a job.
#[derive(Debug, Default)]
enum Changes {
    /// It is stored.
    #[default]
    Stored,
    /// It is only made out: none yet, or what it comes to.
    Proposed(Option<Box<Proposed>>),
}

/// The person's jobs on this device.
#[derive(Debug)]
pub struct Workspace {
    pub(super) store: Store,
    changes: Changes,
}

impl Workspace {
    /// Opens the jobs kept in a folder.
    ///
    /// # Errors
    /// As [`Store::open`].
    pub fn open(folder: &Path) -> Result<Self, WorkspaceError> {
        let mut store = Store::open(folder)?;
        if !store.is_at_home()? {
            // A gate counts only where and when it was confirmed.
            let entry: HistoryEntry<TeardownProcedure> = HistoryEntry {
                at: now(),
                event: Event::Brought,
            };
            // The line is the same for every procedure.
            store.adopt_copy(&entry.to_line())?;
        }
        Ok(Self {
            store,
            changes: Changes::Stored,
        })
    }

    /// Opens the jobs kept in a folder for reading, beside a program that writes them.
    ///
    /// # Errors
    /// As [`Store::open_read_only`].
    pub fn open_read_only(folder: &Path) -> Result<Self, WorkspaceError> {
        Ok(Self {
            store: Store::open_read_only(folder)?,
            changes: Changes::Stored,
        })
    }

    /// The stored records, for reading. A change is a method of the workspace.
    #[must_use]
    pub fn store(&self) -> &Store {
        &self.store
    }

    /// A job's name, if it is on the shelf; also of one that cannot be read.
    ///
    /// # Errors
    /// The data cannot be read.
    pub fn job_name(&self, id: JobId) -> Result<Option<String>, WorkspaceError> {
        let jobs = self.store.job_summaries(u32::MAX, None)?;
        Ok(jobs.into_iter().find(|job| job.id == id).map(|job| job.name))
    }

    /// Starts a job with typical values for the outlet that the person has.
    ///
    /// # Errors
    /// A blank or overlong name; [`WorkspaceError::Store`].
    pub fn start_job(&mut self, name: &str, outlet: &Outlet) -> Result<JobId, WorkspaceError> {
        let file = start::new_job(name, outlet);
        let id = self.store.edit(Op::StartJob, |edit| edit.insert_job_file(&file))?;
        self.store.set(Setting::MainsDefault, outlet.word)?;
        Ok(id)
    }

    /// Starts a job with a core like the one of another job: its measures and its primary, measured again or
    /// not.
    ///
    /// # Errors
    /// As [`Workspace::start_job`].
    pub fn start_job_again(&mut self, name: &str, outlet: &Outlet, of: JobId) -> Result<JobId, WorkspaceError> {
        let file = JobFile {
            core: self.store.job_file(of)?.core,
            ..start::new_job(name, outlet)
        };
        let id = self.store.edit(Op::StartJob, |edit| edit.insert_job_file(&file))?;
        self.store.set(Setting::MainsDefault, outlet.word)?;
        Ok(id)
    }

    /// Starts a job for the reactor that a job's winding needs, on the same mains.
    ///
    /// # Errors
    /// As [`Workspace::start_job`].
    pub fn start_reactor(&mut self, name: &str, of: JobId, reactor: &Reactor) -> Result<JobId, WorkspaceError> {
        let plug = self.store.job_file(of)?.mains.circuit.plug;
        let outlet = Outlet::of_word(&plug).unwrap_or(&OUTLETS[0]);
        let file = start::reactor_job(name, outlet, reactor.inductance, reactor.current);
        Ok(self.store.edit(Op::StartJob, |edit| edit.insert_job_file(&file))?)
    }

    /// Takes a job file in.
    ///
    /// # Errors
    /// [`JobFileError`] names the field that is wrong.
    pub fn take_in(&mut self, text: &str) -> Result<JobId, WorkspaceError> {
        let file = JobFile::parse(text)?;
        Ok(self.store.import_job_file(&file)?)
    }

    /// Takes a job off the shelf, and its core where no other job uses it.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn remove_job(&mut self, id: JobId) -> Result<(), WorkspaceError> {
        self.remove_both(Op::RemoveJob, Some(id), None)
    }

    /// Takes the last operation back, and tells which it was.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn undo(&mut self) -> Result<Option<Op>, WorkspaceError> {
        Ok(self.store.undo()?)
    }

    /// Does an operation again that was taken back, and tells which it was.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn redo(&mut self) -> Result<Option<Op>, WorkspaceError> {
        Ok(self.store.redo()?)
    }

    /// Sets a setting.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn set_setting(&mut self, setting: Setting, value: &str) -> Result<(), WorkspaceError> {
        Ok(self.store.set(setting, value)?)
    }
}

/// The outlet that a word names, else the first.
#[must_use]
pub fn outlet_of(word: &str) -> &'static Outlet {
    OUTLETS.iter().find(|outlet| outlet.word == word).unwrap_or(&OUTLETS[0])
}
