//! First inrush peaks against ngspice (`tests/reference/inrush/`), and breakers.

#![allow(clippy::unwrap_used)]

use curbcore::magnetics::circuit::protection::{BreakerCurve, DeviceKind, Protection, Tripping};
use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::core::gap::Gaps;
use curbcore::magnetics::core::steel::Steel;
use curbcore::magnetics::core::steel_grades::SteelGrade;
use curbcore::magnetics::idle::inrush::Inrush;
use curbcore::quantity::{Angle, Current, Frequency, Length, Measured, Origin, Ratio, Resistance, Turns, Voltage};

fn inrush(grade: SteelGrade, ohms: f64, remanence: f64) -> Inrush {
    let mm = |mm: f64| Measured::exact(Length::from_mm(mm), Origin::Calipers);
    let mut core = EiCore::new(mm(30.0), mm(50.0), mm(15.0), mm(45.0));
    core.stacking_factor = Measured::exact(Ratio::from_si(0.95), Origin::Typical);
    Inrush {
        core,
        steel: Steel::exactly(grade),
        gaps: Gaps::NONE,
        turns: Measured::exact(Turns::from_si(480.0), Origin::Counted),
        voltage: Measured::exact(Voltage::from_si(230.0), Origin::Meter),
        frequency: Frequency::from_si(50.0),
        resistance: Measured::exact(Resistance::from_si(ohms), Origin::Meter),
        remanence: Measured::exact(Ratio::from_si(remanence), Origin::Typical),
    }
}

/// ngspice, the winding as a behavioural current source over its flux linkage: within 5 %.
#[test]
fn first_peak_against_ngspice() {
    let mut count = 0;
    for line in include_str!("inrush/inrush.csv").lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let n: Vec<f64> = cells[1..].iter().map(|cell| cell.parse().unwrap()).collect();
        let case = inrush(SteelGrade::from_word(cells[0]).unwrap(), n[1], n[2]);
        let peak = case.first_peak(Angle::from_degrees(n[0])).unwrap().peak.si();
        let error = peak / n[3] - 1.0;
        assert!(error.abs() < 0.05, "{line}: {peak}, {:.2} %", 100.0 * error);
        count += 1;
    }
    assert_eq!(count, 12);
}

/// The worst instant is near the voltage's zero and no other angle exceeds it by 1 %.
#[test]
fn worst_angle_is_the_worst() {
    let case = inrush(SteelGrade::M530_50A, 1.0, 0.6);
    let worst = case.worst_first_peak().unwrap();
    assert!(worst.closing_angle.degrees().abs() < 35.0, "{worst:?}");
    for degrees in (0..360).step_by(10) {
        let peak = case.first_peak(Angle::from_degrees(f64::from(degrees))).unwrap().peak;
        assert!(peak.si() <= worst.peak.si() * 1.01, "{degrees}: {peak:?} {worst:?}");
    }
    let uncertain = case.remembering();
    let (estimate, _) = uncertain.worst_first_peak_with_uncertainty().unwrap();
    assert!(
        estimate.peak.plus_minus.si() > 0.05 * estimate.peak.value.si(),
        "{estimate:?}"
    );
}

/// A loop resistance of many ohms carries the whole voltage at most: the peak stays below V̂/R.
#[test]
fn resistance_bounds_the_peak() {
    let peak = inrush(SteelGrade::M400_50A, 10.0, 0.8).worst_first_peak().unwrap().peak;
    assert!(peak.si() < 230.0 * std::f64::consts::SQRT_2 / 10.0, "{peak:?}");
}

/// IEC 60898-1 instantaneous tripping (R2: makers' manuals): B 3 to 5, C 5 to 10, D 10 to 20 times.
#[test]
fn breaker_types() {
    let at = |curve, times: f64| {
        let device = Protection {
            kind: DeviceKind::IecBreaker(curve),
            rating: Current::from_si(10.0),
        };
        device.at_first_peak(Current::from_si(10.0 * times * std::f64::consts::SQRT_2))
    };
    for (curve, holds, trips) in [
        (BreakerCurve::B, 3.0, 5.0),
        (BreakerCurve::C, 5.0, 10.0),
        (BreakerCurve::D, 10.0, 20.0),
    ] {
        assert_eq!(at(curve, holds - 0.01), Tripping::Holds);
        assert_eq!(at(curve, holds + 0.01), Tripping::MayTrip);
        assert_eq!(at(curve, trips - 0.01), Tripping::MayTrip);
        assert_eq!(at(curve, trips + 0.01), Tripping::Trips);
    }
}
