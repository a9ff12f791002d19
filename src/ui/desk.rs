//! What is on the desk: the open job, its answer, the screen shown. Every change goes through a
//! method here, is saved at once, and is answered anew.

mod carry;
mod guided;

use std::path::{Path, PathBuf};

use crate::app::answer::{Answer, Design, answer, as_choice, design};
use crate::app::listing::wire_label;
use crate::app::shop::{Entry, Shop, ShopError, outlet_of};
use crate::job::{
    Choice, Conditions, Core, DesignId, DonorId, Goal, JobFile, JobId, PhotoId, PhotoMarks, Reading, StockId,
};
use crate::magnetics::mains::Outlet;
use crate::quantity::LengthUnit;
use crate::report;
use crate::rewind::search::Candidate;
use crate::store::{CorePhoto, Cursor, JobSummary, Setting};

pub use guided::Held;

/// The part of the job that is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The donors and jobs.
    Shelf,
    /// The verdict on a find.
    SizeUp,
    /// Taking a donor apart.
    Teardown,
    /// Core, primary and outlet.
    Measure,
    /// Use, windings, design.
    Rewind,
    /// The staged tests.
    Bench,
    /// The page for the bench.
    Page,
    /// To and from other devices.
    Carry,
}

impl Screen {
    /// All of them, in the order of the job.
    pub const ALL: [Screen; 8] = [
        Screen::Shelf,
        Screen::SizeUp,
        Screen::Teardown,
        Screen::Measure,
        Screen::Rewind,
        Screen::Bench,
        Screen::Page,
        Screen::Carry,
    ];

    /// What a person reads.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Screen::Shelf => "Shelf",
            Screen::SizeUp => "Size up",
            Screen::Teardown => "Teardown",
            Screen::Measure => "Measure",
            Screen::Rewind => "Rewind",
            Screen::Bench => "Bench",
            Screen::Page => "Page",
            Screen::Carry => "Carry",
        }
    }

    /// The word that is stored for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Screen::Shelf => "shelf",
            Screen::SizeUp => "size-up",
            Screen::Teardown => "teardown",
            Screen::Measure => "measure",
            Screen::Rewind => "rewind",
            Screen::Bench => "bench",
            Screen::Page => "page",
            Screen::Carry => "carry",
        }
    }

    /// True where the rail shows a way to it: the page hangs below the bench, and the way to other
    /// devices below the shelf.
    #[must_use]
    pub const fn on_rail(self) -> bool {
        !matches!(self, Screen::Page | Screen::Carry)
    }

    /// True where it needs a donor in hand.
    #[must_use]
    pub const fn of_donor(self) -> bool {
        matches!(self, Screen::Teardown)
    }

    /// True where it needs a job in hand.
    #[must_use]
    pub const fn of_job(self) -> bool {
        matches!(self, Screen::Measure | Screen::Rewind | Screen::Bench | Screen::Page)
    }
}

/// The job on the desk.
#[derive(Debug)]
struct Open {
    id: JobId,
    file: JobFile,
    answer: Result<Answer, String>,
}

/// Jobs shown at a time in the list.
pub const PAGE_OF_JOBS: u32 = 40;

/// The desk.
#[derive(Debug)]
pub struct Desk {
    shop: Result<Shop, String>,
    lent: bool,
    folder: PathBuf,
    screen: Screen,
    open: Option<Open>,
    donor: Option<DonorId>,
    notice: Option<String>,
    listed: Vec<JobSummary>,
    count: u32,
    /// The words that the listed jobs are to have; empty for all jobs.
    wanted: String,
}

impl Desk {
    /// Opens the data folder; where that fails, the desk shows why.
    #[must_use]
    pub fn open(folder: &Path) -> Self {
        let shop = Shop::open(folder).map_err(|error| error.to_string());
        if let Err(error) = &shop {
            tracing::error!("cannot open the data: {error}");
        }
        let mut desk = Self {
            shop,
            lent: false,
            folder: folder.to_owned(),
            screen: Screen::Shelf,
            open: None,
            donor: None,
            notice: None,
            listed: Vec::new(),
            count: 0,
            wanted: String::new(),
        };
        desk.list_again();
        desk.back_to_place();
        desk
    }

