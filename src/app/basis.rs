//! The basis of all that is computed about a job: the problem, the search, the design.

use super::materials::{Material, add_tap, materials};
use super::pair::{Both, delivered};
use super::problem::{Problem, problem as problem_of};
use super::translate::{self, has_centre_tap, joined, of_second_core, pair_of, transformer_goal, wire_metal};
use crate::job::{Choice, JobFile};
use crate::magnetics::circuit::mains::{Draw, Outlet, outlet_for};
use crate::magnetics::circuit::performance::{
    Performance, PerformanceEstimate, PerformanceNumber, Prepared, Rebuild, answer as answer_design, voltage_curve,
};
use crate::magnetics::circuit::protection::{Protection, Tripping};
use crate::magnetics::pairs::Joined;
use crate::magnetics::winding::primary::{FluxVerdict, judge_flux};
use crate::magnetics::winding::{Layers, Placement, Winding};
use crate::quantity::{Current, Length, Number, Propagated, Voltage};
use crate::rewind::goal::{Goal, Requirements, Target};
use crate::rewind::search::{Candidate, Found, OwnWire, SearchSpace, judge_in, search};
use crate::rewind::warnings::{Warning, warnings};
use crate::wire::{Catalogue, Metal, UnknownConductor};

/// Points of a voltage curve.
pub const CURVE_POINTS: usize = 33;

/// The problem of a job, the search for its winding, and the winding in full. Every topic of
/// `app::behaviour` is computed from it; [`super::evaluation::Evaluation`] holds both.
#[derive(Debug, Clone, PartialEq)]
pub struct Basis {
    /// Core, primary and mains as the physics took them, and what was assumed.
    pub problem: Problem,
    /// The use, with the current that the winding in hand delivers where all there is is wanted; `None`
    /// for the reuse as a choke or a ballast.
    pub goal: Option<Goal>,
    /// Whether the goal's current is what the person wants, or all that the core gives.
    pub target: Target,
    /// How the flux stands on these mains.
    pub flux: FluxVerdict,
    /// What the search found.
    pub found: Found,
    /// The winding that the person chose, or the best found; `None` where there is neither.
    pub design: Option<Design>,
    /// The conductors that the search had, with the person's own.
    pub catalogue: Catalogue,
    /// The second core, where the job is wound on two.
    pub second: Option<Box<SecondCore>>,
}

/// The second core of a job, wound.
#[derive(Debug, Clone, PartialEq)]
pub struct SecondCore {
    /// What it is called.
    pub name: String,
    /// How its winding is joined with the first core's.
    pub windings: Joined,
    /// The core, its primary and its share of the mains.
    pub problem: Problem,
    /// Its winding beside the one in hand; `None` without one.
    pub design: Option<Design>,
}

/// One winding in full.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// The use that it is for.
    pub goal: Goal,
    /// The winding with its layers and any limit that it breaks.
    pub candidate: Candidate,
    /// True where the person chose it.
    pub chosen: bool,
    /// Every number with its uncertainty.
    pub estimate: PerformanceEstimate,
    /// What each input adds to each number's uncertainty.
    pub propagated: Propagated<{ Performance::COUNT }>,
    /// Current, volts and half-width of the volts.
    pub curve: Vec<(Current, Voltage, Voltage)>,
    /// Warnings, dangers first.
    pub warnings: Vec<Warning>,
    /// What to get.
    pub materials: Vec<Material>,
    /// Whether the job's outlet feeds it, and the one that does where that does not.
    pub outlet: OutletFeeds,
}

/// How the outlet of a job stands the draw of its part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OutletFeeds {
    /// What protects the job's outlet.
    pub own: Protection,
    /// What that does at the working current.
    pub verdict: Tripping,
    /// The smallest other outlet of these mains whose breaker or fuse holds, where the job's own may open.
    pub holds: Option<&'static Outlet>,
}

