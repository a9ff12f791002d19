//! Every word of the trade with its meaning, as a list.

use dioxus::prelude::*;

use super::controls::Meaning;
use super::words::say;
use crate::text::Term;

/// The screen: by the alphabet of the person's language.
#[component]
pub fn Glossary() -> Element {
    let mut terms: Vec<(String, Term)> = Term::ALL.iter().map(|term| (say(term.key()), *term)).collect();
    terms.sort_by_key(|(word, _)| word.to_lowercase());
    rsx! {
        section {
            h2 { {say("glossary-title")} }
            p { class: "soft", {say("glossary-what")} }
            ul { class: "glossary",
                for (_, term) in terms {
                    li { key: "{term.key()}", Meaning { term } }
                }
            }
        }
    }
}
