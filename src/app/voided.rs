//! What a change of the data takes from a job: tests and a winding that would count no more.

use std::collections::BTreeSet;

use super::bench::plan_of;
use super::evaluation::Evaluation;
use super::guard::guarded;
use super::wind::wind_plan_of;
use super::workspace::{Workspace, WorkspaceError};
use crate::bench::{Plan, Stage};
use crate::job::{JobFile, JobId};
use crate::wind::{CoreOfPair, WindPlan};

/// What would count no more of one job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Voided {
    /// The job.
    pub job: JobId,
    /// Its name.
    pub name: String,
    /// How many of its tests have readings, where they would prove another winding; none where they go on
    /// counting or none count now.
    pub tests: Option<usize>,
    /// Whether the winding that was begun would be of an earlier design.
    pub winding: bool,
}

impl Workspace {
    /// What of a job counts with the document that it has and would not with `after`; none for a job that
    /// loses nothing. `evaluate` judges a document of the job; `after` is none where the job would be gone.
    #[must_use]
    pub fn voided_by(
        &self,
        job: JobId,
        after: Option<&JobFile>,
        evaluate: &impl Fn(&JobFile) -> Option<Evaluation>,
    ) -> Option<Voided> {
        let now = self.store.job_file(job).ok()?;
        if after == Some(&now) {
            return None;
        }
        let tests = self.run::<Plan>(job).ok().flatten();
        let windings: Vec<(CoreOfPair, WindPlan)> = [CoreOfPair::First, CoreOfPair::Second]
            .into_iter()
            .filter_map(|core| Some((core, *self.run::<WindPlan>((job, core)).ok()??.plan())))
            .collect();
        if tests.is_none() && windings.is_empty() {
            return None;
        }
        let (before, then) = (evaluate(&now), after.and_then(evaluate));
        // Where nothing can be planned, the tests prove nothing that is on the screen.
        let proves = |file: &JobFile, answer: &Evaluation| {
            let planned = guarded(|| plan_of(file, answer)).ok()??.ok()?;
            Some(!self.tests(job, Some(&planned)).ok()??.outdated)
        };
        let counts = |file: Option<&JobFile>, answer: Option<&Evaluation>| {
            file.zip(answer).and_then(|(file, answer)| proves(file, answer)) == Some(true)
        };
        let tests = tests
            .filter(|_| counts(Some(&now), before.as_ref()) && !counts(after, then.as_ref()))
            .map(|run| {
                let read: BTreeSet<Stage> = run.facts().keys().map(|(stage, _)| *stage).collect();
                read.len()
            });
        let winds = |answer: Option<&Evaluation>, (core, plan): &(CoreOfPair, WindPlan)| {
            let planned = answer.and_then(|answer| guarded(|| wind_plan_of(answer, *core)).ok()??.ok());
            planned.as_ref() == Some(plan)
        };
        let winding = windings
            .iter()
            .any(|run| winds(before.as_ref(), run) && !winds(then.as_ref(), run));
        (tests.is_some() || winding).then_some(Voided {
            job,
            name: now.name,
            tests,
            winding,
        })
    }

    /// What of all jobs a change of the data would void; nothing of the change is kept.
    ///
    /// # Errors
    /// As the change.
    pub fn preview_voided<T>(
        &mut self,
        change: impl FnOnce(&mut Workspace) -> Result<T, WorkspaceError>,
        evaluate: &impl Fn(&Workspace, JobId, &JobFile) -> Option<Evaluation>,
    ) -> Result<(T, Vec<Voided>), WorkspaceError> {
        let jobs = self.store.jobs_with_runs()?;
        self.store.begin_preview(&jobs);
        let made = change(self);
        let after = self.store.end_preview();
        let made = made?;
        let voided = after
            .iter()
            .filter_map(|(job, after)| self.voided_by(*job, after.as_ref(), &|file| evaluate(self, *job, file)))
            .collect();
        Ok((made, voided))
    }
}
