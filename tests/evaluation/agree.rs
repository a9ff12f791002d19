//! A number that appears twice is the same to the last digit: search, design, topics, circuit, materials,
//! bench, JSON and page of many random jobs of every use.

use std::fmt::Write as _;

use curbcore::app::behaviour::heat::CycleNumber;
use curbcore::app::behaviour::inductor::{CoilNumber, InductorAnswer};
use curbcore::app::bench::{NEW_WINDING, PRIMARY, plan, plan_of};
use curbcore::app::circuit_parts::reactor;
use curbcore::app::coil_materials::coil_materials;
use curbcore::app::design_state::{DesignState, NeededParts};
use curbcore::app::evaluation::{Evaluation, evaluate};
use curbcore::app::materials::{Amount, cut_length};
use curbcore::app::start::{demo_job, goal_of};
use curbcore::app::wind::wind_plan_of;
use curbcore::bench::Stage;
use curbcore::job::{Goal, InsulationClass, JobFile, RectifierKind};
use curbcore::magnetics::circuit::ShellNumber;
use curbcore::magnetics::circuit::performance::PerformanceNumber;
use curbcore::magnetics::idle::IdleDrawNumber;
use curbcore::magnetics::inductor::InductorWorkNumber;
use curbcore::magnetics::inductor::heat::InductorWarmthNumber;
use curbcore::magnetics::rectifier::RectifierNumber;
use curbcore::quantity::{LengthUnit, Number, NumberKind};
use curbcore::report;
use curbcore::text::Texts;
use curbcore::wind::CoreOfPair;

use crate::random_job::{self, Random};

/// The demo's core put to a use, the rest drawn.
fn near_demo(seed: u64, word: &str) -> JobFile {
    let mut random = Random::new(seed);
    let mut file = demo_job();
    if file.goal.word() != word {
        file.goal = goal_of(word);
    }
    let goal = file.goal;
    file.conditions.want_as_much(&goal, random.chance(0.5));
    file.conditions.insulation = Some(*random.one_of(&[InsulationClass::A, InsulationClass::F, InsulationClass::H]));
    file.conditions.rectifier = random.chance(0.5).then(|| *random.one_of(RectifierKind::ALL));
    file.core.shunts_kept = random.chance(0.3);
    file.core.tongue_mm.value *= 0.9 + 0.2 * random.part();
    file.core.stack_mm.value *= 0.8 + 0.5 * random.part();
    file
}

