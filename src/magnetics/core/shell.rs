//! The laminated E-I shell core: what is measured on it and what follows from that.
//!
//! ```text
//!      +-----------------------------+   -
//!      |            yoke             |   | yoke
//!      |     +------+   +------+     |   -
//!      |     |window|   |window|     |   |
//!      |outer|      | t |      |outer|   | window height
//!      |limb |      | o |      |limb |   |
//!      |     |      | n |      |     |   |
//!      |     +------+gue+------+     |   -
//!      |            yoke             |     (the I, across the open end of the E)
//!      +-----------------------------+     stack: into the page
//! ```

use crate::quantity::{
    Area, Density, Flux, FluxDensity, Input, Length, Mass, Measured, Origin, Ratio, UncertainInputs, Visitor, Volume,
};

/// Density of lamination steel with 2 to 3 % silicon, 7650 kg/m³: the middle of the 7600 to
/// 7700 kg/m³ that makers' data give (assumed density in EN 10106 data sheets, from memory).
pub const LAMINATION_DENSITY: Density = Density::from_si(7650.0);

/// Specific heat of lamination steel, 460 J/(kg·K). By the rule of Neumann and Kopp from the
/// elements at 25 °C, iron 449 and silicon 712 J/(kg·K) (any table of the elements), 2 to 3 % silicon
/// gives 454 to 457; it grows by some 0.4 J/(kg·K) for each kelvin.
pub const STEEL_SPECIFIC_HEAT: f64 = 460.0;

/// Stacking factor of varnished, welded laminations, 0.95 ± 0.03.
/// Common practice, no source: 0.92 to 0.97.
#[must_use]
pub fn typical_stacking_factor() -> Measured<Ratio> {
    Measured::new(Ratio::from_si(0.95), Ratio::from_si(0.03), Origin::Typical)
}

/// A shell-type core of E and I laminations, as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EiCore {
    /// Width of the centre limb.
    pub tongue: Measured<Length>,
    /// Depth of the pile of laminations.
    pub stack: Measured<Length>,
    /// Clear width of one window, from tongue to outer limb.
    pub window_width: Measured<Length>,
    /// Clear height of one window, along the limbs.
    pub window_height: Measured<Length>,
    /// Width of an outer limb.
    pub outer_limb: Measured<Length>,
    /// Width of a yoke.
    pub yoke: Measured<Length>,
    /// Steel in the stack: net area over gross area.
    pub stacking_factor: Measured<Ratio>,
    /// Mass of the bare core, where it was weighed.
    pub mass: Option<Measured<Mass>>,
}

impl EiCore {
    /// A core from its four main measures. The outer limb and the yoke, where they were not
    /// measured, are taken as half the tongue (as in every lamination that wastes no steel),
    /// ± 5 %, with origin [`Origin::Computed`].
    #[must_use]
    pub fn new(
        tongue: Measured<Length>,
        stack: Measured<Length>,
        window_width: Measured<Length>,
        window_height: Measured<Length>,
    ) -> Self {
        let half = half_tongue(tongue);
        Self {
            tongue,
            stack,
            window_width,
            window_height,
            outer_limb: half,
            yoke: half,
            stacking_factor: typical_stacking_factor(),
            mass: None,
        }
    }

    /// Net steel area of the tongue: tongue × stack × stacking factor.
    #[must_use]
    pub fn net_area(&self) -> Area {
        self.tongue.value * self.stack.value * self.stacking_factor.value.si()
    }

    /// Net steel area of one outer limb.
    #[must_use]
    pub fn outer_limb_area(&self) -> Area {
        self.outer_limb.value * self.stack.value * self.stacking_factor.value.si()
    }

    /// Net steel area of one yoke.
    #[must_use]
    pub fn yoke_area(&self) -> Area {
        self.yoke.value * self.stack.value * self.stacking_factor.value.si()
    }

    /// Mean length of the magnetic path round one window: half the tongue, the yokes and an
    /// outer limb along their centre lines, square corners,
    /// `2(window height + yoke) + 2(window width + tongue/4 + outer limb/2)`.
    ///
    /// With the wasteless proportions (window ½ × 1½ tongue) this is 6 × tongue, the figure
    /// that lamination tables print (`McLyman`, Transformer and Inductor Design Handbook,
    /// EI tables; checked in `tests/magnetics/textbook.rs`).
    #[must_use]
    pub fn path_length(&self) -> Length {
        2.0 * (self.window_height.value + self.yoke.value)
            + 2.0 * (self.window_width.value + self.tongue.value / 4.0 + self.outer_limb.value / 2.0)
    }

