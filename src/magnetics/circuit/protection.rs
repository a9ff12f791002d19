//! Overcurrent protection: when a breaker or a fuse holds, may trip, and must trip.
//!
//! Each kind of device has the gates of its own standard: at so many times its rating it must carry
//! the current for one time, and must open within another. The texts of the standards were not
//! read; each table names the secondary source (R2) or says that it comes from memory (M).
//!
//! Between its gates a device is judged on the cautious side. A current holds only where a gate at
//! that current or above holds for as long. A current trips where a gate at that current or below
//! trips in time, or where its I²t exceeds that gate's: a thermal element of the first order needs
//! no more I²t at a higher current (any textbook of heat transfer). What is left may trip.

use std::f64::consts::SQRT_2;

use crate::quantity::{Current, Ratio, Time};

/// Instantaneous-tripping type of a breaker by IEC 60898-1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BreakerCurve {
    /// Trips at once between 3 and 5 times its rating.
    B,
    /// Between 5 and 10 times.
    C,
    /// Between 10 and 20 times.
    D,
}

impl BreakerCurve {
    /// The three types, quickest first.
    pub const ALL: [BreakerCurve; 3] = [Self::B, Self::C, Self::D];

    /// The letter printed before the rating.
    #[must_use]
    pub const fn letter(self) -> &'static str {
        match self {
            Self::B => "B",
            Self::C => "C",
            Self::D => "D",
        }
    }
}

/// A kind of breaker or fuse.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DeviceKind {
    /// Household breaker of IEC 60898-1.
    IecBreaker(BreakerCurve),
    /// Moulded-case breaker of UL 489, as behind NEMA outlets. No types B, C or D.
    UlBreaker,
    /// Breaker of Japanese wiring rules.
    JapaneseBreaker,
    /// Fuse of BS 1362 in the plug of BS 1363.
    PlugFuse,
    /// Not known: holds where all of the above hold, trips where all of them trip.
    UnknownBreaker,
    /// Miniature time-lag fuse (T), IEC 60127-2.
    TimeLagFuse,
    /// Fuse-link gG, IEC 60269.
    GeneralFuse,
    /// Time-delay cartridge fuse of class K or R, UL 248-9 and UL 248-12.
    TimeDelayFuse,
}

/// What a device does at a current for a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Tripping {
    /// It must hold.
    Holds,
    /// One device holds, another opens.
    MayTrip,
    /// It must open.
    Trips,
}

/// What a standard asks at a multiple of the rating.
#[derive(Debug, Clone, Copy)]
struct Gate {
    /// Multiple of the rated current, r.m.s.
    times: f64,
    /// Seconds that it must carry it at the least; zero where nothing is asked.
    holds: f64,
    /// Seconds within which it must open; infinite where nothing is asked.
    opens: f64,
}

const fn gate(times: f64, holds: f64, opens: f64) -> Gate {
    Gate { times, holds, opens }
}

const FOREVER: f64 = f64::INFINITY;
const HOUR: f64 = 3600.0;

/// IEC 60898-1, ratings up to 32 A, without the instantaneous part. R2: a maker's manual (VA47-100)
/// prints the table: 1.13 for an hour, 1.45 within the hour, 2.55 between 1 s and 60 s (120 s above 32 A).
/// From the table's two hours above 63 A nothing is built here.
const IEC_TO_32: [Gate; 4] = [
    gate(1.0, FOREVER, FOREVER),
    gate(1.13, HOUR, FOREVER),
    gate(1.45, 0.0, HOUR),
    gate(2.55, 1.0, 60.0),
];
const IEC_ABOVE_32: [Gate; 4] = [IEC_TO_32[0], IEC_TO_32[1], IEC_TO_32[2], gate(2.55, 1.0, 120.0)];
/// Instantaneous part: up to the lower multiple it holds for 0.1 s, from the upper one it opens in
/// less than 0.1 s, which counts as at once. R2: IEC 60898-1 in makers' manuals; D reaches 20.
const IEC_B: [Gate; 2] = [gate(3.0, 0.1, FOREVER), gate(5.0, 0.0, 0.0)];
const IEC_C: [Gate; 2] = [gate(5.0, 0.1, FOREVER), gate(10.0, 0.0, 0.0)];
const IEC_D: [Gate; 2] = [gate(10.0, 0.1, FOREVER), gate(20.0, 0.0, 0.0)];

