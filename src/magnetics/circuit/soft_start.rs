//! A resistor that lies in the mains for the moment of switching on, then is bridged.

use crate::quantity::{Current, Power, Resistance, Time, Voltage};

/// A soft start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoftStart {
    /// Its resistor.
    pub resistor: Resistance,
    /// The most that the resistor takes before it is bridged.
    pub power: Power,
    /// When a relay bridges it.
    pub bridged_after: Time,
}

/// IEC 60063, series E6.
const E6: [f64; 6] = [1.0, 1.5, 2.2, 3.3, 4.7, 6.8];
/// About fifteen cycles: the remanence has gone by then. Common practice, no source.
const BRIDGED_AFTER: Time = Time::from_si(0.3);

/// The smallest standard resistor with which no peak after switching on, saturated or not, is above
/// what fuse and breaker surely hold: by Ohm's law `V/(R + R_own) ≤ I`, crest over crest.
///
/// `holds` is the r.m.s. current that they hold for half a cycle, `own` the primary and the mains
/// loop. `None` where those are enough by themselves, or a value is not above zero.
#[must_use]
pub fn soft_start(mains: Voltage, own: Resistance, holds: Current) -> Option<SoftStart> {
    let needed = mains.si() / holds.si() - own.si();
    if !(needed.is_finite() && needed > 0.0) {
        return None;
    }
    let decade = 10.0_f64.powf(needed.log10().floor());
    let standard = E6.iter().map(|step| step * decade).find(|ohms| *ohms >= needed * 0.999);
    let ohms = standard.unwrap_or(decade * 10.0);
    Some(SoftStart {
        resistor: Resistance::from_si(ohms),
        power: Power::from_si(mains.si() * mains.si() / ohms),
        bridged_after: BRIDGED_AFTER,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ohm's law and IEC 60063: 230 V behind a B16, which holds 48 A: 4.79 Ω less 0.4 Ω asks for 4.7 Ω;
    /// 120 V behind 15 A: 8 Ω less 0.5 Ω for 10 Ω.
    #[test]
    fn the_resistor_is_a_standard_one_that_is_enough() {
        for (volts, own, holds, expected) in [
            (230.0, 0.4, 48.0, 4.7),
            (120.0, 0.5, 15.0, 10.0),
            (240.0, 0.0, 2.4, 100.0),
        ] {
            let (mains, own) = (Voltage::from_si(volts), Resistance::from_si(own));
            let found = soft_start(mains, own, Current::from_si(holds)).unwrap();
            assert!((found.resistor.si() / expected - 1.0).abs() < 1e-9, "{found:?}");
            assert!(volts / (found.resistor.si() + own.si()) <= holds * 1.001);
            assert!((found.power.si() - volts * volts / expected).abs() < 1e-6);
        }
        let enough = soft_start(
            Voltage::from_si(120.0),
            Resistance::from_si(9.0),
            Current::from_si(15.0),
        );
        assert_eq!(enough, None);
    }
}
