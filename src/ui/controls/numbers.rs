//! Numbers with their ±, each of which can be opened.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{say, say_part, say_with};
use super::TermsIn;
use crate::report::Shown;
use crate::text::Arg;

/// Numbers, each with what widens it most. A tap unfolds what it is, its formula, its inputs and its
/// source; another folds it again. What stands open is kept like the panels.
#[component]
pub fn Numbers(rows: Vec<(Shown, String)>) -> Element {
    rsx! {
        ul { class: "numbers",
            for (shown, widened) in rows {
                NumberRow { key: "{shown.label}", shown, widened }
            }
        }
    }
}

#[component]
fn NumberRow(shown: Shown, widened: String) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let kept = shown.kept.clone();
    let open = app.read().panel_open(&kept);
    rsx! {
        li {
            button {
                class: "number",
                aria_expanded: "{open}",
                onclick: move |_| app.write().toggle_panel(&kept),
                span { class: "name",
                    span { class: "turn", aria_hidden: "true", if open { "▾" } else { "▸" } }
                    span { "{shown.label}"
                        if !open && !widened.is_empty() { small { {say_with("number-widened", &[("inputs", Arg::Text(&widened))])} } }
                    }
                }
                span { class: "amount", "{shown.value} "
                    if !shown.plus_minus.is_empty() { span { class: "plus-minus", "± {shown.plus_minus} " } }
                    "{shown.unit}"
                }
            }
            if open { Opened { shown: shown.clone() } }
        }
    }
}

/// What a number is, its formula, its inputs and its source.
#[component]
fn Opened(shown: Shown) -> Element {
    let about = &shown.about;
    let what = say_part(about, "what");
    rsx! {
        div { class: "opened",
            p { "{what}" }
            TermsIn { text: "{shown.label}. {what}" }
            p { class: "part-head", {say("number-formula")} }
            p { class: "formula", {say_part(about, "formula")} }
            p { class: "part-head", {say("number-inputs")} }
            if shown.inputs.is_empty() {
                p { {say(if shown.plus_minus.is_empty() { "number-exact" } else { "number-no-inputs" })} }
            } else {
                ul { class: "inputs",
                    for input in shown.inputs.iter() {
                        li { key: "{input.name}",
                            span { "{input.name} " strong { "{input.value}" } }
                            span { class: "share", "{input.share}" }
                        }
                    }
                }
                p { class: "hint", {say("number-shares")} }
            }
            if !shown.plus_minus.is_empty() { p { class: "hint", {say("page-plus-minus")} } }
            p { class: "part-head", {say("number-source")} }
            p { {say_part(about, "source")} }
        }
    }
}
