//! Is this find worth carrying home? From whatever can be seen, a verdict with its reasons.
//!
//! Nothing here needs the cover off. Guesses are ranges; most of what they start from is common
//! practice with no source, so they are wide until the person's own donors narrow them.

mod belief;
mod estimate;
mod fit;
mod iron;
mod parts;
mod payback;
mod sighting;
#[cfg(test)]
mod tests;
mod verdict;

pub use estimate::{Experience, PastDonor, Range, TransformerGuess};
pub use fit::{Fit, FitHow, ShelfDonor, Want};
pub use iron::chance_of_iron_core;
pub use parts::{PartWorth, PullPart, parts_to_pull};
pub use payback::{PayBack, Pays, Prices};
pub use sighting::{Damage, OvenKind, Rust, Sighting, SightingError, Sign};
pub use verdict::{Question, Reason, SizeUp, VerdictWord, size_up};
