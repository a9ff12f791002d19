//! Behind diodes: a battery from flat to full, a reservoir with its load, an arc with its choke.

use super::primary_resistance;
use crate::app::basis::{Basis, Design};
use crate::job::{self, JobFile};
use crate::magnetics::numeric::bracket::Bracket;
use crate::magnetics::rectifier::charger::{
    ChargeLimits, ChargeNumber, ChargePoint, ChargeWarning, Charger, LeadAcid, typical_efficiency,
    typical_polarisation, typical_rest,
};
use crate::magnetics::rectifier::{Connection, DiodeLine, DirectLoad, Rectifier, RectifierNumber, WavePoint};
use crate::quantity::{
    Capacitance, Charge, Current, Inductance, Measured, Number, Origin, Ratio, Resistance, Time, Voltage,
};
use crate::rewind::goal::Goal;

const CHARGE_ROWS: [ChargeNumber; 5] = [
    ChargeNumber::FlatCurrent,
    ChargeNumber::FullCurrent,
    ChargeNumber::FullVoltage,
    ChargeNumber::WindingCurrent,
    ChargeNumber::Duration,
];

const ROWS: [RectifierNumber; 8] = [
    RectifierNumber::MeanVoltage,
    RectifierNumber::MeanCurrent,
    RectifierNumber::Ripple,
    RectifierNumber::PeakCurrent,
    RectifierNumber::DiodeCurrent,
    RectifierNumber::ReverseVoltage,
    RectifierNumber::DiodeLoss,
    RectifierNumber::WindingCurrent,
];

/// What flows behind the diodes.
#[derive(Debug, Clone, PartialEq)]
pub struct DirectAnswer {
    /// Numbers of the steady state: a battery half full, or the load at the goal's current.
    pub numbers: Vec<Number>,
    /// One period of it.
    pub wave: Vec<WavePoint>,
    /// The charge from flat to full, for a battery.
    pub charge: Option<ChargeCourse>,
    /// True where the winding's r.m.s. current is above what the design was made for.
    pub too_much: bool,
    /// How the diodes are joined.
    pub connection: Connection,
    /// Series reactance counted in ahead of the diodes; zero for none.
    pub reactor: Resistance,
    /// The current that it holds to, into a battery half full; none where it is the design's own.
    pub held: Option<Current>,
}

/// The charge of a battery.
#[derive(Debug, Clone, PartialEq)]
pub struct ChargeCourse {
    /// Its numbers.
    pub numbers: Vec<Number>,
    /// Its course.
    pub points: Vec<ChargePoint>,
    /// Time since flat, and the ends of the current's range then.
    pub band: Vec<(Time, [Current; 2])>,
    /// What to heed.
    pub warnings: Vec<ChargeWarning>,
}

/// A silicon diode on a heat sink: 0.8 ± 0.1 V and 5 ± 3 mΩ for 10 A, the slope falling with the
/// current. Common practice, no source; the diode's own sheet has better.
fn diode(current: f64) -> DiodeLine {
    let slope = 0.05 / current.max(1.0);
    DiodeLine {
        threshold: Measured::new(Voltage::from_si(0.8), Voltage::from_si(0.1), Origin::Typical),
        slope: Measured::new(
            Resistance::from_si(slope),
            Resistance::from_si(slope * 0.6),
            Origin::Typical,
        ),
    }
}

/// The reactor that the design asks for ahead of the diodes (zero where it asks for none), wound
/// and gapped to within a tenth. Common practice, no source.
fn reactor(design: &Design) -> Measured<Resistance> {
    let wanted = design.estimate.series_reactance.value;
    Measured::new(wanted, wanted * 0.1, Origin::Computed)
}

