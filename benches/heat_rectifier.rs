//! How long heat, rectifiers, charging and the shell circuit take.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::heat::Cycle;
use curbcore::magnetics::heat::duty::{DutyQuestion, Insulation};
use curbcore::magnetics::heat::network::{Heating, Temperatures, ThermalInputs, WindingHeat};
use curbcore::magnetics::heat::thermal_class::ThermalClass;
use curbcore::magnetics::rectifier::charger::{
    ChargeLimits, Charger, LeadAcid, typical_efficiency, typical_polarisation,
};
use curbcore::magnetics::rectifier::{Connection, DiodeLine, DirectLoad, Rectifier};
use curbcore::quantity::{
    Current, Length, Mass, Measured, Origin, Power, Quantity, Ratio, Resistance, Temperature, TemperatureRise, Time,
};
use curbcore::wire::Metal;
use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

fn measured<Q: Quantity>(si: f64) -> Measured<Q> {
    Measured::new(Q::from_si(si), Q::from_si(si * 0.02), Origin::Meter)
}

fn thermal() -> ThermalInputs {
    let mm = |v: f64| measured::<Length>(v * 1e-3);
    let coil = |ohms: f64, kilograms: f64| WindingHeat {
        metal: Metal::Copper,
        mass: measured::<Mass>(kilograms),
        resistance_20: measured::<Resistance>(ohms),
        length: mm(22.0),
        build: mm(15.0),
    };
    let core = EiCore::new(mm(32.0), mm(60.0), mm(17.0), mm(50.0));
    ThermalInputs::typical(core, coil(0.35, 0.8), coil(2.1e-3, 0.6))
}

fn question() -> DutyQuestion {
    DutyQuestion {
        on: Heating {
            primary: Current::from_si(14.0),
            winding: Current::from_si(180.0),
            core: Power::from_si(40.0),
        },
        pause: Heating::NONE,
        insulation: Insulation {
            primary: ThermalClass::A,
            winding: ThermalClass::A,
        },
        cool: TemperatureRise::from_si(20.0),
    }
}

/// Sixty minutes of history, a minute on in each ten: wanted under 1 ms.
#[divan::bench]
fn history_of_an_hour(bencher: Bencher) {
    let network = thermal().network();
    let cold = Temperatures::all(Temperature::from_si(25.0));
    let cycle = Cycle {
        on: question().on,
        pause: Heating::NONE,
        on_time: Time::from_minutes(1.0),
        period: Time::from_minutes(10.0),
    };
    bencher.bench(|| network.history(black_box(cold), &cycle, Time::from_minutes(60.0), Time::from_si(15.0)));
}

/// Permitted duty, time to limit, cooling.
#[divan::bench]
fn duty(bencher: Bencher) {
    let inputs = thermal();
    bencher.bench(|| black_box(&inputs).duty(&question()));
}

/// The same with uncertainty.
#[divan::bench]
fn duty_with_uncertainty(bencher: Bencher) {
    let inputs = thermal();
    bencher.bench(|| black_box(&inputs).duty_with_uncertainty(&question()));
}

fn rectifier(load: DirectLoad) -> Rectifier {
    Rectifier {
        connection: Connection::Bridge,
        open_voltage: measured(14.5),
        frequency: measured(60.0),
        source_resistance: measured(0.05),
        leakage: measured(80e-6),
        diode: DiodeLine {
            threshold: measured(0.75),
            slope: measured(5e-3),
        },
        load,
    }
}

/// A bridge into a smoothing capacitor.
#[divan::bench]
fn bridge_into_capacitor(bencher: Bencher) {
    let supply = rectifier(DirectLoad::Reservoir {
        capacitance: measured(22e-3),
        resistance: measured(4.0),
    });
    bencher.bench(|| black_box(&supply).steady());
}

/// A bridge through a choke, with commutation.
#[divan::bench]
fn bridge_through_choke(bencher: Bencher) {
    let arc = rectifier(DirectLoad::BackVoltage {
        emf: measured(6.0),
        resistance: measured(0.04),
        choke: measured(500e-6),
    });
    bencher.bench(|| black_box(&arc).steady());
}

/// The whole charge of a battery.
#[divan::bench]
fn charging_curve(bencher: Bencher) {
    let charger = Charger {
        rectifier: rectifier(DirectLoad::Reservoir {
            capacitance: measured(1e-3),
            resistance: measured(1.0),
        }),
        choke: Measured::exact(Quantity::from_si(0.0), Origin::Chosen),
        battery: LeadAcid {
            cells: 6,
            capacity: measured(60.0 * 3600.0),
            resistance: measured(0.03),
            polarisation: typical_polarisation(),
            rest: Measured::exact(Ratio::ZERO, Origin::Chosen),
            efficiency: typical_efficiency(),
        },
    };
    bencher.bench(|| black_box(&charger).curve(ChargeLimits::common_practice()));
}
