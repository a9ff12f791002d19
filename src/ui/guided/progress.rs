//! How far a guided part is, and the hazards of where it stands.

use dioxus::prelude::*;

use super::super::words::{say, say_part, say_with};
use crate::safety::Hazard;
use crate::text::Arg;

/// The places of a guided part with the way back to those behind. `keys` are the ids of their
/// names, in order; `place` and `all` the ids of the texts "step 3 of 14" and "all steps".
#[component]
pub fn Progress(
    keys: Vec<&'static str>,
    at: usize,
    place: &'static str,
    all: &'static str,
    ongo: EventHandler<usize>,
) -> Element {
    let (here, count) = (at + 1, keys.len());
    let told = say_with(
        place,
        &[("at", Arg::Number(here as f64)), ("all", Arg::Number(count as f64))],
    );
    rsx! {
        section { class: "progress",
            p { class: "place", "{told}" }
            div { class: "bar", role: "progressbar", aria_label: "{told}", aria_valuenow: "{here}", aria_valuemin: "1", aria_valuemax: "{count}",
                for (index, key) in keys.iter().enumerate() {
                    span { key: "{key}", class: if index < at { "done" } else if index == at { "here" } else { "" } }
                }
            }
            details {
                summary { {say(all)} }
                ol { class: "all-steps",
                    for (index, key) in keys.iter().copied().enumerate() {
                        li { key: "{key}",
                            if index < at {
                                button { class: "quiet wide", onclick: move |_| ongo.call(index), {say(key)} }
                            } else {
                                p { class: if index == at { "here" } else { "" }, {say(key)} }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What to do, an action a line.
#[component]
pub fn Actions(text: String) -> Element {
    let lines: Vec<&str> = text.lines().collect();
    match lines.as_slice() {
        [one] => rsx! { p { class: "do", "{one}" } },
        lines => rsx! { ol { class: "do", for line in lines.iter() { li { key: "{line}", "{line}" } } } },
    }
}

/// The caution, a warning a line.
#[component]
pub fn Caution(text: String) -> Element {
    rsx! {
        div { class: "caution", for line in text.lines() { p { key: "{line}", "{line}" } } }
    }
}

/// What can hurt here, and how.
#[component]
pub fn Hazards(hazards: Vec<Hazard>) -> Element {
    if hazards.is_empty() {
        return rsx! {};
    }
    rsx! {
        details {
            summary { {say("ui-hazards")} }
            ul {
                for hazard in hazards {
                    li { key: "{hazard.word()}", strong { {say(hazard.key())} } " " {say_part(hazard.key(), "arises")} " " {say_part(hazard.key(), "harm")} }
                }
            }
        }
    }
}
