//! Two donors joined, against circuit theory worked by other routes.

use curbcore::magnetics::pairs::checks::{CoilEnd, PairCheck, PhasingReading, Which, joint, read_phasing};
use curbcore::magnetics::pairs::{Donor, Joined, Pair, PairAnswer, PairLoad, Phasing};
use curbcore::quantity::{Current, Input, Measured, Origin, Quantity, Resistance, Turns, Voltage, widest_inputs};

fn exact<Q: Quantity>(si: f64) -> Measured<Q> {
    Measured::exact(Q::from_si(si), Origin::Meter)
}

fn close(what: &str, got: f64, expected: f64, relative: f64) {
    let error = got / expected - 1.0;
    assert!(
        error.abs() <= relative,
        "{what}: got {got}, expected {expected}, off by {:.4} %",
        100.0 * error
    );
}

fn donor(winding_turns: f64, resistance: f64, reactance: f64) -> Donor {
    Donor {
        primary_turns: Turns::from_si(120.0),
        winding_turns: Turns::from_si(winding_turns),
        resistance: exact(resistance),
        reactance: exact(reactance),
        magnetising: exact(60.0),
    }
}

fn pair(donors: [Donor; 2], primaries: Joined, windings: Joined) -> Pair {
    Pair {
        donors,
        primaries,
        windings,
        phasing: Phasing::Right,
        supply: exact(120.0),
    }
}

fn ohms(r: f64, x: f64) -> PairLoad {
    PairLoad::Impedance(Resistance::from_si(r), Resistance::from_si(x))
}

fn answer(pair: &Pair, load: PairLoad) -> PairAnswer {
    pair.answer(load).unwrap()
}

/// Transformers in parallel on a load (any machines textbook): equal voltages share as the other
/// one's impedance, `I1 = I Z2/(Z1 + Z2)`. With 0.01 + j0.03 and 0.02 + j0.02 Ω the shares are
/// √(0.0008/0.0034) and √(0.0010/0.0034), worked with real numbers.
#[test]
fn parallel_sharing() {
    let two = pair(
        [donor(20.0, 0.01, 0.03), donor(20.0, 0.02, 0.02)],
        Joined::Parallel,
        Joined::Parallel,
    );
    let got = answer(&two, ohms(0.2, 0.0));
    close(
        "first",
        got.first_current / got.load_current,
        (0.0008_f64 / 0.0034).sqrt(),
        1e-9,
    );
    close(
        "second",
        got.second_current / got.load_current,
        (0.0010_f64 / 0.0034).sqrt(),
        1e-9,
    );
    close("open", got.open_voltage.si(), 20.0, 1e-12);
    assert!(got.circulating.si() < 1e-9);
    // Z1 Z2/(Z1 + Z2) = (0.01 + j0.03)(0.02 + j0.02)/(0.03 + j0.05) = (−0.4 + j0.8)e-3/(0.03 + j0.05).
    close(
        "resistance",
        got.resistance.si(),
        (-0.4e-3 * 0.03 + 0.8e-3 * 0.05) / 0.0034,
        1e-9,
    );
    close(
        "reactance",
        got.reactance.si(),
        (0.8e-3 * 0.03 + 0.4e-3 * 0.05) / 0.0034,
        1e-9,
    );
}

/// Unequal volts in parallel: Millman's theorem and (E1 − E2)/(Z1 + Z2).
#[test]
fn unequal_volts_circulate() {
    let two = pair(
        [donor(20.0, 0.03, 0.04), donor(21.0, 0.03, 0.04)],
        Joined::Parallel,
        Joined::Parallel,
    );
    let got = answer(&two, PairLoad::Open);
    // 1 V across 0.06 + j0.08 = 0.1 Ω.
    close("circulating", got.circulating.si(), 10.0, 1e-9);
    close("open voltage", got.open_voltage.si(), 20.5, 1e-9);
    let mut wrong = two;
    wrong.phasing = Phasing::Reversed;
    close("reversed", answer(&wrong, PairLoad::Open).circulating.si(), 410.0, 1e-9);
}

/// Series: voltages and impedances add; reversed, voltages subtract.
#[test]
fn series_adds() {
    let two = pair(
        [donor(20.0, 0.01, 0.03), donor(14.0, 0.02, 0.02)],
        Joined::Parallel,
        Joined::Series,
    );
    let got = answer(&two, ohms(0.37, 0.95));
    close("open", got.open_voltage.si(), 34.0, 1e-12);
    close("resistance", got.resistance.si(), 0.03, 1e-9);
    close("reactance", got.reactance.si(), 0.05, 1e-9);
    // 34 V over 0.4 + j1.0.
    close("current", got.load_current.si(), 34.0 / 1.16_f64.sqrt(), 1e-9);
    close("same current", got.first_current / got.second_current, 1.0, 1e-12);
    let mut wrong = two;
    wrong.phasing = Phasing::Reversed;
    close("reversed", answer(&wrong, PairLoad::Open).open_voltage.si(), 6.0, 1e-9);
}

