//! The fuse in the mains side of a rebuilt transformer: rating and type by the outlet's family.

use std::f64::consts::SQRT_2;

use crate::magnetics::circuit::protection::{DeviceKind, Protection, Tripping};
use crate::quantity::{Current, Time};

/// What a fuse has to carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FuseDemand {
    /// Equivalent steady current of the primary, r.m.s. over the duty cycle.
    pub steady: Current,
    /// Current while the load is on, r.m.s.
    pub pull: Current,
    /// How long one pull lasts.
    pub on_time: Time,
    /// Highest first peak after switching on; `None` where it is not known.
    pub first_peak: Option<Current>,
}

/// A fuse to fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fuse {
    /// Its kind and rating.
    pub protection: Protection,
    /// True where a quick fuse of this rating would not surely hold the first peak.
    pub time_delay: bool,
    /// What it does at each pull.
    pub pull: Tripping,
    /// What it does at the first peak, where that is known.
    pub first_peak: Option<Tripping>,
}

impl Fuse {
    /// True where it surely holds all that it has to carry.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.pull == Tripping::Holds && self.first_peak.is_none_or(|first| first == Tripping::Holds)
    }
}

/// Ratings of IEC 60127-2 time-lag fuses, in amperes: the R10 series of its standard sheet 5, as makers'
/// data sheets list them (R2).
const TIME_LAG: [f64; 11] = [1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0, 10.0];
/// Ratings of gG fuse-links above those (IEC 60269-1, M).
const GENERAL: [f64; 5] = [12.0, 16.0, 20.0, 25.0, 32.0];
/// Standard ratings of fuses up to 30 A (NFPA 70, 240.6(A), M).
const NORTH_AMERICAN: [f64; 8] = [1.0, 3.0, 6.0, 10.0, 15.0, 20.0, 25.0, 30.0];
/// Preferred ratings of BS 1362 (R2: the encyclopaedia article "BS 1363").
const PLUG: [f64; 2] = [3.0, 13.0];

/// Least rating over steady primary current behind NEMA outlets: 125 % (NFPA 70, table 450.3(B),
/// R2: sparkshift.app). Elsewhere a fuse carries its rating for good.
const NORTH_AMERICAN_MARGIN: f64 = 1.25;

/// A quick miniature fuse carries four times its rating for 10 ms (IEC 60127-2, sheet 1, M). UL 248
/// asks nothing of a quick fuse above its rating.
const QUICK_IEC: f64 = 4.0;

/// Fuses of an outlet's family up to its circuit's rating, smallest first.
fn fuses(circuit: Protection) -> (Vec<Protection>, f64) {
    let of = |kind: DeviceKind, ratings: &[f64]| -> Vec<Protection> {
        ratings
            .iter()
            .map(|amps| Protection {
                kind,
                rating: Current::from_si(*amps),
            })
            .collect()
    };
    let (mut all, margin) = match circuit.kind {
        DeviceKind::UlBreaker | DeviceKind::JapaneseBreaker | DeviceKind::TimeDelayFuse => {
            (of(DeviceKind::TimeDelayFuse, &NORTH_AMERICAN), NORTH_AMERICAN_MARGIN)
        }
        DeviceKind::PlugFuse => (of(DeviceKind::PlugFuse, &PLUG), 1.0),
        DeviceKind::IecBreaker(_) | DeviceKind::UnknownBreaker | DeviceKind::TimeLagFuse | DeviceKind::GeneralFuse => {
            let mut list = of(DeviceKind::TimeLagFuse, &TIME_LAG);
            list.extend(of(DeviceKind::GeneralFuse, &GENERAL));
            (list, 1.0)
        }
    };
    all.retain(|fuse| fuse.rating <= circuit.rating);
    (all, margin)
}

/// The fuse for the mains side behind a circuit's own protection.
///
/// The smallest standard rating of the outlet's family, never above the circuit's, that carries the
/// steady current with its family's margin and surely holds pull and first peak. Where none holds
/// both for sure, the largest that carries the pull at least as well as any. `None` where every
/// fuse of the family opens at the pull, or carries too little.
#[must_use]
pub fn fuse_for(circuit: Protection, demand: &FuseDemand) -> Option<Fuse> {
    let (list, margin) = fuses(circuit);
    let judged: Vec<Fuse> = list
        .into_iter()
        .filter(|fuse| fuse.rating >= demand.steady * margin)
        .map(|protection| Fuse {
            protection,
            time_delay: !quick_holds(protection, demand.first_peak),
            pull: protection.verdict(demand.pull, demand.on_time),
            first_peak: demand.first_peak.map(|peak| protection.at_first_peak(peak)),
        })
        .filter(|fuse| fuse.pull != Tripping::Trips)
        .collect();
    judged
        .iter()
        .find(|fuse| fuse.holds())
        .or_else(|| judged.last())
        .copied()
}

