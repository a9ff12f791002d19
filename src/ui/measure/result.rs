//! What the measures say so far: turns, volts per turn, flux, and what is still assumed.

use dioxus::prelude::*;

use super::super::controls::Numbers;
use super::super::state::AppState;
use crate::app::guard::guarded;
use crate::app::summary::Summary;
use crate::report::{Shown, show_measure};

/// The result beside the form.
#[component]
pub fn Result() -> Element {
    let app = use_context::<Signal<AppState>>();
    let summary: Option<Summary> = match app.read().answer() {
        Some(Ok(answer)) => guarded(|| answer.summary().clone()).ok(),
        _ => None,
    };
    let Some(summary) = summary else { return rsx! {} };
    // What widens a number is told where it stands open: the list stays calm.
    let rows: Vec<(Shown, String)> = summary
        .rows
        .iter()
        .map(|row| (show_measure(row), String::new()))
        .collect();
    rsx! {
        section { class: "result",
            Numbers { rows }
            p { class: if summary.flux_is_danger { "danger" } else { "hint" }, "{summary.flux}" }
            for text in &summary.disagreements { p { class: "danger", "{text}" } }
            for text in &summary.assumed { p { class: "hint", "{text}" } }
        }
    }
}