impl OutletFeeds {
    /// How the outlet of a core's mains stands a draw.
    #[must_use]
    pub fn of(rebuild: &Rebuild, draw: &Draw) -> Self {
        let own = rebuild.mains.protection;
        let verdict = own.verdict_on(draw);
        let other = || outlet_for(rebuild.mains.voltage.value, rebuild.mains.frequency, draw);
        Self {
            own,
            verdict,
            holds: (verdict != Tripping::Holds)
                .then(other)
                .flatten()
                .filter(|outlet| outlet.protection().verdict_on(draw) == Tripping::Holds),
        }
    }
}

impl Design {
    /// A number of the winding.
    #[must_use]
    pub fn number(&self, number: PerformanceNumber) -> Number {
        number.of(&self.propagated)
    }

    /// Those of `which`, in their order; no series reactance where none is needed.
    #[must_use]
    pub fn numbers(&self, which: &[PerformanceNumber]) -> Vec<Number> {
        let needless = |number: &PerformanceNumber| {
            *number == PerformanceNumber::SeriesReactance && self.estimate.series_reactance.value.si() == 0.0
        };
        let shown = which.iter().filter(|number| !needless(number));
        shown.map(|number| self.number(*number)).collect()
    }
}

/// Computes the basis of a job.
///
/// # Errors
/// [`UnknownConductor`] where the chosen winding names a conductor that is not in the catalogue. A wire
/// of the shelf that is not in it, such as one from a newer version, is left out of the search.
pub fn basis(file: &JobFile) -> Result<Basis, UnknownConductor> {
    let mut catalogue = Catalogue::standard();
    for wire in &file.stock {
        // A wire of one's own is added to the catalogue by its name.
        let _ = catalogue.find_in_any_metal(&wire.conductor);
    }
    let own = own_wires(file, &catalogue);
    let choice = match &file.choice {
        Some(choice) => Some((choice, catalogue.find(&choice.conductor, wire_metal(choice.metal))?)),
        None => None,
    };
    let mut problem = problem_of(file);
    let rebuild = problem.rebuild;
    let mains = (rebuild.mains.voltage.value, rebuild.mains.frequency);
    let flux = judge_flux(
        Prepared::new(&rebuild).flux_density().si(),
        mains,
        rebuild.primary.rated,
    );
    let goal = transformer_goal(&file.goal, &file.conditions);
    let Some(use_goal) = goal else {
        return Ok(Basis {
            problem,
            goal,
            target: Target::Number,
            flux,
            found: Found::nothing(),
            design: None,
            catalogue,
            second: None,
        });
    };
    let held = |on: bool, value: u32| on.then_some(value);
    let mut space = space(&problem, file, &catalogue, &own);
    if let Some((choice, conductor)) = &choice {
        space.turns = held(choice.pinned.turns, choice.turns);
        space.parallel = held(choice.pinned.parallel, choice.parallel);
        space.conductor = choice.pinned.conductor.then_some(conductor.index);
    }
    let second = of_second_core(file).map(|other| problem_of(&other));
    let found = match &second {
        Some(second) => {
            let alike = pair_of(file).is_some_and(|pair| *pair.core == file.core);
            let both = Both {
                first: &rebuild,
                second,
                alike,
            };
            both.search(&use_goal, &space)
        }
        None => search(&rebuild, &use_goal, &space),
    };
    let mut in_hand = match &choice {
        Some((choice, conductor)) => {
            let winding = Winding {
                conductor: *conductor,
                turns: choice.turns,
                parallel: choice.parallel,
            };
            judge_in(&found, &rebuild, &use_goal, &space, winding)
        }
        None => found.ranked.first().copied(),
    };
    let target = space.target;
    // Where all there is is wanted, the goal's current is what the winding in hand gives.
    let goal = match (target, &in_hand) {
        (Target::AsMuch, Some(candidate)) => delivered(&use_goal, candidate),
        _ => use_goal,
    };
    let in_hand_with_goal = in_hand.as_ref().map(|candidate| (candidate, &goal));
    let second =
        second.and_then(|of_second| second_core(file, (&rebuild, of_second), in_hand_with_goal, &space, &catalogue));
    let (second, joined_with) = second.map_or((None, None), |(second, first)| (Some(Box::new(second)), first));
    // Unlike cores: the first one's circuit has the second one's in it.
    if let Some((joined, with_other)) = joined_with {
        in_hand = Some(joined);
        problem.rebuild = with_other;
    }
    let rebuild = problem.rebuild;
    // What the second core's winding breaks, the design breaks.
    if let (Some(candidate), Some(beside)) = (&mut in_hand, second.as_ref().and_then(|second| second.design.as_ref())) {
        beside
            .candidate
            .broken
            .iter()
            .for_each(|limit| candidate.broken.add(limit));
    }
    let mut design = in_hand.and_then(|c| design(&rebuild, &goal, c, choice.is_some(), &catalogue));
    if let Some(design) = design.as_mut().filter(|_| has_centre_tap(file)) {
        add_tap(&mut design.materials, &design.candidate.winding, rebuild.leads.value);
    }
    let goal = Some(goal);
    Ok(Basis {
        problem,
        goal,
        target,
        flux,
        found,
        design,
        catalogue,
        second,
    })
}

