//! Hazards, the gates in front of them, and what it means that a gate was passed.
//!
//! Shared by the teardown, the bench and the sizing up. No time and no reading by itself
//! passes a gate: only a person does, item by item. How long a pass lasts, and which gates a
//! single hold renews, is said in [`Lasts`] and kept by [`Passes`].

mod gates;
mod hazards;
mod items;
mod limits;
mod line;
mod moment;
mod passes;

pub use gates::{Gate, Lasts};
pub use hazards::{Arises, Hazard};
pub use items::Item;
pub use limits::{CHARGE_LIMIT, LimitError, TouchLimit};
pub use line::{LineError, Words};
pub use moment::Moment;
pub use passes::{ConfirmError, Disturbance, Passes, Place};
