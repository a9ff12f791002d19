//! What the measures say so far: turns, volts per turn, flux, and what is still assumed.

use dioxus::prelude::*;

use super::super::controls::Numbers;
use super::super::state::AppState;
use super::super::words::{say, tell, told};
use crate::app::guard::guarded;
use crate::app::summary::Summary;
use crate::report::{Shown, show};

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
    let rows: Vec<(Shown, String)> = told(|texts| {
        let rows = summary.rows.iter().map(|row| (show(texts, row), String::new()));
        Some(rows.collect())
    })
    .unwrap_or_default();
    rsx! {
        section { class: "result",
            Numbers { rows }
            p { class: if summary.flux_is_danger { "caution" } else { "hint" }, {say(summary.flux)} }
            for text in &summary.disagreements { p { class: "caution", {tell(text)} } }
            for key in &summary.assumed { p { class: "hint", {say(key)} } }
        }
    }
}
