//! One record of an arrival: merged with what is known, its row made to follow.

use uuid::Uuid;

use super::{Arriving, Tally, name_of};
use crate::merge::{Kind, Known, Line, accept};
use crate::store::columns::{self, Before, Saying};
use crate::store::error::{StoreError, damaged};
use crate::store::ledger::Came;
use crate::store::rows::blob;
use crate::store::{carried, ledger};

const LISTED: usize = 100;

/// Before a record of more bytes than this, what waits is entered: little is kept in memory.
const LONG: usize = 1 << 16;

impl Arriving<'_> {
    /// Takes in one record. The ledger keeps its history as this program writes it, so that nothing of the
    /// line's own layout takes room here or travels on.
    ///
    /// # Errors
    /// [`StoreError::Refused`]; what the disk says.
    pub fn take(&mut self, mut line: Line) -> Result<(), StoreError> {
        accept(&mut line)?;
        let Line { kind, id, known } = line;
        for stamp in known.seen().stamps() {
            // Only a clone of this device, such as its disk put back from a snapshot, had other
            // sessions than those known here, or came further in one of them.
            self.twin |= stamp.device.machine() == self.own.device
                && (stamp.count > self.own.stamps || !self.own_sessions.contains(&stamp.device));
            self.own.follow(stamp);
        }
        self.own.changes += 1;
        let history = known.to_json();
        if kind != self.came_kind || self.came.len() == ledger::AT_ONCE || history.len() > LONG {
            self.enter()?;
        }
        self.came_kind = kind;
        self.came.push(Came {
            id,
            known,
            history,
            change: self.own.changes,
        });
        Ok(())
    }

    /// Enters the records that came last, all of one kind.
    pub(super) fn enter(&mut self) -> Result<(), StoreError> {
        let (kind, mut came) = (self.came_kind, std::mem::take(&mut self.came));
        let written = self.beginning.begin(kind, self.arrival, &came)?;
        if written == came.len() {
            self.bring(kind, &came)?;
        } else {
            for one in &came {
                match ledger::read_with_change(self.connection, kind, one.id)? {
                    None => return Err(damaged("ledger", "a row that is there cannot be read")),
                    Some((_, change)) if change == one.change => self.bring(kind, std::slice::from_ref(one))?,
                    Some((old, _)) => self.join(kind, one.id, &old, &one.known)?,
                }
            }
        }
        came.clear();
        self.came = came;
        Ok(())
    }

    /// Shows records that were not known here.
    fn bring(&mut self, kind: Kind, came: &[Came]) -> Result<(), StoreError> {
        let mut rows = Vec::with_capacity(came.len());
        for Came { id, known, .. } in came {
            self.tell(kind).new += u64::from(!known.is_removed());
            if known.is_removed() {
                continue;
            }
            // Nothing belongs to these, so that their rows may wait for each other.
            let shown = if columns::has_owner(kind) {
                let values = Saying::of(known);
                let shown = self.has_owner_here(kind, &values)?;
                rows.extend(shown.then_some((*id, values)));
                shown
            } else {
                self.show(kind, *id, known, Before::Nothing)?
            };
            if !shown {
                self.connection
                    .prepare_cached("UPDATE ledger SET held = 1 WHERE kind = ?1 AND id = ?2")?
                    .execute((kind as u8, blob(*id)))?;
            }
        }
        columns::write_new(self.connection, kind, &rows)
    }

    fn join(&mut self, kind: Kind, id: Uuid, old: &Known, theirs: &Known) -> Result<(), StoreError> {
        let mut known = old.clone();
        if !known.take_in(theirs) {
            self.told.same += 1;
            return Ok(());
        }
        let mut held = false;
        match (old.is_removed(), known.is_removed()) {
            (true, true) => {}
            (false, true) => {
                // The row may have gone with its owner's.
                self.hide(kind, id)?;
                self.tell(kind).removed += 1;
                if matches!(kind, Kind::Donor | Kind::Job | Kind::Design | Kind::Stock) {
                    list(&mut self.told.removed, kind, &known);
                }
            }
            _ => {
                held = !self.show(kind, id, &known, Before::Perhaps)?;
                self.tell(kind).changed += 1;
            }
        }
        if !known.is_removed() && ledger::forks(kind, &known) > ledger::forks(kind, old) {
            list(&mut self.told.forked, kind, &known);
        }
        self.settle(kind, id, &known, held)
    }

    fn tell(&mut self, kind: Kind) -> &mut Tally {
        self.told.tallies.entry(kind).or_default()
    }

    pub(super) fn settle(&mut self, kind: Kind, id: Uuid, known: &Known, held: bool) -> Result<(), StoreError> {
        self.own.changes += 1;
        ledger::write(self.connection, kind, id, known, self.own.changes, held)
    }

    /// Makes the record's row follow what is known; false where its owner is not here.
    pub(super) fn show(&mut self, kind: Kind, id: Uuid, known: &Known, before: Before) -> Result<bool, StoreError> {
        let mut values = Saying::of(known);
        if !self.has_owner_here(kind, &values)? {
            if before == Before::Perhaps && columns::is_here(self.connection, kind, id)? {
                self.hide(kind, id)?;
            }
            return Ok(false);
        }
        columns::leave_out_gone(self.connection, kind, &mut values)?;
        match kind {
            Kind::Teardown | Kind::BenchRun => carried::write(self.connection, self.own.device, kind, id, &values)?,
            _ => columns::write(self.connection, kind, id, &values, before)?,
        }
        if kind.owns() || kind == Kind::Stock {
            self.connection
                .prepare_cached("INSERT OR IGNORE INTO temp.touched (kind, id) VALUES (?1, ?2)")?
                .execute((kind as u8, blob(id)))?;
        }
        Ok(true)
    }

    /// Whether what the record belongs to is here, where it must be.
    fn has_owner_here(&mut self, kind: Kind, values: &Saying<'_>) -> Result<bool, StoreError> {
        if let Some(owner) = columns::needs(kind, values) {
            if self.owner != Some(owner) && !columns::is_here(self.connection, owner.0, owner.1)? {
                return Ok(false);
            }
            self.owner = Some(owner);
        }
        Ok(true)
    }

    /// Takes the record's row away, with what cannot be without it.
    fn hide(&mut self, kind: Kind, id: Uuid) -> Result<(), StoreError> {
        self.owner = None;
        self.owners_gone |= kind.owns();
        if kind == Kind::Core {
            self.connection
                .execute("DELETE FROM job WHERE core_id = ?1", [blob(id)])?;
        }
        self.connection
            .prepare_cached(&format!("DELETE FROM {} WHERE id = ?1", columns::table(kind)))?
            .execute([blob(id)])?;
        self.connection
            .prepare_cached("DELETE FROM temp.touched WHERE kind = ?1 AND id = ?2")?
            .execute((kind as u8, blob(id)))?;
        Ok(())
    }
}

fn list(names: &mut Vec<(Kind, String)>, kind: Kind, known: &Known) {
    if names.len() < LISTED {
        names.push((kind, name_of(kind, known)));
    }
}