/// The wires on the shelf that a catalogue has.
#[must_use]
pub fn own_wires(file: &JobFile, catalogue: &Catalogue) -> Vec<OwnWire> {
    let of = |wire: &crate::job::StockWire| {
        let named = |metal: Metal| {
            let mut conductors = catalogue.conductors().iter();
            conductors.find(|c| c.metal == metal && catalogue.name(c) == wire.conductor)
        };
        let conductor = named(Metal::Copper).or_else(|| named(Metal::Aluminium))?;
        Some(OwnWire {
            index: conductor.index,
            length: Length::from_si(wire.length_m),
        })
    };
    file.stock.iter().filter_map(of).collect()
}

/// What a job's search may try: its catalogue, the person's own wires, what its heat depends on.
#[must_use]
pub fn space<'a>(problem: &Problem, file: &JobFile, catalogue: &'a Catalogue, own: &'a [OwnWire]) -> SearchSpace<'a> {
    SearchSpace {
        own,
        sold: catalogue.sold(),
        aluminium: file.conditions.aluminium,
        target: if file.conditions.wants_as_much(&file.goal) {
            Target::AsMuch
        } else {
            Target::Number
        },
        heat: problem.heat,
        tapped: has_centre_tap(file),
        ..SearchSpace::all(catalogue.conductors())
    }
}

/// One winding in full; `None` where it cannot be layered.
#[must_use]
pub fn design(
    rebuild: &Rebuild,
    goal: &Goal,
    candidate: Candidate,
    chosen: bool,
    catalogue: &Catalogue,
) -> Option<Design> {
    let required = goal.requirements();
    let (estimate, propagated) = answer_design(rebuild, &candidate.winding, &required.demand)?;
    let curve = voltage_curve::<CURVE_POINTS>(rebuild, &candidate.winding, curve_end(&estimate, &required))?;
    Some(Design {
        goal: *goal,
        chosen,
        warnings: warnings(rebuild, goal, &estimate),
        materials: materials(rebuild, &candidate, &estimate, catalogue),
        outlet: OutletFeeds::of(rebuild, &required.draw(estimate.mains_current.value)),
        curve: curve.to_vec(),
        candidate,
        estimate,
        propagated,
    })
}

/// A winding of the first core of an unlike pair, and that core with the second in its circuit.
type OfFirst = (Candidate, Rebuild);

