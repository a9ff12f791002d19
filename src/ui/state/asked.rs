//! What is asked before it is done.

use uuid::Uuid;

use super::super::guided::why;
use super::super::words::explain;
use super::{AppState, Screen};
use crate::app::guard::guarded;
use crate::app::guided::Blocked;
use crate::app::now::now;
use crate::app::voided::Voided;
use crate::app::wind::FromShelf;
use crate::app::workspace::{Proposed, Workspace, WorkspaceError};
use crate::job::{DonorId, JobFile, JobId, StockId};
use crate::magnetics::circuit::mains::Outlet;
use crate::merge::Kind;
use crate::store::Op;
use crate::teardown::Phase;
use crate::wind::CoreOfPair;

/// A question that stands before something that the person tapped.
#[derive(Debug, Clone, PartialEq)]
pub enum Asked {
    /// A change after which tests or a winding would count no more.
    Change(Box<Voiding>),
    /// The outlet of a job with this donor's core.
    Outlet(DonorId),
    /// Name and outlet of a job with a bare core.
    Core,
}

/// A change that is not done, since tests or a winding would count no more after it.
#[derive(Debug, Clone, PartialEq)]
pub struct Voiding {
    /// The change.
    pub change: Pending,
    /// What would count no more, job by job.
    pub voided: Vec<Voided>,
}

/// A change that waits for an answer.
#[derive(Debug, Clone, PartialEq)]
pub enum Pending {
    /// A change of a job, and the screen on which the job is opened after it.
    Job(Box<Proposed>, Option<Screen>),
    /// The last operation is taken back.
    Undo(Op),
    /// The operation that was taken back is done again.
    Redo(Op),
    /// A wire is put on the shelf: its name in the catalogue, and its metres as typed.
    AddWire(String, String),
    /// A wire is taken off the shelf.
    RemoveWire(StockId),
    /// The wire that a winding of this core took is taken off the shelf.
    WoundWire((JobId, CoreOfPair), Box<FromShelf>),
    /// One of two values is settled on: its record and field, and which of the values.
    Settle {
        /// The kind of the record.
        kind: Kind,
        /// The record.
        id: Uuid,
        /// Its field.
        field: String,
        /// The place of the value among those that differ.
        side: usize,
    },
}

impl AppState {
    /// The question that stands open.
    #[must_use]
    pub fn asked(&self) -> Option<Asked> {
        self.asked.clone()
    }

    /// The person thought better of it.
    pub fn ask_no_more(&mut self) {
        self.asked = None;
    }

    /// Chooses another use, where it is another.
    pub fn choose_use(&mut self, word: &str) {
        if self.file().is_some_and(|file| file.goal.word() != word) {
            self.set_use(word);
        }
    }

    /// Does what was asked about; starts the job where that was the outlet.
    pub fn answer_yes(&mut self) {
        match self.asked.take() {
            Some(Asked::Change(asked)) => {
                if let Some(refused) = self.carry_out(asked.change) {
                    self.notice = Some(refused);
                }
            }
            Some(Asked::Outlet(donor)) => {
                let outlet = self.outlet_of_donor(donor);
                self.start_job_with(donor, outlet);
            }
            Some(Asked::Core) | None => {}
        }
    }

    /// Carries a change out, or asks first where tests or a winding would count no more; gives the message where
    /// it is refused.
    pub(super) fn carry_out_or_ask(&mut self, change: Pending) -> Option<String> {
        let voided = self.voided_by(&change);
        if voided.is_empty() {
            return self.carry_out(change);
        }
        self.asked = Some(Asked::Change(Box::new(Voiding { change, voided })));
        None
    }

    fn carry_out(&mut self, change: Pending) -> Option<String> {
        let workspace = self.workspace.open_mut()?;
        let done = match &change {
            Pending::Job(proposed, _) => workspace.store_proposed(Proposed::clone(proposed)),
            Pending::Undo(_) => workspace.undo().map(|_| ()),
            Pending::Redo(_) => workspace.redo().map(|_| ()),
            Pending::AddWire(conductor, length) => workspace.add_stock(conductor, length),
            Pending::RemoveWire(id) => workspace.remove_stock(*id),
            Pending::Settle { kind, id, field, side } => workspace.resolve_conflict(*kind, *id, field, *side),
            Pending::WoundWire(of, from) => {
                let taken = workspace.take_wire(*of, from, now());
                self.reload();
                return taken.err().map(|blocked| why(&blocked));
            }
        };
        self.reload();
        if matches!(change, Pending::Settle { .. }) {
            self.list_again();
        }
        if let Err(error) = done {
            tracing::warn!("refused: {error}");
            return Some(explain(&error));
        }
        self.notice = None;
        if let Pending::Job(proposed, Some(screen)) = change {
            self.open_job(proposed.job, screen);
        }
        None
    }

