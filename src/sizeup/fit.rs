//! Which of the wanted uses the donor suits.

use super::estimate::{TransformerGuess, chance_of};
use crate::quantity::ApparentPower;
use crate::words::words;

/// A use that the person wants a core for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Want {
    /// What it needs without a pause; for a use with pauses its equivalent, power times the
    /// square root of the duty.
    pub continuous: ApparentPower,
    /// Whether two cores may share it.
    pub may_share: bool,
}

/// A donor that is on the shelf already.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShelfDonor {
    /// What its core carries without a pause.
    pub continuous: ApparentPower,
}

words! {
    /// How a donor suits a use.
    pub enum FitHow, "fit" {
        /// By itself.
        Alone = "alone",
        /// Together with a donor on the shelf.
        WithShelf = "with-shelf",
        /// Too small, as far as can be told.
        TooSmall = "too-small",
    }
}

/// How a donor suits one use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// Which use: its place in the list of wants.
    pub want: usize,
    /// How.
    pub how: FitHow,
    /// Which donor on the shelf shares it.
    pub shelf: Option<usize>,
    /// The chance that the core is big enough, 0 to 1, for the way it suits.
    pub chance: f64,
}

/// Suits each use alone if that is likelier than not; else with the smallest donor on the shelf
/// that carries half of it.
pub(super) fn fits(guess: &TransformerGuess, wants: &[Want], shelf: &[ShelfDonor]) -> Vec<Fit> {
    let fit = |(want, wanted): (usize, &Want)| {
        let alone = chance_of(&guess.continuous, wanted.continuous);
        let half = wanted.continuous / 2.0;
        let partner = shelf
            .iter()
            .enumerate()
            .filter(|(_, donor)| wanted.may_share && donor.continuous >= half)
            .min_by(|(_, a), (_, b)| a.continuous.si().total_cmp(&b.continuous.si()))
            .map(|(index, _)| index);
        let shared = chance_of(&guess.continuous, half);
        match partner {
            _ if alone >= 0.5 => Fit {
                want,
                how: FitHow::Alone,
                shelf: None,
                chance: alone,
            },
            Some(index) if shared >= 0.5 => Fit {
                want,
                how: FitHow::WithShelf,
                shelf: Some(index),
                chance: shared,
            },
            _ => Fit {
                want,
                how: FitHow::TooSmall,
                shelf: None,
                chance: alone,
            },
        }
    };
    wants.iter().enumerate().map(fit).collect()
}
