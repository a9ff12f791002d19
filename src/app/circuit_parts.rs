//! The circuit round a finished part: mains side, leads, what lies behind the winding.

use super::basis::{Basis, Design, own_wires, space};
use super::behaviour::direct_current::DirectAnswer;
use super::behaviour::heat::class_of;
use super::behaviour::inductor::InductorAnswer;
use super::behaviour::inrush::{inrush, mains_fuse};
use super::behaviour::primary_resistance;
use super::translate::transformer_goal;
use crate::job::{self, JobFile};
use crate::magnetics::circuit::cord::{Cord, cord_for};
use crate::magnetics::circuit::fuse::Fuse;
use crate::magnetics::circuit::performance::{Prepared, Rebuild};
use crate::magnetics::circuit::protection::{Protection, Tripping};
use crate::magnetics::circuit::soft_start::{SoftStart, soft_start};
use crate::magnetics::heat::duty::current_at_duty;
use crate::magnetics::rectifier::charger::ChargeNumber;
use crate::magnetics::rectifier::{Connection, RectifierNumber};
use crate::quantity::{
    Area, Current, Inductance, Length, NumberKind, Power, Ratio, Resistance, Temperature, Time, Voltage,
};
use crate::rewind::search::judge;

/// What a builder puts round the winding or the coil.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CircuitParts {
    /// The mains side; `None` for a choke, which another supply feeds.
    pub mains: Option<MainsSide>,
    /// The thermal cut-out.
    pub cut_out: CutOut,
    /// Both leads together with what shortening them brings.
    pub leads: Leads,
    /// What electrode, tips, clamps and terminals carry.
    pub output: LoadCurrent,
    /// Behind the winding, where the current is direct.
    pub diodes: Option<Diodes>,
    /// Fuse beside a battery; `None` without one, and where no standard rating reaches.
    pub battery_fuse: Option<Current>,
    /// Reactor in series with the winding.
    pub reactor: Option<Reactor>,
}

/// Between the plug and the primary, or the ballast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MainsSide {
    /// The breaker or fuse of the circuit, as the outlet has it.
    pub breaker: Protection,
    /// The fuse to fit; `None` where no standard one carries the current.
    pub fuse: Option<Fuse>,
    /// The cord; `None` above the largest.
    pub cord: Option<Cord>,
    /// What asks for a soft start, and which.
    pub soft_start: Option<(StartReason, SoftStart)>,
}

/// Why a soft start is asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StartReason {
    /// Breaker or fuse must open at the first peak.
    Opens,
    /// One breaker or fuse opens at the first peak, another holds.
    MayOpen,
}

impl StartReason {
    /// The word that files use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            StartReason::Opens => "opens",
            StartReason::MayOpen => "may_open",
        }
    }
}

/// A thermal cut-out on the winding's outside, in the live wire.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutOut {
    /// The temperature that it opens at.
    pub opens_at: Temperature,
    /// The current that it has to carry and to break: that of the mains side, or the coil's.
    pub carries: Current,
}

/// The two leads from the winding to the load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Leads {
    /// Length of each.
    pub each: Length,
    /// Metal section of each, all conductors together.
    pub section: Area,
    /// Of both, warm.
    pub resistance: Resistance,
    /// Voltage lost in both while the current flows.
    pub drop: Voltage,
    /// Heat in both, averaged over the duty cycle.
    pub heat: Power,
    /// The current with leads half as long; `None` where the load sets it.
    pub at_half: Option<Current>,
}

/// A current that comes and goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadCurrent {
    /// While it flows.
    pub on: Current,
    /// The steady current that heats as much, I √D.
    pub steady: Current,
}

/// A reactor of its own core, in series with a winding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reactor {
    /// Its inductance.
    pub inductance: Inductance,
    /// The current that it carries, r.m.s.
    pub current: Current,
}

/// The diodes to get.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Diodes {
    /// How many.
    pub count: u32,
    /// Rated mean forward current of each.
    pub current: Current,
    /// Rated repetitive peak reverse voltage of each.
    pub reverse: Voltage,
}

/// A cut-out lies on the coil's outside: the hot spot inside stands 10 K above the mean
/// (IEC 60076-11 leaves 5 to 15 K, M), and a disc opens within 10 K of its mark. Common practice, no source.
const CUT_OUT_BELOW_LIMIT: f64 = 20.0;
/// Steps in which bimetal discs are sold. Common practice, no source.
const CUT_OUT_STEP: f64 = 5.0;

