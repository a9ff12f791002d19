//! Turns, layers, wire and room, counted from presses.

use super::plan::WindPlan;
use crate::quantity::Length;

/// What was wound so far.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Counter {
    /// Turns of each layer begun, the innermost first.
    layers: Vec<u32>,
    /// True where the last layer was ended before it had all its turns.
    ended: bool,
    /// Width of the whole first layer, measured along the limb.
    first_width: Option<Length>,
    /// True once the tap between the two halves was led out.
    tap: bool,
}

/// What the rest of the winding comes to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Forecast {
    /// Turns in a full layer from here on.
    pub per_layer: u32,
    /// Layers in all.
    pub layers: usize,
    /// How far they reach from the winding's inside.
    pub build: Length,
    /// Room left outside them; negative where the winding does not fit.
    pub spare: Length,
}

impl Forecast {
    /// True if the winding fits.
    #[must_use]
    pub fn fits(&self) -> bool {
        self.spare.si() >= 0.0
    }
}

impl Counter {
    /// Turns wound.
    #[must_use]
    pub fn turns(&self) -> u32 {
        self.layers.iter().sum()
    }

    /// Turns of each layer begun, the innermost first.
    #[must_use]
    pub fn layers(&self) -> &[u32] {
        &self.layers
    }

    /// The layer that the next turn lies in, from 0, and the turns that it has.
    #[must_use]
    pub fn place(&self, plan: &WindPlan) -> (usize, u32) {
        match self.layers.last() {
            Some(&turns) if !self.is_full(plan) => (self.layers.len() - 1, turns),
            _ => (self.layers.len(), 0),
        }
    }

    /// Width of the whole first layer, if it was measured.
    #[must_use]
    pub fn first_width(&self) -> Option<Length> {
        self.first_width
    }

    /// True where the next thing is the tap: half of the turns are wound, and it is not led out yet.
    #[must_use]
    pub fn is_at_tap(&self, plan: &WindPlan) -> bool {
        plan.tapped && !self.tap && self.turns() == plan.turns / 2
    }

    /// Turns that go side by side: as measured on the first layer, else as the design has it.
    #[must_use]
    pub fn per_layer(&self, plan: &WindPlan) -> u32 {
        match self.first_width {
            Some(_) => ((plan.breadth / self.turn_width(plan) + 1e-9).floor() as u32).clamp(1, plan.turns),
            None => plan.turns_per_layer,
        }
    }

    /// True at a layer's end: the next turn begins another layer.
    #[must_use]
    pub fn is_full(&self, plan: &WindPlan) -> bool {
        match self.layers.as_slice() {
            [] => false,
            // The first layer's own turns do not change when it is measured.
            [turns] => self.ended || *turns >= plan.turns_per_layer,
            [.., turns] => self.ended || *turns >= self.per_layer(plan),
        }
    }

    /// Turns until the layer's end, or until the tap or the last turn where that comes first.
    #[must_use]
    pub fn left_in_layer(&self, plan: &WindPlan) -> u32 {
        let (layer, turns) = self.place(plan);
        let most = if layer == 0 {
            plan.turns_per_layer
        } else {
            self.per_layer(plan)
        };
        let until = if plan.tapped && !self.tap {
            plan.turns / 2
        } else {
            plan.turns
        };
        let left = until.saturating_sub(self.turns());
        most.saturating_sub(turns).min(left)
    }

    /// Width of a turn along the limb: as measured on the first layer, else as the design has it.
    #[must_use]
    pub fn turn_width(&self, plan: &WindPlan) -> Length {
        match (self.first_width, self.layers.first()) {
            (Some(width), Some(&turns)) => width / f64::from(turns),
            _ => plan.turn_width,
        }
    }

    /// Counts a turn.
    pub(super) fn press(&mut self, plan: &WindPlan) {
        let new = self.layers.is_empty() || self.is_full(plan);
        self.ended = false;
        match self.layers.last_mut() {
            Some(turns) if !new => *turns += 1,
            _ => self.layers.push(1),
        }
    }

    /// Leads the tap out; false where it is not there, or out already.
    pub(super) fn lead_tap_out(&mut self, plan: &WindPlan) -> bool {
        let due = self.is_at_tap(plan);
        self.tap |= due;
        due
    }

    /// Takes the last press back; false where there is none.
    pub(super) fn take_back(&mut self, plan: &WindPlan) -> bool {
        if self.tap && self.turns() == plan.turns / 2 {
            // The tap was led out since the last turn.
            self.tap = false;
            return true;
        }
        let Some(turns) = self.layers.last_mut() else {
            return false;
        };
        if self.ended {
            // The end of a layer that was called early is a press of its own.
            self.ended = false;
        } else if *turns > 1 {
            *turns -= 1;
        } else {
            self.layers.pop();
            self.ended = !self.layers.is_empty() && !self.is_full(plan);
        }
        if self.layers.len() < 2 && !self.is_full(plan) {
            self.first_width = None;
        }
        true
    }

    /// Ends the layer before it has all its turns; false where none is begun.
    pub(super) fn end_layer(&mut self, plan: &WindPlan) -> bool {
        let begun = !self.layers.is_empty() && !self.is_full(plan);
        self.ended |= begun;
        begun
    }

    /// Takes the measured width of the first layer; false before its end.
    pub(super) fn measure(&mut self, plan: &WindPlan, width: Length) -> bool {
        let done = self.layers.len() > 1 || self.is_full(plan);
        if done {
            self.first_width = Some(width);
        }
        done
    }

    /// What the rest of the winding comes to.
    #[must_use]
    pub fn forecast(&self, plan: &WindPlan) -> Forecast {
        let per_layer = self.per_layer(plan);
        let in_last = self.layers.last().copied().unwrap_or(0);
        let open = if self.is_full(plan) || self.layers.is_empty() {
            0
        } else {
            per_layer.saturating_sub(in_last)
        };
        let rest = plan.turns.saturating_sub(self.turns()).saturating_sub(open);
        let layers = self.layers.len() + rest.div_ceil(per_layer) as usize;
        let build = plan.build_of(layers);
        Forecast {
            per_layer,
            layers,
            build,
            spare: plan.build - build,
        }
    }

    /// The lead-outs that are made so far, as a share of all: the start, and both ends at the tap.
    fn led_out(&self, plan: &WindPlan) -> f64 {
        match (plan.tapped, self.tap) {
            (false, _) => 0.5,
            (true, false) => 0.25,
            (true, true) => 0.75,
        }
    }

    /// Length of one conductor that is wound, with the lead-outs made so far once it has begun.
    #[must_use]
    pub fn wire_used(&self, plan: &WindPlan) -> Length {
        if self.layers.is_empty() {
            return Length::ZERO;
        }
        let turns = self.layers.iter().enumerate();
        turns.fold(plan.leads * self.led_out(plan), |used, (layer, &turns)| {
            used + plan.turn_length(layer) * f64::from(turns)
        })
    }

    /// Length of one conductor that is still to be wound, lead-outs included.
    #[must_use]
    pub fn wire_left(&self, plan: &WindPlan) -> Length {
        let mut whole = self.clone();
        while whole.turns() < plan.turns {
            whole.press(plan);
        }
        let turns = whole.wire_used(plan) - plan.leads * whole.led_out(plan);
        turns + plan.leads - self.wire_used(plan)
    }
}
