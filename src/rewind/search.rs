//! The search: every number of turns, conductor and number in parallel, less what breaks a
//! limit, ranked.

use super::goal::{Goal, Requirements};
use super::limits::{self, Cooling, Limit, LimitSet, Tally};
use crate::magnetics::circuit::performance::{Circuit, Demand, Performance, Prepared, Rebuild};
use crate::magnetics::winding::primary::{FluxVerdict, judge_flux};
use crate::magnetics::winding::short_time::adiabatic_temperature;
use crate::magnetics::winding::{Layers, Winding};
use crate::quantity::{Current, CurrentDensity, Temperature, TemperatureRise, Time};
use crate::wire::{Conductor, Metal};

/// What may be tried.
#[derive(Debug, Clone, PartialEq)]
pub struct SearchSpace<'a> {
    /// Conductors offered.
    pub conductors: &'a [Conductor],
    /// Of these, the ones on the person's shelf, by index.
    pub on_shelf: &'a [u16],
    /// Most conductors wound together.
    pub most_parallel: u32,
    /// Turns held by the person.
    pub turns: Option<u32>,
    /// Conductor held by the person.
    pub conductor: Option<u16>,
    /// Number in parallel held by the person.
    pub parallel: Option<u32>,
    /// How it is cooled.
    pub cooling: Cooling,
}

impl<'a> SearchSpace<'a> {
    /// Everything in a catalogue, up to twelve in parallel, nothing held.
    #[must_use]
    pub fn all(conductors: &'a [Conductor]) -> Self {
        Self {
            conductors,
            on_shelf: &[],
            most_parallel: 12,
            turns: None,
            conductor: None,
            parallel: None,
            cooling: Cooling::StillAir,
        }
    }
}

/// One winding, judged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// The winding.
    pub winding: Winding,
    /// How it is layered.
    pub layers: Layers,
    /// What it does.
    pub performance: Performance,
    /// Limits that it breaks; none for a winding that is offered.
    pub broken: LimitSet,
    /// The lower the better.
    pub score: Score,
}

/// Why a winding stands where it stands: parts that add up, each zero at best.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Score {
    /// Distance from the target.
    pub closeness: f64,
    /// Tightness in the window.
    pub fit: f64,
    /// Heat against its limits.
    pub heat: f64,
    /// Wire used, and work of winding it.
    pub wire: f64,
}

impl Score {
    /// The sum.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.closeness + self.fit + self.heat + self.wire
    }
}

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// The best winding of each conductor, best first.
    pub ranked: Vec<Candidate>,
    /// How many were tried.
    pub tried: u64,
    /// How many broke each limit, most first; one winding may break several.
    pub dropped: Vec<(Limit, u64)>,
    /// Where nothing was found: the largest part of the wanted current that can be had, and
    /// the winding that gives it.
    pub nearest: Option<(f64, Candidate)>,
}

/// Searches and ranks.
#[must_use]
pub fn search(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace) -> Found {
    let mut found = sweep(rebuild, goal, space);
    if found.ranked.is_empty() {
        found.nearest = largest(rebuild, goal, space, 1.0 / STEP.sqrt());
    }
    found
}

/// Judges one winding, whatever limits it breaks. `None` where it cannot be layered at all.
#[must_use]
pub fn judge(rebuild: &Rebuild, goal: &Goal, cooling: Cooling, winding: Winding) -> Option<Candidate> {
    let prepared = Prepared::new(rebuild);
    let layers = Layers::of(&winding, &prepared.space)?;
    let evaluator = Evaluator::new(rebuild, goal, &prepared, cooling);
    let circuit = prepared.circuit(&winding, &layers);
    let performance = prepared.at_work(&circuit, &winding, &evaluator.required.demand);
    let broken = evaluator.broken(&winding, &performance);
    let score = evaluator.score(&winding, &performance, false);
    Some(Candidate {
        winding,
        layers,
        performance,
        broken,
        score,
    })
}

