//! Does it pay back? Never pay for one that doesn't.

use super::estimate::TransformerGuess;
use crate::quantity::Money;
use crate::words::words;

/// Prices where the person lives. There are none built in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Prices {
    /// A new transformer, for each 100 VA that it carries without a pause; more than 0.
    pub new_per_100_va: Money,
    /// Copper wire, a kilogram; 0 or more.
    pub copper_per_kg: Money,
}

words! {
    /// Whether it pays back.
    pub enum Pays, "pays" {
        /// Even at the low end.
        Yes = "yes",
        /// Not even at the high end.
        No = "no",
        /// In between.
        Unsure = "unsure",
    }
}

/// The price asked against a new transformer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PayBack {
    /// What is saved at the low end: a new transformer of the smallest likely size, less the
    /// price asked and the copper for a new winding. Negative if it costs more.
    pub low: Money,
    /// At the likely size, weighed with the chance that there is a core at all.
    pub likely: Money,
    /// At the largest likely size.
    pub high: Money,
    /// The answer.
    pub pays: Pays,
}

/// Copper of a new winding: about 8 % of the transformer's mass (common practice, no source).
const NEW_WINDING: f64 = 0.08;

/// Compares the price asked with what a new transformer of that size would cost, counting the
/// copper that rewinding takes.
pub(super) fn pay_back(guess: &TransformerGuess, chance_of_core: f64, asked: Money, prices: &Prices) -> PayBack {
    let new = |va: f64| prices.new_per_100_va * (va / 100.0);
    let copper = |kilograms: f64| prices.copper_per_kg * (kilograms * NEW_WINDING);
    let low = new(guess.continuous.low.si()) - copper(guess.mass.high.si()) - asked;
    let high = new(guess.continuous.high.si()) - copper(guess.mass.low.si()) - asked;
    let gain = new(guess.continuous.likely.si()) - copper(guess.mass.likely.si());
    let likely = gain * chance_of_core - asked;
    let free = asked.si() <= 0.0;
    let pays = if free || (low.si() > 0.0 && likely.si() > 0.0) {
        Pays::Yes
    } else if high.si() <= 0.0 || likely.si() <= 0.0 {
        Pays::No
    } else {
        Pays::Unsure
    };
    PayBack {
        low,
        likely,
        high,
        pays,
    }
}
