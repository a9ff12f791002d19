//! The guided parts in hand: the donor in hand, its teardown, the job's tests.

use super::super::words::explain;
use super::asked::Pending;
use super::{AppState, Screen, Unread};
use crate::app::bench::{Tests, plan_of};
use crate::app::guard::guarded;
use crate::app::guided::{Blocked, Stored};
use crate::app::next_step::Windings;
use crate::app::now::now;
use crate::app::verdict::Verdict;
use crate::app::wind::{FromShelf, from_shelf, wind_plan_of, wound_conductor};
use crate::app::workspace::{Entry, Workspace, WorkspaceError, find_field};
use crate::bench::{Act, Amount, Plan, Stage};
use crate::job::fields::{self, Field};
use crate::job::{Donor, DonorId, Entered, Goal, Held, JobId, PhotoId, Places};
use crate::magnetics::circuit::shunt_advice::ShuntAdvice;
use crate::procedure::{Event, Run};
use crate::safety::Moment;
use crate::store::{Op, Photo, Setting};
use crate::teardown::{self, Teardown, TeardownProcedure};
use crate::wind::{CoreOfPair, Wind, WindPlan};
use crate::words::Message;

/// Whose run of a procedure is shown, among what is in hand.
pub trait InHand: Stored {
    /// The owner; none where nothing of that kind is in hand.
    fn owner(app: &AppState) -> Option<Self::Owner>;

    /// Lets what else is in hand follow an event that was just stored.
    fn stored_event(_app: &mut AppState, _owner: Self::Owner, _event: Event<Self>) {}
}

impl InHand for TeardownProcedure {
    fn owner(app: &AppState) -> Option<DonorId> {
        app.donor_id()
    }

    fn stored_event(app: &mut AppState, _: DonorId, event: Event<Self>) {
        if matches!(event, Event::Act(teardown::Act::Found(_))) {
            app.note_findings();
        }
    }
}

impl InHand for WindPlan {
    fn owner(app: &AppState) -> Option<(JobId, CoreOfPair)> {
        Some((app.job_id()?, app.wound_core()))
    }

    /// Whatever comes next, the core in hand stays on the screen.
    fn stored_event(app: &mut AppState, (_, core): (JobId, CoreOfPair), _: Event<Self>) {
        app.show_winding(core);
    }
}

impl InHand for Plan {
    fn owner(app: &AppState) -> Option<JobId> {
        app.job_id()
    }
}

/// The id of the text that says what must be confirmed before a use is tested.
const fn unconfirmed(goal: &Goal) -> Option<&'static str> {
    match goal {
        Goal::PlasmaCutter { confirmed: false, .. } => Some("ui-plasma-first"),
        Goal::BatteryCharger { confirmed: false, .. } => Some("ui-battery-first"),
        _ => None,
    }
}

impl AppState {
    /// The donor in hand.
    #[must_use]
    pub fn donor_id(&self) -> Option<DonorId> {
        self.donor
    }

