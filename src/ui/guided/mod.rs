//! What teardown and bench have in common: the gate over the whole screen, the stop.

mod gate;

pub use gate::{GateScreen, Stopped, passed_at};
