//! How hot, how long, how often.

use super::coil;
use super::heat_band::{FINE, band, hour};
pub use super::heat_run::{History, class_of};
use super::heat_run::{Run, cycle, run};
use crate::app::basis::{Basis, Design};
use crate::job::JobFile;
use crate::magnetics::heat::RUNAWAY;
use crate::magnetics::heat::duty::{DutyAnswer, DutyEstimate, DutyNumber, NEVER, current_at_duty};
use crate::magnetics::winding::short_time::adiabatic_temperature;
use crate::quantity::{
    Area, Current, Estimate, Number, Ratio, Temperature, TemperatureRise, Time, estimates, numbers, propagate,
};
use crate::rewind::goal::Goal;

numbers! {
    /// What the goal's own cycle asks for.
    pub enum CycleNumber {
        /// Part of the time that the load is on.
        WantedDuty = wanted_duty: Ratio [PERCENT, "behaves-wanted-duty"],
        /// The steady current that heats as much.
        EquivalentCurrent = equivalent_current: Current [A, "behaves-equivalent-current"],
    }
}

estimates! {
    /// A spot welder's pulses.
    pub struct Pulses / PulsesEstimate / PulseNumber {
        /// How many a minute the windings bear.
        welds_a_minute: Ratio [WeldsAMinute, PLAIN, "behaves-welds-a-minute"],
        /// The new winding after one of them, from cold.
        after_one_pulse: Temperature [AfterOnePulse, CELSIUS, "behaves-after-pulse"],
    }
}

const ROWS: [DutyNumber; 6] = [
    DutyNumber::TimeToLimit,
    DutyNumber::PermittedDuty,
    DutyNumber::WindingSteady,
    DutyNumber::PrimarySteady,
    DutyNumber::CoreSteady,
    DutyNumber::CoolingTime,
];

/// How the job's machine warms.
#[derive(Debug, Clone, PartialEq)]
pub struct HeatAnswer {
    /// Its numbers at the goal's current, without a pause.
    pub numbers: Vec<Number>,
    /// True where the load may stay on without end.
    pub never_hot: bool,
    /// True where it would burn out if the load stayed on: there is no steady temperature.
    pub burns_out: bool,
    /// Where the doubt reaches from some minutes to never: the time at the low end of the cooling and the
    /// high end of the load.
    pub time_at_least: Option<Time>,
    /// The same for the permitted duty: the least of it.
    pub duty_at_least: Option<Ratio>,
    /// True where even the idle transformer passes its limit.
    pub hot_idle: bool,
    /// Numbers of the goal's own cycle: duty wanted, welds a minute, temperature after a pulse.
    pub cycle: Vec<Number>,
    /// True where the wanted duty is above the low end of the permitted one.
    pub duty_in_doubt: bool,
    /// An hour of the goal's cycle from cold.
    pub history: History,
    /// Time, and the ends of the new winding's temperature then.
    pub band: Vec<(Time, [Temperature; 2])>,
    /// What the hottest spots may reach.
    pub limit: Temperature,
}

