//! No-load current against numpy (`tests/reference/idle/`) and a textbook's open-circuit test.

#![allow(clippy::unwrap_used)]

use curbcore::magnetics::core::EiCore;
use curbcore::magnetics::core::gap::Gaps;
use curbcore::magnetics::core::path::peak_flux;
use curbcore::magnetics::core::steel::{Steel, SteelKind};
use curbcore::magnetics::core::steel_grades::SteelGrade;
use curbcore::magnetics::idle::fit::{Determined, IdleFit, IdleFitError, IdleReading, fit_idle};
use curbcore::magnetics::idle::{Idle, open_circuit_branch, typical_window_leakage};
use curbcore::quantity::{
    Area, Current, Frequency, Input, Length, Measured, Origin, Power, Ratio, Resistance, Turns, Voltage, widest_inputs,
};

fn exact_mm(mm: f64) -> Measured<Length> {
    Measured::exact(Length::from_mm(mm), Origin::Calipers)
}

fn core(limb: f64, yoke: f64) -> EiCore {
    let mut core = EiCore::new(exact_mm(30.0), exact_mm(50.0), exact_mm(15.0), exact_mm(45.0));
    core.outer_limb = exact_mm(limb);
    core.yoke = exact_mm(yoke);
    core.stacking_factor = Measured::exact(Ratio::from_si(0.95), Origin::Typical);
    core
}

fn idle(steel: Steel, volts: f64, gap: f64, limb: f64, yoke: f64) -> Idle {
    let mut gaps = Gaps::NONE;
    gaps.face = exact_mm(gap);
    Idle {
        core: core(limb, yoke),
        steel,
        gaps,
        turns: Measured::exact(Turns::from_si(250.0), Origin::Counted),
        voltage: Measured::exact(Voltage::from_si(volts), Origin::Meter),
        frequency: Frequency::from_si(50.0),
        resistance: Measured::exact(Resistance::from_si(0.8), Origin::Meter),
        // The outside models of the core have no flux across the window, except `window.csv`.
        window_leakage: Measured::exact(Ratio::ZERO, Origin::Typical),
    }
}

/// Plane finite elements of a saturating core with its window's flux (scikit-fem 12.0.2, `idle/window.py`): the
/// peak current that links so much flux, within 10 %. Without the window's flux it would be 17 to 49 % high.
#[test]
fn window_leakage_against_finite_elements() {
    let mut count = 0;
    for line in include_str!("idle/window.csv").lines().skip(1) {
        let n: Vec<f64> = line.split(',').map(|cell| cell.parse().unwrap()).collect();
        let (gap, ampere_turns, linked) = (n[1], n[2], n[3]);
        let omega = std::f64::consts::TAU * 50.0;
        let volts = linked * 250.0 * omega / std::f64::consts::SQRT_2;
        let mut idle = idle(Steel::exactly(SteelGrade::M530_50A), volts, gap, 15.0, 15.0);
        idle.core.stacking_factor.value = Ratio::from_si(1.0);
        let peak = |leakage: f64| {
            let mut idle = idle;
            idle.window_leakage.value = Ratio::from_si(leakage);
            // The crest of the magnetising current: no loss.
            idle.steel.loss_factor.value = Ratio::ZERO;
            idle.draw().unwrap().peak.si() * 250.0
        };
        check(line, peak(typical_window_leakage().value.si()), ampere_turns, 0.10);
        assert!(peak(0.0) > 1.15 * ampere_turns, "{line}");
        count += 1;
    }
    assert_eq!(count, 4);
}