/// The reactor that holds a charger's mean current into a half-full battery to what is wanted:
/// found on the diodes' own current, whose form a series reactance for a sine does not know. Zero
/// where less flows without any.
fn charger_reactor(without: &Rectifier, wanted: Current) -> Measured<Resistance> {
    let omega = without.frequency.value.angular();
    let flows = |ohms: f64| {
        let mut with = *without;
        with.leakage.value += Inductance::from_si(ohms / omega);
        with.means().map_or(0.0, |found| found.current.si())
    };
    // How far the current is above what is wanted, to 1e-4 of it: the reactor is wound to a tenth.
    let above = |ohms: f64| flows(ohms) - wanted.si();
    let far = (without.open_voltage.value / wanted).si() * 2.0;
    let mut bracket = Bracket::new((0.0, above(0.0)), (far, above(far)));
    if bracket.at_low <= 0.0 {
        return Measured::exact(Resistance::ZERO, Origin::Computed);
    }
    for _ in 0..60 {
        if bracket.width() <= 1e-4 * bracket.high || bracket.at_high >= 0.0 {
            break;
        }
        let ohms = bracket.on_line();
        let value = above(ohms);
        if value.abs() <= 1e-4 * wanted.si() {
            bracket.high = ohms;
            break;
        }
        bracket.narrow(ohms, value, value > 0.0);
    }
    let found = Resistance::from_si(bracket.high);
    Measured::new(found, found * 0.1, Origin::Computed)
}

/// The rectifier on a job's design; `load` is put behind it.
fn rectifier(
    file: &JobFile,
    answer: &Basis,
    design: &Design,
    load: DirectLoad,
    reactor: Measured<Resistance>,
) -> Rectifier {
    let rebuild = &answer.problem.rebuild;
    let estimate = &design.estimate;
    let ratio = f64::from(design.candidate.winding.turns) / rebuild.primary.turns.value.si();
    let primary = primary_resistance(answer, rebuild.temperature.value);
    let mains = answer.problem.rebuild.supply_resistance;
    let carried = (primary.value + mains.value) * (ratio * ratio);
    let carried_half = primary.plus_minus.si().hypot(mains.plus_minus.si()) * ratio * ratio;
    let own = estimate.winding_resistance;
    let leakage = estimate.leakage_reactance;
    let ahead = leakage.value + reactor.value;
    let ahead_half = leakage.plus_minus.si().hypot(reactor.plus_minus.si());
    let omega = rebuild.mains.frequency.angular();
    let open = estimate.open_circuit;
    let connection = match file.conditions.rectifier {
        Some(job::RectifierKind::CentreTap) => Connection::CentreTap,
        Some(job::RectifierKind::Bridge) | None => Connection::Bridge,
    };
    // With a centre tap each half has half the voltage, half the winding's resistance, and a
    // quarter of what is carried over from the primary.
    let (half, quarter) = match connection {
        Connection::Bridge => (1.0, 1.0),
        Connection::CentreTap => (0.5, 0.25),
    };
    let resistance = own.value.si() * half + carried.si() * quarter;
    let resistance_half = (own.plus_minus.si() * half).hypot(carried_half * quarter);
    Rectifier {
        connection,
        open_voltage: Measured::new(open.value * half, open.plus_minus * half, Origin::Computed),
        frequency: Measured::exact(rebuild.mains.frequency, Origin::Label),
        source_resistance: Measured::new(
            Resistance::from_si(resistance),
            Resistance::from_si(resistance_half),
            Origin::Computed,
        ),
        leakage: Measured::new(
            Inductance::from_si(ahead.si() / omega * quarter),
            Inductance::from_si(ahead_half / omega * quarter),
            Origin::Computed,
        ),
        diode: diode(estimate.working_current.value.si()),
        load,
    }
}

