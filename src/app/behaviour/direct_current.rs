//! Behind diodes: a battery from flat to full, a reservoir with its load, an arc with its choke.

use crate::app::basis::{Basis, Design};
use crate::app::translate::{battery, choke};
use crate::job::{self, JobFile};
use crate::magnetics::circuit::performance::{
    DirectSide, PerformanceNumber, Rebuild, as_wound, behind_diodes, held_circuit,
};
use crate::magnetics::rectifier::charger::{ChargeLimits, ChargeNumber, ChargePoint, ChargeWarning, Charger};
use crate::magnetics::rectifier::{Connection, DirectLoad, Rectifier, RectifierNumber, WavePoint};
use crate::quantity::{Capacitance, Current, Inductance, Measured, Number, Origin, Resistance, Time};
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
    /// How the diodes are joined.
    pub connection: Connection,
    /// Series reactance counted in ahead of the diodes; zero for none.
    pub reactor: Resistance,
    /// The current that it holds to (of a battery half full); none without one.
    pub held: Option<Current>,
    /// What an arc, or a supply, still needs behind its diodes.
    pub needs: Option<Needed>,
}

/// A part that is missing behind the diodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Needed {
    /// The arc's current stops in each half cycle: the least choke that keeps it flowing.
    Choke(Inductance),
    /// A supply's reservoir that nobody chose and that the numbers count in.
    Reservoir(Capacitance),
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

/// The state behind a design's diodes, with what is known of its source: the one that its search and its
/// numbers come from.
fn rectifier(rebuild: &Rebuild, design: &Design, side: DirectSide, reactor: Measured<Resistance>) -> Option<Rectifier> {
    let (estimate, frequency) = (&design.estimate, rebuild.mains.frequency);
    let circuit = held_circuit(rebuild, &design.candidate.winding, &side, reactor.value)?;
    let found = side.on(&circuit, frequency, reactor.value);
    let share = side.connection.share_of_turns();
    let part = |half: f64, of: f64| if of > 0.0 { half / of } else { 0.0 };
    let resistance = part(
        estimate.total_resistance.plus_minus.si(),
        estimate.total_resistance.value.si(),
    );
    let reactance = estimate
        .leakage_reactance
        .plus_minus
        .si()
        .hypot(reactor.plus_minus.si());
    Some(Rectifier {
        open_voltage: Measured {
            plus_minus: estimate.open_circuit.plus_minus * share,
            ..found.open_voltage
        },
        source_resistance: Measured {
            plus_minus: found.source_resistance.value * resistance,
            ..found.source_resistance
        },
        leakage: Measured {
            plus_minus: Inductance::from_si(reactance / frequency.angular() * share * share),
            ..found.leakage
        },
        ..found
    })
}

/// Behind diodes; none for a use on alternating current with no rectifier chosen, or where the
/// numbers give none.
#[must_use]
pub fn direct_current(file: &JobFile, answer: &Basis) -> Option<DirectAnswer> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let demand = goal.requirements().demand;
    let side = demand.direct?;
    let rebuild = &answer.problem.rebuild;
    let rectifier = rectifier(rebuild, design, side, reactor(design))?;
    let charge = match (goal, file.goal) {
        // The battery is that of the current asked for, whatever this winding gives.
        (Goal::BatteryCharger { battery_volts, .. }, job::Goal::BatteryCharger { charge_current_a, .. }) => {
            course(&Charger {
                rectifier,
                choke: choke(&file.conditions),
                battery: battery(&file.conditions, *battery_volts, Current::from_si(charge_current_a)),
            })
        }
        _ => None,
    };
    let (_, propagated) = behind_diodes(rebuild, &design.candidate.winding, &demand)?;
    let reactor = design.estimate.series_reactance.value;
    let wave = rectifier.waveform(121).ok()?;
    Some(DirectAnswer {
        numbers: ROWS
            .map(|number| match of_design(number) {
                Some(same) => Number {
                    kind: number.kind(),
                    ..design.number(same)
                },
                None => number.of(&propagated),
            })
            .to_vec(),
        wave,
        charge,
        connection: rectifier.connection,
        reactor,
        held: (reactor > Resistance::ZERO).then_some(demand.current),
        needs: needed(goal, &rectifier),
    })
}