    /// Goes back to where the person was when the app was last closed, or the device died.
    fn back_to_place(&mut self) {
        let Some(place) = self.setting(Setting::Place) else {
            return;
        };
        let mut words = place.split(' ');
        let word = words.next().unwrap_or_default();
        let mut id = || words.next().and_then(|id| id.parse().ok());
        let (job, donor) = (id().map(JobId), id().map(DonorId));
        let Some(screen) = Screen::ALL
            .into_iter()
            .find(|screen| screen.word().eq_ignore_ascii_case(word))
        else {
            return;
        };
        if let Some(job) = job {
            self.open_job(job, screen);
        }
        if let Some(donor) = donor
            && self.with_shop(|shop| shop.donor(donor)).is_some()
        {
            self.donor = Some(donor);
        }
        let there = !(screen.of_job() && self.open.is_none() || screen.of_donor() && self.donor.is_none());
        self.screen = if there { screen } else { Screen::Shelf };
        self.notice = None;
    }

    fn remember_place(&mut self) {
        let id = |id: Option<String>| id.unwrap_or_else(|| "-".to_owned());
        let (job, donor) = (
            id(self.job_id().map(|id| id.to_string())),
            id(self.donor.map(|id| id.to_string())),
        );
        let place = format!("{} {job} {donor}", self.screen.word());
        if let Ok(shop) = &mut self.shop
            && let Err(error) = shop.set_setting(Setting::Place, &place)
        {
            tracing::warn!("the place is not remembered: {error}");
        }
    }

    /// Why the data could not be opened.
    #[must_use]
    pub fn failure(&self) -> Option<String> {
        self.shop.as_ref().err().filter(|_| !self.lent).cloned()
    }

    /// The screen shown.
    #[must_use]
    pub fn screen(&self) -> Screen {
        self.screen
    }

    /// Shows a screen.
    pub fn go(&mut self, screen: Screen) {
        self.screen = screen;
        if screen == Screen::Shelf {
            self.list_again();
        }
        self.remember_place();
        tracing::debug!("screen: {}", screen.label());
    }

    /// Shows a screen that the person was on before, if what it shows is still there.
    pub fn back_to(&mut self, word: &str) {
        let known = Screen::ALL.into_iter().find(|screen| screen.word() == word);
        if let Some(screen) = known
            && !(screen.of_job() && self.open.is_none() || screen.of_donor() && self.donor.is_none())
        {
            self.go(screen);
        }
    }

    /// The title of the screen: the job's name, or the app's.
    #[must_use]
    pub fn title(&self) -> String {
        match (&self.open, self.screen) {
            (Some(open), screen) if screen.of_job() => open.file.name.clone(),
            (_, Screen::SizeUp | Screen::Teardown) => self.donor().map_or_else(|| "Curbcore".to_owned(), |d| d.name),
            _ => "Curbcore".to_owned(),
        }
    }

    /// True where a job is on the desk.
    #[must_use]
    pub fn has_job(&self) -> bool {
        self.open.is_some()
    }

    /// The job on the desk.
    #[must_use]
    pub fn file(&self) -> Option<&JobFile> {
        self.open.as_ref().map(|open| &open.file)
    }

