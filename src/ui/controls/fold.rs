//! A part of a screen that unfolds, and stays so.

use dioxus::prelude::*;

use super::super::state::AppState;

/// What stands below a title that opens and closes it; `word` is what it is kept open by, `answer` the
/// one line that is read without opening it, `caution` whether a caution stands within.
#[component]
pub fn Fold(
    word: String,
    title: String,
    #[props(default)] answer: String,
    #[props(default)] caution: bool,
    children: Element,
) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let open = app.read().panel_open(&word);
    rsx! {
        div { class: "panel",
            button {
                class: "fold wide", aria_expanded: "{open}", "data-fold": "{word}",
                onclick: move |_| app.write().toggle_panel(&word),
                span { aria_hidden: "true", if open { "▾ " } else { "▸ " } }
                "{title}"
                if !answer.is_empty() { small { class: if caution { "answer-line has-caution" } else { "answer-line" }, "{answer}" } }
            }
            if open { {children} }
        }
    }
}
