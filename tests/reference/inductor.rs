//! Gaps, chokes and ballasts against published forms, a field computation and each other.

#![allow(clippy::unwrap_used)]

use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::core::gap::{
    Gaps, fringing_factor, gap_reluctance, plane_fringing_factor, window_leakage_permeance,
};
use curbcore::magnetics::core::steel::Steel;
use curbcore::magnetics::core::steel_grades::SteelGrade;
use curbcore::magnetics::inductor::design::{Ballast, InductorError, InductorWish};
use curbcore::magnetics::inductor::{Conductor, Inductor, Load, sheets};
use curbcore::quantity::{
    Area, Current, FluxDensity, Frequency, Inductance, Input, Length, Measured, Origin, Ratio, Resistance, Temperature,
    Voltage, widest_inputs,
};
use curbcore::wire::Metal;

fn exact_mm(mm: f64) -> Measured<Length> {
    Measured::exact(Length::from_mm(mm), Origin::Calipers)
}

fn core() -> EiCore {
    EiCore::new(exact_mm(30.0), exact_mm(50.0), exact_mm(15.0), exact_mm(45.0))
}

fn check(what: &str, actual: f64, expected: f64, tolerance: f64) {
    let error = actual / expected - 1.0;
    assert!(
        error.abs() <= tolerance,
        "{what}: {actual} against {expected}, {:.3} %",
        100.0 * error
    );
}

/// `McLyman`'s fringing form and the textbook gapped inductance L = μ₀N²A/lg, worked by hand:
/// 10 cm², 1 mm, G 40 mm: F 1.1386 and, at 100 turns, 12.57 mH without fringing; 16 cm², 1 mm,
/// G 45 mm: F 1.1125, 20.1 mH without and 22.4 mH with.
#[test]
fn mclyman_gapped_inductor() {
    let mm = Length::from_mm;
    let millihenries =
        |cm2: f64, factor: f64| 1e4 * 1e3 / gap_reluctance(mm(1.0), Area::from_cm2(cm2), Ratio::from_si(factor)).si();
    let small = fringing_factor(mm(1.0), Area::from_cm2(10.0), mm(40.0)).si();
    check("F", small, 1.1386, 1e-3);
    check("L", millihenries(10.0, 1.0), 12.57, 1e-3);
    let large = fringing_factor(mm(1.0), Area::from_cm2(16.0), mm(45.0)).si();
    check("F", large, 1.1125, 1e-3);
    check("L", millihenries(16.0, 1.0), 20.1, 5e-3);
    check("L", millihenries(16.0, large), 22.4, 5e-3);
}

/// scikit-fem 12.0.2, plane field of an E-I core with equal gaps in all legs and a coil that
/// fills the window: L/N² 2164.6, 1192.0 and 693.3 nH at 0.5, 1 and 2 mm, of it 125.7 nH window
/// leakage. The lumped model, cut down to the plane, stays within 2 %.
#[test]
fn gap_field_of_finite_elements() {
    let core = core();
    let leakage = window_leakage_permeance(&core) * 1e9;
    check("window leakage", leakage, 125.7, 1e-3);
    for (gap, expected) in [(0.5, 2164.6), (1.0, 1192.0), (2.0, 693.3)] {
        let gap = Length::from_mm(gap);
        let face = |width: Length| {
            let fringing = plane_fringing_factor(gap, width, core.window_height.value);
            gap_reluctance(gap, width * core.stack.value, fringing).si()
        };
        let reluctance = face(core.tongue.value) + face(core.outer_limb.value) / 2.0;
        check(&format!("{} mm", gap.mm()), 1e9 / reluctance + leakage, expected, 0.02);
    }
}

/// A shim under the whole I: tongue's gap and limbs' in series, so without fringing twice its
/// thickness; fringing takes some of it back (geometry).
#[test]
fn shim_counts_twice() {
    let thin = Gaps::NONE.with_shim(exact_mm(0.01)).effective(&core()).mm();
    assert!(thin > 0.0196 && thin < 0.02, "{thin}");
    let mut ground = Gaps::NONE;
    ground.ground_tongue = exact_mm(0.01);
    let ground = ground.effective(&core()).mm();
    assert!(ground > 0.0098 && ground < 0.01, "{ground}");
}

fn wish() -> InductorWish {
    InductorWish {
        core: core(),
        steel: Steel::of(SteelGrade::M530_50A),
        gaps: Gaps::REASSEMBLED,
        conductor: Conductor {
            metal: Metal::Copper,
            section: Area::from_mm2(3.15),
            insulated_diameter: Length::from_mm(2.1),
        },
        usable: Ratio::from_si(0.7),
        inductance: Inductance::from_millihenries(8.0),
        load: Load {
            direct: Current::from_si(10.0),
            swing: Current::from_si(2.0),
            frequency: Frequency::from_si(100.0),
        },
        limit: FluxDensity::from_si(1.3),
        temperature: Measured::exact(Temperature::from_si(80.0), Origin::Chosen),
    }
}

