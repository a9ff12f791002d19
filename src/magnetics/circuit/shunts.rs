//! Magnetic shunts: blocks of laminations across the windows, between the coils.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::magnetics::circuit::leakage::MU_0;
use crate::quantity::{
    Area, FieldStrength, Flux, FluxDensity, Input, Length, Measured, Ratio, UncertainInputs, Visitor,
};

/// A saturating law of steel: `B = µ0 H + J H/(a + H)` (Fröhlich, 1881, with the air's share).
///
/// Without hysteresis. Good to some 5 % from 0.2 to 20 kA/m with constants of the steel at hand;
/// it makes the steel too good below that.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaturatingSteel {
    /// Polarisation that the steel tends to.
    pub saturation: FluxDensity,
    /// Field at which half of that is reached.
    pub half_field: FieldStrength,
}

impl SaturatingSteel {
    /// 1.75 T and 91 A/m: laid through 1.282 T at 250 A/m and 1.721 T at 5 kA/m of grade
    /// M800-50A, a poor steel and likely nearest to a donor's (Modelica Standard Library,
    /// `SoftMagnetic` raw data).
    #[must_use]
    pub const fn poor_lamination() -> Self {
        Self {
            saturation: FluxDensity::from_si(1.75),
            half_field: FieldStrength::from_si(91.0),
        }
    }

    /// Field strength at a flux density: the law solved for H.
    #[must_use]
    pub fn field(&self, density: FluxDensity) -> FieldStrength {
        let (b, a) = (density.si().abs(), self.half_field.si());
        let half = (MU_0 * a + self.saturation.si() - b) / 2.0;
        let root = (half * half + MU_0 * a * b).sqrt();
        // The root written so that nothing cancels, whichever sign `half` has.
        let h = if half > 0.0 {
            a * b / (half + root)
        } else {
            (root - half) / MU_0
        };
        FieldStrength::from_si(h.copysign(density.si()))
    }
}

/// Two equal shunts, one in each window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shunts {
    /// Thickness along the limbs.
    pub thickness: Measured<Length>,
    /// Depth along the core's stack.
    pub stack: Measured<Length>,
    /// Width across the window, air gaps not counted.
    pub width: Measured<Length>,
    /// Air gap on each side, paper and varnish counted.
    pub air_gap: Measured<Length>,
    /// Steel in the shunt: net section over gross.
    pub stacking_factor: Measured<Ratio>,
    /// Its steel.
    pub steel: SaturatingSteel,
}

impl Shunts {
    /// Net steel section of one shunt, across the flux.
    #[must_use]
    pub fn steel_area(&self) -> Area {
        self.thickness.value * self.stack.value * self.stacking_factor.value.si()
    }

    /// What fringing at its two flanks adds to a measure of the shunt's face.
    ///
    /// Flux leaves the flanks in quarter circles of permeance `µ0 (2/π) ln(1 + πx/2g)` for each
    /// metre and flank (Roters, Electromagnetic Devices, 1941; from memory), up to a sixth of
    /// the window's width: that share is ours, the one with which five shunts agree with finite
    /// elements within 5 % (`tests/reference/leakage.rs`).
    #[must_use]
    pub fn fringe(&self) -> Length {
        let g = self.air_gap.value;
        if g <= Length::ZERO {
            return Length::ZERO;
        }
        let window = self.width.value + 2.0 * g;
        g * (4.0 / PI * (PI * (window / g) / 12.0).ln_1p())
    }

    /// Section of one air gap, fringing counted.
    #[must_use]
    pub fn gap_area(&self) -> Area {
        (self.thickness.value + self.fringe()) * (self.stack.value + self.fringe())
    }

    /// How much flux they take, ready for many ampere-turns.
    pub(super) fn law(&self) -> ShuntLaw {
        let area = self.steel_area().si();
        let gap = 2.0 * self.air_gap.value.si() * area / (MU_0 * self.gap_area().si());
        ShuntLaw {
            area,
            gap,
            width: self.width.value.si(),
            steel: self.steel,
        }
    }

    /// Flux through both shunts at ampere-turns (peak) across a window.
    #[must_use]
    pub fn flux(&self, ampere_turns: f64) -> Flux {
        Flux::from_si(self.law().flux(ampere_turns))
    }

    /// Peak flux density in the shunts' steel at ampere-turns (peak) across a window.
    #[must_use]
    pub fn density(&self, ampere_turns: f64) -> FluxDensity {
        FluxDensity::from_si(self.law().density(ampere_turns))
    }
}

/// Points on a quarter wave for the fundamental of a response (midpoint rule).
const QUARTER: usize = 16;

/// The law of two equal shunts, each across one window.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ShuntLaw {
    /// Net steel section of one, m².
    area: f64,
    /// Ampere-turns of the gaps for a flux density in the steel, A/T.
    gap: f64,
    /// Length of the steel, m.
    width: f64,
    steel: SaturatingSteel,
}

impl ShuntLaw {
    /// Flux in Wb through both at ampere-turns across a window: `U = w H + k B` with the steel's
    /// `B = µ0 H + J H/(a + H)` is a quadratic in H, `c H² + (c a + k J − U) H − a U = 0`,
    /// `c = w + µ0 k`, of which one root is above zero.
    pub(super) fn flux(&self, ampere_turns: f64) -> f64 {
        let u = ampere_turns.abs();
        let (a, j) = (self.steel.half_field.si(), self.steel.saturation.si());
        let c = self.width + MU_0 * self.gap;
        let b = c * a + self.gap * j - u;
        let root = (b * b + 4.0 * c * a * u).sqrt();
        // Written so that nothing cancels, whichever sign `b` has.
        let field = if b > 0.0 {
            2.0 * a * u / (b + root)
        } else {
            (root - b) / (2.0 * c)
        };
        let density = MU_0 * field + j * field / (a + field);
        (2.0 * self.area * density).copysign(ampere_turns)
    }

    /// Fundamental of the flux of sinusoidal ampere-turns (peak) over them, Wb/A (describing function;
    /// Gelb and Vander Velde, 1968; midpoint rule on a quarter wave).
    pub(super) fn permeance(&self, ampere_turns: f64) -> f64 {
        let u = ampere_turns.max(1e-3);
        let step = FRAC_PI_2 / QUARTER as f64;
        let at = |k: usize| {
            let sin = ((k as f64 + 0.5) * step).sin();
            self.flux(u * sin) * sin
        };
        4.0 / PI * step * (0..QUARTER).map(at).sum::<f64>() / u
    }

    /// Flux density in their steel, T.
    pub(super) fn density(&self, ampere_turns: f64) -> f64 {
        self.flux(ampere_turns) / (2.0 * self.area)
    }
}

impl UncertainInputs for Shunts {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.thickness.visit(Input::ShuntThickness, visitor);
        self.stack.visit(Input::ShuntStack, visitor);
        self.width.visit(Input::ShuntWidth, visitor);
        self.air_gap.visit(Input::ShuntAirGap, visitor);
        self.stacking_factor.visit(Input::ShuntStackingFactor, visitor);
    }
}