    /// Its answer.
    #[must_use]
    pub fn answer(&self) -> Option<Result<&Answer, &str>> {
        self.open
            .as_ref()
            .map(|open| open.answer.as_ref().map_err(String::as_str))
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

    /// The jobs listed so far, and how many there are.
    #[must_use]
    pub fn jobs(&self) -> (&[JobSummary], u32) {
        (&self.listed, self.count)
    }

    /// Lists some more jobs.
    pub fn list_more(&mut self) {
        let after: Option<Cursor> = self.listed.last().map(JobSummary::cursor);
        let Ok(shop) = &self.shop else { return };
        match shop.jobs(PAGE_OF_JOBS, after) {
            Ok(more) => self.listed.extend(more),
            Err(error) => self.notice = Some(error.to_string()),
        }
    }

    /// The words that are looked for among the jobs.
    #[must_use]
    pub fn wanted(&self) -> &str {
        &self.wanted
    }

    /// Lists the jobs that have these words; all for none.
    pub fn want(&mut self, words: &str) {
        words.trim().clone_into(&mut self.wanted);
        self.list_again();
    }

    fn list_again(&mut self) {
        self.listed.clear();
        if !self.wanted.is_empty() {
            if let Ok(shop) = &self.shop {
                self.listed = shop.search(&self.wanted, PAGE_OF_JOBS).unwrap_or_default();
            }
            return;
        }
        if let Ok(shop) = &self.shop {
            self.count = shop.job_count().unwrap_or(0);
        }
        self.list_more();
    }

    /// The person's unit of length.
    #[must_use]
    pub fn unit(&self) -> LengthUnit {
        match self.setting(Setting::LengthUnit).as_deref() {
            Some("inch") => LengthUnit::Inch,
            _ => LengthUnit::Millimetre,
        }
    }

    /// True where the person thinks of wire in AWG.
    #[must_use]
    pub fn awg(&self) -> bool {
        self.setting(Setting::WireUnit).as_deref() == Some("awg")
    }

    /// "light", "dark", or "auto" for what the device has.
    #[must_use]
    pub fn theme(&self) -> String {
        self.setting(Setting::Theme).unwrap_or_else(|| "auto".to_owned())
    }

    /// The outlet that the person used last.
    #[must_use]
    pub fn outlet(&self) -> &'static Outlet {
        outlet_of(self.setting(Setting::MainsDefault).as_deref().unwrap_or("na-15"))
    }

    fn setting(&self, setting: Setting) -> Option<String> {
        self.shop.as_ref().ok().and_then(|shop| shop.setting(setting))
    }

    /// Sets a setting.
    pub fn set(&mut self, setting: Setting, value: &str) {
        self.with_shop(|shop| shop.set_setting(setting, value));
    }

    /// The change that undo would take back.
    #[must_use]
    pub fn undo_name(&self) -> Option<String> {
        self.shop.as_ref().ok().and_then(Shop::undo_name)
    }

    /// The change that redo would do again.
    #[must_use]
    pub fn redo_name(&self) -> Option<String> {
        self.shop.as_ref().ok().and_then(Shop::redo_name)
    }

    /// Takes the last change back.
    pub fn undo(&mut self) {
        self.with_shop(Shop::undo);
        self.reload();
    }

    /// Does it again.
    pub fn redo(&mut self) {
        self.with_shop(Shop::redo);
        self.reload();
    }

    /// Starts a job and opens it at Measure.
    pub fn start_job(&mut self, name: &str, outlet: &Outlet) {
        if let Some(id) = self.with_shop(|shop| shop.start_job(name, outlet)) {
            self.open_job(id, Screen::Measure);
        }
    }

    /// Opens the demo job at Rewind.
    pub fn open_demo(&mut self) {
        if let Some(id) = self.with_shop(Shop::open_demo) {
            self.open_job(id, Screen::Rewind);
        }
    }

    /// Puts a job on the desk.
    pub fn open_job(&mut self, id: JobId, at: Screen) {
        if let Some(file) = self.with_shop(|shop| shop.job(id)) {
            let answer = answered(&file);
            self.open = Some(Open { id, file, answer });
            self.donor = self.with_shop(|shop| shop.donor_of(id)).flatten();
            self.go(at);
        }
    }

    /// Takes a job off the shelf.
    pub fn remove_job(&mut self, id: JobId) {
        self.with_shop(|shop| shop.remove_job(id));
        if self.job_id() == Some(id) {
            self.open = None;
        }
        self.list_again();
    }

    /// Sets numbers from what was typed; gives the message where they are refused.
    pub fn enter(&mut self, entries: &[Entry]) -> Option<String> {
        let (unit, id) = (self.unit(), self.job_id()?);
        let Ok(shop) = &mut self.shop else { return None };
        let refused = shop.set_numbers(id, entries, unit).err().map(|error| error.to_string());
        if refused.is_none() {
            self.reload();
        }
        refused
    }

    /// Takes a test of the turns away.
    pub fn clear_group(&mut self, path: &str) {
        self.change(|shop, id| shop.clear_group(id, path));
    }

