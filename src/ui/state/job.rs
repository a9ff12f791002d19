//! The job in hand: opened, changed, removed.

use super::super::words::explain;
use super::{AppState, Open, Pending, Screen, Trouble, Unread};
use crate::app::circuit_parts::Reactor;
use crate::app::reach::Step;
use crate::app::workspace::{Entry, Workspace, WorkspaceError};
use crate::job::{Conditions, Core, Goal, JobId, PairChoice};
use crate::magnetics::circuit::mains::Outlet;
use crate::store::{Op, Setting};

impl AppState {
    /// Starts a job and opens it at Measure.
    pub fn start_job(&mut self, name: &str, outlet: &Outlet) {
        if let Some(id) = self.with_workspace(|workspace| workspace.start_job(name, outlet)) {
            self.open_job(id, Screen::Measure);
        }
    }

    /// Starts a job for the reactor that the winding in hand needs, and opens it at Rewind.
    pub fn start_reactor(&mut self, name: &str, reactor: Reactor) {
        let Some(of) = self.job_id() else { return };
        if let Some(id) = self.with_workspace(|workspace| workspace.start_reactor(name, of, &reactor)) {
            self.open_job(id, Screen::Rewind);
        }
    }

    /// Whether the demo is on the shelf.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn has_demo(&self) -> Result<bool, Unread> {
        self.query(|data| Ok::<_, WorkspaceError>(data.demo()?.is_some()))
    }

    /// Takes the demo off the shelf.
    pub fn remove_demo(&mut self) {
        self.with_workspace(Workspace::remove_demo);
        self.open = None;
        self.donor = None;
        self.go(Screen::Home);
    }

    /// Puts the demo on the shelf and opens its donor's page.
    pub fn open_demo(&mut self) {
        if let Some(id) = self.with_workspace(Workspace::open_demo) {
            self.open_job(id, Screen::Donor);
        }
    }

    /// Opens a job. One that cannot be evaluated stays on the shelf, which says why.
    pub fn open_job(&mut self, id: JobId, at: Screen) {
        let Some(workspace) = self.workspace.open() else { return };
        let opened = match workspace.store().job_file(id) {
            Ok(file) => self.evaluated(id, &file).map(|answer| (file, answer)),
            Err(error) => Err(Trouble::Unreadable(explain(&error))),
        };
        match opened {
            Ok((file, answer)) => {
                self.notice = None;
                self.troubled = None;
                let answer = Ok(answer);
                self.open = Some(Open { id, file, answer });
                self.winding_core = None;
                self.donor = self
                    .with_workspace(|workspace| Ok(workspace.store().donor_of(id)?))
                    .flatten();
                self.go(at);
            }
            Err(why) => {
                self.in_trouble(id, why);
                self.go(Screen::Home);
            }
        }
    }

    /// Takes a job off the shelf.
    pub fn remove_job(&mut self, id: JobId) {
        self.with_workspace(|workspace| workspace.remove_job(id));
        if self.job_id() == Some(id) {
            self.open = None;
        }
        self.list_again();
    }

    /// Sets numbers from what was typed; gives the message where they are refused.
    pub fn enter(&mut self, entries: &[Entry]) -> Option<String> {
        let (unit, id) = (self.unit(), self.job_id()?);
        let made = self
            .workspace
            .open_mut()?
            .propose(|workspace| workspace.set_numbers(id, entries, unit));
        let proposed = match made {
            Ok(proposed) => proposed?,
            Err(error) => return Some(explain(&error)),
        };
        self.carry_out_or_ask(Pending::Job(Box::new(proposed), None))
    }

    /// Takes a test of the turns away.
    pub fn clear_group(&mut self, path: &str) {
        self.change(|workspace, id| workspace.clear_group(id, path));
    }

    /// Chooses another use.
    pub fn set_use(&mut self, word: &str) {
        self.change(|workspace, id| workspace.set_use(id, word));
    }

    /// Changes the goal.
    pub fn set_goal(&mut self, op: Op, goal: Goal) {
        self.change(|workspace, id| workspace.set_goal(id, op, goal));
    }

    /// Changes the core.
    pub fn set_core(&mut self, op: Op, with: impl FnOnce(&mut Core)) {
        self.change(|workspace, id| workspace.set_core(id, op, with));
    }

    /// Changes how it is run.
    pub fn set_conditions(&mut self, op: Op, with: impl FnOnce(&mut Conditions)) {
        self.change(|workspace, id| workspace.set_conditions(id, op, with));
    }

    /// Changes the job as it takes to reach its target.
    pub fn take_steps(&mut self, steps: &[Step]) {
        self.change(|workspace, id| workspace.take_steps(id, steps));
    }

    /// Opens a job at Rewind with a second core beside its own.
    pub fn open_pair(&mut self, job: JobId, goal: Goal, pair: PairChoice) {
        let made = self.with_workspace(|workspace| workspace.propose(|workspace| workspace.pair_up(job, goal, pair)));
        if let Some(Some(proposed)) = made {
            self.carry_out_or_tell(Pending::Job(Box::new(proposed), Some(Screen::Rewind)));
        }
    }

    /// Whether a panel stands open.
    #[must_use]
    pub fn panel_open(&self, word: &str) -> bool {
        let open = self.setting(Setting::Panels).unwrap_or_default();
        open.split(' ').any(|w| w == word)
    }

    /// Opens a panel, or closes it.
    pub fn toggle_panel(&mut self, word: &str) {
        let open = self.setting(Setting::Panels).unwrap_or_default();
        let mut words: Vec<&str> = open.split(' ').filter(|w| !w.is_empty() && *w != word).collect();
        if !self.panel_open(word) {
            words.push(word);
        }
        // What has stood open longest folds where more is open than can be kept.
        let length = |words: &[&str]| words.iter().map(|w| w.len() + 1).sum::<usize>();
        while length(&words) > Setting::Panels.most() {
            words.remove(0);
        }
        self.set(Setting::Panels, &words.join(" "));
    }

    /// Closes all panels.
    pub(super) fn fold_all(&mut self) {
        if !self.setting(Setting::Panels).unwrap_or_default().is_empty() {
            self.set(Setting::Panels, "");
        }
    }

    /// Plugs the job into another outlet.
    pub fn set_outlet(&mut self, outlet: &Outlet) {
        self.change(|workspace, id| workspace.set_outlet(id, outlet));
    }
    /// Writes the job's note.
    pub fn set_note(&mut self, note: &str) {
        self.change(|workspace, id| workspace.set_note(id, note));
    }

    /// Renames the job.
    pub fn rename(&mut self, name: &str) {
        self.change(|workspace, id| workspace.rename(id, name));
    }
}