/// Plane finite elements of seven whole cores (scikit-fem 12.0.2, `idle/field.py`): four grades, gaps of 0.02 to
/// 0.12 mm, a coil over all of the window's height or two fifths of it, at 1.2 to 1.75 T. The magnetising current
/// of a sinusoidal linkage, r.m.s., within 15 %; the loss would only hide what is off.
#[test]
fn idle_current_against_finite_elements() {
    let mut off = Vec::new();
    for line in include_str!("idle/field.csv").lines().skip(1) {
        let (grade, rest) = line.split_once(',').unwrap();
        let n: Vec<f64> = rest.split(',').map(|cell| cell.parse().unwrap()).collect();
        let [tongue, stack, ww, wh, limb, yoke, gap, _coil, density, rms, peak] = n[..] else {
            panic!("{line}")
        };
        let steel = Steel::exactly(SteelGrade::from_word(grade).unwrap());
        let mut idle = idle(steel, 1.0, gap, limb, yoke);
        idle.core.tongue = exact_mm(tongue);
        idle.core.stack = exact_mm(stack);
        idle.core.window_width = exact_mm(ww);
        idle.core.window_height = exact_mm(wh);
        let area = tongue * stack * 0.95e-6;
        let omega = std::f64::consts::TAU * 50.0;
        idle.voltage.value = Voltage::from_si(density * area * 250.0 * omega / std::f64::consts::SQRT_2);
        idle.window_leakage = typical_window_leakage();
        let draw = idle.draw().unwrap();
        assert!((draw.peak_density.si() - density).abs() < 1e-6, "{line}");
        off.push((line, draw.magnetising.si() / rms - 1.0, draw.peak.si() / peak - 1.0));
    }
    let told: Vec<String> = off
        .iter()
        .map(|(line, rms, peak)| format!("{line}: {:+.1} %, peak {:+.1} %", rms * 100.0, peak * 100.0))
        .collect();
    assert_eq!(off.len(), 35);
    assert!(off.iter().all(|(_, rms, _)| rms.abs() <= 0.15), "{}", told.join("\n"));
}

fn check(what: &str, actual: f64, expected: f64, tolerance: f64) {
    let error = actual / expected - 1.0;
    assert!(
        error.abs() <= tolerance,
        "{what}: {actual} against {expected}, {:.3} %",
        100.0 * error
    );
}

/// R.m.s., peak, loss and the odd harmonics to the seventh: numpy with its own path, 20000
/// samples and its own Fourier transform, the steel by scipy.
#[test]
fn waveform_against_numpy() {
    for line in include_str!("idle/idle.csv").lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let n: Vec<f64> = cells[1..].iter().map(|cell| cell.parse().unwrap()).collect();
        let idle = idle(
            Steel::exactly(SteelGrade::from_word(cells[0]).unwrap()),
            n[0],
            n[2],
            n[3],
            n[4],
        );
        let draw = idle.draw().unwrap();
        check(line, draw.peak_density.si(), n[5], 1e-5);
        check(line, draw.current.si(), n[6], 1e-3);
        check(line, draw.peak.si(), n[7], 1e-3);
        check(line, draw.core_loss.si(), n[8], 1e-3);
        let wave = idle.waveform();
        for (order, expected) in [(1.0, n[9]), (3.0, n[10]), (5.0, n[11]), (7.0, n[12])] {
            let (mut along, mut across) = (0.0, 0.0);
            for (step, current) in wave.iter().enumerate() {
                let angle = std::f64::consts::TAU * order * step as f64 / wave.len() as f64;
                along += current.si() * angle.cos();
                across += current.si() * angle.sin();
            }
            let rms = along.hypot(across) * std::f64::consts::SQRT_2 / wave.len() as f64;
            let off = (rms - expected).abs() / n[9];
            assert!(off < 1e-3, "{line}: harmonic {order}: {rms} against {expected}");
        }
    }
}

/// The wattmeter's reading is the mean of v·i over the cycle (definition), without the winding.
#[test]
fn power_is_the_mean_of_volts_times_amperes() {
    let idle = idle(Steel::exactly(SteelGrade::M530_50A), 130.0, 0.05, 15.0, 15.0);
    let wave = idle.waveform();
    let mean: f64 = wave
        .iter()
        .enumerate()
        .map(|(step, i)| {
            let angle = std::f64::consts::TAU * step as f64 / wave.len() as f64;
            130.0 * std::f64::consts::SQRT_2 * angle.cos() * i.si() / wave.len() as f64
        })
        .sum();
    check("watts", mean, idle.draw().unwrap().core_loss.si(), 1e-9);
}

