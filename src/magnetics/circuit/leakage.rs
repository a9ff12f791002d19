//! Leakage inductance of two coils that share a window.
//!
//! ```text
//!   concentric             side by side (the usual donor)
//!   | |1|g|2| |            |  1111111  |  ^
//! t | |1|g|2| | limb     t |  1111111  |  | first
//!   | |1|g|2| |            |  ggggggg  |  | gap
//!   | |1|g|2| |            |  2222222  |  | second
//!      field ↕             |  2222222  |  v
//!      breadth: along limb    field ↔, breadth: across the window
//! ```

use std::f64::consts::PI;

use crate::magnetics::circuit::shunts::Shunts;
pub use crate::magnetics::core::steel::MU_0;
use crate::quantity::{Inductance, Input, Length, Measured, Origin, Ratio, Turns, UncertainInputs, Visitor};

/// How the coils lie to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Arrangement {
    /// One around the other.
    Concentric,
    /// One after the other along the limb.
    SideBySide,
}

/// Two coils in a window. Side by side they begin together at the tongue; one over the other they share
/// their middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoilPair {
    /// How they lie.
    pub arrangement: Arrangement,
    /// Thickness of the first coil, across the leakage field.
    pub first: Measured<Length>,
    /// Between the coils: insulation, air, shunts.
    pub gap: Measured<Length>,
    /// Thickness of the second coil, across the leakage field.
    pub second: Measured<Length>,
    /// Extent of the first and of the second coil along the leakage field.
    pub breadths: [Measured<Length>; 2],
    /// Extent of the window along the leakage field, from steel to steel.
    pub window: Measured<Length>,
    /// Extent of the window across the leakage field.
    pub across: Measured<Length>,
    /// From the tongue's face to the coils: tube and paper.
    pub clearance: Measured<Length>,
    /// How much of the mean turn lies inside the windows: twice the stack.
    pub turn_inside: Measured<Length>,
    /// How much of it lies in front of and behind the stack.
    pub turn_outside: Measured<Length>,
    /// True leakage over this model's: see [`typical_leakage_factor`].
    pub model: Measured<Ratio>,
}

/// How far the leakage of [`CoilPair`] may be off: 1 ± 0.15. It agrees with plane finite elements within
/// 10 %, and the corners of the turns are not plane.
#[must_use]
pub fn typical_leakage_factor() -> Measured<Ratio> {
    Measured::new(Ratio::from_si(1.0), Ratio::from_si(0.15), Origin::Typical)
}

/// Rogowski's factor for coils of `breadth` and total thickness `build` (gap included) in open
/// air: `1 − (1 − e^(−πh/w)) w/(πh)` (Rogowski, 1909; any text on transformer design).
#[must_use]
pub fn rogowski_factor(build: Length, breadth: Length) -> Ratio {
    let slenderness = PI * (breadth / build);
    if slenderness <= 0.0 || !slenderness.is_finite() {
        return Ratio::from_si(1.0);
    }
    Ratio::from_si(1.0 + (-slenderness).exp_m1() / slenderness)
}

impl CoilPair {
    /// Thickness of the field between the coils and a third of each coil, where the field
    /// rises and falls as a ramp: `gap + (first + second)/3`.
    #[must_use]
    pub fn field_thickness(&self) -> Length {
        self.gap.value + (self.first.value + self.second.value) / 3.0
    }

    /// Thickness of both coils and what is between them.
    fn build(&self) -> Length {
        self.first.value + self.gap.value + self.second.value
    }

    /// Mean breadth of the coils.
    fn breadth(&self) -> Length {
        (self.breadths[0].value + self.breadths[1].value) / 2.0
    }

    /// Length of a leakage line inside the window: the coils' mean breadth over Rogowski's factor,
    /// but no longer than the steel allows.
    #[must_use]
    pub fn line_inside(&self) -> Length {
        let breadth = self.breadth();
        (breadth / rogowski_factor(self.build(), breadth).si()).min(self.window.value.max(breadth))
    }

    /// What coils of unequal breadths add to either permeance for each metre of turn, over µ0: where one
    /// reaches beyond the other, ampere-turns are left that drive a field the other way through the window.
    /// With r the shorter over the longer breadth L and W the window's extent that way it is
    /// `(1 − r)² L / 3W` for coils that begin together, and a quarter of that where they share their middle
    /// (the mean square of what is left, integrated over the breadth).
    fn unequal(&self) -> f64 {
        let [first, second] = [self.breadths[0].value, self.breadths[1].value];
        let (short, long) = (first.min(second), first.max(second));
        let left = 1.0 - short / long;
        let share = match self.arrangement {
            Arrangement::SideBySide => 3.0,
            Arrangement::Concentric => 12.0,
        };
        left * left * (long / self.across.value) / share
    }

    /// Permeance for each metre of turn inside the windows over µ0: field thickness over line, and what
    /// unequal breadths add. Within 13 % of plane finite elements, and within 2 % for coils of one breadth
    /// (`tests/reference/leakage.rs`).
    #[must_use]
    pub fn inside(&self) -> f64 {
        self.field_thickness() / self.line_inside() + self.unequal()
    }

    /// Permeance for each metre of turn outside the stack over µ0. There only the tongue's face is steel,
    /// and a line closes through the air: it is as long as the coils are broad, the clearance and a part of
    /// their build. The factors are our own, within 8 % of plane finite elements, and within 5 % for coils of
    /// one breadth (`tests/reference/leakage.rs`).
    #[must_use]
    pub fn outside(&self) -> f64 {
        let line = match self.arrangement {
            Arrangement::SideBySide => (self.breadth() + self.clearance.value + self.build() * 0.38) * 1.06,
            Arrangement::Concentric => (self.breadth() + self.clearance.value * 0.75 + self.build() * 0.6) * 0.96,
        };
        self.field_thickness() / line + self.unequal()
    }

    /// Leakage for one turn, Wb/A: `µ0 Σ (permeance × turn length)` over the parts inside and outside the
    /// windows.
    #[must_use]
    pub fn permeance(&self) -> f64 {
        let permeance = self.inside() * self.turn_inside.value.si() + self.outside() * self.turn_outside.value.si();
        MU_0 * permeance * self.model.value.si()
    }

    /// The same less the air that shunts take the place of.
    #[must_use]
    pub fn permeance_beside(&self, shunts: &Shunts) -> f64 {
        let deep = (2.0 * shunts.stack.value).min(self.turn_inside.value);
        let taken = shunts.thickness.value.min(self.gap.value) / self.line_inside() * deep.si();
        self.permeance() - MU_0 * taken * self.model.value.si()
    }

    /// Leakage inductance seen from a coil of `turns` with the other short-circuited.
    #[must_use]
    pub fn leakage(&self, turns: Turns) -> Inductance {
        Inductance::from_si(turns.si() * turns.si() * self.permeance())
    }
}

impl UncertainInputs for CoilPair {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.first.visit(Input::FirstCoilThickness, visitor);
        self.gap.visit(Input::GapBetweenTheCoils, visitor);
        self.second.visit(Input::SecondCoilThickness, visitor);
        self.breadths[0].visit(Input::CoilBreadth, visitor);
        self.breadths[1].visit(Input::CoilBreadth, visitor);
        self.window.visit(Input::Window, visitor);
        self.across.visit(Input::Window, visitor);
        self.clearance.visit(Input::Clearance, visitor);
        self.turn_inside.visit(Input::TurnInside, visitor);
        self.turn_outside.visit(Input::TurnOutside, visitor);
        self.model.visit(Input::LeakageModel, visitor);
    }
}