/// Mean current of a diode over what flows, and its reverse voltage. Common practice, no source.
const DIODE_CURRENT_MARGIN: f64 = 1.5;
const DIODE_VOLTAGE_MARGIN: f64 = 2.0;
/// Ratings that diodes and bridges for screws and heat sinks are sold in. Common practice, no source.
const DIODE_AMPS: [f64; 14] = [
    6.0, 10.0, 15.0, 25.0, 35.0, 50.0, 70.0, 100.0, 150.0, 200.0, 300.0, 400.0, 600.0, 1000.0,
];
const DIODE_VOLTS: [f64; 8] = [50.0, 100.0, 200.0, 400.0, 600.0, 800.0, 1000.0, 1200.0];

/// A battery's fuse over the largest charging current, as NFPA 70 counts for a steady load (M).
const BATTERY_MARGIN: f64 = 1.25;
/// Ratings of blade fuses (ISO 8820-3) and bolted strip fuses (ISO 8820-5) for vehicles. M.
const BATTERY_FUSES: [f64; 20] = [
    2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0, 125.0, 150.0, 175.0,
    200.0,
];

/// A half cycle, in which a first peak has to be held.
const HALF_CYCLE: Time = Time::from_si(0.01);

fn next_of(ratings: &[f64], least: f64) -> Option<f64> {
    ratings.iter().copied().find(|rating| *rating >= least)
}

/// The circuit round a job's winding or coil, with what flows behind its diodes; `None` where there is
/// neither.
#[must_use]
pub fn circuit_parts(
    file: &JobFile,
    answer: &Basis,
    direct: Option<&DirectAnswer>,
    coil: Option<&InductorAnswer>,
) -> Option<CircuitParts> {
    match coil {
        Some(found) => Some(round_coil(file, answer, found)),
        None => round_winding(file, answer, direct),
    }
}

fn cut_out(file: &JobFile, carries: Current) -> CutOut {
    let limit = class_of(file.conditions.insulation).limit();
    let opens = ((limit.si() - CUT_OUT_BELOW_LIMIT) / CUT_OUT_STEP).floor() * CUT_OUT_STEP;
    CutOut {
        opens_at: Temperature::from_si(opens),
        carries,
    }
}

fn round_winding(file: &JobFile, answer: &Basis, direct: Option<&DirectAnswer>) -> Option<CircuitParts> {
    let design = answer.design.as_ref()?;
    let estimate = &design.estimate;
    let duty = answer.goal?.requirements().demand.duty;
    let on = estimate.working_current.value;
    let most = direct.map(|direct| most_direct(direct, estimate.working_current.high()));
    Some(CircuitParts {
        mains: Some(mains_side(file, answer, estimate.mains_steady_current.high())),
        cut_out: cut_out(file, estimate.mains_current.high()),
        leads: leads(file, answer)?,
        output: LoadCurrent {
            on,
            steady: current_at_duty(on, duty, Ratio::from_si(1.0)),
        },
        diodes: direct.zip(most).and_then(|(direct, most)| diodes(direct, most)),
        battery_fuse: most
            .filter(|_| matches!(file.goal, job::Goal::BatteryCharger { .. }))
            .and_then(|most| next_of(&BATTERY_FUSES, most.si() * BATTERY_MARGIN))
            .map(Current::from_si),
        reactor: reactor(design, &answer.problem.rebuild),
    })
}

fn round_coil(file: &JobFile, answer: &Basis, found: &InductorAnswer) -> CircuitParts {
    let rms = found.built.load.rms();
    let each = answer.problem.rebuild.leads.value / 2.0;
    let conductor = found.built.conductor;
    let resistance =
        conductor.metal.resistivity(found.built.temperature.value).si() * each.si() * 2.0 / conductor.section.si();
    let resistance = Resistance::from_si(resistance);
    let ballast = matches!(file.goal, job::Goal::Ballast { .. });
    CircuitParts {
        mains: ballast.then(|| mains_side(file, answer, rms)),
        cut_out: cut_out(file, rms),
        leads: Leads {
            each,
            section: conductor.section,
            resistance,
            drop: rms * resistance,
            heat: rms.heating(resistance),
            at_half: None,
        },
        output: LoadCurrent { on: rms, steady: rms },
        diodes: None,
        battery_fuse: None,
        reactor: None,
    }
}

/// The reactor that a design needs on its mains; `None` for none.
#[must_use]
pub fn reactor(design: &Design, rebuild: &Rebuild) -> Option<Reactor> {
    let reactance = design.estimate.series_reactance.value;
    (reactance > Resistance::ZERO).then(|| Reactor {
        inductance: Inductance::from_si(reactance.si() / rebuild.mains.frequency.angular()),
        // It carries what two windings in parallel share.
        current: design.estimate.winding_current.value / rebuild.winding_share(),
    })
}

