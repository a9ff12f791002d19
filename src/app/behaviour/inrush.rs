//! What flows when the switch closes at a bad instant, and which breaker holds it.

use super::found_by_test;
use crate::app::basis::Basis;
use crate::app::problem::Problem;
use crate::app::translate::{gaps, of_second_core, steel, transformer_goal};
use crate::job::{self, JobFile};
use crate::magnetics::circuit::fuse::{Fuse, FuseDemand, fuse_for};
use crate::magnetics::circuit::protection::{DeviceKind, Protection, Tripping};
use crate::magnetics::idle::inrush::{FirstPeak, FirstPeakEstimate, FirstPeakNumber, Inrush, Switching};
use crate::quantity::{
    Angle, Current, Estimate, Input, Length, Measured, Number, Origin, Ratio, Resistance, Temperature, Time,
    UncertainInputs, Visitor, propagate,
};
use crate::rewind::heat::primary_resistance;

const ROWS: [FirstPeakNumber; 2] = [FirstPeakNumber::Peak, FirstPeakNumber::Density];

/// The first peak.
#[derive(Debug, Clone, PartialEq)]
pub struct InrushAnswer {
    /// Its numbers, at the worst instant.
    pub numbers: Vec<Number>,
    /// The first peak at the worst instant.
    pub peak: Estimate<Current>,
    /// First peak against the instant of closing, from the zero of the rising voltage on.
    pub by_angle: Vec<(Angle, Current)>,
    /// First peak against the resistance of the mains loop, at the worst instant.
    pub by_mains: Vec<(Resistance, Current)>,
    /// The resistance of the mains loop that the numbers are for.
    pub mains: Resistance,
    /// Rating of the breaker or fuse.
    pub rating: Current,
    /// What each device that may protect this outlet does, at the likely peak and at the high end of
    /// its range; quickest first.
    pub devices: Vec<(DeviceKind, Tripping, Tripping)>,
    /// The quickest of them that holds at the high end of the range.
    pub holds: Option<DeviceKind>,
}

/// The fuse for the mains side of the chosen winding, with the first peak where it is known; `None`
/// without a winding, or where no fuse up to the circuit's rating carries it.
#[must_use]
pub fn mains_fuse(file: &JobFile, answer: &Basis) -> Option<Fuse> {
    if let job::Goal::Ballast { current_a, .. } = file.goal {
        // A ballast's lamp is its load: its current is all that flows, and it flows for hours.
        let current = Current::from_si(current_a);
        return fuse_for(
            answer.problem.rebuild.mains.protection,
            &FuseDemand {
                steady: current,
                pull: current,
                on_time: Time::from_si(36_000.0),
                first_peak: None,
            },
        );
    }
    let estimate = &answer.design.as_ref()?.estimate;
    let first_peak = inrush(file, answer).map(|found| found.peak.high());
    fuse_for(
        answer.problem.rebuild.mains.protection,
        &FuseDemand {
            steady: estimate.mains_steady_current.high(),
            pull: estimate.mains_current.high(),
            on_time: transformer_goal(&file.goal, &file.conditions)?.requirements().on_time,
            first_peak,
        },
    )
}

fn inrush_of(file: &JobFile, problem: &Problem) -> Inrush {
    let rebuild = &problem.rebuild;
    let primary = primary_resistance(rebuild, Temperature::from_si(20.0));
    let mains = rebuild.supply_resistance;
    // The primaries of two cores lie side by side: each sees the mains' drop under the current of both.
    let shared = mains.value * rebuild.cores();
    // What an idle test found of the core holds. One measure's ± stands for that of the net area:
    // then the stack's, as the test finds the area under its name, else the stacking factor's.
    let found = found_by_test(problem);
    let mut core = found.map_or(rebuild.core, |idle| idle.core);
    match found {
        Some(_) => core.stacking_factor.plus_minus = Ratio::ZERO,
        None => core.stack.plus_minus = Length::ZERO,
    }
    Inrush {
        core,
        steel: found.map_or_else(|| steel(&file.conditions), |idle| idle.steel),
        gaps: found.map_or_else(|| gaps(&file.core), |idle| idle.gaps),
        turns: found.map_or(rebuild.primary.turns, |idle| idle.turns),
        voltage: rebuild.mains.voltage,
        frequency: rebuild.mains.frequency,
        resistance: Measured::new(
            primary.value + shared,
            Resistance::from_si(primary.plus_minus.si().hypot(mains.plus_minus.si() * rebuild.cores())),
            Origin::Computed,
        ),
        remanence: Measured::exact(Ratio::ZERO, Origin::Computed),
    }
    .remembering()
}

/// What of it is uncertain enough to matter.
#[derive(Clone)]
struct Uncertain(Inrush);

impl UncertainInputs for Uncertain {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        let inrush = &mut self.0;
        inrush.core.stack.visit(Input::Stack, visitor);
        inrush.core.stacking_factor.visit(Input::StackingFactor, visitor);
        inrush.steel.field_factor.visit(Input::SteelMagnetisation, visitor);
        inrush.turns.visit(Input::Turns, visitor);
        inrush.voltage.visit(Input::MainsVoltage, visitor);
        inrush.resistance.visit(Input::LoopResistance, visitor);
        inrush.remanence.visit(Input::Remanence, visitor);
    }
}