/// UL 489: 100 % holds, 135 % within an hour (to 50 A), 200 % within 2 min (to 30 A). R2: a maker's
/// page (optifuse.com, "UL Circuit Breakers"). 4 min above 30 A: M.
const UL_TO_30: [Gate; 3] = [
    gate(1.0, FOREVER, FOREVER),
    gate(1.35, 0.0, HOUR),
    gate(2.0, 0.0, 120.0),
];
const UL_ABOVE_30: [Gate; 3] = [UL_TO_30[0], UL_TO_30[1], gate(2.0, 0.0, 240.0)];
/// UL 489 sets no instantaneous trip. Ten times the rating: common practice, no source.
const UL_INSTANT: [Gate; 1] = [gate(10.0, 0.0, 0.0)];

/// Japan's interpretation of the technical standards for electrical equipment, article 33: 1 holds,
/// 1.25 within 60 min, 2 within 2 min (to 30 A), 4 min above. R2: denken-ou.com and algorithm.joho.info.
const JAPAN_TO_30: [Gate; 3] = [
    gate(1.0, FOREVER, FOREVER),
    gate(1.25, 0.0, HOUR),
    gate(2.0, 0.0, 120.0),
];
const JAPAN_ABOVE_30: [Gate; 3] = [JAPAN_TO_30[0], JAPAN_TO_30[1], gate(2.0, 0.0, 240.0)];

/// BS 1362, 13 A: 1.6 times for 30 min, 1.9 times within 30 min; 30 A 1 to 400 s, 50 A 0.1 to 20 s,
/// 100 A 0.01 to 0.2 s. R2: the encyclopaedia article "BS 1363" at liquisearch.com and a physics
/// teacher's page (kilcullenscience, 2025). Other ratings but 3 A: the same multiples, M.
const PLUG_13: [Gate; 6] = [
    gate(1.0, FOREVER, FOREVER),
    gate(1.6, 1800.0, FOREVER),
    gate(1.9, 0.0, 1800.0),
    gate(30.0 / 13.0, 1.0, 400.0),
    gate(50.0 / 13.0, 0.1, 20.0),
    gate(100.0 / 13.0, 0.01, 0.2),
];
/// BS 1362, 3 A: 9 A 0.02 to 80 s, 20 A within 0.1 s, 30 A within 0.03 s. R2: the same article.
const PLUG_3: [Gate; 6] = [
    gate(1.0, FOREVER, FOREVER),
    gate(1.6, 1800.0, FOREVER),
    gate(1.9, 0.0, 1800.0),
    gate(3.0, 0.02, 80.0),
    gate(20.0 / 3.0, 0.0, 0.1),
    gate(10.0, 0.0, 0.03),
];

/// IEC 60127-2, standard sheet 5, time-lag: 1.5 for an hour (half an hour at 8 and 10 A), 2.1 within
/// 30 min, 2.75 in 0.75 to 80 s, 4 in 95 ms to 5 s, 10 in 10 to 150 ms; from 4 A on 150 ms and 20 ms.
/// R2: makers' data sheets of fuses to that sheet, the time-lag 5 x 20 mm series with ceramic tube.
const TIME_LAG_BELOW_4: [Gate; 6] = [
    gate(1.0, FOREVER, FOREVER),
    gate(1.5, HOUR, FOREVER),
    gate(2.1, 0.0, 1800.0),
    gate(2.75, 0.75, 80.0),
    gate(4.0, 0.095, 5.0),
    gate(10.0, 0.01, 0.15),
];
const TIME_LAG_FROM_4: [Gate; 6] = [
    TIME_LAG_BELOW_4[0],
    gate(1.5, 1800.0, FOREVER),
    TIME_LAG_BELOW_4[2],
    TIME_LAG_BELOW_4[3],
    gate(4.0, 0.15, 5.0),
    gate(10.0, 0.02, 0.15),
];