/// Chapman, Electric Machinery Fundamentals, 4th ed., example 2-2: 8000 V, 0.214 A, 400 W.
#[test]
fn chapman_open_circuit_test() {
    let branch = open_circuit_branch(Voltage::from_si(8000.0), Current::from_si(0.214), Power::from_si(400.0));
    let (loss, reactance) = branch.unwrap();
    check("loss resistance", loss.si(), 160e3, 0.005);
    check("reactance", reactance.si(), 38.4e3, 0.005);
}

/// The EMF equation with numbers of published exercises: 2000 V, 50 Hz, 400 turns give 22.5 mWb;
/// 400 V, 50 Hz, 350 turns on 55 cm² give 0.936 T; 120 V, 60 Hz, 120 turns, 22.85 cm², 1.642 T.
#[test]
fn emf_equation() {
    let flux = |v, f, n| peak_flux(Voltage::from_si(v), Frequency::from_si(f), Turns::from_si(n));
    check("22.5 mWb", flux(2000.0, 50.0, 400.0).milliwebers(), 22.5, 0.002);
    check(
        "0.936 T",
        (flux(400.0, 50.0, 350.0) / Area::from_cm2(55.0)).si(),
        0.936,
        0.002,
    );
    check(
        "1.642 T",
        (flux(120.0, 60.0, 120.0) / Area::from_cm2(22.85)).si(),
        1.642,
        0.001,
    );
}

fn readings(truth: &Idle, volts: &[f64]) -> Vec<IdleReading> {
    volts
        .iter()
        .map(|v| {
            let mut at = *truth;
            at.voltage.value = Voltage::from_si(*v);
            let draw = at.draw().unwrap();
            IdleReading {
                voltage: Measured::exact(Voltage::from_si(*v), Origin::Meter),
                current: Measured::new(draw.current, draw.current * 0.02, Origin::Meter),
                power: Some(Measured::new(draw.power, draw.power * 0.03, Origin::Meter)),
            }
        })
        .collect()
}

/// Readings made from known gap and steel are taken apart again, the truth within the ranges.
#[test]
fn fit_finds_what_made_the_readings() {
    let mut truth = idle(Steel::UNKNOWN, 0.0, 0.09, 15.0, 15.0);
    if let SteelKind::Unknown(position) = &mut truth.steel.kind {
        position.value = Ratio::from_si(0.6);
    }
    let mut assumed = truth;
    assumed.gaps = Gaps::REASSEMBLED;
    assumed.steel = Steel::UNKNOWN;
    let fit = fit_idle(&assumed, &readings(&truth, &[70.0, 90.0, 110.0, 130.0])).unwrap();
    let off = (fit.face_gap.value.mm() - 0.09).abs();
    assert!(off <= fit.face_gap.plus_minus.mm() && off < 0.01, "{fit:?}");
    assert!(
        (fit.steel_position.value.si() - 0.6).abs() <= fit.steel_position.plus_minus.si(),
        "{fit:?}"
    );
    assert_eq!(fit.gap_determined, Determined::Yes);
    assert!(fit.misfit < 1.0, "{}", fit.misfit);
}

