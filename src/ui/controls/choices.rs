//! One of several, as large buttons; and a yes or no.

use dioxus::prelude::*;

/// One of several. `options`: word and label.
#[component]
pub fn Choices(
    label: String,
    options: Vec<(String, String)>,
    chosen: String,
    onchoose: EventHandler<String>,
) -> Element {
    rsx! {
        div { class: "choices", role: "radiogroup", aria_label: "{label}",
            for (word, text) in options {
                button {
                    key: "{word}",
                    "data-word": "{word}",
                    role: "radio",
                    aria_checked: if word == chosen { "true" } else { "false" },
                    class: if word == chosen { "option chosen" } else { "option" },
                    onclick: {
                        let word = word.clone();
                        move |_| onchoose.call(word.clone())
                    },
                    "{text}"
                }
            }
        }
    }
}

/// A yes or no with its text.
#[component]
pub fn Switch(label: String, on: bool, onswitch: EventHandler<bool>) -> Element {
    rsx! {
        button {
            class: if on { "switch on" } else { "switch" },
            role: "switch",
            aria_checked: if on { "true" } else { "false" },
            onclick: move |_| onswitch.call(!on),
            span { class: "mark", aria_hidden: "true", if on { "✓" } else { "" } }
            span { "{label}" }
        }
    }
}
