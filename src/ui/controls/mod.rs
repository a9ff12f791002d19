//! Controls that the screens share.

mod choices;
mod number;
mod test_group;

pub use choices::{Choices, Switch};
pub use number::NumberField;
pub use test_group::TestGroup;
