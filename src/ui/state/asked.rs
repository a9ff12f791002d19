//! What is asked before it is done.

use std::collections::BTreeSet;

use super::{AppState, Screen};
use crate::app::bench::plan_of;
use crate::app::guard::guarded;
use crate::app::workspace::Proposed;
use crate::bench::{Plan, Stage};
use crate::job::{DonorId, JobFile, JobId};
use crate::magnetics::circuit::mains::Outlet;
use crate::teardown::Phase;

/// A question that stands before something that the person tapped.
#[derive(Debug, Clone, PartialEq)]
pub enum Asked {
    /// A change of a job after which its tests would count no more.
    Change(Box<Voiding>),
    /// The outlet of a job with this donor's core.
    Outlet(DonorId),
    /// Name and outlet of a job with a bare core.
    Core,
}

/// A change that is not stored, since tests would count no more after it.
#[derive(Debug, Clone, PartialEq)]
pub struct Voiding {
    /// The change.
    pub proposed: Proposed,
    /// How many tests have readings.
    pub tests: usize,
    /// The screen on which the job is opened after it.
    pub then: Option<Screen>,
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
            Some(Asked::Change(change)) => self.store_change(change.proposed, change.then),
            Some(Asked::Outlet(donor)) => {
                let outlet = self.outlet_of_donor(donor);
                self.start_job_with(donor, outlet);
            }
            Some(Asked::Core) | None => {}
        }
    }

    /// Stores a change of a job, and opens the job where a screen is given; asks first where tests would
    /// count no more.
    pub(super) fn store_or_ask(&mut self, proposed: Proposed, then: Option<Screen>) {
        match self.tests_voided_by(&proposed) {
            Some(tests) => self.asked = Some(Asked::Change(Box::new(Voiding { proposed, tests, then }))),
            None => self.store_change(proposed, then),
        }
    }

    fn store_change(&mut self, proposed: Proposed, then: Option<Screen>) {
        let job = proposed.job;
        let stored = self.with_workspace(|workspace| workspace.store_proposed(proposed));
        self.reload();
        if let (Some(()), Some(screen)) = (stored, then) {
            self.open_job(job, screen);
        }
    }

    /// How many tests with readings would count no more after a change; none where no tests count now, or
    /// they go on counting.
    pub(super) fn tests_voided_by(&self, proposed: &Proposed) -> Option<usize> {
        let workspace = self.workspace.open()?;
        let run = workspace.run::<Plan>(proposed.job).ok()??;
        let counts = |file: &JobFile| {
            let answer = self.evaluated(proposed.job, file).ok()?;
            let planned = guarded(|| plan_of(file, &answer)).ok()??.ok()?;
            let tests = workspace.tests(proposed.job, Some(&planned)).ok()??;
            Some(!tests.outdated)
        };
        let now = workspace.store().job_file(proposed.job).ok()?;
        // Where nothing can be planned, the tests prove nothing that is on the screen.
        if counts(&now) != Some(true) || counts(&proposed.after) == Some(true) {
            return None;
        }
        let read: BTreeSet<Stage> = run.facts().keys().map(|(stage, _)| *stage).collect();
        Some(read.len())
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