fn sweep(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace) -> Found {
    let prepared = Prepared::new(rebuild);
    let evaluator = Evaluator::new(rebuild, goal, &prepared, space.cooling);
    let (fewest, most) = space
        .turns
        .map_or_else(|| evaluator.turns_range(), |turns| (turns, turns));
    let parallels = space
        .parallel
        .map_or(1..=space.most_parallel, |parallel| parallel..=parallel);
    // What turns alone decide is the same for every conductor.
    let open: Vec<LimitSet> = (fewest..=most)
        .map(|turns| evaluator.broken_by_turns(prepared.open_circuit(turns).si()))
        .collect();
    let mut best: Vec<Candidate> = Vec::with_capacity(space.conductors.len());
    let mut dropped = Tally::default();
    let mut tried = 0;
    for conductor in space
        .conductors
        .iter()
        .filter(|c| space.conductor.is_none_or(|held| held == c.index))
    {
        let on_shelf = space.on_shelf.contains(&conductor.index);
        let room = Layers::conductors_abreast(conductor, &prepared.space);
        let mut here: Option<Candidate> = None;
        for parallel in parallels.clone() {
            for (turns, by_turns) in (fewest..=most).zip(&open) {
                tried += 1;
                let winding = Winding {
                    conductor: *conductor,
                    turns,
                    parallel,
                };
                let Some(layers) = room.and_then(|room| Layers::with_room(&winding, room)) else {
                    dropped.count(Limit::ConductorTooWide.into());
                    continue;
                };
                let mut broken = *by_turns;
                broken.add_if(
                    prepared.build_of(&winding, &layers).si() > evaluator.build,
                    Limit::WindowFit,
                );
                if !broken.is_empty() {
                    dropped.count(broken);
                    continue;
                }
                let circuit = prepared.circuit(&winding, &layers);
                let performance = prepared.at_work(&circuit, &winding, &evaluator.required.demand);
                let broken = evaluator.broken(&winding, &performance);
                if !broken.is_empty() {
                    dropped.count(broken);
                    continue;
                }
                let score = evaluator.score(&winding, &performance, on_shelf);
                if here.is_none_or(|best| score.total() < best.score.total()) {
                    here = Some(Candidate {
                        winding,
                        layers,
                        performance,
                        broken,
                        score,
                    });
                }
            }
        }
        best.extend(here);
    }
    best.sort_by(|a, b| {
        // Ties go by the catalogue, so that the order never depends on how it was searched.
        a.score
            .total()
            .total_cmp(&b.score.total())
            .then(a.winding.conductor.index.cmp(&b.winding.conductor.index))
    });
    Found {
        ranked: best,
        tried,
        dropped: dropped.by_limit(),
        nearest: None,
    }
}

/// Steps between the parts of the wanted current that are tried. A winding is let through while its
/// current is within a quarter of the target, so that no step leaps over one.
const STEP: f64 = 1.25;

/// The largest part of the wanted current, from `top` down to a thirtieth, for which some winding is
/// left, and that winding. Whole turns leave holes between the parts that can be had, so they are
/// gone through from above.
fn largest(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace, top: f64) -> Option<(f64, Candidate)> {
    let at = |part: f64| sweep(rebuild, &goal.scaled(part), space).ranked.first().copied();
    let mut part = top;
    let mut best = loop {
        if let Some(candidate) = at(part) {
            break (part, candidate);
        }
        part /= STEP;
        if part < 0.03 {
            return None;
        }
    };
    if best.0 < top {
        let (mut low, mut high) = (best.0, best.0 * STEP);
        for _ in 0..4 {
            let middle = f64::midpoint(low, high);
            match at(middle) {
                Some(candidate) => (low, best) = (middle, (middle, candidate)),
                None => high = middle,
            }
        }
    }
    Some(best)
}

/// The most that some winding delivers, as a part of the wanted current.
#[derive(Debug, Clone, PartialEq)]
pub struct MaxDeliverable {
    /// The part; at most some eight.
    pub part: f64,
    /// The winding that delivers it.
    pub candidate: Candidate,
    /// What keeps the most windings from a tenth more.
    pub held_by: Option<Limit>,
}

/// Searches for the most current that the core delivers for a goal, to a sixtieth of it. `None`
/// where not even a thirtieth of the wanted current can be had.
#[must_use]
pub fn max_deliverable(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace) -> Option<MaxDeliverable> {
    let (part, candidate) = largest(rebuild, goal, space, STEP.powi(9))?;
    let dropped = sweep(rebuild, &goal.scaled(part * 1.1), space).dropped;
    // What only says that a wire or a number of turns does not suit is no limit of the core.
    let of_core = |limit: &Limit| !matches!(limit, Limit::OffTarget | Limit::ConductorTooWide);
    let mut named = dropped.iter().map(|(limit, _)| *limit);
    let held_by = named.clone().find(of_core).or_else(|| named.next());
    Some(MaxDeliverable {
        part,
        candidate,
        held_by,
    })
}

/// What stays the same while windings are judged.
struct Evaluator {
    required: Requirements,
    saturates: bool,
    most_mains_current: Current,
    primary_limit: f64,
    primary_metal: Metal,
    cooling: Cooling,
    volts_per_turn: f64,
    build: f64,
    voltage_is_the_target: bool,
}

impl Evaluator {
    fn new(rebuild: &Rebuild, goal: &Goal, prepared: &Prepared, cooling: Cooling) -> Self {
        let required = goal.requirements();
        let mains = (rebuild.mains.voltage.value, rebuild.mains.frequency);
        let verdict = judge_flux(prepared.flux_density().si(), mains, rebuild.primary.rated);
        Self {
            saturates: matches!(verdict, FluxVerdict::Saturates | FluxVerdict::Impossible),
            most_mains_current: rebuild.mains.protection.most(&required.draw(Current::ZERO)),
            primary_limit: limits::steady_density_limit(rebuild.primary.metal, cooling).si(),
            primary_metal: rebuild.primary.metal,
            cooling,
            volts_per_turn: prepared.volts_per_turn().si(),
            build: prepared.space.build.si(),
            voltage_is_the_target: matches!(goal, Goal::PlainSupply { .. }),
            required,
        }
    }

