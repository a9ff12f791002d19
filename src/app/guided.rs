//! Guided work as it is stored: one way for every procedure.

use super::workspace::{Workspace, WorkspaceError};
use crate::procedure::{Entry, Event, Procedure, Refusal, Run, advance};
use crate::safety::Moment;
use crate::store::{Edit, History, Op, Store, StoreError};
use crate::words::Message;

/// A run as it lies on the disk: where lines are added, its plan, and the lines so far.
pub type StoredRun<P> = (History, P, Vec<String>);

/// A procedure whose runs are stored.
pub trait Stored: Procedure {
    /// What a run belongs to: a donor or a job.
    type Owner: Copy;

    /// The newest run of an owner, if one has begun.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] if the data file fails, [`WorkspaceError::History`] for a damaged plan.
    fn stored(store: &Store, owner: Self::Owner) -> Result<Option<StoredRun<Self>>, WorkspaceError>;
}

/// Why the person does not get on.
#[derive(Debug, thiserror::Error)]
pub enum Blocked<P: Procedure> {
    /// The procedure does not allow it now.
    #[error("{0}")]
    Refused(Refusal<P>),
    /// It could not be read or written.
    #[error(transparent)]
    Failed(#[from] WorkspaceError),
}

impl Workspace {
    /// The newest run of a procedure, by living through its history again; none before it has begun.
    ///
    /// # Errors
    /// [`WorkspaceError::History`] where the stored history cannot have happened.
    pub fn run<P: Stored>(&self, owner: P::Owner) -> Result<Option<Run<P>>, WorkspaceError> {
        let stored = P::stored(&self.store, owner)?;
        Ok(stored.map(replayed).transpose()?.map(|(_, run)| run))
    }

    /// One thing that the person did in guided work: on the disk before it is shown as done.
    ///
    /// # Errors
    /// [`Blocked`] says what is missing; nothing is changed then.
    pub fn event<P: Stored>(&mut self, owner: P::Owner, event: Event<P>, now: Moment) -> Result<Run<P>, Blocked<P>> {
        let (history, run) = self.begun::<P>(owner)?;
        let entry = Entry { at: now, event };
        let next = advance(&run, entry).map_err(Blocked::Refused)?;
        self.store
            .add_line(history, &entry.to_line())
            .map_err(WorkspaceError::from)?;
        Ok(next)
    }
}

impl Workspace {
    /// The newest run of a procedure, and where its lines are added.
    fn begun<P: Stored>(&self, owner: P::Owner) -> Result<(History, Run<P>), WorkspaceError> {
        let none = || WorkspaceError::History(Message::new("refused-nothing-begun"));
        replayed(P::stored(&self.store, owner)?.ok_or_else(none)?)
    }

    /// As [`Workspace::event`] for an event that changes records, too: both or none. `op` names what undo
    /// takes back of it: the records, never what happened.
    ///
    /// # Errors
    /// [`Blocked`]; nothing is changed then.
    pub fn event_with<P: Stored>(
        &mut self,
        owner: P::Owner,
        now: Moment,
        op: Option<Op>,
        change: impl FnOnce(&Edit<'_>, &Run<P>) -> Result<Event<P>, WorkspaceError>,
    ) -> Result<(), Blocked<P>> {
        let (history, run) = self.begun::<P>(owner)?;
        self.store.add_line_with(history, op, |edit| {
            let entry = Entry {
                at: now,
                event: change(edit, &run)?,
            };
            advance(&run, entry).map_err(Blocked::Refused)?;
            Ok(entry.to_line())
        })
    }
}

impl<P: Procedure> From<StoreError> for Blocked<P> {
    fn from(error: StoreError) -> Self {
        Blocked::Failed(error.into())
    }
}

fn replayed<P: Procedure>((history, plan, lines): StoredRun<P>) -> Result<(History, Run<P>), WorkspaceError> {
    let entries: Result<Vec<_>, _> = lines.iter().map(|line| Entry::from_line(line)).collect();
    let entries = entries.map_err(|error| {
        tracing::error!("a stored history: {error}");
        WorkspaceError::History(Message::new("refused-history-line"))
    })?;
    let run = Run::replay(plan, &entries)
        .map_err(|error| WorkspaceError::History(Message::new("refused-history").with("at", error.at)))?;
    Ok((history, run))
}
