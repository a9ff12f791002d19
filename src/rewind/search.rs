//! The search: every number of turns, conductor and number together that hands can wind, less what
//! breaks a limit, ranked.
//!
//! A sweep over the whole catalogue drops by cheap limits; what is offered is then judged by the full
//! heat model ([`super::heat`]). One winding is recommended: own wire where it comes within
//! [`OWN_WITHIN`] of the best, else what is commonly sold, else the rest.

use super::goal::{Goal, Requirements, Target};
use super::handwork::{self, Group};
use super::heat::{HeatConditions, margins};
use super::limits::{self, Cooling, Limit, LimitSet, Tally};
use crate::magnetics::circuit::performance::{Circuit, Demand, LoadLine, Performance, Prepared, Rebuild};
use crate::magnetics::winding::primary::{FluxVerdict, judge_flux};
use crate::magnetics::winding::short_time::adiabatic_temperature;
use crate::magnetics::winding::{Layers, Winding};
use crate::quantity::{Current, CurrentDensity, Length, Ratio, Resistance, Temperature, TemperatureRise, Time};
use crate::wire::{Conductor, Metal};

/// A wire on the person's shelf.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OwnWire {
    /// Its conductor's place in the catalogue.
    pub index: u16,
    /// How much of it there is.
    pub length: Length,
}

/// What may be tried.
#[derive(Debug, Clone, PartialEq)]
pub struct SearchSpace<'a> {
    /// Conductors offered.
    pub conductors: &'a [Conductor],
    /// How many of them, from the first, are sold; what follows is the person's own alone.
    pub sold: usize,
    /// Wires on the person's shelf.
    pub own: &'a [OwnWire],
    /// Whether aluminium that is not on the shelf is offered.
    pub aluminium: bool,
    /// Most conductors wound together, whatever hands manage; as many as hands manage without one.
    pub most_parallel: Option<u32>,
    /// Turns held by the person.
    pub turns: Option<u32>,
    /// Conductor held by the person.
    pub conductor: Option<u16>,
    /// Number in parallel held by the person.
    pub parallel: Option<u32>,
    /// Two equal halves with a tap between them: an even number of turns.
    pub tapped: bool,
    /// Whether the goal's current is wanted, or all there is.
    pub target: Target,
    /// What its heat depends on.
    pub heat: HeatConditions,
}

impl<'a> SearchSpace<'a> {
    /// Everything in a catalogue that hands wind in copper, nothing held, for the goal's number.
    #[must_use]
    pub fn all(conductors: &'a [Conductor]) -> Self {
        Self {
            conductors,
            sold: conductors.len(),
            own: &[],
            aluminium: false,
            most_parallel: None,
            turns: None,
            conductor: None,
            parallel: None,
            tapped: false,
            target: Target::Number,
            heat: HeatConditions::default(),
        }
    }

    /// Whether a winding of so many turns can be made.
    fn takes(&self, turns: u32) -> bool {
        !self.tapped || turns.is_multiple_of(2) || self.turns == Some(turns)
    }

    fn own_length(&self, index: u16) -> Option<Length> {
        let own = self.own.iter().filter(|own| own.index == index);
        own.map(|own| own.length).reduce(Length::max)
    }

    /// Where the conductor of a winding that takes so much of it comes from.
    fn group(&self, winding: &Winding, wire: Length) -> Group {
        match self.own_length(winding.conductor.index) {
            Some(length) if length >= wire => Group::Own,
            _ => handwork::group_of(winding),
        }
    }

    /// Whether a winding may be offered: one of wire that the shelf alone has, where there is enough of it.
    fn has_enough_for(&self, candidate: &Candidate) -> bool {
        let conductor = &candidate.winding.conductor;
        let sold = usize::from(conductor.index) < self.sold && (self.aluminium || conductor.metal == Metal::Copper);
        sold || self.conductor == Some(conductor.index) || candidate.group == Group::Own
    }

    /// A conductor that the person holds is tried, whatever it is made of.
    fn offers(&self, conductor: &Conductor) -> bool {
        match self.conductor {
            Some(held) => held == conductor.index,
            None => self.aluminium || conductor.metal == Metal::Copper || self.own_length(conductor.index).is_some(),
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
    /// What to cut of its conductor for all cores, all conductors together, a turn of each to spare.
    pub wire: Length,
    /// Where its conductor comes from.
    pub group: Group,
    /// What holds its current down, where all there is was asked for.
    pub held_by: Option<Limit>,
    /// How far the hotter of both windings stays below the limit of its insulation, at the duty asked, by
    /// the heat model; none where it was not asked or they run away.
    pub heat_margin: Option<TemperatureRise>,
    /// The lower the better.
    pub score: Score,
}

impl Candidate {
    /// The same where a second core takes a winding of its own beside it: the wire of both, and where that
    /// comes from.
    #[must_use]
    pub fn with_second(self, second: &Candidate, space: &SearchSpace<'_>) -> Self {
        let of_one = |candidate: &Candidate| wire_of_one(&candidate.winding, &candidate.performance);
        let wire = of_one(&self) + of_one(second);
        Self {
            wire,
            group: space.group(&self.winding, wire),
            ..self
        }
    }
}

/// What to cut of a winding's conductor for one core, all conductors together.
fn wire_of_one(winding: &Winding, performance: &Performance) -> Length {
    handwork::cut_length(performance.wire_length, performance.mean_turn) * f64::from(winding.parallel)
}

/// The ranking score of a winding: a sum of penalties, in per cent of current, each zero at best.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Score {
    /// Current that is missing.
    pub current: f64,
    /// Open-circuit voltage, or a supply's voltage, off what is best.
    pub voltage: f64,
    /// Heat against its limits.
    pub heat: f64,
    /// Tightness in the window.
    pub fill: f64,
    /// Work of winding it, and metal to buy.
    pub ease: f64,
}

impl Score {
    /// The sum.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.current + self.voltage + self.heat + self.fill + self.ease
    }
}

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// Windings, at most one of each conductor: the recommended one, then group by group, best first.
    pub ranked: Vec<Candidate>,
    /// How many were tried.
    pub tried: u64,
    /// How many were left out for which limit, most first; each counts once, so that what was tried
    /// less these is what keeps every limit.
    pub dropped: Vec<(Limit, u64)>,
    /// Where nothing was found: the largest part of the wanted current that can be had, and
    /// the winding that gives it.
    pub nearest: Option<(f64, Candidate)>,
    /// What keeps the core from more, where all there is was asked for or the number cannot be had.
    pub held_by: Option<Limit>,
}

