//! A part of a screen that unfolds, and stays so.

use dioxus::prelude::*;

use super::super::state::AppState;

/// What stands below a title that opens and closes it; `word` is what it is kept open by.
#[component]
pub fn Fold(word: String, title: String, children: Element) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let open = app.read().panel_open(&word);
    rsx! {
        div { class: "panel",
            button {
                class: "fold wide", aria_expanded: "{open}", "data-fold": "{word}",
                onclick: move |_| app.write().toggle_panel(&word),
                span { aria_hidden: "true", if open { "▾ " } else { "▸ " } }
                "{title}"
            }
            if open { {children} }
        }
    }
}
