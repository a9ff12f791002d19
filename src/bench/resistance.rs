//! Resistance and temperature of a winding.

use crate::quantity::{Current, Resistance, Temperature, TemperatureRise};
use crate::wire::Metal;

/// A winding's resistance at another temperature: `R (k + T) / (k + T0)`, k = 234.5 for copper,
/// 225 for aluminium (as [`Metal::resistance_method_constant`]).
#[must_use]
pub fn resistance_at(
    measured: Resistance,
    measured_at: Temperature,
    wanted_at: Temperature,
    metal: Metal,
) -> Resistance {
    let k = metal.resistance_method_constant().si();
    measured * ((k + wanted_at.si()) / (k + measured_at.si()))
}

/// A run that warmed a winding: its resistance before and at switch-off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmRun {
    /// Resistance before the run, cold through and through.
    pub cold: Resistance,
    /// Temperature of the winding then.
    pub cold_at: Temperature,
    /// Resistance at switch-off.
    pub hot: Resistance,
    /// Temperature of the air at the end of the run.
    pub air: Temperature,
    /// Load current during the run, r.m.s. over its duty cycle as the design counts it.
    pub current: Current,
    /// The winding's metal.
    pub metal: Metal,
}

impl WarmRun {
    /// Mean rise of the winding over the air, by the resistance method:
    /// `(R2/R1 − 1)(k + T1) − (T2a − T1)` (rise of resistance, IEC 60335-1, from memory).
    #[must_use]
    pub fn rise(&self) -> TemperatureRise {
        let k = self.metal.resistance_method_constant();
        let over_zero = k.si() + self.cold_at.si();
        TemperatureRise::from_si((self.hot / self.cold - 1.0) * over_zero) - self.air.above(self.cold_at)
    }

    /// The current that brings the winding to `limit` at the same duty cycle, `I √(limit / rise)`:
    /// the loss goes as the square of the current, and the rise as the loss. The growth of the
    /// resistance with the temperature and the better cooling of a hotter surface are left out;
    /// they work against each other. `None` for a rise that is not above zero.
    #[must_use]
    pub fn permitted_current(&self, limit: TemperatureRise) -> Option<Current> {
        let share = limit.si() / self.rise().si();
        (share.is_finite() && share > 0.0).then(|| self.current * share.sqrt())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 0.500 Ω at 22 °C, 0.620 Ω after, air then 25 °C: 58.6 K copper, 56.3 K aluminium
    /// (worked by hand from the formula of IEC 60335-1).
    #[test]
    fn resistance_method() {
        for (metal, kelvins) in [(Metal::Copper, 58.6), (Metal::Aluminium, 56.3)] {
            let run = WarmRun {
                cold: Resistance::from_si(0.5),
                cold_at: Temperature::from_si(22.0),
                hot: Resistance::from_si(0.62),
                air: Temperature::from_si(25.0),
                current: Current::from_si(10.0),
                metal,
            };
            let got = run.rise().si();
            assert!((got / kelvins - 1.0).abs() < 2e-3, "{metal:?} {got} {kelvins}");
        }
    }

    /// By hand from Joule's law: 15 A and 60 K where 75 K are permitted allow 15 √(75 / 60) = 16.77 A.
    #[test]
    fn a_rise_gives_the_current_that_it_permits() {
        let hot = 1.0 + 60.0 / (234.5 + 20.0);
        let run = WarmRun {
            cold: Resistance::from_si(1.0),
            cold_at: Temperature::from_si(20.0),
            hot: Resistance::from_si(hot),
            air: Temperature::from_si(20.0),
            current: Current::from_si(15.0),
            metal: Metal::Copper,
        };
        let permitted = run.permitted_current(TemperatureRise::from_si(75.0)).unwrap();
        assert!((permitted.si() - 16.77).abs() < 0.01, "{permitted:?}");
        let cold = WarmRun { hot: run.cold, ..run };
        assert_eq!(cold.permitted_current(TemperatureRise::from_si(75.0)), None);
    }

    /// Against the other standards' coefficient: 1 + α20 (T − 20), IEC 60028 and IEC 60889. For
    /// aluminium they imply 228, not 225: 0.4 % at 110 °C.
    #[test]
    fn correction_agrees_with_the_temperature_coefficient() {
        for metal in Metal::ALL {
            for celsius in [0.0, 35.0, 75.0, 110.0] {
                let at = Temperature::from_si(celsius);
                let hot = metal.resistivity(at).si() / metal.resistivity_20().si();
                let got = resistance_at(Resistance::from_si(hot), at, Temperature::from_si(20.0), metal).si();
                assert!((got - 1.0).abs() < 4e-3, "{metal:?} {celsius} {got}");
            }
        }
    }
}
