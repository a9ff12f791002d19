//! Keep the shunts or pull them: the two output curves, and what they mean for the use.

use super::{OutputCurve, coil, found_by_test, output_curve, primary_resistance};
use crate::app::basis::{self, Basis, Design};
use crate::app::start;
use crate::app::translate::steel;
use crate::job::{Core, JobFile, Reading};
use crate::magnetics::circuit::leakage::{Arrangement, CoilPair};
use crate::magnetics::circuit::shunt_advice::{ShuntAdvice, Wanted, advise};
use crate::magnetics::circuit::shunts::{SaturatingSteel, Shunts};
use crate::magnetics::circuit::{ShellAnswer, ShellCircuit, ShellEstimate, ShellNumber};
use crate::magnetics::winding::Placement;
use crate::quantity::{
    Current, Input, Length, Measured, Number, Origin, Propagated, Ratio, Resistance, Turns, UncertainInputs, Visitor,
    Voltage, first_order, numbers,
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

/// The shunts as measured, or as they usually are: 8 ± 3 mm thick, along nine tenths of the
/// stack, 0.4 ± 0.2 mm of air and paper on each side. Common practice, no source.
fn shunts_of(core: &Core, answer: &Basis) -> Shunts {
    let window = answer.problem.rebuild.core.window_width.value;
    let stack = answer.problem.rebuild.core.stack.value;
    let or = |reading: Option<Reading>, usual: Length, half: f64| {
        reading.map_or(Measured::new(usual, Length::from_mm(half), Origin::Typical), |r| {
            r.measured(Length::from_mm)
        })
    };
    let both = or(core.shunt_gap_mm, Length::from_mm(0.8), 0.4);
    let air_gap = Measured::new(both.value / 2.0, both.plus_minus / 2.0, both.origin);
    Shunts {
        thickness: or(core.shunt_thickness_mm, Length::from_mm(8.0), 3.0),
        stack: or(core.shunt_width_mm, stack * 0.9, stack.mm() * 0.1),
        width: Measured::exact((window - both.value).max(Length::from_mm(1.0)), Origin::Computed),
        air_gap,
        stacking_factor: answer.problem.rebuild.core.stacking_factor,
        steel: SaturatingSteel::poor_lamination(),
    }
}

/// Primary and new winding one after the other on the tongue, the shunts' room between them.
fn coils(answer: &Basis, design: &Design) -> CoilPair {
    let rebuild = &answer.problem.rebuild;
    let core = &rebuild.core;
    let wound = coil(answer, design);
    let computed = |value: Length| Measured::exact(value, Origin::Computed);
    let inside = core.stack.value * 2.0;
    let turn = core.turn_length((rebuild.primary.build.value + wound.build) / 4.0);
    let free = core.window_height.value - rebuild.primary.height.value - wound.breadth;
    CoilPair {
        arrangement: Arrangement::SideBySide,
        first: rebuild.primary.height,
        gap: Measured::new(
            free.max(Length::from_mm(1.0)),
            rebuild.primary.height.plus_minus,
            Origin::Computed,
        ),
        second: computed(wound.breadth),
        breadth: computed(((rebuild.primary.build.value + wound.build) / 2.0).min(core.window_width.value * 0.98)),
        window: core.window_width,
        clearance: computed(rebuild.insulation.ground.max(Length::from_mm(0.5))),
        turn_inside: computed(inside),
        turn_outside: computed((turn - inside).max(Length::from_mm(1.0))),
        model: Measured::new(Ratio::from_si(1.0), Ratio::from_si(0.1), Origin::Typical),
    }
}

/// What of the circuit is uncertain enough to matter. Tongue, stack, limb and yoke set the flux
/// densities; the window and the coils' sides move the answers by far less than the leakage model
/// and the shunts' gaps do.
#[derive(Clone)]
struct Uncertain<'a>(ShellCircuit<'a>);

impl UncertainInputs for Uncertain<'_> {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        let circuit = &mut self.0;
        circuit.core.tongue.visit(Input::Tongue, visitor);
        circuit.core.stack.visit(Input::Stack, visitor);
        circuit.core.outer_limb.visit(Input::OuterLimb, visitor);
        circuit.core.yoke.visit(Input::Yoke, visitor);
        circuit.core.stacking_factor.visit(Input::StackingFactor, visitor);
        circuit.coils.gap.visit(Input::GapBetweenTheCoils, visitor);
        circuit.coils.model.visit(Input::LeakageModel, visitor);
        if let Some(shunts) = &mut circuit.shunts {
            shunts.thickness.visit(Input::ShuntThickness, visitor);
            shunts.stack.visit(Input::ShuntStack, visitor);
            shunts.air_gap.visit(Input::ShuntAirGap, visitor);
        }
        circuit.primary_resistance.visit(Input::PrimaryResistance, visitor);
        circuit.winding_resistance.visit(Input::WindingResistance, visitor);
        circuit.supply.visit(Input::MainsVoltage, visitor);
    }
}

