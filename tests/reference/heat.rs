//! Heat and duty against outside values.

use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::heat::duty::{DutyQuestion, Insulation, NEVER, current_at_duty};
use curbcore::magnetics::heat::film::{Air, Surroundings, nusselt_stream, nusselt_vertical_plate};
use curbcore::magnetics::heat::network::{Heating, Network, Temperatures, ThermalInputs, WindingHeat};
use curbcore::magnetics::heat::thermal_class::ThermalClass;
use curbcore::magnetics::heat::{Cycle, HeatPoint};
use curbcore::magnetics::winding::short_time::{
    COPPER_MELTS, adiabatic_temperature, adiabatic_time, circular_mils, onderdonk_current, preece_fusing_current,
};
use curbcore::quantity::{
    Area, Current, CurrentDensity, HeatCapacity, Input, Length, Mass, Measured, Origin, Power, Ratio, Resistance,
    Temperature, TemperatureRise, ThermalConductance, Time, Velocity, widest_inputs,
};
use curbcore::wire::Metal;
use proptest::prelude::*;

fn close(what: &str, got: f64, expected: f64, relative: f64) {
    let error = got / expected - 1.0;
    assert!(
        error.abs() <= relative,
        "{what}: got {got}, expected {expected}, off by {:.3} %",
        100.0 * error
    );
}

/// Incropera and `DeWitt`, Fundamentals of Heat and Mass Transfer: table A.4 at 300, 350 and
/// 400 K; example 9.2 (screen of a fireplace, Ra 1.813e9, Pr 0.690 → Nu 147); example 7.1
/// (Re 9597, Pr 0.687 → Nu 57.4). From memory.
#[test]
fn films_of_the_textbook() {
    for (kelvins, viscosity, conductivity, prandtl) in [
        (300.0, 15.89e-6, 26.3e-3, 0.707),
        (350.0, 20.92e-6, 30.0e-3, 0.700),
        (400.0, 26.41e-6, 33.8e-3, 0.690),
    ] {
        let air = Air::at(Temperature::from_si(kelvins - 273.15));
        close("viscosity", air.viscosity, viscosity, 0.03);
        close("conductivity", air.conductivity, conductivity, 0.03);
        close("Prandtl number", air.prandtl, prandtl, 0.03);
    }
    close("free", nusselt_vertical_plate(1.813e9, 0.690), 147.0, 0.005);
    close("stream", nusselt_stream(9597.0, 0.687), 57.4, 0.002);
}

/// ISO 669: 1000 A at 50 % heats like 3162 A at 5 %. IEC 60974-1: I √D.
#[test]
fn duty_conversion() {
    let percent = Ratio::from_percent;
    let short = current_at_duty(Current::from_si(1000.0), percent(50.0), percent(5.0));
    close("at 5 %", short.si(), 3162.0, 1e-3);
    let continuous = current_at_duty(Current::from_si(100.0), percent(36.0), percent(100.0));
    close("continuous", continuous.si(), 60.0, 1e-12);
    assert_eq!(
        current_at_duty(Current::from_si(100.0), Ratio::ZERO, percent(50.0)),
        Current::ZERO
    );
}

/// Fusing currents: tables after Preece print 333 A for AWG 10 (2.588 mm) and 58.5 A for AWG 20
/// (0.8128 mm) copper (from memory); Onderdonk's form with 234 + Ta gives 169 A for AWG 16
/// (2583 circular mils) in 5 s.
#[test]
fn fusing_currents() {
    close(
        "Preece, AWG 10",
        preece_fusing_current(Length::from_mm(2.588)).si(),
        333.0,
        0.005,
    );
    close(
        "Preece, AWG 20",
        preece_fusing_current(Length::from_mm(0.8128)).si(),
        58.5,
        0.005,
    );
    let area = Area::from_mm2(std::f64::consts::FRAC_PI_4 * 1.2908 * 1.2908);
    close("circular mils, AWG 16", circular_mils(area), 2583.0, 0.001);
    let onderdonk = onderdonk_current(area, Time::from_si(5.0), Temperature::from_si(25.0), COPPER_MELTS);
    close("Onderdonk, AWG 16", onderdonk.si(), 169.0, 0.005);
}

