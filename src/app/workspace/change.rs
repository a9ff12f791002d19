//! Changes of a job, each saved as one step of undo.

use super::entry::{Entry, find_field, read_entry};
use super::{Changes, Workspace, WorkspaceError};
use crate::app::reach::Step;
use crate::app::start;
use crate::job::{Choice, Conditions, Core, EarlierUse, Goal, Job, JobFile, JobId, PairChoice, Places, ShelfCore};
use crate::magnetics::circuit::mains::Outlet;
use crate::quantity::LengthUnit;
use crate::store::{Op, StoredJob};

/// A change of a job that is made out and not stored.
#[derive(Debug, Clone, PartialEq)]
pub struct Proposed {
    /// The job.
    pub job: JobId,
    /// The change, as undo names it.
    pub op: Op,
    /// The job as it would be.
    pub after: JobFile,
}

impl Workspace {
    /// Makes a change of a job out without storing it; `None` where `change` changes no job's document,
    /// and is done.
    ///
    /// # Errors
    /// As the change.
    pub fn propose(
        &mut self,
        change: impl FnOnce(&mut Workspace) -> Result<(), WorkspaceError>,
    ) -> Result<Option<Proposed>, WorkspaceError> {
        self.changes = Changes::Proposed(None);
        let made = change(self);
        let proposed = match std::mem::take(&mut self.changes) {
            Changes::Proposed(proposed) => proposed.map(|proposed| *proposed),
            Changes::Stored => None,
        };
        made.map(|()| proposed)
    }

