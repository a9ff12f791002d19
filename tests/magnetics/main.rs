//! The physics and the search: textbook examples, properties that must hold for any core, and the
//! uncertainty against Monte Carlo.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

mod properties;
mod rewind;
mod textbook;
