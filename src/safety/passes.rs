//! Which gates are passed, and which one is being confirmed.

use std::collections::BTreeMap;

use super::gates::{Gate, Lasts};
use super::items::Item;
use super::moment::Moment;

/// Something that ends passes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Disturbance {
    /// The donor was plugged in again.
    PluggedIn,
    /// A reading showed charge in the capacitor.
    StillCharged,
    /// The rebuilt core or its wiring was opened or changed.
    Reopened,
}

/// Why an item is not taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum ConfirmError {
    /// The item is not of the gate that stands next.
    #[error("this is not the gate in front of you; read the screen again")]
    NotThisGate,
    /// Another item comes before it.
    #[error("confirm the items in order; another one comes first")]
    NotYet {
        /// The item that comes first.
        first: Item,
    },
}

impl ConfirmError {
    /// The id of its text.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            ConfirmError::NotThisGate => "refusal-not-this-gate",
            ConfirmError::NotYet { .. } => "refusal-not-yet",
        }
    }
}

/// The gates passed so far, and the items confirmed of the gate that is next.
///
/// Only [`Passes::confirm`] adds to it, one item at a time. A `place` is the number of the step
/// or stage that a gate is passed for; it matters to gates that last for one step alone.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Passes {
    passed: BTreeMap<(Gate, u8), Moment>,
    confirming: Option<Confirming>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Confirming {
    slot: (Gate, u8),
    count: usize,
    since: Moment,
}

/// Where a pass is kept: a gate that lasts longer than a step has one place for all.
const fn slot(gate: Gate, place: u8) -> (Gate, u8) {
    match gate.lasts() {
        Lasts::Step => (gate, place),
        Lasts::Day | Lasts::UntilReopened => (gate, 0),
    }
}

fn counts(gate: Gate, at: Moment, now: Moment) -> bool {
    gate.lasts() == Lasts::UntilReopened || at.same_day(now)
}

impl Passes {
    /// When a gate was passed for a place, if the pass still counts at `now`.
    #[must_use]
    pub fn passed(&self, gate: Gate, place: u8, now: Moment) -> Option<Moment> {
        let at = self.passed.get(&slot(gate, place)).copied()?;
        counts(gate, at, now).then_some(at)
    }

    /// The first of `gates` that is not passed at `now`.
    #[must_use]
    pub fn missing(&self, gates: &[Gate], place: u8, now: Moment) -> Option<Gate> {
        gates
            .iter()
            .copied()
            .find(|&gate| self.passed(gate, place, now).is_none())
    }

