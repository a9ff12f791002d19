//! What Home lists: one card for each oven or core, and where each of them is on the way.

use super::bench::plan_of;
use super::evaluation::Evaluation;
use super::guard::guarded;
use super::next_step::{DonorState, JobState, Next, Standing, Station, Windings, next, stations};
use super::wind::wind_plan_of;
use super::workspace::{Workspace, WorkspaceError};
use crate::bench::Plan;
use crate::job::{CoreId, DonorId, JobFile, JobId, PhotoId};
use crate::safety::Moment;
use crate::store::{JobSummary, Op, StoreError};
use crate::wind::{CoreOfPair, WindPlan};

/// The next step, and how each of the six stages is.
pub type Way = (Next, [(Station, Standing); 6]);

/// A photo of a core or of an oven.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CardPhoto {
    /// Of a core.
    Core(PhotoId),
    /// Of an oven.
    Oven(PhotoId),
}

/// An oven, a core, or a core with the oven that it came from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Card {
    /// The oven, where there is one.
    pub donor: Option<DonorId>,
    /// The job of the core, the last changed where there are several.
    pub job: Option<JobId>,
    /// What the person calls the job, or the oven where there is no job.
    pub name: String,
    /// The word of the job's use.
    pub goal_use: Option<String>,
    /// Further jobs with the same core.
    pub others: u32,
    /// The person's own photo of the core, or of the oven.
    pub photo: Option<CardPhoto>,
    /// When it was last changed, in milliseconds since 1970-01-01 UTC.
    pub edited_ms: i64,
}

