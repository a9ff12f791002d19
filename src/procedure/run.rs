//! Where guided work is, and the one function that moves it.

use super::{Entry, Event, Procedure, Refusal};
use crate::safety::{ConfirmError, Gate, Item, Moment, Passes, Place};
use crate::words::Word;

/// Whether the work goes on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Phase<E> {
    /// Going on.
    Working,
    /// Stopped: this item could not be done. Its text says what to do next.
    Stopped {
        /// The item that could not be done.
        item: Item,
    },
    /// At an end.
    Ended(E),
}

/// The part of a run that decides what may happen next.
#[derive(Debug, Clone, PartialEq)]
pub struct Situation<P: Procedure> {
    pub(crate) position: P::Step,
    pub(crate) reached: P::Step,
    pub(crate) phase: Phase<P::End>,
    pub(crate) facts: P::Facts,
    pub(crate) passes: Passes,
}

impl<P: Procedure> Situation<P> {
    pub(crate) fn start() -> Self {
        Self {
            position: P::FIRST,
            reached: P::FIRST,
            phase: Phase::Working,
            facts: P::Facts::default(),
            passes: Passes::default(),
        }
    }

    /// The gates before a step.
    pub(crate) fn gates(&self, plan: &P, step: P::Step) -> Vec<Gate> {
        plan.gates(&self.facts, step)
    }

    pub(crate) fn place(&self, plan: &P, step: P::Step) -> Place {
        plan.place(&self.facts, step)
    }

    pub(crate) fn missing(&self, plan: &P, step: P::Step, now: Moment) -> Option<Gate> {
        self.passes
            .missing(&self.gates(plan, step), self.place(plan, step), now)
    }

    /// True if the person may stay at a step: its gates were passed and count, though some may have to
    /// be renewed before the work goes on.
    fn held(&self, plan: &P, step: P::Step, now: Moment) -> bool {
        self.gates(plan, step)
            .into_iter()
            .all(|gate| self.passes.held(gate, self.place(plan, step), now))
    }

    fn next(&self, plan: &P, from: P::Step) -> Option<P::Step> {
        let mut steps = P::Step::ALL.iter().copied();
        steps.find(|&step| step > from && plan.applies(&self.facts, step))
    }

    fn previous(&self, plan: &P, from: P::Step) -> Option<P::Step> {
        let mut steps = P::Step::ALL.iter().rev().copied();
        steps.find(|&step| step < from && plan.applies(&self.facts, step))
    }

    /// The latest step, not after the position, where the person may stay at `now`.
    pub(crate) fn step_at(&self, plan: &P, now: Moment) -> P::Step {
        let mut step = self.position;
        while !self.held(plan, step, now) {
            match self.previous(plan, step) {
                Some(previous) => step = previous,
                None => break,
            }
        }
        step
    }

    /// Drops what no longer counts and falls back to where the person may stand.
    pub(crate) fn settle(&mut self, plan: &P, now: Moment) {
        self.passes.expire(now);
        let step = self.step_at(plan, now);
        if step != self.position {
            self.position = step;
            self.passes.arrive(self.place(plan, step));
        }
    }

    /// The next step and every earlier one that applies.
    fn reachable(&self, plan: &P, step: P::Step) -> Result<(), Refusal<P>> {
        let standing = self.position;
        if plan.applies(&self.facts, step) && (step < standing || self.next(plan, standing) == Some(step)) {
            Ok(())
        } else {
            Err(Refusal::NotFromHere { standing })
        }
    }

    /// The gates before the step where the person is, or before one within reach.
    fn before_hand(&self, plan: &P, toward: P::Step) -> Result<(), Refusal<P>> {
        if toward == self.position {
            Ok(())
        } else {
            self.reachable(plan, toward)
        }
    }

    /// Takes an item of the first gate that is missing before `toward`; `pressed` unless something else
    /// than a press stands for it.
    pub(crate) fn take_item(
        &mut self,
        plan: &P,
        toward: P::Step,
        item: Item,
        pressed: bool,
        at: Moment,
    ) -> Result<(), Refusal<P>> {
        self.before_hand(plan, toward)?;
        let missing = self.missing(plan, toward, at).ok_or(ConfirmError::NotThisGate)?;
        if pressed {
            plan.may_press(self.position, missing, item).map_err(Refusal::Own)?;
        }
        let place = self.place(plan, toward);
        self.passes.turn_toward(place, self.place(plan, self.position));
        self.passes.confirm(missing, item, place, at)?;
        Ok(())
    }

