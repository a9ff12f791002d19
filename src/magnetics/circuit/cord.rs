//! The supply cord of a rebuilt transformer, by the family of its outlet.

use crate::magnetics::circuit::protection::DeviceKind;
use crate::quantity::{Area, Current};
use crate::wire::AwgSize;

/// A size of flexible cord: live wires and ground (earth) wire alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cord {
    /// Its size as it is sold: `AWG 14` or `1.5 mm²`.
    pub label: &'static str,
    /// Section of each of its wires.
    pub section: Area,
    /// The largest steady current that it is for, r.m.s.
    pub carries: Current,
}

/// Copper cords with two wires under current, by number: amperes. NFPA 70, table 400.5(A)(1), column B
/// (R2: the abbreviated table of an appliance standard quotes 18 to 12; 10: M).
const NORTH_AMERICAN: [(i8, &str, f64); 5] = [
    (18, "AWG 18", 10.0),
    (16, "AWG 16", 13.0),
    (14, "AWG 14", 18.0),
    (12, "AWG 12", 25.0),
    (10, "AWG 10", 30.0),
];
/// mm² and amperes of IEC 60335-1, table 11, without what it allows to cords up to 2 m
/// (R2: a pump maker's manual prints the table).
const IEC: [(f64, &str, f64); 6] = [
    (0.75, "0.75 mm²", 6.0),
    (1.0, "1 mm²", 10.0),
    (1.5, "1.5 mm²", 16.0),
    (2.5, "2.5 mm²", 25.0),
    (4.0, "4 mm²", 32.0),
    (6.0, "6 mm²", 40.0),
];
/// mm² and amperes of Japanese round vinyl cord (VCTF) of two to four wires (R2: kizaihan.jp quotes
/// the cable makers' tables).
const JAPANESE: [(f64, &str, f64); 4] = [
    (0.75, "0.75 mm²", 7.0),
    (1.25, "1.25 mm²", 12.0),
    (2.0, "2 mm²", 17.0),
    (3.5, "3.5 mm²", 23.0),
];

/// The smallest cord of an outlet's family for a steady current; `None` above the largest.
///
/// The ground (earth) wire has the section of the live ones, as every cord of these sizes has
/// (IEC 60364-5-54, table 54.2, up to 16 mm²; M).
#[must_use]
pub fn cord_for(family: DeviceKind, steady: Current) -> Option<Cord> {
    let metric = |&(mm2, label, amps): &(f64, &'static str, f64)| Cord {
        label,
        section: Area::from_mm2(mm2),
        carries: Current::from_si(amps),
    };
    let mut cords: Vec<Cord> = match family {
        DeviceKind::UlBreaker | DeviceKind::TimeDelayFuse => NORTH_AMERICAN
            .iter()
            .filter_map(|&(number, label, amps)| {
                Some(Cord {
                    label,
                    section: AwgSize::new(number).ok()?.area(),
                    carries: Current::from_si(amps),
                })
            })
            .collect(),
        DeviceKind::JapaneseBreaker => JAPANESE.iter().map(metric).collect(),
        _ => IEC.iter().map(metric).collect(),
    };
    cords.retain(|cord| cord.carries >= steady);
    cords.first().copied()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::magnetics::circuit::protection::BreakerCurve;

    fn label(family: DeviceKind, amps: f64) -> Option<&'static str> {
        cord_for(family, Current::from_si(amps)).map(|cord| cord.label)
    }

    /// NFPA 70, table 400.5(A)(1), column B: 18 carries 10 A, 16 13 A, 14 18 A, 12 25 A.
    #[test]
    fn a_north_american_cord_follows_table_400_5() {
        let ul = DeviceKind::UlBreaker;
        for (amps, expected) in [
            (10.0, "AWG 18"),
            (10.1, "AWG 16"),
            (13.1, "AWG 14"),
            (18.1, "AWG 12"),
            (25.1, "AWG 10"),
        ] {
            assert_eq!(label(ul, amps), Some(expected), "{amps} A");
        }
        assert_eq!(label(ul, 31.0), None);
        // ASTM B258: AWG 14 has 2.08 mm².
        let section = cord_for(ul, Current::from_si(15.0)).unwrap().section;
        assert!((section.mm2() - 2.08).abs() < 0.005, "{section:?}");
    }

    /// IEC 60335-1, table 11: up to 6 A 0.75 mm², 10 A 1.0, 16 A 1.5, 25 A 2.5, 32 A 4.
    #[test]
    fn a_metric_cord_follows_iec_60335() {
        for family in [DeviceKind::IecBreaker(BreakerCurve::B), DeviceKind::PlugFuse] {
            for (amps, expected) in [
                (6.0, "0.75 mm²"),
                (6.1, "1 mm²"),
                (13.0, "1.5 mm²"),
                (16.1, "2.5 mm²"),
                (26.0, "4 mm²"),
            ] {
                assert_eq!(label(family, amps), Some(expected), "{amps} A");
            }
        }
    }

    /// VCTF by the makers' tables: 7, 12, 17, 23 A.
    #[test]
    fn a_japanese_cord_has_its_own_sizes() {
        let japan = DeviceKind::JapaneseBreaker;
        assert_eq!(label(japan, 15.0), Some("2 mm²"));
        assert_eq!(label(japan, 12.0), Some("1.25 mm²"));
        assert_eq!(label(japan, 24.0), None);
    }
}