/// First peak of all cores against the mains loop's resistance: from none to four times `mains`, or to 1 Ω where
/// that is more. The closing angle is held: at the worst one the peak hardly changes with it.
fn by_mains(
    inrush: &Inrush,
    switching: &Switching,
    angle: Angle,
    (mains, cores): (Resistance, f64),
) -> Vec<(Resistance, Current)> {
    const POINTS: u32 = 8;
    let own = inrush.resistance.value - mains * cores;
    let most = (mains * 4.0).max(Resistance::from_si(1.0));
    (0..=POINTS)
        .filter_map(|k| {
            let mains = most * (f64::from(k) / f64::from(POINTS));
            let mut moved = *inrush;
            moved.resistance.value = own + mains * cores;
            Some((mains, moved.first_peak_on(switching, angle)?.peak * cores))
        })
        .collect()
}

/// The first peak of a job's primary on its mains, of two cores that of both; none where its numbers give none.
/// Where the two are unlike, both are taken as the one with the higher peak.
#[must_use]
pub fn inrush(file: &JobFile, answer: &Basis) -> Option<InrushAnswer> {
    let first = inrush_on(file, &answer.problem)?;
    let second = of_second_core(file).filter(|other| other.core != file.core);
    let second = second
        .zip(answer.second.as_ref())
        .and_then(|(other, second)| inrush_on(&other, &second.problem));
    Some(match second {
        Some(second) if second.peak.value > first.peak.value => second,
        _ => first,
    })
}

