//! Controls that the screens share.

mod choices;
mod draft;
mod file_pick;
mod fold;
mod hold;
mod meant;
mod number;
mod numbers;
mod photo_field;
mod terms;
mod test_group;
mod unreadable;

pub use choices::{Choices, Switch};
pub use file_pick::{FilePick, Picked};
pub use fold::Fold;
pub use hold::HoldButton;
pub use meant::Meant;
pub use number::NumberField;
pub use numbers::Numbers;
pub use photo_field::{KeptPhotos, PhotoField, PhotosOf};
pub use terms::{Meaning, Terms, TermsIn};
pub use test_group::TestGroup;
pub use unreadable::{Unreadable, or_why, unread_text};
