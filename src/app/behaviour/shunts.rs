//! Keep the shunts or pull them: the two output curves, and what they mean for the use.

use super::{OutputCurve, found_by_test};
use crate::app::basis::{self, Basis};
use crate::app::problem::usual_shunts;
use crate::app::start;
use crate::app::translate::{pair_of, steel};
use crate::job::{Core, JobFile};
use crate::magnetics::circuit::performance::{Circuit, OtherCore, PerformanceNumber, Prepared, Rebuild};
use crate::magnetics::circuit::shunt_advice::{ShuntAdvice, Wanted, advise};
use crate::magnetics::circuit::{ShellAnswer, ShellCircuit, ShellEstimate, ShellNumber};
use crate::magnetics::winding::{Layers, Placement, Winding};
use crate::quantity::{
    Current, FieldStrength, FluxDensity, Measured, Number, Origin, Propagated, Ratio, Resistance, Turns, Voltage,
    numbers, propagate,
};
use crate::rewind::goal::Goal;

const ROWS: [ShellNumber; 7] = [
    ShellNumber::OpenVoltage,
    ShellNumber::LeakageReactance,
    ShellNumber::ShortCircuit,
    ShellNumber::WorkingVoltage,
    ShellNumber::TongueDensity,
    ShellNumber::LimbDensity,
    ShellNumber::ShuntDensity,
];

/// Both ways.
#[derive(Debug, Clone, PartialEq)]
pub struct ShuntAnswer {
    /// Output curve with the shunts in.
    pub with: OutputCurve,
    /// And without.
    pub without: OutputCurve,
    /// Numbers with the shunts in.
    pub with_numbers: Vec<Number>,
    /// And without.
    pub without_numbers: Vec<Number>,
    /// The working current of the use.
    pub working: Current,
    /// What to do, at the best values.
    pub advice: ShuntAdvice,
    /// The figure that it turns on, with its range.
    pub deciding: Number,
    /// True where that range holds both advices.
    pub unsure: bool,
    /// True where no shunt was measured: a usual one is taken.
    pub assumed: bool,
}

numbers! {
    /// The figure that an advice on shunts turns on.
    pub enum ShuntNumber {
        /// Part of the open-circuit voltage that is lost at the working current.
        VoltageFall = voltage_fall: Ratio [PERCENT, "behaves-shunt-fall"],
        /// Volts above what the load needs at the working current.
        VoltageToSpare = voltage_to_spare: Voltage [V, "behaves-shunt-spare"],
    }
}

/// The figure that the advice turns on, with its range, from the answers with shunts in; and
/// whether the range holds both advices.
fn deciding(
    answers: &Propagated<{ ShellAnswer::COUNT }>,
    estimate: &ShellEstimate,
    wanted: Wanted,
    load: Voltage,
) -> (Number, bool) {
    let (open, working) = (ShellNumber::OpenVoltage.index(), ShellNumber::WorkingVoltage.index());
    let moved = |share: [f64; ShellAnswer::COUNT]| {
        let by = |index: usize| Voltage::from_si(share[index]);
        wanted.figure(
            estimate.open_voltage.value + by(open),
            estimate.working_voltage.value + by(working),
            load,
        )
    };
    let best = moved([0.0; ShellAnswer::COUNT]);
    let shares: Vec<_> = answers
        .shares
        .iter()
        .map(|&(name, share)| (name, [moved(share) - best]))
        .collect();
    let sigma = shares
        .iter()
        .map(|(_, [move_by])| move_by * move_by)
        .sum::<f64>()
        .sqrt();
    let kind = match wanted {
        Wanted::StiffVoltage => ShuntNumber::VoltageFall.kind(),
        Wanted::DroopingCurve => ShuntNumber::VoltageToSpare.kind(),
    };
    let propagated = Propagated {
        value: [best],
        sigma: [sigma],
        shares,
        inputs: answers.inputs.clone(),
    };
    let number = Number::propagated(kind, &propagated, 0);
    (number, (best - wanted.turns_at()).abs() < 2.0 * sigma)
}

