//! The cards of Home: one for each oven or core, each with its picture and its next step.

use std::collections::BTreeMap;

use base64::Engine;
use base64::prelude::BASE64_STANDARD;

use super::{AppState, Screen, Trouble, Unread, evaluated};
use crate::app::cards::{Card, CardPhoto, Way};
use crate::app::evaluation::Evaluation;
use crate::app::next_step::Next;
use crate::job::{DonorId, JobFile, JobId};
use crate::photo::small_picture;
use crate::store::{JobSummary, Op};

/// The longer side of a card's photo, in pixels: twice what it has on the screen.
const PICTURE_SIDE: usize = 192;

/// Where an oven or a core is on the way.
#[derive(Debug, Clone, PartialEq)]
pub enum CardWay {
    /// Its next step, and its stages.
    Known(Way),
    /// Its records cannot be read.
    Unread(Unread),
    /// Its job cannot be evaluated; opening it says why.
    Trouble,
    /// Not evaluated yet.
    Pending,
}

/// The cards listed.
#[derive(Debug, Default)]
pub(super) struct CardList {
    cores: Vec<(Card, CardWay)>,
    ovens: Vec<(Card, CardWay)>,
    unread: Vec<Unread>,
    /// The evaluations behind the cards, each of the job file beside it.
    evaluated: Vec<(JobId, JobFile, Evaluation)>,
    /// Photos in the size of a card, as addresses; none for one that cannot be decoded.
    pictures: BTreeMap<CardPhoto, Option<String>>,
}

impl AppState {
    /// The cards of Home, the last changed first, and what could not be read of them.
    #[must_use]
    pub fn cards(&self) -> (Vec<(Card, CardWay)>, Vec<Unread>) {
        let list = &self.cards;
        let mut cards = list.cores.clone();
        // Where words are looked for, a job may be found by its own name and by its oven's.
        let new = |card: &Card| card.job.is_none() || !list.cores.iter().any(|(core, _)| core.job == card.job);
        cards.extend(list.ovens.iter().filter(|(card, _)| new(card)).cloned());
        cards.sort_by_key(|(card, _)| std::cmp::Reverse(card.edited_ms));
        (cards, list.unread.clone())
    }

    /// The core of a card, as far as it is evaluated.
    #[must_use]
    pub fn core_of_card(&self, job: JobId) -> Option<&Evaluation> {
        let of_open = self.open.as_ref().filter(|open| open.id == job);
        match of_open {
            Some(open) => open.answer.as_ref().ok(),
            None => self
                .cards
                .evaluated
                .iter()
                .find(|(id, ..)| *id == job)
                .map(|(.., answer)| answer),
        }
    }

    /// A card's photo in its size, as an address; none before it is made, and where it cannot be.
    #[must_use]
    pub fn picture_of_card(&self, photo: CardPhoto) -> Option<String> {
        self.cards.pictures.get(&photo).cloned().flatten()
    }

    /// The first photo of a card that is not reduced yet.
    #[must_use]
    pub fn pending_picture(&self) -> Option<CardPhoto> {
        let cards = self.cards.cores.iter().chain(&self.cards.ovens);
        let mut photos = cards.filter_map(|(card, _)| card.photo);
        photos.find(|photo| !self.cards.pictures.contains_key(photo))
    }

