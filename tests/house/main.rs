//! The rules of the house: which room may call which, every hazard with its caution, every text
//! there.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

mod android;
mod cautions;
mod contrast;
#[allow(clippy::case_sensitive_file_extension_comparisons)] // Ends of ids, and names of the repository's own files.
mod labels;
mod layering;
mod look;
mod numbers;
mod refusals;
mod texts;
#[allow(clippy::case_sensitive_file_extension_comparisons)] // Names of the repository's own files.
mod words;