impl Found {
    /// Nothing searched.
    #[must_use]
    pub const fn nothing() -> Self {
        Self {
            ranked: Vec::new(),
            tried: 0,
            dropped: Vec::new(),
            nearest: None,
            held_by: None,
        }
    }

    /// How many windings keep every limit that the sweep knows.
    #[must_use]
    pub fn within_limits(&self) -> u64 {
        self.tried - self.dropped.iter().map(|(_, count)| count).sum::<u64>().min(self.tried)
    }
}

/// How far below the best a winding of the person's own wire is still recommended.
pub const OWN_WITHIN: Ratio = Ratio::from_si(0.05);

/// Searches and ranks.
#[must_use]
pub fn search(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace) -> Found {
    let mut found = sweep(rebuild, goal, space);
    if found.ranked.is_empty() && space.target == Target::Number {
        let most = SearchSpace {
            target: Target::AsMuch,
            ..space.clone()
        };
        if let Some(most) = max_deliverable(rebuild, goal, &most) {
            found.nearest = Some((most.part, most.candidate));
            found.held_by = most.held_by;
        }
    }
    found
}

/// Judges one winding, whatever limits it breaks. `None` where it cannot be layered at all.
#[must_use]
pub fn judge(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace, winding: Winding) -> Option<Candidate> {
    let prepared = Prepared::new(rebuild);
    let layers = Layers::of(&winding, &prepared.space)?;
    let evaluator = Evaluator::new(rebuild, goal, &prepared, space);
    let circuit = prepared.circuit(&winding, &layers);
    let mut candidate = evaluator.candidate(winding, layers, &circuit);
    evaluator.settle(&mut candidate);
    evaluator.hold_to_heat(&mut candidate);
    let cheap = evaluator.broken(&candidate);
    cheap.iter().for_each(|limit| candidate.broken.add(limit));
    Some(candidate)
}

/// Windings of one conductor that are kept for the heat model, the best first.
const KEPT: usize = 4;
/// Windings offered of each group; the others of it are worse.
const OFFERED: usize = 8;
/// Conductors of each group that the heat model judges before the best of them are offered.
const JUDGED: usize = 16;
/// Most questions that one search puts to the heat model.
const MOST_JUDGED: usize = 200;

/// One winding as a search found it, else judged by itself: the same winding has the same numbers
/// wherever it is shown.
#[must_use]
pub fn judge_in(
    found: &Found,
    rebuild: &Rebuild,
    goal: &Goal,
    space: &SearchSpace,
    winding: Winding,
) -> Option<Candidate> {
    let listed = found.ranked.iter().find(|candidate| candidate.winding == winding);
    listed.copied().or_else(|| judge(rebuild, goal, space, winding))
}

fn sweep(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace) -> Found {
    if space.target == Target::AsMuch && matches!(goal, Goal::BatteryCharger { .. }) {
        return largest_number(rebuild, goal, space);
    }
    let prepared = Prepared::new(rebuild);
    let mut evaluator = Evaluator::new(rebuild, goal, &prepared, space);
    let mut pass = Pass::over(&evaluator);
    if evaluator.held_down() {
        // The primary's heat depends on its own current: where it holds the best winding down, it holds
        // all of them, and how many turns are best follows from it.
        if let Some(most) = pass.primary_at_its_limit(&evaluator) {
            evaluator.primary_density = most * 1.02;
            pass = Pass::over(&evaluator);
        }
    }
    let Pass {
        kept,
        mut dropped,
        mut beyond,
        tried,
    } = pass;
    let ranked = evaluator.offered(kept, &mut dropped, &mut beyond);
    let held_by = ranked
        .first()
        .filter(|_| space.target == Target::AsMuch)
        .and_then(|best| {
            best.held_by
                .or_else(|| beyond.limit_above(best.performance.working_current))
        });
    Found {
        ranked,
        tried,
        dropped: dropped.by_limit(),
        nearest: None,
        held_by,
    }
}