    /// Area of one window.
    #[must_use]
    pub fn window_area(&self) -> Area {
        self.window_width.value * self.window_height.value
    }

    /// Mean length of a turn that lies `away` from the tongue's faces: the tongue's perimeter
    /// with a quarter circle of radius `away` round each corner, `2(tongue + stack) + 2π away`.
    #[must_use]
    pub fn turn_length(&self, away: Length) -> Length {
        2.0 * (self.tongue.value + self.stack.value) + std::f64::consts::TAU * away
    }

    /// Mean turn of a coil that fills the window's width.
    #[must_use]
    pub fn mean_turn(&self) -> Length {
        self.turn_length(self.window_width.value / 2.0)
    }

    /// Overall width of the lamination.
    #[must_use]
    pub fn overall_width(&self) -> Length {
        self.tongue.value + 2.0 * (self.window_width.value + self.outer_limb.value)
    }

    /// Overall height of the lamination, the I included.
    #[must_use]
    pub fn overall_height(&self) -> Length {
        self.window_height.value + 2.0 * self.yoke.value
    }

    /// Volume of steel: the lamination less its two windows, times stack and stacking factor.
    #[must_use]
    pub fn steel_volume(&self) -> Volume {
        let face = self.overall_width() * self.overall_height() - 2.0 * self.window_area();
        face * self.stacking_factor.value.si() * self.stack.value
    }

    /// Mass of steel that the measures imply, at [`LAMINATION_DENSITY`].
    #[must_use]
    pub fn computed_mass(&self) -> Mass {
        LAMINATION_DENSITY * self.steel_volume()
    }

    /// The mass on the scale where there is one, else [`EiCore::computed_mass`].
    #[must_use]
    pub fn steel_mass(&self) -> Mass {
        self.mass.map_or_else(|| self.computed_mass(), |mass| mass.value)
    }

    /// Peak flux in the tongue at a peak flux density.
    #[must_use]
    pub fn flux(&self, density: FluxDensity) -> Flux {
        density * self.net_area()
    }
}

impl UncertainInputs for EiCore {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.tongue.visit(Input::Tongue, visitor);
        self.stack.visit(Input::Stack, visitor);
        self.window_width.visit(Input::WindowWidth, visitor);
        self.window_height.visit(Input::WindowHeight, visitor);
        // A limb taken as half the tongue moves by itself here; its share is small.
        self.outer_limb.visit(Input::OuterLimb, visitor);
        self.yoke.visit(Input::Yoke, visitor);
        self.stacking_factor.visit(Input::StackingFactor, visitor);
        if let Some(mass) = &mut self.mass {
            mass.visit(Input::CoreMass, visitor);
        }
    }
}

/// Outer limb or yoke that nobody measured: half the tongue, ± 5 %.
#[must_use]
pub fn half_tongue(tongue: Measured<Length>) -> Measured<Length> {
    let half = tongue.value / 2.0;
    Measured::new(half, half * 0.05 + tongue.plus_minus / 2.0, Origin::Computed)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn exact(mm: f64) -> Measured<Length> {
        Measured::exact(Length::from_mm(mm), Origin::Calipers)
    }

    /// Neumann and Kopp: a compound holds the heat of its elements. At 25 °C iron 449 and silicon 712
    /// J/(kg·K) (any table of the elements), with 2 to 3 % silicon; the mean up to 120 °C is up to 4 % more.
    #[test]
    fn specific_heat_of_silicon_steel() {
        for silicon in [0.0, 0.02, 0.03] {
            let at_25 = 449.0 * (1.0 - silicon) + 712.0 * silicon;
            assert!((STEEL_SPECIFIC_HEAT / at_25 - 1.0).abs() < 0.03, "{silicon}: {at_25}");
        }
    }

    /// The wasteless lamination: window ½ × 1½ tongue, limbs half the tongue, path 6 × tongue.
    #[test]
    fn wasteless_lamination() {
        let core = EiCore::new(exact(30.0), exact(50.0), exact(15.0), exact(45.0));
        assert!((core.path_length().mm() - 180.0).abs() < 1e-9);
        assert!((core.overall_width().mm() - 90.0).abs() < 1e-9);
        assert!((core.overall_height().mm() - 75.0).abs() < 1e-9);
        // Six squares of a tongue's side make one E and one I with nothing left over.
        let face = core.steel_volume() / (core.stack.value * 0.95);
        assert!((face.mm2() - 6.0 * 900.0).abs() < 1e-6, "{}", face.mm2());
        assert_eq!(core.yoke.origin, Origin::Computed);
    }
}
