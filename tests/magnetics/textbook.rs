//! Textbook examples through the same functions that the screens use.

use curbcore::magnetics::circuit::performance::{Circuit, LoadLine};
use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::core::induction::{peak_flux_density, per_turn, volts_per_turn};
use curbcore::magnetics::winding::Coil;
use curbcore::quantity::*;

fn circuit(emf: f64, r: f64, x: f64) -> Circuit {
    Circuit {
        emf: Voltage::from_si(emf),
        resistance: Resistance::from_si(r),
        reactance: Resistance::from_si(x),
        shunts: None,
        own_resistance: Resistance::from_si(r / 2.0),
        ac_factor: Ratio::from_si(1.0),
        ratio: 0.1,
        share: 1.0,
        own_part: 1.0,
        coil: Coil {
            build: Length::ZERO,
            breadth: Length::ZERO,
            mean_turn: Length::ZERO,
            wire_length: Length::ZERO,
            mass: Mass::ZERO,
            section: Area::from_mm2(1.0),
            fill: Ratio::ZERO,
        },
    }
}

fn close(what: &str, got: f64, expected: f64, relative: f64) {
    let error = got / expected - 1.0;
    println!(
        "{what}: got {got:.6}, expected {expected}, error {:.3} %",
        error * 100.0
    );
    assert!(error.abs() <= relative, "{what}: got {got}, expected {expected}");
}

/// EMF equation. 120 V, 60 Hz, 120 turns, 22.85 cm² → 1.642 T; 400 V, 50 Hz, 350 turns, 55 cm² →
/// 0.936 T; 250 V, 50 Hz, 70 turns, 125 cm² → 1.287 T (public answers misprint the last as
/// 0.132 T): exercises of machines textbooks, arithmetic checked by hand.
#[test]
fn emf_equation() {
    for (volts, hertz, turns, cm2, tesla) in [
        (120.0, 60.0, 120.0, 22.85, 1.642),
        (400.0, 50.0, 350.0, 55.0, 0.936),
        (250.0, 50.0, 70.0, 125.0, 1.287),
    ] {
        let e = per_turn(Voltage::from_si(volts), Turns::from_si(turns));
        let b = peak_flux_density(e, Frequency::from_si(hertz), Area::from_cm2(cm2));
        close("peak flux density", b.si(), tesla, 1e-3);
    }
}

/// A. E. Fitzgerald, C. Kingsley, S. D. Umans, Electric Machinery, 6th edition, example 1.8 (from
/// memory): 200 turns on a core of 2 in × 2 in with 0.94 of it steel, 1.5 T peak at 60 Hz
/// (377 rad/s): 274 V peak.
#[test]
fn fitzgerald_example_1_8() {
    let exact = |inches: f64| Measured::exact(Length::from_inches(inches), Origin::Calipers);
    let mut core = EiCore::new(exact(2.0), exact(2.0), exact(2.0), exact(6.0));
    core.stacking_factor = Measured::exact(Ratio::from_si(0.94), Origin::Typical);
    let e = volts_per_turn(FluxDensity::from_si(1.5), Frequency::from_si(60.0), core.net_area());
    let peak = (e * Turns::from_si(200.0)).si() * std::f64::consts::SQRT_2;
    close("peak e.m.f., V", peak, 274.0, 3e-3);
}

/// 2000 V, 50 Hz, 400 turns → 22.5 mWb (exercise of machines textbooks).
#[test]
fn flux_of_a_winding() {
    let e = per_turn(Voltage::from_si(2000.0), Turns::from_si(400.0));
    let area = Area::from_cm2(100.0);
    let flux = peak_flux_density(e, Frequency::from_si(50.0), area) * area;
    close("flux, mWb", flux.milliwebers(), 22.5, 2e-3);
}

/// S. J. Chapman, Electric Machinery Fundamentals, 4th edition, example 2-5 (inputs from memory,
/// results recomputed): 15 kVA, 2300/230 V; 0.0445 + j0.0645 Ω on the low side, 65.2 A.
/// For 230 V at the terminals the e.m.f. is 234.85 V at power factor 0.8 lagging and 232.94 V at
/// unity; regulation 2.1 % and 1.28 %.
#[test]
fn chapman_example_2_5() {
    let amps = Current::from_si(65.2);
    for (emf, pf, regulation) in [(234.85, 0.8, 0.021), (232.94, 1.0, 0.0128)] {
        let terminal = circuit(emf, 0.0445, 0.0645).terminal_voltage(amps, pf);
        close("terminal voltage", terminal.si(), 230.0, 1e-4);
        close("regulation", emf / terminal.si() - 1.0, regulation, 0.01);
    }
}

/// 4 kVA, 200/400 V; short-circuit test on the 400 V side 20 V, 10 A, 80 W → 0.8 + j1.833 Ω; at
/// full load, 0.8 lagging, 4.38 % by the exact form (a common exercise; arithmetic by hand).
#[test]
fn regulation_of_a_4_kva_transformer() {
    let (volts, amps, watts) = (20.0f64, 10.0f64, 80.0f64);
    let r = watts / amps.powi(2);
    let x = ((volts / amps).powi(2) - r * r).sqrt();
    close("R", r, 0.8, 1e-9);
    close("X", x, 1.833, 5e-4);
    let got = circuit(400.0 * 1.0438, r, x).terminal_voltage(Current::from_si(10.0), 0.8);
    close("terminal voltage", got.si(), 400.0, 1e-4);
}

/// The working point lies on both lines: the circuit's terminal voltage and the load's.
#[test]
fn working_point_is_where_the_lines_cross() {
    let c = circuit(48.0, 0.05, 0.25);
    let load = LoadLine {
        fixed: Voltage::from_si(20.0),
        slope: Resistance::from_si(0.04),
    };
    let amps = c.working_current(&load);
    close("volts", c.terminal_voltage(amps, 1.0).si(), load.volts(amps).si(), 1e-9);
    close(
        "short circuit",
        c.short_circuit().si(),
        48.0 / 0.05f64.hypot(0.25),
        1e-12,
    );
    assert_eq!(
        c.working_current(&LoadLine {
            fixed: Voltage::from_si(50.0),
            ..load
        }),
        Current::ZERO
    );
    let held = c.series_reactance(&load, Current::from_si(60.0));
    let with_choke = Circuit {
        reactance: c.reactance + held,
        ..c
    };
    close("ballasted current", with_choke.working_current(&load).si(), 60.0, 1e-9);
}

/// W. T. `McLyman`, Transformer and Inductor Design Handbook, 3rd edition, table of EI laminations
/// (from memory): EI-100, tongue 25.4 mm, stack 25.4 mm, window 12.7 × 38.1 mm: path 15.2 cm,
/// iron area 6.129 cm² at a stacking factor of 0.95, window 4.839 cm².
#[test]
fn mclyman_ei_lamination() {
    let exact = |mm: f64| Measured::exact(Length::from_mm(mm), Origin::Calipers);
    let core = EiCore::new(exact(25.4), exact(25.4), exact(12.7), exact(38.1));
    close("path, mm", core.path_length().mm(), 152.0, 5e-3);
    close("iron area, cm²", core.net_area().cm2(), 6.129, 1e-3);
    close("window, cm²", core.window_area().cm2(), 4.839, 1e-3);
}