    fn go(&mut self, plan: &P, step: P::Step, at: Moment) -> Result<(), Refusal<P>> {
        self.reachable(plan, step)?;
        if step > self.position {
            plan.complete(&self.facts, self.position).map_err(Refusal::Own)?;
        }
        if let Some(gate) = self.missing(plan, step, at) {
            return Err(Refusal::GateNeeded { toward: step, gate });
        }
        self.position = step;
        self.reached = self.reached.max(step);
        self.passes.arrive(self.place(plan, step));
        Ok(())
    }
}

/// One guided work under way: its plan, where it stands and everything that happened.
///
/// Made by [`Run::start`] and moved by [`advance`] alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Run<P: Procedure> {
    plan: P,
    situation: Situation<P>,
    log: Vec<Entry<P>>,
}

/// A stored history that can't have happened.
#[derive(Debug, Clone, PartialEq)]
pub struct ReplayError<P: Procedure> {
    /// Index of the entry that was refused.
    pub at: usize,
    /// Why.
    pub refusal: Refusal<P>,
}

impl<P: Procedure> std::fmt::Display for ReplayError<P> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            f,
            "The stored history is damaged at entry {}. Begin again at the first step.",
            self.at
        )
    }
}

impl<P: Procedure> std::error::Error for ReplayError<P> {}

impl<P: Procedure> Run<P> {
    /// A work that nobody has begun.
    #[must_use]
    pub fn start(plan: P) -> Self {
        Self {
            plan,
            situation: Situation::start(),
            log: Vec::new(),
        }
    }

    /// A stored work, by living through its history again with the same plan.
    ///
    /// # Errors
    /// [`ReplayError`] at the first entry that [`advance`] refuses: the history was edited,
    /// shortened in the middle or forged.
    pub fn replay(plan: P, entries: &[Entry<P>]) -> Result<Self, ReplayError<P>> {
        let mut run = Self::start(plan);
        for (at, entry) in entries.iter().enumerate() {
            run.take(*entry).map_err(|refusal| ReplayError { at, refusal })?;
        }
        Ok(run)
    }

    fn take(&mut self, entry: Entry<P>) -> Result<(), Refusal<P>> {
        self.situation = step_on(&mut self.plan, &self.situation, entry)?;
        self.log.push(entry);
        Ok(())
    }

    /// Everything that happened, to be stored.
    #[must_use]
    pub fn history(&self) -> &[Entry<P>] {
        &self.log
    }

    /// What was fixed when the work began.
    #[must_use]
    pub fn plan(&self) -> &P {
        &self.plan
    }

    /// The step where the person may stand at `now`. With the gates of the last step expired it
    /// is an earlier one.
    #[must_use]
    pub fn step(&self, now: Moment) -> P::Step {
        self.situation.step_at(&self.plan, now)
    }

    /// The steps that the work goes through, in order.
    #[must_use]
    pub fn steps(&self) -> Vec<P::Step> {
        let steps = P::Step::ALL.iter().copied();
        steps.filter(|&step| self.plan.applies(self.facts(), step)).collect()
    }

    /// The step after this one.
    #[must_use]
    pub fn next(&self, step: P::Step) -> Option<P::Step> {
        self.situation.next(&self.plan, step)
    }

    /// The step before this one.
    #[must_use]
    pub fn previous(&self, step: P::Step) -> Option<P::Step> {
        self.situation.previous(&self.plan, step)
    }

    /// The furthest step ever reached: what lies before it was done once.
    #[must_use]
    pub fn reached(&self) -> P::Step {
        self.situation.reached
    }

    /// Whether the work goes on.
    #[must_use]
    pub fn phase(&self) -> Phase<P::End> {
        self.situation.phase
    }

    /// What was recorded.
    #[must_use]
    pub fn facts(&self) -> &P::Facts {
        &self.situation.facts
    }