/// What the load of a use wants of the curve.
#[must_use]
pub const fn wanted(goal: &Goal) -> Wanted {
    match goal {
        Goal::StickWelder { .. } | Goal::ArcFurnace { .. } | Goal::PlasmaCutter { .. } => Wanted::DroopingCurve,
        Goal::SpotWelder { .. } | Goal::BatteryCharger { .. } | Goal::PlainSupply { .. } => Wanted::StiffVoltage,
    }
}

/// A job's design with the shunts in or out, at the working current of its use.
struct Fed<'a> {
    winding: Winding,
    layers: Layers,
    working: Current,
    steel: &'a dyn Fn(FluxDensity) -> FieldStrength,
}

impl Fed<'_> {
    fn equivalent(&self, rebuild: &Rebuild) -> Circuit {
        Prepared::new(rebuild).circuit(&self.winding, &self.layers)
    }

    /// The magnetic circuit of the shell core with the same winding.
    fn shell(&self, rebuild: &Rebuild, circuit: &Circuit) -> ShellCircuit<'_> {
        let prepared = Prepared::new(rebuild);
        let exact = |ohms: Resistance| Measured::exact(ohms, Origin::Computed);
        ShellCircuit {
            core: rebuild.core,
            coils: prepared.coils(&circuit.coil),
            shunts: rebuild.shunts,
            primary_turns: rebuild.primary.turns.value,
            winding_turns: Turns::from(self.winding.turns),
            primary_resistance: exact(prepared.primary_resistance() + rebuild.supply_resistance.value),
            winding_resistance: exact(circuit.own_resistance),
            supply: rebuild.mains.voltage,
            frequency: Measured::exact(rebuild.mains.frequency, Origin::Label),
            steel: self.steel,
        }
    }

    /// What the output does is the design's own circuit; the flux in the steel at the working current is
    /// that of the shell circuit. `near`: the answer for inputs that differ a little.
    fn answer(&self, rebuild: &Rebuild, near: Option<&ShellAnswer>) -> Option<ShellAnswer> {
        let circuit = self.equivalent(rebuild);
        let shell = self.shell(rebuild, &circuit);
        let at_work = shell.answer_near(self.working * circuit.share, near)?;
        Some(ShellAnswer {
            open_voltage: circuit.emf,
            leakage_reactance: circuit.reactance,
            short_circuit: circuit.short_circuit(),
            working_voltage: circuit.terminal_voltage(self.working, 1.0),
            ..at_work
        })
    }

    fn propagate(&self, rebuild: &Rebuild) -> Option<(ShellAnswer, Propagated<{ ShellAnswer::COUNT }>)> {
        let best = self.answer(rebuild, None)?;
        let propagated = propagate(rebuild, |moved| Some(self.answer(moved, Some(&best))?.to_si()))?;
        Some((best, propagated))
    }

    /// The output from no load to a short circuit.
    fn curve(&self, rebuild: &Rebuild) -> OutputCurve {
        const LAST: u32 = 16;
        let circuit = self.equivalent(rebuild);
        let end = circuit.short_circuit();
        let at = |k: u32| end * (f64::from(k) / f64::from(LAST));
        (0..=LAST)
            .map(|k| (at(k), circuit.terminal_voltage(at(k), 1.0)))
            .collect()
    }
}

/// A job's design, the core with and without the shunts that it has or would have, and the goal, given to
/// `with`; none where the winding lies over the primary (there is no room for shunts between them then) or
/// there is no design.
fn with_circuit<T>(
    file: &JobFile,
    answer: &Basis,
    with: impl FnOnce(&Fed<'_>, [&Rebuild; 2], &Goal) -> Option<T>,
) -> Option<T> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let rebuild = &answer.problem.rebuild;
    if rebuild.placement == Placement::OverPrimary {
        return None;
    }
    let steel = found_by_test(&answer.problem).map_or_else(|| steel(&file.conditions), |idle| idle.steel);
    let curve = steel.magnetisation().tabulated();
    let fed = Fed {
        winding: design.candidate.winding,
        layers: design.candidate.layers,
        working: goal.requirements().demand.current,
        steel: &curve,
    };
    // What is done to one core of a pair is done to both.
    let second = answer.second.as_ref().filter(|_| rebuild.other.is_some());
    let with_shunts = |of: &Rebuild, record: &Core, fitted: bool| Rebuild {
        shunts: fitted.then(|| usual_shunts(record, &of.core)),
        ..*of
    };
    let both = |fitted: bool| {
        let other = second.and_then(|second| {
            let record = &pair_of(file)?.core;
            let core = with_shunts(&second.problem.rebuild, record, fitted);
            OtherCore::of(&core, &second.design.as_ref()?.candidate.winding)
        });
        Rebuild {
            other,
            ..with_shunts(rebuild, &file.core, fitted)
        }
    };
    let (fitted, plain) = (both(true), both(false));
    with(&fed, [&fitted, &plain], goal)
}