/// Pairs of numbers that are one.
struct Twice(Vec<(&'static str, f64, f64)>);

impl Twice {
    fn same(&mut self, what: &'static str, one: f64, other: f64) {
        self.0.push((what, one, other));
    }

    /// A number with its ± in a list, where the list has it.
    fn listed(&mut self, what: &'static str, list: &[Number], kind: NumberKind, other: (f64, f64)) {
        if let Some(number) = list.iter().find(|number| number.kind == kind) {
            self.same(what, number.si.0, other.0);
            self.same(what, number.si.1, other.1);
        }
    }
}

/// Every number of an evaluation that stands in two places.
fn twice(answer: &Evaluation) -> Twice {
    let mut twice = Twice(Vec::new());
    let Some(design) = &answer.design else { return twice };
    let (estimate, listed) = (&design.estimate, &design.candidate.performance);
    let of = |number: PerformanceNumber| number.of(&design.propagated).si;
    let rebuild = &answer.problem.rebuild;
    let demand = answer.goal.unwrap().requirements().demand;

    // The list and the design.
    for (what, one, other) in [
        (
            "list: working current",
            listed.working_current.si(),
            estimate.working_current.value.si(),
        ),
        (
            "list: winding current",
            listed.winding_current.si(),
            estimate.winding_current.value.si(),
        ),
        (
            "list: working voltage",
            listed.working_voltage.si(),
            estimate.working_voltage.value.si(),
        ),
        (
            "list: open voltage",
            listed.open_circuit.si(),
            estimate.open_circuit.value.si(),
        ),
        (
            "list: short circuit",
            listed.short_circuit.si(),
            estimate.short_circuit.value.si(),
        ),
        (
            "list: mains current",
            listed.mains_current.si(),
            estimate.mains_current.value.si(),
        ),
        ("list: build", listed.build.si(), estimate.build.value.si()),
        ("list: spare", listed.spare.si(), estimate.spare.value.si()),
        (
            "list: reactor",
            listed.series_reactance.si(),
            estimate.series_reactance.value.si(),
        ),
    ] {
        twice.same(what, one, other);
    }
    if let (Some(strongest), false) = (answer.strongest(), design.chosen) {
        twice.same("strongest", strongest.current.si(), estimate.working_current.value.si());
    }
    if let Some(around) = answer.turns_around() {
        twice.same(
            "turns",
            f64::from(around.turns),
            f64::from(design.candidate.winding.turns),
        );
    }

    // The measures.
    for row in &answer.summary().rows {
        if row.kind.file_key() == "flux_density_t" {
            twice.same("measures: flux density", row.si.0, of(PerformanceNumber::FluxDensity).0);
        }
        if row.kind.file_key() == "volts_per_turn_v" {
            twice.same(
                "measures: volts per turn",
                row.si.0,
                of(PerformanceNumber::VoltsPerTurn).0,
            );
        }
    }

    // The topics.
    if let Some(heat) = answer.heat() {
        let steady = estimate.winding_current.value.si() * demand.duty.si().min(1.0).sqrt();
        let told = heat
            .cycle
            .iter()
            .find(|n| n.kind == CycleNumber::EquivalentCurrent.kind());
        twice.same("heat: steady current", told.unwrap().si.0, steady);
        let told = heat.cycle.iter().find(|n| n.kind == CycleNumber::WantedDuty.kind());
        twice.same("heat: duty", told.unwrap().si.0, demand.duty.si().min(1.0));
    }
    if let Some(idle) = answer.idle() {
        let current = rebuild.idle_current;
        twice.listed(
            "idle current",
            &idle.numbers,
            IdleDrawNumber::Current.kind(),
            (current.value.si(), current.plus_minus.si()),
        );
    }
    if let Some(shunts) = answer.shunts() {
        let there = if rebuild.shunts.is_some() {
            &shunts.with_numbers
        } else {
            &shunts.without_numbers
        };
        for (what, number, other) in [
            (
                "shunts: open voltage",
                ShellNumber::OpenVoltage,
                of(PerformanceNumber::OpenCircuit),
            ),
            (
                "shunts: leakage",
                ShellNumber::LeakageReactance,
                of(PerformanceNumber::LeakageReactance),
            ),
            (
                "shunts: short circuit",
                ShellNumber::ShortCircuit,
                of(PerformanceNumber::ShortCircuit),
            ),
        ] {
            twice.listed(what, there, number.kind(), other);
        }
        twice.same("shunts: working current", shunts.working.si(), demand.current.si());
    }
    assert_eq!(answer.direct_current().is_some(), demand.direct.is_some());
    if let Some(direct) = answer.direct_current() {
        for (what, number, other) in [
            (
                "diodes: mean current",
                RectifierNumber::MeanCurrent,
                of(PerformanceNumber::WorkingCurrent),
            ),
            (
                "diodes: mean voltage",
                RectifierNumber::MeanVoltage,
                of(PerformanceNumber::WorkingVoltage),
            ),
            (
                "diodes: winding current",
                RectifierNumber::WindingCurrent,
                of(PerformanceNumber::WindingCurrent),
            ),
        ] {
            twice.listed(what, &direct.numbers, number.kind(), other);
        }
        twice.same(
            "diodes: reactor",
            direct.reactor.si(),
            estimate.series_reactance.value.si(),
        );
    }

    // What is to get, and the circuit round it.
    let cut = cut_length(estimate.wire_length.value, estimate.mean_turn.value);
    let parallel = f64::from(design.candidate.winding.parallel);
    if let Some(Amount::Wire { length, mass }) = design.materials.first().map(|material| material.amount) {
        // A centre tap is a second pair of ends.
        let tapped = answer.file().conditions.rectifier == Some(RectifierKind::CentreTap);
        if !tapped {
            twice.same("materials: wire", length.si(), cut.si() * parallel);
        }
        twice.same(
            "materials: metal",
            mass.si() / length.si(),
            estimate.wire_mass.value.si() / estimate.wire_length.value.si() / parallel,
        );
    }
    let frequency = rebuild.mains.frequency;
    if let Some(circuit) = answer.circuit_parts() {
        twice.same(
            "circuit: cut-out",
            circuit.cut_out.carries.si(),
            estimate.mains_current.high().si(),
        );
        twice.same(
            "circuit: output",
            circuit.output.on.si(),
            estimate.working_current.value.si(),
        );
        twice.same(
            "circuit: leads",
            circuit.leads.drop.si(),
            (estimate.winding_current.value * circuit.leads.resistance).si(),
        );
        let reactance = circuit
            .reactor
            .map_or(0.0, |reactor| reactor.inductance.si() * frequency.angular());
        twice.same("circuit: reactor", reactance, estimate.series_reactance.value.si());
    }
    if let Some(DesignState::FitsWith(NeededParts {
        reactor: Some(needed), ..
    })) = answer.design_state()
    {
        let found = reactor(design, &answer.problem.rebuild).unwrap();
        twice.same("state: reactor", needed.inductance.si(), found.inductance.si());
        twice.same(
            "state: reactor's current",
            needed.current.si(),
            estimate.winding_current.value.si(),
        );
    }

    // The bench.
    if let Ok(plan) = plan(answer.file(), answer, design) {
        for prediction in plan.predictions() {
            let value = prediction.value.si();
            let expected = match (prediction.stage, prediction.of) {
                (Stage::Continuity, NEW_WINDING) => estimate.cold_resistance.value.si(),
                (Stage::ShortCircuit, NEW_WINDING) => estimate.short_circuit.value.si(),
                (Stage::Loaded, NEW_WINDING) => estimate.working_voltage.value.si(),
                (Stage::MainsIdle, PRIMARY) => rebuild.idle_current.value.si(),
                // The design's voltage is that of both cores together; where they are unlike, no one core's.
                (Stage::RatioPolarity, NEW_WINDING) if rebuild.other.is_none() => {
                    estimate.open_circuit.value.si() / rebuild.mains.voltage.value.si()
                }
                _ => continue,
            };
            twice.same(prediction.stage.word(), value, expected);
        }
    }
    twice
}

/// Every number of a choke or a ballast that stands in two places.
fn twice_of_coil(answer: &Evaluation, found: &InductorAnswer) -> Twice {
    let mut twice = Twice(Vec::new());
    let load = found.built.load;
    let rms = load.rms();
    let of = |kind: NumberKind| found.numbers.iter().find(|number| number.kind == kind).map(|n| n.si);
    let resistance = of(InductorWorkNumber::Resistance.kind()).unwrap().0;
    let loss = of(InductorWorkNumber::CopperLoss.kind()).unwrap().0;
    twice.same("coil: copper loss", loss, rms.si().powi(2) * resistance);
    twice.same(
        "coil: crest",
        of(CoilNumber::Crest.kind()).unwrap().0,
        load.crest().si(),
    );
    let (shim, sheets) = (of(CoilNumber::Shim.kind()).unwrap(), found.stack.thickness());
    twice.same("coil: shim", shim.0, sheets.value.si());
    twice.same("coil: gap", shim.0, found.built.gaps.shim.value.si());
    twice.same("coil: gap's half-width", shim.1, found.shim.plus_minus.si());
    twice.same("coil: turns", found.built.turns.value.si(), f64::from(found.turns));
    if let (Some(rise), Some(warm)) = (found.rise, of(InductorWarmthNumber::Coil.kind())) {
        let told = of(InductorWarmthNumber::CoilRise.kind()).unwrap();
        twice.same("coil: rise", told.0, rise.value.si());
        twice.same("coil: half-width of the rise", told.1, rise.plus_minus.si());
        twice.same("coil: temperature", warm.0, found.built.temperature.value.si());
    }

    let circuit = answer.circuit_parts().unwrap();
    twice.same("coil's circuit: cut-out", circuit.cut_out.carries.si(), rms.si());
    twice.same("coil's circuit: output", circuit.output.on.si(), rms.si());
    twice.same(
        "coil's circuit: leads",
        circuit.leads.drop.si(),
        (rms * circuit.leads.resistance).si(),
    );

    let coil = found.coil;
    let cut = cut_length(coil.wire_length, coil.mean_turn);
    let materials = coil_materials(answer, &answer.file().goal, found);
    if let Some(Amount::Wire { length, mass }) = materials.first().map(|material| material.amount) {
        twice.same(
            "coil's materials: wire",
            length.si(),
            cut.si() * f64::from(found.parallel),
        );
        twice.same(
            "coil's materials: metal",
            mass.si() / length.si(),
            coil.mass.si() / coil.wire_length.si() / f64::from(found.parallel),
        );
    }
    if let Some(Ok(plan)) = wind_plan_of(answer, CoreOfPair::First) {
        twice.same("coil's winding: turns", f64::from(plan.turns), f64::from(found.turns));
    }
    if let Some(Ok(plan)) = plan_of(answer.file(), answer) {
        for prediction in plan.predictions() {
            if let (Stage::TemperatureRise, Some(rise)) = (prediction.stage, found.rise) {
                twice.same("coil's bench: rise", prediction.value.si(), rise.value.si());
            }
        }
    }
    twice
}

/// JSON and page have a coil's numbers as they are.
fn coil_written(answer: &Evaluation, found: &InductorAnswer, differs: &mut String) {
    let json = report::json(answer, None);
    let texts = Texts::english().unwrap();
    let page = report::page(answer, None, &[], LengthUnit::Millimetre).unwrap();
    let told = &json["behaviour"]["inductor"];
    for number in &found.numbers {
        let key = number.kind.file_key();
        let value = &told["results"][key.as_str()]["value"];
        if value.as_f64() != Some(number.si.0) {
            let _ = writeln!(differs, "JSON: {key} {value} for {}", number.si.0);
        }
    }
    if told["turns"].as_u64() != Some(u64::from(found.turns)) {
        let _ = writeln!(differs, "JSON: turns {} for {}", told["turns"], found.turns);
    }
    for kind in [
        InductorWorkNumber::Inductance.kind(),
        InductorWorkNumber::Resistance.kind(),
    ] {
        let number = found.numbers.iter().find(|number| number.kind == kind).unwrap();
        let shown = report::show(&texts, number).amount();
        if !page.contains(&shown) {
            let _ = writeln!(differs, "page: {shown} is missing");
        }
    }
}

/// JSON and page have the design's numbers as they are.
fn written(answer: &Evaluation, differs: &mut String) {
    let Some(design) = &answer.design else { return };
    let json = report::json(answer, None);
    let texts = Texts::english().unwrap();
    let page = report::page(answer, None, &[], LengthUnit::Millimetre).unwrap();
    for number in design.numbers(PerformanceNumber::ALL) {
        let key = number.kind.file_key();
        let found = &json["design"]["results"][key.as_str()]["value"];
        if found.as_f64() != Some(number.si.0) {
            let _ = writeln!(differs, "JSON: {key} {found} for {}", number.si.0);
        }
    }
    for number in [
        PerformanceNumber::OpenCircuit,
        PerformanceNumber::WorkingCurrent,
        PerformanceNumber::MainsCurrent,
    ] {
        let shown = report::show(&texts, &number.of(&design.propagated)).amount();
        if !page.contains(&shown) {
            let _ = writeln!(differs, "page: {shown} is missing");
        }
    }
    let listed = &json["search"]["ranked"];
    for (at, candidate) in answer.found.ranked.iter().enumerate() {
        if listed[at]["working_current_a"].as_f64() != Some(candidate.performance.working_current.si()) {
            let _ = writeln!(differs, "JSON: place {at} of the list");
        }
    }
    let breaks = json["design"]["breaks"].as_array().map(Vec::len);
    if breaks != Some(design.candidate.broken.iter().count()) {
        let _ = writeln!(differs, "JSON: {breaks:?} limits broken");
    }
}

fn differences(answer: &Evaluation) -> String {
    let mut differs = String::new();
    for (what, one, other) in twice(answer).0 {
        let scale = one.abs().max(other.abs());
        // As many digits as are ever shown or written, and far more; the rest is the order of additions.
        if (one - other).abs() > 1e-9 * scale + 1e-12 {
            let _ = writeln!(differs, "{what}: {one} and {other}");
        }
    }
    if let Some(Ok(found)) = answer.inductor() {
        for (what, one, other) in twice_of_coil(answer, found).0 {
            if (one - other).abs() > 1e-9 * one.abs().max(other.abs()) + 1e-12 {
                let _ = writeln!(differs, "{what}: {one} and {other}");
            }
        }
        coil_written(answer, found, &mut differs);
    }
    written(answer, &mut differs);
    differs
}

#[test]
fn what_appears_twice_is_the_same() {
    let mut failed = String::new();
    let mut seen = std::collections::BTreeMap::new();
    let near = (0..48).map(|seed| (seed, near_demo(seed, Goal::USES[seed as usize % Goal::USES.len()])));
    let anywhere = (1000..1045).map(|seed| (seed, random_job::job(seed)));
    for (seed, file) in near.chain(anywhere) {
        let answer = evaluate(&file).unwrap();
        if answer.design.is_some() || matches!(answer.inductor(), Some(Ok(_))) {
            *seen.entry(file.goal.word()).or_insert(0) += 1;
        }
        let differs = differences(&answer);
        if !differs.is_empty() {
            let _ = writeln!(failed, "seed {seed}, {}:\n{differs}", file.goal.word());
        }
    }
    assert!(seen.len() == 8 && seen.values().all(|count| *count >= 4), "{seen:?}");
    assert!(failed.is_empty(), "{failed}");
}
