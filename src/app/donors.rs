//! The person's donors: what they are, what was seen of them, their teardown and photos.

use super::behaviour::shunts::advice_for_use;
use super::guided::{Stored, StoredRun};
use super::start;
use super::workspace::{Entry, Workspace, WorkspaceError, read_entry};
use crate::job::{Donor, DonorId, Job, JobId, PhotoId, Places, PrimaryMetal, Record, ShelfCore, fields};
use crate::magnetics::circuit::mains::{OUTLETS, Outlet};
use crate::magnetics::circuit::shunt_advice::ShuntAdvice;
use crate::quantity::LengthUnit;
use crate::store::{History, Op, Store};
use crate::teardown::{Findings, ShuntFate, Teardown, TeardownProcedure};
use crate::wire::Metal;

/// A teardown has no plan: it is there as soon as its donor is.
impl Stored for TeardownProcedure {
    type Owner = DonorId;

    fn stored(store: &Store, donor: DonorId) -> Result<Option<StoredRun<Self>>, WorkspaceError> {
        let lines = store.teardown_lines(donor)?;
        Ok(Some((History::Teardown(donor), Self, lines)))
    }
}

impl Workspace {
    /// Puts a find on the shelf; nothing is known of it yet but where its outlet would be.
    ///
    /// # Errors
    /// A blank or overlong name; [`WorkspaceError::Store`].
    pub fn start_donor(&mut self, name: &str) -> Result<DonorId, WorkspaceError> {
        let donor = Donor {
            name: name.to_owned(),
            ..Donor::default()
        };
        Ok(self.store.edit(Op::AddDonor, |edit| edit.insert(&donor))?)
    }

    /// Changes a donor, as one step of undo.
    ///
    /// # Errors
    /// A text or number that is not accepted; nothing is changed then.
    pub fn set_donor(&mut self, id: DonorId, op: Op, with: impl FnOnce(&mut Donor)) -> Result<(), WorkspaceError> {
        let Record { meta, mut body } = self.store.donor(id)?;
        with(&mut body);
        self.store.edit(op, |edit| edit.update(id, meta.revision, &body))?;
        Ok(())
    }

    /// Sets one number of a donor from what was typed; blank takes it away.
    ///
    /// # Errors
    /// Names the field and its range; nothing is changed then.
    pub fn set_donor_number(&mut self, id: DonorId, entry: &Entry, unit: LengthUnit) -> Result<(), WorkspaceError> {
        let unknown = || WorkspaceError::UnknownField(entry.path.to_owned());
        let field = fields::find(entry.path).ok_or_else(unknown)?;
        let value = read_entry(field, entry, unit)?;
        let path = entry.path.strip_prefix("donor.").ok_or_else(unknown)?;
        let Record { meta, mut body } = self.store.donor(id)?;
        body.put(path, value).then_some(()).ok_or_else(unknown)?;
        self.store
            .edit(Op::Number(field), |edit| edit.update(id, meta.revision, &body))?;
        Ok(())
    }

    /// Takes a donor off the shelf with its photos and the history of its teardown; cores and
    /// jobs that came from it stay. Undo brings all of it back.
    ///
    /// # Errors
    /// The donor is gone.
    pub fn remove_donor(&mut self, id: DonorId) -> Result<(), WorkspaceError> {
        Ok(self.store.edit(Op::RemoveDonor, |edit| edit.delete(id))?)
    }

    /// Where a donor's teardown stands; at its first step before anything was done.
    ///
    /// # Errors
    /// [`WorkspaceError::History`] where the stored history cannot have happened.
    pub fn teardown(&self, id: DonorId) -> Result<Teardown, WorkspaceError> {
        let run = self.run::<TeardownProcedure>(id)?;
        Ok(run.unwrap_or_else(|| Teardown::start(TeardownProcedure)))
    }

    /// What the teardown of a job's core found, where its oven is on the shelf.
    #[must_use]
    pub fn core_findings(&self, job: JobId) -> Option<Findings> {
        let donor = self.store.donor_of(job).ok()??;
        Some(self.teardown(donor).ok()?.findings().clone())
    }