/// What is missing behind the diodes: of an arc whose current stops in each half cycle a choke, of a supply
/// the reservoir that was assumed.
fn needed(goal: &Goal, rectifier: &Rectifier) -> Option<Needed> {
    let DirectLoad::BackVoltage { emf, resistance, choke } = rectifier.load else {
        let DirectLoad::Reservoir { capacitance, .. } = rectifier.load else {
            return None;
        };
        return (capacitance.origin == Origin::Typical).then_some(Needed::Reservoir(capacitance.value));
    };
    if matches!(goal, Goal::BatteryCharger { .. } | Goal::PlainSupply { .. }) {
        return None;
    }
    let flows = |henries: f64| {
        let choke = Measured::exact(Inductance::from_si(henries), Origin::Computed);
        let load = DirectLoad::BackVoltage { emf, resistance, choke };
        let state = Rectifier { load, ..*rectifier }.steady();
        state.is_ok_and(|state| state.conduction_angle.si() >= std::f64::consts::PI * 0.999)
    };
    if flows(choke.value.si()) {
        return None;
    }
    let mut high = LEAST_CHOKE;
    while !flows(high) {
        high *= 2.0;
        if high > MOST_CHOKE {
            return None;
        }
    }
    let mut low = high / 2.0;
    while high > low * 1.02 {
        let middle = (low * high).sqrt();
        if flows(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    Some(Needed::Choke(Inductance::from_si(high)))
}

/// The least and the most that a choke is looked for between, in henries.
const LEAST_CHOKE: f64 = 1e-5;
const MOST_CHOKE: f64 = 1.0;

/// The design's number that is the same.
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
    use crate::app::translate::diode;
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
        let line = diode(Current::from_si(30.0));
        let (x, crest) = (
            reactance.si(),
            std::f64::consts::SQRT_2 * estimate.open_circuit.value.si(),
        );
        let pi = std::f64::consts::PI;
        let back = 2.0 * line.threshold.value.si() + 20.0;
        let behind = 2.0 * line.slope.value.si() + 0.04;
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
        assert!(got.1 > 0.0, "{got:?}");
        assert_eq!(found.reactor, estimate.series_reactance.value);
    }

    /// An arc that a bridge alone lets go out is told the choke that keeps it burning: at most the 0.5 mH that
    /// ngspice finds smooth in this circuit ("arc, smooth" of `tests/reference/rectifier/cases.csv`). A
    /// reservoir is named where nobody chose it.
    #[test]
    fn what_is_needed_behind_the_diodes_is_said() {
        let exact = |ohms: f64| Measured::exact(Resistance::from_si(ohms), Origin::Computed);
        let none = Measured::exact(Inductance::ZERO, Origin::Computed);
        let arc = Rectifier {
            connection: Connection::Bridge,
            open_voltage: Measured::exact(crate::quantity::Voltage::from_si(40.0), Origin::Computed),
            frequency: Measured::exact(crate::quantity::Frequency::from_si(60.0), Origin::Label),
            source_resistance: exact(0.03),
            leakage: Measured::exact(Inductance::from_si(80e-6), Origin::Computed),
            diode: diode(Current::from_si(100.0)),
            load: DirectLoad::BackVoltage {
                emf: Measured::exact(crate::quantity::Voltage::from_si(20.0), Origin::Computed),
                resistance: exact(0.04),
                choke: none,
            },
        };
        let mut file = demo_job();
        file.goal = goal_of("arc_furnace");
        let goal = crate::app::translate::transformer_goal(&file.goal, &file.conditions).unwrap();
        let Some(Needed::Choke(choke)) = needed(&goal, &arc) else {
            panic!("{:?}", needed(&goal, &arc))
        };
        assert!(choke.si() > LEAST_CHOKE && choke.si() <= 525e-6, "{choke:?}");
        let mut smooth = arc;
        if let DirectLoad::BackVoltage { choke: there, .. } = &mut smooth.load {
            there.value = choke;
        }
        assert_eq!(needed(&goal, &smooth), None);
        let supply = |origin| Rectifier {
            load: DirectLoad::Reservoir {
                capacitance: Measured::exact(Capacitance::from_si(0.04), origin),
                resistance: exact(1.0),
            },
            ..arc
        };
        let counted = Some(Needed::Reservoir(Capacitance::from_si(0.04)));
        assert_eq!(needed(&goal, &supply(Origin::Typical)), counted);
        assert_eq!(needed(&goal, &supply(Origin::Label)), None);
    }

    /// A charger's search, its reactor and what its topic tells are one state: the bridge, the reactor where
    /// there is one, and the battery half full, integrated here in time, step by step (Euler's method,
    /// 20 µs), by the circuit's equations alone. On the demo's core with insulation of class F 15 and 20 A flow
    /// by themselves; 8 A lie between two turns, and a reactor holds them.
    #[test]
    fn a_charger_gives_what_the_search_said() {
        for (asked, needs_reactor) in [(8.0, true), (15.0, false), (20.0, false)] {
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
            let integrated = charged(&answer, found.reactor);
            assert!((integrated / mean.0 - 1.0).abs() < 0.01, "{integrated} A for {mean:?}");
        }
    }

    /// The mean current into the battery half full, by integration in time.
    fn charged(answer: &Basis, reactor: Resistance) -> f64 {
        let design = answer.design.as_ref().unwrap();
        let Some(Goal::BatteryCharger { side, .. }) = answer.goal else {
            panic!("{:?}", answer.goal)
        };
        let DirectLoad::BackVoltage { emf, resistance, .. } = side.load else {
            panic!("{side:?}")
        };
        let none = Measured::exact(Resistance::ZERO, Origin::Computed);
        let circuit = rectifier(&answer.problem.rebuild, design, side, none).unwrap();
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
