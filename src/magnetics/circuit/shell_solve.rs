//! Points of the shell circuit of `shell.rs`: what no point changes is worked out once.

use std::f64::consts::{FRAC_PI_2, PI, SQRT_2};

use crate::magnetics::circuit::shunts::ShuntLaw;
use crate::magnetics::circuit::{LoadPoint, ShellCircuit};
use crate::magnetics::numeric::bracket::Bracket;
use crate::magnetics::numeric::linear::{Complex, imaginary, real};
use crate::quantity::{Current, FieldStrength, Flux, FluxDensity, Voltage};

/// Points on a quarter wave for the fundamental of a response (midpoint rule).
const QUARTER: usize = 16;

/// A [`ShellCircuit`] ready for many points; SI units.
pub(super) struct Ready<'a> {
    steel: &'a dyn Fn(FluxDensity) -> FieldStrength,
    omega: f64,
    turns: [f64; 2],
    resistance: [f64; 2],
    supply: f64,
    /// Voltage of the open winding if nothing leaked or fell.
    ideal: f64,
    /// Net sections of tongue, outer limb and yoke.
    area: [f64; 3],
    /// Length of steel along the limbs on each coil's side.
    along: [f64; 2],
    /// Length of one yoke, window to limb.
    across: f64,
    /// Permeance of air and coils between tongue and limbs.
    air: f64,
    shunts: Option<ShuntLaw>,
    sines: [f64; QUARTER],
}

impl ShellCircuit<'_> {
    /// Share of the window's height that belongs to the primary.
    fn primary_share(&self) -> f64 {
        let c = &self.coils;
        let all = c.first.value + c.gap.value + c.second.value;
        (c.first.value + c.gap.value / 2.0) / all
    }

    /// Permeance of air and coils between tongue and limbs, Wb/A.
    fn air_permeance(&self) -> f64 {
        self.shunts
            .map_or_else(|| self.coils.permeance(), |shunts| self.coils.permeance_beside(&shunts))
    }

    pub(super) fn ready(&self) -> Ready<'_> {
        let core = &self.core;
        let share = self.primary_share();
        let step = FRAC_PI_2 / QUARTER as f64;
        Ready {
            steel: self.steel,
            omega: self.frequency.value.angular(),
            turns: [self.primary_turns.si(), self.winding_turns.si()],
            resistance: [self.primary_resistance.value.si(), self.winding_resistance.value.si()],
            supply: self.supply.value.si(),
            ideal: self.supply.value.si() * (self.winding_turns / self.primary_turns),
            area: [core.net_area().si(), core.outer_limb_area().si(), core.yoke_area().si()],
            along: [share, 1.0 - share].map(|share| share * core.window_height.value.si() + core.yoke.value.si() / 2.0),
            across: (core.window_width.value + core.tongue.value / 4.0 + core.outer_limb.value / 2.0).si(),
            air: self.air_permeance(),
            shunts: self.shunts.map(|shunts| shunts.law()),
            sines: std::array::from_fn(|k| ((k as f64 + 0.5) * step).sin()),
        }
    }
}

