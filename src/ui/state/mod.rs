//! What is in hand: the open job, its answer, the screen shown. Every change goes through a
//! method here, is saved at once, and is answered anew.

mod asked;
mod cards;
mod data;
mod guided;
mod job;
mod list;
mod next_step;
mod photos;
mod screen;
mod settings;
mod sync;
mod trouble;
mod winding;

use std::path::{Path, PathBuf};

use super::words::explain;
use crate::app::evaluation::{Evaluation, evaluate};
use crate::app::guard::guarded;
use crate::app::next_step::Station;
use crate::app::workspace::{Workspace, WorkspaceError};
use crate::job::{DonorId, JobFile, JobId};
use crate::store::{Setting, StoreError};
use crate::wind::CoreOfPair;
use crate::wire::UnknownConductor;

pub use asked::{Asked, Pending, Voiding};
use cards::CardList;
pub use cards::CardWay;
pub use data::Unread;
use data::WorkspaceState;
pub use guided::InHand;
use list::JobList;
pub use next_step::screen_of;
pub use screen::Screen;
pub use trouble::{Trouble, Troubled};

/// The job in hand.
#[derive(Debug)]
struct Open {
    id: JobId,
    file: JobFile,
    answer: Result<Evaluation, Trouble>,
}

/// How a job is evaluated: [`evaluate`], or what a test puts in its place.
pub type Evaluate = fn(&JobFile) -> Result<Evaluation, UnknownConductor>;

/// What [`Setting::Place`] begins with while the job of the last time is opened: where it still does at
/// the next start, the app stopped over that job.
const OPENING: &str = "opening ";

/// Jobs shown at a time in the list.
pub const PAGE_OF_JOBS: u32 = 40;

/// The app.
#[derive(Debug)]
pub struct AppState {
    workspace: WorkspaceState,
    folder: PathBuf,
    screen: Screen,
    open: Option<Open>,
    donor: Option<DonorId>,
    notice: Option<String>,
    listed: Result<JobList, Unread>,
    cards: CardList,
    /// The words that the listed jobs are to have; empty for all jobs.
    wanted: String,
    /// Whether the search was asked for, however few cards there are.
    looking: bool,
    /// Whether the list of the keys is open.
    keys: bool,
    evaluate: Evaluate,
    asked: Option<Asked>,
    /// The core whose winding the person asked to see; where there is none, the one that comes next.
    winding_core: Option<CoreOfPair>,
    /// A job that could not be opened.
    troubled: Option<Troubled>,
    /// True until the first screen with the job of the last time was shown.
    opening: bool,
}

impl AppState {
    /// Opens the data folder; where that fails, the screen shows why.
    #[must_use]
    pub fn open(folder: &Path) -> Self {
        Self::open_with(folder, evaluate)
    }

    /// [`AppState::open`] with another evaluation.
    #[must_use]
    pub fn open_with(folder: &Path, evaluate: Evaluate) -> Self {
        let workspace = match Workspace::open(folder) {
            Ok(workspace) => WorkspaceState::Open(Box::new(workspace)),
            Err(error) => {
                tracing::error!("cannot open the data: {error}");
                WorkspaceState::Failed(explain(&error))
            }
        };
        let mut app = Self {
            workspace,
            folder: folder.to_owned(),
            screen: Screen::Home,
            open: None,
            donor: None,
            notice: None,
            listed: Ok(JobList::default()),
            cards: CardList::default(),
            wanted: String::new(),
            looking: false,
            keys: false,
            evaluate,
            asked: None,
            winding_core: None,
            troubled: None,
            opening: false,
        };
        app.list_again();
        app.back_to_place();
        app
    }

    /// Goes back to where the person was when the app was last closed, or the device died. A job that
    /// cannot be opened, or that the app stopped over the last time, is left on the shelf.
    fn back_to_place(&mut self) {
        let Some(place) = self.setting(Setting::Place) else {
            return;
        };
        let stopped = place.starts_with(OPENING);
        let mut words = place.trim_start_matches(OPENING).split(' ');
        let word = words.next().unwrap_or_default();
        let mut id = || words.next().and_then(|id| id.parse().ok());
        let (job, donor) = (id().map(JobId), id().map(DonorId));
        let Some(screen) = Screen::ALL
            .into_iter()
            .find(|screen| screen.word().eq_ignore_ascii_case(word))
        else {
            return;
        };
        match job {
            Some(job) if stopped => {
                self.in_trouble(job, Trouble::Interrupted);
                self.go(Screen::Home);
                return;
            }
            Some(job) => {
                self.opening = true;
                self.set(Setting::Place, &format!("{OPENING}{place}"));
                self.open_job(job, screen);
                if self.open.is_none() {
                    self.settle_start();
                    self.notice = None;
                    return;
                }
            }
            None => {}
        }
        if let Some(donor) = donor
            && self
                .with_workspace(|workspace| Ok(workspace.store().donor(donor)?))
                .is_some()
        {
            self.donor = Some(donor);
        }
        self.screen = if self.can_show(screen) { screen } else { Screen::Home };
        self.notice = None;
    }