/// All that a charger gives, of which each turn is a step of current and a reactor takes it back: the
/// largest current, to a fortieth, for which a winding is found.
fn largest_number(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace) -> Found {
    let numbered = SearchSpace {
        target: Target::Number,
        ..space.clone()
    };
    let at = |part: f64| sweep(rebuild, &goal.scaled(part), &numbered);
    let (mut low, mut high) = (None, None);
    let mut part: f64 = 1.0;
    // From a hundredth to a hundred times the current that the goal names.
    while (low.is_none() || high.is_none()) && (0.01..100.0).contains(&part) {
        let found = at(part);
        if found.ranked.is_empty() {
            high = Some((part, found));
            part /= 1.4;
        } else {
            low = Some((part, found));
            part *= 1.4;
        }
    }
    let (mut low, mut high) = match (low, high) {
        (Some(low), Some(high)) => (low, high),
        (Some((_, found)), None) | (None, Some((_, found))) => return found,
        (None, None) => return Found::nothing(),
    };
    while high.0 > low.0 * 1.025 {
        let part = (low.0 * high.0).sqrt();
        let found = at(part);
        if found.ranked.is_empty() {
            high = (part, found);
        } else {
            low = (part, found);
        }
    }
    let holds = |limit: Limit| matches!(limit, Limit::PrimaryHeat | Limit::WindingHeat | Limit::BranchCircuit);
    Found {
        held_by: high
            .1
            .dropped
            .iter()
            .map(|(limit, _)| *limit)
            .find(|limit| holds(*limit)),
        ..low.1
    }
}

/// One pass over all windings by the cheap limits.
struct Pass {
    /// The best few of each conductor.
    kept: Vec<Vec<Candidate>>,
    dropped: Tally,
    beyond: Beyond,
    tried: u64,
}

impl Pass {
    fn over(evaluator: &Evaluator<'_>) -> Self {
        let (space, prepared) = (evaluator.space, evaluator.prepared);
        let (fewest, most) = space
            .turns
            .map_or_else(|| evaluator.turns_range(), |turns| (turns, turns));
        // What turns alone decide is the same for every conductor.
        let open: Vec<LimitSet> = (fewest..=most)
            .map(|turns| evaluator.broken_by_turns(prepared.open_circuit(turns).si()))
            .collect();
        let mut pass = Self {
            kept: Vec::with_capacity(space.conductors.len()),
            dropped: Tally::default(),
            beyond: Beyond::default(),
            tried: 0,
        };
        for conductor in space.conductors.iter().filter(|conductor| space.offers(conductor)) {
            let room = Layers::conductors_abreast(conductor, &prepared.space);
            let parallels = match (space.parallel, space.most_parallel) {
                (Some(held), _) => held..=held,
                (None, most) => 1..=most.unwrap_or_else(|| handwork::most_parallel(conductor)),
            };
            let mut here: Vec<Candidate> = Vec::new();
            for parallel in parallels {
                for (turns, by_turns) in (fewest..=most).zip(&open).filter(|(turns, _)| space.takes(*turns)) {
                    pass.tried += 1;
                    let winding = Winding {
                        conductor: *conductor,
                        turns,
                        parallel,
                    };
                    match pass.judged(evaluator, winding, room, *by_turns) {
                        Ok(candidate) if !space.has_enough_for(&candidate) => pass.tried -= 1,
                        Ok(candidate) if evaluator.charges() => keep_of_charger(&mut here, &candidate),
                        Ok(candidate) => keep(&mut here, &candidate),
                        Err(broken) => pass.dropped.count(broken),
                    }
                }
            }
            if !here.is_empty() {
                pass.kept.push(here);
            }
        }
        pass
    }

    /// The largest current density at which the heat model lets the primary pass, by the windings with
    /// most metal, as the new winding's own heat reaches the primary: of a supply, whose turns decide what
    /// it gives at its voltage, one for each number of turns. `None` where heat holds none of them down.
    fn primary_at_its_limit(&self, evaluator: &Evaluator<'_>) -> Option<CurrentDensity> {
        let fill = |c: &Candidate| c.performance.fill_factor.si();
        let mut fullest: Vec<Candidate> = Vec::new();
        for candidate in self.kept.iter().flatten() {
            let alike = |other: &&mut Candidate| {
                !evaluator.voltage_is_the_target || other.winding.turns == candidate.winding.turns
            };
            match fullest.iter_mut().find(alike) {
                Some(other) if fill(other) < fill(candidate) => *other = *candidate,
                Some(_) => {}
                None => fullest.push(*candidate),
            }
        }
        let held = fullest.into_iter().filter_map(|mut candidate| {
            evaluator.hold_to_heat(&mut candidate);
            let hot = matches!(candidate.held_by, Some(Limit::PrimaryHeat | Limit::WindingHeat));
            (hot && candidate.broken.is_empty()).then_some(candidate)
        });
        let first = |c: &Candidate| c.held_by == Some(Limit::PrimaryHeat) || evaluator.voltage_is_the_target;
        held.filter(first)
            .map(|c| c.performance.primary_density)
            .reduce(CurrentDensity::max)
    }

    /// A winding that keeps every cheap limit, or the limits that it breaks. `room`: how many of its
    /// conductor go side by side.
    fn judged(
        &mut self,
        evaluator: &Evaluator<'_>,
        winding: Winding,
        room: Option<u32>,
        by_turns: LimitSet,
    ) -> Result<Candidate, LimitSet> {
        let (prepared, space) = (evaluator.prepared, evaluator.space);
        let mut broken = by_turns;
        let Some(layers) = room.and_then(|room| Layers::with_room(&winding, room)) else {
            broken.add(Limit::ConductorTooWide);
            return Err(broken);
        };
        let build = prepared.build_of(&winding, &layers).si();
        broken.add_if(build > evaluator.build, Limit::WindowFit);
        if space.most_parallel.is_none() && space.parallel.is_none() {
            let hands = handwork::broken(&evaluator.rebuild.core, &prepared.space, &winding);
            hands.iter().for_each(|limit| broken.add(limit));
        }
        // A winding that hardly does not fit tells what a larger window would give.
        let hardly = space.target == Target::AsMuch
            && broken == LimitSet::from(Limit::WindowFit)
            && build < 1.3 * evaluator.build;
        if !broken.is_empty() && !hardly {
            return Err(broken);
        }
        let circuit = prepared.circuit(&winding, &layers);
        let mut candidate = evaluator.candidate(winding, layers, &circuit);
        candidate.broken = evaluator.broken(&candidate);
        if candidate.broken.is_empty() {
            Ok(candidate)
        } else {
            self.beyond.see(candidate.broken, candidate.performance.working_current);
            Err(candidate.broken)
        }
    }
}

