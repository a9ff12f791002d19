//! Two histories of a record become one.
//!
//! Each device stamps what it changes, field by field. From the stamps alone [`Known::merge`]
//! tells what is newer, what was changed on both sides, and what is gone; clocks are not asked.
//! This room is pure: the store keeps the histories, `exchange` carries them.

mod check;
mod hex;
mod kind;
mod known;
mod line;
mod rule;
mod stamp;
#[cfg(test)]
mod tests;

pub use check::{Refused, accept, owner_of};
pub use hex::hex;
pub use kind::{Kind, LARGEST_PICTURE, LONGEST_LINE, Rule, Shape};
pub use known::{Entry, Known, REMOVED};
pub use line::{Line, WrongLine, line_of};
pub use rule::judge;
pub use stamp::{Device, MAX_COUNT, MAX_FOLLOWED, Seen, Stamp};
