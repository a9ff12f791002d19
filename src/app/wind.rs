//! The winding of a job: what its design asks for, and the run as it is stored.

use serde_json::{Value, json};

use super::evaluation::Evaluation;
use super::guided::{Stored, StoredRun};
use super::workspace::{Workspace, WorkspaceError};
use crate::job::JobId;
use crate::magnetics::circuit::performance::Prepared;
use crate::magnetics::winding::LAYER_BULGE;
use crate::quantity::Length;
use crate::store::{History, JobProcedure, Store};
use crate::wind::WindPlan;
use crate::words::Message;

/// What the chosen winding of a transformer asks for; `None` where a job has none. What the teardown did
/// not record is taken as it costs a step more: the core was opened.
///
/// # Errors
/// A sentence for the person where the design is none that hands can wind.
#[must_use]
pub fn wind_plan_of(answer: &Evaluation) -> Option<Result<WindPlan, Message>> {
    let design = answer.design.as_ref()?;
    let (winding, layers) = (&design.candidate.winding, &design.candidate.layers);
    let rebuild = &answer.problem.rebuild;
    let space = Prepared::new(rebuild).space;
    let plan = WindPlan {
        primary_back: answer.primary_came_off() == Some(true),
        shunts: rebuild.shunts_height.si() > 0.0,
        core_opened: answer.core_opened() != Some(false),
        turns: winding.turns,
        turns_per_layer: layers.turns_per_layer,
        breadth: space.breadth,
        build: space.build,
        start: space.start,
        turn_width: winding.conductor.width_on_limb(space.breadth) * f64::from(layers.abreast),
        layer_height: winding.conductor.layer_height() * f64::from(layers.stacked) * LAYER_BULGE,
        interlayer: rebuild.insulation.interlayer,
        perimeter: rebuild.core.turn_length(Length::ZERO),
        leads: rebuild.leads.value,
    };
    Some(plan.checked().map_err(|fault| {
        tracing::error!("no winding: {fault}");
        Message::new("refused-wind-plan")
    }))
}

/// The plan as it is stored, lengths in metres.
#[must_use]
pub fn wind_plan_to_json(plan: &WindPlan) -> String {
    json!({
        "primary_back": plan.primary_back, "shunts": plan.shunts, "core_opened": plan.core_opened,
        "turns": plan.turns, "turns_per_layer": plan.turns_per_layer,
        "breadth": plan.breadth.si(), "build": plan.build.si(), "start": plan.start.si(),
        "turn_width": plan.turn_width.si(), "layer_height": plan.layer_height.si(),
        "interlayer": plan.interlayer.si(), "perimeter": plan.perimeter.si(), "leads": plan.leads.si(),
    })
    .to_string()
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
            turns: count("turns")?,
            turns_per_layer: count("turns_per_layer")?,
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
    use crate::app::materials::{Amount, SPARE};
    use crate::app::start::{demo_job, goal_of};
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

    /// The turns, layers and room are the design's, and the wire by layers is what the page's materials
    /// have to spare a tenth of: turns times the mean turn (any transformer handbook, M), within the part
    /// of a turn that a last layer which is not full lies nearer or farther out.
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
        let of_page = of_page.unwrap() / SPARE / f64::from(winding.parallel);
        assert!(
            (wire / of_page - 1.0).abs() < 0.03,
            "{wire} m, the page has {of_page} m"
        );
    }

    #[test]
    fn a_choke_has_no_winding_of_this_kind() {
        let mut file = demo_job();
        file.goal = goal_of("choke");
        assert!(wind_plan_of(&evaluate(&file).unwrap()).is_none());
    }
}