/// The second core of a job's design, and of unlike cores what the first one becomes beside it; `None` for a
/// job with one core.
fn second_core(
    file: &JobFile,
    (first, mut problem): (&Rebuild, Problem),
    in_hand: Option<(&Candidate, &Goal)>,
    space: &SearchSpace<'_>,
    catalogue: &Catalogue,
) -> Option<(SecondCore, Option<OfFirst>)> {
    let pair = pair_of(file)?;
    let both = Both {
        first,
        second: &problem,
        alike: *pair.core == file.core,
    };
    // The goal names what the winding in hand delivers.
    let wound = in_hand.and_then(|(candidate, goal)| Some((both.joined(candidate, goal, space, false)?, goal)));
    let cores = wound
        .filter(|_| !both.alike)
        .map(|((candidate, beside), _)| (candidate, both.cores(&candidate.winding, &beside.winding)));
    let of_first = cores.map(|(candidate, [of_first, of_second])| {
        problem.rebuild = of_second;
        (candidate, of_first)
    });
    let design =
        wound.and_then(|((_, beside), goal)| design(&problem.rebuild, goal, beside, file.choice.is_some(), catalogue));
    let second = SecondCore {
        name: pair.name.clone(),
        windings: joined(pair.windings),
        problem,
        design,
    };
    Some((second, of_first))
}

impl Basis {
    /// The basis as it is of the second core by itself: its problem and its winding.
    #[must_use]
    pub fn of_second(&self) -> Option<Basis> {
        let second = self.second.as_ref()?;
        Some(Basis {
            problem: second.problem.clone(),
            goal: self.goal,
            target: self.target,
            flux: self.flux,
            found: Found::nothing(),
            design: second.design.clone(),
            catalogue: self.catalogue.clone(),
            second: None,
        })
    }
}

/// The curve runs to the short-circuit current, or to twice the wanted current where that is
/// less, so that the working point stands well inside.
fn curve_end(estimate: &PerformanceEstimate, required: &Requirements) -> Current {
    estimate
        .short_circuit
        .value
        .min((required.demand.current * 2.0).max(estimate.working_current.value * 1.25))
}

/// A candidate as a recorded choice, nothing held.
#[must_use]
pub fn as_choice(candidate: &Candidate, rebuild: &Rebuild, catalogue: &Catalogue) -> Choice {
    let winding = &candidate.winding;
    Choice {
        turns: winding.turns,
        conductor: catalogue.name(&winding.conductor).to_owned(),
        parallel: winding.parallel,
        metal: translate::metal_word(winding.conductor.metal),
        placement: translate::placement_word(rebuild.placement),
        ground_mm: rebuild.insulation.ground.mm(),
        interlayer_mm: rebuild.insulation.interlayer.mm(),
        pinned: crate::job::Pinned::default(),
    }
}

/// Turns in each layer, first layer first.
#[must_use]
pub fn layer_schedule(winding: &Winding, layers: &Layers) -> Vec<u32> {
    (0..layers.layers)
        .map(|layer| {
            layers
                .turns_per_layer
                .min(winding.turns - layer * layers.turns_per_layer)
        })
        .collect()
}

/// The id of the text of a placement, in a sentence.
#[must_use]
pub const fn placement_key(placement: Placement) -> &'static str {
    match placement {
        Placement::BesidePrimary => "page-beside-primary",
        Placement::OverPrimary => "page-over-primary",
        Placement::FarEnd => "page-far-end",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::start::{demo_job, goal_of};
    use crate::job::{Goal as Recorded, InsulationClass, Reading};
    use crate::quantity::Origin;

    /// One core's few amperes burn no electrode, and the design says so; thirty do.
    #[test]
    fn a_welder_too_weak_for_any_electrode_says_so() {
        let warned = |file: &JobFile| {
            let design = basis(file).unwrap().design.unwrap();
            let amps = design.estimate.working_current.value.si();
            (amps, design.warnings.contains(&Warning::NoElectrode))
        };
        let mut file = demo_job();
        file.goal = goal_of("stick_welder");
        let goal = file.goal;
        file.conditions.want_as_much(&goal, true);
        let (amps, said) = warned(&file);
        assert!(amps < 25.0 && said, "{amps} A");
        file.conditions.want_as_much(&goal, false);
        file.conditions.insulation = Some(InsulationClass::H);
        file.conditions.fan_m_per_s = Some(Reading::new(3.0, 0.0, Origin::Chosen));
        if let Recorded::StickWelder { arc_current_a, .. } = &mut file.goal {
            *arc_current_a = 30.0;
        }
        let (amps, said) = warned(&file);
        assert!(amps >= 25.0 && !said, "{amps} A");
    }
}