/// IEC 60269-1, gG of 16 to 32 A: 1.25 for an hour, 1.6 within the hour; the gates of the 16 A
/// link, 33 A for 10 s, 65 A within 5 s, 85 A for 0.1 s, 150 A within 0.1 s, as multiples. M.
const GENERAL: [Gate; 7] = [
    gate(1.0, FOREVER, FOREVER),
    gate(1.25, HOUR, FOREVER),
    gate(1.6, 0.0, HOUR),
    gate(33.0 / 16.0, 10.0, FOREVER),
    gate(65.0 / 16.0, 0.0, 5.0),
    gate(85.0 / 16.0, 0.1, FOREVER),
    gate(150.0 / 16.0, 0.0, 0.1),
];

/// UL 248: 100 % holds, 135 % within an hour, 200 % within 2 min (to 30 A). R2: a maker's fuse
/// guide. Time delay, class K and R to 30 A and 250 V: 500 % for 8 s at the least. R2: a published
/// extract of UL 248-9.
const TIME_DELAY: [Gate; 4] = [
    gate(1.0, FOREVER, FOREVER),
    gate(1.35, 0.0, HOUR),
    gate(2.0, 0.0, 120.0),
    gate(5.0, 8.0, FOREVER),
];

impl DeviceKind {
    /// The breakers that an outlet of unknown family may have behind it.
    const BREAKERS: [DeviceKind; 4] = [
        DeviceKind::IecBreaker(BreakerCurve::B),
        DeviceKind::UlBreaker,
        DeviceKind::JapaneseBreaker,
        DeviceKind::PlugFuse,
    ];

    /// The word that files use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            DeviceKind::IecBreaker(BreakerCurve::B) => "iec_60898_b",
            DeviceKind::IecBreaker(BreakerCurve::C) => "iec_60898_c",
            DeviceKind::IecBreaker(BreakerCurve::D) => "iec_60898_d",
            DeviceKind::UlBreaker => "ul_489",
            DeviceKind::JapaneseBreaker => "japanese_breaker",
            DeviceKind::PlugFuse => "bs_1362",
            DeviceKind::UnknownBreaker => "unknown",
            DeviceKind::TimeLagFuse => "iec_60127_t",
            DeviceKind::GeneralFuse => "iec_60269_gg",
            DeviceKind::TimeDelayFuse => "ul_248_time_delay",
        }
    }

    /// The standard that its gates come from.
    #[must_use]
    pub const fn standard(self) -> &'static str {
        match self {
            DeviceKind::IecBreaker(_) => "IEC 60898-1",
            DeviceKind::UlBreaker => "UL 489",
            DeviceKind::JapaneseBreaker => "Japanese wiring rules, article 33",
            DeviceKind::PlugFuse => "BS 1362",
            DeviceKind::UnknownBreaker => "IEC 60898-1, UL 489, BS 1362",
            DeviceKind::TimeLagFuse => "IEC 60127-2",
            DeviceKind::GeneralFuse => "IEC 60269-1",
            DeviceKind::TimeDelayFuse => "UL 248",
        }
    }

    /// True for a fuse.
    #[must_use]
    pub const fn is_fuse(self) -> bool {
        matches!(
            self,
            DeviceKind::PlugFuse | DeviceKind::TimeLagFuse | DeviceKind::GeneralFuse | DeviceKind::TimeDelayFuse
        )
    }

    /// The kinds that a person may find or fit in its place: the three types of a household
    /// breaker, else itself.
    #[must_use]
    pub fn choices(self) -> Vec<DeviceKind> {
        match self {
            DeviceKind::IecBreaker(_) => BreakerCurve::ALL.map(DeviceKind::IecBreaker).to_vec(),
            other => vec![other],
        }
    }

    /// Its gates at a rating, of the slow and of the quick part.
    const fn gates(self, rating: f64) -> (&'static [Gate], &'static [Gate]) {
        match self {
            DeviceKind::IecBreaker(curve) => (
                if rating > 32.0 { &IEC_ABOVE_32 } else { &IEC_TO_32 },
                match curve {
                    BreakerCurve::B => &IEC_B,
                    BreakerCurve::C => &IEC_C,
                    BreakerCurve::D => &IEC_D,
                },
            ),
            DeviceKind::UlBreaker => (if rating > 30.0 { &UL_ABOVE_30 } else { &UL_TO_30 }, &UL_INSTANT),
            DeviceKind::JapaneseBreaker => (if rating > 30.0 { &JAPAN_ABOVE_30 } else { &JAPAN_TO_30 }, &UL_INSTANT),
            DeviceKind::PlugFuse => (if rating <= 3.0 { &PLUG_3 } else { &PLUG_13 }, &[]),
            DeviceKind::UnknownBreaker => (&[], &[]),
            DeviceKind::TimeLagFuse => (
                if rating < 4.0 {
                    &TIME_LAG_BELOW_4
                } else {
                    &TIME_LAG_FROM_4
                },
                &[],
            ),
            DeviceKind::GeneralFuse => (&GENERAL, &[]),
            DeviceKind::TimeDelayFuse => (&TIME_DELAY, &[]),
        }
    }

    /// Multiples of the rating up to which it must hold for `seconds`, and from which it must open
    /// within them.
    fn band(self, rating: f64, seconds: f64) -> (f64, f64) {
        if self == DeviceKind::UnknownBreaker {
            return Self::BREAKERS
                .into_iter()
                .map(|kind| kind.band(rating, seconds))
                .reduce(|(hold, open), (other_hold, other_open)| (hold.min(other_hold), open.max(other_open)))
                .unwrap_or((1.0, f64::INFINITY));
        }
        let (slow, quick) = self.gates(rating);
        let (mut hold, mut open) = (0.0_f64, f64::INFINITY);
        for gate in slow.iter().chain(quick) {
            if gate.holds >= seconds {
                hold = hold.max(gate.times);
            }
            // Below its own time a gate bounds by its I²t.
            if gate.opens <= seconds {
                open = open.min(gate.times);
            } else if gate.opens.is_finite() && seconds > 0.0 {
                open = open.min(gate.times * (gate.opens / seconds).sqrt());
            }
        }
        (hold, open.max(hold))
    }
}