/// How a job's design warms; none where its numbers give none.
#[must_use]
pub fn heat(file: &JobFile, answer: &Basis) -> Option<HeatAnswer> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let run = run(file, answer, design)?;
    let question = run.at_best;
    let propagated = propagate(&run, duty_of)?;
    let found = DutyEstimate::from_propagated(&propagated);
    let (duty, cycle) = cycle(goal, &question);
    let permitted = found.permitted_duty;
    let history = hour(&run, &cycle, FINE);
    let time = found.time_to_limit;
    let never_hot = time.value >= NEVER;
    let burns_out = found.winding_steady.value >= RUNAWAY;
    // A mean and a ± say nothing where the range ends at "never".
    let open_ended = !never_hot && time.plus_minus > time.value / 2.0;
    let duty_open = permitted.plus_minus > permitted.value / 2.0 && permitted.value > Ratio::ZERO;
    let worse = (open_ended || duty_open).then(|| {
        let mut worse = run;
        let film = &mut worse.inputs.film_scale;
        film.value -= film.plus_minus;
        worse.current.value += worse.current.plus_minus;
        worse.inputs.duty(&worse.question())
    });
    let time_at_least = worse.filter(|_| open_ended).map(|found| found.time_to_limit);
    let duty_at_least = worse.filter(|_| duty_open).map(|found| found.permitted_duty);
    let cooling = found.cooling_time;
    let shown = |number: &DutyNumber| match number {
        DutyNumber::TimeToLimit => !never_hot && !open_ended,
        DutyNumber::PermittedDuty => !duty_open,
        DutyNumber::CoolingTime => cooling.value < NEVER && cooling.plus_minus < cooling.value,
        DutyNumber::WindingSteady | DutyNumber::PrimarySteady | DutyNumber::CoreSteady => !burns_out,
    };
    let numbers = ROWS
        .into_iter()
        .filter(shown)
        .map(|number| number.of(&propagated))
        .collect();
    let pulses = pulses(goal, answer, design, &run);
    let duty_in_doubt = match (goal, pulses.first()) {
        // Ten minutes at a stretch are no measure for pulses.
        (Goal::SpotWelder { per_minute, .. }, Some(borne)) => *per_minute > borne.si.0 - borne.si.1,
        _ => duty > permitted.low(),
    };
    let mut own_cycle = vec![
        CycleNumber::wanted_duty(Estimate::exact(duty)),
        CycleNumber::equivalent_current(Estimate::exact(current_at_duty(
            design.estimate.winding_current.value,
            duty,
            Ratio::from_si(1.0),
        ))),
    ];
    own_cycle.extend(pulses);
    Some(HeatAnswer {
        never_hot,
        burns_out,
        time_at_least,
        duty_at_least,
        hot_idle: permitted.value <= Ratio::ZERO,
        cycle: own_cycle,
        duty_in_doubt,
        band: band(&run, goal),
        history,
        limit: question.insulation.winding.limit(),
        numbers,
    })
}

/// How long, how often and how hot; `None` where that is no number.
pub(super) fn duty_of(run: &Run) -> Option<[f64; DutyAnswer::COUNT]> {
    let si = run.inputs.duty(&run.question()).to_si();
    si.iter().all(|v| v.is_finite()).then_some(si)
}

/// Of a spot welder: how many of its pulses a minute the windings withstand, and how hot one makes the
/// new winding from cold.
fn pulses(goal: &Goal, answer: &Basis, design: &Design, run: &Run) -> Vec<Number> {
    let section = coil(answer, design).section;
    propagate(run, |run| pulses_of(run, goal, section)).map_or_else(Vec::new, |answers| {
        PulseNumber::ALL.iter().map(|number| number.of(&answers)).collect()
    })
}

/// The numbers of [`Pulses`] with a conductor of this section; none for another use.
pub(super) fn pulses_of(run: &Run, goal: &Goal, section: Area) -> Option<[f64; Pulses::COUNT]> {
    let Goal::SpotWelder { pulse, .. } = *goal else {
        return None;
    };
    let (inputs, question) = (&run.inputs, run.question());
    let density = question.on.winding / section;
    let after = adiabatic_temperature(inputs.winding.metal, density, pulse, inputs.ambient.value);
    let borne = inputs.pulses_a_minute(&question, pulse, section);
    (borne.is_finite() && after.is_finite()).then_some([borne, after.si()])
}

/// Mean temperature rise of primary and new winding that the resistance method finds at the end of
/// a load run: at the goal's cycle until it gets no warmer, the plug pulled at the end of a load.
/// Each with its half-width.
#[must_use]
pub fn rise_after_run(file: &JobFile, answer: &Basis, design: &Design) -> Option<[Estimate<TemperatureRise>; 2]> {
    let goal = answer.goal.as_ref()?;
    let run = run(file, answer, design)?;
    let propagated = propagate(&run, |run| rises(run, goal))?;
    let estimate = |k: usize| Estimate {
        value: TemperatureRise::from_si(propagated.value[k]),
        plus_minus: TemperatureRise::from_si(2.0 * propagated.sigma[k]),
    };
    Some([estimate(0), estimate(1)])
}