/// Short-circuit heating of IEC 60949: `I = K S √(ln((θf + β)/(θi + β))/t)`, K 226 and β 234.5 for
/// copper, K 148 and β 228 for aluminium, A·s^½/mm² (from memory). Its aluminium takes
/// 2.50e6 J/(K·m³), ours 2.42e6 (CRC Handbook), hence the width.
#[test]
fn adiabatic_heating() {
    for (metal, k, beta) in [(Metal::Copper, 226.0, 234.5), (Metal::Aluminium, 148.0, 228.0)] {
        let (from, to, seconds): (f64, f64, f64) = (40.0, 160.0, 2.0);
        let standard = k * (((to + beta) / (from + beta)).ln() / seconds).sqrt();
        let density = CurrentDensity::from_a_per_mm2(standard);
        let (from, to) = (Temperature::from_si(from), Temperature::from_si(to));
        // Time goes with the square of the current.
        close("time", adiabatic_time(metal, density, from, to).si(), seconds, 0.04);
        let back = adiabatic_temperature(metal, density, Time::from_si(seconds), from);
        close("rise", back.above(from).si(), 120.0, 0.04);
    }
}

#[test]
fn thermal_classes() {
    // PVC wire and rubber cable of EN 50525 (M), then IEC 60085.
    let limits = ThermalClass::ALL.map(|class| class.limit().si());
    assert_eq!(limits, [70.0, 85.0, 90.0, 105.0, 120.0, 130.0, 155.0, 180.0]);
}

/// The network of tests/reference/heat/network.py.
fn network(air_speed: f64) -> Network {
    Network {
        capacity: [1.1 * 385.0, 0.6 * 385.0, 3.4 * 490.0].map(HeatCapacity::from_si),
        surface: [0.012, 0.009, 0.045].map(Area::from_si),
        height: [0.025, 0.020, 0.085].map(Length::from_si),
        to_core: [0.55, 0.45].map(ThermalConductance::from_si),
        between: ThermalConductance::from_si(0.12),
        resistance_20: [0.35, 0.0021].map(Resistance::from_si),
        metal: [Metal::Copper; 2],
        film_scale: Ratio::from_si(1.0),
        around: Surroundings {
            ambient: Temperature::from_si(25.0),
            air_speed: Velocity::from_si(air_speed),
            emissivity: Ratio::from_si(0.9),
        },
    }
}

fn heating(v: &[f64]) -> Heating {
    Heating {
        primary: Current::from_si(v[0]),
        winding: Current::from_si(v[1]),
        core: Power::from_si(v[2]),
    }
}

fn mean_limit(t: Temperatures) -> f64 {
    t.primary.max(t.winding).si() - 120.0
}

/// Against scipy's LSODA on an independently written equation with its own air (rises within
/// 1.5 %, which is what the two descriptions of air differ by; times and duty within 3 %).
#[test]
fn scipy_agrees() {
    let text = include_str!("heat/network.csv");
    let cold = Temperatures::all(Temperature::from_si(25.0));
    let mut seen = 0;
    for line in text.lines().skip(1) {
        let fields: Vec<&str> = line.split(',').collect();
        let v: Vec<f64> = fields[2..].iter().map(|f| f.parse().unwrap()).collect();
        let (on, pause) = (heating(&v[0..3]), heating(&v[3..6]));
        let net = network(v[9]);
        let check = |t: Temperatures| {
            for (got, expected) in [t.primary, t.winding, t.core].into_iter().zip(&v[10..13]) {
                close(line, got.si() - 25.0, expected - 25.0, 0.015);
            }
        };
        match fields[0] {
            "history" => {
                let cycle = Cycle {
                    on,
                    pause,
                    on_time: Time::from_si(v[6]),
                    period: Time::from_si(v[7]),
                };
                let history: Vec<HeatPoint> = net.history(cold, &cycle, Time::from_si(v[8]), Time::from_si(15.0));
                let last = history.last().unwrap();
                close("end", last.time.si(), v[8], 1e-9);
                check(last.temperatures);
            }
            "steady" => check(net.steady(&on).unwrap()),
            "time to 120" => {
                let got = net.time_until(cold, &on, NEVER, mean_limit).unwrap();
                close(line, got.si(), v[10], 0.03);
            }
            "cooling to 45" => {
                let start = Temperatures {
                    primary: Temperature::from_si(120.0),
                    winding: Temperature::from_si(118.0),
                    core: Temperature::from_si(85.0),
                };
                close(
                    line,
                    net.cooling_time(start, Temperature::from_si(45.0)).unwrap().si(),
                    v[10],
                    0.03,
                );
            }
            "permitted duty" => {
                let question = question(on, pause);
                let peak = net
                    .repeated_peak(&question, Ratio::from_si(v[10]), Time::from_minutes(10.0))
                    .unwrap();
                assert!(
                    mean_limit(peak).abs() < 1.5,
                    "{} K off at the outside duty",
                    mean_limit(peak)
                );
            }
            other => panic!("unknown row {other}"),
        }
        seen += 1;
    }
    assert_eq!(seen, 9);
}

fn question(on: Heating, pause: Heating) -> DutyQuestion {
    DutyQuestion {
        on,
        pause,
        insulation: Insulation {
            primary: ThermalClass::B,
            winding: ThermalClass::A,
        },
        cool: TemperatureRise::from_si(20.0),
    }
}

