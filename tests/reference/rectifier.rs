//! Rectifiers and the charger against outside values.

use curbcore::magnetics::rectifier::charger::{
    ChargeLimits, ChargeWarning, Charger, LeadAcid, REST_VOLTAGE, typical_efficiency, typical_polarisation,
    typical_rest,
};
use curbcore::magnetics::rectifier::diode::DiodeLaw;
use curbcore::magnetics::rectifier::{Connection, DiodeLine, DirectLoad, Rectifier, RectifierAnswer, RectifierError};
use curbcore::quantity::{
    Charge, Current, Input, Measured, Origin, Quantity, Ratio, Resistance, Temperature, Voltage, widest_inputs,
};

fn exact<Q: Quantity>(si: f64) -> Measured<Q> {
    Measured::exact(Q::from_si(si), Origin::Meter)
}

fn close(what: &str, got: f64, expected: f64, relative: f64) {
    let error = got / expected - 1.0;
    assert!(
        error.abs() <= relative,
        "{what}: got {got}, expected {expected}, off by {:.3} %",
        100.0 * error
    );
}

fn ideal() -> DiodeLine {
    DiodeLine {
        threshold: exact(0.0),
        slope: exact(0.0),
    }
}

fn bridge(volts: f64, hertz: f64, ohms: f64, henries: f64, load: DirectLoad) -> Rectifier {
    Rectifier {
        connection: Connection::Bridge,
        open_voltage: exact(volts),
        frequency: exact(hertz),
        source_resistance: exact(ohms),
        leakage: exact(henries),
        diode: ideal(),
        load,
    }
}

fn reservoir(farads: f64, ohms: f64) -> DirectLoad {
    DirectLoad::Reservoir {
        capacitance: exact(farads),
        resistance: exact(ohms),
    }
}

fn back_voltage(volts: f64, ohms: f64, henries: f64) -> DirectLoad {
    DirectLoad::BackVoltage {
        emf: exact(volts),
        resistance: exact(ohms),
        choke: exact(henries),
    }
}

/// 100 V peak, 60 Hz, series 1 Ω, load 100 Ω: ngspice 39.3 and an independent integration with
/// ideal diodes agree on these.
#[test]
fn bridge_into_capacitor() {
    let volts = 100.0 / 2f64.sqrt();
    let smooth = bridge(volts, 60.0, 1.0, 0.0, reservoir(2652.58e-6, 100.0))
        .steady()
        .unwrap();
    close("mean", smooth.mean_voltage.si(), 93.62, 0.005);
    close("r.m.s.", smooth.winding_current.si(), 2.156, 0.005);
    close("peak", smooth.peak_current.si(), 6.21, 0.005);
    let rippled = bridge(volts, 60.0, 1.0, 0.0, reservoir(265.26e-6, 100.0))
        .steady()
        .unwrap();
    close("mean", rippled.mean_voltage.si(), 88.56, 0.005);
    close("r.m.s.", rippled.winding_current.si(), 1.881, 0.005);
    close("peak", rippled.peak_current.si(), 5.19, 0.005);
    close("lowest", rippled.lowest_voltage.si(), 78.05, 0.005);
}

/// Source inductance alone, a stiff direct current: the mean voltage falls by 2ωLI/π and the
/// overlap angle has cos u = 1 − 2ωLI/Ê (Mohan, Undeland and Robbins, Power Electronics,
/// section 5-3-2; from memory).
#[test]
fn commutation_of_a_smooth_current() {
    let (volts, hertz, leakage) = (40.0, 60.0, 200e-6);
    let rectifier = bridge(volts, hertz, 0.0, leakage, back_voltage(20.0, 0.1, 1.0));
    let answer = rectifier.steady().unwrap();
    let current = answer.mean_current.si();
    let omega = std::f64::consts::TAU * hertz;
    let peak = volts * 2f64.sqrt();
    let mean = 2.0 * peak / std::f64::consts::PI - 2.0 * omega * leakage * current / std::f64::consts::PI;
    close("mean", answer.mean_voltage.si(), mean, 1e-3);
    // While the current passes over, the winding's current is below the direct one.
    let overlap = (1.0 - 2.0 * omega * leakage * current / peak).acos();
    let wave = rectifier.waveform(20_000).unwrap();
    let passing = wave.iter().filter(|p| p.winding.abs() < p.direct * 0.999_999).count();
    close(
        "overlap angle",
        passing as f64 / 20_000.0 * std::f64::consts::PI,
        overlap,
        0.02,
    );
}

struct Case {
    name: String,
    rectifier: Rectifier,
    law: DiodeLaw,
    expected: [f64; 8],
}