/// Mean rise of primary and new winding after such a run, in kelvins.
pub(super) fn rises(run: &Run, goal: &Goal) -> Option<[f64; 2]> {
    let question = run.question();
    let (duty, cycle) = cycle(goal, &question);
    let network = run.inputs.network();
    let t = match goal {
        Goal::SpotWelder { .. } => network.steady(&cycle.on)?,
        _ => network.repeated_peak(&question, duty, cycle.period)?,
    };
    let rise = |at: Temperature| at.above(run.inputs.ambient.value).si();
    Some([rise(t.primary), rise(t.winding)])
}

#[cfg(test)]
mod tests {
    use super::super::heat_band::BAND;
    use super::*;
    use crate::app::basis::basis;
    use crate::app::start::{demo_job, goal_of};
    use crate::job::Goal as Recorded;
    use crate::magnetics::heat::Cycle;
    use crate::magnetics::heat::network::Temperatures;

    fn job(word: &str) -> (JobFile, Basis) {
        let mut file = demo_job();
        if file.goal.word() != word {
            file.goal = goal_of(word);
        }
        let answer = basis(&file).unwrap();
        (file, answer)
    }

    fn of(numbers: &[Number], which: PulseNumber) -> &Number {
        numbers.iter().find(|n| n.kind == which.kind()).unwrap()
    }

    /// One pulse against Joule's heat by hand, `J² ρ t / (c d)`, ρ at the middle of the rise, with
    /// copper's 17.24 nΩ·m at 20 °C and 0.00393 per kelvin (IEC 60028), 385 J/(kg·K) and
    /// 8960 kg/m³ (handbook values, from memory). The section is the conductor's, once.
    #[test]
    fn a_pulse_heats_the_section_of_one_turn() {
        let mut file = demo_job();
        file.goal = Recorded::SpotWelder {
            weld_current_a: 200.0,
            load_milliohm: 10.0,
            pulse_s: 0.4,
            pulses_per_minute: 6.0,
        };
        let answer = basis(&file).unwrap();
        let design = answer.design.as_ref().unwrap();
        let winding = &design.candidate.winding;
        assert!(winding.turns > 1, "a test of turns wants some");
        let found = heat(&file, &answer).unwrap();
        let after = of(&found.cycle, PulseNumber::AfterOnePulse).si;
        let skin = design.estimate.ac_factor.value.si().max(1.0);
        let density = design.estimate.winding_density.value.si();
        let middle = f64::midpoint(after.0, 25.0);
        let resistivity = 17.24e-9 * (1.0 + 0.00393 * (middle - 20.0));
        let rise = density * density * skin * resistivity * 0.4 / (385.0 * 8960.0);
        let got = after.0 - 25.0;
        assert!((got / rise - 1.0).abs() < 0.02, "{got} K for {rise} K");
        assert!(after.1 > 0.0 && of(&found.cycle, PulseNumber::WeldsAMinute).si.1 > 0.0);
    }

    /// A winding that the search recommends passes the topic of heat: a spot welder's at the pace asked, that
    /// of every other use at its duty.
    #[test]
    fn search_and_topic_judge_alike() {
        for word in ["spot_welder", "stick_welder", "arc_furnace", "plain_supply"] {
            let (mut file, _) = job(word);
            let goal = file.goal;
            file.conditions.want_as_much(&goal, true);
            let answer = basis(&file).unwrap();
            let found = heat(&file, &answer).unwrap();
            let margin = answer.found.ranked[0].heat_margin.unwrap();
            assert!(margin.si() >= 0.0, "{word}: {margin:?}");
            match file.goal {
                Recorded::SpotWelder { pulses_per_minute, .. } => {
                    assert!(of(&found.cycle, PulseNumber::WeldsAMinute).si.0 >= pulses_per_minute * 0.999);
                }
                Recorded::ArcFurnace { .. } => {}
                _ => {
                    let run = run(&file, &answer, answer.design.as_ref().unwrap()).unwrap();
                    let permitted = run.inputs.permitted_duty(&run.question(), Time::from_minutes(10.0));
                    let wanted = answer.goal.unwrap().requirements().demand.duty;
                    assert!(permitted >= wanted * 0.999, "{word}: {permitted:?} of {wanted:?}");
                }
            }
        }
    }