fn quick_holds(fuse: Protection, first_peak: Option<Current>) -> bool {
    let multiple = match fuse.kind {
        DeviceKind::TimeLagFuse => QUICK_IEC,
        // Plug fuses and gG come in one type.
        DeviceKind::PlugFuse | DeviceKind::GeneralFuse => return true,
        _ => 1.0,
    };
    first_peak.is_some_and(|peak| peak / SQRT_2 <= fuse.rating * multiple)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::magnetics::circuit::protection::BreakerCurve;

    fn fuse(kind: DeviceKind, circuit: f64, steady: f64, pull: (f64, f64), peak: Option<f64>) -> Option<Fuse> {
        let circuit = Protection {
            kind,
            rating: Current::from_si(circuit),
        };
        let demand = FuseDemand {
            steady: Current::from_si(steady),
            pull: Current::from_si(pull.0),
            on_time: Time::from_si(pull.1),
            first_peak: peak.map(Current::from_si),
        };
        fuse_for(circuit, &demand)
    }
    const IEC: DeviceKind = DeviceKind::IecBreaker(BreakerCurve::B);

    /// NFPA 70, table 450.3(B), primary protection only: 125 % of a steady 10 A is 12.5 A, next
    /// standard size 15 A (240.6(A)).
    #[test]
    fn behind_a_nema_outlet_the_rating_is_125_percent() {
        let found = fuse(DeviceKind::UlBreaker, 20.0, 10.0, (10.0, 36000.0), None).unwrap();
        assert_eq!(found.protection.rating, Current::from_si(15.0));
        assert_eq!(found.protection.kind, DeviceKind::TimeDelayFuse);
        assert!(found.time_delay && found.holds());
        // On a 15 A outlet 13 A would ask for 16.25 A: there is none.
        assert_eq!(fuse(DeviceKind::UlBreaker, 15.0, 13.0, (13.0, 36000.0), None), None);
    }

    /// IEC 60127-2, sheet 5: a T 6.3 A fuse carries 2.75 x, 17.3 A, for 0.75 s; 4 x, 25.2 A, for 150 ms.
    #[test]
    fn a_pull_decides_the_rating_of_a_time_lag_fuse() {
        let found = fuse(IEC, 16.0, 2.0, (25.0, 0.15), None).unwrap();
        assert_eq!(found.protection.rating, Current::from_si(6.3));
        let longer = fuse(IEC, 16.0, 2.0, (25.0, 0.2), None).unwrap();
        assert_eq!(longer.protection.rating, Current::from_si(10.0));
        assert!(longer.holds());
    }

    /// A first peak of 120 A is 85 A r.m.s. over its half cycle: ten times 8.5 A.
    #[test]
    fn a_first_peak_asks_for_a_time_lag_fuse() {
        let found = fuse(IEC, 16.0, 2.0, (2.0, 36000.0), Some(120.0)).unwrap();
        assert_eq!(found.protection.rating, Current::from_si(10.0));
        assert_eq!(found.first_peak, Some(Tripping::Holds));
        assert!(found.time_delay);
        // Where switching on is gentle, either type will do.
        let gentle = fuse(IEC, 16.0, 2.0, (2.0, 36000.0), Some(8.0)).unwrap();
        assert_eq!(gentle.protection.rating, Current::from_si(2.0));
        assert!(!gentle.time_delay);
    }

    /// A plug of BS 1363 takes 3 A or 13 A: BS 1362 lets 3 A carry 4.8 A for half an hour.
    #[test]
    fn a_plug_takes_its_own_fuse() {
        let small = fuse(DeviceKind::PlugFuse, 13.0, 2.5, (2.5, 36000.0), None).unwrap();
        assert_eq!(small.protection.rating, Current::from_si(3.0));
        let large = fuse(DeviceKind::PlugFuse, 13.0, 5.0, (29.0, 0.9), Some(130.0)).unwrap();
        assert_eq!(large.protection.rating, Current::from_si(13.0));
        assert!(large.holds());
        assert_eq!(fuse(DeviceKind::PlugFuse, 13.0, 12.0, (60.0, 20.0), None), None);
    }

    /// No fuse is rated above the circuit that feeds it, and none below what it carries for good.
    #[test]
    fn a_rating_lies_between_the_load_and_the_circuit() {
        for kind in [
            IEC,
            DeviceKind::UlBreaker,
            DeviceKind::JapaneseBreaker,
            DeviceKind::PlugFuse,
        ] {
            for circuit in [10.0, 13.0, 16.0, 20.0, 32.0] {
                for steady in [0.5, 2.0, 7.0, 11.0] {
                    for pull in [steady, 2.0 * steady, 6.0 * steady] {
                        let Some(found) = fuse(kind, circuit, steady, (pull, 0.3), Some(100.0)) else {
                            continue;
                        };
                        assert!(found.protection.rating.si() <= circuit);
                        assert!(found.protection.rating.si() >= steady);
                    }
                }
            }
        }
    }
}