/// The cord carries what the fuse lets pass for good, so that the fuse guards it too.
fn mains_side(file: &JobFile, answer: &Basis, steady: Current) -> MainsSide {
    let breaker = answer.problem.rebuild.mains.protection;
    let fuse = mains_fuse(file, answer);
    let carried = fuse.map_or(steady, |fuse| fuse.protection.rating.max(steady));
    MainsSide {
        breaker,
        fuse,
        cord: cord_for(breaker.kind, carried),
        soft_start: start(file, answer, breaker, fuse),
    }
}

fn start(file: &JobFile, answer: &Basis, breaker: Protection, fuse: Option<Fuse>) -> Option<(StartReason, SoftStart)> {
    // A choke or a ballast has no primary that saturates when it is switched on.
    answer.goal?;
    let peak = inrush(file, answer)?.peak.high();
    let devices = || [Some(breaker), fuse.map(|fuse| fuse.protection)].into_iter().flatten();
    let reason = match devices().map(|device| device.at_first_peak(peak)).max()? {
        Tripping::Holds => return None,
        Tripping::MayTrip => StartReason::MayOpen,
        Tripping::Trips => StartReason::Opens,
    };
    let holds = devices()
        .map(|device| device.holds_up_to(HALF_CYCLE))
        .reduce(Current::min)?;
    // Of two cores the primaries lie side by side.
    let primary = primary_resistance(answer, Temperature::from_si(20.0)).value;
    let own = primary / answer.problem.rebuild.cores() + least_supply(answer);
    let mains = answer.problem.rebuild.mains.voltage;
    Some((reason, soft_start(mains.value + mains.plus_minus, own, holds)?))
}

/// The mains loop at its least, and never below nothing.
fn least_supply(answer: &Basis) -> Resistance {
    let loop_of = answer.problem.rebuild.supply_resistance;
    (loop_of.value - loop_of.plus_minus).max(Resistance::ZERO)
}

fn leads(file: &JobFile, answer: &Basis) -> Option<Leads> {
    let design = answer.design.as_ref()?;
    let rebuild = &answer.problem.rebuild;
    let goal = transformer_goal(&file.goal, &file.conditions)?;
    let winding = design.candidate.winding;
    let breadth = Prepared::new(rebuild).space.breadth;
    let both = rebuild.leads.value;
    let parallel = f64::from(winding.parallel);
    let per_length = winding
        .conductor
        .resistance_per_length(breadth, rebuild.temperature.value);
    let resistance = per_length * both * (rebuild.wire_factor.value.si() / parallel);
    let current = design.estimate.winding_current.value;
    let duty = goal.requirements().demand.duty.si().clamp(0.0, 1.0);
    let own = own_wires(file, &answer.catalogue);
    let space = space(&answer.problem, file, &answer.catalogue, &own);
    let mut shorter = *rebuild;
    shorter.leads.value = both / 2.0;
    // A charger and a supply give what is asked for; leads change their room, not their current.
    let follows = goal.requirements().demand.direct.is_none();
    let at_half = follows
        .then(|| judge(&shorter, &goal, &space, winding))
        .flatten()
        .map(|found| found.performance.working_current)
        .filter(|now| *now > design.estimate.working_current.value * WORTH_TELLING);
    Some(Leads {
        each: both / 2.0,
        section: winding.conductor.section(breadth) * parallel,
        resistance,
        drop: current * resistance,
        heat: current.heating(resistance) * duty,
        at_half,
    })
}

/// What shortening the leads brings is told from half a per cent on.
const WORTH_TELLING: f64 = 1.005;

/// The largest mean direct current: a flat battery's, or the load's.
fn most_direct(direct: &DirectAnswer, working: Current) -> Current {
    let flat = direct
        .charge
        .as_ref()
        .and_then(|charge| high(&charge.numbers, ChargeNumber::FlatCurrent.kind()));
    let mean = high(&direct.numbers, RectifierNumber::MeanCurrent.kind());
    let most = [flat, mean].into_iter().flatten().fold(0.0, f64::max);
    if most > 0.0 { Current::from_si(most) } else { working }
}

fn high(numbers: &[crate::quantity::Number], kind: NumberKind) -> Option<f64> {
    let found = numbers.iter().find(|number| number.kind.name == kind.name)?;
    Some(found.si.0 + found.si.1).filter(|si| si.is_finite())
}