/// Primaries in series: without load they divide the mains as their magnetising reactances;
/// equal donors see half each.
#[test]
fn primaries_in_series() {
    let mut uneven = donor(20.0, 0.01, 0.03);
    uneven.magnetising = exact(90.0);
    let two = pair([donor(20.0, 0.01, 0.03), uneven], Joined::Series, Joined::Series);
    let got = answer(&two, PairLoad::Open);
    close("first", got.first_primary.si(), 48.0, 1e-9);
    close("second", got.second_primary.si(), 72.0, 1e-9);
    close("open", got.open_voltage.si(), 20.0, 1e-9);
    // Windings in parallel force the primaries towards each other.
    let tied = pair(two.donors, Joined::Series, Joined::Parallel);
    let tied = answer(&tied, PairLoad::Open);
    assert!((tied.second_primary - tied.first_primary).si() < 24.0);
    let fed = two.checks(
        PairLoad::Open,
        [Voltage::from_si(60.0); 2],
        Current::from_si(50.0),
        Voltage::from_si(80.0),
    );
    assert!(fed.iter().any(|c| matches!(
        c,
        PairCheck::PrimaryOverfed {
            donor: Which::Second,
            ..
        }
    )));
    assert!(!fed.iter().any(|c| matches!(
        c,
        PairCheck::PrimaryOverfed {
            donor: Which::First,
            ..
        }
    )));
}

#[test]
fn checks_before_joining() {
    let rated = [Voltage::from_si(120.0); 2];
    let at = |p: &Pair| p.checks(ohms(0.2, 0.0), rated, Current::from_si(50.0), Voltage::from_si(80.0));
    let good = pair(
        [donor(20.0, 0.01, 0.03), donor(20.0, 0.01, 0.03)],
        Joined::Parallel,
        Joined::Parallel,
    );
    assert_eq!(at(&good), [PairCheck::TestPhasing, PairCheck::FuseEach]);
    let uneven = pair(
        [donor(20.0, 0.01, 0.03), donor(21.0, 0.03, 0.09)],
        Joined::Parallel,
        Joined::Parallel,
    );
    let checks = at(&uneven);
    assert!(checks.iter().any(|c| matches!(c, PairCheck::Circulates { .. })));
    assert!(checks.iter().any(|c| matches!(c, PairCheck::UnevenShare { .. })));
    let high = pair(
        [donor(50.0, 0.01, 0.03), donor(50.0, 0.01, 0.03)],
        Joined::Parallel,
        Joined::Series,
    );
    assert!(at(&high).iter().any(|c| matches!(c, PairCheck::VoltageAbove { .. })));
    let mut wrong = good;
    wrong.phasing = Phasing::Reversed;
    assert!(at(&wrong).iter().any(|c| matches!(c, PairCheck::Reversed { .. })));
}

#[test]
fn phasing() {
    let v = Voltage::from_si;
    assert_eq!(read_phasing(v(39.0), v(20.0), v(20.0)), PhasingReading::Adding);
    assert_eq!(read_phasing(v(1.0), v(20.0), v(20.0)), PhasingReading::Opposing);
    assert_eq!(read_phasing(v(20.0), v(20.0), v(20.0)), PhasingReading::Unclear);
    assert_eq!(read_phasing(v(20.5), v(20.0), v(0.5)), PhasingReading::Unclear);
    let series = joint(Joined::Series);
    let tie = series.ties[0].unwrap();
    assert_eq!((tie.0.end, tie.1.end), (CoilEnd::Plain, CoilEnd::Dot));
    for tie in joint(Joined::Parallel).ties {
        let (a, b) = tie.unwrap();
        assert_eq!(a.end, b.end, "like ends meet in parallel");
    }
}

#[test]
fn uncertainty_names_what_widens_it() {
    let mut two = pair(
        [donor(20.0, 0.03, 0.04), donor(21.0, 0.03, 0.04)],
        Joined::Parallel,
        Joined::Parallel,
    );
    two.supply = Measured::new(Voltage::from_si(120.0), Voltage::from_si(6.0), Origin::Meter);
    two.donors[0].reactance = Measured::new(Resistance::from_si(0.04), Resistance::from_si(0.02), Origin::Computed);
    let (estimate, answers) = two.answer_with_uncertainty(ohms(0.2, 0.0)).unwrap();
    // 5 % of the supply is 5 % of the open voltage.
    close(
        "open",
        estimate.open_voltage.plus_minus / estimate.open_voltage.value,
        0.05,
        0.05,
    );
    assert_eq!(widest_inputs(&answers, 3)[0].input, Input::FirstDonorReactance);
    two.donors[0].primary_turns = Turns::ZERO;
    assert!(two.answer(PairLoad::Open).is_none());
}
