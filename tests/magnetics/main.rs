//! The physics and the search: textbook examples, properties that must hold for any core, and the
//! uncertainty against Monte Carlo.

mod properties;
mod rewind;
mod textbook;
