//! Magnetic shunts: blocks of laminations across the windows, between the coils.

use std::f64::consts::PI;

use super::leakage::MU_0;
use crate::quantity::{Area, FieldStrength, Flux, FluxDensity, Length, Measured, Ratio, UncertainInputs};

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
    /// SoftMagnetic raw data).
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

    /// Ampere-turns across one window at a flux through both shunts.
    fn ampere_turns(&self, flux: f64) -> f64 {
        let one = flux / 2.0;
        let steel = self
            .steel
            .field(FluxDensity::from_si(one / self.steel_area().si()))
            .si();
        steel * self.width.value.si() + one / (MU_0 * self.gap_area().si()) * 2.0 * self.air_gap.value.si()
    }

    /// Flux through both shunts at ampere-turns (peak) across a window.
    #[must_use]
    pub fn flux(&self, ampere_turns: f64) -> Flux {
        let target = ampere_turns.abs();
        // More than this the two windows would not carry if the steel were perfect, and less
        // than this of steel plus air.
        let most = 2.0 * self.steel_area().si() * (self.steel.saturation.si() + MU_0 * target / self.width.value.si());
        let (mut low, mut high) = (0.0, most.max(f64::MIN_POSITIVE));
        let mut flux = high / 2.0;
        for _ in 0..60 {
            let miss = self.ampere_turns(flux) - target;
            if miss > 0.0 {
                high = flux;
            } else {
                low = flux;
            }
            let h = 1e-6 * high;
            let slope = (self.ampere_turns(flux + h) - miss - target) / h;
            let newton = flux - miss / slope;
            let next = if newton > low && newton < high {
                newton
            } else {
                (low + high) / 2.0
            };
            let done = (next - flux).abs() <= 1e-10 * most;
            flux = next;
            if done {
                break;
            }
        }
        Flux::from_si(flux.copysign(ampere_turns))
    }

    /// Peak flux density in the shunts' steel at ampere-turns (peak) across a window.
    #[must_use]
    pub fn density(&self, ampere_turns: f64) -> FluxDensity {
        FluxDensity::from_si(self.flux(ampere_turns).si() / 2.0 / self.steel_area().si())
    }
}

impl UncertainInputs for Shunts {
    fn visit(&mut self, visitor: &mut dyn FnMut(&'static str, &mut f64, f64)) {
        self.thickness.visit("shunt thickness", visitor);
        self.stack.visit("shunt stack", visitor);
        self.width.visit("shunt width", visitor);
        self.air_gap.visit("shunt air gap", visitor);
        self.stacking_factor.visit("shunt stacking factor", visitor);
    }
}
