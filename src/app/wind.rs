//! The winding of a job: what its design asks for, and the run as it is stored.

use serde_json::{Value, json};

use super::basis::Design;
use super::behaviour::inductor::InductorAnswer;
use super::evaluation::Evaluation;
use super::guided::{Stored, StoredRun};
use super::workspace::{Workspace, WorkspaceError};
use crate::job::{JobId, Joining, Record, StockId, StockWire};
use crate::magnetics::circuit::performance::Prepared;
use crate::magnetics::winding::LAYER_BULGE;
use crate::quantity::Length;
use crate::store::{History, JobProcedure, Store};
use crate::wind::{PairJoints, Wind, WindPlan};
use crate::words::Message;

/// What the chosen winding of a transformer, or the coil of a choke or a ballast, asks for; `None` where a job
/// has none. What the teardown did not record is taken as it costs a step more: the core was opened.
///
/// # Errors
/// A sentence for the person where the design is none that hands can wind.
#[must_use]
pub fn wind_plan_of(answer: &Evaluation) -> Option<Result<WindPlan, Message>> {
    // The bench can test the joint of two windings only where it knows both.
    let is_alone = answer.file().conditions.pair.is_none();
    let knows_other = || answer.beside.as_ref().is_some_and(|other| other.1.design.is_some());
    if answer.design.is_some() && !is_alone && !knows_other() {
        tracing::debug!("a pair whose other core has no winding");
        return Some(Err(Message::new("refused-pair-without-winding")));
    }
    let plan = match (&answer.design, answer.inductor()) {
        (Some(design), _) => transformer_plan(answer, design),
        (None, Some(Ok(coil))) if answer.core_opened() == Some(false) => {
            tracing::debug!("a coil of {} turns on a whole core", coil.turns);
            return Some(Err(Message::new("refused-coil-on-whole-core")));
        }
        (None, Some(Ok(coil))) => coil_plan(answer, coil),
        (None, _) => return None,
    };
    Some(plan.checked().map_err(|fault| {
        tracing::error!("no winding: {fault}");
        Message::new("refused-wind-plan")
    }))
}

fn transformer_plan(answer: &Evaluation, design: &Design) -> WindPlan {
    let (winding, layers) = (&design.candidate.winding, &design.candidate.layers);
    let rebuild = &answer.problem.rebuild;
    let space = Prepared::new(rebuild).space;
    WindPlan {
        primary_back: answer.primary_came_off() == Some(true),
        shunts: rebuild.shunts_height.si() > 0.0,
        core_opened: answer.core_opened() != Some(false),
        sheets: None,
        turns: winding.turns,
        turns_per_layer: layers.turns_per_layer,
        pair: answer.file().conditions.pair.map(|pair| PairJoints {
            primaries_in_series: pair.primaries == Joining::Series,
            windings_in_series: pair.windings == Joining::Series,
        }),
        breadth: space.breadth,
        build: space.build,
        start: space.start,
        turn_width: winding.conductor.width_on_limb(space.breadth) * f64::from(layers.abreast),
        layer_height: winding.conductor.layer_height() * f64::from(layers.stacked) * LAYER_BULGE,
        interlayer: rebuild.insulation.interlayer,
        perimeter: rebuild.core.turn_length(Length::ZERO),
        leads: rebuild.leads.value,
    }
}

/// A coil has the windows to itself, but for the sheet that lines them on both sides.
fn coil_plan(answer: &Evaluation, found: &InductorAnswer) -> WindPlan {
    let (rebuild, coil) = (&answer.problem.rebuild, &found.coil);
    let ground = rebuild.insulation.ground;
    WindPlan {
        primary_back: false,
        shunts: false,
        core_opened: true,
        sheets: Some(found.sheets),
        turns: found.turns,
        turns_per_layer: coil.per_layer.min(found.turns),
        pair: None,
        breadth: coil.breadth,
        build: rebuild.core.window_width.value - ground * 2.0,
        start: ground,
        turn_width: coil.turn_width,
        layer_height: coil.layer_height,
        interlayer: rebuild.insulation.interlayer,
        perimeter: rebuild.core.turn_length(Length::ZERO),
        leads: rebuild.leads.value,
    }
}

/// Wire of the person's own that a winding takes.
#[derive(Debug, Clone, PartialEq)]
pub struct FromShelf {
    /// The wire on the shelf.
    pub wire: Record<StockId, StockWire>,
    /// How much the winding takes, all its conductors together; no more than is there.
    pub takes: Length,
}