fn cases() -> Vec<Case> {
    let text = include_str!("rectifier/cases.csv");
    let mut cases = Vec::new();
    for line in text.lines().skip(1) {
        let fields: Vec<&str> = line.split(',').collect();
        let number = |k: usize| fields[k].parse::<f64>().unwrap();
        let load = match fields[9] {
            "capacitor" => reservoir(number(10), number(11)),
            _ => back_voltage(number(10), number(11), number(12)),
        };
        let mut rectifier = bridge(number(2), number(3), number(4), number(5), load);
        if fields[1] == "centre tap" {
            rectifier.connection = Connection::CentreTap;
        }
        cases.push(Case {
            name: fields[0].to_owned(),
            rectifier,
            law: DiodeLaw {
                saturation: Current::from_si(number(6)),
                emission: number(7),
                series: Resistance::from_si(number(8)),
                // ngspice's own default, 27 °C.
                junction: Temperature::from_si(27.0),
            },
            expected: std::array::from_fn(|k| number(13 + k)),
        });
    }
    cases
}

/// Thirteen circuits with exponential diodes, by ngspice (tests/reference/rectifier).
#[test]
fn ngspice_agrees() {
    let cases = cases();
    assert!(cases.len() >= 13);
    for case in cases {
        let (answer, _) = case.rectifier.steady_with_law(&case.law).unwrap();
        let [mean, lowest, highest, current, direct, winding, peak, reverse] = case.expected;
        let at = |what: &str| format!("{}, {what}", case.name);
        close(&at("mean voltage"), answer.mean_voltage.si(), mean, 0.005);
        close(&at("lowest voltage"), answer.lowest_voltage.si(), lowest, 0.01);
        close(&at("highest voltage"), answer.highest_voltage.si(), highest, 0.01);
        close(&at("mean current"), answer.mean_current.si(), current, 0.02);
        close(&at("direct r.m.s."), answer.direct_rms.si(), direct, 0.02);
        close(&at("winding r.m.s."), answer.winding_current.si(), winding, 0.02);
        close(&at("peak current"), answer.peak_current.si(), peak, 0.02);
        // Behind a leakage the circuit simulator's diode capacitance rings, so there only
        // the level without ringing can be compared: ours may not be above theirs.
        let ours = answer.reverse_voltage.si();
        assert!(ours < reverse * 1.02, "{}", at("reverse voltage above the outside one"));
        if case.rectifier.leakage.value.si() == 0.0 {
            close(&at("reverse voltage"), ours, reverse, 0.02);
        }
    }
}

fn charger() -> Charger {
    let mut rectifier = bridge(14.0, 60.0, 0.05, 60e-6, reservoir(1e-3, 1.0));
    rectifier.open_voltage = Measured::new(Voltage::from_si(14.0), Voltage::from_si(0.2), Origin::Meter);
    rectifier.diode = DiodeLine {
        threshold: exact(0.75),
        slope: exact(5e-3),
    };
    Charger {
        rectifier,
        choke: exact(0.0),
        battery: LeadAcid {
            cells: 6,
            capacity: exact(Charge::from_amp_hours(60.0).si()),
            resistance: exact(0.03),
            polarisation: typical_polarisation(),
            rest: Measured::exact(Ratio::ZERO, Origin::Chosen),
            efficiency: typical_efficiency(),
        },
    }
}

/// Rested voltage of a cell = specific gravity + 0.84, with 1.120 flat and 1.265 full (Vinal,
/// Storage Batteries; from memory).
#[test]
fn rest_voltage_follows_the_acid() {
    for (state, volts, half) in REST_VOLTAGE {
        let gravity = 1.120 + state * (1.265 - 1.120);
        close("rest voltage", volts, gravity + 0.84, 0.013);
        assert!((volts - gravity - 0.84).abs() < half, "{state}: outside its ±");
    }
}

/// Published tables of a 12 V battery at rest lie 0.3 V apart when flat and 0.06 V when full: that much
/// the battery's voltage is uncertain for it, and what charges it too.
#[test]
fn rest_voltage_is_uncertain() {
    let mut charger = charger();
    charger.battery.polarisation.plus_minus = Voltage::ZERO;
    charger.battery.rest = typical_rest();
    for (state, spread) in [(0.0, 0.30), (0.5, 0.18), (1.0, 0.06)] {
        let found = charger.battery.charging_emf_spread(Ratio::from_si(state));
        close("±", found.si(), spread, 1e-9);
    }
    let (with, _) = charger.answer_with_uncertainty().unwrap();
    charger.battery.rest = exact(0.0);
    let (without, _) = charger.answer_with_uncertainty().unwrap();
    assert!(
        with.flat_current.plus_minus > without.flat_current.plus_minus * 1.05,
        "{with:?} {without:?}"
    );
}