/// The circuit of a job's design without shunts, the shunts that it has or would have, and the
/// goal, given to `with`; none where the winding lies over the primary (there is no room for
/// shunts between them then) or there is no design.
fn with_circuit<T>(
    file: &JobFile,
    answer: &Basis,
    with: impl FnOnce(ShellCircuit<'_>, Shunts, &Goal) -> Option<T>,
) -> Option<T> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let rebuild = &answer.problem.rebuild;
    if rebuild.placement == Placement::OverPrimary {
        return None;
    }
    let steel = found_by_test(answer).map_or_else(|| steel(&file.conditions), |idle| idle.steel);
    let curve = steel.magnetisation().tabulated();
    let mains = answer.problem.rebuild.supply_resistance;
    let primary = primary_resistance(answer, rebuild.temperature.value);
    let winding = design.estimate.winding_resistance;
    let plain = ShellCircuit {
        core: rebuild.core,
        coils: coils(answer, design),
        shunts: None,
        primary_turns: rebuild.primary.turns.value,
        winding_turns: Turns::from(design.candidate.winding.turns),
        primary_resistance: Measured::new(
            primary.value + mains.value,
            Resistance::from_si(primary.plus_minus.si().hypot(mains.plus_minus.si())),
            Origin::Computed,
        ),
        winding_resistance: Measured::new(winding.value, winding.plus_minus, Origin::Computed),
        supply: rebuild.mains.voltage,
        frequency: Measured::exact(rebuild.mains.frequency, Origin::Label),
        steel: &curve,
    };
    with(plain, shunts_of(&file.core, answer), goal)
}

/// Keep the shunts or pull them, for a job's design.
#[must_use]
pub fn advice(file: &JobFile, answer: &Basis) -> Option<ShuntAdvice> {
    with_circuit(file, answer, |plain, shunts, goal| {
        let demand = goal.requirements().demand;
        plain.advise(shunts, wanted(goal), demand.current, demand.load.volts(demand.current))
    })
}

/// Both curves of a job's design; none as in [`advice`].
#[must_use]
pub fn shunts(file: &JobFile, answer: &Basis) -> Option<ShuntAnswer> {
    with_circuit(file, answer, |plain, shunts, goal| {
        let fitted = ShellCircuit {
            shunts: Some(shunts),
            ..plain
        };
        let demand = goal.requirements().demand;
        let working = demand.current;
        let propagate = |circuit: &ShellCircuit<'_>| {
            let best = circuit.answer(working)?;
            let propagated = first_order(&Uncertain(*circuit), |Uncertain(circuit)| {
                circuit.answer_near(working, Some(&best)).map(|answer| answer.to_si())
            })?;
            Some((best, propagated))
        };
        let told = |p: &Propagated<{ ShellAnswer::COUNT }>| ROWS.map(|number| number.of(p)).to_vec();
        let (with, with_spread) = propagate(&fitted)?;
        let (without, without_spread) = propagate(&plain)?;
        let (wanted, load) = (wanted(goal), demand.load.volts(working));
        let estimate = ShellEstimate::from_propagated(&with_spread);
        let (deciding, unsure) = deciding(&with_spread, &estimate, wanted, load);
        Some(ShuntAnswer {
            advice: advise(&with, &without, wanted, load),
            deciding,
            unsure,
            with: output_curve(&fitted),
            without: output_curve(&plain),
            with_numbers: told(&with_spread),
            without_numbers: told(&without_spread),
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

    /// The inputs left out stay within a tenth of each range, on a core measured with a rule too;
    /// against the propagation of every input of the circuit.
    #[test]
    fn the_chosen_inputs_carry_the_range() {
        let mut file = start::demo_job();
        for plus_minus in [0.2, 1.0] {
            let core = &mut file.core;
            for reading in [
                &mut core.tongue_mm,
                &mut core.stack_mm,
                &mut core.window_width_mm,
                &mut core.window_height_mm,
            ] {
                reading.plus_minus = plus_minus;
            }
            let answer = basis::basis(&file).expect("the demo's wires exist");
            with_circuit(&file, &answer, |plain, shunts, goal| {
                let working = goal.requirements().demand.current;
                for shunts in [None, Some(shunts)] {
                    let circuit = ShellCircuit { shunts, ..plain };
                    let chosen = first_order(&Uncertain(circuit), |Uncertain(circuit)| {
                        circuit.answer(working).map(|answer| answer.to_si())
                    })?;
                    let every = first_order(&circuit, |circuit| circuit.answer(working).map(|answer| answer.to_si()))?;
                    for (index, field) in ShellAnswer::FIELDS.iter().enumerate() {
                        let (chosen, every) = (chosen.sigma[index], every.sigma[index]);
                        assert!(
                            chosen >= 0.9 * every,
                            "{field} at ± {plus_minus} mm: {chosen} of {every}"
                        );
                    }
                }
                Some(())
            })
            .expect("the demo's coils lie side by side");
        }
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
