//! Current and power that a core draws at its primary with nothing on the secondary.

use std::f64::consts::{FRAC_PI_2, SQRT_2};

use crate::magnetics::core::EiCore;
use crate::magnetics::core::gap::{Gaps, window_leakage_permeance};
use crate::magnetics::core::path::{CorePath, peak_flux};
use crate::magnetics::core::steel::Steel;
use crate::quantity::{
    ApparentPower, Current, Flux, FluxDensity, Frequency, Input, Measured, Origin, Power, Propagated, Ratio,
    Resistance, Turns, UncertainInputs, Visitor, Voltage, estimates, propagate,
};

/// Samples in a quarter of the cycle; the r.m.s. is the same to 1e-4 with twice as many.
const QUARTER: usize = 64;

/// What the no-load current follows from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Idle {
    /// The core.
    pub core: EiCore,
    /// Its steel.
    pub steel: Steel,
    /// Its gaps.
    pub gaps: Gaps,
    /// Turns of the winding that is fed.
    pub turns: Measured<Turns>,
    /// Sinusoidal voltage at it, r.m.s.
    pub voltage: Measured<Voltage>,
    /// Its frequency.
    pub frequency: Frequency,
    /// Resistance of the winding.
    pub resistance: Measured<Resistance>,
    /// Leakage flux across the windows over that of a coil that fills them ([`window_leakage_permeance`]).
    pub window_leakage: Measured<Ratio>,
}

/// Window leakage of a primary: 1 ± 0.4. Plane finite elements of a saturating core
/// (`tests/reference/idle/window.py`) give 0.67 to 1.45 of [`window_leakage_permeance`], for a coil over all of
/// the window's height or 0.4 of it, at 1.52 to 1.68 T.
#[must_use]
pub fn typical_window_leakage() -> Measured<Ratio> {
    Measured::new(Ratio::from_si(1.0), Ratio::from_si(0.4), Origin::Typical)
}

estimates! {
    /// No-load current and power of a winding on a core.
    pub struct IdleDraw / IdleDrawEstimate / IdleDrawNumber {
        /// Peak flux density in the tongue.
        peak_density: FluxDensity [PeakDensity, T, "behaves-peak-density"],
        /// Current, r.m.s.
        current: Current [Current, A, "behaves-idle-current"],
        /// The magnetising part of it, r.m.s.
        magnetising: Current,
        /// The part that the core loss draws, in phase with the voltage, r.m.s.
        loss_current: Current,
        /// Peak of the current.
        peak: Current [Peak, A, "behaves-idle-peak"],
        /// Loss in the core.
        core_loss: Power [CoreLoss, W, "behaves-core-loss"],
        /// Loss in the winding, I²R.
        copper_loss: Power,
        /// What a wattmeter reads: both losses.
        power: Power [Power, W, "behaves-idle-power"],
        /// Power over volt-amperes.
        power_factor: Ratio [PowerFactor, PLAIN, "behaves-power-factor"],
    }
}

impl Idle {
    /// The draw at sinusoidal flux.
    ///
    /// The linked flux follows the voltage by the EMF equation (the drop in the winding is left out; it
    /// stands across the flux's voltage for the most part). A part of it crosses the windows: the
    /// steeper the steel saturates, the larger. The magnetising current is
    /// `(Σ H l + R_gap Φ) / N` at each instant, with H from the curve without hysteresis; the
    /// loss enters as a sinusoidal current `P/V` in phase with the voltage (Chapman, Electric
    /// Machinery Fundamentals, the transformer's excitation current, split in the same way).
    ///
    /// Returns `None` unless voltage, frequency, turns and the core's areas are above zero and
    /// everything is finite.
    #[must_use]
    pub fn draw(&self) -> Option<IdleDraw> {
        self.draw_on(&self.path())
    }

    /// The core's path, the same at every voltage.
    pub(super) fn path(&self) -> CorePath {
        CorePath::new(&self.core, &self.steel, &self.gaps)
    }

    /// [`Idle::draw`] on the core's path.
    pub(super) fn draw_on(&self, path: &CorePath) -> Option<IdleDraw> {
        let parts = self.parts(path);
        let power = parts.core_loss + parts.copper_loss;
        let apparent: ApparentPower = self.voltage.value * parts.current;
        let draw = IdleDraw {
            peak_density: path.tongue_density(peak_flux(self.voltage.value, self.frequency, self.turns.value)),
            current: parts.current,
            magnetising: parts.magnetising,
            loss_current: parts.loss_current,
            peak: Current::from_si(wave(&parts.quarter, parts.loss_current).fold(0.0, f64::max)),
            core_loss: parts.core_loss,
            copper_loss: parts.copper_loss,
            power,
            power_factor: Ratio::from_si(power.si() / apparent.si()),
        };
        draw.to_si()
            .iter()
            .all(|value| value.is_finite() && *value >= 0.0)
            .then_some(draw)
    }

    /// What meters show of [`Idle::draw`] on the core's path: current and power.
    pub(super) fn readings_on(&self, path: &CorePath) -> Option<(Current, Power)> {
        let Parts {
            current,
            core_loss,
            copper_loss,
            ..
        } = self.parts(path);
        let power = core_loss + copper_loss;
        (current.si().is_finite() && power.si().is_finite()).then_some((current, power))
    }

