//! Words of the trade that tell their meaning where they stand.

use dioxus::prelude::*;

use super::super::words::{drawn, say, say_part, say_with, told};
use crate::report::draw::term_drawing;
use crate::text::{Arg, Term};

/// Terms as buttons; a tap unfolds what one means, another tap folds it again.
#[component]
pub fn Terms(words: Vec<Term>) -> Element {
    let mut open = use_signal(|| None::<Term>);
    // Another step may stand here now, with other words.
    let shown = open().filter(|term| words.contains(term));
    if words.is_empty() {
        return rsx! {};
    }
    rsx! {
        div { class: "terms",
            for term in words {
                button {
                    key: "{term.key()}",
                    class: "term",
                    aria_expanded: "{shown == Some(term)}",
                    aria_label: say_with("glossary-ask", &[("term", Arg::Text(&say(term.key())))]),
                    onclick: move |_| open.set((shown != Some(term)).then_some(term)),
                    {say(term.key())}
                    span { class: "query", aria_hidden: "true", "?" }
                }
            }
        }
        if let Some(term) = shown {
            div { class: "meaning", role: "note", Meaning { term } }
        }
    }
}

/// The terms that stand in a text, to be tapped.
#[component]
pub fn TermsIn(text: String) -> Element {
    let words = told(|texts| Some(Term::in_text(&text, texts))).unwrap_or_default();
    rsx! { Terms { words } }
}

/// What a term means, with its drawing.
#[component]
pub fn Meaning(term: Term) -> Element {
    let figure = drawn(|texts| term_drawing(term, texts).unwrap_or_default());
    rsx! {
        p { strong { {say(term.key())} } ": " {say_part(term.key(), "means")} }
        if !figure.is_empty() { figure { dangerous_inner_html: "{figure}" } }
    }
}