    /// What is recorded of it; none where none is in hand.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn donor(&self) -> Result<Option<Donor>, Unread> {
        self.donor
            .map(|id| self.query(|data| data.store().donor(id).map(|donor| donor.body)))
            .transpose()
    }

    /// Records an oven under a name and opens it at a screen.
    pub fn start_find(&mut self, name: &str, at: Screen) {
        if let Some(id) = self.with_workspace(|workspace| workspace.start_donor(name)) {
            self.open_donor(id, at);
        }
    }

    /// Takes a donor in hand, with the job of its core if there is one.
    pub fn open_donor(&mut self, id: DonorId, at: Screen) {
        let job = self
            .with_workspace(|workspace| Ok(workspace.store().jobs_from(id)?))
            .and_then(|jobs| jobs.first().copied());
        match job {
            Some(job) => self.open_job(job, at),
            None => self.open = None,
        }
        self.donor = Some(id);
        self.go(at);
    }

    /// The jobs whose core came from the donor in hand, by name.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn jobs_of_donor(&self) -> Result<Vec<(JobId, String)>, Unread> {
        let Some(donor) = self.donor else { return Ok(Vec::new()) };
        self.query(|data| {
            let named = |id| Ok((id, data.store().job_file(id)?.name));
            data.store()
                .jobs_from(donor)?
                .into_iter()
                .map(named)
                .collect::<Result<_, WorkspaceError>>()
        })
    }

    /// Takes a donor off the shelf.
    pub fn remove_donor(&mut self, id: DonorId) {
        self.with_workspace(|workspace| workspace.remove_donor(id));
        if self.donor == Some(id) {
            self.donor = None;
        }
        self.go(Screen::Home);
    }

    /// Changes what is recorded of the donor in hand.
    pub fn set_donor(&mut self, op: Op, with: impl FnOnce(&mut Donor)) {
        let Some(id) = self.donor else { return };
        self.with_workspace(|workspace| workspace.set_donor(id, op, with));
    }

    /// Sets a number of the donor in hand; gives the message where it is refused.
    fn enter_donor(&mut self, entry: &Entry) -> Option<String> {
        let (unit, id) = (self.unit(), self.donor?);
        self.workspace
            .open_mut()?
            .set_donor_number(id, entry, unit)
            .err()
            .map(|error| explain(&error))
    }

    /// The number at a path, if there is one, and the row of that path: of the donor in hand for `donor.`, else
    /// of the job.
    #[must_use]
    pub fn number(&self, path: &str) -> Option<(Option<Entered>, &'static Field)> {
        let number = |held| match held {
            Held::Reading(reading) => Some(Entered::Reading(reading)),
            Held::Number(number) => Some(Entered::Number(number)),
            Held::Text(_) => None,
        };
        if let Some(below) = path.strip_prefix("donor.") {
            let donor = self.donor().ok()??;
            return Some((donor.get(below).and_then(number), fields::find(path)?));
        }
        let file = self.file()?;
        Some((file.get(path).and_then(number), find_field(&file.goal, path).ok()?))
    }

    /// Sets one number of the donor in hand or of the job; gives the message where it is refused.
    pub fn enter_number(&mut self, entry: &Entry) -> Option<String> {
        if entry.path.starts_with("donor.") {
            self.enter_donor(entry)
        } else {
            let refused = self.enter(std::slice::from_ref(entry));
            if refused.is_none() && entry.path == "conditions.lamp_watts" {
                self.renew_lamp();
            }
            refused
        }
    }

    /// The verdict on the donor in hand.
    #[must_use]
    pub fn verdict(&self) -> Option<Result<Verdict, String>> {
        let (workspace, id) = (self.workspace.open()?, self.donor?);
        let donor = workspace.store().donor(id).map_err(WorkspaceError::from);
        let verdict = donor.and_then(|donor| workspace.verdict(Some(id), &donor.body));
        Some(verdict.map_err(|error| explain(&error)))
    }

    /// Wants a use, or does not. Where the wants cannot be read, they stay as they are.
    pub fn set_want(&mut self, word: &str, on: bool) {
        let Ok(mut wants) = self.query(Workspace::wants) else {
            return;
        };
        wants.retain(|w| *w != word);
        if on {
            wants.push(word);
        }
        let text = wants.join(" ");
        self.set(Setting::Wants, &text);
    }

    /// A price as the person typed it.
    #[must_use]
    pub fn price(&self, setting: Setting) -> String {
        self.setting(setting).unwrap_or_default()
    }

    /// Sets a price; false where it is none, and nothing is changed then.
    pub fn set_price(&mut self, setting: Setting, text: &str) -> bool {
        let text = text.trim();
        let fine = text.is_empty() || crate::quantity::parse_number(text).is_ok_and(|v| (0.0..=1e9).contains(&v));
        if fine {
            self.set(setting, text);
        }
        fine
    }

    /// Where the teardown of the donor in hand stands.
    #[must_use]
    pub fn teardown(&self) -> Option<Result<Teardown, String>> {
        self.run()
    }

    /// One thing that the person did in guided work.
    ///
    /// # Errors
    /// [`Blocked`]: a gate, another reason not to go on, or a disk that fails.
    pub fn event<P: InHand>(&mut self, event: Event<P>) -> Result<(), Blocked<P>> {
        if let (Some(owner), Some(workspace)) = (P::owner(self), self.workspace.open_mut()) {
            workspace.event(owner, event, now())?;
            P::stored_event(self, owner, event);
        }
        Ok(())
    }

    /// The run of a procedure of what is in hand; none before it has begun.
    #[must_use]
    pub fn run<P: InHand>(&self) -> Option<Result<Run<P>, String>> {
        let (workspace, owner) = (self.workspace.open()?, P::owner(self)?);
        workspace.run(owner).map_err(|error| explain(&error)).transpose()
    }

    /// Begins the teardown at the first step again.
    pub fn restart_teardown(&mut self) {
        let Some(id) = self.donor else { return };
        self.with_workspace(|workspace| workspace.restart_teardown(id));
        self.note_findings();
    }

    /// The job in hand follows what the teardown of its core finds.
    fn note_findings(&mut self) {
        let (Some(workspace), Some(open)) = (self.workspace.open(), &mut self.open) else {
            return;
        };
        let findings = workspace.core_findings(open.id);
        open.answer = open.answer.clone().map(|answer| answer.from_teardown(findings));
    }

    /// What becomes of the donor's shunts for each use wanted.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn shunt_advice(&self) -> Result<Vec<(&'static str, ShuntAdvice)>, Unread> {
        let Some(id) = self.donor else { return Ok(Vec::new()) };
        self.query(|data| data.shunt_advice(id))
    }

    /// The photos of the donor in hand.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn photos(&self) -> Result<Vec<Photo>, Unread> {
        let Some(id) = self.donor else { return Ok(Vec::new()) };
        self.query(|data| data.store().photos(id))
    }

    /// Keeps a photo with the donor in hand.
    pub fn add_photo(&mut self, what: &str, bytes: &[u8]) -> Option<PhotoId> {
        let id = self.donor?;
        self.with_workspace(|workspace| workspace.add_photo(id, what, bytes))
    }

    /// What the design of the job in hand predicts for the bench.
    #[must_use]
    pub fn planned(&self) -> Option<Result<Plan, Message>> {
        let answer = self.answer()?.ok()?;
        let file = self.file()?;
        guarded(|| plan_of(file, answer))
            .unwrap_or_else(|fault| Some(Err(Message::new("plan-fault").with("what", fault))))
    }

    /// The id of the text that says what must be confirmed before the job's use is tested.
    #[must_use]
    pub fn unconfirmed(&self) -> Option<&'static str> {
        unconfirmed(&self.file()?.goal)
    }

    /// Predicts the series lamp's current anew for tests that go on, where its power has changed.
    pub(super) fn renew_lamp(&mut self) {
        let Some(Ok(planned)) = self.planned() else { return };
        let Some(row) = planned.of_stage(Stage::LampIdle).next() else {
            return;
        };
        if let (Amount::Current(value), Amount::Current(low), Amount::Current(high)) = (row.value, row.low, row.high) {
            // Refused where the lamp's stage lies behind, or no tests go on: nothing is to be renewed.
            let _ = self.event::<Plan>(Event::Act(Act::Lamp { value, low, high }));
        }
    }

    /// The tests of the job in hand; `planned` is what today's design predicts.
    #[must_use]
    pub fn tests(&self, planned: Option<&Plan>) -> Option<Result<Tests, String>> {
        let (workspace, job) = (self.workspace.open()?, self.job_id()?);
        workspace
            .tests(job, planned)
            .map_err(|error| explain(&error))
            .transpose()
    }

    /// The tests of the job in hand, compared with what its design predicts today.
    pub(super) fn tests_against_design(&self) -> Option<Tests> {
        let planned = self.planned().and_then(Result::ok);
        self.tests(planned.as_ref()).and_then(Result::ok)
    }

    /// Whether the design has changed since the tests began.
    #[must_use]
    pub fn tests_outdated(&self) -> bool {
        self.tests_against_design().is_some_and(|tests| tests.outdated)
    }

    /// Begins the tests of the job in hand; not before its use is confirmed where that is asked for.
    pub fn begin_tests(&mut self) {
        if self.unconfirmed().is_some() {
            return;
        }
        let (Some(Ok(plan)), Some(job)) = (self.planned(), self.job_id()) else {
            return;
        };
        self.with_workspace(|workspace| workspace.begin_tests(job, &plan));
    }

    /// The core of the job in hand whose winding is shown: the one chosen, else the one that comes next.
    #[must_use]
    pub fn wound_core(&self) -> CoreOfPair {
        let core = self.winding_core.or_else(|| {
            let (job, workspace) = (self.job_id()?, self.workspace.open()?);
            self.answer()?.ok()?.second.as_ref()?;
            let run = |core| workspace.run::<WindPlan>((job, core)).ok().flatten();
            let windings = Windings {
                first: run(CoreOfPair::First),
                second: run(CoreOfPair::Second),
            };
            Some(windings.at_hand(self.moment()))
        });
        core.unwrap_or(CoreOfPair::First)
    }

    /// Shows the winding of a core of the job in hand.
    pub fn show_winding(&mut self, core: CoreOfPair) {
        self.winding_core = Some(core);
    }

    /// The winding of a core of the job in hand.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn winding(&self, core: CoreOfPair) -> Result<Option<Wind>, Unread> {
        let Some(job) = self.job_id() else { return Ok(None) };
        self.query(|data| data.run::<WindPlan>((job, core)))
    }

    /// What the winding that is shown asks for today.
    #[must_use]
    pub fn planned_winding(&self) -> Option<Result<WindPlan, Message>> {
        wind_plan_of(self.answer()?.ok()?, self.wound_core())
    }

    /// Records that the second core of the pair in hand is joined to the first.
    ///
    /// # Errors
    /// [`Blocked`].
    pub fn join_pair(&mut self) -> Result<(), Blocked<WindPlan>> {
        let planned = self.answer().and_then(Result::ok);
        let planned = planned.and_then(|answer| wind_plan_of(answer, CoreOfPair::Second)?.ok());
        let (Some(planned), Some(job)) = (planned, self.job_id()) else {
            return Ok(());
        };
        self.change_while_winding(|workspace| workspace.join_pair(job, &planned, now()))
    }

    /// Whether the winding that is under way is the one that the design has today.
    #[must_use]
    pub fn winds_todays_design(&self) -> bool {
        match (self.run::<WindPlan>(), self.planned_winding()) {
            (Some(Ok(run)), Some(Ok(planned))) => planned == *run.plan(),
            _ => false,
        }
    }

    /// The name of the second core of the design in hand.
    #[must_use]
    pub fn second_core_name(&self) -> Option<String> {
        Some(self.answer()?.ok()?.second.as_ref()?.name.clone())
    }

    /// The person's own wire that the winding in hand takes, where it is the design of today.
    #[must_use]
    pub fn wire_from_shelf(&self) -> Option<FromShelf> {
        let wind = self.run::<WindPlan>()?.ok().filter(|_| self.winds_todays_design())?;
        let shelf = self.query(|workspace| workspace.store().stock()).ok()?;
        let answer = self.answer()?.ok()?;
        match self.wound_core() {
            CoreOfPair::First => from_shelf(answer, &wind, shelf),
            CoreOfPair::Second => from_shelf(&answer.of_second()?, &wind, shelf),
        }
    }

    /// Takes the wire that was wound off the person's own, or asks first where tests or a winding would count
    /// no more; gives the message where it is refused.
    pub fn take_wire(&mut self) -> Option<String> {
        let (from, of) = (self.wire_from_shelf()?, WindPlan::owner(self)?);
        self.carry_out_or_ask(Pending::WoundWire(of, Box::new(from)))
    }

    /// Puts that wire back on the shelf.
    ///
    /// # Errors
    /// [`Blocked`].
    pub fn put_wire_back(&mut self) -> Result<(), Blocked<WindPlan>> {
        let conductor = self.answer().and_then(Result::ok).and_then(wound_conductor);
        let (Some(conductor), Some(of)) = (conductor, WindPlan::owner(self)) else {
            return Ok(());
        };
        self.change_while_winding(|workspace| workspace.put_wire_back(of, &conductor, now()))
    }

    /// Keeps a note on the step where the winding stands.
    ///
    /// # Errors
    /// [`Blocked`].
    pub fn note_on_step(&mut self, text: &str) -> Result<(), Blocked<WindPlan>> {
        let Some(of) = WindPlan::owner(self) else { return Ok(()) };
        self.change_while_winding(|workspace| workspace.note_on_step(of, text, now()))
    }

    fn change_while_winding(
        &mut self,
        change: impl FnOnce(&mut Workspace) -> Result<(), Blocked<WindPlan>>,
    ) -> Result<(), Blocked<WindPlan>> {
        if let Some(workspace) = self.workspace.open_mut() {
            change(workspace)?;
            self.reload();
        }
        Ok(())
    }

    /// The notes on the job in hand: id and words.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn notes(&self) -> Result<Vec<(u128, String)>, Unread> {
        let Some(job) = self.job_id() else {
            return Ok(Vec::new());
        };
        self.query(|data| data.notes(job))
    }

    /// Begins the winding of the core that is shown.
    pub fn begin_winding(&mut self) {
        if let (Some(Ok(plan)), Some(of)) = (self.planned_winding(), WindPlan::owner(self)) {
            self.with_workspace(|workspace| workspace.begin_winding(of, &plan));
            self.show_winding(of.1);
        }
    }

    /// The moment, for what expires.
    #[must_use]
    pub fn moment(&self) -> Moment {
        now()
    }
}
