//! A single task behind gates, outside the stages: a test turn, welding the seam.
//!
//! Nothing of it is stored: whoever leaves the screen, or opens the core, confirms anew.

use crate::safety::{ConfirmError, Gate, Item, Moment, Passes, Place};

/// A task and the gates before it that are passed.
#[derive(Debug, Clone, PartialEq)]
pub struct GatedTask {
    gates: &'static [Gate],
    passes: Passes,
}

/// The gates before a test turn, in order: no old winding is left on the core, and the source is
/// isolated and low.
pub const TEST_TURN: &[Gate] = &[Gate::OldWindingOut, Gate::LowVoltage];

/// The gates before the seam is welded.
pub const SEAM_WELDING: &[Gate] = &[Gate::Arc, Gate::Sparks];

/// A task is one place, with no other beside it.
const PLACE: Place = Place { number: 0, setup: 0 };

impl GatedTask {
    /// A task with nothing confirmed yet.
    #[must_use]
    pub fn behind(gates: &'static [Gate]) -> Self {
        Self {
            gates,
            passes: Passes::default(),
        }
    }

    /// The gate that stands before the task at `now`; none where it may be done.
    #[must_use]
    pub fn gate(&self, now: Moment) -> Option<Gate> {
        self.passes.missing(self.gates, PLACE, now)
    }

    /// The items of a gate that are confirmed.
    #[must_use]
    pub fn confirmed(&self, gate: Gate, now: Moment) -> &'static [Item] {
        self.passes.confirmed(gate, PLACE, now)
    }

    /// Takes one item of the gate that stands first.
    ///
    /// # Errors
    /// [`ConfirmError`] for an item of another gate, or out of its order.
    pub fn confirm(&mut self, item: Item, now: Moment) -> Result<(), ConfirmError> {
        let gate = self.gate(now).ok_or(ConfirmError::NotThisGate)?;
        self.passes.confirm(gate, item, PLACE, now)
    }

    /// Forgets everything: an item could not be done, or the core was changed.
    pub fn stop(&mut self) {
        self.passes.clear();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOON: Moment = Moment {
        unix_ms: 5_000_000_000,
        local_day: 20_100,
    };

    /// No order of items, and no part of them, opens the test: only all of both gates, in order.
    #[test]
    fn no_voltage_before_every_item() {
        let items: Vec<Item> = TEST_TURN.iter().flat_map(|gate| gate.items()).copied().collect();
        let mut turn = GatedTask::behind(TEST_TURN);
        for (at, &item) in items.iter().enumerate() {
            assert!(turn.gate(NOON).is_some(), "open after {at} items");
            for &other in Item::ALL.iter().filter(|&&other| other != item) {
                assert!(turn.confirm(other, NOON).is_err(), "{other:?} in place of {item:?}");
            }
            turn.confirm(item, NOON).unwrap();
        }
        assert_eq!(turn.gate(NOON), None);
        let tomorrow = Moment {
            unix_ms: NOON.unix_ms + 86_400_000,
            local_day: NOON.local_day + 1,
        };
        assert_eq!(turn.gate(tomorrow), Some(Gate::LowVoltage));
        turn.stop();
        assert_eq!(turn.gate(NOON), Some(Gate::OldWindingOut));
    }

    /// The seam is not welded before helmet, skin, bystanders, fumes, plating and cleaner are confirmed, nor
    /// before nothing near can burn.
    #[test]
    fn no_arc_before_every_item() {
        let items: Vec<Item> = SEAM_WELDING.iter().flat_map(|gate| gate.items()).copied().collect();
        for needed in [
            Item::HelmetOn,
            Item::SkinCovered,
            Item::BystandersScreened,
            Item::WeldFumesDrawnOff,
            Item::BareSteel,
            Item::NoChlorinatedCleaner,
            Item::NoImplantAtArc,
            Item::NothingBurns,
            Item::FireWatch,
        ] {
            assert!(items.contains(&needed), "{needed:?}");
        }
        let mut task = GatedTask::behind(SEAM_WELDING);
        for &item in &items {
            assert!(task.gate(NOON).is_some(), "open before {item:?}");
            task.confirm(item, NOON).unwrap();
        }
        assert_eq!(task.gate(NOON), None);
    }
}