/// The battery: as the person gave it, else ten times the charging current in ampere-hours ± 20 %
/// and 0.05 Ω for each 12 V over its capacity in units of 10 Ah, ± 50 %. Common practice, no source.
fn battery(file: &JobFile, volts: Voltage, current: f64) -> LeadAcid {
    let conditions = &file.conditions;
    let amp_hours = (current * 10.0).max(1.0);
    let capacity = conditions.battery_ah.map_or(
        Measured::new(
            Charge::from_amp_hours(amp_hours),
            Charge::from_amp_hours(amp_hours * 0.2),
            Origin::Typical,
        ),
        |ah| ah.measured(Charge::from_amp_hours),
    );
    let usual = 0.05 * volts.si() / 12.0 * 10.0 / capacity.value.amp_hours().max(1.0) + 0.005;
    LeadAcid {
        cells: (volts.si() / 2.0).round().max(1.0) as u32,
        capacity,
        resistance: conditions.battery_milliohm.map_or(
            Measured::new(
                Resistance::from_si(usual),
                Resistance::from_si(usual * 0.5),
                Origin::Typical,
            ),
            |milliohm| milliohm.measured(Resistance::from_milliohms),
        ),
        polarisation: typical_polarisation(),
        rest: typical_rest(),
        efficiency: typical_efficiency(),
    }
}

/// A battery half full as a load behind the diodes.
fn half_full(battery: &LeadAcid, choke: Measured<Inductance>) -> DirectLoad {
    let half = Ratio::from_si(0.5);
    DirectLoad::BackVoltage {
        emf: Measured::new(
            battery.charging_emf(half),
            battery.charging_emf_spread(half),
            Origin::Computed,
        ),
        resistance: battery.resistance,
        choke,
    }
}

/// The reactor that the design in hand needs in series, as [`direct_current`] has it; zero for none, `None`
/// without a design.
#[must_use]
pub fn reactor_needed(file: &JobFile, answer: &Basis) -> Option<Resistance> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let Goal::BatteryCharger { battery_volts, current } = *goal else {
        return Some(design.estimate.series_reactance.value);
    };
    let choke = file
        .conditions
        .choke_mh
        .map_or(Measured::exact(Inductance::ZERO, Origin::Chosen), |mh| {
            mh.measured(Inductance::from_millihenries)
        });
    let load = half_full(&battery(file, battery_volts, current.si()), choke);
    let none = Measured::exact(Resistance::ZERO, Origin::Computed);
    let without = rectifier(file, answer, design, load, none);
    Some(charger_reactor(&without, current).value)
}

/// Behind diodes; none for a use on alternating current with no rectifier chosen, or where the
/// numbers give none.
#[must_use]
pub fn direct_current(file: &JobFile, answer: &Basis) -> Option<DirectAnswer> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let conditions = &file.conditions;
    let choke = conditions
        .choke_mh
        .map_or(Measured::exact(Inductance::ZERO, Origin::Chosen), |mh| {
            mh.measured(Inductance::from_millihenries)
        });
    let exact = |ohms: f64| Measured::exact(Resistance::from_si(ohms), Origin::Computed);
    let mut held = None;
    let (rectifier, charge) = match *goal {
        Goal::BatteryCharger { battery_volts, current } => {
            let battery = battery(file, battery_volts, current.si());
            let load = half_full(&battery, choke);
            let none = Measured::exact(Resistance::ZERO, Origin::Computed);
            let without = rectifier(file, answer, design, load, none);
            let reactor = charger_reactor(&without, current);
            held = Some((reactor.value, current));
            let rectifier = rectifier(file, answer, design, load, reactor);
            let charger = Charger {
                rectifier,
                choke,
                battery,
            };
            (rectifier, course(&charger))
        }
        // The arc as a back voltage with a small slope.
        Goal::PlasmaCutter { arc_volts, .. } => (
            rectifier(
                file,
                answer,
                design,
                DirectLoad::BackVoltage {
                    emf: Measured::new(arc_volts, arc_volts * 0.1, Origin::Typical),
                    resistance: exact(0.02),
                    choke,
                },
                reactor(design),
            ),
            None,
        ),
        Goal::StickWelder { .. } | Goal::ArcFurnace { .. } if conditions.rectifier.is_some() => {
            let demand = goal.requirements().demand;
            (
                rectifier(
                    file,
                    answer,
                    design,
                    DirectLoad::BackVoltage {
                        emf: Measured::new(
                            demand.load.volts(demand.current),
                            Voltage::from_si(3.0),
                            Origin::Typical,
                        ),
                        resistance: exact(0.02),
                        choke,
                    },
                    reactor(design),
                ),
                None,
            )
        }
        Goal::PlainSupply { volts, current, .. } if conditions.rectifier.is_some() => (
            rectifier(
                file,
                answer,
                design,
                DirectLoad::Reservoir {
                    capacitance: conditions.capacitor_uf.map_or(
                        // 2000 µF for each ampere: common practice, no source.
                        Measured::new(
                            Capacitance::from_microfarads(2000.0 * current.si()),
                            Capacitance::from_microfarads(400.0 * current.si()),
                            Origin::Typical,
                        ),
                        |uf| uf.measured(Capacitance::from_microfarads),
                    ),
                    resistance: Measured::exact(volts / current, Origin::Chosen),
                },
                reactor(design),
            ),
            None,
        ),
        _ => return None,
    };
    let (estimate, propagated) = rectifier.steady_with_uncertainty().ok()?;
    Some(DirectAnswer {
        numbers: ROWS.map(|number| number.of(&propagated)).to_vec(),
        wave: rectifier.waveform(121).ok()?,
        charge,
        too_much: estimate.winding_current.value > goal.current() * 1.1,
        connection: rectifier.connection,
        reactor: held.map_or(reactor(design).value, |(reactor, _)| reactor),
        held: held.map(|(_, current)| current),
    })
}

