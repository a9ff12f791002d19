//! A core at idle behind a filament lamp: what the first mains test shows.

use crate::quantity::{Current, Power, Voltage};

/// A filament lamp (halogen or old incandescent) for the mains it is used on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeriesLamp {
    /// Its rated voltage.
    pub volts: Voltage,
    /// Its rated power.
    pub watts: Power,
}

/// Current of a tungsten filament goes as its voltage to this power: 0.55 (IES Lighting Handbook,
/// lamp characteristics, 0.52 to 0.58 by lamp; from memory).
pub const FILAMENT_EXPONENT: f64 = 0.55;

impl SeriesLamp {
    /// Its current with nothing in series.
    #[must_use]
    pub fn rated_current(&self) -> Current {
        Current::from_si(self.watts.si() / self.volts.si())
    }

    /// The voltage that drives a current through it, `V = Vr (I / Ir)^(1 / 0.55)`.
    #[must_use]
    pub fn volts_at(&self, current: Current) -> Voltage {
        let part = (current / self.rated_current()).max(0.0);
        self.volts * part.powf(1.0 / FILAMENT_EXPONENT)
    }

    /// The current through lamp and core in series on mains of `supply` volts. The core is taken
    /// as a reactance, so that the two voltages add at right angles: `V² = Vlamp² + Vcore²`. That
    /// leaves the core loss out, which makes the lamp's share a little too small. `idle` gives
    /// the core's current at a voltage and must grow with it.
    ///
    /// `None` where `idle` gives no current somewhere between zero and the supply.
    #[must_use]
    pub fn current_with(&self, supply: Voltage, idle: impl Fn(Voltage) -> Option<Current>) -> Option<Current> {
        let over = |core: f64| -> Option<f64> {
            let current = idle(Voltage::from_si(core))?;
            let lamp = self.volts_at(current).si();
            Some(lamp.hypot(core) - supply.si())
        };
        let (mut low, mut high) = (0.0, supply.si());
        over(high)?;
        for _ in 0..36 {
            let middle = f64::midpoint(low, high);
            if over(middle)? > 0.0 {
                high = middle;
            } else {
                low = middle;
            }
        }
        idle(Voltage::from_si(f64::midpoint(low, high)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lamp() -> SeriesLamp {
        SeriesLamp {
            volts: Voltage::from_si(230.0),
            watts: Power::from_si(100.0),
        }
    }

    /// A filament at half its voltage takes 0.55-power of it: 68.3 % (lamp tables give about 68 %).
    #[test]
    fn half_voltage() {
        let rated = lamp().rated_current();
        let got = lamp().volts_at(rated * 0.683).si() / 230.0;
        assert!((got - 0.5).abs() < 2e-3, "{got}");
    }

    /// Against the phasor sum worked by hand: a reactance of 529 Ω takes 0.3478 A at 184 V; the
    /// lamp then drops 138 V where 138² + 184² = 230².
    #[test]
    fn a_linear_reactance() {
        let lamp = lamp();
        // The lamp that drops 138 V at 0.3478 A.
        let rated = 0.3478 / (138.0f64 / 230.0).powf(FILAMENT_EXPONENT);
        let lamp = SeriesLamp {
            watts: Power::from_si(rated * 230.0),
            ..lamp
        };
        let idle = |v: Voltage| Some(Current::from_si(v.si() / 529.0));
        let got = lamp.current_with(Voltage::from_si(230.0), idle).unwrap().si();
        assert!((got - 184.0 / 529.0).abs() < 1e-3, "{got}");
    }

    /// A shorted core leaves the lamp the whole voltage; an open one none.
    #[test]
    fn the_ends() {
        let short = |v: Voltage| Some(Current::from_si(v.si() * 1e3));
        let got = lamp().current_with(Voltage::from_si(230.0), short).unwrap();
        assert!((got / lamp().rated_current() - 1.0).abs() < 0.01, "{got:?}");
        let none = |_: Voltage| None;
        assert_eq!(lamp().current_with(Voltage::from_si(230.0), none), None);
    }
}