/// The design's number that is the same.
const fn of_design(number: ShellNumber) -> Option<PerformanceNumber> {
    match number {
        ShellNumber::OpenVoltage => Some(PerformanceNumber::OpenCircuit),
        ShellNumber::LeakageReactance => Some(PerformanceNumber::LeakageReactance),
        ShellNumber::ShortCircuit => Some(PerformanceNumber::ShortCircuit),
        _ => None,
    }
}

/// Keep the shunts or pull them, for a job's design.
#[must_use]
pub fn advice(file: &JobFile, answer: &Basis) -> Option<ShuntAdvice> {
    with_circuit(file, answer, |fed, [fitted, plain], goal| {
        let demand = goal.requirements().demand;
        let (with, without) = (fed.answer(fitted, None)?, fed.answer(plain, None)?);
        Some(advise(&with, &without, wanted(goal), demand.load.volts(demand.current)))
    })
}

/// Both curves of a job's design; none as in [`advice`].
#[must_use]
pub fn shunts(file: &JobFile, answer: &Basis) -> Option<ShuntAnswer> {
    with_circuit(file, answer, |fed, [fitted, plain], goal| {
        let demand = goal.requirements().demand;
        let working = fed.working;
        let (design, shunts_stay) = (answer.design.as_ref()?, answer.problem.rebuild.shunts.is_some());
        let told = |p: &Propagated<{ ShellAnswer::COUNT }>, fitted: bool| {
            let number = |number: ShellNumber| match of_design(number) {
                Some(same) if fitted == shunts_stay => Number {
                    kind: number.kind(),
                    ..design.number(same)
                },
                _ => number.of(p),
            };
            ROWS.map(number).to_vec()
        };
        let (with, with_spread) = fed.propagate(fitted)?;
        let (without, without_spread) = fed.propagate(plain)?;
        let (wanted, load) = (wanted(goal), demand.load.volts(working));
        let estimate = ShellEstimate::from_propagated(&with_spread);
        let (deciding, unsure) = deciding(&with_spread, &estimate, wanted, load);
        Some(ShuntAnswer {
            advice: advise(&with, &without, wanted, load),
            deciding,
            unsure,
            with: fed.curve(fitted),
            without: fed.curve(plain),
            with_numbers: told(&with_spread, true),
            without_numbers: told(&without_spread, false),
            working,
            assumed: file.core.shunt_thickness_mm.is_none(),
        })
    })
}