    /// Chooses another use.
    pub fn set_use(&mut self, word: &str) {
        self.change(|shop, id| shop.set_use(id, word));
    }

    /// Changes the goal.
    pub fn set_goal(&mut self, what: &str, goal: Goal) {
        self.change(|shop, id| shop.set_goal(id, what, goal));
    }

    /// Changes the core.
    pub fn set_core(&mut self, what: &str, with: impl FnOnce(&mut Core)) {
        self.change(|shop, id| shop.set_core(id, what, with));
    }

    /// Changes how it is run.
    pub fn set_conditions(&mut self, what: &str, with: impl FnOnce(&mut Conditions)) {
        self.change(|shop, id| shop.set_conditions(id, what, with));
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
        self.set(Setting::Panels, &words.join(" "));
    }

    /// Another job of the shelf with its answer, to be joined with the one in hand.
    #[must_use]
    pub fn other_job(&self, id: JobId) -> Option<(JobFile, Answer)> {
        let file = self.shop.as_ref().ok()?.job(id).ok()?;
        let answer = crate::app::answer::answer(&file).ok()?;
        Some((file, answer))
    }

    /// The photos of the job's core.
    #[must_use]
    pub fn core_photos(&self) -> Vec<CorePhoto> {
        let (Ok(shop), Some(id)) = (&self.shop, self.job_id()) else {
            return Vec::new();
        };
        shop.core_photos(id).unwrap_or_default()
    }

    /// A photo's bytes.
    #[must_use]
    pub fn core_photo_bytes(&self, id: PhotoId) -> Option<Vec<u8>> {
        self.shop.as_ref().ok()?.core_photo_bytes(id).ok()
    }

    /// Keeps a photo with the job's core.
    pub fn add_core_photo(&mut self, bytes: &[u8]) -> Option<PhotoId> {
        let id = self.job_id()?;
        self.with_shop(|shop| shop.add_core_photo(id, bytes))
    }

    /// Keeps what was marked on a photo.
    pub fn set_marks(&mut self, photo: PhotoId, marks: &PhotoMarks) {
        self.with_shop(|shop| shop.set_marks(photo, marks));
    }