/// A breaker or a fuse with its rating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Protection {
    /// What it is.
    pub kind: DeviceKind,
    /// Rated current, r.m.s.
    pub rating: Current,
}

/// The part of half a cycle that a first peak lasts, at the least that 50 and 60 Hz give: 10 ms.
const HALF_CYCLE: f64 = 0.01;

impl Protection {
    /// The largest current that it surely carries for a time.
    #[must_use]
    pub fn holds_up_to(self, time: Time) -> Current {
        self.rating * self.kind.band(self.rating.si(), time.si()).0
    }

    /// The smallest current that surely opens it within a time; infinite where none does.
    #[must_use]
    pub fn trips_from(self, time: Time) -> Current {
        self.rating * self.kind.band(self.rating.si(), time.si()).1
    }

    /// What it does at a current, r.m.s., that flows for a time.
    #[must_use]
    pub fn verdict(self, current: Current, time: Time) -> Tripping {
        let (hold, open) = self.kind.band(self.rating.si(), time.si());
        let times = current / self.rating;
        if times <= hold {
            Tripping::Holds
        } else if times < open {
            Tripping::MayTrip
        } else {
            Tripping::Trips
        }
    }

    /// What it does at the first peak after switching on: half a cycle whose r.m.s. value is taken
    /// as the peak over √2, a sinusoid's crest factor.
    #[must_use]
    pub fn at_first_peak(self, peak: Current) -> Tripping {
        self.verdict(peak / SQRT_2, Time::from_si(HALF_CYCLE))
    }
}

/// What a load is to the rules for branch circuits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LoadKind {
    /// A welder or plasma cutter: it pulls and rests.
    Welder,
    /// Anything else with cord and plug.
    CordAndPlug,
}

