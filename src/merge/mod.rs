//! Two histories of a record become one.
//!
//! Each device stamps what it changes, field by field. From the stamps alone [`RecordHistory::merge`]
//! tells what is newer, what was changed on both sides, and what is gone; clocks are not asked.
//! This room is pure: the store keeps the histories, `exchange` carries them.

mod check;
mod hex;
mod history;
mod kind;
mod line;
mod stamp;
#[cfg(test)]
mod tests;
mod validate;

pub use check::{Refused, accept, owner_of};
pub use hex::hex;
pub use history::{REMOVED, RecordHistory, StampedValue};
pub use kind::{FieldShape, FieldSpec, Kind, LARGEST_PICTURE, LONGEST_HISTORY, LONGEST_LINE, LONGEST_TEXT, Rule};
pub use line::{LineError, RecordLine, line_of};
pub use stamp::{Device, MAX_COUNT, MAX_FOLLOWED, Stamp, VersionVector};
pub use validate::validate_value;