    /// Stores a change that was proposed.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn store_proposed(&mut self, proposed: Proposed) -> Result<(), WorkspaceError> {
        self.change(proposed.job, proposed.op, |file| {
            *file = proposed.after;
            Ok(())
        })
    }

    /// Sets one number of a job from what was typed.
    ///
    /// # Errors
    /// Names the field and its range; nothing is changed then.
    pub fn set_number(&mut self, id: JobId, entry: &Entry, unit: LengthUnit) -> Result<(), WorkspaceError> {
        self.set_numbers(id, std::slice::from_ref(entry), unit)
    }

    /// Sets several numbers of a job at once, as one step of undo.
    ///
    /// # Errors
    /// As [`Workspace::set_number`].
    pub fn set_numbers(&mut self, id: JobId, entries: &[Entry], unit: LengthUnit) -> Result<(), WorkspaceError> {
        let goal = self.store.job(id)?.body.goal;
        let Some(last) = entries.last() else { return Ok(()) };
        let op = Op::Number(find_field(&goal, last.path)?);
        let mut values = Vec::new();
        for entry in entries {
            let field = find_field(&goal, entry.path)?;
            values.push((entry.path, read_entry(field, entry, unit)?));
        }
        self.change(id, op, |file| {
            let unknown = |path: &str| WorkspaceError::UnknownField(path.to_owned());
            let mut values = values.into_iter();
            values.try_for_each(|(path, value)| file.put(path, value).then_some(()).ok_or_else(|| unknown(path)))
        })
    }

    /// Takes a group of readings away (a test turn, the old secondary).
    ///
    /// # Errors
    /// [`WorkspaceError::UnknownField`] where nothing optional has this path; [`WorkspaceError::Store`].
    pub fn clear_group(&mut self, id: JobId, path: &str) -> Result<(), WorkspaceError> {
        self.change(id, Op::DeleteTest, |file| {
            let cleared = file.put(path, None).then_some(());
            cleared.ok_or_else(|| WorkspaceError::UnknownField(path.to_owned()))
        })
    }

    /// Chooses another use: with the targets and the winding that it had before in this job, else with
    /// its usual targets. Those of the use that is left are kept.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the job cannot be read or written.
    pub fn set_use(&mut self, id: JobId, word: &str) -> Result<(), WorkspaceError> {
        self.change(id, Op::Use, |file| {
            to_use(file, word);
            Ok(())
        })
    }

    /// Changes the goal in a way that is not one number (who uses it, a warning confirmed).
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn set_goal(&mut self, id: JobId, op: Op, goal: Goal) -> Result<(), WorkspaceError> {
        self.change(id, op, |file| {
            file.goal = goal;
            Ok(())
        })
    }

    /// Changes the core in a way that is not one number (metal, shunts).
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn set_core(&mut self, id: JobId, op: Op, with: impl FnOnce(&mut Core)) -> Result<(), WorkspaceError> {
        self.change(id, op, |file| {
            with(&mut file.core);
            Ok(())
        })
    }

    /// Changes how it is run in a way that is not one number (steel, breaker, rectifier).
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn set_conditions(
        &mut self,
        id: JobId,
        op: Op,
        with: impl FnOnce(&mut Conditions),
    ) -> Result<(), WorkspaceError> {
        self.change(id, op, |file| {
            with(&mut file.conditions);
            Ok(())
        })
    }

    /// Changes a job as it takes to reach its target.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn take_steps(&mut self, id: JobId, steps: &[Step]) -> Result<(), WorkspaceError> {
        let op = match steps {
            [Step::Pair(_) | Step::OneCore] => Op::SecondCore,
            [Step::Joined(_)] => Op::Windings,
            _ => Op::Reach,
        };
        self.change(id, op, |file| {
            for step in steps {
                step.apply(file);
            }
            Ok(())
        })
    }

    /// Puts a second core beside a job's own for a use, whose targets become `goal`.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn pair_up(&mut self, id: JobId, goal: Goal, pair: PairChoice) -> Result<(), WorkspaceError> {
        self.change(id, Op::SecondCore, |file| {
            to_use(file, goal.word());
            file.goal = goal;
            file.choice = None;
            file.conditions.pair = Some(pair);
            Ok(())
        })
    }

    /// Plugs the job into another outlet.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn set_outlet(&mut self, id: JobId, outlet: &Outlet) -> Result<(), WorkspaceError> {
        self.change(id, Op::Outlet, |file| {
            file.mains = start::mains_of(outlet);
            Ok(())
        })
    }

    /// Chooses a winding, or goes back to the best that is found.
    ///
    /// # Errors
    /// A number out of range.
    pub fn choose(&mut self, id: JobId, choice: Option<Choice>) -> Result<(), WorkspaceError> {
        self.change(
            id,
            if choice.is_some() {
                Op::ChooseWinding
            } else {
                Op::BestWinding
            },
            |file| {
                file.choice = choice;
                Ok(())
            },
        )
    }

    /// Writes a job's note.
    ///
    /// # Errors
    /// An overlong note.
    pub fn set_note(&mut self, id: JobId, note: &str) -> Result<(), WorkspaceError> {
        self.change(id, Op::Note, |file| {
            note.clone_into(&mut file.note);
            Ok(())
        })
    }

    /// Renames a job.
    ///
    /// # Errors
    /// A blank or overlong name.
    pub fn rename(&mut self, id: JobId, name: &str) -> Result<(), WorkspaceError> {
        self.change(id, Op::RenameJob, |file| {
            name.clone_into(&mut file.name);
            Ok(())
        })
    }

    /// Applies a change to a job's document and saves the records that it touched, as one step of
    /// undo with a name.
    pub(in crate::app) fn change(
        &mut self,
        id: JobId,
        op: Op,
        with: impl FnOnce(&mut JobFile) -> Result<(), WorkspaceError>,
    ) -> Result<(), WorkspaceError> {
        let StoredJob { meta, core, file } = self.store.load_job(id)?;
        let of = |file: &JobFile| Job {
            name: file.name.clone(),
            core: core.meta.id,
            mains: file.mains.clone(),
            goal: file.goal,
            conditions: file.conditions.clone(),
            choice: file.choice.clone(),
            note: file.note.clone(),
        };
        let job = of(&file);
        let mut after = file;
        with(&mut after)?;
        if let Changes::Proposed(proposed) = &mut self.changes {
            *proposed = Some(Box::new(Proposed { job: id, op, after }));
            return Ok(());
        }
        let new_job = of(&after);
        self.store.edit(op, |edit| {
            if after.core != core.body.core {
                let shelf = ShelfCore {
                    donor: core.body.donor,
                    core: after.core.clone(),
                };
                edit.update(core.meta.id, core.meta.revision, &shelf)?;
            }
            if new_job != job {
                edit.update(id, meta.revision, &new_job)?;
            }
            Ok(())
        })?;
        Ok(())
    }
}

/// Puts a job to another use, with what it had of it before, else with its usual targets.
fn to_use(file: &mut JobFile, word: &str) {
    if file.goal.word() == word {
        return;
    }
    let left = EarlierUse {
        goal: file.goal,
        choice: file.choice.take(),
    };
    let earlier = &mut file.conditions.earlier_uses;
    earlier.retain(|used| used.goal.word() != left.goal.word());
    file.goal = start::goal_of(word);
    if let Some(place) = earlier.iter().position(|used| used.goal.word() == word) {
        let back = earlier.remove(place);
        (file.goal, file.choice) = (back.goal, back.choice);
    }
    // Usual targets are there anyway.
    if left.choice.is_some() || left.goal != start::goal_of(left.goal.word()) {
        earlier.push(left);
    }
}