/// What becomes of the shunts for a use that a core may be put to: the job's core and outlet with
/// the use's usual targets and the best winding for them, or the nearest where none meets them.
#[must_use]
pub fn advice_for_use(file: &JobFile, word: &str) -> Option<ShuntAdvice> {
    let mut file = file.clone();
    file.goal = start::goal_of(word);
    file.choice = None;
    let mut answer = basis::basis(&file).ok()?;
    if let (None, Some(goal), Some((part, candidate))) = (&answer.design, answer.goal, answer.found.nearest) {
        // What the core cannot give in full it is judged by in part: the nearest that it can.
        let goal = goal.scaled(part);
        answer.design = basis::design(&answer.problem.rebuild, &goal, candidate, false, &answer.catalogue);
        answer.goal = Some(goal);
    }
    advice(&file, &answer)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Reading;

    /// The topic's numbers of the windows as they are, the shunts in or pulled, are the design's own.
    #[test]
    fn topic_and_design_have_one_circuit() {
        for kept in [false, true] {
            let mut file = start::demo_job();
            file.core.shunts_kept = kept;
            let answer = basis::basis(&file).unwrap();
            let found = shunts(&file, &answer).unwrap();
            let estimate = answer.design.as_ref().unwrap().estimate;
            let shown = if kept {
                &found.with_numbers
            } else {
                &found.without_numbers
            };
            let of = |number: ShellNumber| shown.iter().find(|n| n.kind == number.kind()).unwrap().si;
            let of_design = |si: (f64, f64)| (si.0, si.1);
            let pair = |value: f64, half: f64| of_design((value, half));
            let e = (
                estimate.open_circuit,
                estimate.leakage_reactance,
                estimate.short_circuit,
            );
            assert_eq!(of(ShellNumber::OpenVoltage), pair(e.0.value.si(), e.0.plus_minus.si()));
            assert_eq!(
                of(ShellNumber::LeakageReactance),
                pair(e.1.value.si(), e.1.plus_minus.si())
            );
            assert_eq!(of(ShellNumber::ShortCircuit), pair(e.2.value.si(), e.2.plus_minus.si()));
        }
    }

    /// The design's circuit and the shell circuit, which knows the magnetising current and integrates
    /// nothing away, agree on the output: within 5 % without shunts and with them.
    #[test]
    fn the_shell_circuit_agrees() {
        let file = start::demo_job();
        let answer = basis::basis(&file).unwrap();
        with_circuit(&file, &answer, |fed, both, _| {
            for rebuild in both {
                let circuit = fed.equivalent(rebuild);
                let shell = fed.shell(rebuild, &circuit);
                let exactly = shell.short_circuit().unwrap().current;
                let ours = circuit.short_circuit();
                assert!((ours / exactly - 1.0).abs() < 0.05, "{ours:?} for {exactly:?}");
                let half = exactly / 2.0;
                let (ours, exactly) = (
                    circuit.terminal_voltage(half, 1.0),
                    shell.at_current(half).unwrap().voltage,
                );
                assert!((ours / exactly - 1.0).abs() < 0.05, "{ours:?} for {exactly:?}");
            }
            Some(())
        })
        .unwrap();
    }

    /// The figure is that of the table by hand; it is unsure exactly where its range reaches over the
    /// turn, and never where nothing is in doubt.
    #[test]
    fn an_advice_is_unsure_where_its_range_holds_both() {
        let number =
            |numbers: &[Number], which: ShellNumber| numbers.iter().find(|n| n.kind == which.kind()).unwrap().si;
        let mut seen = [false; 2];
        for word in ["plain_supply", "battery_charger", "arc_furnace"] {
            let mut file = start::demo_job();
            file.goal = start::goal_of(word);
            for gap in [0.2, 0.5, 1.0, 2.0, 4.0] {
                file.core.shunt_gap_mm = Some(Reading::new(gap, gap * 0.5, Origin::Calipers));
                let answer = basis::basis(&file).unwrap();
                let Some(found) = shunts(&file, &answer) else { continue };
                let (figure, half) = found.deciding.si;
                let working = number(&found.with_numbers, ShellNumber::WorkingVoltage).0;
                let open = number(&found.with_numbers, ShellNumber::OpenVoltage).0;
                let demand = answer.goal.unwrap().requirements().demand;
                let (by_hand, turn) = match wanted(&answer.goal.unwrap()) {
                    Wanted::StiffVoltage => (1.0 - working / open, 0.1),
                    Wanted::DroopingCurve => (working - demand.load.volts(demand.current).si(), 0.0),
                };
                assert!((figure - by_hand).abs() < 1e-9);
                assert_eq!(
                    found.unsure,
                    (figure - turn).abs() < half,
                    "{word} {gap}: {figure} ± {half}"
                );
                seen[usize::from(found.unsure)] = true;
            }
        }
        assert_eq!(seen, [true, true], "the cases hold sure and unsure ones");
    }
}
