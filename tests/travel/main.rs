//! Two devices and the file between them, through the doors that the app uses.

mod carry;
mod corpus;
mod faults;
mod hostile;
