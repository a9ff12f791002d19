//! What the measures say so far: turns, volts per turn, flux, and what is still assumed.

use dioxus::prelude::*;

use super::super::desk::Desk;
use crate::app::summary::{Summary, summary};

/// The result beside the form.
#[component]
pub fn Result() -> Element {
    let desk = use_context::<Signal<Desk>>();
    let summary: Option<Summary> = match desk.read().answer() {
        Some(Ok(answer)) => Some(summary(answer)),
        _ => None,
    };
    let Some(summary) = summary else { return rsx! {} };
    rsx! {
        section { class: "result",
            dl {
                for row in &summary.rows {
                    div { key: "{row.label}",
                        dt { "{row.label}" }
                        dd { "{row.value} "
                            span { class: "plus-minus", "± {row.plus_minus} " }
                            "{row.unit}"
                        }
                    }
                }
            }
            p { class: if summary.flux_is_danger { "danger" } else { "hint" }, "{summary.flux}" }
            for text in &summary.disagreements { p { class: "danger", "{text}" } }
            for text in &summary.assumed { p { class: "hint", "{text}" } }
        }
    }
}