    /// Puts lengths from a photo into the job's core.
    pub fn take_lengths(&mut self, rows: &[(&'static str, Reading)]) {
        self.change(|shop, id| shop.take_lengths(id, rows));
    }

    /// Plugs the job into another outlet.
    pub fn set_outlet(&mut self, outlet: &Outlet) {
        self.change(|shop, id| shop.set_outlet(id, outlet));
    }

    /// The wires on the shelf: id, label, metres.
    #[must_use]
    pub fn stock(&self) -> Vec<(StockId, String, f64)> {
        let Ok(shop) = &self.shop else { return Vec::new() };
        let wires = shop.stock().unwrap_or_default();
        wires
            .into_iter()
            .map(|w| (w.meta.id, wire_label(&w.body.conductor), w.body.length_m))
            .collect()
    }

    /// Puts a wire on the shelf; gives the message where it is refused.
    pub fn add_stock(&mut self, conductor: &str, length: &str) -> Option<String> {
        let Ok(shop) = &mut self.shop else { return None };
        let refused = shop.add_stock(conductor, length).err().map(|error| error.to_string());
        self.reload();
        refused
    }

    /// Takes a wire off the shelf.
    pub fn remove_stock(&mut self, id: StockId) {
        self.with_shop(|shop| shop.remove_stock(id));
        self.reload();
    }

    /// The windings kept beside the job: id, title, choice.
    #[must_use]
    pub fn kept(&self) -> Vec<(DesignId, String, Choice)> {
        let (Ok(shop), Some(id)) = (&self.shop, self.job_id()) else {
            return Vec::new();
        };
        let kept = shop.designs(id).unwrap_or_default();
        kept.into_iter()
            .map(|design| (design.meta.id, design.body.name, design.body.choice))
            .collect()
    }

    /// Keeps the winding shown beside the job.
    pub fn keep(&mut self, title: &str) {
        let choice = match self.answer() {
            Some(Ok(answer)) => answer
                .design
                .as_ref()
                .map(|design| as_choice(&design.candidate, &answer.problem.rebuild, &answer.catalogue)),
            _ => None,
        };
        if let Some(choice) = choice {
            self.change(|shop, id| shop.keep_design(id, title, &choice));
        }
    }

    /// Lets go of a kept winding.
    pub fn let_go(&mut self, id: DesignId) {
        self.change(|shop, _| shop.drop_design(id));
    }

    /// Writes the job's note.
    pub fn set_note(&mut self, note: &str) {
        self.change(|shop, id| shop.set_note(id, note));
    }

    /// Renames the job.
    pub fn rename(&mut self, name: &str) {
        self.change(|shop, id| shop.rename(id, name));
    }

    /// Chooses a winding, or goes back to the best.
    pub fn choose(&mut self, choice: Option<Choice>) {
        self.change(|shop, id| shop.choose(id, choice));
    }

    /// Chooses a winding of the ranked list.
    pub fn choose_candidate(&mut self, candidate: &Candidate) {
        let choice = match self.answer() {
            Some(Ok(answer)) => as_choice(candidate, &answer.problem.rebuild, &answer.catalogue),
            _ => return,
        };
        self.choose(Some(choice));
    }

    /// A candidate in full, for a look before it is chosen.
    #[must_use]
    pub fn look_at(&self, candidate: &Candidate) -> Option<Design> {
        let answer = self.answer()?.ok()?;
        design(
            &answer.problem.rebuild,
            &answer.goal?,
            *candidate,
            false,
            &answer.catalogue,
        )
    }

    /// The page of the job on the desk.
    #[must_use]
    pub fn page(&self) -> Option<String> {
        let answer = self.answer()?.ok()?;
        let planned = self.planned().and_then(Result::ok);
        let tests = self.tests(planned.as_ref()).and_then(Result::ok);
        let shop = self.shop.as_ref().ok();
        let answer = &answer.clone().joined_with(self.file()?, |id| shop?.job(id).ok());
        report::page(self.file()?, answer, tests.as_ref(), self.unit()).ok()
    }

    /// Writes the page into the data folder, and says where.
    pub fn save_page(&mut self) {
        let (Some(page), Some(id)) = (self.page(), self.job_id()) else {
            return;
        };
        self.notice = Some(match crate::app::save_page(&self.folder, id, &page) {
            Ok(path) => format!("Saved as {}. Open it in a browser to print it.", path.display()),
            Err(error) => error,
        });
    }

    fn change(&mut self, with: impl FnOnce(&mut Shop, JobId) -> Result<(), ShopError>) {
        let Some(id) = self.job_id() else { return };
        self.with_shop(|shop| with(shop, id));
        self.reload();
    }

    /// Runs something on the shop; a refusal becomes the message to the person.
    fn with_shop<T>(&mut self, with: impl FnOnce(&mut Shop) -> Result<T, ShopError>) -> Option<T> {
        let Ok(shop) = &mut self.shop else { return None };
        match with(shop) {
            Ok(value) => {
                self.notice = None;
                Some(value)
            }
            Err(error) => {
                tracing::warn!("refused: {error}");
                self.notice = Some(error.to_string());
                None
            }
        }
    }

    fn reload(&mut self) {
        if let (Ok(shop), Some(donor)) = (&self.shop, self.donor)
            && shop.donor(donor).is_err()
        {
            // Undo may have taken the find back.
            self.donor = None;
            if matches!(self.screen, Screen::SizeUp | Screen::Teardown) {
                self.go(Screen::Shelf);
            }
        }
        let Some(id) = self.job_id() else {
            self.list_again();
            return;
        };
        let Ok(shop) = &self.shop else { return };
        match shop.job(id) {
            Ok(file) => {
                let answer = answered(&file);
                self.open = Some(Open { id, file, answer });
            }
            // Undo may have taken the whole job back.
            Err(_) => {
                self.open = None;
                self.go(Screen::Shelf);
            }
        }
    }
}

fn answered(file: &JobFile) -> Result<Answer, String> {
    answer(file).map_err(|error| error.to_string())
}