    /// What would count no more after a change; nothing where it would be refused.
    fn voided_by(&mut self, change: &Pending) -> Vec<Voided> {
        let how = self.evaluate;
        let evaluate = move |workspace: &Workspace, job: JobId, file: &JobFile| {
            let answer = super::evaluated(how, file).ok()?;
            guarded(|| answer.from_teardown(workspace.core_findings(job))).ok()
        };
        let Some(workspace) = self.workspace.open_mut() else {
            return Vec::new();
        };
        let preview = |workspace: &mut Workspace, change: &dyn Fn(&mut Workspace) -> Result<(), WorkspaceError>| {
            workspace.preview_voided(change, &evaluate).map(|((), voided)| voided)
        };
        let voided = match change {
            Pending::Job(proposed, _) => {
                let evaluated = |file: &JobFile| evaluate(workspace, proposed.job, file);
                return workspace
                    .voided_by(proposed.job, Some(&proposed.after), &evaluated)
                    .into_iter()
                    .collect();
            }
            Pending::Undo(_) => preview(workspace, &|data| data.undo().map(|_| ())),
            Pending::Redo(_) => preview(workspace, &|data| data.redo().map(|_| ())),
            Pending::AddWire(conductor, length) => preview(workspace, &|data| data.add_stock(conductor, length)),
            Pending::RemoveWire(id) => preview(workspace, &|data| data.remove_stock(*id)),
            Pending::Settle { kind, id, field, side } => {
                preview(workspace, &|data| data.resolve_conflict(*kind, *id, field, *side))
            }
            Pending::WoundWire(of, from) => {
                // What the procedure refuses takes nothing; it is told as it is carried out.
                let take = |data: &mut Workspace| match data.take_wire(*of, from, now()) {
                    Err(Blocked::Failed(error)) => Err(error),
                    Ok(()) | Err(Blocked::Refused(_)) => Ok(()),
                };
                preview(workspace, &take)
            }
        };
        voided.unwrap_or_default()
    }

    /// Asks for the outlet of a job with the core of the donor in hand.
    pub fn start_job_from_donor(&mut self) {
        self.asked = self.donor.map(Asked::Outlet);
    }

    /// Asks for the name and the outlet of a job with a bare core.
    pub fn ask_for_core(&mut self) {
        self.asked = Some(Asked::Core);
    }

    /// Starts the job of a bare core; `like` is the job of a core with the same measures.
    pub fn start_job_with_core(&mut self, name: &str, outlet: &Outlet, like: Option<JobId>) {
        self.asked = None;
        let Some(like) = like else {
            return self.start_job(name, outlet);
        };
        if let Some(id) = self.with_workspace(|workspace| workspace.start_job_again(name, outlet, like)) {
            self.open_job(id, Screen::Measure);
        }
    }

    /// The outlet that is offered first for a donor's core.
    #[must_use]
    pub fn outlet_of_donor(&self, donor: DonorId) -> &'static Outlet {
        let known = self.query(|data| data.outlet_for(&data.store().donor(donor)?.body));
        known.unwrap_or_else(|_| self.outlet())
    }

    /// Starts a job with a donor's core for an outlet, and opens it at Measure, or
    /// stays at a teardown that goes on.
    pub fn start_job_with(&mut self, donor: DonorId, outlet: &Outlet) {
        self.asked = None;
        let started = self.with_workspace(|workspace| {
            let name = workspace.store().donor(donor)?.body.name;
            workspace.start_job_from(donor, &name, outlet)
        });
        if let Some(job) = started {
            // The teardown's step Measure goes on where it is.
            let goes_on = matches!(self.teardown(), Some(Ok(state)) if state.phase() == Phase::Working);
            let stays = self.screen() == Screen::Teardown && goes_on;
            self.open_job(job, if stays { Screen::Teardown } else { Screen::Measure });
        }
    }
}
