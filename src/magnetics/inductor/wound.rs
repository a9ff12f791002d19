//! An inductor that was wound and gapped: what it does. (What to wind: `design.rs`.)

use crate::magnetics::core::EiCore;
use crate::magnetics::core::gap::{Gaps, fringing_factor, window_leakage_permeance};
use crate::magnetics::core::path::CorePath;
use crate::magnetics::core::steel::Steel;
use crate::quantity::{
    Area, Current, Flux, FluxDensity, Frequency, Inductance, Input, Length, Measured, Power, Propagated, Ratio,
    Resistance, Temperature, Turns, UncertainInputs, Visitor, estimates, propagate,
};
use crate::wire::Metal;

/// The wire of a coil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conductor {
    /// Its metal.
    pub metal: Metal,
    /// Section of the metal.
    pub section: Area,
    /// Diameter over the insulation.
    pub insulated_diameter: Length,
}

/// The current that an inductor carries: a steady part and a swing about it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Direct current; zero for a ballast.
    pub direct: Current,
    /// Half the swing, from the middle to the crest, taken as a sine.
    pub swing: Current,
    /// Frequency of the swing; twice the mains' behind a bridge.
    pub frequency: Frequency,
}

impl Load {
    /// A sinusoidal alternating current without a direct part.
    #[must_use]
    pub fn alternating(rms: Current, frequency: Frequency) -> Self {
        Self {
            direct: Current::ZERO,
            swing: std::f64::consts::SQRT_2 * rms,
            frequency,
        }
    }

    /// The highest instant.
    #[must_use]
    pub fn crest(&self) -> Current {
        self.direct.abs() + self.swing.abs()
    }

    /// R.m.s. of both parts, `√(I² + Δ²/2)`.
    #[must_use]
    pub fn rms(&self) -> Current {
        Current::from_si(self.direct.si().hypot(self.swing.si() / std::f64::consts::SQRT_2))
    }
}

/// A coil on a gapped core.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inductor {
    /// The core.
    pub core: EiCore,
    /// Its steel.
    pub steel: Steel,
    /// Its gaps.
    pub gaps: Gaps,
    /// Turns of the coil, which fills the windows.
    pub turns: Measured<Turns>,
    /// Its wire.
    pub conductor: Conductor,
    /// What it carries.
    pub load: Load,
    /// Temperature of the winding.
    pub temperature: Measured<Temperature>,
}

estimates! {
    /// What an inductor does at its load.
    pub struct InductorWork / InductorWorkEstimate / InductorWorkNumber {
        /// Inductance over the load's swing.
        inductance: Inductance [Inductance, MH, "behaves-inductance"],
        /// Peak flux density in the tongue, at the current's crest.
        peak_density: FluxDensity [PeakDensity, T, "behaves-peak-density"],
        /// Fringing factor of the tongue's gap.
        fringing: Ratio [Fringing, PLAIN, "behaves-fringing"],
        /// Resistance of the winding at its temperature.
        resistance: Resistance [Resistance, MILLIOHM, "behaves-coil-resistance"],
        /// Loss in the winding, I²R.
        copper_loss: Power [CopperLoss, W, "behaves-copper-loss"],
        /// Loss in the core from the swing.
        core_loss: Power [CoreLoss, W, "behaves-core-loss"],
        /// Metal in the windows over the windows' area.
        copper_fill: Ratio,
        /// Square cells of the insulated wire over the window's area.
        window_share: Ratio [WindowShare, PERCENT, "behaves-window-share"],
    }
}

impl Inductor {
    /// What it does at its load. `None` unless turns, section and the core's measures are above
    /// zero and all is finite.
    ///
    /// Core loss is that of a sinusoidal flux of half the flux's swing (minor loops on a bias
    /// lose more: some 10 to 50 %, common practice, no source). Copper loss is I²R without skin
    /// effect.
    #[must_use]
    pub fn work(&self) -> Option<InductorWork> {
        self.work_on(&CorePath::new(&self.core, &self.steel, &self.gaps))
    }

    fn work_on(&self, path: &CorePath) -> Option<InductorWork> {
        let (low, high) = self.flux_swing(path);
        let turns = self.turns.value.si();
        let resistance = winding_resistance(&self.core, &self.conductor, self.turns.value, self.temperature.value);
        let gap = self.gaps.at_tongue();
        let face = self.core.tongue.value * self.core.stack.value;
        let diameter = self.conductor.insulated_diameter;
        let work = InductorWork {
            inductance: self.inductance_of(path, self.load),
            peak_density: path.tongue_density(high),
            fringing: fringing_factor(gap, face, self.core.window_height.value),
            resistance,
            copper_loss: self.load.rms().heating(resistance),
            core_loss: path.core_loss((high - low) / 2.0, self.load.frequency),
            copper_fill: Ratio::from_si(turns * (self.conductor.section / self.core.window_area())),
            window_share: Ratio::from_si(turns * ((diameter * diameter) / self.core.window_area())),
        };
        work.to_si()
            .iter()
            .all(|value| value.is_finite() && *value >= 0.0)
            .then_some(work)
    }

