//! Where the donor and the job in hand stand.

use super::{AppState, Screen};
use crate::app::next_step::{DonorState, JobState, Next, Standing, Station, next, stations};
use crate::wind::WindPlan;

impl AppState {
    /// The one next thing to do; none where nothing is in hand, or its history cannot be read.
    #[must_use]
    pub fn next_thing(&self) -> Option<Next> {
        self.way().map(|(next, _)| next)
    }

    /// The same, with how each station stands.
    #[must_use]
    pub fn way(&self) -> Option<(Next, [(Station, Standing); 6])> {
        let verdict = self
            .verdict()
            .and_then(Result::ok)
            .map(|verdict| verdict.answer.verdict);
        let teardown = match self.teardown() {
            Some(teardown) => Some(teardown.ok()?),
            None => None,
        };
        let donor = teardown.as_ref().map(|teardown| DonorState { verdict, teardown });
        let planned = self.planned().and_then(Result::ok);
        let tests = match self.tests(planned.as_ref()) {
            Some(tests) => Some(tests.ok()?),
            None => None,
        };
        let winding = self.run::<WindPlan>().and_then(Result::ok);
        let winding = winding.filter(|_| self.winds_todays_design());
        let job = match (self.file(), self.answer()) {
            (Some(file), Some(Ok(answer))) => Some(JobState {
                file,
                answer,
                winding: winding.as_ref(),
                tests: tests.as_ref(),
            }),
            _ => None,
        };
        (donor.is_some() || job.is_some()).then(|| {
            let next = next(donor, job, self.moment());
            (next, stations(next, donor))
        })
    }

    /// Goes where the next thing is done; starts the job where that is what comes next.
    pub fn go_on(&mut self, next: Next) {
        match next {
            Next::StartJob => self.start_job_from_donor(),
            _ => self.go(screen_of(next.station())),
        }
    }
}

/// The screen of a station.
#[must_use]
pub const fn screen_of(station: Station) -> Screen {
    match station {
        Station::SizeUp => Screen::SizeUp,
        Station::Teardown => Screen::Teardown,
        Station::Measure => Screen::Measure,
        Station::Rewind => Screen::Rewind,
        Station::Wind => Screen::Wind,
        Station::Bench => Screen::Bench,
    }
}