    /// The first gate before a step at `now`. Before the step where the person is, it is one to be
    /// renewed before the work goes on.
    #[must_use]
    pub fn gate_before(&self, step: P::Step, now: Moment) -> Option<Gate> {
        self.situation.missing(&self.plan, step, now)
    }

    /// The items of a gate before a step that are confirmed at `now`.
    #[must_use]
    pub fn confirmed(&self, step: P::Step, gate: Gate, now: Moment) -> &'static [Item] {
        let place = self.situation.place(&self.plan, step);
        self.situation.passes.confirmed(gate, place, now)
    }

    /// When a gate before a step was passed, if the pass still counts at `now`.
    #[must_use]
    pub fn passed(&self, step: P::Step, gate: Gate, now: Moment) -> Option<Moment> {
        let place = self.situation.place(&self.plan, step);
        self.situation.passes.passed(gate, place, now)
    }

    /// The gates before a step that were confirmed earlier the same day, with the moment: one hold
    /// renews them all.
    #[must_use]
    pub fn repeated(&self, step: P::Step, now: Moment) -> Vec<(Gate, Moment)> {
        let (plan, situation) = (&self.plan, &self.situation);
        situation
            .passes
            .repeated(&situation.gates(plan, step), situation.place(plan, step), now)
    }
}

/// What becomes of a run when something happens.
///
/// Pure: the same history always leads to the same state. First everything that has expired at
/// the event's moment is dropped, and the person falls back to the latest step whose gates hold.
///
/// # Errors
/// A [`Refusal`] that says what is missing; the state is unchanged.
pub fn advance<P: Procedure>(run: &Run<P>, entry: Entry<P>) -> Result<Run<P>, Refusal<P>> {
    let mut next = run.clone();
    next.take(entry)?;
    Ok(next)
}

pub(crate) fn step_on<P: Procedure>(
    plan: &mut P,
    before: &Situation<P>,
    Entry { at, event }: Entry<P>,
) -> Result<Situation<P>, Refusal<P>> {
    let mut situation = before.clone();
    situation.settle(plan, at);
    match (situation.phase, event) {
        (Phase::Working, Event::Again) => return Err(Refusal::GoingOn),
        (Phase::Ended(_), Event::Act(act)) if P::reopens(act) => {
            situation.phase = Phase::Working;
            plan.act(&mut situation, act, at)?;
        }
        (_, Event::Brought) => {
            situation.passes.clear();
            plan.brought(&mut situation);
        }
        (Phase::Stopped { .. }, Event::Again) => {
            situation.phase = Phase::Working;
            situation.passes.clear();
        }
        (Phase::Ended(_), Event::Again) if plan.resume(&mut situation.facts) => {
            situation.phase = Phase::Working;
            situation.passes.clear();
        }
        (Phase::Stopped { .. }, _) => return Err(Refusal::Stopped),
        (Phase::Ended(_), _) => return Err(Refusal::Finished),
        (Phase::Working, Event::Confirm { toward, item }) => situation.take_item(plan, toward, item, true, at)?,
        (Phase::Working, Event::Renew { toward }) => {
            situation.before_hand(plan, toward)?;
            let (gates, place) = (situation.gates(plan, toward), situation.place(plan, toward));
            let standing = situation.place(plan, situation.position);
            situation.passes.turn_toward(place, standing);
            situation.passes.renew(&gates, place, at)?;
        }
        (Phase::Working, Event::Doubt { toward }) => {
            situation.before_hand(plan, toward)?;
            let (gates, place) = (situation.gates(plan, toward), situation.place(plan, toward));
            situation.passes.doubt(&gates, place, at)?;
        }
        (Phase::Working, Event::CouldNot { item }) => {
            situation.phase = Phase::Stopped { item };
            situation.passes.clear();
        }
        (Phase::Working, Event::Go(step)) => situation.go(plan, step, at)?,
        (Phase::Working, Event::Act(act)) => plan.act(&mut situation, act, at)?,
        (Phase::Working, Event::Finish) => {
            let standing = situation.position;
            if situation.next(plan, standing).is_some() {
                return Err(Refusal::NotFromHere { standing });
            }
            plan.complete(&situation.facts, standing).map_err(Refusal::Own)?;
            situation.phase = Phase::Ended(plan.finish(&mut situation));
        }
    }
    situation.settle(plan, at);
    Ok(situation)
}
