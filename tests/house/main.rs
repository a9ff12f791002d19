//! The rules of the house: which room may call which, every hazard with its caution, every text
//! there.

mod cautions;
mod layering;
mod look;
mod texts;