fn inputs() -> ThermalInputs {
    let mm = |v: f64| Measured::new(Length::from_mm(v), Length::from_mm(0.5), Origin::Calipers);
    let core = EiCore::new(mm(32.0), mm(60.0), mm(17.0), mm(50.0));
    let coil = |ohms: f64, kilograms: f64| WindingHeat {
        metal: Metal::Copper,
        mass: Measured::new(Mass::from_si(kilograms), Mass::from_si(0.05), Origin::Scale),
        resistance_20: Measured::new(
            Resistance::from_si(ohms),
            Resistance::from_si(ohms * 0.02),
            Origin::Meter,
        ),
        length: mm(22.0),
        build: mm(15.0),
    };
    ThermalInputs::typical(core, coil(0.35, 0.8), coil(2.1e-3, 0.6))
}

#[test]
fn duty_with_uncertainty() {
    let load = question(heating(&[14.0, 180.0, 40.0]), heating(&[2.0, 0.0, 40.0]));
    let inputs = inputs();
    let answer = inputs.duty(&load);
    assert!(answer.time_to_limit < NEVER && answer.permitted_duty.si() > 0.0 && answer.permitted_duty.si() < 1.0);
    // At the permitted duty the hottest spot is at its limit, and with a fan it is below.
    let ten = Time::from_minutes(10.0);
    let peak = inputs
        .network()
        .repeated_peak(&load, answer.permitted_duty, ten)
        .unwrap();
    assert!(inputs.excess(peak, load.insulation).si().abs() < 0.5);
    let mut windy = inputs;
    windy.air_speed = Measured::exact(Velocity::from_si(3.0), Origin::Chosen);
    assert!(windy.permitted_duty(&load, ten) > answer.permitted_duty);
    let (estimate, answers) = inputs.duty_with_uncertainty(&load).unwrap();
    assert!(estimate.permitted_duty.plus_minus.si() > 0.0);
    let widest = widest_inputs(&answers, 4);
    assert!(
        widest.iter().any(|w| w.input == Input::SurfaceCoefficient),
        "{widest:?}"
    );
    // A load that it withstands continuously.
    let light = question(heating(&[1.0, 10.0, 5.0]), Heating::NONE);
    let easy = inputs.duty(&light);
    assert_eq!((easy.time_to_limit, easy.permitted_duty.si()), (NEVER, 1.0));
}

/// For short pulses the heat is the mean heat: the welds a minute times the pulse is the duty
/// at which √D times the current is the continuous rating (I √D, as above).
#[test]
fn pulses_follow_the_equivalent_current() {
    let inputs = inputs();
    let pulse = question(heating(&[0.0, 900.0, 0.0]), Heating::NONE);
    let (section, length) = (Area::from_mm2(50.0), Time::from_si(0.2));
    let rate = inputs.pulses_a_minute(&pulse, length, section);
    let duty = rate * length.si() / 60.0;
    assert!(duty > 0.0 && duty < 1.0);
    let steady = inputs
        .network()
        .steady(&heating(&[0.0, 900.0 * duty.sqrt(), 0.0]))
        .unwrap();
    let rise =
        adiabatic_temperature(Metal::Copper, pulse.on.winding / section, length, steady.winding).above(steady.winding);
    let excess = inputs.excess(steady, pulse.insulation).si();
    assert!(
        excess <= 0.0 && excess > -rise.si(),
        "{excess} K with a swing of {} K",
        rise.si()
    );
    // A pulse that alone heats beyond the limit is never allowed.
    assert_eq!(
        inputs.pulses_a_minute(&pulse, Time::from_si(60.0), Area::from_mm2(5.0)),
        0.0
    );
}

#[test]
fn runaway_has_no_steady_state() {
    assert_eq!(network(0.0).steady(&heating(&[200.0, 0.0, 0.0])), None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    /// More current, hotter everywhere; longer, hotter.
    #[test]
    fn hotter_with_more_current(amps in 1.0..12.0f64, more in 0.1..3.0f64, minutes in 1.0..60.0f64) {
        let net = network(0.0);
        let cold = Temperatures::all(Temperature::from_si(25.0));
        let low = heating(&[amps, amps * 10.0, 20.0]);
        let high = heating(&[amps + more, (amps + more) * 10.0, 20.0]);
        let at = |load: &Heating, m: f64| net.after(cold, load, Time::from_minutes(m));
        let (cool, hot, later) = (at(&low, minutes), at(&high, minutes), at(&low, minutes + 5.0));
        prop_assert!(hot.primary > cool.primary && hot.winding > cool.winding && hot.core > cool.core);
        prop_assert!(later.primary > cool.primary && later.winding > cool.winding && later.core > cool.core);
    }
}
