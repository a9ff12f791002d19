//! What is probably inside, and what each part is worth keeping for.

use dioxus::prelude::*;

use super::super::words::{say, say_part, say_with};
use crate::app::verdict::{Verdict, likely};
use crate::text::Arg;

/// Ranges of the likely transformer, then the parts.
#[component]
pub fn Inside(verdict: Verdict) -> Element {
    let guess = &verdict.answer.transformer;
    let aluminium = format!("{:.0}\u{a0}%", guess.aluminium.si() * 100.0);
    let learned = guess.learned_from as f64;
    rsx! {
        section { class: "inside",
            h2 { {say("ui-inside")} }
            p { class: "hint", {say("ui-inside-help")} }
            dl {
                for row in likely(guess) {
                    div { key: "{row.key}",
                        dt { {say(row.key)} small { "{row.low} – {row.high} {row.unit}" } }
                        dd { "{row.likely} {row.unit}" }
                    }
                }
                div { dt { {say("ui-aluminium")} } dd { "{aluminium}" } }
            }
            p { class: "hint", {say_with("ui-learned", &[("count", Arg::Number(learned))])} }
        }
        details { class: "parts",
            summary { {say("ui-parts")} }
            ul { class: "parts",
                for part in verdict.answer.parts.iter().copied() {
                    li { key: "{part.word()}",
                        strong { {say(part.key())} }
                        span { class: "worth", {say(part.worth().key())} }
                        p { {say(&part.worth_key())} }
                        for hazard in part.hazards() {
                            p { class: "caution", key: "{hazard.word()}", {say(hazard.key())} ": " {say_part(hazard.key(), "harm")} }
                        }
                    }
                }
            }
        }
    }
}
