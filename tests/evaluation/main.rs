//! The evaluation of a job is total: whatever the field table accepts gives values or a reason.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

mod agree;
#[cfg(feature = "ui")]
mod entries;
mod random_job;
mod total;
#[cfg(feature = "ui")]
mod trouble;
mod worked;
