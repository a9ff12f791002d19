//! Behind diodes: a battery from flat to full, a reservoir with its load, an arc with its choke.

use super::{Number, Row, mains_loop, numbers, primary_resistance};
use crate::app::answer::{Answer, Design};
use crate::job::{self, JobFile};
use crate::magnetics::charger::{
    ChargeAnswer, ChargeLimits, ChargePoint, ChargeWarning, Charger, LeadAcid, typical_efficiency, typical_polarisation,
};
use crate::magnetics::rectifier::{Connection, DiodeLine, DirectLoad, Rectifier, RectifierAnswer, WavePoint};
use crate::quantity::{Capacitance, Charge, Inductance, Measured, Origin, Ratio, Resistance, Voltage};
use crate::rewind::goal::Goal;

const CHARGE_ROWS: &[Row] = &[
    ("flat_current", "ui-flat-current", 1.0, "A"),
    ("full_current", "ui-full-current", 1.0, "A"),
    ("full_voltage", "ui-full-voltage", 1.0, "V"),
    ("winding_current", "ui-charge-winding-current", 1.0, "A"),
    ("duration", "ui-charge-duration", 3600.0, "h"),
];

const ROWS: &[Row] = &[
    ("mean_voltage", "ui-mean-voltage", 1.0, "V"),
    ("mean_current", "ui-mean-current", 1.0, "A"),
    ("ripple", "ui-ripple", 1.0, "V"),
    ("peak_current", "ui-diode-peak", 1.0, "A"),
    ("diode_current", "ui-diode-current", 1.0, "A"),
    ("reverse_voltage", "ui-reverse-voltage", 1.0, "V"),
    ("diode_loss", "ui-diode-loss", 1.0, "W"),
    ("winding_current", "ui-dc-winding-current", 1.0, "A"),
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
    /// Series reactance that the design asks for, counted in ahead of the diodes; zero for none.
    pub reactor: Resistance,
}

/// The charge of a battery.
#[derive(Debug, Clone, PartialEq)]
pub struct ChargeCourse {
    /// Its numbers.
    pub numbers: Vec<Number>,
    /// Its course.
    pub points: Vec<ChargePoint>,
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

/// The rectifier on a job's design; `load` is put behind it.
fn rectifier(file: &JobFile, answer: &Answer, design: &Design, load: DirectLoad) -> Rectifier {
    let rebuild = &answer.problem.rebuild;
    let estimate = &design.estimate;
    let ratio = f64::from(design.candidate.winding.turns) / rebuild.primary.turns.value.si();
    let primary = primary_resistance(answer, rebuild.temperature.value);
    let mains = mains_loop(file, answer);
    let carried = (primary.value + mains.value) * (ratio * ratio);
    let carried_half = primary.plus_minus.si().hypot(mains.plus_minus.si()) * ratio * ratio;
    let own = estimate.winding_resistance;
    let leakage = estimate.leakage_reactance;
    let reactor = reactor(design);
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
        efficiency: typical_efficiency(),
    }
}

/// Behind diodes; none for a use on alternating current with no rectifier chosen, or where the
/// numbers give none.
#[must_use]
pub fn direct_current(file: &JobFile, answer: &Answer) -> Option<DirectAnswer> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let conditions = &file.conditions;
    let choke = conditions
        .choke_mh
        .map_or(Measured::exact(Inductance::ZERO, Origin::Chosen), |mh| {
            mh.measured(Inductance::from_millihenries)
        });
    let exact = |ohms: f64| Measured::exact(Resistance::from_si(ohms), Origin::Computed);
    let (rectifier, charge) = match *goal {
        Goal::BatteryCharger { battery_volts, current } => {
            let battery = battery(file, battery_volts, current.si());
            let emf = battery.charging_emf(Ratio::from_si(0.5));
            let load = DirectLoad::BackVoltage {
                emf: Measured::new(
                    emf,
                    battery.polarisation.plus_minus * f64::from(battery.cells),
                    Origin::Computed,
                ),
                resistance: battery.resistance,
                choke,
            };
            let rectifier = rectifier(file, answer, design, load);
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
            ),
            None,
        ),
        _ => return None,
    };
    let (estimate, propagated) = rectifier.steady_with_uncertainty().ok()?;
    Some(DirectAnswer {
        numbers: numbers(RectifierAnswer::FIELDS, RectifierAnswer::UNITS, &propagated, ROWS),
        wave: rectifier.waveform(121).ok()?,
        charge,
        too_much: estimate.winding_current.value > goal.current() * 1.1,
        connection: rectifier.connection,
        reactor: reactor(design).value,
    })
}

fn course(charger: &Charger) -> Option<ChargeCourse> {
    let curve = charger.curve(ChargeLimits::common_practice()).ok()?;
    let (_, propagated) = charger.answer_with_uncertainty().ok()?;
    Some(ChargeCourse {
        numbers: numbers(ChargeAnswer::FIELDS, ChargeAnswer::UNITS, &propagated, CHARGE_ROWS),
        points: curve.points,
        warnings: curve.warnings,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::answer::answer;
    use crate::app::start::{demo_job, goal_of};
    use crate::job::{Goal as Recorded, Reading, RectifierKind};

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
        file.conditions.rectifier = Some(RectifierKind::Bridge);
        file.conditions.choke_mh = Some(Reading::new(50.0, 0.0, Origin::Chosen));
        let answer = answer(&file).unwrap();
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
        let got = found.numbers.iter().find(|n| n.name == "mean_current").unwrap().si;
        assert!((got.0 / expected - 1.0).abs() < 0.03, "{got:?} A for {expected} A");
        assert!(got.1 > 0.0 && !found.too_much, "{got:?}");
        assert_eq!(found.reactor, estimate.series_reactance.value);
    }
}