/// The design does what was asked, and its linkage agrees with λ = N B A + leakage · N² Î.
#[test]
fn design_gives_what_was_asked() {
    let wish = wish();
    let built = wish.design().unwrap();
    let work = built.work().unwrap();
    check("L", work.inductance.millihenries(), 8.0, 1e-6);
    assert!(
        work.peak_density.si() <= 1.3 && work.peak_density.si() > 1.2,
        "{work:?}"
    );
    assert!(work.window_share.si() <= 0.7, "{work:?}");
    // Below saturation the inductance is the same at every current: L Î = λ (McLyman's turns
    // equation N = L Î / (B A), with the windows' leakage added).
    let turns = built.turns.value.si();
    let linkage = turns * work.peak_density.si() * wish.core.net_area().si()
        + turns * turns * window_leakage_permeance(&wish.core) * 12.0;
    check("λ", linkage, 8e-3 * 12.0, 0.02);
    // Copper at 80 °C: 17.241 nΩ·m × (1 + 0.00393 × 60) over 3.15 mm² (IEC 60028).
    let ohms = 1.7241e-8 * 1.2358 * turns * (160.0 + std::f64::consts::PI * 15.0) * 1e-3 / 3.15e-6;
    check("R", work.resistance.si(), ohms, 1e-6);
    check("I²R", work.copper_loss.si(), (100.0 + 2.0) * ohms, 1e-6);
    check(
        "sheets",
        sheets(built.gaps.shim.value, Length::from_mm(0.1)),
        built.gaps.shim.value.mm() * 10.0,
        1e-9,
    );
    let (estimate, spread) = built.work_with_uncertainty().unwrap();
    assert!(estimate.inductance.plus_minus.millihenries() > 0.1, "{estimate:?}");
    assert_eq!(widest_inputs(&spread, 0)[0].input, Input::GapAtTheFaces);
}

/// What can't be had is refused with the nearest that can.
#[test]
fn refusals_name_the_nearest() {
    let mut much = wish();
    much.inductance = Inductance::from_millihenries(80.0);
    match much.design() {
        Err(InductorError::TooManyTurns { fit, most, .. }) => {
            assert!((fit - (0.7 * 675.0 / 4.41_f64).floor()).abs() < 1e-9);
            much.inductance = most * 0.95;
            assert!(much.design().is_ok());
        }
        other => panic!("{other:?}"),
    }
    let mut tiny = wish();
    tiny.load.direct = Current::from_si(200.0);
    tiny.inductance = Inductance::from_millihenries(0.5);
    match tiny.design() {
        Err(InductorError::ShimTooWide { nearest, .. }) => assert!(nearest.millihenries() > 0.0),
        other => panic!("{other:?}"),
    }
    tiny.inductance = Inductance::ZERO;
    assert_eq!(tiny.design(), Err(InductorError::NotAboveZero("the inductance")));
}

/// The ballast's triangle: 230 V, arc 120 V, 2 A, no resistance: √(230² − 120²)/2 = 98.11 Ω
/// (phasor sum, any circuits textbook).
#[test]
fn ballast_triangle() {
    let ballast = Ballast {
        mains: Voltage::from_si(230.0),
        frequency: Frequency::from_si(50.0),
        arc: Voltage::from_si(120.0),
        current: Current::from_si(2.0),
    };
    check("X", ballast.reactance(Resistance::ZERO).unwrap().si(), 98.107, 1e-4);
    let mut wish = wish();
    wish.conductor.section = Area::from_mm2(0.636);
    wish.conductor.insulated_diameter = Length::from_mm(0.97);
    let built = ballast.design(&wish).unwrap();
    let work = built.work().unwrap();
    let in_phase: f64 = 120.0 + 2.0 * work.resistance.si();
    let across = 2.0 * work.inductance.si() * std::f64::consts::TAU * 50.0;
    check("back to the mains", in_phase.hypot(across), 230.0, 2e-3);
    let refused = Ballast {
        arc: Voltage::from_si(200.0),
        ..ballast
    };
    assert!(matches!(
        refused.reactance(Resistance::ZERO),
        Err(InductorError::ArcVoltageTooHigh { .. })
    ));
}

/// Reference ballasts of mercury lamps at 220 V (IEC 60188, from memory): 125 W 1.15 A 125 V
/// 134 Ω; 250 W 2.13 A 130 V 71 Ω; 400 W 3.25 A 135 V 45 Ω. A real arc's voltage isn't a sine:
/// the phasor sum is 15 to 19 % above them, as its description says.
#[test]
fn real_lamps_want_less_reactance() {
    for (amperes, arc, ohms) in [(1.15, 125.0, 134.0), (2.13, 130.0, 71.0), (3.25, 135.0, 45.0)] {
        let ballast = Ballast {
            mains: Voltage::from_si(220.0),
            frequency: Frequency::from_si(50.0),
            arc: Voltage::from_si(arc),
            current: Current::from_si(amperes),
        };
        let over = ballast.reactance(Resistance::ZERO).unwrap().si() / ohms;
        assert!((1.15..1.20).contains(&over), "{over}");
    }
}

/// Saturation: far above the knee the inductance falls towards the coil's own in air.
#[test]
fn inductance_falls_when_the_steel_saturates() {
    let built: Inductor = wish().design().unwrap();
    let curve = built.inductance_curve(Current::from_si(60.0), 13);
    assert_eq!(curve.len(), 13);
    assert!(curve[12].1 < curve[0].1 * 0.4, "{curve:?}");
    check("flat below the knee", curve[2].1 / curve[1].1, 1.0, 0.05);
}
