//! Behind diodes: a battery from flat to full, a reservoir with its load, an arc with its choke.

use super::primary_resistance;
use crate::app::basis::{Basis, Design};
use crate::app::translate::{battery, choke, connection, diode};
use crate::job::{self, JobFile};
use crate::magnetics::circuit::performance::{PerformanceNumber, as_wound, behind_diodes};
use crate::magnetics::rectifier::charger::{ChargeLimits, ChargeNumber, ChargePoint, ChargeWarning, Charger};
use crate::magnetics::rectifier::{Connection, DirectLoad, Rectifier, RectifierNumber, WavePoint};
use crate::quantity::{Capacitance, Current, Inductance, Measured, Number, Origin, Resistance, Time, Voltage};
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

/// The reactor that the design asks for ahead of the diodes; zero where it asks for none.
fn reactor(design: &Design) -> Measured<Resistance> {
    as_wound(design.estimate.series_reactance.value)
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
    let connection = connection(&file.conditions);
    // With a centre tap each half has half the voltage, half the winding's resistance, and a
    // quarter of what is carried over from the primary.
    let half = connection.share_of_turns();
    let quarter = half * half;
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
        diode: diode(estimate.working_current.value),
        load,
    }
}

/// Behind diodes; none for a use on alternating current with no rectifier chosen, or where the
/// numbers give none.
#[must_use]
pub fn direct_current(file: &JobFile, answer: &Basis) -> Option<DirectAnswer> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let conditions = &file.conditions;
    let choke = choke(conditions);
    let exact = |ohms: f64| Measured::exact(Resistance::from_si(ohms), Origin::Computed);
    let (rectifier, charge) = match *goal {
        Goal::BatteryCharger {
            battery_volts, side, ..
        } => {
            // The battery is that of the current asked for, whatever this winding gives.
            let job::Goal::BatteryCharger { charge_current_a, .. } = file.goal else {
                return None;
            };
            let mut rectifier = rectifier(file, answer, design, side.load, reactor(design));
            rectifier.diode = side.diode;
            let charger = Charger {
                rectifier,
                choke,
                battery: battery(conditions, battery_volts, Current::from_si(charge_current_a)),
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
    let demand = goal.requirements().demand;
    let (estimate, propagated) = match demand.direct {
        Some(_) => behind_diodes(&answer.problem.rebuild, &design.candidate.winding, &demand)?,
        None => rectifier.steady_with_uncertainty().ok()?,
    };
    let winding = design.estimate.winding_current.value;
    let reactor = design.estimate.series_reactance.value;
    Some(DirectAnswer {
        numbers: ROWS
            .map(|number| match of_design(number).filter(|_| demand.direct.is_some()) {
                Some(same) => Number {
                    kind: number.kind(),
                    ..design.number(same)
                },
                None => number.of(&propagated),
            })
            .to_vec(),
        wave: rectifier.waveform(121).ok()?,
        charge,
        too_much: estimate.winding_current.value > winding * 1.1,
        connection: rectifier.connection,
        reactor,
        held: (demand.direct.is_some() && reactor > Resistance::ZERO).then_some(demand.current),
    })
}

/// The design's number that is the same, where its search worked on the state behind the diodes.
const fn of_design(number: RectifierNumber) -> Option<PerformanceNumber> {
    match number {
        RectifierNumber::MeanCurrent => Some(PerformanceNumber::WorkingCurrent),
        RectifierNumber::MeanVoltage => Some(PerformanceNumber::WorkingVoltage),
        RectifierNumber::WindingCurrent => Some(PerformanceNumber::WindingCurrent),
        _ => None,
    }
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
                let needed = answer
                    .design
                    .as_ref()
                    .map(|design| design.estimate.series_reactance.value);
                assert_eq!(needed, topic, "{word} {as_much}");
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
        let line = diode(estimate.working_current.value);
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

    /// A charger's search, its reactor and what its topic tells are one state: the bridge, the reactor where
    /// there is one, and the battery half full, integrated here in time, step by step (Euler's method,
    /// 20 µs), by the circuit's equations alone. On the demo's core with insulation of class F 15 and 20 A flow
    /// by themselves; 10 A lie between two turns, and a reactor holds them.
    #[test]
    fn a_charger_gives_what_the_search_said() {
        for (asked, needs_reactor) in [(10.0, true), (15.0, false), (20.0, false)] {
            let mut file = demo_job();
            file.goal = Recorded::BatteryCharger {
                battery_volts: 12.0,
                charge_current_a: asked,
                confirmed: true,
            };
            file.choice = None;
            file.conditions.insulation = Some(crate::job::InsulationClass::F);
            let answer = basis(&file).unwrap();
            let design = answer.design.as_ref().unwrap();
            let found = direct_current(&file, &answer).unwrap();
            let told = |number: RectifierNumber| found.numbers.iter().find(|n| n.kind == number.kind()).unwrap().si;
            let mean = told(RectifierNumber::MeanCurrent);
            let (estimate, listed) = (&design.estimate, &design.candidate.performance);
            assert_eq!(found.reactor.si() > 0.0, needs_reactor, "{asked} A");
            assert_eq!(found.held.is_some(), needs_reactor, "{asked} A");
            assert!((0.9..=1.15).contains(&(mean.0 / asked)), "{asked} A: {mean:?}");
            for (one, other) in [
                (mean.0, estimate.working_current.value.si()),
                (mean.1, estimate.working_current.plus_minus.si()),
                (mean.0, listed.working_current.si()),
                (
                    told(RectifierNumber::WindingCurrent).0,
                    estimate.winding_current.value.si(),
                ),
                (
                    told(RectifierNumber::MeanVoltage).0,
                    estimate.working_voltage.value.si(),
                ),
            ] {
                assert!((one / other - 1.0).abs() < 1e-6, "{asked} A: {one} {other}");
            }
            let integrated = charged(&file, &answer, found.reactor);
            assert!((integrated / mean.0 - 1.0).abs() < 0.01, "{integrated} A for {mean:?}");
        }
    }

    /// The mean current into the battery half full, by integration in time.
    fn charged(file: &JobFile, answer: &Basis, reactor: Resistance) -> f64 {
        let design = answer.design.as_ref().unwrap();
        let Some(Goal::BatteryCharger { side, .. }) = answer.goal else {
            panic!("{:?}", answer.goal)
        };
        let DirectLoad::BackVoltage { emf, resistance, .. } = side.load else {
            panic!("{side:?}")
        };
        let none = Measured::exact(Resistance::ZERO, Origin::Computed);
        let circuit = rectifier(file, answer, design, side.load, none);
        let omega = circuit.frequency.value.angular();
        let inductance = circuit.leakage.value.si() + reactor.si() / omega;
        let series = circuit.source_resistance.value.si() + 2.0 * side.diode.slope.value.si() + resistance.value.si();
        let back = emf.value.si() + 2.0 * side.diode.threshold.value.si();
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
        charge / period
    }
}