fn course(charger: &Charger) -> Option<ChargeCourse> {
    let spread = charger.charge_with_uncertainty(ChargeLimits::common_practice()).ok()?;
    Some(ChargeCourse {
        // A charge that never ends, or may not, has no duration; the warnings say so.
        numbers: CHARGE_ROWS
            .into_iter()
            .map(|number| number.of(&spread.answers))
            .filter(|number| number.si.0.is_finite() && number.si.1.is_finite())
            .collect(),
        points: spread.curve.points,
        band: spread.band,
        warnings: spread.curve.warnings,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::basis;
    use crate::app::start::{demo_job, goal_of};
    use crate::job::{Goal as Recorded, Reading, RectifierKind};

    /// The state of a design names the reactor that the topic works with.
    #[test]
    fn state_and_topic_have_one_reactor() {
        for as_much in [false, true] {
            for word in ["battery_charger", "plasma_cutter"] {
                let mut file = demo_job();
                file.goal = goal_of(word);
                let goal = file.goal;
                file.conditions.want_as_much(&goal, as_much);
                let answer = basis(&file).unwrap();
                let topic = direct_current(&file, &answer).map(|found| found.reactor);
                assert_eq!(reactor_needed(&file, &answer), topic, "{word} {as_much}");
                assert!(
                    topic.is_some() || !as_much,
                    "{word}: there is always some current to be had"
                );
            }
        }
    }

    /// Behind a choke that keeps the current smooth, the mean voltage of a bridge is
    /// `0.9 V − 2 X I/π` less the drops, X all the reactance ahead of it; the legs overlap until
    /// `cos μ = 1 − 2 X I/(√2 V)`, the current then following `(√2 V/X)(1 − cos θ)` (Mohan,
    /// Undeland and Robbins, Power Electronics, single-phase bridge with source inductance; from
    /// memory). What the resistance ahead drops is averaged over that by hand.
    #[test]
    fn a_smooth_arc_current_follows_the_commutation_formula() {
        let mut file = demo_job();
        file.goal = goal_of("stick_welder");
        if let Recorded::StickWelder { arc_current_a, .. } = &mut file.goal {
            *arc_current_a = 30.0;
        }
        // Cool enough for that arc.
        file.conditions.insulation = Some(crate::job::InsulationClass::H);
        file.conditions.fan_m_per_s = Some(Reading::new(3.0, 0.0, Origin::Chosen));
        file.conditions.rectifier = Some(RectifierKind::Bridge);
        file.conditions.choke_mh = Some(Reading::new(50.0, 0.0, Origin::Chosen));
        let answer = basis(&file).unwrap();
        let estimate = &answer.design.as_ref().unwrap().estimate;
        let reactance = estimate.series_reactance.value + estimate.leakage_reactance.value;
        assert!(
            estimate.series_reactance.value > Resistance::ZERO,
            "the design wants a reactor"
        );
        let demand = answer.goal.unwrap().requirements().demand;
        let line = diode(estimate.working_current.value.si());
        let (x, crest) = (
            reactance.si(),
            std::f64::consts::SQRT_2 * estimate.open_circuit.value.si(),
        );
        let pi = std::f64::consts::PI;
        let back = 2.0 * line.threshold.value.si() + demand.load.volts(demand.current).si();
        let behind = 2.0 * line.slope.value.si() + 0.02;
        let mut expected = 20.0;
        for _ in 0..200 {
            let overlap = (1.0 - 2.0 * x * expected / crest).acos();
            let turning = -expected * overlap + crest / x * (overlap - overlap.sin());
            let ahead = (turning + expected * (pi - overlap)) / pi * estimate.total_resistance.value.si();
            let next = (2.0 / pi * crest - back - ahead) / (behind + 2.0 * x / pi);
            expected += 0.5 * (next - expected);
        }
        let found = direct_current(&file, &answer).unwrap();
        let got = found
            .numbers
            .iter()
            .find(|n| n.kind == RectifierNumber::MeanCurrent.kind())
            .unwrap()
            .si;
        assert!((got.0 / expected - 1.0).abs() < 0.03, "{got:?} A for {expected} A");
        assert!(got.1 > 0.0 && !found.too_much, "{got:?}");
        assert_eq!(found.reactor, estimate.series_reactance.value);
    }

    /// What a charger is asked for is what flows: the bridge, the reactor and the battery half full
    /// integrated here in time, step by step (Euler's method, 20 µs), by the circuit's equations
    /// alone.
    #[test]
    fn a_charger_holds_the_current_that_is_asked_for() {
        let mut file = demo_job();
        file.goal = goal_of("battery_charger");
        file.choice = None;
        let answer = basis(&file).unwrap();
        let design = answer.design.as_ref().unwrap();
        let found = direct_current(&file, &answer).unwrap();
        let mean = found
            .numbers
            .iter()
            .find(|n| n.kind == RectifierNumber::MeanCurrent.kind())
            .unwrap()
            .si;
        assert!((mean.0 / 20.0 - 1.0).abs() < 0.01, "{mean:?}");
        let none = Measured::exact(Resistance::ZERO, Origin::Computed);
        let battery = battery(&file, Voltage::from_si(12.0), 20.0);
        let load = DirectLoad::BackVoltage {
            emf: Measured::exact(battery.charging_emf(Ratio::from_si(0.5)), Origin::Computed),
            resistance: battery.resistance,
            choke: Measured::exact(Inductance::ZERO, Origin::Computed),
        };
        let circuit = rectifier(&file, &answer, design, load, none);
        let omega = circuit.frequency.value.angular();
        let inductance = circuit.leakage.value.si() + found.reactor.si() / omega;
        let series =
            circuit.source_resistance.value.si() + 2.0 * circuit.diode.slope.value.si() + battery.resistance.value.si();
        let back = battery.charging_emf(Ratio::from_si(0.5)).si() + 2.0 * circuit.diode.threshold.value.si();
        let crest = std::f64::consts::SQRT_2 * circuit.open_voltage.value.si();
        let step = 2e-5;
        let period = 1.0 / circuit.frequency.value.si();
        let (mut current, mut charge, mut time) = (0.0_f64, 0.0, 0.0);
        while time < 21.0 * period {
            let source = crest * (omega * time).sin();
            // The bridge turns the source so that current only flows forward into the battery.
            let way = if current == 0.0 {
                source.signum()
            } else {
                current.signum()
            };
            let next = current + step / inductance * (source - way * back - series * current);
            current = if next * way > 0.0 { next } else { 0.0 };
            if time >= 20.0 * period {
                charge += current.abs() * step;
            }
            time += step;
        }
        let integrated = charge / period;
        assert!((integrated / 20.0 - 1.0).abs() < 0.03, "{integrated} A");
    }
}