    /// What reduces a card's photo, to be called beside the screen; none where it cannot be read.
    #[must_use]
    pub fn reduction_of(&self, photo: CardPhoto) -> Option<impl FnOnce() -> Option<Vec<u8>> + Send + 'static> {
        let bytes = self.query(|data| data.card_photo_bytes(photo)).ok()?;
        Some(move || small_picture(&bytes, PICTURE_SIDE))
    }

    /// Keeps a reduced photo, a PNG file; none where it could not be made.
    pub fn keep_picture(&mut self, photo: CardPhoto, file: Option<Vec<u8>>) {
        let address = file.map(|file| format!("data:image/png;base64,{}", BASE64_STANDARD.encode(file)));
        self.cards.pictures.insert(photo, address);
    }

    /// Makes the cards of the jobs listed, and of the ovens without one.
    pub(super) fn list_cards(&mut self) {
        let mut unread = Vec::new();
        let mut read = |cards: Result<Vec<Card>, Unread>| {
            cards.unwrap_or_else(|why| {
                if !unread.contains(&why) {
                    unread.push(why);
                }
                Vec::new()
            })
        };
        let jobs: Result<Vec<JobSummary>, Unread> = self.jobs().map(|(jobs, _)| jobs.to_vec());
        let cores = read(jobs.and_then(|jobs| self.query(|data| data.core_cards(&jobs))));
        let ovens = read(self.query(|data| data.oven_cards(self.wanted())));
        let mut evaluated = std::mem::take(&mut self.cards.evaluated);
        let listed = |id: JobId| cores.iter().chain(&ovens).any(|card| card.job == Some(id));
        evaluated.retain(|(id, ..)| listed(*id));
        self.cards.evaluated = evaluated;
        let with_way = |cards: Vec<Card>| -> Vec<(Card, CardWay)> {
            let way = |card: Card| {
                let way = self.way_of_card(&card);
                (card, way)
            };
            cards.into_iter().map(way).collect()
        };
        (self.cards.cores, self.cards.ovens) = (with_way(cores), with_way(ovens));
        self.cards.unread = unread;
    }

    fn way_of_card(&self, card: &Card) -> CardWay {
        let Some(id) = card.job else {
            return self.way_of(card.donor, None);
        };
        if let Some(open) = self.open.as_ref().filter(|open| open.id == id) {
            return match &open.answer {
                Ok(answer) => self.way_of(card.donor, Some((id, &open.file, answer))),
                Err(_) => CardWay::Trouble,
            };
        }
        match self.query(|data| data.store().job_file(id)) {
            Err(why) => CardWay::Unread(why),
            Ok(file) => match self.cards.evaluated.iter().find(|(known, ..)| *known == id) {
                Some((_, of, answer)) if *of == file => self.way_of(card.donor, Some((id, &file, answer))),
                _ => CardWay::Pending,
            },
        }
    }

    fn way_of(&self, donor: Option<DonorId>, job: Option<(JobId, &JobFile, &Evaluation)>) -> CardWay {
        match self.query(|data| data.way(donor, job, self.moment())) {
            Ok(Some(way)) => CardWay::Known(way),
            Ok(None) => CardWay::Trouble,
            Err(why) => CardWay::Unread(why),
        }
    }

    /// The first job listed whose card waits for its evaluation.
    #[must_use]
    pub fn pending_card(&self) -> Option<JobId> {
        let mut cards = self.cards.cores.iter().chain(&self.cards.ovens);
        cards.find(|(_, way)| *way == CardWay::Pending)?.0.job
    }

    /// What evaluates a job, to be called beside the screen; none where the job cannot be read.
    #[must_use]
    pub fn evaluation_of(
        &self,
        job: JobId,
    ) -> Option<impl FnOnce() -> (JobFile, Result<Evaluation, Trouble>) + Send + 'static> {
        let file = self.query(|data| data.store().job_file(job)).ok()?;
        let evaluate = self.evaluate;
        Some(move || {
            let answer = evaluated(evaluate, &file);
            (file, answer)
        })
    }

    /// Completes the card of a job with its evaluation; none where it could not be made.
    pub fn complete_card(&mut self, job: JobId, answer: Option<(JobFile, Result<Evaluation, Trouble>)>) {
        let answer = answer.and_then(|(file, answer)| Some((file, self.joined(job, answer.ok()?).ok()?)));
        let donor = |card: &Card| card.donor;
        let mut cards = self.cards.cores.iter().chain(&self.cards.ovens);
        let found = cards
            .find(|(card, _)| card.job == Some(job))
            .map(|(card, _)| donor(card));
        let way = match (&answer, found) {
            (Some((file, answer)), Some(donor)) => self.way_of(donor, Some((job, file, answer))),
            _ => CardWay::Trouble,
        };
        self.cards.evaluated.retain(|(id, ..)| *id != job);
        self.cards
            .evaluated
            .extend(answer.map(|(file, answer)| (job, file, answer)));
        let lists = [&mut self.cards.cores, &mut self.cards.ovens];
        for (_, shown) in lists.into_iter().flatten().filter(|(card, _)| card.job == Some(job)) {
            *shown = way.clone();
        }
    }

    /// Opens what a card stands for.
    pub fn open_card(&mut self, card: &Card, at: Screen) {
        match (card.job, card.donor) {
            (Some(job), _) => self.open_job(job, at),
            (None, Some(donor)) => self.open_donor(donor, at),
            (None, None) => {}
        }
    }

    /// Opens a card where its next step is done.
    pub fn go_on_with(&mut self, card: &Card, next: Next) {
        self.open_card(card, Screen::Donor);
        let here = self.job_id() == card.job && (card.job.is_some() || self.donor_id() == card.donor);
        if here {
            self.go_on(next);
        }
    }

    /// Removes what is in hand: the job with its core, and the oven that it came from.
    pub fn remove_in_hand(&mut self) {
        let (job, donor) = (self.job_id(), self.donor);
        let op = if job.is_some() { Op::RemoveJob } else { Op::RemoveDonor };
        if self.with_workspace(|data| data.remove_both(op, job, donor)).is_some() {
            self.open = None;
            self.donor = None;
            self.go(Screen::Home);
        }
    }
}