/// Amperes and watts that numpy computed for M400-50A at 0.05 mm (`idle.csv`), read by a voltmeter
/// that shows a hundredth too much: with its ±, gap and steel are found all the same. A voltmeter
/// taken as exact tells a steel that is not there.
#[test]
fn fit_bears_a_voltmeter_that_is_off() {
    let core = idle(Steel::of(SteelGrade::M400_50A), 0.0, 0.05, 15.0, 15.0);
    let mut assumed = core;
    assumed.gaps = Gaps::REASSEMBLED;
    let read = |plus_minus: f64| -> Vec<IdleReading> {
        let lines = include_str!("idle/idle.csv").lines().skip(1);
        lines
            .map(|line| line.split(',').collect::<Vec<_>>())
            .filter(|cells| cells[0] == "M400-50A" && cells[3] == "0.05")
            .map(|cells| {
                let n = |at: usize| cells[at].parse::<f64>().unwrap();
                let (volts, amps) = (1.01 * n(1), n(7));
                let watts = n(9) + amps * amps * 0.8;
                let meter = |value: f64, part: f64| (value, value * part);
                let (v, i, p) = (meter(volts, plus_minus), meter(amps, 0.01), meter(watts, 0.02));
                IdleReading {
                    voltage: Measured::new(Voltage::from_si(v.0), Voltage::from_si(v.1), Origin::Meter),
                    current: Measured::new(Current::from_si(i.0), Current::from_si(i.1), Origin::Meter),
                    power: Some(Measured::new(Power::from_si(p.0), Power::from_si(p.1), Origin::Meter)),
                }
            })
            .collect()
    };
    assert_eq!(read(0.0).len(), 4);
    let fit = fit_idle(&assumed, &read(0.015)).unwrap();
    let off = (fit.face_gap.value.mm() - 0.05).abs();
    assert!(off <= fit.face_gap.plus_minus.mm() && off < 0.01, "{fit:?}");
    let steel_off = |fit: &IdleFit| {
        let factor = fit.idle.steel.field_factor;
        (factor.value.si() - 1.0).abs() / factor.plus_minus.si()
    };
    assert!(steel_off(&fit) < 1.0 && fit.misfit < 1.0, "{fit:?}");
    let exact = fit_idle(&assumed, &read(0.0)).unwrap();
    assert!(steel_off(&exact) > 3.0 && exact.misfit > 1.5, "{exact:?}");
}

/// A count of turns that is three short, within its ±: the gap of 0.09 mm is in the range, the count
/// comes out nearer to the truth, and no fault is cried.
#[test]
fn fit_bears_a_count_that_is_off() {
    let truth = idle(Steel::of(SteelGrade::M400_50A), 0.0, 0.09, 15.0, 15.0);
    let mut assumed = truth;
    assumed.gaps = Gaps::REASSEMBLED;
    assumed.turns = Measured::new(Turns::from_si(247.0), Turns::from_si(5.0), Origin::Counted);
    let fit = fit_idle(&assumed, &readings(&truth, &[90.0, 120.0, 150.0])).unwrap();
    let off = (fit.face_gap.value.mm() - 0.09).abs();
    assert!(off <= fit.face_gap.plus_minus.mm(), "{fit:?}");
    assert!(
        (fit.idle.turns.value.si() - 250.0).abs() < 3.0 && fit.misfit < 1.0,
        "{fit:?}"
    );
}

/// Poor meters and only current: the steel stays what was assumed, and the fit says so.
#[test]
fn fit_says_when_the_steel_is_not_told() {
    let truth = idle(Steel::UNKNOWN, 0.0, 0.3, 15.0, 15.0);
    let mut vague = readings(&truth, &[70.0, 90.0]);
    for reading in &mut vague {
        reading.power = None;
        reading.current.plus_minus = reading.current.value * 0.1;
    }
    let fit = fit_idle(&truth, &vague).unwrap();
    assert_eq!(fit.steel_determined, Determined::No, "{fit:?}");
    assert_eq!(fit_idle(&truth, &vague[..1]), Err(IdleFitError::TooFewReadings(1)));
    vague[1].current.value = Current::ZERO;
    assert_eq!(fit_idle(&truth, &vague), Err(IdleFitError::UnusableReading(2)));
}

/// For a reassembled core of unknown steel in the knee, gap and steel are what widen the answer.
#[test]
fn wideners_of_the_idle_current() {
    let mut at = idle(Steel::UNKNOWN, 120.0, 0.0, 15.0, 15.0);
    at.gaps = Gaps::REASSEMBLED;
    let (estimate, spread) = at.draw_with_uncertainty().unwrap();
    assert!(
        estimate.current.plus_minus.si() > 0.1 * estimate.current.value.si(),
        "{estimate:?}"
    );
    let widest = widest_inputs(&spread, 1);
    let names: Vec<Input> = widest.iter().map(|share| share.input).collect();
    assert!(names.contains(&Input::GapAtTheFaces), "{names:?}");
}
