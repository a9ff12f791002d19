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

pub use crate::magnetics::core::steel::MU_0;
use crate::quantity::{Inductance, Input, Length, Measured, Ratio, Turns, UncertainInputs, Visitor};

/// How the coils lie to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Arrangement {
    /// One around the other.
    Concentric,
    /// One after the other along the limb.
    SideBySide,
}

/// Two coils in a window.
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
    /// Extent of the coils along the leakage field.
    pub breadth: Measured<Length>,
    /// Extent of the window along the leakage field, from steel to steel.
    pub window: Measured<Length>,
    /// From the tongue's face to the coils: tube and paper.
    pub clearance: Measured<Length>,
    /// How much of the mean turn lies inside the windows: twice the stack.
    pub turn_inside: Measured<Length>,
    /// How much of it lies in front of and behind the stack.
    pub turn_outside: Measured<Length>,
    /// True leakage over this model's: 1 ± 0.1, see [`CoilPair::leakage`].
    pub model: Measured<Ratio>,
}

/// Thickness of a leakage field between two coils, and a third of each coil, where the field rises
/// and falls as a ramp: `gap + (first + second)/3`.
fn ramp_thickness(first: Length, gap: Length, second: Length) -> Length {
    gap + (first + second) / 3.0
}

/// Leakage inductance of two coils whose leakage lines run straight from steel to steel over
/// `line`: `µ0 N² (mean turn / line)(gap + (first + second)/3)` (the Rogowski form with a factor
/// of 1; any text on transformer design). It takes the part of the turn outside the stack as if
/// it lay inside: up to 30 % off, and quick enough for a search; [`CoilPair::leakage`] is the
/// closer one.
#[must_use]
pub fn straight_leakage(turns: Turns, mean_turn: Length, line: Length, coils: [Length; 3]) -> Inductance {
    let [first, gap, second] = coils;
    let permeance = MU_0 * (mean_turn / line) * ramp_thickness(first, gap, second).si();
    Inductance::from_si(turns.si() * turns.si() * permeance)
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
        ramp_thickness(self.first.value, self.gap.value, self.second.value)
    }

    /// Length of a leakage line inside the window: the coils' breadth over Rogowski's factor,
    /// but no longer than the steel allows.
    #[must_use]
    pub fn line_inside(&self) -> Length {
        self.line(self.breadth.value)
            .min(self.window.value.max(self.breadth.value))
    }

    fn line(&self, breadth: Length) -> Length {
        let build = self.first.value + self.gap.value + self.second.value;
        breadth / rogowski_factor(build, breadth).si()
    }

    /// Permeance for each metre of turn inside the windows over µ0: field thickness over line.
    #[must_use]
    pub fn inside(&self) -> f64 {
        self.field_thickness() / self.line_inside()
    }

    /// Permeance for each metre of turn outside the stack over µ0. There only the tongue's
    /// face is steel, a mirror: with the geometric mean distances g between the coils' sections
    /// and g' to their images, `(1/2π) (2 ln g12 − ln g11 − ln g22 + 2 ln g12' − ln g11' − ln g22')`
    /// (Maxwell's method; exact for a plane face).
    #[must_use]
    pub fn outside(&self) -> f64 {
        let (b1, gap, b2) = (self.first.value.si(), self.gap.value.si(), self.second.value.si());
        let (breadth, away) = (self.breadth.value.si(), self.clearance.value.si());
        let (first, second) = match self.arrangement {
            Arrangement::Concentric => (
                Section::new(away, b1, 0.0, breadth),
                Section::new(away + b1 + gap, b2, 0.0, breadth),
            ),
            Arrangement::SideBySide => (
                Section::new(away, breadth, 0.0, b1),
                Section::new(away, breadth, b1 + gap, b2),
            ),
        };
        let sum = |p: &Section, q: &Section| p.mean_log_distance(q) + p.mean_log_distance(&q.mirrored());
        (2.0 * sum(&first, &second) - sum(&first, &first) - sum(&second, &second)) / (2.0 * PI)
    }

    /// Leakage inductance seen from a coil of `turns` with the other short-circuited:
    /// `µ0 N² Σ (permeance × turn length)` over the parts inside and outside the windows.
    ///
    /// Inside it is Rogowski's form `(gap + (b1 + b2)/3)/line`, exact for coils that fill the
    /// window from steel to steel and within 5 % of 2D finite elements for coils that stand
    /// short of it; the part outside agrees within 1 % (`tests/reference/leakage.rs`). At the
    /// corners of the turns the field is not plane, which is why `model` is taken as 1 ± 0.1.
    #[must_use]
    pub fn leakage(&self, turns: Turns) -> Inductance {
        let permeance = self.inside() * self.turn_inside.value.si() + self.outside() * self.turn_outside.value.si();
        Inductance::from_si(MU_0 * turns.si() * turns.si() * permeance * self.model.value.si())
    }
}

/// A coil's section: a rectangle.
#[derive(Debug, Clone, Copy)]
struct Section {
    x: [f64; 2],
    y: [f64; 2],
}

impl Section {
    fn new(x: f64, width: f64, y: f64, height: f64) -> Self {
        Self {
            x: [x, x + width],
            y: [y, y + height],
        }
    }
    /// Its image behind steel at x = 0.
    fn mirrored(&self) -> Self {
        Self {
            x: [-self.x[1], -self.x[0]],
            y: self.y,
        }
    }
    /// Mean of ln r between points of two rectangles, in closed form: second differences of the
    /// fourfold antiderivative of ln r (its value for a rectangle with itself is the geometric
    /// mean distance of Grover, Inductance Calculations, chapter 3).
    fn mean_log_distance(&self, other: &Self) -> f64 {
        let antiderivative = |u: f64, v: f64| -> f64 {
            let (u2, v2) = (u * u, v * v);
            if u2 + v2 <= 0.0 {
                return 0.0;
            }
            let arc = |a: f64, b: f64| if b == 0.0 { 0.0 } else { (a / b).atan() };
            0.5 * ((u2 * v2 / 4.0 - u2 * u2 / 24.0 - v2 * v2 / 24.0) * (u2 + v2).ln()
                + u2 * u * v / 3.0 * arc(v, u)
                + u * v2 * v / 3.0 * arc(u, v)
                - 25.0 / 24.0 * u2 * v2)
        };
        let differences = |p: [f64; 2], q: [f64; 2]| {
            [
                (p[1] - q[0], 1.0),
                (p[0] - q[0], -1.0),
                (p[1] - q[1], -1.0),
                (p[0] - q[1], 1.0),
            ]
        };
        let mut sum = 0.0;
        for (u, su) in differences(self.x, other.x) {
            for (v, sv) in differences(self.y, other.y) {
                sum += su * sv * antiderivative(u, v);
            }
        }
        let area = |s: &Self| (s.x[1] - s.x[0]) * (s.y[1] - s.y[0]);
        sum / (area(self) * area(other))
    }
}

impl UncertainInputs for CoilPair {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.first.visit(Input::FirstCoilThickness, visitor);
        self.gap.visit(Input::GapBetweenTheCoils, visitor);
        self.second.visit(Input::SecondCoilThickness, visitor);
        self.breadth.visit(Input::CoilBreadth, visitor);
        self.window.visit(Input::Window, visitor);
        self.clearance.visit(Input::Clearance, visitor);
        self.turn_inside.visit(Input::TurnInside, visitor);
        self.turn_outside.visit(Input::TurnOutside, visitor);
        self.model.visit(Input::LeakageModel, visitor);
    }
}
