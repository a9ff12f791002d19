//! Two devices and the file between them, through the doors that the app uses.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

mod bounds;
mod carry;
mod corpus;
mod faults;
mod hostile;
mod position;
mod restore;