    /// The items of a gate that are confirmed at `now`: all of them once it is passed.
    #[must_use]
    pub fn confirmed(&self, gate: Gate, place: u8, now: Moment) -> &'static [Item] {
        if self.passed(gate, place, now).is_some() {
            return gate.items();
        }
        let count = self
            .under_way(gate, place, now)
            .map_or(0, |confirming| confirming.count);
        gate.items().get(..count).unwrap_or(&[])
    }

    fn under_way(&self, gate: Gate, place: u8, now: Moment) -> Option<Confirming> {
        self.confirming
            .filter(|c| c.slot == slot(gate, place) && counts(gate, c.since, now))
    }

    /// Takes one item of `gate`. The last item passes the gate; the pass is as old as its first
    /// item. Starting on a gate forgets the items of another that was not finished.
    ///
    /// # Errors
    /// [`ConfirmError::NotThisGate`] if the item is not of this gate or the gate is passed
    /// already, [`ConfirmError::NotYet`] if another item of it comes first.
    pub fn confirm(&mut self, gate: Gate, item: Item, place: u8, now: Moment) -> Result<(), ConfirmError> {
        if !gate.items().contains(&item) || self.passed(gate, place, now).is_some() {
            return Err(ConfirmError::NotThisGate);
        }
        let (count, since) = self
            .under_way(gate, place, now)
            .map_or((0, now), |confirming| (confirming.count, confirming.since));
        match gate.items().get(count) {
            Some(&next) if next == item => {}
            Some(&first) => return Err(ConfirmError::NotYet { first }),
            None => return Err(ConfirmError::NotThisGate),
        }
        let slot = slot(gate, place);
        if count + 1 == gate.items().len() {
            self.confirming = None;
            self.passed.insert(slot, since);
        } else {
            self.confirming = Some(Confirming {
                slot,
                count: count + 1,
                since,
            });
        }
        Ok(())
    }

    /// Forgets everything.
    pub fn clear(&mut self) {
        *self = Self::default();
    }

    /// Forgets what no longer counts at `now`.
    pub fn expire(&mut self, now: Moment) {
        self.passed.retain(|&(gate, _), at| counts(gate, *at, now));
        self.confirming = self.confirming.filter(|c| counts(c.slot.0, c.since, now));
    }

    /// Forgets what lasts for one step alone, except for `place`.
    pub fn arrive(&mut self, place: u8) {
        self.confirming = None;
        self.passed
            .retain(|&(gate, at), _| gate.lasts() != Lasts::Step || at == place);
    }

    /// Forgets what lasts for one step alone, except for two places: the one where the person
    /// stands and the one that a gate is being passed for.
    pub fn turn_toward(&mut self, place: u8, standing: u8) {
        self.passed
            .retain(|&(gate, at), _| gate.lasts() != Lasts::Step || at == place || at == standing);
    }

    /// Forgets what rests on something that was disturbed.
    pub fn disturb(&mut self, by: Disturbance) {
        self.confirming = None;
        self.passed.retain(|&(gate, _), _| match by {
            Disturbance::PluggedIn => !matches!(gate, Gate::Unplugged | Gate::Capacitor),
            Disturbance::StillCharged => gate != Gate::Capacitor,
            Disturbance::Reopened => !matches!(gate.lasts(), Lasts::UntilReopened | Lasts::Step),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOON: Moment = Moment {
        unix_ms: 1_000_000,
        local_day: 1,
    };

    fn later(ms: i64, days: i32) -> Moment {
        Moment {
            unix_ms: NOON.unix_ms + ms,
            local_day: NOON.local_day + days,
        }
    }

    fn pass(passes: &mut Passes, gate: Gate, at: Moment) {
        for &item in gate.items() {
            passes.confirm(gate, item, 0, at).unwrap();
        }
    }

    #[test]
    fn one_item_after_the_other() {
        let mut passes = Passes::default();
        let first = Item::PlugOut;
        assert_eq!(
            passes.confirm(Gate::Unplugged, Item::PlugInSight, 0, NOON),
            Err(ConfirmError::NotYet { first })
        );
        assert_eq!(
            passes.confirm(Gate::Unplugged, Item::DustMaskOn, 0, NOON),
            Err(ConfirmError::NotThisGate)
        );
        passes.confirm(Gate::Unplugged, first, 0, NOON).unwrap();
        assert_eq!(passes.passed(Gate::Unplugged, 0, NOON), None);
        assert_eq!(passes.confirmed(Gate::Unplugged, 0, NOON), [Item::PlugOut]);
        passes
            .confirm(Gate::Unplugged, Item::PlugInSight, 0, later(5, 0))
            .unwrap();
        assert_eq!(passes.passed(Gate::Unplugged, 0, later(5, 0)), Some(NOON));
    }

    #[test]
    fn a_pass_ends_with_the_day_and_with_the_plug() {
        let mut passes = Passes::default();
        pass(&mut passes, Gate::Capacitor, NOON);
        pass(&mut passes, Gate::Reassembly, NOON);
        assert!(passes.passed(Gate::Capacitor, 0, later(3_600_000, 0)).is_some());
        assert!(passes.passed(Gate::Capacitor, 0, later(3_600_000, 1)).is_none());
        assert!(
            passes.passed(Gate::Capacitor, 0, later(-1, 0)).is_none(),
            "clock set back"
        );
        assert!(passes.passed(Gate::Reassembly, 0, later(3_600_000, 40)).is_some());
        passes.disturb(Disturbance::PluggedIn);
        assert!(passes.passed(Gate::Capacitor, 0, NOON).is_none());
        passes.disturb(Disturbance::Reopened);
        assert!(passes.passed(Gate::Reassembly, 0, NOON).is_none());
    }

    #[test]
    fn half_a_gate_does_not_survive_the_night() {
        let mut passes = Passes::default();
        passes.confirm(Gate::Unplugged, Item::PlugOut, 0, NOON).unwrap();
        let first = Item::PlugOut;
        assert_eq!(
            passes.confirm(Gate::Unplugged, Item::PlugInSight, 0, later(0, 1)),
            Err(ConfirmError::NotYet { first })
        );
    }

    #[test]
    fn a_gate_for_one_step_is_not_a_gate_for_another() {
        let mut passes = Passes::default();
        for &item in Gate::Cutting.items() {
            passes.confirm(Gate::Cutting, item, 8, NOON).unwrap();
        }
        assert!(passes.passed(Gate::Cutting, 8, NOON).is_some());
        assert!(passes.passed(Gate::Cutting, 10, NOON).is_none());
        passes.arrive(10);
        assert!(passes.passed(Gate::Cutting, 8, NOON).is_none(), "left the step");
    }
}
