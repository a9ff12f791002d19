//! What is asked before it is done.

use super::{AppState, Screen};
use crate::app::reach::Step;
use crate::job::{Choice, DonorId, JobId};
use crate::magnetics::circuit::mains::Outlet;
use crate::teardown::Phase;

/// A question that stands before something that the person tapped.
#[derive(Debug, Clone, PartialEq)]
pub enum Asked {
    /// Another use, while the tests of this one's winding have begun.
    Use(String),
    /// Another winding, likewise; none for the best one found.
    Winding(Option<Choice>),
    /// Changes that reach the target, likewise.
    Steps(Vec<Step>),
    /// The outlet of a job with this donor's core.
    Outlet(DonorId),
    /// Name and outlet of a job with a bare core.
    Core,
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

    /// Chooses another use; asks first where tests would count no more.
    pub fn choose_use(&mut self, word: &str) {
        let other = self.file().is_some_and(|file| file.goal.word() != word);
        if other && self.tests_count() {
            self.asked = Some(Asked::Use(word.to_owned()));
        } else if other {
            self.set_use(word);
        }
    }

    /// Chooses a winding, or the best one; asks first where tests would count no more.
    pub fn choose_winding(&mut self, choice: Option<Choice>) {
        if self.tests_count() {
            self.asked = Some(Asked::Winding(choice));
        } else {
            self.choose(choice);
        }
    }

    /// Changes the job as it takes to reach its target; asks first where tests would count no more.
    pub fn choose_steps(&mut self, steps: Vec<Step>) {
        if self.tests_count() {
            self.asked = Some(Asked::Steps(steps));
        } else {
            self.take_steps(&steps);
        }
    }

    /// Does what was asked about; starts the job where that was the outlet.
    pub fn answer_yes(&mut self) {
        match self.asked.take() {
            Some(Asked::Use(word)) => self.set_use(&word),
            Some(Asked::Winding(choice)) => self.choose(choice),
            Some(Asked::Steps(steps)) => self.take_steps(&steps),
            Some(Asked::Outlet(donor)) => {
                let outlet = self.outlet_of_donor(donor);
                self.start_job_with(donor, outlet);
            }
            Some(Asked::Core) | None => {}
        }
    }

    /// Whether the job has tests that prove its winding as it is now.
    fn tests_count(&self) -> bool {
        self.tests_against_design().is_some_and(|tests| !tests.outdated)
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
        let known = self.query(|data| data.outlet_for(&data.donor(donor)?));
        known.unwrap_or_else(|_| self.outlet())
    }

    /// Starts a job with a donor's core for an outlet, and opens it at Measure, or
    /// stays at a teardown that goes on.
    pub fn start_job_with(&mut self, donor: DonorId, outlet: &Outlet) {
        self.asked = None;
        let started = self.with_workspace(|workspace| {
            let name = workspace.donor(donor)?.name;
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
