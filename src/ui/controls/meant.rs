//! Asks about a number that is probably a slip.

use dioxus::prelude::*;

use super::super::words::say_with;
use crate::app::workspace::probably_meant;
use crate::job::fields;
use crate::quantity::LengthUnit;
use crate::text::Arg;

/// The value that a refused text probably means, as a button that enters it; nothing where none is near.
#[component]
pub fn Meant(path: String, text: String, unit: LengthUnit, onuse: EventHandler<String>) -> Element {
    let meant = fields::find(&path).and_then(|field| probably_meant(field, &text, unit));
    let Some(meant) = meant else { return rsx! {} };
    let value = [("value", Arg::Text(&meant))];
    let (question, answer) = (say_with("ui-slip-ask", &value), say_with("ui-slip-use", &value));
    rsx! {
        div { class: "row meant-instead",
            p { "{question}" }
            button { class: "second", onclick: move |_| onuse.call(meant.clone()), "{answer}" }
        }
    }
}