/// The wire on the shelf that the winding is of, and how much of it: the layers as they were counted, both
/// lead-outs, each conductor that is wound together. `None` where the shelf has none of it.
#[must_use]
pub fn from_shelf(answer: &Evaluation, wind: &Wind, shelf: Vec<Record<StockId, StockWire>>) -> Option<FromShelf> {
    let (name, parallel) = match (&answer.design, answer.inductor()) {
        (Some(design), _) => {
            let winding = &design.candidate.winding;
            (answer.catalogue.name(&winding.conductor), winding.parallel)
        }
        (None, Some(Ok(coil))) => (coil.conductor.as_str(), coil.parallel),
        (None, _) => return None,
    };
    let wire = shelf.into_iter().find(|wire| wire.body.conductor == name)?;
    let (plan, counter) = (wind.plan(), &wind.facts().counter);
    let one = counter.wire_used(plan) + counter.wire_left(plan);
    let takes = (one * f64::from(parallel)).min(Length::from_si(wire.body.length_m));
    Some(FromShelf { wire, takes })
}

/// The plan as it is stored, lengths in metres; without sheets where no gap is laid.
#[must_use]
pub fn wind_plan_to_json(plan: &WindPlan) -> String {
    let mut stored = json!({
        "primary_back": plan.primary_back, "shunts": plan.shunts, "core_opened": plan.core_opened,
        "turns": plan.turns, "turns_per_layer": plan.turns_per_layer,
        "breadth": plan.breadth.si(), "build": plan.build.si(), "start": plan.start.si(),
        "turn_width": plan.turn_width.si(), "layer_height": plan.layer_height.si(),
        "interlayer": plan.interlayer.si(), "perimeter": plan.perimeter.si(), "leads": plan.leads.si(),
    });
    if let Some(sheets) = plan.sheets {
        stored["sheets"] = json!(sheets);
    }
    if let Some(pair) = plan.pair {
        stored["primaries_in_series"] = json!(pair.primaries_in_series);
        stored["windings_in_series"] = json!(pair.windings_in_series);
    }
    stored.to_string()
}

/// A stored plan.
///
/// # Errors
/// A sentence for the person where it cannot be read.
pub fn wind_plan_from_json(text: &str) -> Result<WindPlan, Message> {
    let damaged = || Message::new("refused-winding-damaged");
    let stored: Value = serde_json::from_str(text).map_err(|_| damaged())?;
    let read = || {
        let yes = |key: &str| stored.get(key)?.as_bool();
        let count = |key: &str| u32::try_from(stored.get(key)?.as_u64()?).ok();
        let length = |key: &str| stored.get(key)?.as_f64().map(Length::from_si);
        Some(WindPlan {
            primary_back: yes("primary_back")?,
            shunts: yes("shunts")?,
            core_opened: yes("core_opened")?,
            sheets: match stored.get("sheets") {
                None => None,
                Some(_) => Some(count("sheets")?),
            },
            turns: count("turns")?,
            turns_per_layer: count("turns_per_layer")?,
            pair: match stored.get("primaries_in_series") {
                None => None,
                Some(_) => Some(PairJoints {
                    primaries_in_series: yes("primaries_in_series")?,
                    windings_in_series: yes("windings_in_series")?,
                }),
            },
            breadth: length("breadth")?,
            build: length("build")?,
            start: length("start")?,
            turn_width: length("turn_width")?,
            layer_height: length("layer_height")?,
            interlayer: length("interlayer")?,
            perimeter: length("perimeter")?,
            leads: length("leads")?,
        })
    };
    read().ok_or_else(damaged)?.checked().map_err(|_| damaged())
}

impl Stored for WindPlan {
    type Owner = JobId;

    fn stored(store: &Store, job: JobId) -> Result<Option<StoredRun<Self>>, WorkspaceError> {
        let Some(run) = store.job_run(job, JobProcedure::Wind)? else {
            return Ok(None);
        };
        let plan = wind_plan_from_json(&run.plan).map_err(WorkspaceError::History)?;
        Ok(Some((History::Job(run.id), plan, run.lines)))
    }
}