/// The current falls as the battery fills; the charge put in is the capacity over the
/// efficiency, by summing current over time again.
#[test]
fn charging_current_falls() {
    let curve = charger().curve(ChargeLimits::common_practice()).unwrap();
    assert!(curve.points.len() > 10);
    let mut put_in = 0.0;
    for pair in curve.points.windows(2) {
        assert!(pair[1].current < pair[0].current && pair[1].elapsed > pair[0].elapsed);
        let hours = (pair[1].elapsed - pair[0].elapsed).si() / 3600.0;
        put_in += hours * (pair[0].current + pair[1].current).si() / 2.0;
    }
    let last = curve.points.last().unwrap().state.si();
    close("charge put in", put_in, 60.0 * last / 0.88, 0.01);
    assert!(
        curve
            .warnings
            .iter()
            .any(|w| matches!(w, ChargeWarning::TooMuchCurrent { .. } | ChargeWarning::NoEnd { .. }))
    );
    // A battery of twice the cells is out of reach.
    let mut tall = charger();
    tall.battery.cells = 12;
    let curve = tall.curve(ChargeLimits::common_practice()).unwrap();
    assert!(curve.points.is_empty());
    assert_eq!(curve.warnings, [ChargeWarning::NeverFull { stops_at: Ratio::ZERO }]);
}

#[test]
fn uncertainty_names_what_widens_it() {
    let (estimate, answers) = charger().answer_with_uncertainty().unwrap();
    assert!(estimate.flat_current.plus_minus.si() > 0.0);
    assert!(estimate.flat_current.low() < estimate.flat_current.value);
    let widest = widest_inputs(&answers, 0);
    let names: Vec<Input> = widest.iter().map(|w| w.input).collect();
    assert!(
        names.contains(&Input::Polarisation) && names.contains(&Input::OpenCircuitVoltage),
        "{names:?}"
    );
    let mut rectifier = charger().rectifier;
    rectifier.leakage = Measured::new(rectifier.leakage.value, rectifier.leakage.value * 0.3, Origin::Computed);
    let (estimate, answers) = rectifier.steady_with_uncertainty().unwrap();
    assert!(estimate.peak_current.plus_minus.si() > 0.0);
    assert_eq!(answers.shares.len(), 2);
}

#[test]
fn nonsense_is_refused() {
    let good = charger().rectifier;
    let mut bad = good;
    bad.frequency = exact(0.0);
    assert_eq!(bad.steady(), Err(RectifierError::NotPositive("frequency")));
    bad = good;
    bad.leakage = exact(f64::NAN);
    assert_eq!(bad.steady(), Err(RectifierError::Negative("leakage inductance")));
    bad = bridge(12.0, 50.0, 0.0, 1e-5, back_voltage(6.0, 0.0, 0.0));
    assert_eq!(bad.steady(), Err(RectifierError::NoResistance));
    let mut empty = charger();
    empty.battery.cells = 0;
    assert!(empty.answer().is_err());
    // A battery above the source's peak: nothing flows, and that is an answer.
    let none = bridge(12.0, 50.0, 0.1, 1e-5, back_voltage(30.0, 0.1, 1e-3))
        .steady()
        .unwrap();
    assert_eq!(none.mean_current, Current::ZERO);
}

/// Energy over a period: what the source gives is what diodes, winding and load turn to heat
/// or store. Source power is taken from the waveform, apart from the solver's own integrals.
#[test]
fn energy_balances() {
    for case in cases() {
        let mut rectifier = case.rectifier;
        rectifier.diode = case.law.line(Current::from_si(30.0));
        let answer: RectifierAnswer = rectifier.steady().unwrap();
        let wave = rectifier.waveform(20_000).unwrap();
        let given = match rectifier.connection {
            Connection::Bridge | Connection::CentreTap => {
                wave.iter().map(|p| p.source.si() * p.winding.si()).sum::<f64>() / wave.len() as f64
            }
        };
        let taken = (answer.diode_loss + answer.source_loss + answer.direct_power).si();
        close(&case.name, taken, given, 2e-3);
    }
}

/// How long one solution takes, for `tests/reference/rectifier/timing.py`.
#[test]
#[ignore = "timing, not a check"]
fn time_one_solution() {
    for case in cases() {
        let start = std::time::Instant::now();
        for _ in 0..20 {
            std::hint::black_box(case.rectifier.steady_with_law(&case.law)).unwrap();
        }
        println!("SECONDS {:.9} {}", start.elapsed().as_secs_f64() / 20.0, case.name);
    }
}