    /// Turns worth trying: from what just reaches the load's voltage to what its limit allows.
    fn turns_range(&self) -> (u32, u32) {
        let Demand { load, current, .. } = self.required.demand;
        let needed = load.volts(current).si();
        let least = self.required.open_circuit_least.map_or(needed * 0.7, |v| v.si() * 0.98);
        let most = self
            .required
            .open_circuit_most
            .map_or(needed * 1.8, |limit| limit.volts.si());
        // A limit far above what is needed only lengthens the search.
        let most = if self.required.open_circuit_best.is_some() {
            most
        } else {
            most.min(needed * 3.0)
        };
        let turns = |volts: f64| volts / self.volts_per_turn;
        let fewest = turns(least).floor().clamp(1.0, 5000.0) as u32;
        (
            fewest,
            (turns(most.max(least)).ceil().clamp(1.0, 5000.0) as u32).max(fewest),
        )
    }

    /// Limits that are judged by the turns, before anything else: most windings end here.
    fn broken_by_turns(&self, open_circuit: f64) -> LimitSet {
        let mut broken = LimitSet::default();
        broken.add_if(self.saturates, Limit::Saturation);
        let required = &self.required;
        broken.add_if(
            required.open_circuit_most.is_some_and(|m| open_circuit > m.volts.si()),
            Limit::OpenCircuitTooHigh,
        );
        broken.add_if(
            required.open_circuit_least.is_some_and(|m| open_circuit < m.si()),
            Limit::OpenCircuitTooLow,
        );
        broken
    }

    fn broken(&self, winding: &Winding, p: &Performance) -> LimitSet {
        let mut broken = self.broken_by_turns(p.open_circuit.si());
        broken.add_if(p.spare.si() < 0.0, Limit::WindowFit);
        broken.add_if(self.off_target(p) > limits::OFF_TARGET.si(), Limit::OffTarget);
        let metal = winding.conductor.metal;
        let steady = limits::steady_density_limit(metal, self.cooling);
        let pull = self.required.on_time;
        broken.add_if(
            p.winding_steady_density > steady || rise_in(pull, p.winding_density, metal) > limits::RISE_IN_ONE_PULL,
            Limit::WindingHeat,
        );
        broken.add_if(
            p.primary_steady_density.si() > self.primary_limit
                || rise_in(pull, p.primary_density, self.primary_metal) > limits::RISE_IN_ONE_PULL,
            Limit::PrimaryHeat,
        );
        broken.add_if(p.mains_current > self.most_mains_current, Limit::BranchCircuit);
        broken
    }

    /// How far from the target, as a part of it.
    fn off_target(&self, p: &Performance) -> f64 {
        (p.working_current / self.required.demand.current - 1.0).abs()
    }

    fn score(&self, winding: &Winding, p: &Performance, on_shelf: bool) -> Score {
        let open_circuit = self
            .required
            .open_circuit_best
            .map_or(0.0, |best| (p.open_circuit / best).ln().abs());
        // A volt too many matters more to a supply than an ampere to an arc.
        let target = self.off_target(p) * if self.voltage_is_the_target { 8.0 } else { 4.0 };
        let spare = p.spare.si() / self.build;
        let limit = limits::steady_density_limit(winding.conductor.metal, self.cooling).si();
        let heat = (p.winding_steady_density.si() / limit).max(p.primary_steady_density.si() / self.primary_limit);
        Score {
            closeness: target + open_circuit,
            fit: if spare < 0.1 { (0.1 - spare) * 5.0 } else { 0.0 },
            heat: 0.5 * heat,
            wire: 0.15 * p.wire_mass.si() + 0.05 * f64::from(winding.parallel - 1) + if on_shelf { -0.2 } else { 0.0 },
        }
    }
}

/// Adiabatic rise of a conductor at 20 °C that carries a current density for a time of at most a
/// minute; longer pulls are the steady limit's.
fn rise_in(pull: Time, density: CurrentDensity, metal: Metal) -> TemperatureRise {
    let cold = Temperature::from_si(20.0);
    adiabatic_temperature(metal, density, pull.min(Time::from_minutes(1.0)), cold).above(cold)
}

/// The equivalent circuit of a candidate, for its voltage curve.
#[must_use]
pub fn circuit_of(rebuild: &Rebuild, candidate: &Candidate) -> Circuit {
    Prepared::new(rebuild).circuit(&candidate.winding, &candidate.layers)
}
