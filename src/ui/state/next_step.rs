//! Where the donor and the job in hand stand.

use super::{AppState, Screen};
use crate::app::cards::Way;
use crate::app::next_step::{Next, Station};

impl AppState {
    /// The one next thing to do; none where nothing is in hand, or its history cannot be read.
    #[must_use]
    pub fn next_thing(&self) -> Option<Next> {
        self.way().map(|(next, _)| next)
    }

    /// The same, with how each stage is.
    #[must_use]
    pub fn way(&self) -> Option<Way> {
        let job = match (&self.open, self.answer()) {
            (Some(open), Some(Ok(answer))) => Some((open.id, &open.file, answer)),
            _ => None,
        };
        self.query(|data| data.way(self.donor_id(), job, self.moment()))
            .ok()
            .flatten()
    }

    /// Goes where the next thing is done; starts the job where that is what comes next.
    pub fn go_on(&mut self, next: Next) {
        // The core whose winding comes next, whichever was looked at.
        self.winding_core = None;
        match next {
            Next::StartJob => self.start_job_from_donor(),
            Next::Proved => self.go(Screen::Page),
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
