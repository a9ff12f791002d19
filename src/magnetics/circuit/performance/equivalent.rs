//! The equivalent circuit: an e.m.f. behind a resistance and a leakage reactance.

use super::LoadLine;
use crate::magnetics::circuit::shunts::ShuntLaw;
use crate::magnetics::numeric::bracket::Bracket;
use crate::magnetics::winding::Coil;
use crate::quantity::{Current, Ratio, Resistance, Voltage};

/// The equivalent circuit seen from the new winding; of two cores, from where their windings are joined.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circuit {
    /// Open-circuit voltage.
    pub emf: Voltage,
    /// All resistance.
    pub resistance: Resistance,
    /// Leakage reactance, nothing saturated.
    pub reactance: Resistance,
    /// What shunts have in it.
    pub shunts: Option<ShuntReactance>,
    /// One new winding's own resistance to alternating current.
    pub own_resistance: Resistance,
    /// Alternating over direct-current resistance.
    pub ac_factor: Ratio,
    /// New turns over primary turns; of two windings in series, those of both.
    pub ratio: f64,
    /// Current of this winding over that of the part.
    pub share: f64,
    /// Part of the current from the mains that this core's primary takes.
    pub own_part: f64,
    /// The coil.
    pub coil: Coil,
}

/// The part of shunts in a leakage reactance; it falls as they saturate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShuntReactance {
    pub(super) law: ShuntLaw,
    /// Turns of the new winding.
    pub(super) turns: f64,
    /// Ohms for each weber per ampere-turn.
    pub(super) per_permeance: f64,
}

impl ShuntReactance {
    /// Of two cores: each winding carries `share` of the part's current, and the part has `of_both` times the
    /// reactance of one.
    pub(super) fn of_pair(self, share: f64, of_both: f64) -> Self {
        Self {
            turns: self.turns * share,
            per_permeance: self.per_permeance * of_both,
            ..self
        }
    }

    pub(super) fn at(&self, current: Current) -> Resistance {
        let ampere_turns = std::f64::consts::SQRT_2 * self.turns * current.si();
        Resistance::from_si(self.per_permeance * self.law.permeance(ampere_turns))
    }
}

impl Circuit {
    /// Leakage reactance at a current (r.m.s.): less than [`Circuit::reactance`] where shunts saturate.
    #[must_use]
    pub fn reactance_at(&self, current: Current) -> Resistance {
        self.shunts.map_or(self.reactance, |shunts| {
            self.reactance - (shunts.at(Current::ZERO) - shunts.at(current))
        })
    }

    /// The same with its reactance as it is at a current.
    #[must_use]
    pub fn held_at(&self, current: Current) -> Self {
        Self {
            reactance: self.reactance_at(current),
            shunts: None,
            ..*self
        }
    }

    /// The current of which `solve`, which falls with the reactance, gives so much at the reactance that it
    /// has there.
    pub(super) fn consistent(&self, solve: impl Fn(&Self) -> Current) -> Current {
        if self.shunts.is_none() {
            return solve(self);
        }
        let least = solve(&self.held_at(Current::ZERO));
        // More current saturates the shunts and lets more through: what is given rises with what is assumed.
        let over = |amps: f64| solve(&self.held_at(Current::from_si(amps))).si() - amps;
        let mut high = least.si() * 2.0;
        for _ in 0..40 {
            if over(high) <= 0.0 {
                break;
            }
            high *= 2.0;
        }
        let mut bracket = Bracket::new((least.si(), over(least.si())), (high, over(high)));
        for _ in 0..60 {
            if bracket.width() <= 1e-12 * bracket.high {
                break;
            }
            let amps = bracket.on_line();
            let value = over(amps);
            if value.abs() <= 1e-11 * amps {
                return Current::from_si(amps);
            }
            bracket.narrow(amps, value, value > 0.0);
        }
        Current::from_si(bracket.middle())
    }

    /// Terminal voltage at a current into a load of power factor `cos_phi` (lagging):
    /// `V = √(E² − I²(X cos φ − R sin φ)²) − I(R cos φ + X sin φ)`, the exact form of the
    /// regulation of any machines textbook. Zero beyond the short-circuit current.
    #[must_use]
    pub fn terminal_voltage(&self, current: Current, cos_phi: f64) -> Voltage {
        let sin_phi = (1.0 - cos_phi * cos_phi).max(0.0).sqrt();
        let x = self.reactance_at(current).si();
        let (e, i, r) = (self.emf.si(), current.si(), self.resistance.si());
        let across = i * (x * cos_phi - r * sin_phi);
        let inner = e * e - across * across;
        let volts = inner.max(0.0).sqrt() - i * (r * cos_phi + x * sin_phi);
        Voltage::from_si(if inner < 0.0 { 0.0 } else { volts.max(0.0) })
    }

    /// Current into a dead short: E / √(R² + X²).
    #[must_use]
    pub fn short_circuit(&self) -> Current {
        self.consistent(|held| Current::from_si(held.emf.si() / held.resistance.si().hypot(held.reactance.si())))
    }

    /// Current at which the terminal voltage meets the load line:
    /// `(U₀ + (r + R) I)² + (X I)² = E²`. Zero where the load's fixed voltage is never reached.
    #[must_use]
    pub fn working_current(&self, load: &LoadLine) -> Current {
        if self.shunts.is_some() {
            return self.consistent(|held| held.working_current(load));
        }
        let (e, u, x) = (self.emf.si(), load.fixed.si(), self.reactance.si());
        let r = load.slope.si() + self.resistance.si();
        if e <= u {
            return Current::ZERO;
        }
        let (a, b, c) = (r * r + x * x, u * r, u * u - e * e);
        // The positive root, in the form that does not cancel.
        Current::from_si(-c / (b + (b * b - a * c).sqrt()))
    }

    /// Series reactance that brings the working current down to `wanted`; zero where the
    /// winding gives less than that by itself.
    #[must_use]
    pub fn series_reactance(&self, load: &LoadLine, wanted: Current) -> Resistance {
        let in_phase = load.volts(wanted) + self.resistance * wanted;
        let rest = self.emf.si().powi(2) - in_phase.si().powi(2);
        if rest <= 0.0 {
            return Resistance::ZERO;
        }
        (Resistance::from_si(rest.sqrt() / wanted.si()) - self.reactance_at(wanted)).max(Resistance::ZERO)
    }

    /// Current from the mains: the load's, carried over by the turns ratio, and the idle
    /// current, which lags by a quarter period (its loss part is small).
    #[must_use]
    pub fn mains_current(&self, volts: Voltage, current: Current, idle: Current) -> Current {
        with_idle(current * self.ratio, self.power_factor(volts, current), idle)
    }

    /// Power over apparent power at the e.m.f. with these volts in phase with the current.
    pub(super) fn power_factor(&self, volts: Voltage, current: Current) -> f64 {
        let in_phase_volts = volts.si() + (self.resistance * current).si();
        (in_phase_volts / self.emf.si()).clamp(0.0, 1.0)
    }
}

/// A current that the load adds in the primary, with the idle current beside it, which lags by a quarter
/// period. What distorts the load's current counts as lagging, too.
pub(super) fn with_idle(carried: Current, power_factor: f64, idle: Current) -> Current {
    let across = (1.0 - power_factor * power_factor).sqrt();
    Current::from_si((carried.si() * power_factor).hypot(carried.si() * across + idle.si()))
}
