//! What stands in the place of something that could not be read.

use dioxus::prelude::*;

use super::super::state::Unread;
use super::super::words::say_with;
use crate::text::Arg;

/// The sentence why something could not be read; nothing while it could, or while the data are out for an
/// operation that the screen tells of.
#[component]
pub fn Unreadable(why: Option<Unread>) -> Element {
    match why.as_ref().and_then(unread_text) {
        Some(text) => rsx! { p { class: "caution", role: "alert", "{text}" } },
        None => rsx! {},
    }
}

/// The sentence why something could not be read; none while the data are out for an operation.
pub fn unread_text(why: &Unread) -> Option<String> {
    match why {
        Unread::Failed(why) => Some(say_with("ui-unread", &[("why", Arg::Text(why))])),
        Unread::Busy => None,
    }
}

/// What was read, empty where it could not be, and why it could not: for [`Unreadable`], which stands where
/// it would.
pub fn or_why<T: Default>(read: Result<T, Unread>) -> (T, Option<Unread>) {
    match read {
        Ok(value) => (value, None),
        Err(why) => (T::default(), Some(why)),
    }
}
