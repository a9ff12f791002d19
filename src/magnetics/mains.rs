//! The mains and the circuit that feeds the rebuilt transformer.

use crate::quantity::{Current, Frequency, Measured, Origin, Ratio, Resistance, Time, Voltage};

/// Mains as they are where the rebuilt part will run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mains {
    /// Voltage, r.m.s.; 100 to 240 V.
    pub voltage: Measured<Voltage>,
    /// 50 or 60 Hz.
    pub frequency: Frequency,
    /// Rated current of the breaker or fuse of the branch circuit.
    pub breaker: Current,
}

/// What a donor was made for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MainsRating {
    /// Rated voltage, r.m.s.
    pub voltage: Voltage,
    /// Rated frequency.
    pub frequency: Frequency,
}

/// Resistance of a branch circuit from the supply to the outlet, there and back: 0.4 ± 0.3 Ω.
/// Common practice, no source; a loop of 30 m of 2.5 mm² copper alone is 0.44 Ω.
#[must_use]
pub fn typical_supply_resistance() -> Measured<Resistance> {
    Measured::new(Resistance::from_si(0.4), Resistance::from_si(0.3), Origin::Typical)
}

/// A plug and outlet in common use, with the breaker usually behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outlet {
    /// The word that files use.
    pub word: &'static str,
    /// What a person reads.
    pub label: &'static str,
    /// Nominal voltage.
    pub volts: f64,
    /// Frequency.
    pub hertz: f64,
    /// Rated current in amperes.
    pub amps: f64,
}

/// Plugs and the ratings of their standards (from memory; the local code decides).
pub const OUTLETS: &[Outlet] = &[
    Outlet {
        word: "na-15",
        label: "NEMA 5-15, 120 V 15 A",
        volts: 120.0,
        hertz: 60.0,
        amps: 15.0,
    },
    Outlet {
        word: "na-20",
        label: "NEMA 5-20, 120 V 20 A",
        volts: 120.0,
        hertz: 60.0,
        amps: 20.0,
    },
    Outlet {
        word: "na-240-20",
        label: "NEMA 6-20, 240 V 20 A",
        volts: 240.0,
        hertz: 60.0,
        amps: 20.0,
    },
    Outlet {
        word: "na-240-30",
        label: "NEMA 6-30, 240 V 30 A",
        volts: 240.0,
        hertz: 60.0,
        amps: 30.0,
    },
    Outlet {
        word: "eu-16",
        label: "CEE 7, 230 V 16 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 16.0,
    },
    Outlet {
        word: "uk-13",
        label: "BS 1363, 230 V 13 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 13.0,
    },
    Outlet {
        word: "au-10",
        label: "AS/NZS 3112, 230 V 10 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 10.0,
    },
    Outlet {
        word: "au-15",
        label: "AS/NZS 3112, 230 V 15 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 15.0,
    },
    Outlet {
        word: "in-16",
        label: "IS 1293, 230 V 16 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 16.0,
    },
    Outlet {
        word: "jp-15-50",
        label: "JIS C 8303, 100 V 15 A, 50 Hz",
        volts: 100.0,
        hertz: 50.0,
        amps: 15.0,
    },
    Outlet {
        word: "jp-15-60",
        label: "JIS C 8303, 100 V 15 A, 60 Hz",
        volts: 100.0,
        hertz: 60.0,
        amps: 15.0,
    },
    Outlet {
        word: "iec-32",
        label: "IEC 60309 blue, 230 V 32 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 32.0,
    },
];

/// The smallest outlet for these mains whose rating covers `amps`.
#[must_use]
pub fn outlet_for(volts: Voltage, frequency: Frequency, amps: Current) -> Option<&'static Outlet> {
    OUTLETS
        .iter()
        .filter(|o| (o.volts / volts.si() - 1.0).abs() < 0.11 && (o.hertz - frequency.si()).abs() < 1.0)
        .filter(|o| o.amps >= amps.si())
        .min_by(|a, b| a.amps.total_cmp(&b.amps))
}

/// How many times its rating a breaker carries for as long as one pull lasts.
///
/// Up to a second, 3: below the lowest magnetic trip of IEC 60898 type B. Up to a minute, 1.45
/// and beyond that 1.13: the conventional tripping and non-tripping currents of the same
/// standard. Continuous load (duty 1), 0.8: common practice in North America. The IEC numbers
/// come from memory; the local code decides.
#[must_use]
pub fn breaker_multiple(on_time: Time, duty: Ratio) -> f64 {
    if duty.si() >= 0.999 {
        0.8
    } else if on_time.si() <= 1.0 {
        3.0
    } else if on_time.si() <= 60.0 {
        1.45
    } else {
        1.13
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outlets_cover_what_they_can() {
        let fits =
            |v, f, a| outlet_for(Voltage::from_si(v), Frequency::from_si(f), Current::from_si(a)).map(|o| o.word);
        assert_eq!(fits(120.0, 60.0, 14.0), Some("na-15"));
        assert_eq!(fits(120.0, 60.0, 17.0), Some("na-20"));
        assert_eq!(fits(120.0, 60.0, 40.0), None);
        assert_eq!(fits(230.0, 50.0, 12.0), Some("uk-13"));
    }
}
