//! Plans and runs as they are stored.

use crate::app::guided::{Stored, StoredRun};
use crate::app::workspace::{Workspace, WorkspaceError};
use crate::bench::{Amount, Bench, Load, Plan, Prediction, Stage};
use crate::job::JobId;
use crate::quantity::{Current, Ratio, Resistance, Voltage};
use crate::store::{History, JobProcedure, Store};
use crate::words::Message;
use serde_json::{Value, json};

/// The plan as it is stored: the load's word, then the predictions in SI units, an open end as null.
#[must_use]
pub fn plan_to_json(plan: &Plan) -> String {
    let load = Value::from(plan.load().word());
    let rows = plan.predictions().iter().map(|p| {
        json!({
            "stage": p.stage.word(), "of": p.of,
            "value": p.value.si(), "low": p.low.si(), "high": p.high.si(),
        })
    });
    std::iter::once(load).chain(rows).collect::<Value>().to_string()
}

/// A stored plan.
///
/// # Errors
/// A sentence for the person where it cannot be read.
pub fn plan_from_json(text: &str) -> Result<Plan, Message> {
    let damaged = || Message::new("refused-tests-damaged");
    let stored: Vec<Value> = serde_json::from_str(text).map_err(|_| damaged())?;
    let (load, rows) = stored.split_first().ok_or_else(damaged)?;
    let load = load.as_str().and_then(Load::from_word).ok_or_else(damaged)?;
    let read = |row: &Value| -> Option<Prediction> {
        let stage = Stage::from_word(row.get("stage")?.as_str()?)?;
        let number = |key: &str| row.get(key)?.as_f64();
        let amount = |si: f64| -> Option<Amount> {
            Some(match stage {
                Stage::Continuity | Stage::Insulation | Stage::Impedance | Stage::RatedCurrent => {
                    Amount::Resistance(Resistance::from_si(si))
                }
                Stage::RatioPolarity | Stage::PairPhasing => Amount::Ratio(Ratio::from_si(si)),
                Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit => Amount::Current(Current::from_si(si)),
                Stage::Loaded => Amount::Voltage(Voltage::from_si(si)),
                Stage::TemperatureRise => Amount::Rise(crate::quantity::TemperatureRise::from_si(si)),
                Stage::Prepare | Stage::Reassembly => return None,
            })
        };
        Some(Prediction {
            stage,
            of: u8::try_from(row.get("of")?.as_u64()?).ok()?,
            value: amount(number("value")?)?,
            low: amount(number("low")?)?,
            // JSON has no infinity: an open end is null.
            high: amount(number("high").unwrap_or(f64::INFINITY))?,
        })
    };
    let predictions: Option<Vec<Prediction>> = rows.iter().map(read).collect();
    let plan = Plan::new(predictions.ok_or_else(damaged)?).map_err(|_| damaged())?;
    Ok(plan.under(load))
}

/// A job's tests as they stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Tests {
    /// Where they stand.
    pub bench: Bench,
    /// True where the design has changed since they began: they prove another winding.
    pub outdated: bool,
}

impl Stored for Plan {
    type Owner = JobId;

    fn stored(store: &Store, job: JobId) -> Result<Option<StoredRun<Self>>, WorkspaceError> {
        let Some(run) = store.job_run(job, JobProcedure::Bench)? else {
            return Ok(None);
        };
        let plan = plan_from_json(&run.plan).map_err(WorkspaceError::History)?;
        Ok(Some((History::Job(run.id), plan, run.lines)))
    }
}

impl Workspace {
    /// The newest tests of a job, if there are any; `planned` is what today's design predicts.
    ///
    /// # Errors
    /// [`WorkspaceError::History`] where the stored history cannot have happened.
    pub fn tests(&self, job: JobId, planned: Option<&Plan>) -> Result<Option<Tests>, WorkspaceError> {
        let bench = self.run::<Plan>(job)?;
        Ok(bench.map(|bench| Tests {
            outdated: planned.is_some_and(|planned| !same_winding(planned, bench.plan())),
            bench,
        }))
    }

    /// Begins the tests of a job with what its design predicts. Earlier ones stay on the disk.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn begin_tests(&mut self, job: JobId, plan: &Plan) -> Result<(), WorkspaceError> {
        self.store
            .begin_job_run(job, JobProcedure::Bench, &plan_to_json(plan))?;
        Ok(())
    }
}

/// True where two plans are of one winding: all but the current through the series lamp, which
/// depends on the lamp at hand.
fn same_winding(one: &Plan, other: &Plan) -> bool {
    let but_the_lamp = |plan: &Plan| -> Vec<Prediction> {
        let rows = plan.predictions().iter().copied();
        rows.filter(|row| row.stage != Stage::LampIdle).collect()
    };
    one.load() == other.load() && but_the_lamp(one) == but_the_lamp(other)
}