    fn flux_swing(&self, path: &CorePath) -> (Flux, Flux) {
        let at = |current: Current| path.flux(current * self.turns.value.si());
        (
            at(self.load.crest() - 2.0 * self.load.swing.abs()),
            at(self.load.crest()),
        )
    }

    /// Turns that would bring the tongue to a flux density at the current's crest, with these
    /// gaps.
    #[must_use]
    pub fn turns_at(&self, density: FluxDensity) -> Turns {
        self.turns_at_on(&CorePath::new(&self.core, &self.steel, &self.gaps), density)
    }

    /// Inductance over a load's swing, `Δλ/Δi` from trough to crest; without a swing the
    /// differential inductance at the direct current. The linkage is the core's flux and the
    /// windows' leakage ([`window_leakage_permeance`]). Steel on a bias follows minor loops that
    /// are flatter than its curve: where the gap isn't most of the reluctance, this is too high.
    #[must_use]
    pub fn inductance_at(&self, load: Load) -> Inductance {
        self.inductance_of(&CorePath::new(&self.core, &self.steel, &self.gaps), load)
    }

    /// [`Inductor::turns_at`], the steel's curves taken from another path.
    pub(super) fn turns_at_on(&self, steel: &CorePath, density: FluxDensity) -> Turns {
        let path = steel.of_same_steel(&self.core, &self.gaps);
        Turns::from_si(path.ampere_turns(self.core.flux(density)) / self.load.crest())
    }

    /// Inductance over its own load's swing, the steel's curves taken from another path.
    pub(super) fn inductance_on(&self, steel: &CorePath) -> Inductance {
        self.inductance_of(&steel.of_same_steel(&self.core, &self.gaps), self.load)
    }

    fn inductance_of(&self, path: &CorePath, load: Load) -> Inductance {
        let turns = self.turns.value.si();
        let (low, high) = (load.crest() - 2.0 * load.swing.abs(), load.crest());
        let permeance = if high > low {
            let flux = |current: Current| path.flux(current * turns).si();
            (flux(high) - flux(low)) / ((high - low).si() * turns)
        } else {
            1.0 / path.at(path.flux(high * turns).si()).1
        };
        Inductance::from_si(turns * turns * (permeance + window_leakage_permeance(&self.core)))
    }

    /// Differential inductance at evenly spaced direct currents from zero to `most`: the curve
    /// that shows where the steel gives up.
    #[must_use]
    pub fn inductance_curve(&self, most: Current, points: usize) -> Vec<(Current, Inductance)> {
        let path = CorePath::new(&self.core, &self.steel, &self.gaps);
        let last = points.saturating_sub(1).max(1) as f64;
        (0..points)
            .map(|k| {
                let direct = most * (k as f64 / last);
                let load = Load {
                    direct,
                    swing: Current::ZERO,
                    frequency: self.load.frequency,
                };
                (direct, self.inductance_of(&path, load))
            })
            .collect()
    }

    /// [`Inductor::work`] with its uncertainty. `None` as there.
    #[must_use]
    pub fn work_with_uncertainty(&self) -> Option<(InductorWorkEstimate, Propagated<{ InductorWork::COUNT }>)> {
        // Most inputs leave the steel as it is: its curves are made once for them.
        let path = CorePath::new(&self.core, &self.steel, &self.gaps);
        let spread = propagate(self, |inductor| {
            let path = if inductor.steel == self.steel {
                path.of_same_steel(&inductor.core, &inductor.gaps)
            } else {
                CorePath::new(&inductor.core, &inductor.steel, &inductor.gaps)
            };
            inductor.work_on(&path).map(|work| work.to_si())
        })?;
        Some((InductorWorkEstimate::from_propagated(&spread), spread))
    }
}

impl UncertainInputs for Inductor {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.core.visit(visitor);
        self.steel.visit(visitor);
        self.gaps.visit(visitor);
        self.turns.visit(Input::Turns, visitor);
        self.temperature.visit(Input::WindingTemperature, visitor);
    }
}

/// Resistance of a coil that fills the windows, `ρ(T) N · mean turn / section`.
fn winding_resistance(core: &EiCore, conductor: &Conductor, turns: Turns, at: Temperature) -> Resistance {
    let length = core.mean_turn() * turns.si();
    (conductor.metal.resistivity(at) / conductor.section) * length
}

/// Thickness as a count of sheets.
#[must_use]
pub fn sheets(thickness: Length, sheet: Length) -> f64 {
    thickness / sheet
}
