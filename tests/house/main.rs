//! The rules of the house: which room may call which, every hazard with its caution, every text
//! there.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

mod android;
mod cautions;
mod contrast;
mod labels;
mod layering;
mod look;
mod numbers;
mod refusals;
mod texts;
mod words;