impl Workspace {
    /// One card for each core of these jobs, in their order.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn core_cards(&self, jobs: &[JobSummary]) -> Result<Vec<Card>, WorkspaceError> {
        let mut cards: Vec<(CoreId, Card)> = Vec::with_capacity(jobs.len());
        for job in jobs {
            let core = self.store.job(job.id)?.body.core;
            let donor = self.store.core(core)?.body.donor;
            let same = |(known, card): &&mut (CoreId, Card)| *known == core || donor.is_some() && card.donor == donor;
            if let Some((_, card)) = cards.iter_mut().find(same) {
                card.others += 1;
                continue;
            }
            cards.push((core, self.job_card(job, core, donor)?));
        }
        Ok(cards.into_iter().map(|(_, card)| card).collect())
    }

    /// One card for each oven whose name has these words; all for none. An oven with a job gives the card of
    /// its job where words are looked for, and none otherwise: its job is listed.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn oven_cards(&self, wanted: &str) -> Result<Vec<Card>, WorkspaceError> {
        let words: Vec<String> = wanted.split_whitespace().map(str::to_lowercase).collect();
        let mut cards = Vec::new();
        for donor in self.store.donors()? {
            let name = donor.body.name.to_lowercase();
            if !words.iter().all(|word| name.contains(word.as_str())) {
                continue;
            }
            match self.store.jobs_from(donor.meta.id)?.first() {
                None => cards.push(Card {
                    donor: Some(donor.meta.id),
                    job: None,
                    name: donor.body.name,
                    goal_use: None,
                    others: 0,
                    photo: self.photo_of(None, Some(donor.meta.id))?,
                    edited_ms: donor.meta.edited_ms,
                }),
                Some(_) if words.is_empty() => {}
                Some(id) => {
                    let job = self.store.job(*id)?;
                    let listed = JobSummary {
                        id: *id,
                        name: job.body.name,
                        goal_use: job.body.goal.word().to_owned(),
                        edited_ms: job.meta.edited_ms,
                    };
                    cards.push(self.job_card(&listed, job.body.core, Some(donor.meta.id))?);
                }
            }
        }
        Ok(cards)
    }

    /// The card of a job.
    fn job_card(&self, job: &JobSummary, core: CoreId, donor: Option<DonorId>) -> Result<Card, WorkspaceError> {
        Ok(Card {
            donor,
            job: Some(job.id),
            name: job.name.clone(),
            goal_use: Some(job.goal_use.clone()),
            others: 0,
            photo: self.photo_of(Some(core), donor)?,
            edited_ms: job.edited_ms,
        })
    }

    /// The first photo of a core, else of the oven that it came from.
    fn photo_of(&self, core: Option<CoreId>, donor: Option<DonorId>) -> Result<Option<CardPhoto>, WorkspaceError> {
        let of_core = core
            .map(|core| self.store.core_photos(core))
            .transpose()?
            .unwrap_or_default();
        if let Some(photo) = of_core.first() {
            return Ok(Some(CardPhoto::Core(photo.id)));
        }
        let of_oven = donor
            .map(|donor| self.store.photos(donor))
            .transpose()?
            .unwrap_or_default();
        Ok(of_oven.first().map(|photo| CardPhoto::Oven(photo.id)))
    }

    /// The bytes of a card's photo.
    ///
    /// # Errors
    /// The photo is gone.
    pub fn card_photo_bytes(&self, photo: CardPhoto) -> Result<Vec<u8>, WorkspaceError> {
        match photo {
            CardPhoto::Core(id) => Ok(self.store.core_photo_bytes(id)?),
            CardPhoto::Oven(id) => Ok(self.store.photo_bytes(id)?),
        }
    }

    /// The next step of an oven, of a job, or of both; none where neither is given.
    ///
    /// # Errors
    /// A stored history that cannot have happened; [`WorkspaceError::Store`].
    pub fn way(
        &self,
        donor: Option<DonorId>,
        job: Option<(JobId, &JobFile, &Evaluation)>,
        now: Moment,
    ) -> Result<Option<Way>, WorkspaceError> {
        let teardown = donor.map(|id| self.teardown(id)).transpose()?;
        let donor = donor.zip(teardown.as_ref()).map(|(id, teardown)| {
            // Once it is being taken apart, or its core is known, the verdict decides nothing.
            let decides = teardown.history().is_empty() && job.is_none();
            let verdict = decides.then(|| self.verdict(Some(id), &self.store.donor(id)?.body));
            let verdict = verdict.and_then(Result::ok).map(|verdict| verdict.answer.verdict);
            DonorState { verdict, teardown }
        });
        let (mut tests, mut windings) = (None, Windings::default());
        if let Some((id, file, answer)) = job {
            if self.run::<Plan>(id)?.is_some() {
                let planned = guarded(|| plan_of(file, answer)).ok().flatten().and_then(Result::ok);
                tests = self.tests(id, planned.as_ref())?;
            }
            // A winding that is damaged or of another design counts as none.
            let of_core = |core| {
                let planned = wind_plan_of(answer, core).and_then(Result::ok)?;
                let run = self.run::<WindPlan>((id, core)).ok().flatten()?;
                (planned == *run.plan()).then_some(run)
            };
            windings = Windings {
                first: of_core(CoreOfPair::First),
                second: of_core(CoreOfPair::Second),
            };
        }
        let job = job.map(|(_, file, answer)| JobState {
            file,
            answer,
            windings: &windings,
            tests: tests.as_ref(),
        });
        Ok((donor.is_some() || job.is_some()).then(|| {
            let next = next(donor, job, now);
            (next, stations(next, donor))
        }))
    }

    /// Removes a job with its core where no other job uses it, an oven, or both, as one step of undo.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn remove_both(&mut self, op: Op, job: Option<JobId>, donor: Option<DonorId>) -> Result<(), WorkspaceError> {
        let core = job
            .map(|job| Ok::<_, StoreError>(self.store.job(job)?.body.core))
            .transpose()?;
        self.store.edit(op, |edit| {
            if let Some(job) = job {
                edit.delete(job)?;
            }
            if let Some(core) = core {
                match edit.delete(core) {
                    Ok(()) | Err(StoreError::CoreInUse { .. }) => {}
                    Err(error) => return Err(error),
                }
            }
            donor.map_or(Ok(()), |donor| edit.delete(donor))
        })?;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::magnetics::circuit::mains::OUTLETS;

    fn names(cards: &[Card]) -> Vec<&str> {
        cards.iter().map(|card| card.name.as_str()).collect()
    }

    /// An oven and its job are one card; an oven alone and a core alone have one each.
    #[test]
    fn an_oven_and_its_job_are_one_card() {
        let folder = tempfile::tempdir().unwrap();
        let mut workspace = Workspace::open(folder.path()).unwrap();
        let demo = workspace.open_demo().unwrap();
        workspace.start_donor("Green one").unwrap();
        workspace.start_job("Bare core", &OUTLETS[0]).unwrap();
        let jobs = workspace.store().job_summaries(40, None).unwrap();
        let cores = workspace.core_cards(&jobs).unwrap();
        assert_eq!(cores.len(), 2);
        let of_demo = cores.iter().find(|card| card.job == Some(demo)).unwrap();
        assert_eq!(of_demo.donor, workspace.store().donor_of(demo).unwrap());
        assert!(of_demo.donor.is_some());
        assert_eq!(names(&workspace.oven_cards("").unwrap()), ["Green one"]);
        // Looked for by the oven's name, the job is found too.
        assert_eq!(
            names(&workspace.oven_cards("GREEN rusty").unwrap()),
            [of_demo.name.as_str()]
        );
        assert!(workspace.oven_cards("blue").unwrap().is_empty());
        // A second job with the same oven's core is no second card.
        let again = workspace
            .start_job_from(of_demo.donor.unwrap(), "Again", &OUTLETS[0])
            .unwrap();
        let cards = workspace
            .core_cards(&workspace.store().job_summaries(40, None).unwrap())
            .unwrap();
        let of_oven: Vec<&Card> = cards.iter().filter(|card| card.donor == of_demo.donor).collect();
        assert_eq!((cards.len(), of_oven[0].job, of_oven[0].others), (2, Some(again), 1));
        workspace.remove_both(Op::RemoveJob, Some(demo), of_demo.donor).unwrap();
        assert_eq!(names(&workspace.oven_cards("").unwrap()), ["Green one"]);
        workspace.undo().unwrap();
        assert!(workspace.store().job_file(demo).is_ok());
    }
}