impl Workspace {
    /// Begins the winding of a job with what its design asks for. Earlier ones stay on the disk.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`].
    pub fn begin_winding(&mut self, job: JobId, plan: &WindPlan) -> Result<(), WorkspaceError> {
        self.store
            .begin_job_run(job, JobProcedure::Wind, &wind_plan_to_json(plan))?;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::materials::{Amount, cut_length};
    use crate::app::start::{demo_job, goal_of};
    use crate::job::PairChoice;
    use crate::teardown::{Findings, Way};
    use crate::wind::Counter;

    fn demo_plan() -> (Evaluation, WindPlan) {
        let answer = evaluate(&demo_job()).unwrap();
        let plan = wind_plan_of(&answer).unwrap().unwrap();
        (answer, plan)
    }

    #[test]
    fn a_plan_survives_being_stored() {
        let (_, plan) = demo_plan();
        assert_eq!(wind_plan_from_json(&wind_plan_to_json(&plan)), Ok(plan));
        let forged = wind_plan_to_json(&plan).replace("\"turns\":", "\"turns\":-");
        for damaged in ["", "[]", "{}", forged.as_str()] {
            assert!(wind_plan_from_json(damaged).is_err(), "{damaged}");
        }
    }

    /// One of a pair is joined as the job says, and is not wound before the other core has a winding: the bench
    /// could not test their joint.
    #[test]
    fn a_pairs_plan_joins_it_with_the_other_core() {
        let mut file = demo_job();
        file.conditions.pair = Some(PairChoice {
            other: JobId(uuid::Uuid::nil()),
            primaries: Joining::Parallel,
            windings: Joining::Series,
        });
        let answer = || evaluate(&file).unwrap();
        let plan = wind_plan_of(&answer().joined_with(|_| Some(demo_job())))
            .unwrap()
            .unwrap();
        let joints = PairJoints {
            primaries_in_series: false,
            windings_in_series: true,
        };
        assert_eq!(plan.pair, Some(joints));
        assert_eq!(wind_plan_from_json(&wind_plan_to_json(&plan)), Ok(plan));
        let choke = || {
            let mut other = demo_job();
            other.goal = goal_of("choke");
            other.choice = None;
            Some(other)
        };
        for alone in [answer(), answer().joined_with(|_| choke())] {
            let refused = wind_plan_of(&alone).unwrap().unwrap_err();
            assert_eq!(refused.key, "refused-pair-without-winding");
        }
    }

    /// The turns, layers and room are the design's, and the wire by layers, with what is spared of it, is
    /// what the page's materials have: turns times the mean turn (any transformer handbook, M), within the
    /// part of a turn that a last layer which is not full lies nearer or farther out.
    #[test]
    fn the_plan_is_the_designs() {
        let (answer, plan) = demo_plan();
        let design = answer.design.as_ref().unwrap();
        let winding = &design.candidate.winding;
        assert_eq!(plan.turns, winding.turns);
        let forecast = Counter::default().forecast(&plan);
        assert_eq!(forecast.layers, design.candidate.layers.layers as usize);
        assert!(forecast.fits(), "{forecast:?}");
        let wire = Counter::default().wire_left(&plan).si();
        let of_page = design.materials.iter().find_map(|material| match material.amount {
            Amount::Wire { length, .. } => Some(length.si()),
            _ => None,
        });
        let of_page = of_page.unwrap() / f64::from(winding.parallel);
        let cut = cut_length(Length::from_si(wire), design.estimate.mean_turn.value).si();
        assert!((cut / of_page - 1.0).abs() < 0.03, "{cut} m, the page has {of_page} m");
    }

    /// A choke and a ballast are wound as their page says: turns, sheets, layers, build and the wire of its
    /// materials, turn by turn against the mean turn. A core that was kept whole takes no gap.
    #[test]
    fn a_coils_plan_follows_its_page() {
        for word in ["choke", "ballast"] {
            let mut file = demo_job();
            file.goal = goal_of(word);
            if let crate::job::Goal::Ballast { current_a, .. } = &mut file.goal {
                *current_a = 4.0;
            }
            file.choice = None;
            let answer = evaluate(&file).unwrap();
            let found = answer.inductor().unwrap().as_ref().unwrap();
            let plan = wind_plan_of(&answer).unwrap().unwrap();
            assert_eq!((plan.turns, plan.sheets), (found.turns, Some(found.sheets)), "{word}");
            assert_eq!(wind_plan_from_json(&wind_plan_to_json(&plan)).unwrap(), plan);
            let layers = found.coil.layers as usize;
            assert!((plan.build_of(layers) / found.coil.build - 1.0).abs() < 1e-9, "{word}");
            assert!(plan.build_of(layers) <= plan.build, "{word}: {plan:?} {:?}", found.coil);
            let forecast = Counter::default().forecast(&plan);
            assert!(forecast.layers == layers && forecast.fits(), "{word}: {forecast:?}");
            let wire = Counter::default().wire_left(&plan) / found.coil.wire_length;
            assert!((wire - 1.0).abs() < 0.04, "{word}: {wire}");
            let whole = Findings {
                way: Some(Way::DriveOut),
                ..Findings::default()
            };
            file.core.seam_gap_mm = None;
            let whole = evaluate(&file).unwrap().from_teardown(Some(whole));
            assert_eq!(
                wind_plan_of(&whole).unwrap().unwrap_err().key,
                "refused-coil-on-whole-core",
                "{word}"
            );
        }
    }
}