impl DeviceKind {
    /// The largest part of the circuit's rating that a load may draw, and whether that counts the
    /// current while it flows (false) or its equivalent over the duty cycle, I·√D (true).
    ///
    /// Behind NEMA outlets: 80 % for a load with cord and plug (NFPA 70, 210.23(A)(1)); a welder counts
    /// by the multiplier √D (630.11(A), 20 % 0.45, 50 % 0.71; 630.31(A) for resistance welding). R2:
    /// teaching pages that quote the code. Elsewhere the equivalent current up to the rating, which
    /// plug and cable are made for: common practice, no source.
    #[must_use]
    pub const fn allowance(self, load: LoadKind) -> (Ratio, bool) {
        match (self, load) {
            (DeviceKind::UlBreaker | DeviceKind::UnknownBreaker, LoadKind::CordAndPlug) => (Ratio::from_si(0.8), false),
            _ => (Ratio::from_si(1.0), true),
        }
    }
}

impl Protection {
    /// The largest current, r.m.s. while it flows, that the rules for the branch circuit allow a load
    /// with a duty cycle ([`DeviceKind::allowance`]).
    #[must_use]
    pub fn allowed(self, load: LoadKind, duty: Ratio) -> Current {
        let (part, by_duty) = self.kind.allowance(load);
        let multiplier = if by_duty {
            duty.si().clamp(1e-9, 1.0).sqrt()
        } else {
            1.0
        };
        self.rating * (part.si() / multiplier)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(kind: DeviceKind, rating: f64) -> Protection {
        Protection {
            kind,
            rating: Current::from_si(rating),
        }
    }
    fn at(device: Protection, amps: f64, seconds: f64) -> Tripping {
        device.verdict(Current::from_si(amps), Time::from_si(seconds))
    }
    use Tripping::{Holds, MayTrip, Trips};

    /// IEC 60898-1 as makers' manuals print it: 3 x only to 0.1 s, 2.55 x to 1 s, 1.13 x for an hour;
    /// 1.45 x within the hour, 2.55 x within a minute, 5 x at once.
    #[test]
    fn a_household_breaker_follows_iec_60898() {
        let b16 = of(DeviceKind::IecBreaker(BreakerCurve::B), 16.0);
        for (times, seconds, expected) in [
            (2.99, 0.1, Holds),
            (2.99, 0.2, MayTrip),
            (3.01, 0.1, MayTrip),
            (5.0, 0.1, Trips),
            (2.54, 1.0, Holds),
            (2.54, 1.1, MayTrip),
            (2.56, 59.0, MayTrip),
            (2.56, 60.0, Trips),
            (1.13, 3600.0, Holds),
            (1.14, 3599.0, MayTrip),
            (1.44, 3600.0, MayTrip),
            (1.45, 3600.0, Trips),
            (1.45, 3599.0, MayTrip),
            (1.0, 1e6, Holds),
        ] {
            assert_eq!(at(b16, 16.0 * times, seconds), expected, "{times} x for {seconds} s");
        }
        let c16 = of(DeviceKind::IecBreaker(BreakerCurve::C), 16.0);
        assert_eq!(at(c16, 16.0 * 4.9, 0.1), Holds);
        assert_eq!(at(c16, 16.0 * 4.9, 0.2), MayTrip);
        // Above 32 A the standard gives 2.55 x two minutes.
        let b40 = of(DeviceKind::IecBreaker(BreakerCurve::B), 40.0);
        assert_eq!(at(b40, 40.0 * 2.56, 61.0), MayTrip);
        assert_eq!(at(b40, 40.0 * 2.56, 120.0), Trips);
    }

    /// UL 489: 100 % holds; 135 % trips within an hour; 200 % within 2 min. Japan: 125 %.
    #[test]
    fn other_breakers_follow_their_own_standards() {
        let ul = of(DeviceKind::UlBreaker, 15.0);
        let japan = of(DeviceKind::JapaneseBreaker, 15.0);
        assert_eq!(at(ul, 15.0, 1e6), Holds);
        assert_eq!(at(ul, 15.1, 0.1), MayTrip);
        assert_eq!(at(ul, 20.24, 3600.0), MayTrip);
        assert_eq!(at(ul, 20.25, 3600.0), Trips);
        assert_eq!(at(ul, 30.0, 120.0), Trips);
        assert_eq!(at(ul, 30.0, 119.0), MayTrip);
        assert_eq!(at(japan, 18.75, 3600.0), Trips);
        assert_eq!(at(ul, 18.75, 3600.0), MayTrip);
        assert_eq!(at(of(DeviceKind::UlBreaker, 40.0), 80.0, 120.0), MayTrip);
    }

    /// BS 1362, 13 A: 20.8 A for half an hour, 24.7 A within it, 30 A in 1 to 400 s, 50 A in 0.1 to
    /// 20 s, 100 A in 0.01 to 0.2 s. 3 A: 9 A in 0.02 to 80 s, 20 A within 0.1 s.
    #[test]
    fn a_plug_fuse_has_a_curve_of_its_own() {
        let fuse = of(DeviceKind::PlugFuse, 13.0);
        for (amps, seconds, expected) in [
            (20.8, 1800.0, Holds),
            (24.6, 1799.0, MayTrip),
            (24.71, 1800.0, Trips),
            (30.0, 1.0, Holds),
            (30.0, 400.0, Trips),
            (30.0, 100.0, MayTrip),
            (50.0, 0.1, Holds),
            (50.0, 20.0, Trips),
            (100.0, 0.01, Holds),
            (100.0, 0.2, Trips),
            (100.0, 0.1, MayTrip),
        ] {
            assert_eq!(at(fuse, amps, seconds), expected, "{amps} A for {seconds} s");
        }
        let three = of(DeviceKind::PlugFuse, 3.0);
        assert_eq!(at(three, 9.0, 0.02), Holds);
        assert_eq!(at(three, 20.0, 0.1), Trips);
    }

    /// Where the family is not known nothing holds that one family lets go, and nothing trips that
    /// one family holds.
    #[test]
    fn an_unknown_breaker_is_all_of_them() {
        let unknown = of(DeviceKind::UnknownBreaker, 13.0);
        for step in 0..60 {
            let seconds = 0.01 * 1.3_f64.powi(step);
            for kind in DeviceKind::BREAKERS {
                let known = of(kind, 13.0);
                let (hold, open) = (Time::from_si(seconds), Time::from_si(seconds));
                assert!(unknown.holds_up_to(hold) <= known.holds_up_to(hold));
                assert!(unknown.trips_from(open) >= known.trips_from(open));
            }
        }
    }

    /// The longer a current flows, the less of it holds and the less of it trips.
    #[test]
    fn every_curve_falls_with_time() {
        let kinds = DeviceKind::BREAKERS.into_iter().chain([
            DeviceKind::IecBreaker(BreakerCurve::D),
            DeviceKind::UnknownBreaker,
            DeviceKind::TimeLagFuse,
            DeviceKind::GeneralFuse,
            DeviceKind::TimeDelayFuse,
        ]);
        for kind in kinds {
            for rating in [3.0, 13.0, 16.0, 40.0] {
                let device = of(kind, rating);
                let mut last = (f64::INFINITY, f64::INFINITY);
                for step in 0..80 {
                    let time = Time::from_si(0.005 * 1.25_f64.powi(step));
                    let now = (device.holds_up_to(time).si(), device.trips_from(time).si());
                    assert!(now.0 <= last.0 && now.1 <= last.1 && now.0 <= now.1, "{kind:?} {now:?}");
                    assert!(now.0 >= rating, "{kind:?} carries its rating");
                    last = now;
                }
            }
        }
    }

    /// NFPA 70: 80 % of a 15 A circuit is 12 A (210.23(A)(1)); a welder's multiplier is 0.45 at 20 % and
    /// 0.71 at 50 % (630.11(A)).
    #[test]
    fn north_american_circuits_follow_the_code() {
        let ul = of(DeviceKind::UlBreaker, 15.0);
        let plug = ul.allowed(LoadKind::CordAndPlug, Ratio::from_si(1.0));
        assert!((plug.si() - 12.0).abs() < 1e-9);
        for (duty, multiplier) in [(0.2, 0.45), (0.5, 0.71), (1.0, 1.0)] {
            let welder = ul.allowed(LoadKind::Welder, Ratio::from_si(duty));
            assert!((15.0 / welder.si() - multiplier).abs() < 0.005, "{duty}");
        }
        let b16 = of(DeviceKind::IecBreaker(BreakerCurve::B), 16.0);
        assert!((b16.allowed(LoadKind::CordAndPlug, Ratio::from_si(1.0)).si() - 16.0).abs() < 1e-9);
    }
}
