//! The mains and the circuit that feeds the rebuilt transformer.

use crate::magnetics::circuit::protection::{BreakerCurve, DeviceKind, LoadKind, Protection, Tripping};
use crate::quantity::{Current, Frequency, Measured, Origin, Ratio, Resistance, Time, Voltage};

/// Mains as they are where the rebuilt part will run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mains {
    /// Voltage, r.m.s.; 100 to 240 V.
    pub voltage: Measured<Voltage>,
    /// 50 or 60 Hz.
    pub frequency: Frequency,
    /// Breaker or fuse of the branch circuit.
    pub protection: Protection,
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
    /// What usually protects it.
    pub device: DeviceKind,
}

const IEC: DeviceKind = DeviceKind::IecBreaker(BreakerCurve::B);

impl Outlet {
    /// The outlet with this word.
    #[must_use]
    pub fn of_word(word: &str) -> Option<&'static Outlet> {
        OUTLETS.iter().find(|outlet| outlet.word == word)
    }

    /// What usually protects it, at its own rating.
    #[must_use]
    pub const fn protection(&self) -> Protection {
        Protection {
            kind: self.device,
            rating: Current::from_si(self.amps),
        }
    }
}

/// Plugs and the ratings of their standards (from memory; the local code decides).
pub const OUTLETS: &[Outlet] = &[
    Outlet {
        word: "na-15",
        label: "NEMA 5-15, 120 V 15 A",
        volts: 120.0,
        hertz: 60.0,
        amps: 15.0,
        device: DeviceKind::UlBreaker,
    },
    Outlet {
        word: "na-20",
        label: "NEMA 5-20, 120 V 20 A",
        volts: 120.0,
        hertz: 60.0,
        amps: 20.0,
        device: DeviceKind::UlBreaker,
    },
    Outlet {
        word: "na-240-20",
        label: "NEMA 6-20, 240 V 20 A",
        volts: 240.0,
        hertz: 60.0,
        amps: 20.0,
        device: DeviceKind::UlBreaker,
    },
    Outlet {
        word: "na-240-30",
        label: "NEMA 6-30, 240 V 30 A",
        volts: 240.0,
        hertz: 60.0,
        amps: 30.0,
        device: DeviceKind::UlBreaker,
    },
    Outlet {
        word: "eu-16",
        label: "CEE 7, 230 V 16 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 16.0,
        device: IEC,
    },
    Outlet {
        word: "uk-13",
        label: "BS 1363, 230 V 13 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 13.0,
        device: DeviceKind::PlugFuse,
    },
    Outlet {
        word: "au-10",
        label: "AS/NZS 3112, 230 V 10 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 10.0,
        device: IEC,
    },
    Outlet {
        word: "au-15",
        label: "AS/NZS 3112, 230 V 15 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 15.0,
        device: IEC,
    },
    Outlet {
        word: "in-16",
        label: "IS 1293, 230 V 16 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 16.0,
        device: IEC,
    },
    Outlet {
        word: "jp-15-50",
        label: "JIS C 8303, 100 V 15 A, 50 Hz",
        volts: 100.0,
        hertz: 50.0,
        amps: 15.0,
        device: DeviceKind::JapaneseBreaker,
    },
    Outlet {
        word: "jp-15-60",
        label: "JIS C 8303, 100 V 15 A, 60 Hz",
        volts: 100.0,
        hertz: 60.0,
        amps: 15.0,
        device: DeviceKind::JapaneseBreaker,
    },
    Outlet {
        word: "iec-32",
        label: "IEC 60309 blue, 230 V 32 A",
        volts: 230.0,
        hertz: 50.0,
        amps: 32.0,
        device: IEC,
    },
];

/// What a finished machine draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Draw {
    /// Mains current while the load is on, r.m.s.
    pub current: Current,
    /// How long one pull lasts.
    pub on_time: Time,
    /// Part of the time that the load is on.
    pub duty: Ratio,
    /// What it is to the rules for branch circuits.
    pub load: LoadKind,
}

impl Protection {
    /// What a circuit's protection does with a machine: it trips also where the rules for the branch
    /// circuit forbid so much.
    #[must_use]
    pub fn verdict_on(self, draw: &Draw) -> Tripping {
        if draw.current > self.allowed(draw.load, draw.duty) {
            return Tripping::Trips;
        }
        self.verdict(draw.current, draw.on_time)
    }

    /// The largest current that [`Self::verdict_on`] does not refuse.
    #[must_use]
    pub fn most(self, draw: &Draw) -> Current {
        self.trips_from(draw.on_time).min(self.allowed(draw.load, draw.duty))
    }
}

/// The smallest outlet for these mains that surely holds what a machine draws; where none does, the
/// largest that may hold it.
#[must_use]
pub fn outlet_for(volts: Voltage, frequency: Frequency, draw: &Draw) -> Option<&'static Outlet> {
    let fits = |outlet: &&Outlet| {
        (outlet.volts / volts.si() - 1.0).abs() < 0.11 && (outlet.hertz - frequency.si()).abs() < 1.0
    };
    OUTLETS
        .iter()
        .filter(fits)
        .map(|outlet| (outlet.protection().verdict_on(draw), outlet))
        .filter(|(verdict, _)| *verdict != Tripping::Trips)
        .min_by(|(a, x), (b, y)| {
            let by_size = x.amps.total_cmp(&y.amps);
            let by_size = if *a == Tripping::Holds {
                by_size
            } else {
                by_size.reverse()
            };
            a.cmp(b).then(by_size)
        })
        .map(|(_, outlet)| outlet)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// NFPA 70, 210.23(A)(1): a load with cord and plug may draw 80 % of the circuit's rating, so that
    /// 14 A is not for a 15 A outlet, nor 17 A for 20 A. A welder of 20 % counts 0.45 (630.11(A)).
    #[test]
    fn outlets_cover_what_they_can() {
        let fits = |v, f, amps, duty, load| {
            let draw = Draw {
                current: Current::from_si(amps),
                on_time: Time::from_minutes(10.0 * duty),
                duty: Ratio::from_si(duty),
                load,
            };
            outlet_for(Voltage::from_si(v), Frequency::from_si(f), &draw).map(|o| o.word)
        };
        let plug = LoadKind::CordAndPlug;
        assert_eq!(fits(120.0, 60.0, 12.0, 1.0, plug), Some("na-15"));
        assert_eq!(fits(120.0, 60.0, 14.0, 1.0, plug), Some("na-20"));
        assert_eq!(fits(120.0, 60.0, 17.0, 1.0, plug), None);
        assert_eq!(fits(240.0, 60.0, 24.0, 1.0, plug), Some("na-240-30"));
        assert_eq!(fits(230.0, 50.0, 12.0, 1.0, plug), Some("uk-13"));
        assert_eq!(fits(230.0, 50.0, 40.0, 1.0, plug), None);
        // 20 A for two minutes in ten: 8.9 A counts, and UL 489 lets a 20 A breaker hold it.
        assert_eq!(fits(120.0, 60.0, 20.0, 0.2, LoadKind::Welder), Some("na-20"));
        // 25 A may trip every one of them; 50 A must trip within 2 min.
        assert_eq!(fits(120.0, 60.0, 25.0, 0.2, LoadKind::Welder), Some("na-20"));
        assert_eq!(fits(120.0, 60.0, 50.0, 0.2, LoadKind::Welder), None);
    }
}