/// [`inrush`] where every core is the one of this problem.
fn inrush_on(file: &JobFile, problem: &Problem) -> Option<InrushAnswer> {
    let inrush = inrush_of(file, problem);
    let cores = problem.rebuild.cores();
    let all = |peak: FirstPeak| FirstPeak {
        peak: peak.peak * cores,
        ..peak
    };
    // The angle of the best inputs stands for all: at the worst angle the peak is stationary.
    let switching = inrush.switching();
    let angle = inrush.worst_first_peak_on(&switching)?.closing_angle;
    let propagated = propagate(&Uncertain(inrush), |Uncertain(inrush)| {
        inrush.first_peak_on(&switching, angle).map(|peak| all(peak).to_si())
    })?;
    let estimate = FirstPeakEstimate::from_propagated(&propagated);
    let (likely, high) = (estimate.peak.value, estimate.peak.high());
    let protection = problem.rebuild.mains.protection;
    let at = |kind: DeviceKind, peak: Current| Protection { kind, ..protection }.at_first_peak(peak);
    let devices: Vec<_> = protection
        .kind
        .choices()
        .into_iter()
        .map(|kind| (kind, at(kind, likely), at(kind, high)))
        .collect();
    let mains = problem.rebuild.supply_resistance.value;
    Some(InrushAnswer {
        numbers: ROWS.map(|number| number.of(&propagated)).to_vec(),
        peak: estimate.peak,
        by_angle: (0..=12)
            .map(|k| Angle::from_degrees(15.0 * f64::from(k)))
            .filter_map(|angle| Some((angle, all(inrush.first_peak_on(&switching, angle)?).peak)))
            .collect(),
        by_mains: by_mains(&inrush, &switching, angle, (mains, cores)),
        mains,
        rating: protection.rating,
        holds: devices
            .iter()
            .find(|(_, _, high)| *high == Tripping::Holds)
            .map(|(kind, _, _)| *kind),
        devices,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::basis;
    use crate::app::start::{demo_job, goal_of};
    use crate::job::{Joining, PairChoice, Reading};

    fn found(loop_ohm: Option<f64>) -> InrushAnswer {
        let mut file = demo_job();
        file.conditions.mains_loop_ohm = loop_ohm.map(|ohms| Reading::new(ohms, ohms * 0.1, Origin::Meter));
        inrush(&file, &basis(&file).unwrap()).unwrap()
    }

    /// Ohm's law bounds the peak: the crest of the voltage over the whole loop.
    #[test]
    fn more_mains_resistance_makes_a_lower_peak() {
        let found = found(Some(0.5));
        for pair in found.by_mains.windows(2) {
            assert!(pair[1].0 > pair[0].0 && pair[1].1 < pair[0].1, "{pair:?}");
        }
        let (most, peak) = found.by_mains[found.by_mains.len() - 1];
        let crest = 121.5 * std::f64::consts::SQRT_2;
        assert!(peak.si() < crest / (most.si() + 0.38), "{peak:?} through {most:?}");
        // The curve passes through the numbers at the job's own loop.
        let (mains, at) = found.by_mains[2];
        assert!((mains.si() - 0.5).abs() < 1e-12);
        assert!((at / found.peak.value - 1.0).abs() < 1e-9);
    }

    /// Two alike cores on stiff mains draw twice the first peak of one; the mains' own resistance takes some of
    /// it back, as it carries the current of both. The soft start and the fuse see it.
    #[test]
    fn two_cores_draw_the_first_peak_of_both() {
        let peak = |file: &JobFile| inrush(file, &basis(file).unwrap()).unwrap().peak.value.si();
        let mut alone = demo_job();
        alone.goal = goal_of("stick_welder");
        alone.choice = None;
        let mut pair = alone.clone();
        pair.conditions.pair = Some(PairChoice {
            name: "The other".to_owned(),
            core: Box::new(alone.core.clone()),
            windings: Joining::Series,
        });
        let loop_of = |file: &mut JobFile, ohms: f64| {
            file.conditions.mains_loop_ohm = Some(Reading::new(ohms, ohms * 0.1, Origin::Meter));
        };
        for ohms in [0.02, 0.4] {
            loop_of(&mut alone, ohms);
            loop_of(&mut pair, ohms);
            // Ohm's law with the loop shared: one core on twice the loop, twice.
            let mut twice = alone.clone();
            loop_of(&mut twice, 2.0 * ohms);
            assert!((peak(&pair) / (2.0 * peak(&twice)) - 1.0).abs() < 1e-6, "{ohms}");
            assert!(
                peak(&pair) > 1.3 * peak(&alone),
                "{ohms}: {} {}",
                peak(&pair),
                peak(&alone)
            );
        }
    }

    /// What an idle test found of the core holds here too: readings of a core with wider gaps and
    /// a lower magnetisation give another first peak than the core's measures alone.
    #[test]
    fn an_idle_test_reaches_the_first_peak() {
        let mut file = demo_job();
        let untested = found(None).peak.value;
        let rebuild = basis(&file).unwrap().problem.rebuild;
        let mut idle = crate::app::translate::idle(&file, &rebuild.core, &rebuild.primary, &rebuild.mains);
        idle.gaps.face.value = Length::from_mm(0.1);
        // A twentieth less steel than the calipers say.
        idle.core.stack.value = idle.core.stack.value * 0.95;
        let mut row = |volts: f64| {
            idle.voltage.value = crate::quantity::Voltage::from_si(volts);
            let draw = idle.draw().unwrap();
            let meter = |value: f64| Some(Reading::new(value, value * 0.01, Origin::Meter));
            crate::job::IdleTest {
                volts: Some(Reading::new(volts, 0.0, Origin::Meter)),
                amps: meter(draw.current.si()),
                watts: meter(draw.power.si()),
            }
        };
        file.conditions.idle_low = row(90.0);
        file.conditions.idle_full = row(121.5);
        let answer = basis(&file).unwrap();
        let (core, of) = (
            found_by_test(&answer.problem).unwrap(),
            inrush_of(&file, &answer.problem),
        );
        assert_eq!(
            (of.core.stack, of.steel, of.gaps),
            (core.core.stack, core.steel, core.gaps)
        );
        assert!(core.gaps.face.value > crate::magnetics::core::gap::Gaps::REASSEMBLED.face.value);
        let tested = inrush(&file, &answer).unwrap().peak.value;
        assert!((tested / untested - 1.0).abs() > 1e-3, "{tested:?} {untested:?}");
    }

    /// The fuse that gate and page name: of the outlet's own family, no larger than its circuit, no
    /// smaller than 125 % of the steady current (NFPA 70, table 450.3(B)), and in the plug what BS 1362 has.
    #[test]
    fn the_fuse_is_of_the_outlets_family() {
        let mut file = demo_job();
        let at = |file: &JobFile| {
            let answer = basis(file).unwrap();
            (mains_fuse(file, &answer), answer)
        };
        let (fuse, found) = at(&file);
        let (fuse, design) = (fuse.unwrap(), found.design.unwrap().estimate);
        assert_eq!(fuse.protection.kind, DeviceKind::TimeDelayFuse);
        assert!(fuse.time_delay, "a first peak asks for it: {fuse:?}");
        assert!(fuse.protection.rating.si() <= file.mains.circuit.breaker_a);
        assert!(fuse.protection.rating >= design.mains_steady_current.value * 1.25);
        file.mains.circuit.plug = "uk-13".to_owned();
        file.mains.circuit.breaker_a = 13.0;
        let fuse = at(&file).0.unwrap();
        assert_eq!(fuse.protection.kind, DeviceKind::PlugFuse);
        assert!([3.0, 13.0].contains(&fuse.protection.rating.si()), "{fuse:?}");
    }

    /// What the person read of the loop is what the design is reckoned with.
    #[test]
    fn an_entered_loop_reaches_the_design() {
        let mut file = demo_job();
        let current = |file: &JobFile| basis(file).unwrap().design.unwrap().estimate.working_current.value;
        let usual = current(&file);
        file.choice = Some(crate::app::basis::as_choice(
            &basis(&file).unwrap().design.unwrap().candidate,
            &basis(&file).unwrap().problem.rebuild,
            &basis(&file).unwrap().catalogue,
        ));
        file.conditions.mains_loop_ohm = Some(Reading::new(2.0, 0.1, Origin::Meter));
        assert!(current(&file) < usual);
    }
}
