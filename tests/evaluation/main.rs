//! The evaluation of a job is total: whatever the field table accepts gives values or a reason.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

mod random_job;
mod total;