/// Puts a candidate into the best few of its conductor.
fn keep(here: &mut Vec<Candidate>, candidate: &Candidate) {
    let place = here.partition_point(|other| other.score.total() <= candidate.score.total());
    if place < KEPT {
        here.insert(place, *candidate);
        here.truncate(KEPT);
    }
}

/// Puts a charger's candidate into the few of its conductor: those of the fewest turns, as what flows by
/// itself rises with the turns and a reactor has to take back what is too much, and the best of the others.
fn keep_of_charger(here: &mut Vec<Candidate>, candidate: &Candidate) {
    let place = here.partition_point(|other| other.winding.turns <= candidate.winding.turns);
    here.insert(place, *candidate);
    if let [.., first, second] = here.as_slice()
        && here.len() > KEPT
    {
        let from_end = if first.score.total() > second.score.total() {
            2
        } else {
            1
        };
        here.remove(here.len() - from_end);
    }
}

/// For each limit, the strongest winding that breaks it and no other.
#[derive(Default)]
struct Beyond([Current; Limit::ALL.len()]);

impl Beyond {
    fn see(&mut self, broken: LimitSet, current: Current) {
        let Some(limit) = broken.first().filter(|limit| LimitSet::from(*limit) == broken) else {
            return;
        };
        if let Some(strongest) = self.0.get_mut(limit as usize) {
            *strongest = strongest.max(current);
        }
    }

    /// The limit beyond which most more current lies than `current`, by 3 % or more. That a wire or its
    /// turns do not suit is no limit of the core.
    fn limit_above(&self, current: Current) -> Option<Limit> {
        Limit::ALL
            .into_iter()
            .zip(self.0)
            .filter(|(limit, strongest)| {
                !matches!(limit, Limit::OffTarget | Limit::ConductorTooWide) && *strongest > current * 1.03
            })
            .max_by(|(_, a), (_, b)| a.si().total_cmp(&b.si()))
            .map(|(limit, _)| limit)
    }
}

/// The most that some winding delivers, as a part of the wanted current.
#[derive(Debug, Clone, PartialEq)]
pub struct MaxDeliverable {
    /// The part; above one where more can be had.
    pub part: f64,
    /// The winding that delivers it.
    pub candidate: Candidate,
    /// What keeps the core from more.
    pub held_by: Option<Limit>,
}

/// Searches for the most current that the core delivers for a goal, whatever current that names. `None`
/// where no winding keeps every limit.
#[must_use]
pub fn max_deliverable(rebuild: &Rebuild, goal: &Goal, space: &SearchSpace) -> Option<MaxDeliverable> {
    let space = SearchSpace {
        target: Target::AsMuch,
        ..space.clone()
    };
    let found = sweep(rebuild, goal, &space);
    let candidate = *found.ranked.first()?;
    Some(MaxDeliverable {
        part: candidate.performance.working_current / goal.current(),
        candidate,
        held_by: found.held_by,
    })
}

/// What stays the same while windings are judged.
struct Evaluator<'a> {
    rebuild: &'a Rebuild,
    goal: Goal,
    required: Requirements,
    target: Target,
    heat: HeatConditions,
    space: &'a SearchSpace<'a>,
    prepared: &'a Prepared<'a>,
    saturates: bool,
    most_mains_current: Current,
    /// Highest current density while the current flows, of the primary and of a new winding of copper
    /// and of aluminium: the fast screen before the heat model.
    primary_density: CurrentDensity,
    winding_density: [CurrentDensity; 2],
    volts_per_turn: f64,
    build: f64,
    voltage_is_the_target: bool,
}

/// How far above the densities of `limits::steady_density_limit` the fast screen lets a winding go to
/// the heat model: heat and the square of a density go together.
const SCREEN: f64 = 1.6;

impl<'a> Evaluator<'a> {
    fn new(rebuild: &'a Rebuild, goal: &Goal, prepared: &'a Prepared<'a>, space: &'a SearchSpace<'a>) -> Self {
        let required = goal.requirements();
        let mains = (rebuild.mains.voltage.value, rebuild.mains.frequency);
        let verdict = judge_flux(prepared.flux_density().si(), mains, rebuild.primary.rated);
        let cooling = if space.heat.air_speed.is_some_and(|speed| speed.value.si() > 0.5) {
            Cooling::Fan
        } else {
            Cooling::StillAir
        };
        let densest = |metal: Metal| {
            let steady = limits::steady_density_limit(metal, cooling) * SCREEN;
            let duty = required.demand.duty.si().max(1e-4);
            (steady / duty.sqrt()).min(pull_density(required.on_time, metal))
        };
        Self {
            saturates: matches!(verdict, FluxVerdict::Saturates | FluxVerdict::Impossible),
            most_mains_current: rebuild.mains.protection.most(&required.draw(Current::ZERO)),
            primary_density: densest(rebuild.primary.metal),
            winding_density: Metal::ALL.map(densest),
            volts_per_turn: prepared.open_circuit(1).si(),
            build: prepared.space.build.si(),
            voltage_is_the_target: matches!(goal, Goal::PlainSupply { .. }),
            target: space.target,
            heat: space.heat,
            goal: *goal,
            rebuild,
            prepared,
            space,
            required,
        }
    }

