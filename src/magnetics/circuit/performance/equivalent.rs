//! The equivalent circuit: an e.m.f. behind a resistance and a leakage reactance.

use super::LoadLine;
use crate::magnetics::winding::Coil;
use crate::quantity::{Current, Ratio, Resistance, Voltage};

/// The equivalent circuit seen from the new winding; of two cores, from where their windings are joined.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circuit {
    /// Open-circuit voltage.
    pub emf: Voltage,
    /// All resistance.
    pub resistance: Resistance,
    /// Leakage reactance.
    pub reactance: Resistance,
    /// One new winding's own resistance to alternating current.
    pub own_resistance: Resistance,
    /// Alternating over direct-current resistance.
    pub ac_factor: Ratio,
    /// New turns over primary turns; of two windings in series, those of both.
    pub ratio: f64,
    /// The coil.
    pub coil: Coil,
}

impl Circuit {
    /// Terminal voltage at a current into a load of power factor `cos_phi` (lagging):
    /// `V = √(E² − I²(X cos φ − R sin φ)²) − I(R cos φ + X sin φ)`, the exact form of the
    /// regulation of any machines textbook. Zero beyond the short-circuit current.
    #[must_use]
    pub fn terminal_voltage(&self, current: Current, cos_phi: f64) -> Voltage {
        let sin_phi = (1.0 - cos_phi * cos_phi).max(0.0).sqrt();
        let (e, i, r, x) = (self.emf.si(), current.si(), self.resistance.si(), self.reactance.si());
        let across = i * (x * cos_phi - r * sin_phi);
        let inner = e * e - across * across;
        let volts = inner.max(0.0).sqrt() - i * (r * cos_phi + x * sin_phi);
        Voltage::from_si(if inner < 0.0 { 0.0 } else { volts.max(0.0) })
    }

    /// Current into a dead short: E / √(R² + X²).
    #[must_use]
    pub fn short_circuit(&self) -> Current {
        Current::from_si(self.emf.si() / self.resistance.si().hypot(self.reactance.si()))
    }

    /// Current at which the terminal voltage meets the load line:
    /// `(U₀ + (r + R) I)² + (X I)² = E²`. Zero where the load's fixed voltage is never reached.
    #[must_use]
    pub fn working_current(&self, load: &LoadLine) -> Current {
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
        (Resistance::from_si(rest.sqrt() / wanted.si()) - self.reactance).max(Resistance::ZERO)
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