    /// Tells that the screen of the job of the last time was shown: the app got over it.
    pub fn settle_start(&mut self) {
        if std::mem::take(&mut self.opening) {
            self.remember_place();
        }
    }

    /// Whether [`AppState::settle_start`] is still to come.
    #[must_use]
    pub fn is_starting(&self) -> bool {
        self.opening
    }

    fn remember_place(&mut self) {
        if self.opening {
            return;
        }
        let id = |id: Option<String>| id.unwrap_or_else(|| "-".to_owned());
        let (job, donor) = (
            id(self.job_id().map(|id| id.to_string())),
            id(self.donor.map(|id| id.to_string())),
        );
        let place = format!("{} {job} {donor}", self.screen.word());
        if let Some(workspace) = self.workspace.open_mut()
            && let Err(error) = workspace.set_setting(Setting::Place, &place)
        {
            tracing::warn!("the place is not remembered: {error}");
        }
    }

    /// Why the data cannot be used.
    #[must_use]
    pub fn failure(&self) -> Option<String> {
        match &self.workspace {
            WorkspaceState::Failed(why) => Some(why.clone()),
            WorkspaceState::Open(_) | WorkspaceState::Busy => None,
        }
    }

    /// The screen shown.
    #[must_use]
    pub fn screen(&self) -> Screen {
        self.screen
    }

    /// Shows a screen.
    pub fn go(&mut self, screen: Screen) {
        // Not where the app opens again: it goes on where it was.
        if screen != self.screen && !self.opening {
            // What stood open on the screen that is left is folded when it is opened again.
            self.fold_all();
        }
        self.screen = screen;
        self.asked = None;
        if screen == Screen::Home {
            self.list_again();
        }
        self.remember_place();
        tracing::debug!("screen: {}", screen.word());
    }

    /// Whether what a screen shows is in hand.
    #[must_use]
    pub fn can_show(&self, screen: Screen) -> bool {
        match screen {
            Screen::Donor => self.donor.is_some() || self.has_job(),
            Screen::Teardown => self.donor.is_some(),
            screen => !screen.of_job() || self.has_job(),
        }
    }

    /// Whether a stage can be opened: an oven's needs one in hand, a job's a job.
    #[must_use]
    pub fn has_stage(&self, station: Station) -> bool {
        self.can_open(screen_of(station))
    }

    /// The same of the screen of a stage.
    #[must_use]
    pub fn can_open(&self, stage: Screen) -> bool {
        match stage {
            Screen::SizeUp => self.donor.is_some(),
            stage => self.can_show(stage),
        }
    }

    /// Whether the list of the keys is open.
    #[must_use]
    pub fn shows_keys(&self) -> bool {
        self.keys
    }

    /// Opens the list of the keys, or closes it.
    pub fn show_keys(&mut self, open: bool) {
        self.keys = open;
    }

    /// Whether Home offers its search, however few cards there are.
    #[must_use]
    pub fn looks_for_cards(&self) -> bool {
        self.looking
    }

    /// Makes Home offer its search.
    pub fn look_for_cards(&mut self) {
        self.looking = true;
    }

    /// Shows a screen that the person was on before, if what it shows is still there.
    pub fn back_to(&mut self, word: &str) {
        let known = Screen::ALL.into_iter().find(|screen| screen.word() == word);
        if let Some(screen) = known
            && self.can_show(screen)
        {
            self.go(screen);
        }
    }

    /// The title of the screen: the job's name, or the app's.
    #[must_use]
    pub fn title(&self) -> String {
        match (&self.open, self.screen) {
            (Some(open), screen) if screen.of_job() => open.file.name.clone(),
            (Some(open), Screen::Donor) => open.file.name.clone(),
            (_, Screen::Donor | Screen::SizeUp | Screen::Teardown) => self
                .donor()
                .ok()
                .flatten()
                .map_or_else(|| "Curbcore".to_owned(), |d| d.name),
            _ => "Curbcore".to_owned(),
        }
    }

    /// True where a job is in hand.
    #[must_use]
    pub fn has_job(&self) -> bool {
        self.open.is_some()
    }

    /// The job in hand.
    #[must_use]
    pub fn file(&self) -> Option<&JobFile> {
        self.open.as_ref().map(|open| &open.file)
    }