fn diodes(direct: &DirectAnswer, most: Current) -> Option<Diodes> {
    // Each diode conducts every second half cycle.
    let mean = most.si() / 2.0;
    let reverse = high(&direct.numbers, RectifierNumber::ReverseVoltage.kind())?;
    Some(Diodes {
        count: match direct.connection {
            Connection::Bridge => 4,
            Connection::CentreTap => 2,
        },
        current: Current::from_si(next_of(&DIODE_AMPS, mean * DIODE_CURRENT_MARGIN)?),
        reverse: Voltage::from_si(next_of(&DIODE_VOLTS, reverse * DIODE_VOLTAGE_MARGIN)?),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::{Evaluation, evaluate};
    use crate::app::start::{demo_job, goal_of};

    fn parts(word: &str) -> (CircuitParts, Evaluation) {
        let mut file = demo_job();
        if file.goal.word() != word {
            file.goal = goal_of(word);
            file.choice = None;
        }
        let answer = evaluate(&file).unwrap();
        (*answer.circuit_parts().unwrap(), answer)
    }

    /// Ohm's law and ρ l / A with the resistivity of IEC 60028 and the section of IEC 60228: what the leads
    /// lose is what two lengths of that copper lose, within what strands and the standard's own ohms add.
    #[test]
    fn leads_lose_what_their_copper_loses() {
        let (found, answer) = parts("spot_welder");
        let leads = found.leads;
        let warm = 1.7241e-8 * (1.0 + 0.003_93 * (answer.problem.rebuild.temperature.value.si() - 20.0));
        let ohms = warm * 2.0 * leads.each.si() / leads.section.si();
        let ratio = leads.resistance.si() / ohms;
        assert!((0.97..1.12).contains(&ratio), "{ratio}");
        let current = answer.design.as_ref().unwrap().estimate.winding_current.value.si();
        assert!((leads.drop.si() / (current * leads.resistance.si()) - 1.0).abs() < 1e-12);
        assert!(leads.at_half.is_some_and(|more| more > found.output.on), "{leads:?}");
    }

    /// IEC 60085: class F ends at 155 °C, H at 180 °C; the cut-out opens 20 K below.
    #[test]
    fn the_cut_out_opens_below_the_insulations_limit() {
        use crate::job::InsulationClass;
        let mut file = demo_job();
        for (class, opens) in [(InsulationClass::F, 135.0), (InsulationClass::H, 160.0)] {
            file.conditions.insulation = Some(class);
            let at = cut_out(&file, Current::from_si(10.0)).opens_at.si();
            assert!((at - opens).abs() < 1e-9, "{at}");
        }
    }

    /// The cord carries what the fuse lets pass for good (IEC 60335-1, table 11; NFPA 70, table 400.5).
    #[test]
    fn the_fuse_guards_the_cord() {
        for word in ["spot_welder", "battery_charger", "plain_supply", "stick_welder"] {
            let mains = parts(word).0.mains.unwrap();
            if let (Some(fuse), Some(cord)) = (mains.fuse, mains.cord) {
                assert!(cord.carries >= fuse.protection.rating, "{word}");
                assert!(fuse.protection.rating <= mains.breaker.rating, "{word}");
            }
            if let Some((_, start)) = mains.soft_start {
                assert!(start.resistor > Resistance::ZERO, "{word}");
            }
        }
    }

    /// A charger's diodes and battery fuse carry a flat battery's current: each diode half of it (any
    /// textbook of power electronics), the fuse 125 % of it.
    #[test]
    fn a_charger_has_diodes_and_a_fuse_at_the_battery() {
        let (found, answer) = parts("battery_charger");
        let charge = answer.direct_current().unwrap().charge.as_ref().unwrap();
        let flat = high(&charge.numbers, ChargeNumber::FlatCurrent.kind()).unwrap();
        let diodes = found.diodes.unwrap();
        assert!(diodes.current.si() >= flat / 2.0 * 1.5 && diodes.count == 4);
        let crest = answer.design.as_ref().unwrap().estimate.open_circuit.value.si() * std::f64::consts::SQRT_2;
        assert!(diodes.reverse.si() >= crest, "{diodes:?} {crest}");
        let fuse = found.battery_fuse.unwrap();
        assert!(
            fuse.si() >= flat * 1.25 && fuse.si() <= flat * 2.0 + 3.0,
            "{fuse:?} for {flat}"
        );
        assert!(parts("spot_welder").0.battery_fuse.is_none());
    }

    /// A choke has its own leads and cut-out and nothing of the mains; a ballast has both.
    #[test]
    fn a_choke_has_its_own_circuit() {
        assert!(parts("choke").0.mains.is_none());
        let (found, _) = parts("ballast");
        assert!(found.mains.is_some_and(|mains| mains.soft_start.is_none()));
        assert!(found.leads.heat > Power::ZERO && found.output.on == found.output.steady);
    }
}
