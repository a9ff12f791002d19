//! Controls that the screens share.

mod choices;
mod hold;
mod number;
mod photo_field;
mod test_group;

pub use choices::{Choices, Switch};
pub use hold::HoldButton;
pub use number::NumberField;
pub use photo_field::{KeptPhotos, PhotoField};
pub use test_group::TestGroup;