impl Ready<'_> {
    /// Fundamental of `response(x sin θ)` for an odd response.
    fn fundamental(&self, amplitude: f64, response: impl Fn(f64) -> f64) -> f64 {
        let step = FRAC_PI_2 / QUARTER as f64;
        let sum: f64 = self.sines.iter().map(|sin| response(amplitude * sin) * sin).sum();
        4.0 / PI * step * sum
    }

    /// Ampere-turns that drive a flux through one coil's half of the core.
    fn core_ampere_turns(&self, flux: f64, side: usize) -> f64 {
        let field = |flux: f64, area: f64| (self.steel)(FluxDensity::from_si(flux / area)).si();
        let [tongue, limb, yoke] = self.area;
        (field(flux, tongue) + field(flux / 2.0, limb)) * self.along[side] + field(flux / 2.0, yoke) * self.across
    }

    /// Flux between tongue and limbs at sinusoidal ampere-turns, fundamental over ampere-turns.
    fn leakage_permeance(&self, ampere_turns: f64) -> f64 {
        let shunt = self.shunts.map_or(0.0, |law| law.permeance(ampere_turns));
        self.air + shunt
    }

    /// Leakage reactance seen from the new winding, in ohms.
    pub(super) fn leakage_reactance(&self, ampere_turns: f64) -> f64 {
        self.omega * self.turns[1] * self.turns[1] * self.leakage_permeance(ampere_turns)
    }

    /// Supply voltage that this current and terminal voltage (in phase) need, and the point.
    fn needed(&self, current: f64, voltage: f64) -> (f64, LoadPoint) {
        let (omega, [n1, n2]) = (self.omega, self.turns);
        let through_core = |flux: Complex, side: usize| -> Complex {
            let size = flux.norm();
            if size <= 0.0 {
                return Complex::ZERO;
            }
            flux * (self.fundamental(size, |f| self.core_ampere_turns(f, side)) / size)
        };
        // Peak phasors; the winding's current is the reference.
        let induced = SQRT_2 * (voltage + self.resistance[1] * current);
        let flux2 = imaginary(-induced / (omega * n2));
        let across = real(SQRT_2 * n2 * current) + through_core(flux2, 1);
        let flux1 = flux2 + across * self.leakage_permeance(across.norm());
        let current1 = (across + through_core(flux1, 0)) * (1.0 / n1);
        let supply = current1 * self.resistance[0] + imaginary(omega * n1) * flux1;
        let point = LoadPoint {
            current: Current::from_si(current),
            voltage: Voltage::from_si(voltage),
            primary_current: Current::from_si(current1.norm() / SQRT_2),
            primary_flux: Flux::from_si(flux1.norm()),
            winding_flux: Flux::from_si(flux2.norm()),
            window_ampere_turns: across.norm(),
            limb_density: FluxDensity::from_si(flux1.norm() / 2.0 / self.area[1]),
            shunt_density: FluxDensity::from_si(self.shunts.map_or(0.0, |law| law.density(across.norm()))),
        };
        (supply.norm() / SQRT_2, point)
    }

    /// The point at a load current; `None` above the short-circuit current. `near`: its voltage,
    /// about.
    pub(super) fn at_current(&self, current: f64, near: Option<f64>) -> Option<LoadPoint> {
        self.meet(self.ideal / 2.0, near, |voltage| self.needed(current, voltage))
    }

    /// The point at a load of this resistance. `near`: its current, about.
    pub(super) fn at_resistance(&self, load: f64, near: Option<f64>) -> Option<LoadPoint> {
        let first = || self.ideal / (self.leakage_reactance(1e6) + self.resistance[1] + load) / 2.0;
        self.meet(near.map_or_else(first, |near| near / 2.0), near, |current| {
            self.needed(current, load * current)
        })
    }

    /// The point at which a rising `needed` supply meets the supply there is; `None` where it is
    /// above that from the start or the numbers are senseless. From a `near` argument by secants,
    /// otherwise by regula falsi (Illinois rule).
    fn meet(&self, first_step: f64, near: Option<f64>, needed: impl Fn(f64) -> (f64, LoadPoint)) -> Option<LoadPoint> {
        if let Some(point) = near.and_then(|near| self.meet_near(near, &needed)) {
            return Some(point);
        }
        let supply = self.supply;
        let miss = |x: f64| needed(x).0 - supply;
        let (mut low, mut high) = (0.0, first_step);
        let mut at_low = miss(low);
        if !(at_low <= 0.0 && first_step > 0.0) {
            return None;
        }
        let mut at_high = miss(high);
        for _ in 0..60 {
            if at_high > 0.0 {
                break;
            }
            (low, at_low) = (high, at_high);
            high *= 2.0;
            at_high = miss(high);
        }
        if !(at_high > 0.0 && at_low.is_finite()) {
            return None;
        }
        let mut bracket = Bracket::new((low, at_low), (high, at_high));
        for _ in 0..80 {
            let x = bracket.on_line();
            let (met, point) = needed(x);
            let value = met - supply;
            if value.abs() < 1e-9 * supply || bracket.width() < 1e-10 * bracket.high {
                return Some(point);
            }
            bracket.narrow(x, value, value < 0.0);
        }
        Some(needed(bracket.middle()).1)
    }

    /// [`Ready::meet`] by secants from near it; `None` where they lead away.
    fn meet_near(&self, near: f64, needed: impl Fn(f64) -> (f64, LoadPoint)) -> Option<LoadPoint> {
        let supply = self.supply;
        let (mut before, mut at_before) = (0.0, -supply);
        let mut x = near;
        for _ in 0..8 {
            if !(x > 0.0 && x < 4.0 * near) {
                return None;
            }
            let (met, point) = needed(x);
            let value = met - supply;
            if value.abs() < 1e-9 * supply {
                return Some(point);
            }
            let next = x - value * (x - before) / (value - at_before);
            (before, at_before) = (x, value);
            x = next;
        }
        None
    }
}
