//! What must hold for every steel, gap and voltage.

use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::core::gap::Gaps;
use curbcore::magnetics::core::path::CorePath;
use curbcore::magnetics::core::steel::{Steel, SteelKind};
use curbcore::magnetics::idle::{Idle, typical_window_leakage};
use curbcore::magnetics::inductor::{Conductor, Inductor, Load};
use curbcore::quantity::{
    Area, Current, FluxDensity, Frequency, Length, Measured, Origin, Ratio, Resistance, Temperature, Turns, Voltage,
};
use curbcore::wire::Metal;
use proptest::prelude::*;

fn exact_mm(mm: f64) -> Measured<Length> {
    Measured::exact(Length::from_mm(mm), Origin::Calipers)
}

fn steel(position: f64) -> Steel {
    let mut steel = Steel::UNKNOWN;
    if let SteelKind::Unknown(at) = &mut steel.kind {
        at.value = Ratio::from_si(position);
    }
    steel
}

fn core(tongue: f64, stack: f64) -> EiCore {
    EiCore::new(
        exact_mm(tongue),
        exact_mm(stack),
        exact_mm(tongue * 0.5),
        exact_mm(tongue * 1.5),
    )
}

proptest! {
    #[test]
    fn field_rises_with_density(position in -1.2..1.2f64, low in 0.0..2.6f64, more in 1e-4..0.5f64) {
        let curve = steel(position).magnetisation();
        let at = |b: f64| curve.field(FluxDensity::from_si(b)).si();
        prop_assert!(at(low + more) > at(low));
        prop_assert!((at(-low) + at(low)).abs() < 1e-9 * at(low).max(1.0));
        prop_assert!(curve.differential_permeability(FluxDensity::from_si(low)).si() >= 0.999);
    }

    #[test]
    fn loss_rises_with_density_and_frequency(position in -1.0..1.0f64, low in 0.01..2.0f64, more in 1e-3..0.3f64) {
        let loss = steel(position).loss();
        let at = |b: f64, f: f64| loss.at(FluxDensity::from_si(b), Frequency::from_si(f)).si();
        prop_assert!(at(low + more, 50.0) > at(low, 50.0));
        prop_assert!(at(low, 60.0) > 1.2 * at(low, 50.0));
    }

    #[test]
    fn flux_and_ampere_turns_are_inverse(position in -1.0..1.0f64, gap in 0.0..2.0f64, amperes in 0.01..1e5f64) {
        let gaps = Gaps::NONE.with_shim(exact_mm(gap));
        let path = CorePath::new(&core(30.0, 50.0), &steel(position), &gaps);
        let back = path.ampere_turns(path.flux(Current::from_si(amperes))).si();
        prop_assert!((back / amperes - 1.0).abs() < 1e-9, "{back} {amperes}");
    }

    #[test]
    fn inductance_falls_with_gap(position in -1.0..1.0f64, gap in 0.0..2.5f64, more in 0.01..0.5f64, direct in 0.0..3.0f64) {
        let at = |mm: f64| {
            Inductor {
                core: core(30.0, 50.0),
                steel: steel(position),
                gaps: Gaps::NONE.with_shim(exact_mm(mm)),
                turns: Measured::exact(Turns::from_si(80.0), Origin::Counted),
                conductor: Conductor {
                    metal: Metal::Copper,
                    section: Area::from_mm2(2.0),
                    insulated_diameter: Length::from_mm(1.7),
                },
                load: Load { direct: Current::ZERO, swing: Current::from_si(0.1 + direct), frequency: Frequency::from_si(50.0) },
                temperature: Measured::exact(Temperature::from_si(20.0), Origin::Chosen),
            }
            .work()
            .map(|work| work.inductance.si())
        };
        prop_assert!(at(gap + more) < at(gap));
    }

    #[test]
    fn idle_current_rises_with_voltage_and_gap(
        position in -1.0..1.0f64, tongue in 20.0..45.0f64, stack in 30.0..80.0f64,
        volts in 60.0..250.0f64, more in 0.5..60.0f64, gap in 0.0..1.0f64,
    ) {
        let at = |volts: f64, gap: f64| {
            Idle {
                core: core(tongue, stack),
                steel: steel(position),
                gaps: Gaps::NONE.with_shim(exact_mm(gap)),
                turns: Measured::exact(Turns::from_si(250.0), Origin::Counted),
                voltage: Measured::exact(Voltage::from_si(volts), Origin::Meter),
                frequency: Frequency::from_si(50.0),
                resistance: Measured::exact(Resistance::from_si(1.0), Origin::Meter),
                window_leakage: typical_window_leakage(),
            }
            .draw()
            .map(|draw| draw.current.si())
        };
        prop_assert!(at(volts + more, gap) > at(volts, gap));
        prop_assert!(at(volts, gap + 0.05) > at(volts, gap));
    }
}
