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

/// Where a gate is passed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Place {
    /// The number of the step or stage.
    pub number: u8,
    /// Where the work is done and with which kind of tool. Steps with the same setup belong to one
    /// stretch of work.
    pub setup: u8,
}

/// The gates passed so far, and the items confirmed of the gate that is next.
///
/// Only [`Passes::confirm`] adds a pass, one item at a time; [`Passes::renew`] renews what was
/// passed earlier the same day. The rule of how long a pass lasts is [`Lasts`].
#[derive(Debug, Clone, PartialEq, Eq, Hash, Default)]
pub struct Passes {
    passed: BTreeMap<(Gate, u8), Pass>,
    confirming: Option<Confirming>,
    last: Option<Moment>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Pass {
    /// When its first item was confirmed.
    whole: Moment,
    /// When it was confirmed or renewed last.
    at: Moment,
    /// The setup that it was confirmed for; `None` once the stretch of work has ended.
    setup: Option<u8>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Confirming {
    slot: (Gate, u8),
    count: usize,
    since: Moment,
}

/// The key of a pass: a gate that lasts longer than a step has one for all steps.
const fn slot(gate: Gate, place: Place) -> (Gate, u8) {
    match gate.lasts() {
        Lasts::Step => (gate, place.number),
        Lasts::Day | Lasts::Stretch | Lasts::UntilReopened => (gate, 0),
    }
}

fn counts(gate: Gate, since: Moment, now: Moment) -> bool {
    gate.lasts() == Lasts::UntilReopened || since.same_day(now)
}

impl Passes {
    fn pass(&self, gate: Gate, place: Place, now: Moment) -> Option<&Pass> {
        self.passed
            .get(&slot(gate, place))
            .filter(|pass| counts(gate, pass.whole, now))
    }

    /// True if an hour or more has gone by since the last event, or the clock was set back.
    fn paused(&self, now: Moment) -> bool {
        self.last.is_some_and(|last| !last.within_the_hour(now))
    }

    /// When a gate was passed for a place, if the pass opens that place at `now`.
    #[must_use]
    pub fn passed(&self, gate: Gate, place: Place, now: Moment) -> Option<Moment> {
        let pass = self.pass(gate, place, now)?;
        let fresh = gate.lasts() != Lasts::Stretch || (pass.setup == Some(place.setup) && !self.paused(now));
        fresh.then_some(pass.at)
    }

    /// True if a gate was passed and the person may stay where it was passed for: the pass counts,
    /// though it may have to be renewed before the work goes on.
    #[must_use]
    pub fn held(&self, gate: Gate, place: Place, now: Moment) -> bool {
        self.pass(gate, place, now).is_some()
    }

    /// The first of `gates` that is not passed at `now`.
    #[must_use]
    pub fn missing(&self, gates: &[Gate], place: Place, now: Moment) -> Option<Gate> {
        gates
            .iter()
            .copied()
            .find(|&gate| self.passed(gate, place, now).is_none())
    }

    /// Those of `gates` that were passed earlier the same day and need one hold to be renewed, with
    /// the moment of their last confirmation.
    #[must_use]
    pub fn repeated(&self, gates: &[Gate], place: Place, now: Moment) -> Vec<(Gate, Moment)> {
        gates
            .iter()
            .filter(|&&gate| self.passed(gate, place, now).is_none())
            .filter_map(|&gate| Some((gate, self.pass(gate, place, now)?.at)))
            .collect()
    }

    /// Renews those of `gates` that were passed earlier the same day.
    ///
    /// # Errors
    /// [`ConfirmError::NotThisGate`] if there is none.
    pub fn renew(&mut self, gates: &[Gate], place: Place, now: Moment) -> Result<(), ConfirmError> {
        let repeated = self.repeated(gates, place, now);
        if repeated.is_empty() {
            return Err(ConfirmError::NotThisGate);
        }
        for (gate, _) in repeated {
            if let Some(pass) = self.passed.get_mut(&slot(gate, place)) {
                pass.at = now;
                pass.setup = Some(place.setup);
            }
        }
        Ok(())
    }

    /// Forgets those of `gates` that could be renewed: they are confirmed item by item again.
    ///
    /// # Errors
    /// [`ConfirmError::NotThisGate`] if there is none.
    pub fn doubt(&mut self, gates: &[Gate], place: Place, now: Moment) -> Result<(), ConfirmError> {
        let repeated = self.repeated(gates, place, now);
        if repeated.is_empty() {
            return Err(ConfirmError::NotThisGate);
        }
        for (gate, _) in repeated {
            self.passed.remove(&slot(gate, place));
        }
        Ok(())
    }

    /// The items of a gate that are confirmed at `now`: all of them once it is passed.
    #[must_use]
    pub fn confirmed(&self, gate: Gate, place: Place, now: Moment) -> &'static [Item] {
        if self.passed(gate, place, now).is_some() {
            return gate.items();
        }
        let count = self
            .under_way(gate, place, now)
            .map_or(0, |confirming| confirming.count);
        gate.items().get(..count).unwrap_or(&[])
    }

    fn under_way(&self, gate: Gate, place: Place, now: Moment) -> Option<Confirming> {
        self.confirming
            .filter(|c| c.slot == slot(gate, place) && counts(gate, c.since, now) && !self.paused(now))
    }

    /// Takes one item of `gate`. The last item passes the gate; the pass is as old as its first
    /// item. Starting on a gate forgets the items of another that was not finished.
    ///
    /// # Errors
    /// [`ConfirmError::NotThisGate`] if the item is not of this gate or the gate is passed
    /// already, [`ConfirmError::NotYet`] if another item of it comes first.
    pub fn confirm(&mut self, gate: Gate, item: Item, place: Place, now: Moment) -> Result<(), ConfirmError> {
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
            let pass = Pass {
                whole: since,
                at: since,
                setup: Some(place.setup),
            };
            self.passed.insert(slot, pass);
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

    /// Forgets what no longer counts at `now`, ends the stretch of work after a pause, and notes
    /// that something happens at `now`.
    pub fn expire(&mut self, now: Moment) {
        if self.paused(now) {
            self.end_stretch();
        }
        self.last = Some(now);
        self.passed.retain(|&(gate, _), pass| counts(gate, pass.whole, now));
        self.confirming = self.confirming.filter(|c| counts(c.slot.0, c.since, now));
    }

    /// Forgets all but one gate and what was confirmed in part, for explorations gate by gate.
    #[cfg(test)]
    pub(crate) fn only(&mut self, gate: Gate, now: Moment) {
        self.confirming = None;
        self.last = Some(now);
        self.passed.retain(|&(other, _), _| other == gate);
    }

    /// Ends the stretch of work: what was passed for it has to be renewed.
    pub(crate) fn end_stretch(&mut self) {
        self.confirming = None;
        for (_, pass) in self.stretches() {
            pass.setup = None;
        }
    }

    fn stretches(&mut self) -> impl Iterator<Item = (Gate, &mut Pass)> {
        self.passed
            .iter_mut()
            .map(|(&(gate, _), pass)| (gate, pass))
            .filter(|(gate, _)| gate.lasts() == Lasts::Stretch)
    }

    /// Forgets what lasts for one step alone, except for `place`, and ends the stretch of what was
    /// passed with another setup.
    pub fn arrive(&mut self, place: Place) {
        self.confirming = None;
        self.passed
            .retain(|&(gate, at), _| gate.lasts() != Lasts::Step || at == place.number);
        for (_, pass) in self.stretches() {
            pass.setup = pass.setup.filter(|&setup| setup == place.setup);
        }
    }

    /// Forgets what lasts for one step alone, and ends the stretch of what was passed with another
    /// setup, except for two places: the one where the person is and the one that a gate is being
    /// passed for.
    pub fn turn_toward(&mut self, place: Place, standing: Place) {
        self.passed
            .retain(|&(gate, at), _| gate.lasts() != Lasts::Step || at == place.number || at == standing.number);
        for (_, pass) in self.stretches() {
            pass.setup = pass
                .setup
                .filter(|&setup| setup == place.setup || setup == standing.setup);
        }
    }

    /// Forgets what rests on something that was disturbed.
    pub fn disturb(&mut self, by: Disturbance) {
        self.confirming = None;
        self.passed.retain(|&(gate, _), _| match by {
            Disturbance::PluggedIn => !matches!(gate, Gate::Unplugged | Gate::Capacitor),
            Disturbance::StillCharged => gate != Gate::Capacitor,
            Disturbance::Reopened => !matches!(gate.lasts(), Lasts::UntilReopened | Lasts::Step),
        });
        if by == Disturbance::Reopened {
            self.end_stretch();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const HERE: Place = Place { number: 0, setup: 0 };
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
            passes.confirm(gate, item, HERE, at).unwrap();
        }
    }

    #[test]
    fn one_item_after_the_other() {
        let mut passes = Passes::default();
        let first = Item::PlugOut;
        assert_eq!(
            passes.confirm(Gate::Unplugged, Item::PlugInSight, HERE, NOON),
            Err(ConfirmError::NotYet { first })
        );
        assert_eq!(
            passes.confirm(Gate::Unplugged, Item::DustMaskOn, HERE, NOON),
            Err(ConfirmError::NotThisGate)
        );
        passes.confirm(Gate::Unplugged, first, HERE, NOON).unwrap();
        assert_eq!(passes.passed(Gate::Unplugged, HERE, NOON), None);
        assert_eq!(passes.confirmed(Gate::Unplugged, HERE, NOON), [Item::PlugOut]);
        passes
            .confirm(Gate::Unplugged, Item::PlugInSight, HERE, later(5, 0))
            .unwrap();
        assert_eq!(passes.passed(Gate::Unplugged, HERE, later(5, 0)), Some(NOON));
    }

    #[test]
    fn a_pass_ends_with_the_day_and_with_the_plug() {
        let mut passes = Passes::default();
        pass(&mut passes, Gate::Capacitor, NOON);
        pass(&mut passes, Gate::Reassembly, NOON);
        assert!(passes.passed(Gate::Capacitor, HERE, later(3_600_000, 0)).is_some());
        assert!(passes.passed(Gate::Capacitor, HERE, later(3_600_000, 1)).is_none());
        assert!(
            passes.passed(Gate::Capacitor, HERE, later(-1, 0)).is_none(),
            "clock set back"
        );
        assert!(passes.passed(Gate::Reassembly, HERE, later(3_600_000, 40)).is_some());
        passes.disturb(Disturbance::PluggedIn);
        assert!(passes.passed(Gate::Capacitor, HERE, NOON).is_none());
        passes.disturb(Disturbance::Reopened);
        assert!(passes.passed(Gate::Reassembly, HERE, NOON).is_none());
    }

    #[test]
    fn half_a_gate_does_not_survive_the_night() {
        let mut passes = Passes::default();
        passes.confirm(Gate::Unplugged, Item::PlugOut, HERE, NOON).unwrap();
        let first = Item::PlugOut;
        assert_eq!(
            passes.confirm(Gate::Unplugged, Item::PlugInSight, HERE, later(0, 1)),
            Err(ConfirmError::NotYet { first })
        );
    }

    #[test]
    fn a_gate_for_one_step_is_not_a_gate_for_another() {
        let (here, there) = (Place { number: 8, setup: 1 }, Place { number: 10, setup: 1 });
        let mut passes = Passes::default();
        for &item in Gate::HeavyCurrent.items() {
            passes.confirm(Gate::HeavyCurrent, item, here, NOON).unwrap();
        }
        assert!(passes.passed(Gate::HeavyCurrent, here, NOON).is_some());
        assert!(passes.passed(Gate::HeavyCurrent, there, NOON).is_none());
        assert_eq!(passes.repeated(&[Gate::HeavyCurrent], there, NOON), []);
        passes.arrive(there);
        assert!(passes.passed(Gate::HeavyCurrent, here, NOON).is_none(), "left the step");
    }

    const SAW: Place = Place { number: 8, setup: 1 };
    const DRIFT: Place = Place { number: 9, setup: 1 };
    const OVEN: Place = Place { number: 10, setup: 2 };

    fn dressed() -> Passes {
        let mut passes = Passes::default();
        passes.expire(NOON);
        for &item in Gate::Cutting.items() {
            passes.confirm(Gate::Cutting, item, SAW, NOON).unwrap();
        }
        passes
    }

    /// Dressed once for a stretch of work: another step with the same setup asks nothing, another
    /// setup asks for one hold, and so does going back.
    #[test]
    fn a_change_of_tool_or_place_asks_for_one_hold() {
        let mut passes = dressed();
        let cutting = [Gate::Cutting];
        assert_eq!(passes.missing(&cutting, DRIFT, later(60_000, 0)), None);
        passes.arrive(DRIFT);
        assert_eq!(passes.missing(&cutting, OVEN, NOON), Some(Gate::Cutting));
        assert_eq!(passes.repeated(&cutting, OVEN, NOON), [(Gate::Cutting, NOON)]);
        passes.renew(&cutting, OVEN, later(9, 0)).unwrap();
        assert_eq!(passes.passed(Gate::Cutting, OVEN, later(9, 0)), Some(later(9, 0)));
        assert_eq!(
            passes.renew(&cutting, OVEN, later(9, 0)),
            Err(ConfirmError::NotThisGate)
        );
        passes.arrive(OVEN);
        assert_eq!(
            passes.repeated(&cutting, SAW, later(9, 0)),
            [(Gate::Cutting, later(9, 0))]
        );
        passes.arrive(SAW);
        assert_eq!(
            passes.passed(Gate::Cutting, OVEN, later(9, 0)),
            None,
            "the oven was left"
        );
    }

    /// An hour without an event asks for one hold, a night for every item, a clock set back too.
    #[test]
    fn a_pause_of_an_hour_asks_for_one_hold_and_a_night_for_all() {
        let cutting = [Gate::Cutting];
        for (ms, asks) in [(3_599_999, false), (3_600_000, true)] {
            let mut passes = dressed();
            let now = later(ms, 0);
            assert_eq!(passes.missing(&cutting, SAW, now).is_some(), asks, "{ms}");
            passes.expire(now);
            assert_eq!(passes.missing(&cutting, SAW, now).is_some(), asks, "{ms}");
            assert_eq!(passes.repeated(&cutting, SAW, now).len(), usize::from(asks));
            assert!(passes.held(Gate::Cutting, SAW, now));
        }
        for now in [later(3_600_000, 1), later(-1, 0)] {
            let mut passes = dressed();
            passes.expire(now);
            assert_eq!(passes.repeated(&cutting, SAW, now), []);
            assert!(!passes.held(Gate::Cutting, SAW, now));
        }
        // Renewing does not carry a pass into the next day.
        let mut passes = dressed();
        passes.renew(&cutting, OVEN, later(40_000_000, 0)).unwrap();
        assert!(!passes.held(Gate::Cutting, OVEN, later(40_000_001, 1)));
    }

    #[test]
    fn a_doubt_asks_for_every_item() {
        let mut passes = dressed();
        passes.doubt(&[Gate::Cutting], OVEN, NOON).unwrap();
        assert_eq!(passes.repeated(&[Gate::Cutting], OVEN, NOON), []);
        assert_eq!(passes.missing(&[Gate::Cutting], SAW, NOON), Some(Gate::Cutting));
        assert!(passes.confirmed(Gate::Cutting, SAW, NOON).is_empty());
    }

    /// A hard gate is asked whole: nothing renews it.
    #[test]
    fn hard_gates_are_never_renewed() {
        for &gate in Gate::ALL.iter().filter(|gate| gate.lasts() != Lasts::Stretch) {
            let mut passes = Passes::default();
            passes.expire(NOON);
            for &item in gate.items() {
                passes.confirm(gate, item, SAW, NOON).unwrap();
            }
            for place in [SAW, DRIFT, OVEN] {
                for now in [NOON, later(3_600_000, 0), later(0, 1)] {
                    assert_eq!(passes.repeated(&[gate], place, now), [], "{gate:?}");
                }
            }
        }
    }
}