    fn parts(&self, path: &CorePath) -> Parts {
        let core_loss = path.core_loss(self.tongue_flux(path), self.frequency);
        let loss_current = Current::from_si(core_loss.si() / self.voltage.value.si());
        let quarter = self.quarter(path);
        // Trapezoids over a quarter of a periodic function: the ends count half.
        let squares: f64 = quarter.iter().map(|i| i * i).sum();
        let ends = quarter.last().map_or(0.0, |crest| crest * crest / 2.0);
        let magnetising = Current::from_si(((squares - ends) / QUARTER as f64).sqrt());
        let current = Current::from_si(magnetising.si().hypot(loss_current.si()));
        Parts {
            core_loss,
            loss_current,
            quarter,
            magnetising,
            current,
            copper_loss: current.heating(self.resistance.value),
        }
    }

    /// Peak flux of the tongue.
    fn tongue_flux(&self, path: &CorePath) -> Flux {
        let linked = peak_flux(self.voltage.value, self.frequency, self.turns.value);
        Flux::from_si(path.tongue_flux(linked.si(), self.leakage()))
    }

    /// Webers across the windows for each ampere-turn.
    fn leakage(&self) -> f64 {
        self.window_leakage.value.si() * window_leakage_permeance(&self.core)
    }

    /// Magnetising current at 0, 1, 2 ... [`QUARTER`] of the flux's rise to its peak.
    fn quarter(&self, path: &CorePath) -> Vec<f64> {
        let flux = peak_flux(self.voltage.value, self.frequency, self.turns.value).si();
        let leakage = self.leakage();
        (0..=QUARTER)
            .map(|k| {
                let linked = flux * (FRAC_PI_2 * k as f64 / QUARTER as f64).sin();
                path.at(path.tongue_flux(linked, leakage)).0 / self.turns.value.si()
            })
            .collect()
    }

    /// The current through one cycle in 256 equal steps, from the instant of zero rising flux
    /// (which is the crest of the voltage).
    #[must_use]
    pub fn waveform(&self) -> Vec<Current> {
        let path = CorePath::new(&self.core, &self.steel, &self.gaps);
        let loss = path.core_loss(self.tongue_flux(&path), self.frequency);
        let loss = Current::from_si(loss.si() / self.voltage.value.si());
        wave(&self.quarter(&path), loss).map(Current::from_si).collect()
    }

    /// The draw with its uncertainty, and what widens it (for
    /// [`widest_inputs`](crate::quantity::widest_inputs)). `None` as in [`Idle::draw`].
    #[must_use]
    pub fn draw_with_uncertainty(&self) -> Option<(IdleDrawEstimate, Propagated<{ IdleDraw::COUNT }>)> {
        // Most inputs leave the steel as it is: its curves are made once for them.
        let path = CorePath::new(&self.core, &self.steel, &self.gaps);
        let spread = propagate(self, |idle| {
            let path = if idle.steel == self.steel {
                path.of_same_steel(&idle.core, &idle.gaps)
            } else {
                CorePath::new(&idle.core, &idle.steel, &idle.gaps)
            };
            idle.draw_on(&path).map(|draw| draw.to_si())
        })?;
        Some((IdleDrawEstimate::from_propagated(&spread), spread))
    }
}

/// What a draw is put together from.
struct Parts {
    core_loss: Power,
    loss_current: Current,
    /// [`Idle::quarter`].
    quarter: Vec<f64>,
    magnetising: Current,
    current: Current,
    copper_loss: Power,
}

/// The current through one cycle in amperes, from the magnetising current of a quarter and the
/// loss current, r.m.s.
fn wave(quarter: &[f64], loss: Current) -> impl Iterator<Item = f64> {
    let crest = SQRT_2 * loss.si();
    (0..4 * QUARTER).map(move |step| {
        let (half, within) = (step / (2 * QUARTER), step % (2 * QUARTER));
        let folded = if within <= QUARTER {
            within
        } else {
            2 * QUARTER - within
        };
        let size = quarter.get(folded).copied().unwrap_or(0.0);
        let angle = FRAC_PI_2 * step as f64 / QUARTER as f64;
        (if half == 0 { size } else { -size }) + crest * angle.cos()
    })
}

impl UncertainInputs for Idle {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.core.visit(visitor);
        self.steel.visit(visitor);
        self.gaps.visit(visitor);
        self.turns.visit(Input::Turns, visitor);
        self.voltage.visit(Input::MainsVoltage, visitor);
        self.resistance.visit(Input::WindingResistance, visitor);
        self.window_leakage.visit(Input::WindowLeakage, visitor);
    }
}

/// What an open-circuit test says of the core: loss resistance and magnetising reactance in
/// parallel, seen from the winding that was fed. `R = V²/P`, `X = V / √(I² − (P/V)²)`
/// (Chapman, Electric Machinery Fundamentals, 4th ed., section 2.5).
///
/// `None` unless all three are above zero and `P < V I`.
#[must_use]
pub fn open_circuit_branch(voltage: Voltage, current: Current, power: Power) -> Option<(Resistance, Resistance)> {
    let (v, i, p) = (voltage.si(), current.si(), power.si());
    let loss = p / v;
    let magnetising = (i * i - loss * loss).sqrt();
    (v > 0.0 && p > 0.0 && magnetising > 0.0)
        .then(|| (Resistance::from_si(v * v / p), Resistance::from_si(v / magnetising)))
}