    /// Begins a donor's teardown at the first step again; what happened is forgotten, and undo
    /// brings it back.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn restart_teardown(&mut self, id: DonorId) -> Result<(), WorkspaceError> {
        Ok(self.store.edit(Op::RestartTeardown, |edit| edit.forget_teardown(id))?)
    }

    /// Keeps a photo with a donor.
    ///
    /// # Errors
    /// Not a JPEG or PNG, or too large; nothing is saved then.
    pub fn add_photo(&mut self, id: DonorId, what: &str, bytes: &[u8]) -> Result<PhotoId, WorkspaceError> {
        Ok(self.store.add_photo(id, what, bytes)?)
    }

    /// What becomes of a donor's shunts for each use that the person wants: from the core of a job
    /// that came from it, else from a usual core on the donor's mains.
    ///
    /// # Errors
    /// The donor is gone.
    pub fn shunt_advice(&self, id: DonorId) -> Result<Vec<(&'static str, ShuntAdvice)>, WorkspaceError> {
        let file = match self.store.jobs_from(id)?.first() {
            Some(job) => self.store.job_file(*job)?,
            None => start::new_job("shunts", self.outlet_for(&self.store.donor(id)?.body)?),
        };
        Ok(self
            .wants()?
            .into_iter()
            .filter_map(|word| Some((word, advice_for_use(&file, word)?)))
            .collect())
    }

    /// The outlet that a donor belongs to: the person's usual one where the label does not speak
    /// against it, else one of the label's mains.
    ///
    /// # Errors
    /// The data cannot be read.
    pub fn outlet_for(&self, donor: &Donor) -> Result<&'static Outlet, WorkspaceError> {
        let usual = self.store.setting(crate::store::Setting::MainsDefault)?;
        let usual = super::workspace::outlet_of(&usual.unwrap_or_default());
        let volts = donor.mains_volts.map_or(usual.volts, |reading| reading.value);
        let hertz = donor.hertz.map_or(usual.hertz, f64::from);
        let fits = |outlet: &Outlet| outlet.hertz == hertz && (outlet.volts - volts).abs() <= 0.1 * volts;
        if fits(usual) {
            return Ok(usual);
        }
        Ok(OUTLETS.iter().find(|outlet| fits(outlet)).unwrap_or(usual))
    }

    /// Starts a job with a donor's core for the outlet that the person has: typical measures, and what
    /// the label and the teardown told.
    ///
    /// # Errors
    /// A blank or overlong name; the donor is gone.
    pub fn start_job_from(&mut self, id: DonorId, name: &str, outlet: &Outlet) -> Result<JobId, WorkspaceError> {
        let donor = self.store.donor(id)?.body;
        let found = self.teardown(id).map(|t| t.findings().clone()).unwrap_or_default();
        let volts = donor.mains_volts.map_or(outlet.volts, |reading| reading.value);
        let hertz = donor.hertz.map_or(outlet.hertz, f64::from);
        let mut file = start::new_job(name, outlet);
        file.core.primary.rated_volts = volts;
        file.core.primary.rated_hertz = hertz as u32;
        file.core.shunts_kept = found.shunts == Some(ShuntFate::Keep);
        file.core.primary.metal = match found.primary_metal {
            Some(Metal::Copper) => PrimaryMetal::Copper,
            Some(Metal::Aluminium) => PrimaryMetal::Aluminium,
            None => PrimaryMetal::Unknown,
        };
        let job = self.store.edit(Op::StartJobFromDonor, |edit| {
            let core = edit.insert(&ShelfCore {
                donor: Some(id),
                core: file.core.clone(),
            })?;
            edit.insert(&Job {
                name: file.name.clone(),
                core,
                mains: file.mains.clone(),
                goal: file.goal,
                conditions: file.conditions.clone(),
                choice: None,
                note: String::new(),
            })
        })?;
        self.store.set(crate::store::Setting::MainsDefault, outlet.word)?;
        Ok(job)
    }
}
