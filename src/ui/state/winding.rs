//! The windings of the job in hand: chosen, kept to compare, and the wire at hand; its page.

use std::path::PathBuf;

use super::super::words::tell;
use super::{AppState, Pending, Unread};
use crate::app::basis::{Design, as_choice, design};
use crate::app::guard::guarded;
use crate::app::listing::wire_label;
use crate::job::{Choice, DesignId, StockId};
use crate::report;
use crate::rewind::search::Candidate;
use crate::words::Message;

impl AppState {
    /// The windings kept beside the job: id, title, choice.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn kept(&self) -> Result<Vec<(DesignId, String, Choice)>, Unread> {
        let Some(id) = self.job_id() else { return Ok(Vec::new()) };
        let kept = self.query(|data| data.store().designs_of(id))?.into_iter();
        Ok(kept
            .map(|design| (design.meta.id, design.body.name, design.body.choice))
            .collect())
    }

    /// Keeps the winding shown beside the job.
    pub fn keep(&mut self, title: &str) {
        let choice = match self.answer() {
            Some(Ok(answer)) => answer
                .design
                .as_ref()
                .map(|design| as_choice(&design.candidate, &answer.problem.rebuild, &answer.catalogue)),
            _ => None,
        };
        if let Some(choice) = choice {
            self.change(|workspace, id| workspace.keep_design(id, title, &choice));
        }
    }

    /// Lets go of a kept winding.
    pub fn let_go(&mut self, id: DesignId) {
        self.change(|workspace, _| workspace.drop_design(id));
    }
    /// The wires on the shelf: id, label, metres, whether the catalogue has them.
    ///
    /// # Errors
    /// [`Unread`].
    pub fn stock(&self) -> Result<Vec<(StockId, String, f64, bool)>, Unread> {
        let wires = self.query(|workspace| workspace.store().stock())?.into_iter();
        Ok(wires
            .map(|w| {
                let label = wire_label(&w.body.conductor);
                let known = label.is_some();
                let shown = label.map_or(w.body.conductor, |label| tell(&label));
                (w.meta.id, shown, w.body.length_m, known)
            })
            .collect())
    }

    /// Puts a wire on the shelf; gives the message where it is refused.
    pub fn add_stock(&mut self, conductor: &str, length: &str) -> Option<String> {
        self.carry_out_or_ask(Pending::AddWire(conductor.to_owned(), length.to_owned()))
    }

    /// Takes a wire off the shelf.
    pub fn remove_stock(&mut self, id: StockId) {
        self.carry_out_or_tell(Pending::RemoveWire(id));
    }

    /// The page of the job in hand.
    #[must_use]
    pub fn page(&self) -> Option<String> {
        let answer = self.answer()?.ok()?;
        let planned = self.planned().and_then(Result::ok);
        let tests = self.tests(planned.as_ref()).and_then(Result::ok);
        let unsettled = self.query(|data| data.conflicts_of(self.job_id(), None)).ok()?;
        let unit = self.unit();
        guarded(|| report::page(answer, tests.as_ref(), &unsettled, unit).ok()).ok()?
    }

    /// Saves the page, and says where.
    pub fn save_page(&mut self) -> Option<PathBuf> {
        let (page, id) = (self.page()?, self.job_id()?);
        let saved = crate::app::save_page(&self.folder, id, &page);
        self.notice = Some(match &saved {
            Ok(path) => tell(&Message::new("page-saved-as").with("path", path.display())),
            Err(error) => tell(error),
        });
        saved.ok()
    }

    /// Chooses a winding, or goes back to the best.
    pub fn choose(&mut self, choice: Option<Choice>) {
        self.change(|workspace, id| workspace.choose(id, choice));
    }

    /// Chooses a winding of the ranked list.
    pub fn choose_candidate(&mut self, candidate: &Candidate) {
        let choice = match self.answer() {
            Some(Ok(answer)) => as_choice(candidate, &answer.problem.rebuild, &answer.catalogue),
            _ => return,
        };
        self.choose(Some(choice));
    }

    /// A candidate in full, for a look before it is chosen.
    #[must_use]
    pub fn look_at(&self, candidate: &Candidate) -> Option<Design> {
        let answer = self.answer()?.ok()?;
        let goal = answer.goal?;
        guarded(|| design(&answer.problem.rebuild, &goal, *candidate, false, &answer.catalogue)).ok()?
    }
}