    /// Its answer.
    #[must_use]
    pub fn answer(&self) -> Option<Result<&Evaluation, &Trouble>> {
        self.open.as_ref().map(|open| open.answer.as_ref())
    }

    /// Its id.
    #[must_use]
    pub fn job_id(&self) -> Option<JobId> {
        self.open.as_ref().map(|open| open.id)
    }

    /// A message to the person.
    #[must_use]
    pub fn notice(&self) -> Option<String> {
        self.notice.clone()
    }

    /// Shows a message to the person.
    pub fn tell(&mut self, text: String) {
        self.notice = Some(text);
    }

    /// Takes the message away.
    pub fn dismiss(&mut self) {
        self.notice = None;
    }

    /// Takes the last change back.
    pub fn undo(&mut self) {
        if let Ok(Some(op)) = self.query(|data| data.store().undo_op()) {
            self.carry_out_or_tell(Pending::Undo(op));
        }
    }

    /// Does it again.
    pub fn redo(&mut self) {
        if let Ok(Some(op)) = self.query(|data| data.store().redo_op()) {
            self.carry_out_or_tell(Pending::Redo(op));
        }
    }

    /// Carries a change out, or asks first; a refusal becomes the message to the person.
    fn carry_out_or_tell(&mut self, change: Pending) {
        if let Some(refused) = self.carry_out_or_ask(change) {
            self.notice = Some(refused);
        }
    }

    /// Changes the job in hand; asks first where tests or a winding would count no more.
    fn change(&mut self, with: impl FnOnce(&mut Workspace, JobId) -> Result<(), WorkspaceError>) {
        let Some(id) = self.job_id() else { return };
        match self.with_workspace(|workspace| workspace.propose(|workspace| with(workspace, id))) {
            Some(Some(proposed)) => self.carry_out_or_tell(Pending::Job(Box::new(proposed), None)),
            _ => self.reload(),
        }
    }

    /// Runs something on the workspace; a refusal becomes the message to the person.
    fn with_workspace<T>(&mut self, with: impl FnOnce(&mut Workspace) -> Result<T, WorkspaceError>) -> Option<T> {
        let workspace = self.workspace.open_mut()?;
        match with(workspace) {
            Ok(value) => {
                self.notice = None;
                Some(value)
            }
            Err(error) => {
                tracing::warn!("refused: {error}");
                self.notice = Some(explain(&error));
                None
            }
        }
    }

    fn reload(&mut self) {
        let gone =
            |donor| matches!(self.workspace.open()?.store().donor(donor), Err(error) if is_gone(&error)).then_some(());
        if self.donor.and_then(gone).is_some() {
            // Undo may have taken the find back.
            self.donor = None;
            if matches!(self.screen, Screen::SizeUp | Screen::Teardown) {
                self.go(Screen::Home);
            }
        }
        let Some(id) = self.job_id() else {
            self.list_again();
            return;
        };
        let Some(workspace) = self.workspace.open() else { return };
        match workspace.store().job_file(id) {
            Ok(file) => {
                let answer = self.evaluated(id, &file);
                self.open = Some(Open { id, file, answer });
                if self.screen == Screen::Home {
                    self.list_again();
                }
            }
            // Undo may have taken the whole job back.
            Err(error) if is_gone(&error) => {
                self.open = None;
                self.go(Screen::Home);
            }
            Err(error) => {
                self.in_trouble(id, Trouble::Unreadable(explain(&error)));
                self.go(Screen::Home);
            }
        }
    }
}

/// An app that is put away was not stopped over its job.
impl Drop for AppState {
    fn drop(&mut self) {
        if !std::thread::panicking() {
            self.settle_start();
        }
    }
}

impl AppState {
    /// Evaluates a job with what the teardown of its core found.
    fn evaluated(&self, job: JobId, file: &JobFile) -> Result<Evaluation, Trouble> {
        self.joined(job, evaluated(self.evaluate, file)?)
    }

    /// Joins an evaluation with what the teardown of its core found.
    fn joined(&self, job: JobId, evaluation: Evaluation) -> Result<Evaluation, Trouble> {
        let findings = self.workspace.open().and_then(|workspace| workspace.core_findings(job));
        guarded(|| evaluation.from_teardown(findings)).map_err(|fault| Trouble::Fault(fault.to_string()))
    }
}

/// Whether an error says that a record does not exist any more, and not that it cannot be read.
fn is_gone(error: &StoreError) -> bool {
    matches!(error, StoreError::NotFound { .. })
}

fn evaluated(evaluate: Evaluate, file: &JobFile) -> Result<Evaluation, Trouble> {
    guarded(|| evaluate(file))
        .map_err(|fault| Trouble::Fault(fault.to_string()))?
        .map_err(|error| Trouble::Value(explain(&error)))
}