    /// Copper loss goes as the square of the current (Joule): a current that is known no better
    /// than the mains and the load let it be widens what follows from it.
    #[test]
    fn the_currents_doubt_is_counted() {
        let (file, answer) = job("plain_supply");
        let design = answer.design.as_ref().unwrap();
        let mut sure = answer.clone();
        let current = &mut sure.design.as_mut().unwrap().estimate.winding_current;
        current.plus_minus = current.plus_minus * 0.0;
        let [_, wide] = rise_after_run(&file, &answer, design).unwrap();
        let [_, narrow] = rise_after_run(&file, &sure, sure.design.as_ref().unwrap()).unwrap();
        assert_eq!(wide.value, narrow.value);
        assert!(wide.plus_minus > narrow.plus_minus, "{wide:?} {narrow:?}");
    }

    /// The band lies about the curve and starts as wide as the room's temperature is known.
    #[test]
    fn the_band_lies_about_the_curve() {
        for word in ["spot_welder", "stick_welder", "battery_charger"] {
            let (file, answer) = job(word);
            let Some(found) = heat(&file, &answer) else {
                assert!(answer.design.is_none(), "{word}");
                continue;
            };
            assert_eq!(found.band.len(), BAND);
            for (time, [low, high]) in &found.band {
                let (_, at) = found
                    .history
                    .iter()
                    .find(|(t, _)| (t.si() - time.si()).abs() < 1e-6)
                    .unwrap();
                assert!(*low < at.winding && at.winding < *high, "{word} {time:?}");
            }
            let (_, [low, high]) = found.band[0];
            assert!(
                (high.above(low).si() - 10.0).abs() < 1e-6,
                "{word}: the room's 25 ± 5 °C"
            );
        }
    }

    /// With no pause the end of a load is the steady state: nothing swings.
    #[test]
    fn a_run_without_a_pause_ends_at_the_steady_state() {
        let (file, answer) = job("battery_charger");
        let design = answer.design.as_ref().unwrap();
        let run = run(&file, &answer, design).unwrap();
        let steady = run.inputs.network().steady(&run.at_best.on).unwrap();
        let [primary, winding] = rise_after_run(&file, &answer, design).unwrap();
        for (rise, at) in [(primary, steady.primary), (winding, steady.winding)] {
            let expected = at.above(run.inputs.ambient.value).si();
            assert!((rise.value.si() - expected).abs() < 0.1, "{rise:?} for {expected}");
        }
    }

    /// The permitted duty, at the best values and with the air and the load at their worst, against
    /// thirty hours of its cycle: the hottest spot then ends each load at its limit.
    #[test]
    fn a_long_run_at_the_permitted_duty_ends_at_the_limit() {
        let (file, answer) = job("battery_charger");
        let design = answer.design.as_ref().unwrap();
        let mut best = run(&file, &answer, design).unwrap();
        // In a hot room, so that it may not run on and on.
        best.inputs.ambient.value = Temperature::from_si(40.0);
        let mut worse = best;
        worse.inputs.film_scale.value -= worse.inputs.film_scale.plus_minus;
        worse.current.value += worse.current.plus_minus;
        for run in [best, worse] {
            let question = run.question();
            let period = Time::from_minutes(10.0);
            let duty = run.inputs.duty(&question).permitted_duty;
            assert!(duty.si() > 0.01 && duty.si() < 1.0, "{duty:?}");
            let cycle = Cycle {
                on: question.on,
                pause: question.pause,
                on_time: period * duty.si(),
                period,
            };
            let cold = Temperatures::all(run.inputs.ambient.value);
            let history = run
                .inputs
                .network()
                .history(cold, &cycle, period * 180.0, Time::from_si(15.0));
            let day = period * 170.0;
            let hottest = history.iter().filter(|point| point.time > day);
            let excess = hottest
                .map(|point| run.inputs.excess(point.temperatures, question.insulation).si())
                .fold(f64::NEG_INFINITY, f64::max);
            assert!(excess.abs() < 0.15, "{excess} K at {duty:?}");
        }
    }
}