    /// Whether it charges a battery: what flows follows from the turns, and the battery has its rate.
    fn charges(&self) -> bool {
        matches!(self.goal, Goal::BatteryCharger { .. })
    }

    /// Whether all there is is wanted of a load whose current can be held down.
    fn held_down(&self) -> bool {
        let can_be = !self.charges() && (self.required.demand.ballasted || self.voltage_is_the_target);
        self.target == Target::AsMuch && can_be
    }

    fn densest(&self, metal: Metal) -> CurrentDensity {
        match metal {
            Metal::Copper => self.winding_density[0],
            Metal::Aluminium => self.winding_density[1],
        }
    }

    /// Turns worth trying: from what just reaches the load's voltage to what its limit allows.
    fn turns_range(&self) -> (u32, u32) {
        let Demand { load, current, .. } = self.required.demand;
        let needed = load.volts(current).si();
        let most = self
            .required
            .open_circuit_most
            .map_or(needed * 1.8, |limit| limit.volts.si());
        let as_much = self.target == Target::AsMuch && !self.held_down();
        let least = if as_much {
            0.0
        } else {
            self.required.open_circuit_least.map_or(needed * 0.7, |v| v.si() * 0.98)
        };
        // A limit far above what is needed only lengthens the search.
        let most = if self.required.open_circuit_best.is_some() || as_much {
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

    /// A winding at what is asked of it, its limits not yet judged; behind diodes by a closed form
    /// ([`Evaluator::settle`]).
    fn candidate(&self, winding: Winding, layers: Layers, circuit: &Circuit) -> Candidate {
        let (demand, held_by) = self.demand(&winding, circuit);
        let performance = self.prepared.screened(circuit, &winding, &demand);
        let wire = wire_of_one(&winding, &performance) * self.rebuild.cores();
        let mut candidate = Candidate {
            winding,
            layers,
            performance,
            broken: LimitSet::default(),
            wire,
            group: self.space.group(&winding, wire),
            held_by,
            heat_margin: None,
            score: Score::default(),
        };
        if demand.direct.is_some() && self.held_down() {
            self.take_back(&mut candidate, circuit, |less| {
                self.prepared.screened(circuit, &winding, less)
            });
        }
        candidate.score = self.score(&candidate);
        candidate
    }

    /// Takes back what a winding behind diodes gives above its voltage, or above what winding, primary and
    /// mains bear.
    fn take_back(&self, candidate: &mut Candidate, circuit: &Circuit, at: impl Fn(&Demand) -> Performance) {
        for _ in 0..8 {
            let by_voltage = self.part_for_voltage(candidate, circuit);
            let (by_limit, limit) = self.part_within(candidate);
            let part = by_voltage.min(by_limit);
            if part >= 1.0 - 1e-7 {
                break;
            }
            candidate.held_by = (by_limit < by_voltage).then_some(limit);
            let less = self.asked(&candidate.performance) * (part * (1.0 - 1e-4));
            candidate.performance = at(&self.demand_at(less));
        }
    }

    /// The current to ask for again what flows: of a supply, that of its load at the voltage wanted.
    fn asked(&self, p: &Performance) -> Current {
        match self.goal {
            Goal::PlainSupply { volts, .. } if p.working_voltage.si() > 0.0 => {
                p.working_current * (volts / p.working_voltage)
            }
            _ => p.working_current,
        }
    }

    /// Brings a candidate behind diodes to the exact state of its rectifier, and judges it anew. Where all
    /// there is is wanted, the closed form gave more than winding, primary and mains bear: what is above
    /// them is taken back.
    fn settle(&self, candidate: &mut Candidate) {
        if self.required.demand.direct.is_none() {
            return;
        }
        let circuit = self.prepared.circuit(&candidate.winding, &candidate.layers);
        if !self.held_down() {
            let (demand, _) = self.demand(&candidate.winding, &circuit);
            self.settle_at(candidate, &circuit, &demand);
            return;
        }
        let winding = candidate.winding;
        let screened = self.demand_at(self.asked(&candidate.performance));
        candidate.performance = self.prepared.at_work(&circuit, &winding, &screened);
        self.take_back(candidate, &circuit, |less| {
            self.prepared.at_work(&circuit, &winding, less)
        });
        candidate.broken = self.broken(candidate);
        candidate.score = self.score(candidate);
    }

    /// The part of a supply's current at which its voltage comes to what is wanted, where it is below: it falls
    /// from the crest in proportion to the current. One for other goals.
    fn part_for_voltage(&self, candidate: &Candidate, circuit: &Circuit) -> f64 {
        let (Goal::PlainSupply { volts, .. }, Some(side)) = (self.goal, self.required.demand.direct) else {
            return 1.0;
        };
        let crest = std::f64::consts::SQRT_2 * (circuit.emf * side.connection.share_of_turns()).si();
        let now = candidate.performance.working_voltage.si();
        if now >= volts.si() * 0.995 || crest <= volts.si() {
            return 1.0;
        }
        (crest - volts.si()) / (crest - now)
    }

    /// The part of its current that winding, primary and mains bear, at most all of it, and which of them
    /// holds it down.
    fn part_within(&self, candidate: &Candidate) -> (f64, Limit) {
        let p = &candidate.performance;
        let densest = self.densest(candidate.winding.conductor.metal);
        [
            (densest / p.winding_density, Limit::WindingHeat),
            (self.primary_density / p.primary_density, Limit::PrimaryHeat),
            (self.most_mains_current / p.mains_current, Limit::BranchCircuit),
        ]
        .into_iter()
        .fold(
            (1.0, Limit::WindingHeat),
            |least, next| {
                if next.0 < least.0 { next } else { least }
            },
        )
    }

    /// The same for one that needs no reactor; false, and left as it was, where it does.
    fn settle_by_itself(&self, candidate: &mut Candidate) -> bool {
        let circuit = self.prepared.circuit(&candidate.winding, &candidate.layers);
        let free = Demand {
            ballasted: false,
            ..self.required.demand
        };
        let mut natural = *candidate;
        self.settle_at(&mut natural, &circuit, &free);
        let enough = natural.performance.working_current <= free.most_without_reactor();
        if enough {
            *candidate = natural;
        }
        enough
    }

    fn settle_at(&self, candidate: &mut Candidate, circuit: &Circuit, demand: &Demand) {
        candidate.performance = self.prepared.at_work(circuit, &candidate.winding, demand);
        candidate.broken = self.broken(candidate);
        candidate.score = self.score(candidate);
    }

    /// What is asked of a winding: the goal's load, or, where all there is is wanted and the current can
    /// be held down, the most that the winding, the primary and the mains bear.
    fn demand(&self, winding: &Winding, circuit: &Circuit) -> (Demand, Option<Limit>) {
        let wanted = self.required.demand;
        if !self.held_down() {
            let all = self.charges() && self.target == Target::AsMuch;
            let ballasted = wanted.ballasted && !all;
            return (Demand { ballasted, ..wanted }, None);
        }
        let line = match self.goal {
            Goal::PlainSupply { volts, .. } => LoadLine {
                fixed: volts,
                slope: Resistance::ZERO,
            },
            _ => wanted.load,
        };
        if let Some(side) = wanted.direct {
            // What winding, primary and mains bear of it is settled by the state behind the diodes.
            let into = match self.goal {
                Goal::PlainSupply { volts, .. } => side.at_voltage(volts),
                _ => side,
            };
            let natural = self.prepared.screened_current(circuit, &into);
            return (self.demand_at(natural.max(Current::from_si(1e-6))), None);
        }
        let natural = circuit.working_current(&line);
        let by_winding = self.densest(winding.conductor.metal) * circuit.coil.section / self.rebuild.winding_share();
        let by_primary = self.primary_density * self.rebuild.primary.wire_area() * self.rebuild.cores();
        let (most, limit) = if by_primary < self.most_mains_current {
            (by_primary, Limit::PrimaryHeat)
        } else {
            (self.most_mains_current, Limit::BranchCircuit)
        };
        let idle = self.rebuild.idle_of_all();
        let mains = |current: Current| circuit.mains_current(line.volts(current), current, idle);
        let (mut current, mut held_by) = (natural, None);
        if by_winding < current {
            (current, held_by) = (by_winding, Some(Limit::WindingHeat));
        }
        if mains(current) > most {
            (current, held_by) = (largest(current, |at| mains(at) <= most), Some(limit));
        }
        (self.demand_at(current), held_by)
    }

    /// The goal's demand with another current.
    fn demand_at(&self, current: Current) -> Demand {
        let wanted = self.required.demand;
        if wanted.direct.is_some() && current > Current::ZERO {
            return self.goal.scaled(current / self.goal.current()).requirements().demand;
        }
        let load = match self.goal {
            Goal::PlainSupply { volts, .. } if current > Current::ZERO => LoadLine {
                fixed: crate::quantity::Voltage::ZERO,
                slope: volts / current,
            },
            _ => wanted.load,
        };
        Demand {
            load,
            // A load that is never reached asks for no current, which has no reactance.
            current: current.max(Current::from_si(1e-6)),
            ..wanted
        }
    }

    fn broken(&self, candidate: &Candidate) -> LimitSet {
        let p = &candidate.performance;
        let mut broken = self.broken_by_turns(p.open_circuit.si());
        broken.add_if(p.spare.si() < 0.0, Limit::WindowFit);
        broken.add_if(self.misses(p), Limit::OffTarget);
        // What holds an open target down stands at its limit, to the last digit.
        let above = 1.0 + 1e-6;
        let metal = candidate.winding.conductor.metal;
        broken.add_if(p.winding_density > self.densest(metal) * above, Limit::WindingHeat);
        broken.add_if(p.primary_density > self.primary_density * above, Limit::PrimaryHeat);
        broken.add_if(p.mains_current > self.most_mains_current * above, Limit::BranchCircuit);
        broken
    }

    /// Whether it misses what is wanted. More current than wanted is no fault, less is; a supply's
    /// voltage is wanted in both directions.
    fn misses(&self, p: &Performance) -> bool {
        if self.voltage_is_the_target {
            return self.off_voltage(p) > limits::OFF_VOLTAGE.si();
        }
        match self.target {
            Target::Number => p.working_current < self.required.demand.current * (1.0 - self.may_be_short().si()),
            Target::AsMuch => p.working_current.si() < 1e-3,
        }
    }

    /// How far below its wanted current it may be. A charge takes that much longer, and a turn more or less
    /// makes more of a difference.
    fn may_be_short(&self) -> Ratio {
        if self.charges() {
            limits::SHORT_OF_CHARGE
        } else {
            limits::SHORT_OF_TARGET
        }
    }

    /// How far a supply's voltage is off at the load, as a part of it.
    fn off_voltage(&self, p: &Performance) -> f64 {
        match self.goal {
            Goal::PlainSupply { volts, .. } => (p.working_voltage / volts - 1.0).abs(),
            _ => 0.0,
        }
    }

    fn score(&self, candidate: &Candidate) -> Score {
        let (p, winding) = (&candidate.performance, &candidate.winding);
        let best = self.required.open_circuit_best;
        let open_circuit = best.map_or(0.0, |best| (p.open_circuit / best).ln().abs());
        let spare = p.spare.si() / self.build;
        let heat = (p.winding_density.si() / self.densest(winding.conductor.metal).si())
            .max(p.primary_density.si() / self.primary_density.si());
        let wanted = self.required.demand.current;
        let (current, heat_weight, metal_weight) = match self.target {
            Target::Number if self.voltage_is_the_target => (0.0, 10.0, 2.0),
            // A battery has its rate: more than wanted is a fault there, too.
            Target::Number if self.charges() => (50.0 * (p.working_current / wanted - 1.0).abs(), 10.0, 2.0),
            Target::Number => (100.0 * (1.0 - p.working_current / wanted).max(0.0), 10.0, 2.0),
            // Less each time by the same per cent, whatever the strongest is.
            Target::AsMuch => {
                let heat_weight = if self.held_down() { 12.0 } else { 3.0 };
                (-100.0 * (p.working_current / wanted).max(1e-9).ln(), heat_weight, 1.0)
            }
        };
        Score {
            current,
            voltage: 20.0 * open_circuit + 300.0 * self.off_voltage(p),
            heat: heat_weight * heat,
            fill: if spare < 0.06 { (0.06 - spare) * 60.0 } else { 0.0 },
            ease: handwork::work(winding) + metal_weight * p.wire_mass.si() + self.work_of_reactor(p),
        }
    }

    /// A charger's reactor is one more core to open, to gap and to wind: taken where only it brings the
    /// current near to what is wanted.
    fn work_of_reactor(&self, p: &Performance) -> f64 {
        if self.charges() && p.series_reactance > Resistance::ZERO {
            25.0
        } else {
            0.0
        }
    }

    /// Judges the heat of a candidate by the full model, and adds what it breaks.
    fn judge_heat(&self, candidate: &mut Candidate) {
        let winding = &candidate.winding;
        let circuit = self.prepared.circuit(winding, &candidate.layers);
        let coil = (&circuit.coil, &winding.conductor);
        let found = margins(self.rebuild, &self.goal, coil, &candidate.performance, &self.heat);
        candidate.heat_margin = found.map(|[primary, winding]| primary.min(winding));
        let [primary, winding] = found.unwrap_or([TemperatureRise::from_si(f64::NEG_INFINITY); 2]);
        candidate
            .broken
            .add_if(primary < TemperatureRise::ZERO, Limit::PrimaryHeat);
        candidate
            .broken
            .add_if(winding < TemperatureRise::ZERO, Limit::WindingHeat);
    }

    /// The same where all there is is wanted and the current can be held down: the most current that
    /// passes, within a kelvin or two. Gives how often the heat model was asked.
    fn hold_to_heat(&self, candidate: &mut Candidate) -> usize {
        let mut judged = 1;
        self.judge_heat(candidate);
        let Some(hot) = candidate.broken.first().filter(|_| self.held_down()) else {
            return judged;
        };
        // From what is too hot down to what is not; the margin goes as the square of the current.
        let margin = |c: &Candidate| c.heat_margin.map_or(-1e3, |margin| margin.si());
        let (whole, mut high, mut found) = (*candidate, (1.0, margin(candidate)), None);
        for part in [0.96, 0.8, 0.5, 0.2] {
            let mut less = self.at_part(&whole, part, Some(hot));
            self.judge_heat(&mut less);
            judged += 1;
            if margin(&less) >= 0.0 {
                found = Some((part, less));
                break;
            }
            high = (part, margin(&less));
        }
        let Some((mut low, mut best)) = found else {
            return judged;
        };
        for _ in 0..5 {
            if margin(&best) < 0.5 {
                break;
            }
            let share = margin(&best) / (margin(&best) - high.1.max(-1e3));
            let (x, y) = (low * low, high.0 * high.0);
            let part = (x + (y - x) * share * 0.99).sqrt();
            let mut next = self.at_part(&whole, part, Some(hot));
            self.judge_heat(&mut next);
            judged += 1;
            if margin(&next) >= 0.0 {
                (low, best) = (part, next);
            } else {
                high = (part, margin(&next));
            }
        }
        *candidate = best;
        judged
    }

    /// A candidate at a part of its current.
    fn at_part(&self, candidate: &Candidate, part: f64, held_by: Option<Limit>) -> Candidate {
        let circuit = self.prepared.circuit(&candidate.winding, &candidate.layers);
        let demand = self.demand_at(candidate.performance.working_current * part);
        let mut other = Candidate {
            performance: self.prepared.at_work(&circuit, &candidate.winding, &demand),
            broken: LimitSet::default(),
            heat_margin: None,
            held_by,
            ..*candidate
        };
        other.broken.add_if(self.misses(&other.performance), Limit::OffTarget);
        other.score = self.score(&other);
        other
    }

    /// What is offered of the best few of each conductor: those that the heat model lets pass, at most
    /// one a conductor, so many a group; the recommended one first.
    fn offered(&self, mut kept: Vec<Vec<Candidate>>, dropped: &mut Tally, beyond: &mut Beyond) -> Vec<Candidate> {
        // Ties go by the catalogue, so that the order never depends on how it was searched.
        let order = |a: &Candidate, b: &Candidate| {
            let by_score = a.score.total().total_cmp(&b.score.total());
            by_score.then(a.winding.conductor.index.cmp(&b.winding.conductor.index))
        };
        kept.sort_by(|a, b| match (a.first(), b.first()) {
            (Some(a), Some(b)) => a.group.cmp(&b.group).then(order(a, b)),
            _ => std::cmp::Ordering::Equal,
        });
        let mut judged = 0;
        let mut offered: Vec<Candidate> = Vec::new();
        for mut here in kept {
            let Some(group) = here.first().map(|best| best.group) else {
                continue;
            };
            let there = offered.iter().filter(|other| other.group == group).count();
            if judged >= MOST_JUDGED || there >= JUDGED {
                continue;
            }
            // What flows into a battery by itself comes first. Of what a reactor has to hold one is tried: it
            // takes back whatever more turns would give.
            let mut held = Vec::new();
            if self.charges() {
                for mut candidate in std::mem::take(&mut here) {
                    let by_itself = self.settle_by_itself(&mut candidate);
                    if by_itself { &mut here } else { &mut held }.push(candidate);
                }
                held.truncate(1);
                here.sort_by(order);
            } else if self.voltage_is_the_target && self.required.demand.direct.is_some() {
                // A closed form of a reservoir's voltage is too rough to rank by.
                for candidate in &mut here {
                    self.settle(candidate);
                }
                here.sort_by(order);
            }
            for (at, mut candidate) in here.iter().chain(&held).copied().enumerate() {
                if at >= here.len() || !(self.charges() || self.voltage_is_the_target) {
                    self.settle(&mut candidate);
                }
                if candidate.broken.is_empty() {
                    judged += self.hold_to_heat(&mut candidate);
                }
                if candidate.broken.is_empty() {
                    offered.push(candidate);
                    break;
                }
                dropped.count(candidate.broken);
                beyond.see(candidate.broken, candidate.performance.working_current);
            }
        }
        offered.sort_by(|a, b| a.group.cmp(&b.group).then(order(a, b)));
        for group in Group::ALL {
            let mut place = 0;
            offered.retain(|c| {
                place += usize::from(c.group == group);
                c.group != group || place <= OFFERED
            });
        }
        if let Some(place) = self.recommended(&offered) {
            offered[..=place].rotate_right(1);
        }
        // What gives half of it is no choice; own wire is shown whatever it gives.
        if let Some(best) = offered.first().map(|best| best.performance.working_current) {
            offered.retain(|c| c.group == Group::Own || c.performance.working_current >= best * 0.6);
        }
        // The best has nothing to lose.
        let least = offered.iter().map(|c| c.score.current).fold(f64::INFINITY, f64::min);
        if self.target == Target::AsMuch {
            for candidate in &mut offered {
                candidate.score.current -= least;
            }
        }
        offered
    }

    /// The place of the one to recommend among windings that pass every limit, sorted by group and score.
    ///
    /// The measure is the strongest of what is sold and owned: own wire within [`OWN_WITHIN`] of it, else
    /// what is commonly sold, else the rest; within a twentieth of the strongest of the same group the
    /// easier one. For a number, whatever keeps it will do.
    fn recommended(&self, offered: &[Candidate]) -> Option<usize> {
        let amps = |c: &Candidate| c.performance.working_current;
        let strongest = |of: &dyn Fn(Group) -> bool| {
            let of = offered.iter().filter(|c| of(c.group));
            of.map(amps).reduce(Current::max).unwrap_or(Current::ZERO)
        };
        let measure = strongest(&|group| group != Group::Rest);
        let enough = |c: &Candidate, of: Current| match self.target {
            Target::Number => true,
            Target::AsMuch => amps(c) >= of * (1.0 - OWN_WITHIN.si()),
        };
        Group::ALL.into_iter().find_map(|group| {
            let measure = if group == Group::Rest {
                strongest(&|group| group == Group::Rest)
            } else {
                measure
            };
            offered.iter().position(|c| c.group == group && enough(c, measure))
        })
    }
}

/// The largest current, at most `most`, at which a test that fails above some current does not fail:
/// halving, to a thousandth.
fn largest(most: Current, holds: impl Fn(Current) -> bool) -> Current {
    let (mut low, mut high) = (Current::ZERO, most);
    for _ in 0..12 {
        let middle = (low + high) / 2.0;
        if holds(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// The density at which a conductor at 20 °C rises by [`limits::RISE_IN_ONE_PULL`] in one pull, no heat
/// lost; of a pull of more than a minute, in that minute: longer ones are the heat model's.
fn pull_density(pull: Time, metal: Metal) -> CurrentDensity {
    let cold = Temperature::from_si(20.0);
    let pull = pull.min(Time::from_minutes(1.0));
    let rise = |density: f64| {
        adiabatic_temperature(metal, CurrentDensity::from_a_per_mm2(density), pull, cold)
            .above(cold)
            .si()
    };
    let (mut low, mut high) = (0.0_f64, 1e4_f64);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if rise(middle) <= limits::RISE_IN_ONE_PULL.si() {
            low = middle;
        } else {
            high = middle;
        }
    }
    CurrentDensity::from_a_per_mm2(low)
}
